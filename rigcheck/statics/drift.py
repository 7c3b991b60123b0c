"""How far a body that hangs free drifts aside and tilts along the travel, as bands over raising, lowering and standing still."""

from __future__ import annotations

from dataclasses import dataclass

import numpy

from rigcheck.formula import Sign
from rigcheck.statics.solution import Solution
from rigcheck.statics.travel import Travel
from rigcheck.working import Line

ASIDE = {"across": 0, "in depth": 2}
DRIFT = Sign("x", "drift", "m")
TILT = Sign("θ", "tilt", "°", low=0)
HOW = "where it hangs, from where it hangs at rest at the lowest"
STILLNESS = 1e-6
HOW_TILT = "angle of its upright from the plumb line, from how it hangs drawn"


@dataclass(frozen=True)
class Band:
    """The least and the greatest of a drift, or of a tilt, along the whole travel and in every way of moving; `along` by way, at every station."""

    body: str
    what: str
    least: Line
    most: Line
    along: dict[str, Line]

    @property
    def is_none(self) -> bool:
        """Whether it stays where it hangs, all along."""
        return self.least.number == self.most.number == 0.0


def bands(solution: Solution) -> list[Band]:
    """The drift of the load across and, where it may move so, in depth; its tilt, where it may turn. Nothing where nothing hangs free."""
    travel = solution.travel
    if travel.hung is None:
        return []
    load, found = solution.rig.load_name, []
    begin = travel.poses.reference(load)[0]
    for what, axis in ASIDE.items():
        if what == "in depth" and not any(f.direction[2] and not f.tilts for f in travel.free if f.body == solution.rig.carrier(load)):
            continue

        def drifted(where: Travel, axis=axis) -> numpy.ndarray:
            return _settled(where.poses.reference(load)[:, axis] - begin[axis])

        found.append(_band(solution, DRIFT, load, f"drift of {load} {what}", what, drifted, HOW))
    if any(f.tilts for f in travel.free if f.body == solution.rig.carrier(load)):

        def tilted(where: Travel) -> numpy.ndarray:
            upright = where.poses.turned(load, (0.0, 1.0, 0.0))
            return _settled(numpy.arctan2(numpy.hypot(upright[:, 0], upright[:, 2]), upright[:, 1]))

        found.append(_band(solution, TILT, load, f"tilt of {load}", "tilt", tilted, HOW_TILT))
    return found


def _band(solution: Solution, sign: Sign, body: str, meaning: str, what: str, read, how: str) -> Band:
    lines = {word: solution.read(word, sign.of(f"{body} {what}, {word}", f"{meaning}, {word}"), read, how) for word in solution.ways}
    least, most = (
        solution.working.extreme(sign.of(f"{body} {what} {end}", f"{meaning}, {end}"), list(lines.values()), most=end == "greatest")
        for end in ("least", "greatest")
    )
    return Band(body, what, least, most, lines)


def _settled(value: numpy.ndarray) -> numpy.ndarray:
    """Without the last digits of the search for the place: a thousandth of a millimetre is none."""
    return numpy.where(numpy.abs(value) < STILLNESS, 0.0, value)
