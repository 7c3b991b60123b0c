"""Drum: capacity, anchor friction, and the torque of a winch.

A winch-hire firm's page on drum capacity: L = (A + D) A B K; K from memory is 0.2618 / d² in feet and inches, so that figure is computed here
Baker and Haynes, Engineering Statics: Open and Interactive, chapter 9: 100 lb, 4.5 turns, friction 0.23
A coursework winch: drum of 80 mm, 3 kN at 0.5 m/s, motor 30 teeth into 150, efficiency 25 % (computed here from the printed inputs)
"""

import math

import pytest

from rigcheck.checks.drum_formulas import anchor_pull, drum_torque, layer_radius, rope_held
from rigcheck.checks.drum_winding import length_of_turns
from rigcheck.checks.motor_formulas import load_speed, motor_torque, shaft_power

RPM = 2 * math.pi / 60


def test_capacity_of_a_ten_inch_drum():
    # D 10 in, ten layers of 1/2 in rope, 12 in wide: 942.5 ft, computed here both ways
    closed = (10 * 0.5 + 10) * (10 * 0.5) * 12 * 0.2618 / 0.5**2
    assert closed == pytest.approx(942.5, abs=0.05)
    assert rope_held(core=10.0, rope=0.5, turns=24, layers=10) / 12 == pytest.approx(closed, rel=1e-4)
    assert length_of_turns(240, 10.0, 0.5, 24) / 12 == pytest.approx(942.5, abs=0.05)


def test_pull_at_constant_torque_falls_with_the_layer():
    # r_1 / r_10 = 10.5 / 19.5 = 0.538, computed here
    first, tenth = (layer_radius(core=10.0, rope=0.5, layer=k) for k in (1, 10))
    assert first / tenth == pytest.approx(0.538, abs=0.0005)


def test_rope_round_a_bar():
    assert anchor_pull(pull=100.0, friction=0.23, turns=4.5) == pytest.approx(0.15, abs=0.005)


@pytest.mark.parametrize(
    ("friction", "turns", "left"),
    [(0.10, 2, 0.285), (0.10, 3, 0.152), (0.15, 2, 0.152), (0.15, 3, 0.059), (0.20, 2, 0.081), (0.20, 3, 0.023)],
)
def test_share_left_at_the_anchor(friction, turns, left):
    # e^(-2 π μ n), computed here from the book's formula
    assert anchor_pull(pull=1.0, friction=friction, turns=turns) == pytest.approx(left, abs=0.0005)


def test_coursework_winch():
    torque = drum_torque(pull=3000.0, radius=0.040)
    turning = 0.5 / 0.040
    shaft = motor_torque(torque=torque, ratio=150 / 30, efficiency=0.25)
    assert torque == pytest.approx(120)
    assert shaft_power(torque=torque, speed=turning) == pytest.approx(1500)
    assert turning / RPM == pytest.approx(119, abs=0.5)
    assert shaft_power(torque=shaft, speed=turning * 5) == pytest.approx(6000)
    assert turning * 5 / RPM == pytest.approx(597, abs=0.5)
    assert load_speed(speed=597 * RPM, radius=0.040, ratio=5.0, take_in=1.0) == pytest.approx(0.5, abs=0.0005)
