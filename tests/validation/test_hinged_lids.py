"""Hinged lids, hatches and doors: published exercises and the moments that they rest on.

The Student Room, thread 1494093 (physics exercise): a uniform hatch of 12 kg raised by a vertical pull at its free edge takes 58.8 N at any
angle. Asked of a hand so far up that the rope stays within a twentieth of a degree of plumb.
OpenStax, University Physics, volume 1 (CC BY), module m58341: a door of 400 N, 1.0 m wide, its hinges 2.0 m apart; each hinge bears 200 N
upwards, and 100 N sideways. Here the lower hinge is a hinge and the upper one a level rope, so that the hinge alone bears the weight.
A door with its rope to a point plumb above the hinge, as high as the door is long (the geometry of a tree-house door exercise, whose printed
angle is missing): T = (W/2) cos θ / cos(45° - θ/2), written down here from moments and not from the book.
"""

from math import cos, pi, radians, sin

import numpy
import pytest

from rigcheck.statics.reactions import reactions
from rigcheck.statics.solution import solve
from tests.hinged_rigs import HINGE_UP_M, lid_by_hand
from tests.rigs import G, place, rig

POUND_KG = 0.45359237


@pytest.mark.parametrize("degrees", [0, 15, 30, 45, 60])
def test_a_hatch_of_12_kg_takes_58_8_newtons_at_any_angle(degrees):
    data = lid_by_hand(place(1.0, 990.0), mass_kg=12.0, long_m=1.0, swing_deg=60.0)
    solution = solve(rig(data), numpy.array([radians(degrees)]))
    assert solution.drive_pull["raising"].value[0] == pytest.approx(58.8, abs=0.1)


def test_a_door_of_400_newtons_on_two_hinges_two_metres_apart():
    data = lid_by_hand(place(-900.0, 2.0), mass_kg=400.0 / G, swing_deg=0.01, hinge=place(0.0, 0.0))
    data["bodies"]["lid"] |= {"at": place(0.5, 0.0), "centre_of_gravity": place(0.0, 1.0), "picks": {"edge": place(-0.5, 2.0)}}
    solution = solve(rig(data), numpy.array([0.0, radians(0.01)]))
    assert solution.drive_pull["raising"].value[0] == pytest.approx(100.0, abs=0.5)
    hinge = next(each for each in reactions(solution) if each.name == "hinge of lid")
    assert hinge.across_n == pytest.approx(-100.0, abs=0.5)  # the door presses the lower hinge towards the wall
    assert -hinge.up_n == pytest.approx(2 * 200.0, abs=0.5)


@pytest.mark.parametrize(("degrees", "pounds"), [(0, 70.7), (30, 50.0), (60, 25.9)])
def test_a_door_with_its_rope_to_a_point_above_the_hinge_as_high_as_the_door_is_long(degrees, pounds):
    data = lid_by_hand(place(0.0, HINGE_UP_M + 2.0), mass_kg=100.0 * POUND_KG, long_m=2.0, swing_deg=60.0)
    angle = radians(degrees)
    pull = solve(rig(data), numpy.array([angle])).drive_pull["raising"].value[0] / (POUND_KG * G)
    assert pull == pytest.approx(pounds, abs=0.05)
    assert pull == pytest.approx(50.0 * cos(angle) / cos(pi / 4 - angle / 2), rel=1e-12)


@pytest.mark.parametrize("degrees", [0, 20, 40, 70])
def test_a_rope_square_to_the_lid_takes_half_the_weight_times_the_cosine(degrees):
    angle = radians(degrees)
    data = lid_by_hand(place(2 * cos(angle) - 3 * sin(angle), HINGE_UP_M + 2 * sin(angle) + 3 * cos(angle)), mass_kg=30.0, swing_deg=1.0)
    x, y = cos(angle), sin(angle)
    data["bodies"]["lid"] |= {"at": place(x, HINGE_UP_M + y), "picks": {"edge": place(x, y)}}
    pull = solve(rig(data), numpy.array([0.0])).drive_pull["raising"].value[0]
    assert pull == pytest.approx(15.0 * G * cos(angle), rel=1e-9)
