"""Motor, supply and cable against hand calculation, and what must hold of any motor line."""

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as some

from rigcheck.checks import motor_formulas as motor
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS
from tests.checks.winch_lift import MOTOR, ONE_LAYER, WORM, G, judged

GEARS = [{"kind": "planetary", "ratio": 50, "efficiency": 0.8}]
FEED = {"supply": {"voltage": "24 V", "resistance": "0.02 ohm"}, "cable": {"area": "2.5 mm²", "length": "4 m", "temperature": "20 °C"}}
NEEDED = 100 * G * 0.05 / (50 * 0.8)
LOOP = 0.02 + 2 * 4 * 7.98e-3


def driven(**changed):
    return judged(**({"gears": GEARS, "motor": MOTOR} | FEED | changed))


@given(
    some.floats(6, 60),
    some.floats(0, 0.5),
    some.floats(0, 1),
    some.floats(1, 50),
    some.floats(20, 200),
    some.floats(0, 0.3),
    some.floats(6, 60),
)
def test_voltage_and_current_at_the_motor_agree_with_each_other(supply, loop, share, stall_torque, stall_current, free_share, stated):
    line = {"torque": share * stall_torque, "stall_torque": stall_torque, "stall_current": stall_current, "free_current": free_share * stall_current,
            "stated": stated}  # fmt: skip
    volts = motor.voltage_at_motor(supply=supply, loop=loop, **line)
    amps = motor.motor_current(voltage=volts, **line)
    assert volts == pytest.approx(supply - loop * amps, rel=1e-9, abs=1e-9)


@given(some.floats(6, 60), some.floats(0, 0.5), some.floats(1, 50), some.floats(20, 200), some.floats(6, 60))
def test_at_the_starting_torque_the_running_line_meets_the_stalled_motor(supply, loop, stall_torque, stall_current, stated):
    left = motor.stall_voltage(supply=supply, loop=loop, stall_current=stall_current, stated=stated)
    torque = motor.starting_torque(stall_torque=stall_torque, voltage=left, stated=stated)
    line = {"torque": torque, "stall_torque": stall_torque, "stated": stated}
    volts = motor.voltage_at_motor(supply=supply, loop=loop, stall_current=stall_current, free_current=0.1 * stall_current, **line)
    assert volts == pytest.approx(left, rel=1e-9)
    assert motor.motor_speed(free_speed=300.0, voltage=volts, **line) == pytest.approx(0, abs=1e-9)


def test_motor_torque_is_drum_torque_over_ratio_and_efficiency():
    found = driven()
    assert found.drive.motor_torque.number == pytest.approx(NEEDED)
    assert found.checks["motor.running"].verdict == HOLDS


def test_too_weak_a_motor_falls_short_and_the_ratio_named_would_hold():
    weak = MOTOR | {"rated_torque": "1 N·m"}
    check = driven(motor=weak).checks["motor.running"]
    assert check.verdict == FALLS_SHORT
    assert "1:61.3 " in check.remedy  # 50 · 1.22583 = 61.2916, rounded up to four digits
    assert driven(motor=weak, gears=[GEARS[0] | {"ratio": 61.3}]).checks["motor.running"].verdict == HOLDS


def test_starting_counts_the_voltage_under_stall_current():
    found = driven()
    left = 24 / (1 + LOOP * 152 / 24)
    assert found.drive.starting_torque.number == pytest.approx(11.6 * left / 24)
    assert found.checks["motor.starting"].demand.number == pytest.approx(NEEDED)
    assert "common practice, no source" in found.checks["motor.starting"].reason


def test_a_motor_that_cannot_start_falls_short_and_the_stall_torque_named_would_do():
    thin = {"cable": {"area": "0.5 mm²", "length": "40 m", "temperature": "20 °C"}}
    check = driven(**thin).checks["motor.starting"]
    left = 24 / (1 + (0.02 + 80 * 39.0e-3) * 152 / 24)
    assert check.capacity.number == pytest.approx(11.6 * left / 24)
    assert check.verdict == FALLS_SHORT
    assert "stall torque of at least 25.61 N·m" in check.remedy  # 1.22583 · (1 + 3.14 · 152 / 24) = 25.6035, rounded up
    mended = driven(motor=MOTOR | {"stall_torque": "25.61 N·m"}, **thin)
    assert mended.checks["motor.starting"].verdict == HOLDS


