"""How much rope a rig takes: each rope laid along its path with the load at its lowest, and the turns that stay on the drum then.

What the drum winds in while raising comes out of that length, so it is not added once more.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy

from rigcheck import units
from rigcheck.checks.check import Judge
from rigcheck.checks.drum_winding import DrumLines, length_of_turns
from rigcheck.formula import Sign, formula
from rigcheck.parts.drum_rule import drum_rule
from rigcheck.statics.layout import driven_end
from rigcheck.working import Line

LAID = Sign("L_laid", "rope along its path with the load at its lowest", "m", low=0)
DEAD = Sign("L_dead", "rope in the turns that stay on the drum with the load at its lowest", "m", low=0)
LEAST = Sign("L_least", "least length of the rope", "m", towards="up")
END_TO_END, END_TO_DRUM, END_TO_HAND = "from end to end", "from end to drum", "from end to hand"


@formula
def least_length(laid: LAID, dead: DEAD) -> LEAST:
    """The least length of a rope that is wound on the drum, without what knots, ends and slings take.

    Source: geometry.

    >>> least_length(laid=5.0, dead=1.25)
    6.25
    """
    return laid + dead


@dataclass(frozen=True)
class RopeLength:
    """The least length of one rope and how it is told.

    `end` says from where to where it is laid; `turns` is how many turns on the drum are counted in it, None where there are none to count
    or, with `turns_known` false, where they are not stated.
    """

    name: str
    length: Line
    end: str
    turns: float | None = None
    turns_known: bool = True
    bare: bool = False

    @property
    def words(self) -> str:
        """The length rounded up, with what is in it and what is not."""
        told = f"{units.show(self.length.number, 'm', 4, 'up')}: {self.end} with the load at its lowest"
        if self.turns is not None:
            told += f", and {units.number(self.turns)} turns on the drum" + (
                " (counted on the bare drum: how many fit side by side is not known)" if self.bare else ""
            )
        told += "; without knots and what the ends take"
        return told if self.turns_known else f"{told}, and without the turns on the drum, which are not stated"


def lengths(judge: Judge, drum: DrumLines | None) -> tuple[RopeLength, ...]:
    """The least length of every rope, in the order of the rig."""
    return tuple(_length(judge, drum, name) for name in judge.rig.ropes)


def _turns(stated: float | None) -> float | None:
    """The turns to buy rope for: those that stay on the drum, but never fewer than are asked; None where nobody has counted."""
    return None if stated is None else max(stated, drum_rule("dead-wraps-mine-hoist").value)


def _length(judge: Judge, drum: DrumLines | None, name: str) -> RopeLength:
    travel = judge.solution.travel
    path = travel.paths[name]
    radii = numpy.array([stop.radius for stop in path.stops[1:-1]])
    laid_m = float(path.straight[:, 0].sum() + (radii * path.wraps[:, 0]).sum())
    driven = driven_end(judge.rig, name) is not None
    if driven:
        laid_m += float(travel.stations.values[0] * travel.motion.take_in[0])  # nothing, if the stations begin at the bottom of the travel
    laid = judge.working.geometry(
        LAID.of(name, f"{name} along its path with the load at its lowest"), numpy.array([laid_m]), "runs and wraps"
    )
    wound = next((rope for rope in drum.ropes if rope.name == name), None) if drum is not None else None
    if wound is None:
        return RopeLength(name, laid, END_TO_HAND if driven else END_TO_END)
    turns, fits = _turns(judge.rig.drive.drum.dead_wraps), wound.per_layer is not None and wound.per_layer.number >= 1
    if turns is None:
        return RopeLength(name, laid, END_TO_DRUM, turns_known=False)
    dead_m = length_of_turns(turns, drum.core.number, wound.rope.number, wound.per_layer.number if fits else numpy.inf)
    dead = judge.working.geometry(
        DEAD.of(name, f"{name} in the turns that stay on the drum"), numpy.array([dead_m]), "turns, each as long as its layer is round"
    )
    length = judge.working.apply(least_length, name, f"least length of {name}", laid=laid, dead=dead)
    return RopeLength(name, length, END_TO_DRUM, turns, bare=not fits)
