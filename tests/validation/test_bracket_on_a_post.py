"""A bracket that slides on a post and carries a load to one side: how far out it holds itself up.

Source: the exercise of the movable bracket on a pipe, in most textbooks of statics since the 1960s (read nowhere anew: figures from memory): a
bracket 6 in high on a pipe of 3 in diameter, friction 0.25, weight of the bracket left out, carries any load from 12 in off the pipe's middle on.
Since the figures are from memory they decide nothing alone: beside them stand the sums of the contact forces in fractions, and the two
friction cones, which meet where a load just holds, h/(2 μ) from the middle.
"""

from fractions import Fraction

import numpy
import pytest

from rigcheck import units
from rigcheck.checks.assessment import assess
from rigcheck.statics.solution import solve
from tests import rigs

INCH_M = 0.0254
HIGH_IN, WIDE_IN, FRICTION, OUT_IN = 6, 3, Fraction(1, 4), 12


def bracket(out_in: float) -> dict:
    data = rigs.straight_lift(100.0)
    data["bodies"]["load"] |= {
        "centre_of_gravity": rigs.place(out_in * INCH_M, 0.1),
        "moves": {
            "kind": "guided",
            "shoes_apart": f"{HIGH_IN} in",
            "lower_shoe": ["0 in", "0 in"],
            "friction": float(FRICTION),
            "shoes": "around a rail",
            "faces_apart": f"{WIDE_IN} in",
        },
    }
    return data


def test_by_the_sums_of_the_contact_forces_the_figure_of_the_exercise_comes_out():
    # N each way, both rub upwards: 2 μ N = W; about the lower contact on the near face: N h - μ N w - W (x - w/2) = 0
    normal = 1 / (2 * FRICTION)
    out = (normal * HIGH_IN - FRICTION * normal * WIDE_IN) + Fraction(WIDE_IN, 2)
    assert out == OUT_IN


def test_by_the_two_friction_cones_it_comes_out_as_well():
    # the post pushes the upper contact, on its far face, inwards and up along (-1, μ), the lower one, on its near face, outwards and up along (1, μ)
    upper, lower = numpy.array([-WIDE_IN / 2, HIGH_IN]), numpy.array([WIDE_IN / 2, 0.0])
    one, other = numpy.array([-1.0, float(FRICTION)]), numpy.array([1.0, float(FRICTION)])
    along, _ = numpy.linalg.solve(numpy.column_stack([one, -other]), lower - upper)
    assert (upper + along * one)[0] == pytest.approx(OUT_IN)


@pytest.mark.parametrize(("out_in", "verdict"), [(11.99, "holds"), (12.01, "falls short")])
def test_our_check_turns_where_the_exercise_does(out_in, verdict):
    check = rigs.check_of(assess(rigs.rig(bracket(out_in))), "guide.load.sticks")
    assert check.verdict == verdict
    assert check.factor_value == pytest.approx(OUT_IN / out_in)


def test_the_rope_holds_nothing_there_any_more():
    solution = solve(rigs.rig(bracket(OUT_IN)), numpy.array([0.0, 1.0]))
    raising, lowering, least, _ = rigs.pulls(solution, "hoist", 0)
    assert lowering == pytest.approx(0.0, abs=1e-9)
    assert least == pytest.approx(0.0, abs=1e-9)
    assert raising == pytest.approx(2 * 100.0 * rigs.G)


def test_the_remedy_is_the_figure_of_the_exercise():
    check = rigs.check_of(assess(rigs.rig(bracket(24))), "guide.load.sticks")
    assert f"within {units.show(OUT_IN * INCH_M, 'm', 3, 'down')} of the line" in check.remedy
    assert f"at least {units.show(2 * HIGH_IN * INCH_M, 'm', 3, 'up')} apart" in check.remedy
