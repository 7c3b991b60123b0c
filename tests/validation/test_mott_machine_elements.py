"""R. L. Mott, Machine Elements in Mechanical Design, 4th ed., p. 480 (wormgear forces) and Ex. 17-1, p. 703 (screw that lifts a heavy hatch)."""

import math

import pytest

from rigcheck.checks.gear_formulas import locking_friction, worm_efficiency, worm_efficiency_backwards

WORM = {"lead": math.radians(14.04), "pressure": math.radians(19.45), "friction": 0.022}
SCREW = {"lead": math.atan(0.25 / (math.pi * 1.3429)), "pressure": math.acos(0.968), "friction": 0.15}


def test_p_480_efficiency_from_the_printed_powers():
    # printed: 6.68 hp out, 0.666 hp lost
    assert worm_efficiency(**WORM) == pytest.approx(6.68 / (6.68 + 0.666), abs=0.0005)


def test_p_480_efficiency():
    assert worm_efficiency(**WORM) == pytest.approx(0.909, abs=0.0005)  # computed here from the printed inputs


def test_ex_17_1_torque_to_raise():
    # 12 500 lbf, lead 1/4 in: T = F L / (2 π η); printed 1809 lbf·in from a rounded tangent, 1814 without rounding
    torque = 12500 * 0.25 / (2 * math.pi * worm_efficiency(**SCREW))
    assert torque == pytest.approx(1814, rel=0.0005)  # the cosine 0.968 is printed to three digits
    assert torque == pytest.approx(1809, rel=0.0035)


def test_ex_17_1_efficiency():
    assert worm_efficiency(**SCREW) == pytest.approx(0.275, abs=0.001)  # computed here from 1809 lbf·in, hence the last digit


def test_ex_17_1_torque_to_lower_shows_that_it_locks():
    # 796 lbf·in to lower, computed here from the printed inputs
    assert -worm_efficiency_backwards(**SCREW) * 12500 * 0.25 / (2 * math.pi) == pytest.approx(796, rel=0.005)
    assert locking_friction(lead=SCREW["lead"], pressure=SCREW["pressure"]) < 0.15
