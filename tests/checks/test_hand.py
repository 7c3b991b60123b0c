"""Work by hand against hand calculation."""

import pytest

from rigcheck.checks.check import CANNOT_TELL, COMMON_PRACTICE, FALLS_SHORT, HOLDS
from tests.checks.winch_lift import ONE_LAYER, WORM, G, everything, judged
from tests.rig_builders import straight

SPUR = [{"kind": "spur", "ratio": 4, "efficiency": 0.8}]


def hand_line(mass_kg: float, people: int = 1, efficiency: float = 1.0):
    builder = straight(mass_kg, sheave={"efficiency": efficiency})
    builder.data["drive"] = {"kind": "hand line", "people": people}
    builder.data["ropes"]["hoist"]["path"][-1] = {"pulled_by_hand_at": ["1.2 m", "1 m"]}
    return everything(builder.rig())


def test_the_pull_on_a_hand_line_is_shared_by_those_who_pull():
    alone = hand_line(40)
    assert alone.checks["hand.pull"].demand.number == pytest.approx(40 * G)
    assert alone.checks["hand.pull"].verdict == FALLS_SHORT
    assert "At least 2 people" in alone.checks["hand.pull"].remedy
    assert hand_line(40, people=2).checks["hand.pull"].verdict == HOLDS


def test_friction_counts_against_the_hand():
    assert hand_line(20, efficiency=0.9).hand.effort.number == pytest.approx(20 * G / 0.9)


def test_the_customary_pull_says_that_it_has_no_source():
    check = hand_line(20).checks["hand.pull"]
    assert check.source == "common practice, no source"
    assert check.capacity.source == "common practice, no source"


@pytest.mark.parametrize("mass_kg", [20, 40])
def test_beside_the_pull_of_a_person_stands_that_the_line_must_be_belayed_and_how_hard_one_pulls(mass_kg):
    check = hand_line(mass_kg).checks["hand.pull"]
    assert "Nothing but the hands holds the load until the line is belayed" in check.reason
    assert "No more than 250 N for each person" in check.reason


def test_a_customary_effort_is_marked_as_a_rule_of_thumb_without_a_source():
    crank = judged(gears=SPUR, crank={"radius": "300 mm"}).checks["crank.effort"]
    for check in (hand_line(20).checks["hand.pull"], crank):
        assert check.mark == COMMON_PRACTICE
        assert "a rule of thumb that no source supports" in check.reason


def test_a_hand_line_leaves_out_what_it_is_belayed_to_and_asks_for_no_brake():
    found = hand_line(20)
    assert any("the cleat or pin that it is belayed to" in text for text in found.judge.not_checked)
    assert set(found.checks) == {"hand.pull"}
    assert (found.drum, found.gears, found.drive, found.holding) == (None, None, None, None)


def test_effort_at_the_crank_is_drum_torque_over_ratio_efficiency_and_handle():
    found = judged(gears=SPUR, crank={"radius": "300 mm"})
    assert found.hand.effort.number == pytest.approx(100 * G * 0.05 / (4 * 0.8 * 0.3))
    assert found.checks["crank.effort"].verdict == HOLDS


def test_too_heavy_a_crank_names_people_handle_and_ratio_that_would_do():
    check = judged(400, gears=SPUR, crank={"radius": "300 mm"}).checks["crank.effort"]  # 204.3 N
    assert check.verdict == FALLS_SHORT
    assert "At least 2 people" in check.remedy
    assert "409 mm" in check.remedy  # 300 · 204.305 / 150 = 408.61
    assert "1:5.449 " in check.remedy  # 4 · 204.305 / 150 = 5.44814
    assert judged(400, gears=SPUR, crank={"radius": "409 mm"}).checks["crank.effort"].verdict == HOLDS
    assert judged(400, gears=SPUR, crank={"radius": "300 mm", "people": 2}).checks["crank.effort"].verdict == HOLDS


def test_a_crank_through_gears_of_unknown_efficiency_cannot_tell():
    found = judged(gears=[{"kind": "spur", "ratio": 4}], crank={"radius": "300 mm"})
    assert found.checks["crank.effort"].verdict == CANNOT_TELL


def test_a_crank_on_an_unknown_layer_cannot_tell():
    core = {k: v for k, v in ONE_LAYER.items() if k != "width"}
    assert judged(core=core, gears=SPUR, crank={"radius": "300 mm"}).checks["crank.effort"].verdict == CANNOT_TELL


def test_a_motor_winch_has_no_work_by_hand():
    assert judged(gears=[WORM]).hand is None
