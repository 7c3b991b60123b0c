"""T. H. Wentzell, Machine Elements, Ex. 13.4 and 13.6 (worm set), through the formulas of a worm stage.

Single start, 6 teeth an inch of diameter, worm 2 in, 60 teeth, friction 0.03, treated as a square thread: pressure angle 0. The printed
efficiency is rounded to two digits; the finer figures are computed here from the printed inputs.
"""

import math

import pytest

from rigcheck.checks.gear_formulas import locking_friction, torque_before, worm_efficiency, worm_efficiency_backwards

LEAD = math.atan((math.pi / 6) / (math.pi * 2))
WORM = {"lead": LEAD, "pressure": 0.0, "friction": 0.03}


def test_lead_angle():
    assert math.degrees(LEAD) == pytest.approx(4.764, abs=0.0005)  # computed here from the printed inputs


def test_efficiency_as_printed():
    assert worm_efficiency(**WORM) == pytest.approx(0.73, abs=0.005)


def test_efficiency_in_full():
    # tan λ = 1/12, so (1 - 0.03 / 12) / (1 + 0.03 · 12), computed here; an earlier working of the same inputs had 0.7337, by rounding on the way
    assert worm_efficiency(**WORM) == pytest.approx(0.9975 / 1.36, rel=1e-12)
    assert worm_efficiency(**WORM) == pytest.approx(0.7337, abs=0.0003)


def test_torque_of_the_worm_from_the_torque_of_the_wheel():
    # 7884 lbf·in out, 180 lbf·in in: the printed efficiency of 0.73 gives the book's figures
    assert torque_before(torque=7884.0, ratio=60.0, efficiency=0.73) == pytest.approx(180, abs=0.5)


def test_a_lead_angle_below_five_degrees_does_not_make_it_lock():
    # computed here from the printed inputs; 0.639 in that earlier working
    assert worm_efficiency_backwards(**WORM) == pytest.approx(0.6384, abs=0.00005)
    assert locking_friction(lead=LEAD, pressure=0.0) > 0.03
