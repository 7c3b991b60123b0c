"""Winches by hand: velocity ratio, effort and efficiency, from four books.

R. S. Khurmi, A Textbook of Engineering Mechanics, Ex. 11.9 and 11.13 (worm and drum, winch crab)
R. K. Bansal, A Textbook of Engineering Mechanics, Ex. 9.15 (worm and drum)
NAVEDTRA 14037, pages 42 and 43 (cable winch)
Nicholls's Seamanship and Nautical Knowledge, p. 494 (hand winch, capstan)

In Khurmi's Ex. 11.13 the wheel's 100 teeth are inferred from the printed ratio, since the coded copy prints 300.
"""

import pytest

from rigcheck.checks.drum_formulas import drum_torque
from rigcheck.checks.hand_formulas import crank_velocity_ratio, effort_of_one, handle_effort


def effort(weight: float, drum_radius: float, ratio: float, efficiency: float, handle: float) -> float:
    return handle_effort(torque=drum_torque(pull=weight, radius=drum_radius), ratio=ratio, efficiency=efficiency, handle=handle)


def test_khurmi_11_9_worm_and_drum():
    assert crank_velocity_ratio(handle=300 / 2, ratio=40, radius=50) == pytest.approx(120)
    assert effort(1800, 0.05, 40, 0.625, 0.150) == pytest.approx(24)


def test_bansal_9_15_worm_and_drum():
    assert crank_velocity_ratio(handle=12.5, ratio=60, radius=6.25) == pytest.approx(120)
    assert effort(600, 0.0625, 60, 0.25, 0.125) == pytest.approx(20)


def test_khurmi_11_13_winch_crab():
    assert crank_velocity_ratio(handle=300, ratio=100 / 25, radius=50) == pytest.approx(24)
    assert effort(300, 0.05, 100 / 25, 0.625, 0.300) == pytest.approx(20)


def test_khurmi_11_13_friction_as_effort():
    without = effort(300, 0.05, 100 / 25, 1.0, 0.300)
    assert 20 - without == pytest.approx(7.5)


def test_navy_cable_winch():
    assert crank_velocity_ratio(handle=30, ratio=60 / 10, radius=15) == pytest.approx(12)


def test_navy_cable_winch_with_friction_lifts_seven_to_eight_hundred_pounds():
    for lifted, advantage in ((700, 7), (800, 8)):
        assert effort(lifted, 15, 60 / 10, advantage / 12, 30) == pytest.approx(100)


def test_nicholls_hand_winch():
    assert effort(300, 6, 1, 1.0, 18) == pytest.approx(100)


def test_nicholls_capstan():
    whole = effort(4480, 1, 1, 1.0, 6)
    assert whole == pytest.approx(747, abs=0.5)
    assert effort_of_one(effort=whole, people=8) == pytest.approx(93 + 3 / 8, abs=0.05)  # printed from 747 / 8
