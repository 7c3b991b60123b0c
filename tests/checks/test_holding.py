"""Run-back guard and brake: two things, each judged for itself."""

import math

import pytest

from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS
from tests.checks.winch_lift import MOTOR, ONE_LAYER, WORM, G, everything, judged
from tests.rig_builders import counterweighted

DRUM = 100 * G * 0.05
LOCKING = WORM | {"friction_lowest": 0.07}  # locks at cos 20° tan 4° = 0.0657
SPUR = {"kind": "spur", "ratio": 3, "efficiency": 0.97}
BELT = {"kind": "belt", "ratio": 2, "efficiency": 0.95}


def brake(torque: str, on: str = "motor shaft", sets_itself: bool = True) -> dict:
    return {"torque": torque, "on": on, "sets_itself": sets_itself}


def test_a_locking_worm_is_the_guard_but_never_the_brake():
    found = judged(gears=[LOCKING])
    guard, stop = found.checks["holding.guard"], found.checks["holding.brake"]
    assert guard.verdict == HOLDS
    assert guard.demand.number == pytest.approx(math.cos(math.radians(20)) * math.tan(math.radians(4)))
    assert guard.capacity.number == 0.07
    assert "never the brake" in guard.reason
    assert stop.verdict == FALLS_SHORT
    assert "There is no brake" in stop.reason
    assert "1.533 N·m on the motor's shaft" in stop.remedy  # 1.25 · 49.033 / 40 = 1.53229
    assert "61.3 N·m on the drum" in stop.remedy  # 1.25 · 49.033 = 61.2916
    assert "worm gear is not the holding brake" in stop.source


def test_a_worm_is_judged_at_its_lowest_friction_not_its_highest():
    guard = judged(gears=[WORM]).checks["holding.guard"]  # 0.1 would lock, 0.03 does not
    assert guard.verdict == FALLS_SHORT
    assert "1.82°" in guard.remedy  # arctan(0.03 / cos 20°) = 1.8286°, rounded down


def test_a_small_lead_angle_alone_does_not_lock():
    square = WORM | {"lead_angle": "4.764 deg", "pressure_angle": "1 deg"}
    found = judged(gears=[square])
    assert found.checks["holding.guard"].verdict == FALLS_SHORT
    assert found.holding.back[0].efficiency.number == pytest.approx(0.639, abs=0.001)


def test_without_its_lowest_friction_a_worm_cannot_tell():
    guard = judged(gears=[{k: v for k, v in WORM.items() if k != "friction_lowest"}]).checks["holding.guard"]
    assert guard.verdict == CANNOT_TELL
    assert "lowest friction" in guard.reason


def test_a_lowest_friction_above_the_highest_is_not_believed():
    assert judged(gears=[WORM | {"friction_lowest": 0.2}]).checks["holding.guard"].verdict == CANNOT_TELL


def test_back_driving_stops_at_the_first_stage_that_locks():
    found = judged(gears=[WORM, LOCKING, SPUR | {"efficiency_backwards": 0.95}])
    assert [step.stage.number for step in found.holding.back] == [3, 2]
    assert [step.locks for step in found.holding.back] == [False, True]
    assert found.holding.arrives is None


def test_what_is_driven_back_multiplies_through_stages_that_do_not_lock():
    found = judged(gears=[WORM, SPUR | {"efficiency_backwards": 0.95}])
    back = found.holding.back[1].efficiency.number
    assert found.holding.arrives.number == pytest.approx(DRUM * 0.95 / 3 * back / 40)


def test_a_later_stage_that_surely_locks_is_enough_where_an_earlier_one_is_unknown():
    unknown = {k: v for k, v in WORM.items() if k != "lead_angle"} | {"efficiency": 0.5}
    assert judged(gears=[LOCKING, unknown]).checks["holding.guard"].verdict == HOLDS


def test_a_worm_stated_to_drive_back_does_not_lock_whatever_its_angles_say():
    assert judged(gears=[LOCKING | {"efficiency_backwards": 0.1}]).checks["holding.guard"].verdict == FALLS_SHORT


def test_no_guard_acts_through_a_belt():
    through = judged(gears=[LOCKING, BELT]).checks["holding.guard"]
    assert through.verdict == FALLS_SHORT
    assert "12(3)" in through.reason
    assert judged(gears=[BELT, LOCKING]).checks["holding.guard"].verdict == HOLDS
    braked = judged(gears=[SPUR, BELT], brake=brake("50 N·m"))
    assert braked.checks["holding.guard"].verdict == FALLS_SHORT
    assert "belt" in braked.checks["holding.brake"].reason


