"""Motors with a straight line, their supply and what they hoist.

B. S. Guru and H. R. Hiziroglu, Electric Machinery and Transformers, Ex. 12.1 (permanent-magnet motor; computed here from the printed inputs)
MIT 2.007, pages on motors: maximum power at half stall torque and half no-load speed
OpenStax University Physics, m58734 (motor of a winch)
A. Chakrabarti, Ex. 1.20, and A. Beiser, Ex. 5.8 (hoists; computed here from the printed inputs)
Gupta and Singhal, Ex. 3.7 (winch)
"""

import math

import pytest

from rigcheck.checks import motor_formulas as motor
from rigcheck.checks.drum_formulas import drum_torque
from rigcheck.checks.gear_formulas import efficiencies_in_a_row
from rigcheck.checks.holding_formulas import arrives_past_stage

RPM = 2 * math.pi / 60

# flux 0.004, K_a 95, so k = 0.38; R = 0.8 ohm, 40 V. The motor has no loss at no load.
GURU = {"stall_torque": 40 * 0.38 / 0.8, "stall_current": 40 / 0.8, "free_current": 0.0, "stated": 40.0}


def test_guru_12_1_stall_torque_and_current():
    assert GURU["stall_torque"] == pytest.approx(19.0, abs=0.05)
    left = motor.stall_voltage(supply=40.0, loop=0.0, stall_current=GURU["stall_current"], stated=40.0)
    assert motor.starting_torque(stall_torque=19.0, voltage=left, stated=40.0) == pytest.approx(19.0)


def test_guru_12_1_speed_under_load():
    speed = motor.motor_speed(torque=1.2, stall_torque=GURU["stall_torque"], free_speed=40 / 0.38, voltage=40.0, stated=40.0)
    assert speed / RPM == pytest.approx(942, abs=0.5)


def test_guru_12_1_no_load_speed():
    speed = motor.motor_speed(torque=0.0, stall_torque=GURU["stall_torque"], free_speed=40 / 0.38, voltage=40.0, stated=40.0)
    assert speed / RPM == pytest.approx(1005, abs=0.5)


def test_guru_12_1_current_under_load():
    assert motor.motor_current(torque=1.2, voltage=40.0, **GURU) == pytest.approx(3.16, abs=0.005)


@pytest.mark.parametrize(
    ("free_rpm", "stall_nm", "half_rpm", "half_nm", "nm_digits"),
    [(92, 1.6, 46, 0.80, 0.005), (600, 0.325, 300, 0.163, 0.0006), (3750, 0.0722, 1875, 0.0361, 0.00005)],
)
def test_mit_power_is_greatest_at_half_stall_torque_and_half_no_load_speed(free_rpm, stall_nm, half_rpm, half_nm, nm_digits):
    def power(torque: float) -> float:
        speed = motor.motor_speed(torque=torque, stall_torque=stall_nm, free_speed=free_rpm * RPM, voltage=1.0, stated=1.0)
        return motor.shaft_power(torque=torque, speed=speed)

    assert stall_nm / 2 == pytest.approx(half_nm, abs=nm_digits)
    speed = motor.motor_speed(torque=stall_nm / 2, stall_torque=stall_nm, free_speed=free_rpm * RPM, voltage=1.0, stated=1.0)
    assert speed / RPM == pytest.approx(half_rpm)
    assert power(stall_nm / 2) > max(power(0.45 * stall_nm), power(0.55 * stall_nm))


def test_mit_worm_gear_motor_power():
    assert motor.shaft_power(torque=0.80, speed=46 * RPM) == pytest.approx(3.85, abs=0.005)


def test_openstax_winch_motor():
    drawn = motor.power_drawn(voltage=115.0, current=20.0)
    lifting = motor.shaft_power(torque=4900.0, speed=10 / 30)  # pull times speed, the rope being wound at a radius of 1
    assert drawn == pytest.approx(2300)
    assert lifting == pytest.approx(1633.3, abs=0.05)
    assert drawn - lifting == pytest.approx(666.7, abs=0.05)
    assert motor.motor_efficiency(torque=4900.0, speed=10 / 30, voltage=115.0, current=20.0) == pytest.approx(1633.3 / 2300, abs=0.0001)


def test_chakrabarti_1_20_power_and_current_of_the_hoist():
    # 400 kg at 2.5 m/s, efficiencies 0.85 and 0.75 in a row, 500 V; worked at a drum radius of 1 m, which cancels
    both = efficiencies_in_a_row(one=0.85, other=0.75)
    power = motor.shaft_power(
        torque=motor.motor_torque(torque=drum_torque(pull=400 * 9.81, radius=1.0), ratio=1.0, efficiency=both), speed=2.5
    )
    assert power == pytest.approx(15388, abs=0.5)
    assert motor.power_drawn(voltage=500.0, current=30.8) == pytest.approx(power, rel=0.0017)  # the current is printed to 0.05 A


def test_chakrabarti_1_20_power_given_back_while_lowering():
    back = arrives_past_stage(torque=drum_torque(pull=400 * 9.81, radius=1.0), ratio=1.0, efficiency=0.85 * 0.75)
    assert motor.shaft_power(torque=back, speed=2.5) == pytest.approx(6254, abs=0.5)


def test_beiser_5_8_time_of_the_hoist():
    # 500 kg up 80 m with 20 hp of 746 W at an efficiency of 0.8: at the printed time the motor gives just that power
    shaft = motor.motor_torque(torque=drum_torque(pull=500 * 9.8, radius=1.0), ratio=1.0, efficiency=0.8)
    assert motor.shaft_power(torque=shaft, speed=80 / 32.84) == pytest.approx(20 * 746, rel=0.0002)


def test_gupta_3_7_torque_of_the_winch():
    # 400 kg at 1 m/s from 1000 rpm, and 80 N·m at no load; the radius is speed over turning
    torque = motor.motor_torque(torque=drum_torque(pull=400 * 9.81, radius=1.0 / (1000 * RPM)), ratio=1.0, efficiency=1.0)
    assert torque + 80 == pytest.approx(117.47, abs=0.01)
