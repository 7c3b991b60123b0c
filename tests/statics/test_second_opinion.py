"""The seamanship rule beside the solver: S = W (1 + n/10) / P, and silence where it does not apply."""

import pytest

from rigcheck.statics.second_opinion import seamanship_pull
from rigcheck.statics.solution import solve
from tests.rigs import DRUM_RADIUS_M, G, counterweighted, falls, lead_sheave, place, rig, straight_lift, tackle

W = 100 * G


def opinion(data: dict):
    return seamanship_pull(solve(rig(data)))


@pytest.mark.parametrize(("parts", "by_hand"), [(1, 1.1), (2, 1.2 / 2), (3, 1.3 / 3), (4, 1.4 / 4), (6, 1.6 / 6)])
def test_a_tackle_rove_to_disadvantage_has_as_many_sheaves_as_parts(parts, by_hand):
    assert opinion(tackle(parts)).number == pytest.approx(by_hand * W)


def test_lead_sheaves_are_counted_among_the_sheaves():
    assert opinion(lead_sheave(heads=3)).number == pytest.approx(1.3 * W)


def test_it_is_no_line_of_the_efficiency_law():
    assert opinion(tackle(4, efficiency=0.5)).number == pytest.approx(1.4 / 4 * W)


def test_it_grows_with_the_load_as_a_line_of_working():
    solution = solve(rig(tackle(2)))
    line = seamanship_pull(solution)
    (doubled,) = solution.working.evaluate({solution.masses["load"]: solution.masses["load"].value * 2}, [line])
    assert doubled[0] == pytest.approx(2 * 0.6 * W)


def slanting() -> dict:
    data = lead_sheave()
    data["points"]["hanger of head"]["at"] = place(0.5, 4)
    data["drive"]["drum"]["at"] = place(0.56 + DRUM_RADIUS_M, 0.5)
    return data


@pytest.mark.parametrize(
    "data",
    [straight_lift(), counterweighted(), falls([-0.5, 0.5]), slanting()],
    ids=["no sheave", "counterweight", "two ropes", "slanting fall"],
)
def test_elsewhere_it_says_nothing(data):
    assert opinion(data) is None
