"""Nicholls's Seamanship and Nautical Knowledge, pp. 68, 72 and 305, and the USCG deck examination (questions 2092, 2093).

The rule: a tenth of the load is added for every sheave, and the sum divided by the parts at the moving block, S = W (1 + n/10) / P.
"""

from fractions import Fraction
from math import sqrt

import pytest

from rigcheck.statics.formulas import seamanship_haul
from rigcheck.statics.members import members
from rigcheck.statics.solution import solve
from tests.rig_builders import LOAD, tackle
from tests.rigs import rig
from tests.strut_rigs import framed, on_head_n

EXERCISES = [
    # what, load, sheaves, parts, printed total, printed pull, last place of the pull
    ("gun tackle to disadvantage, tons", 4, 2, 2, 4.8, 2.4, 0.05),
    ("luff tackle to advantage, tons", 4, 3, 4, 5.2, 1.3, 0.05),
    ("double purchase to advantage, cwt", 20, 4, 5, 28, 5.6, 0.05),
    ("treble to advantage, tons", 40, 6, 7, 64, float(9 + Fraction(1, 7)), 1e-9),
    ("luff to disadvantage, tons", 15, 3, 3, 19.5, 6.5, 0.05),
    # two lead blocks are counted as one sheave there; printed 88.2/11 and "8 tons"
    ("five-fold to advantage with leads, tons", 42, 11, 11, 88.2, 8.02, 0.005),
    ("deck examination, two sheaves, lb", 100, 2, 2, 120, 60, 0.5),
    ("deck examination, one sheave, lb", 100, 1, 2, 110, 55, 0.5),
]


@pytest.mark.parametrize(("what", "load", "sheaves", "parts", "total", "pull", "tolerance"), EXERCISES, ids=[row[0] for row in EXERCISES])
def test_pull_on_the_hauling_part(what, load, sheaves, parts, total, pull, tolerance):
    found = seamanship_haul(weight=load, sheaves=sheaves, parts=parts)
    assert found == pytest.approx(pull, abs=tolerance)
    assert found * parts == pytest.approx(total, abs=1e-9)


@pytest.mark.parametrize(
    ("parts", "sheaves", "advantage"), [(2, 2, False), (4, 3, True), (5, 4, True), (7, 6, True), (3, 3, False), (2, 1, True)]
)
def test_the_tackles_of_the_exercises_have_their_parts_and_sheaves(parts, sheaves, advantage):
    solution = solve(tackle(parts, advantage=advantage, sheave={"efficiency": 1.0}).rig())
    assert len(solution.rig.sheaves) == sheaves
    assert solution.travel.motion.take_in == pytest.approx(parts, rel=5e-3)
    assert sum(solution.travel.growth["hoist"][:, 0, 0] != 0) == parts
    assert solution.weights[LOAD].number / solution.drive_pull["raising"].value[0] == pytest.approx(parts, rel=5e-3)


def test_derrick_span_and_thrust_by_similar_triangles():
    """P. 305: heel to masthead 40 ft, span 24 ft, boom 48 ft, 4 tons at its head: span 40 : 24 and thrust 40 : 48 as the load.

    The inputs are printed; the printed fractions are damaged but agree with 2.4 and 4.8 tons. Feet are taken as decimetres here.
    """
    up = (48**2 - 24**2 + 40**2) / (2 * 40)
    across = sqrt(48**2 - up**2)
    data = framed(
        {"heel": ((-across / 10, -up / 10, 0), {}), "masthead": ((-across / 10, (40 - up) / 10, 0), {})},
        {"boom": "heel", "span": {"other_end": "masthead", "pulls_only": True}},
    )
    found = members(solve(rig(data))).by_name
    tons = 4 / on_head_n()
    assert found["span"].pull.number * tons == pytest.approx(2.4, rel=1e-9)
    assert found["boom"].push.number * tons == pytest.approx(4.8, rel=1e-9)
