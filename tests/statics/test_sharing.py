"""More ropes than needed: the worst share is judged, the likely one is shown. W = 980.665 N, falls plumb."""

import numpy
import pytest

from rigcheck.checks.check import CANNOT_TELL
from rigcheck.statics.solution import solve
from tests.rigs import G, assessed, check_of, falls, fast, lead_sheave, place, pulls, rig, steel

W = 100 * G
TWO, FOUR = [-0.5, 0.5], [-0.6, -0.2, 0.2, 0.6]


def moduli(data: dict, *pascal: str) -> dict:
    for rope, modulus in zip(data["ropes"].values(), pascal, strict=True):
        rope |= {"modulus": modulus, "metal_area": "15 mm²"}
    return data


def likely(solution, name: str) -> float:
    return float(solution.likely[name].value[0])


def test_of_two_falls_to_a_load_held_level_either_may_carry_everything():
    solution = solve(rig(falls(TWO)))
    assert solution.shared == ["fall 1", "fall 2"]
    assert pulls(solution, "fall 1", 0) == pytest.approx((W, W, 0, W))
    assert pulls(solution, "fall 2", 0) == pytest.approx((W, W, 0, W))


def test_the_worst_share_is_what_the_rope_is_judged_at():
    assert check_of(assessed(falls(TWO)), "rope.fall 1.first-end").demand.number == pytest.approx(W)


def test_with_friction_the_worst_share_at_the_drum_is_all_of_it_over_eta():
    solution = solve(rig(falls(TWO, efficiency=0.9)))
    assert pulls(solution, "fall 1", 1)[:2] == pytest.approx((W / 0.9, 0.9 * W))


@pytest.mark.parametrize("places", [TWO, FOUR, [-0.6, 0.0, 0.6]])
def test_of_any_number_of_falls_to_a_level_load_one_may_carry_everything(places):
    solution = solve(rig(falls(places)))
    for name in solution.runs:
        assert pulls(solution, name, 0)[0] == pytest.approx(W)


def test_falls_alike_but_for_their_length_share_likely_by_its_inverse():
    """The falls end on one drum, so their lengths differ; without friction T1 / T2 = l2 / l1 and T1 + T2 = W."""
    solution = solve(rig(falls(TWO)))
    lengths = [float(solution.travel.paths[name].straight[:, 0].sum()) for name in ("fall 1", "fall 2")]
    assert likely(solution, "fall 1") == pytest.approx(W * lengths[1] / sum(lengths))
    assert likely(solution, "fall 1") + likely(solution, "fall 2") == pytest.approx(W)


def test_falls_from_either_side_of_one_drum_run_over_and_under_it_and_share_by_their_lengths():
    data = falls(TWO)
    for number, across, turns in ((1, -0.5, "clockwise"), (2, 0.5, "anticlockwise")):
        data["points"][f"hanger of head {number}"]["at"] = place(across + (0.06 if turns == "clockwise" else -0.06), 4)
        data["ropes"][f"fall {number}"]["path"] = [
            fast("load", f"eye {number}"), {"over": f"head {number}", "turns": turns}, {"wound_on": "drum", "turns": "clockwise"},
        ]  # fmt: skip
    data["drive"]["drum"]["at"] = place(0, 3)
    solution = solve(rig(data))
    one, two = (float(solution.travel.paths[name].straight[:, 0].sum()) for name in ("fall 1", "fall 2"))
    assert one != pytest.approx(two, abs=1e-3)
    assert [likely(solution, name) for name in solution.runs] == pytest.approx([W * two / (one + two), W * one / (one + two)])


def test_a_rope_three_times_as_stiff_takes_more_in_proportion_to_ea_over_l():
    solution = solve(rig(moduli(falls(TWO), "120 GPa", "40 GPa")))
    one, two = (e / float(solution.travel.paths[n].straight[:, 0].sum()) for e, n in ((120.0, "fall 1"), (40.0, "fall 2")))
    assert likely(solution, "fall 1") == pytest.approx(W * one / (one + two))


def test_ropes_that_differ_and_whose_modulus_is_unknown_have_no_likely_share():
    data = falls(TWO)
    data["ropes"]["fall 2"]["construction"] = "6x19 FC"
    assert solve(rig(data)).likely == {"fall 1": None, "fall 2": None}


def test_of_four_falls_to_a_tilting_load_the_worst_share_comes_with_the_fall_across_the_middle():
    """At -0.2 m with the one at 0.6 m: T · 0.8 = W · 0.6, so 0.75 W. At -0.6 m with 0.6 m: W / 2."""
    solution = solve(rig(falls(FOUR, tilts=True)))
    assert [pulls(solution, name, 0)[0] for name in solution.runs] == pytest.approx([W / 2, 0.75 * W, 0.75 * W, W / 2])


def test_two_falls_to_a_tilting_load_do_not_share_at_all():
    """Centre of gravity 0.1 m right of the middle: the right fall carries W · 0.6 / 1.0."""
    solution = solve(rig(falls(TWO, tilts=True, gravity_m=0.1)))
    assert solution.shared == []
    assert [pulls(solution, name, 0)[0] for name in solution.runs] == pytest.approx([0.4 * W, 0.6 * W])


def tied_down() -> dict:
    """A rope from the load to a point 5 m aside and 10 mm lower: over 10 mm of travel it hardly changes its length, and it pulls down."""
    data = lead_sheave()
    data["bodies"]["load"]["picks"]["side"] = place(-0.2, 0.5)
    data["points"]["wall"] = {"at": place(-5.2, 0.49)}
    data["ropes"]["tie"] = steel([fast("load", "side"), fast("wall")])
    data["limits"]["travel"] = "10 mm"
    return data


def test_ropes_that_can_be_tightened_against_each_other_have_no_worst_share():
    solution = solve(rig(tied_down()))
    assert solution.shared == ["hoist", "tie"]
    for name in ("hoist", "tie"):
        assert numpy.isnan(pulls(solution, name, 0)[:2]).all()


def test_ropes_that_can_be_tightened_against_each_other_cannot_be_told_and_it_is_said_why():
    found = assessed(tied_down())
    for id in ("rope.hoist.first-end", "rope.hoist.sheave.head", "rope.tie.first-end", "taut.hoist"):
        check = check_of(found, id)
        assert check.verdict == CANNOT_TELL
        assert "depends on how tight the ropes are set against each other" in check.reason, id
    assert found.whole.rated_load_kg is None
