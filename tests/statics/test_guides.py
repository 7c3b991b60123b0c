"""Guides that rub, by hand: 100 kg off the line of its guide, shoes 0.4 m apart, friction 0.25."""

import copy

import numpy
import pytest

from rigcheck.rig import examples
from rigcheck.statics.solution import solve
from tests import guided_rigs, rigs

W = 100.0 * rigs.G
STATIONS = numpy.linspace(0.0, 1.0, 3)


def solved(data: dict):
    return solve(rigs.rig(data), STATIONS)


def test_a_rope_in_the_line_of_the_guide_lifts_the_weight_and_what_it_makes_rub():
    # at 0.2 m each shoe is pressed with W 0.2 / 0.4 = W/2, so both together rub with 0.25 W
    assert rigs.pulls(solved(guided_rigs.hung_out(0.2)), "hoist", 0) == pytest.approx((1.25 * W, 0.75 * W, 0.75 * W, 1.25 * W))


def test_a_pull_off_the_line_presses_the_shoes_too_and_the_balance_is_solved_with_it():
    # guide 0.2 m left of the rope, weight 0.2 m right of it: T = W + 0.25 · 2 (0.4 W - 0.2 T) / 0.4
    raising, lowering, *_ = rigs.pulls(solved(guided_rigs.pulled_off(0.2, -0.2)), "hoist", 0)
    assert raising == pytest.approx(W * (1 + 0.5) / (1 + 0.25))
    assert lowering == pytest.approx(W * (1 - 0.5) / (1 - 0.25))


def test_which_way_the_shoes_are_pressed_turns_round_where_the_pull_outweighs_the_load():
    # weight 0.1 m and rope 0.3 m right of the guide: raising, the rope presses the other way: T = W + 1.25 (0.3 T - 0.1 W)
    raising, lowering, *_ = rigs.pulls(solved(guided_rigs.pulled_off(-0.2, -0.3)), "hoist", 0)
    assert raising == pytest.approx(W * (1 - 0.125) / (1 - 0.375))
    assert lowering == pytest.approx(W * (1 + 0.125) / (1 + 0.375))


def test_the_friction_of_sheave_and_guide_come_together():
    raising, *_ = rigs.pulls(solved(guided_rigs.hung_out(0.2, 0.9)), "hoist", 1)
    assert raising == pytest.approx(1.25 * W / 0.9)


def test_a_rope_that_cannot_lower_its_load_is_shown_to_go_slack():
    # at 0.9 m the friction is 1.125 W
    solution = solved(guided_rigs.hung_out(0.9))
    assert rigs.pulls(solution, "hoist", 0) == pytest.approx((2.125 * W, -0.125 * W, 0.0, 2.125 * W))
    assert solution.slack().all()


def test_where_a_pull_presses_harder_than_it_lifts_nothing_is_told_of_raising():
    # a rope 0.9 m from the guide rubs 1.125 newtons for each that it lifts, and the weight in the guide does not help
    solution = solved(guided_rigs.pulled_off(-0.9, -0.9))
    raising, lowering, _, most = rigs.pulls(solution, "hoist", 0)
    assert numpy.isnan(raising)
    assert numpy.isnan(most)
    assert lowering == pytest.approx(W / 2.125)


def test_without_a_word_on_its_shoes_every_number_stays_and_with_half_of_them_too():
    plain = solved(rigs.lead_sheave(100.0, 0.9))
    half = rigs.lead_sheave(100.0, 0.9)
    half["bodies"]["load"]["moves"] = {"kind": "guided", "shoes_apart": "0.4 m", "friction": 0.3}
    solution = solved(half)
    for run in (0, 1):
        assert rigs.pulls(solution, "hoist", run) == rigs.pulls(plain, "hoist", run)
    assert [each.body for each in solution.uncounted_guides] == ["load"]
    assert not plain.uncounted_guides


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda d: d["bodies"]["load"]["moves"].pop("lower_shoe"), "Where its lower shoe is"),
        (lambda d: d["bodies"]["load"]["moves"].pop("friction"), "friction of its guide is not stated"),
        (lambda d: d["bodies"]["load"].update(centre_of_gravity=rigs.place(0.2, 0.3, 0.1)), "before or behind its shoes"),
        (lambda d: d["points"]["hanger of head"].update(at=rigs.place(0.3, 4)), "matters how far apart the two faces are"),
    ],
)
def test_what_keeps_the_friction_out_of_the_pulls_is_said(change, words):
    data = guided_rigs.hung_out(0.2)
    change(data)
    (left,) = solved(data).uncounted_guides
    assert words in left.reason


def test_ropes_that_share_keep_their_guide_uncounted():
    data = rigs.falls([0.0, 0.6])
    data["bodies"]["load"]["moves"] = guided_rigs.shoes()
    solution = solved(data)
    assert "more ropes than hold" in solution.uncounted_guides[0].reason
    assert not solution.guides["raising"]


@pytest.mark.parametrize("factor", [0.3, 0.7, 1.6, 4.0])
def test_a_line_asked_for_another_load_says_what_that_load_would(factor):
    data = guided_rigs.counterweighted(0.3, 0.1, -0.15)
    solution = solved(data)
    wanted = [getattr(solution.runs["hoist"][0], word) for word in ("raising", "lowering", "holding_least", "holding_most")]
    found = solution.working.evaluate({solution.masses["load"]: numpy.array([[100.0 * factor]])}, wanted)
    heavier = copy.deepcopy(data)
    heavier["bodies"]["load"]["mass"] = f"{100.0 * factor!r} kg"
    asked = rigs.pulls(solved(heavier), "hoist", 0)
    assert [float(value[0, 0]) for value in found] == pytest.approx(list(asked), rel=1e-9, nan_ok=True)


def test_the_working_leads_from_the_shoes_to_the_pull():
    printed = {line.sign: line for line in solve(examples.example("tile-lift")).working.printed()}
    assert printed["r[G tray of tiles, guide]"].numbers == "2·(-0.45 m) / 0.5 m"
    raising = printed["T[hoist rope 2↑]"]
    assert raising.formula == (
        "(W[tray of tiles] + f[tray of tiles, raising]·W[tray of tiles]·r[G tray of tiles, guide]) / "
        "(η − f[tray of tiles, raising]·η·r[hoist rope 1, tray of tiles])"
    )
    # 588.4 N (1 + 0.2 · 1.8) / (0.96 (1 + 0.2 · 0.4)) with the sheave's 1/1.09
    assert raising.value == pytest.approx(60 * rigs.G * 1.36 / (1.08 * printed["η"].value), rel=1e-9)