def test_current_voltage_speed_time_and_power_follow_the_motor_line():
    found = driven().drive
    slope = 150 / 11.6
    volts = (24 - LOOP * NEEDED * slope) / (1 + LOOP * 2 / 24)
    amps = 2 * volts / 24 + NEEDED * slope
    speed = 3000 * 2 * numpy.pi / 60 * (volts / 24 - NEEDED / 11.6)
    assert found.voltage.number == pytest.approx(volts)
    assert found.current.number == pytest.approx(amps)
    assert found.speed.number == pytest.approx(speed * 0.05 / 50)
    assert found.time.number == pytest.approx(1.0 / (speed * 0.05 / 50))
    assert found.power_drawn.number == pytest.approx(24 * amps)
    assert found.efficiency.number == pytest.approx(NEEDED * speed / (volts * amps))


def test_the_cable_is_judged_at_three_per_cent_and_the_next_area_that_holds_is_named():
    check = driven().checks["cable.drop"]
    assert check.demand.number == pytest.approx(driven().drive.current.number * 2 * 4 * 7.98e-3 / 24)
    assert check.verdict == FALLS_SHORT
    assert "4 mm²" in check.remedy
    assert driven(cable={"area": "4 mm²", "length": "4 m", "temperature": "20 °C"}).checks["cable.drop"].verdict == HOLDS


def test_a_warm_cable_has_more_resistance_and_a_cold_one_is_not_counted_better_than_at_20_degrees():
    cold, mild, warm = (
        driven(cable={"area": "2.5 mm²", "length": "4 m", "temperature": t}).checks["cable.drop"].demand.number
        for t in ("-10 °C", "20 °C", "70 °C")
    )
    assert cold == mild
    assert warm > mild * 1.19  # 1.2 times the resistance, a little less current of no load


def test_a_cable_hotter_than_its_table_cannot_tell():
    found = driven(cable={"area": "2.5 mm²", "length": "4 m", "temperature": "120 °C"})
    assert found.checks["cable.drop"].verdict == CANNOT_TELL
    assert found.checks["motor.starting"].verdict == CANNOT_TELL


def test_an_unlisted_cable_area_cannot_tell_and_lists_what_there_is():
    check = driven(cable={"area": "3 mm²", "length": "4 m"}).checks["cable.drop"]
    assert check.verdict == CANNOT_TELL
    assert "2.5 mm²" in check.reason


@pytest.mark.parametrize(
    ("left_out", "check", "words"),
    [
        ("supply", "motor.starting", "supply"),
        ("cable", "cable.drop", "cable"),
        ("cable", "motor.starting", "cable"),
    ],
)
def test_what_is_not_described_cannot_tell(left_out, check, words):
    parts = {"gears": GEARS, "motor": MOTOR} | {k: v for k, v in FEED.items() if k != left_out}
    found = judged(**parts)
    assert found.checks[check].verdict == CANNOT_TELL
    assert words in found.checks[check].reason
    assert found.checks["motor.running"].verdict == HOLDS


@pytest.mark.parametrize(
    ("left_out", "check", "words"),
    [
        ("rated_torque", "motor.running", "rated torque"),
        ("stall_torque", "motor.starting", "stall torque"),
        ("stall_current", "motor.starting", "stall current"),
        ("no_load_current", "cable.drop", "no-load current"),
    ],
)
def test_a_motor_figure_that_is_missing_is_asked_for(left_out, check, words):
    found = driven(motor={k: v for k, v in MOTOR.items() if k != left_out})
    assert found.checks[check].verdict == CANNOT_TELL
    assert words in found.checks[check].reason


