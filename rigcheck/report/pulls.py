"""The pulls of a solved rig as the contract tells them: each run's own extremes along the travel, and every height.

Where some rope would have to push, the pulls of all ropes are unknown at that height: None, and so is an extreme over it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy

from rigcheck.statics.friction import RAISING
from rigcheck.statics.solution import Solution
from rigcheck.statics.travel import Travel
from rigcheck.working import Line

TIE = 1e-9  # pulls that differ by less than this share of themselves count as equal, so that the lowest such height is named


@dataclass(frozen=True)
class Extreme:
    """The extreme pull of one run, and the first height at which it stands, for a swing its angle too; None where it is not known."""

    pull_n: float | None
    at_m: float | None
    at_rad: float | None = None


@dataclass(frozen=True)
class RunOfRope:
    """One run of a rope between two of its stops; run 0 is at the rope's first end.

    `likely_raising` is the greatest share by stiffness along the travel, where ropes share a load and their stiffness is known; it stands at a height of
    its own. The other figures are then the worst share.
    """

    rope: str
    number: int
    start: str
    end: str
    raising: Extreme
    holding_least: Extreme
    holding_most: Extreme
    lowering: Extreme
    shares_load: bool
    likely_raising: Extreme | None
    raising_along_n: list[float | None]
    lowering_along_n: list[float | None]
    at_drive: bool

    @property
    def likely_raising_n(self) -> float | None:
        return None if self.likely_raising is None else self.likely_raising.pull_n


def runs_of(solution: Solution) -> list[RunOfRope]:
    """Every run of every rope, ropes in the order of the rig."""
    slack = solution.slack()
    return [_run(solution, slack, rope, k) for rope, runs in solution.runs.items() for k in range(len(runs))]


def _run(solution: Solution, slack: numpy.ndarray, rope: str, k: int) -> RunOfRope:
    pulls, stops, power = solution.runs[rope][k], solution.travel.paths[rope].stops, solution.powers[rope]
    travel = solution.travel
    raising, least, most, lowering = (
        _along(line, slack) for line in (pulls.raising, pulls.holding_least, pulls.holding_most, pulls.lowering)
    )
    likely = None
    if solution.likely.get(rope) is not None:  # ropes that differ and whose modulus is not known have none
        share = power.ratios({s: solution.efficiencies[s].number for s in power.sheaves}, RAISING)[k]
        likely = _extreme(_along(solution.likely[rope], slack) * share, travel)
    return RunOfRope(
        rope, k, stops[k].name, stops[k + 1].name,
        _extreme(raising, travel), _extreme(least, travel, most=False), _extreme(most, travel), _extreme(lowering, travel),
        rope in solution.shared, likely, _plain(raising), _plain(lowering), k == power.reference,
    )  # fmt: skip


def _along(line: Line, slack: numpy.ndarray) -> numpy.ndarray:
    """The pull at every height, NaN where it is not known."""
    value = numpy.broadcast_to(line.value, slack.shape)
    return numpy.where(slack | ~numpy.isfinite(value), numpy.nan, value)


def _extreme(along: numpy.ndarray, travel: Travel, most: bool = True) -> Extreme:
    if numpy.any(numpy.isnan(along)):
        return Extreme(None, None)
    found = float(along.max() if most else along.min())
    first = int(numpy.argmax(numpy.abs(along - found) <= TIE * max(1.0, abs(found))))
    return Extreme(found, float(travel.heights_m[first]), travel.angle_rad(first))


def _plain(along: numpy.ndarray) -> list[float | None]:
    return [None if math.isnan(value) else value for value in along.tolist()]
