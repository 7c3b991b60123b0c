"""Shigley's Mechanical Engineering Design, 9th ed., problem 8-4 and its solution: a square-thread screw, which is a worm of pressure angle 0.

F = 6 kN, lead 5 mm, mean diameter 22.5 mm, friction 0.08; the collar's part of the torque is left out.
"""

import math

import pytest

from rigcheck.checks.gear_formulas import locking_friction, worm_efficiency, worm_efficiency_backwards

SCREW = {"lead": math.atan(5 / (math.pi * 22.5)), "pressure": 0.0, "friction": 0.08}
IDEAL_NM = 6000 * 0.005 / (2 * math.pi)


def test_torque_to_raise():
    assert IDEAL_NM / worm_efficiency(**SCREW) == pytest.approx(10.23, abs=0.005)


def test_torque_to_lower():
    assert -IDEAL_NM * worm_efficiency_backwards(**SCREW) == pytest.approx(0.622, abs=0.0005)


def test_it_locks():
    assert locking_friction(lead=SCREW["lead"], pressure=0.0) < 0.08