def test_a_supply_without_its_resistance_does_not_decide_the_start():
    found = driven(supply={"voltage": "24 V"})
    assert found.checks["motor.starting"].verdict == CANNOT_TELL
    assert "inner resistance" in found.checks["motor.starting"].reason
    assert found.drive.current is None
    assert found.checks["cable.drop"].demand.number > driven().checks["cable.drop"].demand.number  # the greatest it can be


def test_gears_of_unknown_efficiency_leave_every_check_of_the_motor_open():
    found = driven(gears=[{"kind": "planetary", "ratio": 50}])
    assert {found.checks[id].verdict for id in ("motor.running", "motor.starting", "cable.drop")} == {CANNOT_TELL}
    assert found.drive.motor_torque is None


def test_a_drum_that_nothing_turns_is_told():
    assert judged().checks["motor.running"].verdict == CANNOT_TELL


def test_motor_figures_that_make_power_out_of_nothing_are_told():
    found = driven(motor=MOTOR | {"no_load_speed": "6000 rpm"})
    assert found.checks["motor.figures"].verdict == CANNOT_TELL
    assert found.drive.speed is None


def test_several_layers_slow_the_motor_and_speed_the_load():
    one, two = driven(), driven(core=ONE_LAYER | {"width": "30 mm"})
    assert two.drive.motor_torque.number == pytest.approx(one.drive.motor_torque.number * 56 / 50)
    assert two.drive.time.number < one.drive.time.number


@given(some.floats(0.03, 0.1), some.floats(1, 4))
def test_more_friction_in_the_worm_never_lowers_the_motor_torque(friction, more):
    low, high = (motor.motor_torque(torque=50.0, ratio=40.0, efficiency=_worm(f)) for f in (friction, friction * more))
    assert high >= low - 1e-12


def _worm(friction: float) -> float:
    from rigcheck.checks.gear_formulas import worm_efficiency

    return worm_efficiency(lead=0.07, pressure=0.35, friction=friction)


def test_more_friction_in_the_sheave_or_worm_raises_the_motor_torque_of_a_rig():
    plain = judged(gears=[WORM], motor=MOTOR, **FEED).drive.motor_torque.number
    assert judged(gears=[WORM | {"friction": 0.12}], motor=MOTOR, **FEED).drive.motor_torque.number > plain
    assert judged(gears=[WORM], motor=MOTOR, sheave={"efficiency": 0.9}, **FEED).drive.motor_torque.number > plain


def test_the_check_can_be_asked_again_for_another_load():
    found = driven()
    check = found.checks["motor.running"]
    (twice,) = found.judge.working.evaluate({found.judge.load_mass: numpy.array([200.0])}, [check.demand])
    assert twice[0] == pytest.approx(2 * NEEDED)
    assert check.on_load


@pytest.mark.parametrize(
    ("figures", "words"),
    [
        ({"no_load_current": "200 A"}, "no-load current of 200 A is not below its stall current of 152 A"),
        ({"no_load_current": "0 A", "stall_current": "0 A"}, "no-load current of 0 A is not below its stall current of 0 A"),
        ({"rated_torque": "12 N·m"}, "rated torque of 12 N·m is not below its stall torque of 11.6 N·m"),
    ],
)
def test_motor_figures_that_contradict_each_other_decide_nothing(figures, words):
    found = driven(motor=MOTOR | figures)
    for id in ("motor.running", "motor.starting", "cable.drop"):
        assert found.checks[id].verdict == CANNOT_TELL
        assert words in found.checks[id].reason
    assert found.drive.current is None


def test_a_stall_current_of_nothing_is_a_contradiction_and_not_an_error():
    without = {k: v for k, v in MOTOR.items() if k != "no_load_current"}
    check = driven(motor=without | {"stall_current": "0 A"}).checks["motor.starting"]
    assert check.verdict == CANNOT_TELL
    assert "a stall current of 0 A gives no torque" in check.reason


