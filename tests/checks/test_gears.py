"""The gear train against hand calculation, and what must hold of any worm stage."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as some

from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS
from rigcheck.checks.gear_formulas import locking_friction, worm_efficiency, worm_efficiency_backwards
from rigcheck.errors import OutOfRangeError
from tests.checks.winch_lift import MOTOR, WORM, G, judged

LEADS = some.floats(math.radians(0.5), math.radians(45))
PRESSURES = some.floats(0, math.radians(30))
FRICTIONS = some.floats(0, 0.5)


@given(LEADS, PRESSURES, FRICTIONS)
def test_the_load_cannot_drive_the_worm_exactly_when_friction_reaches_the_locking_value(lead, pressure, friction):
    locks = friction >= locking_friction(lead=lead, pressure=pressure)
    assert (worm_efficiency_backwards(lead=lead, pressure=pressure, friction=friction) <= 0) == locks


@given(LEADS, PRESSURES)
def test_at_the_limit_of_locking_the_driving_efficiency_is_below_one_half(lead, pressure):
    friction = locking_friction(lead=lead, pressure=pressure)
    if friction <= 0.5:
        expected = (1 - math.tan(lead) ** 2) / 2
        assert worm_efficiency(lead=lead, pressure=pressure, friction=friction) == pytest.approx(expected)
        assert expected < 0.5


@given(LEADS, PRESSURES, FRICTIONS, some.floats(0, 1))
def test_more_friction_never_raises_either_efficiency(lead, pressure, friction, share):
    less = friction * share
    assert (
        worm_efficiency(lead=lead, pressure=pressure, friction=less)
        >= worm_efficiency(lead=lead, pressure=pressure, friction=friction) - 1e-12
    )
    assert (
        worm_efficiency_backwards(lead=lead, pressure=pressure, friction=less)
        >= worm_efficiency_backwards(lead=lead, pressure=pressure, friction=friction) - 1e-9
    )


def test_without_friction_a_worm_loses_nothing_either_way():
    worm = {"lead": math.radians(5), "pressure": math.radians(20), "friction": 0.0}
    assert worm_efficiency(**worm) == pytest.approx(1)
    assert worm_efficiency_backwards(**worm) == pytest.approx(1)


def test_a_lead_angle_beyond_the_range_is_refused():
    with pytest.raises(OutOfRangeError, match="lead angle"):
        worm_efficiency(lead=math.radians(60), pressure=0.3, friction=0.05)


def test_ratio_and_efficiency_multiply_along_the_train():
    found = judged(gears=[WORM, {"kind": "spur", "ratio": 3, "efficiency": 0.97}])
    tan, cos = math.tan(math.radians(4)), math.cos(math.radians(20))
    worm = tan * (cos - 0.1 * tan) / (cos * tan + 0.1)
    assert found.gears.ratio.number == pytest.approx(120)
    assert found.gears.efficiency.number == pytest.approx(worm * 0.97)


def test_no_gears_are_ratio_one_without_loss():
    found = judged()
    assert (found.gears.ratio.number, found.gears.efficiency.number) == (1.0, 1.0)


def test_of_a_stated_and_a_worked_efficiency_the_lower_counts():
    worked = judged(gears=[WORM]).gears.efficiency.number
    assert judged(gears=[WORM | {"efficiency": 0.9}]).gears.efficiency.number == pytest.approx(worked)
    assert judged(gears=[WORM | {"efficiency": 0.2}]).gears.efficiency.number == pytest.approx(0.2)


def test_a_worm_without_its_pressure_angle_is_not_given_one():
    found = judged(gears=[{k: v for k, v in WORM.items() if k != "pressure_angle"}])
    assert found.gears.efficiency is None
    assert "normal pressure angle" in found.gears.unknown


def test_a_stage_without_efficiency_is_named_with_the_printed_range():
    found = judged(gears=[WORM, {"kind": "spur", "ratio": 3}])
    assert found.gears.efficiency is None
    assert "gear stage 2 (spur)" in found.gears.unknown
    assert "0.97 to 0.99" in found.gears.unknown


def test_the_output_torque_of_each_stage_is_judged_against_its_rating():
    gears = [WORM | {"output_torque_rating": "20 N·m"}, {"kind": "spur", "ratio": 3, "efficiency": 0.97, "output_torque_rating": "40 N·m"}]
    checks = judged(gears=gears).checks
    drum = 100 * G * 0.05
    assert checks["gears.2.torque"].demand.number == pytest.approx(drum)
    assert checks["gears.2.torque"].verdict == FALLS_SHORT
    assert "49.04 N·m" in checks["gears.2.torque"].remedy
    assert checks["gears.1.torque"].demand.number == pytest.approx(drum / (3 * 0.97))
    assert checks["gears.1.torque"].verdict == HOLDS


def test_a_rating_behind_a_stage_of_unknown_efficiency_cannot_tell():
    gears = [WORM | {"output_torque_rating": "20 N·m"}, {"kind": "spur", "ratio": 3}]
    assert judged(gears=gears).checks["gears.1.torque"].verdict == CANNOT_TELL


def test_a_ratio_that_is_not_stated_leaves_open_all_that_rests_on_it_and_nothing_else():
    found = judged(
        gears=[
            {"kind": "spur", "efficiency": 0.97, "output_torque_rating": "90 N·m"},
            {"kind": "spur", "ratio": 4, "efficiency": 0.97, "output_torque_rating": "90 N·m"},
        ],
        motor=MOTOR,
    )
    assert found.gears.ratio is None
    assert found.gears.wants == (("drive", "gears", 0, "ratio"),)
    assert found.gears.efficiency.number == pytest.approx(0.97**2)
    assert found.checks["motor.running"].verdict == CANNOT_TELL
    assert found.checks["motor.running"].wants == (("drive", "gears", 0, "ratio"),)
    # what lies between these stages and the drum is stated
    assert found.checks["gears.1.torque"].demand.number == pytest.approx(100 * G * 0.05 / (4 * 0.97))
    assert found.checks["gears.2.torque"].verdict == HOLDS


@pytest.mark.parametrize(("ratio", "told"), [(6, False), (60, True)])
def test_a_ratio_that_one_pair_hardly_has_is_told(ratio, told):
    found = judged(gears=[{"kind": "spur", "ratio": ratio, "efficiency": 0.9}])
    assert any("one pair of wheels" in text for text in found.judge.not_checked) == told
    asked = judged(gears=[{"kind": "spur", "ratio": ratio}]).gears.unknown
    assert ("whose efficiencies multiply" in asked) == told


def test_a_worm_of_a_great_ratio_is_one_stage():
    assert not any("one pair of wheels" in text for text in judged(gears=[WORM]).judge.not_checked)