def test_a_pawl_on_the_drum_is_judged_by_what_it_holds():
    assert judged(pawl={"holds": "49.1 N·m"}).checks["holding.guard"].verdict == HOLDS
    short = judged(pawl={"holds": "40 N·m"}).checks["holding.guard"]
    assert short.verdict == FALLS_SHORT
    assert "49.04 N·m" in short.remedy
    unknown = judged(pawl={}).checks["holding.guard"]
    assert unknown.verdict == CANNOT_TELL
    assert "49.04 N·m" in unknown.reason


def test_nothing_at_all_is_told_with_what_is_missing():
    guard = judged(gears=[SPUR]).checks["holding.guard"]
    assert guard.verdict == FALLS_SHORT
    assert "no pawl" in guard.reason


def test_a_brake_that_sets_itself_is_guard_and_brake_without_help_from_gear_friction():
    found = judged(gears=[WORM], brake=brake("1.6 N·m"))
    assert found.checks["holding.guard"].verdict == HOLDS
    stop = found.checks["holding.brake"]
    assert stop.demand.number == pytest.approx(DRUM / 40)
    assert stop.required == 1.25
    assert stop.verdict == HOLDS
    assert "150 %" in stop.reason


def test_a_brake_between_full_load_and_125_per_cent_is_guard_but_falls_short_as_brake():
    found = judged(gears=[WORM], brake=brake("1.4 N·m"))
    assert found.checks["holding.guard"].verdict == HOLDS
    assert found.checks["holding.brake"].verdict == FALLS_SHORT
    assert "1.533 N·m" in found.checks["holding.brake"].remedy


def test_a_brake_on_the_drum_meets_the_torque_of_the_drum():
    stop = judged(gears=[WORM], brake=brake("61 N·m", "drum")).checks["holding.brake"]
    assert stop.demand.number == pytest.approx(DRUM)
    assert stop.verdict == FALLS_SHORT
    assert judged(gears=[WORM], brake=brake("62 N·m", "drum")).checks["holding.brake"].verdict == HOLDS


def test_a_brake_that_must_be_set_by_hand_is_neither():
    found = judged(gears=[SPUR], brake=brake("500 N·m", "drum", sets_itself=False))
    assert found.checks["holding.brake"].verdict == FALLS_SHORT
    assert found.checks["holding.guard"].verdict == FALLS_SHORT


def test_friction_in_the_sheaves_is_not_counted_on_to_help_the_brake():
    stop = judged(gears=[WORM], brake=brake("1.6 N·m"), sheave={"efficiency": 0.9}).checks["holding.brake"]
    assert stop.demand.number == pytest.approx(DRUM / 0.9 / 40)


def test_the_worst_layer_counts_for_the_brake():
    found = judged(core=ONE_LAYER | {"width": "30 mm"}, brake=brake("1 N·m", "drum"))
    assert found.checks["holding.brake"].demand.number == pytest.approx(100 * G * 0.056)


def test_a_crank_winch_is_held_to_the_same_rules():
    found = judged(gears=[SPUR], crank={"radius": "300 mm"})
    assert found.checks["holding.guard"].verdict == FALLS_SHORT
    assert "crank's shaft" in found.checks["holding.brake"].remedy


def test_with_a_slack_hoist_rope_nothing_that_rests_on_its_pull_is_judged():
    builder = counterweighted(50, 80, [{"efficiency": 0.96}])
    builder.data["drive"]["drum"] |= {"width": "100 mm", "dead_wraps": 3}
    builder.data["drive"] |= {"gears": [WORM], "motor": MOTOR, "brake": brake("1 N·m"), "supply": {"voltage": "24 V", "resistance": "0 ohm"},
                              "cable": {"area": "2.5 mm²", "length": "4 m", "temperature": "20 °C"}}  # fmt: skip
    checks = everything(builder.rig()).checks
    for id in ("motor.running", "motor.starting", "cable.drop", "holding.guard", "holding.brake"):
        assert checks[id].verdict == CANNOT_TELL
        assert "slack" in checks[id].reason


