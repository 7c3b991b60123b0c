"""The legs of a bridle: how far each leans from the plumb, since the flatter a leg the harder it pulls for the same load."""

from __future__ import annotations

import math
from functools import partial

import numpy

from rigcheck import units
from rigcheck.checks.check import Judge
from rigcheck.formula import Sign
from rigcheck.rig.model import Rig
from rigcheck.statics.travel import Travel

LEAN = Sign("β", "lean of a leg from the plumb", "°", low=0)
LIMIT = Sign("β_most", "greatest lean of a leg", "°", low=0)
MOST_RAD = math.radians(60)
SOURCE = "EN 818-4 (chain slings): a leg leans 60° from the plumb at most; taken for legs of rope alike"
HOW = "straight from end to end, where it hangs"


def legs(rig: Rig) -> list[str]:
    """The ropes that run straight from one body to another: legs and slings."""
    return [
        name
        for name, rope in rig.ropes.items()
        if len(rope.path) == 2 and all(getattr(stop, "made_fast_to", None) in rig.bodies for stop in rope.path)
    ]


def check(judge: Judge) -> None:
    """Judge every leg at the greatest lean along the travel, raising, lowering and at rest."""
    for name in legs(judge.rig):
        item = name if "leg" in name.lower() else f"leg {name}"
        lines = [
            judge.solution.read(word, LEAN.of(f"{name}, {word}", f"lean of {name} from the plumb, {word}"), partial(_lean, rope=name), HOW)
            for word in judge.solution.ways
        ]
        most = judge.working.extreme(LEAN.of(f"{name} greatest", f"greatest lean of {name} from the plumb"), lines)
        limit = judge.working.looked_up(LIMIT.of(name, f"greatest lean of {name} that is taken"), MOST_RAD, "60°", SOURCE)
        longer = units.show(_length_for_the_limit(judge, name), "m", 3, "up")
        judge.compare(
            f"leg.{name}.lean", item, "lean from the plumb", ("rope", name), most, limit, source=SOURCE,
            remedy=f"Legs at least {longer} long with the eyes where they are, or eyes nearer together, or a spreader.",
            reason="The flatter a leg, the harder it pulls for the same load.",
            needs_taut=False, mends=(("ropes", name, "length"),),
        )  # fmt: skip


def _lean(where: Travel, rope: str) -> numpy.ndarray:
    return numpy.arccos(numpy.clip(numpy.abs(where.paths[rope].directions[0][:, 1]), 0.0, 1.0))


def _length_for_the_limit(judge: Judge, name: str) -> float:
    """How long it must be for its lean to be at the limit where its ends stand as far apart, across and in depth, as they come to."""
    path = judge.solution.travel.paths[name]
    apart = path.straight[0] * numpy.sin(_lean(judge.solution.travel, name))
    return float(numpy.max(apart)) / math.sin(MOST_RAD)
