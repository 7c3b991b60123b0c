"""What is judged and told of guides: sticking, jamming, the fall when it lets go, the play, and what is missing."""

import copy
import math

import pytest
from scipy.integrate import solve_ivp

from rigcheck.checks import guide_drop
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS
from tests import guided_rigs, rigs

W = 100.0 * rigs.G
STRETCHY = {"modulus": "100 GPa", "metal_area": "14 mm²"}


def guide_checks(found) -> dict[str, str]:
    return {check.id: check.verdict for check in found.checks if check.id.startswith("guide.")}


def test_a_load_near_the_line_of_its_guide_comes_down_by_itself():
    found = rigs.assessed(guided_rigs.hung_out(0.2))
    check = rigs.check_of(found, "guide.load.sticks")
    assert (check.verdict, check.demand.number, check.capacity.number) == (HOLDS, pytest.approx(W / 4), pytest.approx(W))
    assert check.factor_value == pytest.approx(4)
    assert "25 %" in check.reason
    assert list(guide_checks(found)) == ["guide.load.sticks"]


def test_a_load_far_from_it_sticks_and_the_remedy_just_does():
    data = guided_rigs.hung_out(1.0)
    found = rigs.assessed(data)
    check = rigs.check_of(found, "guide.load.sticks")
    assert check.verdict == FALLS_SHORT
    assert "at least 0.5 m apart" in check.remedy
    assert "within 0.8 m of the line" in check.remedy
    assert rigs.check_of(found, "taut.hoist").remedy == check.remedy
    mended = copy.deepcopy(data)
    mended["bodies"]["load"]["moves"]["shoes_apart"] = "0.501 m"
    assert rigs.check_of(rigs.assessed(mended), "guide.load.sticks").verdict == HOLDS
    mended = copy.deepcopy(data)
    mended["bodies"]["load"]["centre_of_gravity"] = rigs.place(0.799, 0.3)
    assert rigs.check_of(rigs.assessed(mended), "guide.load.sticks").verdict == HOLDS


def test_the_rated_load_is_none_where_it_sticks_whatever_it_weighs():
    found = rigs.assessed(guided_rigs.hung_out(1.0))
    assert found.whole.rated_load_on_what_is_known_kg == 0.0


def test_what_is_fixed_on_it_counts_with_it():
    data = guided_rigs.hung_out(0.3)
    data["bodies"]["tongs"] = {
        "role": "other",
        "mass": "50 kg",
        "at": rigs.place(-0.6, 0.5),
        "moves": {"kind": "carried", "by": "load"},
    }
    check = rigs.check_of(rigs.assessed(data), "guide.load.sticks")
    # 100 kg at 0.3 m one way and 50 kg at 0.6 m the other: no moment is left
    assert check.demand.number == pytest.approx(0.0, abs=1e-9)
    assert check.capacity.number == pytest.approx(1.5 * W)


def test_a_pull_far_from_the_line_jams_and_one_nearer_does_not():
    found = rigs.assessed(guided_rigs.pulled_off(-0.9, -0.9))
    check = rigs.check_of(found, "guide.load.jams")
    assert (check.verdict, check.demand.number) == (FALLS_SHORT, pytest.approx(1.125))
    assert "within 0.8 m of the line" in check.remedy
    end = rigs.check_of(found, "rope.hoist.first-end")
    assert end.verdict == CANNOT_TELL
    assert "A guide may jam" in end.reason
    assert rigs.check_of(rigs.assessed(guided_rigs.pulled_off(-0.7, -0.7)), "guide.load.jams").verdict == HOLDS


def test_the_friction_of_a_sheave_does_not_enter_what_a_pull_rubs_on_the_load():
    check = rigs.check_of(rigs.assessed(guided_rigs.pulled_off(-0.4, -0.4, 0.9)), "guide.load.jams")
    assert check.demand.number == pytest.approx(0.5)


def test_how_far_it_falls_and_the_pull_then():
    data = guided_rigs.hung_out(0.9, runs_off="0.2 m")
    data["ropes"]["hoist"] |= STRETCHY
    check = rigs.check_of(rigs.assessed(data), "guide.load.drop")
    turn = 2 * math.pi * rigs.DRUM_RADIUS_M
    assert "It falls 0.2 m when it lets go." in check.reason
    assert f"for every turn of the drum that is paid out while it sticks it falls {turn:.3f}".lower()[:70] in check.reason.lower()
    assert check.demand.number == pytest.approx(10598, rel=0.02)
    assert check.required == pytest.approx(5)


