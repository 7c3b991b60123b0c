"""OpenStax, University Physics, volume 1 (CC BY): worked examples of modules m58300 and m58303.

The book computes with g = 9.80 m/s², this program with 9.80665 m/s² (0.07 % more); its figures have three digits.
"""

from math import radians, sin, tan

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.report.as_json import contract
from rigcheck.statics.members import members
from rigcheck.statics.solution import solve
from tests.rig_builders import END, LOAD, Builder, counterweighted, drum, fast
from tests.rigs import rig
from tests.strut_rigs import framed

G = 9.80665


def test_two_masses_over_a_pulley_accelerate_at_3_27_and_pull_26_1():
    builder = counterweighted(4.00, 2.00, [{"efficiency": 1.0}])
    builder.data["limits"]["stopping"] = "0.1 m/s²"
    found = contract(assess(builder.rig()))
    acceleration = next(c["capacity"] for c in found["checks"] if c["id"] == "counterweight.stopping")
    assert acceleration == pytest.approx(3.27, abs=0.005)
    # at that acceleration the hoist rope is slack, and the other one pulls 2 m M g / (m + M): computed from the two printed answers
    assert 2.00 * (G + acceleration) == pytest.approx(26.1, abs=0.06)
    assert 4.00 * (G - acceleration) == pytest.approx(26.1, abs=0.06)


def hung_between(mass_kg: float, anchor, hoist_direction, radius_m: float = 0.053, name: str = "wire") -> dict:
    """A body held by a rope to a fixed anchor and by the hoist rope in a stated direction; the tensions at the foot of the travel."""
    b = Builder("hung between", travel=0.01)
    b.body(LOAD, mass_kg, (0.0, 0.0), "load", moves={"kind": "level"})
    b.rope(name, [fast(LOAD, **END), fast(b.point("anchor", anchor), **END)])
    x, y = hoist_direction
    b.winch((3.0 * x + radius_m * y, 3.0 * y - radius_m * x))
    b.rope("hoist", [fast(LOAD, **END), drum()])
    found = contract(assess(b.rig()))
    return {rope: runs[0]["raising_n"] for rope, runs in found["heights"][0]["ropes"].items()}


def test_a_tightrope_that_sags_five_degrees_under_70_kg_pulls_3930():
    slope = radians(5.0)
    found = hung_between(70.0, (-3.0, 3.0 * tan(slope)), ((1 - sin(slope) ** 2) ** 0.5, sin(slope)))
    # exact with the book's g: 3935 N, printed to three digits as 3930
    assert found["wire"] == pytest.approx(3930, rel=0.003)
    assert found["hoist"] == pytest.approx(3930, rel=0.003)


def test_a_swing_held_at_thirty_degrees_takes_170_in_each_of_two_ropes_and_170_to_hold():
    found = hung_between(30.0, (-3.0 * tan(radians(30.0)), 3.0), (1.0, 0.0))
    assert found["wire"] / 2 == pytest.approx(170, abs=0.5)  # the swing's two ropes stand for one of ours
    assert found["hoist"] == pytest.approx(170, abs=0.5)


def test_a_walker_amid_a_tightrope_that_sinks_by_5_degrees_pulls_it_with_3930():
    """M58300: 70.0 kg in the middle of a wire that sinks by 5.0° on both sides pulls it with 3.93e3 N: two ties in one joint, near one line."""
    data = framed(
        {"left": ((-3, 3 * tan(radians(5.0)), 0), {}), "right": ((3, 3 * tan(radians(5.0)), 0), {})},
        {side: {"other_end": side, "pulls_only": True} for side in ("left", "right")},
        mass_kg=35.0,  # both falls of the hoist rope pull the joint
    )
    found = members(solve(rig(data))).by_name
    assert found["left"].pull.number == pytest.approx(3930, rel=3e-3)
    assert found["right"].pull.number == pytest.approx(found["left"].pull.number, rel=1e-9)
