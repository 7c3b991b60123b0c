"""U. C. Jindal, Machine Design: Ex. 28.4 and 28.5 (worm gears), Ex. 23.1 (brake of a hoist).

Worm examples: inputs and method are the book's, from a coded companion without stored output; the answers are computed here from those
inputs. Ex. 23.1: printed answers, read and worked again.
"""

import math

import pytest

from rigcheck.checks.drum_formulas import drum_torque
from rigcheck.checks.gear_formulas import worm_efficiency
from rigcheck.checks.motor_formulas import shaft_power


def test_ex_28_4_efficiency_power_out_and_loss():
    # Z = 2/40, q = 8, m = 5 mm, 1.2 kW, friction 0.032, normal pressure angle 20°
    lead = math.atan(2 / 8)
    efficiency = worm_efficiency(lead=lead, pressure=math.radians(20), friction=0.032)
    assert math.degrees(lead) == pytest.approx(14.04, abs=0.005)  # computed here from the printed inputs
    assert efficiency == pytest.approx(0.8726, abs=0.00005)  # computed here from the printed inputs
    assert 1.2 * efficiency == pytest.approx(1.047, abs=0.0005)  # computed here from the printed inputs
    assert 1.2 * (1 - efficiency) == pytest.approx(0.153, abs=0.0005)  # computed here from the printed inputs


def test_ex_28_5_efficiency():
    # Z = 2/54, q = 10, friction 0.028, normal pressure angle 20°; computed here from the printed inputs
    efficiency = worm_efficiency(lead=math.atan(2 / 10), pressure=math.radians(20), friction=0.028)
    assert efficiency == pytest.approx(0.8651, abs=0.00005)


def test_ex_23_1_torque_of_the_hoist_brake():
    # 20 kN at 1 m/s stopped within 2 m on a radius of 0.5 m; the book's step to the pull: W (1 + a / g), a = v² / 2 s
    pull = 20000 * (1 + 1.0**2 / (2 * 2.0) / 9.81)
    assert drum_torque(pull=pull, radius=0.5) == pytest.approx(10255, abs=0.5)


def test_ex_23_1_power_of_the_hoist_brake():
    assert shaft_power(torque=10255.0, speed=1.0 / 0.5) / 1000 == pytest.approx(20.51, abs=0.005)
