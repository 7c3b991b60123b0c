"""The holding range of every run as lines of working."""

from __future__ import annotations

import numpy

from rigcheck.formula import Sign
from rigcheck.statics.holding import holding_range
from rigcheck.statics.travel import Travel, weight_shares
from rigcheck.working import Line, Working

HOW = "each sheave holds any ratio between η and 1/η: linear program"


def holding_lines(
    travel: Travel, working: Working, weights: dict[str, Line], efficiencies: dict[str, Line]
) -> dict[str, list[tuple[Line, Line]]]:
    """For every run of every rope the least and the greatest pull at rest."""
    distinct = list(dict.fromkeys(efficiencies.values()))
    inputs = {f"w{i}": line for i, line in enumerate(weights.values())} | {f"e{i}": line for i, line in enumerate(distinct)}
    ranges = _Ranges(
        travel,
        weight_shares(travel),
        list(weights),
        [[distinct.index(efficiencies[s.name]) for s in path.stops[1:-1]] for path in travel.paths.values()],
    )
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

                pair.append(working.solve_in_numbers(sign, compute, HOW, "balance of forces", **inputs))
            found[rope].append(tuple(pair))
    return found


class _Ranges:
    """Computes all ranges once for each set of inputs, since every run's line asks for them in turn."""

    def __init__(self, travel: Travel, shares: list[dict[str, numpy.ndarray]], bodies: list[str], sheaves: list[list[int]]):
        self.bodies, self.sheaves = bodies, sheaves
        self.shares = shares
        self.lifts = [-growth for growth in travel.growth.values()]
        if all(numpy.ptp(lift, axis=1).max() == 0 for lift in self.lifts) and all(
            numpy.ptp(share) == 0 for of_bodies in shares for share in of_bodies.values()
        ):
            # falls that keep their direction pull alike at every height: one height stands for all
            self.lifts = [lift[:, :1] for lift in self.lifts]
            self.shares = [{body: share[:1] for body, share in of_bodies.items()} for of_bodies in shares]
        self.heights = self.lifts[0].shape[1]
        self.asked: list[numpy.ndarray] = []
        self.answer = None

    def of(self, values: dict[str, numpy.ndarray]):
        """Two lists of arrays (runs, ..., heights): least and most."""
        arrays = list(values.values())
        if len(arrays) != len(self.asked) or any(a is not b for a, b in zip(arrays, self.asked, strict=True)):
            self.asked, self.answer = arrays, self._compute(values)
        return self.answer

    def _compute(self, values: dict[str, numpy.ndarray]):
        shape = (*numpy.broadcast_shapes(*(v.shape for v in values.values()))[:-1], self.heights)
        weights = [
            numpy.broadcast_to(sum(values[f"w{self.bodies.index(body)}"] * share for body, share in of_bodies.items()), shape).ravel()
            for of_bodies in self.shares
        ]
        many = len(weights[0])
        efficiencies = [
            numpy.array([numpy.broadcast_to(values[f"e{i}"], shape).ravel() for i in row]).reshape(len(row), many) for row in self.sheaves
        ]
        lifts = [numpy.tile(lift, (1, many // self.heights, 1)) for lift in self.lifts]
        least, most = holding_range(lifts, efficiencies, numpy.stack(weights, axis=1))
        return [a.reshape(-1, *shape) for a in least], [a.reshape(-1, *shape) for a in most]
