"""R. S. Khurmi and J. K. Gupta, A Textbook of Machine Design, chapter 31 (worm gears), through the formulas of a worm stage.

The inputs and the method are the book's, from a coded companion to it without stored output; each answer is computed here from those inputs.
"""

import math

import pytest

from rigcheck.checks.gear_formulas import locking_friction, worm_efficiency, worm_efficiency_backwards


def worm(starts: int, module_mm: float, worm_mm: float, pressure_deg: float) -> dict[str, float]:
    return {"lead": math.atan(starts * module_mm / worm_mm), "pressure": math.radians(pressure_deg)}


EX_31_1 = worm(3, 6, 50, 14.5)
EX_31_2 = worm(3, 6, 65, 20)


def test_ex_31_1_lead_angle():
    assert math.degrees(EX_31_1["lead"]) == pytest.approx(19.80, abs=0.005)  # computed here from the printed inputs


def test_ex_31_1_efficiency_with_friction_0_05():
    assert worm_efficiency(**EX_31_1, friction=0.05) == pytest.approx(0.858, abs=0.0005)  # computed here from the printed inputs


def test_ex_31_1_driven_back_it_does_not_lock():
    assert worm_efficiency_backwards(**EX_31_1, friction=0.05) == pytest.approx(0.841, abs=0.0005)  # computed here from the printed inputs
    assert locking_friction(**EX_31_1) > 0.05


def test_ex_31_2_efficiency_with_friction_0_10():
    assert math.degrees(EX_31_2["lead"]) == pytest.approx(15.48, abs=0.005)  # computed here from the printed inputs
    assert worm_efficiency(**EX_31_2, friction=0.10) == pytest.approx(0.701, abs=0.0005)  # computed here from the printed inputs
