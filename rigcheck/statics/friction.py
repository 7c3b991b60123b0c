"""Friction at the sheaves: in the direction in which rope flows over a sheave, its pull rises by 1/η. Nothing else decides it.

The pull of every run is written as the pull of its rope's reference run times a product of powers of the sheaves' efficiencies. The
reference run is the one at the drum or the hand, else the first.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import reduce

import numpy
import sympy

from rigcheck.statics.layout import driven_end
from rigcheck.statics.travel import Travel

RAISING, LOWERING = 1, -1
Ways = dict[str, numpy.ndarray]
"""How rope flows over the sheaves of each rope while raising, (sheaves, heights)."""


def reference_run(travel: Travel, rope: str) -> int:
    """The run whose pull stands for the rope."""
    return len(travel.growth[rope]) - 1 if driven_end(travel.rig, rope) == -1 else 0


def sheaves_of(travel: Travel, rope: str) -> list[str]:
    return [stop.name for stop in travel.paths[rope].stops[1:-1]]


@dataclass(frozen=True)
class Powers:
    """For one rope: how often each sheave's efficiency stands in each run's pull, (runs, sheaves, heights), when raising."""

    rope: str
    sheaves: list[str]
    reference: int
    counts: numpy.ndarray

    def steady(self) -> bool:
        """Whether the flow keeps its direction along the whole travel."""
        return bool(numpy.all(self.counts == self.counts[..., :1]))

    def ratios(self, efficiencies: dict[str, numpy.ndarray], way: int) -> list[numpy.ndarray]:
        """Each run's pull over the reference run's, for numbers or arrays of efficiency."""
        found = []
        for run in self.counts:
            ratio = numpy.ones(run.shape[-1])
            for name, count in zip(self.sheaves, run, strict=True):
                ratio = ratio * efficiencies[name] ** (way * count)
            found.append(ratio)
        return found

    def symbolic(self, signs: dict[str, sympy.Symbol], way: int) -> list[sympy.Expr]:
        """The same in symbols; sheaves that share an efficiency share its sign, so that their powers add up."""
        found = []
        for run in self.counts[..., 0]:
            total: dict[sympy.Symbol, int] = {}
            for name, count in zip(self.sheaves, run, strict=True):
                total[signs[name]] = total.get(signs[name], 0) + way * int(count)
            found.append(_product(total))
        return found


def _product(powers: dict[sympy.Symbol, int]) -> sympy.Expr:
    factors = [s if n == 1 else sympy.Pow(s, sympy.Integer(n), evaluate=False) for s, n in powers.items() if n]
    return reduce(lambda one, other: sympy.Mul(one, other, evaluate=False), factors) if factors else sympy.Integer(1)


def ways(travel: Travel) -> Ways:
    """By rope, +1 where rope flows over a sheave towards the last end while raising, -1 where it flows back, 0 where it rests."""
    return {rope: numpy.sign(flow) for rope, flow in travel.motion.flow.items()}


def powers(travel: Travel, rope: str, way: numpy.ndarray | None = None) -> Powers:
    """Count, run by run outwards from the reference, the efficiencies between them.

    `way` (sheaves, heights) is how rope flows over each sheave, as `ways` tells it or, where friction holds a sheave, anything between.
    """
    sheaves = sheaves_of(travel, rope)
    runs = len(sheaves) + 1
    way = ways(travel)[rope] if way is None else way
    way = way.astype(int) if numpy.all(way == numpy.round(way)) else way
    reference = reference_run(travel, rope)
    counts = numpy.zeros((runs, len(sheaves), len(travel.heights_m)), dtype=way.dtype)
    # where rope flows towards the last end the later run pulls 1/η harder
    for k in range(reference + 1, runs):
        counts[k] = counts[k - 1]
        counts[k, k - 1] -= way[k - 1]
    for k in range(reference - 1, -1, -1):
        counts[k] = counts[k + 1]
        counts[k, k] += way[k]
    return Powers(rope, sheaves, reference, counts)