@pytest.mark.parametrize("vocabulary", ["text", "latex", "typst"])
def test_every_line_prints_in_every_vocabulary(vocabulary):
    found = judged(gears=[LOCKING, SPUR], motor=MOTOR, brake=brake("1 N·m"), core=ONE_LAYER | {"anchor_holds": "200 N", "rope_friction": 0.1},
                   supply={"voltage": "24 V", "resistance": "0 ohm"}, cable={"area": "4 mm²", "length": "4 m", "temperature": "60 °C"})  # fmt: skip
    printed = found.judge.working.printed(vocabulary)
    assert len({line.sign for line in printed}) == len(printed)
    assert all(math.isfinite(line.value) for line in printed)


def test_no_remedy_leads_through_a_belt():
    """A worm that drives back would not become a guard by a smaller lead angle, nor a brake on the shaft: the belt lies between."""
    worm = judged(gears=[WORM, BELT]).checks["holding.guard"]
    assert worm.verdict == FALLS_SHORT
    assert "lead angle" not in worm.remedy
    assert "on the drum itself" in worm.remedy
    braked = judged(gears=[SPUR, BELT], brake=brake("50 N·m")).checks["holding.guard"]
    assert "a brake there" in braked.remedy


def test_while_the_hoist_rope_is_slack_no_torque_is_asked_of_pawl_or_brake():
    builder = counterweighted(50, 80, [{"efficiency": 0.96}])
    builder.data["drive"]["drum"] |= {"width": "100 mm", "dead_wraps": 3}
    builder.data["drive"] |= {"pawl": {}}
    checks = everything(builder.rig()).checks
    for text in (checks["holding.guard"].reason, checks["holding.brake"].remedy):
        assert "What it must hold is not known" in text
        assert "N·m" not in text
        assert "unknown" not in text


# -- what is not stated of the brake -----------------------------------------------------------------------------------


def test_a_brake_whose_torque_is_not_stated_can_not_be_told_and_leads_to_it():
    found = judged(gears=[SPUR], brake={"on": "drum", "sets_itself": True})
    stop = found.checks["holding.brake"]
    assert stop.verdict == CANNOT_TELL
    assert stop.demand.number == pytest.approx(DRUM)
    assert stop.capacity is None
    assert stop.wants == (("drive", "brake", "torque"),)
    assert "61.3 N·m on the drum" in stop.reason  # 1.25 · 49.033
    assert found.checks["holding.guard"].wants[0] == ("drive", "brake", "torque")


def test_a_brake_of_which_nothing_is_stated_is_neither_there_nor_missing():
    found = judged(gears=[SPUR], brake={})
    for id in ("holding.brake", "holding.guard"):
        assert found.checks[id].verdict == CANNOT_TELL
        assert found.checks[id].wants[:3] == (("drive", "brake", "on"), ("drive", "brake", "sets_itself"), ("drive", "brake", "torque"))


def test_a_brake_that_does_not_set_itself_falls_short_whatever_else_is_not_stated():
    stop = judged(gears=[SPUR], brake={"sets_itself": False}).checks["holding.brake"]
    assert stop.verdict == FALLS_SHORT
    assert stop.wants == (("drive", "brake", "sets_itself"),)


def test_a_locking_worm_is_the_guard_though_nothing_is_stated_of_a_brake():
    found = judged(gears=[LOCKING], brake={})
    assert found.checks["holding.guard"].verdict == HOLDS
    assert found.checks["holding.brake"].verdict == CANNOT_TELL


def test_without_the_ratio_a_brake_on_the_drum_is_judged_and_one_on_the_motor_is_not():
    spur = {"kind": "spur", "efficiency": 0.97}
    on_drum, on_motor = (judged(gears=[spur], brake=brake("70 N·m", on)).checks["holding.brake"] for on in ("drum", "motor shaft"))
    assert on_drum.verdict == HOLDS
    assert on_motor.verdict == CANNOT_TELL
    assert on_motor.wants == (("drive", "gears", 0, "ratio"),)
    assert "ratio of gear stage 1" in on_motor.reason


def test_where_the_ratio_is_not_known_no_torque_on_the_motor_s_shaft_is_asked_for():
    found = judged(gears=[{"kind": "spur", "efficiency": 0.97}])
    assert found.holding.at_shaft is None
    assert "shaft" not in found.checks["holding.brake"].remedy
    assert "61.3 N·m on the drum" in found.checks["holding.brake"].remedy