def test_the_pull_of_a_fall_is_that_of_the_motion_followed_step_by_step():
    hanging, slack, stretchy, length, mass = 800.0, 0.15, 1.4e6, 5.0, 800.0 / rigs.G
    stiffness = stretchy / length

    def moved(_, state):
        fallen, speed = state
        return [speed, rigs.G - stiffness / mass * max(fallen - slack, 0.0)]

    path = solve_ivp(moved, (0.0, 0.4), [0.0, 0.0], max_step=2e-4, rtol=1e-9, atol=1e-9)
    peak = stiffness * (path.y[0].max() - slack)
    assert guide_drop.peak_pull(hanging=hanging, slack=slack, stretchy=stretchy, length=length) == pytest.approx(peak, rel=1e-4)


def test_over_a_tackle_it_falls_its_share_of_the_rope():
    data = rigs.tackle(2)
    data["bodies"]["load"] |= {"centre_of_gravity": rigs.place(1.0, 0.3), "moves": guided_rigs.shoes(runs_off="0.2 m")}
    check = rigs.check_of(rigs.assessed(data), "guide.load.drop")
    assert check.verdict == CANNOT_TELL
    assert "It falls 0.1 m when it lets go." in check.reason
    assert ("ropes", "hoist", "modulus") in check.wants


def test_where_it_is_not_known_how_much_rope_runs_off_that_is_asked():
    check = rigs.check_of(rigs.assessed(guided_rigs.hung_out(0.9)), "guide.load.drop")
    assert check.verdict == CANNOT_TELL
    assert check.wants == (("bodies", "load", "moves", "runs_off"),)


@pytest.mark.parametrize("field", ["lower_shoe", "friction", "shoes_apart"])
def test_what_is_not_stated_of_the_shoes_is_asked_for(field):
    data = guided_rigs.hung_out(0.2)
    del data["bodies"]["load"]["moves"][field]
    found = rigs.assessed(data)
    check = rigs.check_of(found, "guide.load.sticks")
    assert (check.verdict, check.wants) == (CANNOT_TELL, (("bodies", "load", "moves", field),))
    assert any("the friction of guides: neither is counted" in text for text in found.not_checked)
    assert found.whole.rated_load_kg is None


def test_a_guide_of_which_nothing_is_said_has_no_check_and_is_named_as_left_out():
    found = rigs.assessed(rigs.lead_sheave())
    assert not guide_checks(found)
    assert "The weight of the ropes themselves and the friction of guides: neither is counted in any pull." in found.not_checked


def test_a_guide_that_is_counted_is_no_longer_named_and_the_other_one_is():
    found = rigs.assessed(guided_rigs.hung_out(0.2))
    assert "The weight of the ropes themselves: it is counted in no pull." in found.not_checked
    data = guided_rigs.counterweighted(0.1, 0.0, 0.0)
    del data["bodies"]["counterweight"]["moves"]
    words = "The weight of the ropes themselves and the friction of the guide of counterweight: neither is counted in any pull."
    assert words in rigs.assessed(data).not_checked


def test_ropes_that_share_leave_the_pulls_open_but_not_whether_it_sticks():
    data = rigs.falls([0.0, 0.6])
    data["bodies"]["load"] |= {"centre_of_gravity": rigs.place(0.2, 0.3), "moves": guided_rigs.shoes()}
    assert guide_checks(rigs.assessed(data)) == {"guide.load.pulls": CANNOT_TELL, "guide.load.sticks": HOLDS}


def test_a_guide_that_leans_is_pressed_by_the_weight_and_asks_how_wide_its_faces_are():
    data = guided_rigs.slanting(0.0, 0.3, 0.3, along=(1.0, 1.0))
    check = rigs.check_of(rigs.assessed(data), "guide.load.sticks")
    lever = 0.15 - 0.2 * math.sqrt(0.5)  # its weight from the middle between the shoes, across
    over = 2 * 0.3 * W * (lever + 0.3 * math.sqrt(0.5) * 0.1 / 2) / 0.4
    assert check.demand.number == pytest.approx(max(over, 0.3 * W * math.sqrt(0.5)))
    assert check.capacity.number == pytest.approx(W * math.sqrt(0.5))
    del data["bodies"]["load"]["moves"]["faces_apart"]
    asked = rigs.check_of(rigs.assessed(data), "guide.load.sticks")
    assert (asked.verdict, asked.wants[-1][-1]) == (CANNOT_TELL, "faces_apart")