def test_a_motor_that_cannot_turn_its_load_draws_the_current_of_standing_and_no_more():
    found = driven(mass_kg=1200.0)
    left = 24 / (1 + LOOP * 152 / 24)
    assert found.checks["motor.starting"].verdict == FALLS_SHORT
    assert found.drive.voltage.number == pytest.approx(left)
    assert found.drive.current.number == pytest.approx(152 * left / 24)
    assert found.drive.speed is None
    assert found.checks["cable.drop"].demand.number == pytest.approx(152 * left / 24 * 2 * 4 * 7.98e-3 / 24)
    assert "while it stands" in found.checks["cable.drop"].reason
    assert "while it stands" not in driven().checks["cable.drop"].reason


@pytest.mark.parametrize(("free", "length"), [("2 A", "25 m"), ("50 A", "8.1 m")])
def test_the_cable_length_named_holds_although_a_shorter_cable_draws_more(free, length):
    motor_used = MOTOR | {"no_load_current": free}
    check = driven(motor=motor_used, cable={"area": "25 mm²", "length": "100 m", "temperature": "20 °C"}).checks["cable.drop"]
    assert check.verdict == FALLS_SHORT
    assert f"at most {length} of cable" in check.remedy
    assert (
        driven(motor=motor_used, cable={"area": "25 mm²", "length": length, "temperature": "20 °C"}).checks["cable.drop"].verdict == HOLDS
    )


def test_a_cable_taken_at_20_degrees_says_that_it_was():
    words = "the warming of the cable: its resistance is taken at 20 °C, and a warm cable has more"
    assert words in driven().judge.not_checked
    assert words not in driven(cable={"area": "2.5 mm²", "length": "4 m", "temperature": "60 °C"}).judge.not_checked


def test_a_cable_of_unknown_temperature_leaves_starting_and_the_drop_open_and_asks_for_it():
    found = driven(cable={"area": "6 mm²", "length": "4 m"})
    assert driven(cable={"area": "6 mm²", "length": "4 m", "temperature": "20 °C"}).checks["cable.drop"].verdict == HOLDS
    for id in ("motor.starting", "cable.drop"):
        assert found.checks[id].verdict == CANNOT_TELL
        assert ("drive", "cable", "temperature") in found.checks[id].wants
        assert "How warm the cable gets" in found.checks[id].reason
    assert driven().checks["motor.starting"].verdict == HOLDS


def test_a_worm_whose_efficiency_is_only_stated_leaves_starting_from_rest_open():
    worm = {"kind": "worm", "ratio": 30, "efficiency": 0.6}
    found = driven(gears=[worm]).checks["motor.starting"]
    assert found.verdict == CANNOT_TELL
    assert "from standing still it is lower" in found.reason
    assert ("drive", "gears", 0, "friction") in found.wants
    worked = {"kind": "worm", "ratio": 30, "lead_angle": "10 deg", "pressure_angle": "20 deg", "friction": 0.08}
    assert driven(gears=[worked]).checks["motor.starting"].verdict == HOLDS


def test_a_supply_above_the_stated_voltage_of_the_motor_cannot_be_told():
    above = driven(supply={"voltage": "48 V", "resistance": "0.02 ohm"}).checks["motor.voltage"]
    assert above.verdict == CANNOT_TELL
    assert "48 V" in above.reason
    assert "24 V" in above.reason
    assert "motor.voltage" not in driven().checks


def test_a_voltage_that_is_not_stated_leaves_starting_and_the_cable_open_and_the_rated_torque_judged():
    found = driven(motor={name: text for name, text in MOTOR.items() if name != "voltage"})
    assert found.checks["motor.running"].verdict == HOLDS
    for id in ("motor.starting", "cable.drop"):
        assert found.checks[id].verdict == CANNOT_TELL
        assert ("drive", "motor", "voltage") in found.checks[id].wants
        assert "nameplate voltage" in found.checks[id].reason
    assert "motor.voltage" not in found.checks, "no supply can be called too high for it"
