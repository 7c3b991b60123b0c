"""Baker and Haynes, Engineering Statics: Open and Interactive, chapter 3: a 100 N weight on the cable ABCD with a pulley at B.

The weight hangs at C; CD rises at 45° to the right, CB rises at 7.13° (1 in 8) to the left; over the pulley the cable goes on to A, up and
to the left at 63.4° (2 in 1). Printed: tension C (towards the pulley) 89.6 N, D (towards the anchor) 125.7 N, force on
the pulley 84.5 N.
"""

from math import atan, cos, radians, sin

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.report.as_json import contract
from tests.rig_builders import END, LOAD, Builder, drum, fast, over

PULLEY_M, WINDING_M = 0.05, 0.053


@pytest.fixture(scope="module")
def found() -> dict:
    into, out = (-cos(atan(1 / 8)), sin(atan(1 / 8))), (-cos(atan(2)), sin(atan(2)))
    b = Builder("cable over a pulley", travel=0.00001)
    b.body(LOAD, 100.0 / 9.80665, (0.0, 0.0), "load", moves={"kind": "level"})
    b.rope("D", [fast(LOAD, **END), fast(b.point("D", (2 * cos(radians(45)), 2 * sin(radians(45)))), **END)])
    # turning clockwise, the rope meets the pulley at its centre + r (-uy, ux)
    centre = tuple(1.5 * u - PULLEY_M * n for u, n in zip(into, (-into[1], into[0]), strict=True))
    b.sheave("B", centre, 2 * PULLEY_M, efficiency=1.0)
    b.winch(tuple(c + (PULLEY_M - WINDING_M) * n + 2.0 * u for c, n, u in zip(centre, (-out[1], out[0]), out, strict=True)))
    b.rope("C", [fast(LOAD, **END), over("B", True), drum()])
    return contract(assess(b.rig()))


def test_tension_towards_the_pulley(found):
    assert found["heights"][0]["ropes"]["C"][0]["raising_n"] == pytest.approx(89.6, abs=0.05)


def test_tension_towards_the_anchor(found):
    assert found["heights"][0]["ropes"]["D"][0]["raising_n"] == pytest.approx(125.7, abs=0.05)


def test_force_on_the_pulley(found):
    pin = next(c["demand"] for c in found["checks"] if c["id"] == "sheave.B.pin.C")
    assert pin == pytest.approx(84.5, abs=0.05)