def test_how_far_the_play_lets_it_lean_is_told():
    data = guided_rigs.hung_out(0.2, play="4 mm")
    data["bodies"]["load"]["size"] = ["1 m", "0.5 m"]
    told = " ".join(rigs.assessed(data).not_checked)
    assert "leans up to 0.58° either way, so that its far edge may hang 5 mm lower" in told  # 4 mm in 0.4 m: 0.01, and 0.5 m of that
    assert "play between shoes and rail is not stated" in " ".join(rigs.assessed(guided_rigs.hung_out(0.2)).not_checked)


def test_how_hard_a_shoe_is_pressed_is_told():
    told = " ".join(rigs.assessed(guided_rigs.hung_out(0.2)).not_checked)
    assert "up to 491 N on one shoe" in told  # W 0.2 / 0.4


def test_both_guides_of_a_counterweighted_lift_are_judged():
    found = rigs.assessed(guided_rigs.counterweighted(0.2, 0.1, 0.1))
    assert guide_checks(found) == {"guide.load.sticks": HOLDS, "guide.counterweight.sticks": HOLDS}
    assert "cw rope may pull on it besides" in rigs.check_of(found, "guide.load.sticks").reason


@pytest.mark.parametrize(("load", "guide", "weight"), [(0.3, 0.1, -0.15), (0.05, 0.2, 0.1), (0.0, 0.0, 0.0)])
def test_how_hard_a_start_slackens_the_rope_is_where_the_pull_with_inertia_is_nothing(load, guide, weight):
    data = guided_rigs.counterweighted(load, guide, weight, friction=0.2)
    data["limits"]["stopping"] = "0.1 m/s²"
    found = rigs.assessed(data)
    limit = rigs.check_of(found, "counterweight.stopping").capacity.number
    solution = found.solution
    # starting down, the load weighs less and the counterweight more by its mass times the acceleration
    weights = {
        solution.weights["load"]: [[100.0 * (rigs.G - limit)]],
        solution.weights["counterweight"]: [[40.0 * (rigs.G + limit)]],
    }
    (pull,) = solution.working.evaluate(weights, [solution.drive_pull["lowering"]])
    assert float(pull[0].min()) == pytest.approx(0.0, abs=1e-3)
    assert limit > 0


def test_without_a_moment_on_the_shoes_the_start_that_slackens_is_that_without_guides():
    data = guided_rigs.counterweighted(0.1, 0.1, 0.0, friction=1e-9)
    plain = copy.deepcopy(data)
    for body in plain["bodies"].values():
        body["moves"] = {"kind": "guided"}
    for each in (data, plain):
        each["limits"]["stopping"] = "0.1 m/s²"
    ours, theirs = (rigs.check_of(rigs.assessed(each), "counterweight.stopping").capacity.number for each in (data, plain))
    assert ours == pytest.approx(theirs, rel=1e-6)


def test_the_best_counterweight_is_still_found_and_lighter_than_without_friction():
    data = guided_rigs.counterweighted(0.1, 0.1, 0.1, friction=0.2)
    data["limits"] |= {"stopping": "0.1 m/s²", "taut_margin": "50 N"}
    plain = copy.deepcopy(data)
    for body in plain["bodies"].values():
        body["moves"] = {"kind": "guided"}
    ours, theirs = rigs.assessed(data), rigs.assessed(plain)
    assert ours.best_counterweight_kg == pytest.approx(theirs.best_counterweight_kg, rel=0.4)
    assert ours.best_counterweight_kg < theirs.best_counterweight_kg


def test_two_ropes_that_press_a_guide_harder_than_they_lift_jam_it_too():
    data = guided_rigs.counterweighted(-0.05, -0.05, 0.0, friction=0.5)
    data["bodies"]["counterweight"] |= {"mass": "70 kg", "moves": {"kind": "guided"}}
    data["bodies"]["load"]["moves"]["shoes_apart"] = "0.1 m"
    found = rigs.assessed(data)
    check = rigs.check_of(found, "guide.load.jams")
    assert check.verdict == FALLS_SHORT
    assert "Raising, no pull moves it" in check.reason
    assert rigs.check_of(found, "taut.hoist").verdict == CANNOT_TELL


@pytest.mark.parametrize(("guide", "verdict"), [(-0.78, HOLDS), (-0.79, FALLS_SHORT), (-0.7999, FALLS_SHORT)])
def test_near_the_edge_of_jamming_nothing_is_told_that_rests_on_the_last_digits(guide, verdict):
    # 2 · 0.25 · 0.8 / 0.4 = 1
    found = rigs.assessed(guided_rigs.pulled_off(guide, guide))
    assert rigs.check_of(found, "guide.load.jams").verdict == verdict
    unknown = rigs.check_of(found, "rope.hoist.first-end").verdict == CANNOT_TELL
    assert unknown == (verdict == FALLS_SHORT)
