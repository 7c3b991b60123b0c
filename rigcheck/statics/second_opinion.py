"""A second opinion on plain tackles: the seamanship rule, a law of its own beside the efficiency of each sheave.

It holds for raising with one rope whose falls at the moving block are parallel; elsewhere it says nothing.
"""

from __future__ import annotations

import numpy

from rigcheck.parts.sheave_rule import seamanship_rule
from rigcheck.statics import formulas
from rigcheck.statics.solution import Solution
from rigcheck.working import Line


def seamanship_pull(solution: Solution) -> Line | None:
    """The pull on the hauling part by the seamanship rule, None where the rig is no plain tackle."""
    if solution.guides["raising"]:
        return None  # the rule knows nothing of the friction of guides
    if len(solution.rig.ropes) != 1 or len(solution.rig.bodies) != 1 or len(solution.travel.free) != 1:
        return None
    ((rope, growth),) = solution.travel.growth.items()
    lifting = -growth[:, :, 0]
    if not numpy.all((lifting == 0) | (lifting == 1)):
        return None
    parts, sheaves = int(lifting[:, 0].sum()), len(growth) - 1
    if sheaves == 0:
        return None
    working = solution.working
    source = seamanship_rule().source
    lines = {
        "weight": solution.weights[solution.rig.load_name],
        "sheaves": working.given(formulas.SHEAVES, sheaves, f"counted along {rope}"),
        "parts": working.given(formulas.PARTS, parts, f"counted along {rope}", source),
    }
    return working.apply(formulas.seamanship_haul, what="pull on the hauling part by the seamanship rule (second opinion)", **lines)
