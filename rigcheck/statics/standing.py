"""The holding range of every run as lines of working."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy

from rigcheck.formula import Sign
from rigcheck.statics.guides import Shoes
from rigcheck.statics.holding import HoldingRanges
from rigcheck.statics.readings import Readings
from rigcheck.statics.resting import AtRest
from rigcheck.statics.travel import Travel, weight_shares
from rigcheck.working import Line, Working

HOW = "each sheave holds any ratio between η and 1/η: linear program"
HOW_RUBBING = "each sheave holds any ratio between η and 1/η and each guide up to its friction: linear programs"


def holding_lines(
    working: Working, weights: dict[str, Line], efficiencies: dict[str, Line], ways: list[Readings], kept: list[int], guides: list[Shoes]
) -> dict[str, list[tuple[Line, Line]]]:
    """For every run of every rope the least and the greatest pull at rest.

    What hangs free may come to rest anywhere between where it hangs while raising and while lowering: the ranges of the places in `ways` are
    put together, from the equations `kept` there. The friction of `guides` may hold too, as much as they are pressed.
    """
    distinct = list(dict.fromkeys(efficiencies.values()))
    inputs = {f"w{i}": line for i, line in enumerate(weights.values())} | {f"e{i}": line for i, line in enumerate(distinct)}
    travel = ways[0].travel
    sheaves = [[distinct.index(efficiencies[s.name]) for s in path.stops[1:-1]] for path in travel.paths.values()]
    ranges = _HungRanges(ways, kept, sheaves) if ways[0].is_hung else _Ranges(travel, list(weights), sheaves, guides)
    found = {}
    for r, (rope, growth) in enumerate(travel.growth.items()):
        found[rope] = []
        for k in range(len(growth)):
            pair = []
            for word, which in (("least", 0), ("most", 1)):
                sign = Sign(
                    f"T_{rope} {k + 1} {'min' if which == 0 else 'max'}", f"pull in {rope}, run {k + 1}, standing still, {word}", "N"
                )

                def compute(which=which, r=r, k=k, **values):
                    return ranges.of(values)[which][r][k]

                pair.append(working.solve_in_numbers(sign, compute, HOW_RUBBING if guides else HOW, "balance of forces", **inputs))
            found[rope].append(tuple(pair))
    return found


class _Ranges:
    """Computes all ranges once for each set of inputs, since every run's line asks for them in turn."""

    def __init__(self, travel: Travel, bodies: list[str], sheaves: list[list[int]], guides: list[Shoes]):
        self.bodies, self.sheaves = bodies, sheaves
        self.rest = AtRest(travel, guides)
        self.answer = _Kept(self._ranges)
        self.corners = _Kept(self._corners)

    def of(self, values: dict[str, numpy.ndarray]) -> tuple[list[numpy.ndarray], list[numpy.ndarray]]:
        """Two lists of arrays (runs, ..., heights): least and most."""
        return self.answer.of(values)

    def _ranges(self, values: dict[str, numpy.ndarray]) -> tuple[list[numpy.ndarray], list[numpy.ndarray]]:
        weights = {body: values[f"w{i}"] for i, body in enumerate(self.bodies)}
        efficiencies = {name: value for name, value in values.items() if name.startswith("e")}
        return self.rest.ranges(self.corners.of(efficiencies), weights, efficiencies)

    def _corners(self, values: dict[str, numpy.ndarray]) -> list[HoldingRanges]:
        shape = numpy.broadcast_shapes(*(value.shape for value in values.values()), (self.rest.heights,))
        along = {name: numpy.broadcast_to(value, shape) for name, value in values.items()}
        rubbing = [numpy.array([along[f"e{i}"] for i in row]).reshape(len(row), *shape) for row in self.sheaves]
        return [HoldingRanges(balance.lifts, rubbing) for balance in self.rest.balances]


class _HungRanges:
    """The ranges of what hangs free, which hangs elsewhere under other weights."""

    def __init__(self, ways: list[Readings], kept: list[int], sheaves: list[list[int]]):
        self.ways, self.kept, self.sheaves = ways, kept, sheaves
        self.answer = _Kept(self._ranges)

    def of(self, values: dict[str, numpy.ndarray]) -> tuple[list[numpy.ndarray], list[numpy.ndarray]]:
        """Two lists of arrays (runs, ..., heights): least and most."""
        return self.answer.of(values)

    def _ranges(self, values: dict[str, numpy.ndarray]) -> tuple[list[numpy.ndarray], list[numpy.ndarray]]:
        found = [self._hanging(way, values) for way in self.ways]
        least, most = (list(zip(*side, strict=True)) for side in zip(*found, strict=True))
        return [numpy.minimum.reduce(side) for side in least], [numpy.maximum.reduce(side) for side in most]

    def _hanging(self, way: Readings, values: dict[str, numpy.ndarray]) -> tuple[list[numpy.ndarray], list[numpy.ndarray]]:
        weights, shape = [], ()
        for j in self.kept:
            rises = {body: way.read(lambda t, j=j, body=body: weight_shares(t)[j][body], values) for body in weight_shares(way.travel)[j]}
            weights.append(sum(values[way.names[body]] * rise for body, rise in rises.items()))
            shape = weights[-1].shape
        lifts = [
            numpy.array([
                numpy.stack([way.read(lambda t, r=rope, k=k, j=j: -t.growth[r][k][:, j], values).ravel() for j in self.kept], axis=-1)
                for k in range(len(growth))
            ])
            for rope, growth in way.travel.growth.items()
        ]  # fmt: skip
        rubbing = [
            numpy.array([numpy.broadcast_to(values[f"e{i}"], shape).ravel() for i in row]).reshape(len(row), math.prod(shape))
            for row in self.sheaves
        ]
        least, most = HoldingRanges(lifts, rubbing).at(numpy.array([weight.ravel() for weight in weights]))
        return [part.reshape(-1, *shape) for part in least], [part.reshape(-1, *shape) for part in most]


class _Kept:
    """A function of arrays by name that keeps its last answer, since it is asked with the very same arrays over and over."""

    def __init__(self, compute: Callable[[dict[str, numpy.ndarray]], Any]):
        self.compute, self.asked, self.answer = compute, None, None

    def of(self, values: dict[str, numpy.ndarray]):
        arrays = list(values.values())
        if self.asked is None or any(a is not b for a, b in zip(arrays, self.asked, strict=True)):
            self.asked, self.answer = arrays, self.compute(values)
        return self.answer
