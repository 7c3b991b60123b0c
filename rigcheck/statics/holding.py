"""Standing still: the range each pull may take when every sheave holds any ratio between η and 1/η on its own.

The least and the greatest pull of a run is a linear program in the pulls of all runs. At its corners every sheave stands at one end of its
range. A corner tells what a unit of each weight adds to the pull sought, its price; at the best corner no rope, whatever its sheaves held,
would do better at these prices. No weight stands in that, so the best corner is climbed to once and serves for all weights with which no
rope has to push there. All runs, both ways and all heights climb at once. (A test compares this with scipy's linear programs.)
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy

ROUNDS = 60
A_HAIR = 1e-9


class HoldingRanges:
    """The least and the greatest pull of every run of every rope, for any weights.

    `lifts[r]` (runs, heights, equations); `efficiencies[r]` (sheaves, ..., heights), the dots standing for axes of the caller's.
    With more ropes than equations every choice of just enough ropes counts. Source: balance of forces, duality of linear programs.

    900 N hang on one end of a rope over one sheave of 0.9; the other end is held with 810 N to 1000 N:

    >>> over_one = HoldingRanges([numpy.array([[[1.0]], [[0.0]]])], [numpy.array([[0.9]])])
    >>> least, most = over_one.at(numpy.array([[900.0]]))
    >>> least[0][:, 0].round(6).tolist(), most[0][:, 0].round(6).tolist()
    ([900.0, 810.0], [900.0, 1000.0])
    """

    def __init__(self, lifts: list[numpy.ndarray], efficiencies: list[numpy.ndarray]):
        self.runs = [len(part) for part in lifts]
        acts = numpy.array([numpy.any(part != 0, axis=(0, 1)) for part in lifts])
        self.corners = {
            chosen: _climb(lifts, efficiencies, chosen)
            for chosen in combinations(range(len(lifts)), acts.shape[1])
            if acts[list(chosen)].any(axis=0).all()  # otherwise some equation would have no rope in it
        }

    def at(self, weight: numpy.ndarray) -> tuple[list[numpy.ndarray], list[numpy.ndarray]]:
        """Least and greatest pulls where `weight` (equations, ..., heights) is to be lifted, in its unit.

        Two lists of arrays (runs, ..., heights). NaN where no choice of ropes has a best corner without a rope that would have to push there:
        no pulls balance the weights, or a rope hangs loose at the limit, or there is no limit.
        """
        least, most = ([numpy.full((many, *weight.shape[1:]), numpy.nan) for many in self.runs] for _ in range(2))
        for chosen, corners in self.corners.items():
            found, carries = corners.pulls(weight)
            for r, part in zip(chosen, numpy.split(found, numpy.cumsum([self.runs[r] for r in chosen])[:-1], axis=1), strict=True):
                most[r], least[r] = numpy.fmax(most[r], part[0]), numpy.fmin(least[r], part[1])
            for r in set(range(len(self.runs))) - set(chosen):  # where these ropes carry everything, the others may hang loose
                least[r] = numpy.where(carries, 0.0, least[r])
        return least, most


@dataclass(frozen=True)
class _Corners:
    """The corners of the greatest and of the least pull of every run of some ropes; axis k runs over the runs of all of them.

    At its corner each of these ropes pulls, in its first run, `shares` (2, k, ropes, equations, ..., heights) of the weights, and the run sought pulls
    `prices` (2, k, equations, ..., heights) of them, NaN where another corner would be better.
    """

    shares: numpy.ndarray
    prices: numpy.ndarray

    def pulls(self, weight: numpy.ndarray) -> tuple[numpy.ndarray, numpy.ndarray]:
        """The pulls sought (2, k, ..., heights), NaN where some rope would have to push, and where these ropes carry the weight at all (..., heights)."""
        first = numpy.einsum("wkrj...,j...->wkr...", self.shares, weight)
        taut = numpy.all(first >= -A_HAIR * numpy.max(numpy.abs(weight), axis=0), axis=2)
        return numpy.where(taut, numpy.einsum("wkj...,j...->wk...", self.prices, weight), numpy.nan), taut.any(axis=(0, 1))


def _climb(lifts: list[numpy.ndarray], efficiencies: list[numpy.ndarray], chosen: tuple[int, ...]) -> _Corners:
    """The corners where the chosen ropes, just as many as there are equations, carry everything.

    Axis b runs over the things sought: every run of every chosen rope, once for the greatest and once for the least.
    """
    sought = [(r, k, way) for way in (1.0, -1.0) for r in chosen for k in range(len(lifts[r]))]
    rope_of, run_of, way_of = (numpy.array(column) for column in zip(*sought, strict=True))
    b, around = numpy.arange(len(sought)), (1,) * (efficiencies[0].ndim - 1)
    way_of = way_of.reshape(-1, 1, *around)
    # at first every sheave favours the run sought as if its rope stood alone: +1 where the later run pulls harder
    ahead = [(numpy.arange(len(e)) < run_of[:, None]).reshape(len(b), len(e), *around) for e in efficiencies]
    choice = [numpy.where(each, way_of, -way_of) * numpy.ones(e.shape) for each, e in zip(ahead, efficiencies, strict=True)]
    aim = [numpy.array([s[:2] == (r, k) for s in sought for k in range(len(lift))]) for r, lift in enumerate(lifts)]
    aim = [each.reshape(len(b), -1, *around) for each in aim]
    for _ in range(ROUNDS):
        ratios = {r: _ratios(choice[r], efficiencies[r]) for r in chosen}
        matrix = numpy.stack([numpy.einsum("bk...h,khj->b...hj", ratios[r], lifts[r]) for r in chosen], axis=-1)
        inverse = _inverse(matrix)
        own = numpy.stack([ratios[r][i, k] for i, r, k in zip(b, rope_of, run_of, strict=True)])
        prices = own[..., None] * numpy.stack([inverse[i, ..., chosen.index(r), :] for i, r in zip(b, rope_of, strict=True)])
        worths = [way_of * (aim[r] - numpy.einsum("b...hj,khj->bk...h", prices, lift)) for r, lift in enumerate(lifts)]
        before, choice = choice, [_best(worth, e, c) for worth, e, c in zip(worths, efficiencies, choice, strict=True)]
        if all(numpy.array_equal(choice[r], before[r]) for r in chosen):
            break
    for worth, e, c in zip(worths, efficiencies, choice, strict=True):
        better = numpy.sum(_ratios(c, e) * worth, axis=1) > A_HAIR * numpy.maximum(1.0, numpy.max(numpy.abs(worth), axis=1))
        prices = numpy.where(better[..., None], numpy.nan, prices)
    # the heights last in memory as well: many loads are then worked out many times as fast
    shares, prices = (numpy.ascontiguousarray(a) for a in (numpy.moveaxis(inverse, (-2, -1), (1, 2)), numpy.moveaxis(prices, -1, 1)))
    return _Corners(shares.reshape(2, -1, *shares.shape[1:]), prices.reshape(2, -1, *prices.shape[1:]))


def _best(worth: numpy.ndarray, efficiency: numpy.ndarray, before: numpy.ndarray) -> numpy.ndarray:
    """Which end of its range each sheave of a rope takes so that all its runs together are worth most: decided from the last sheave on."""
    choice, beyond = before.copy(), worth[:, -1]
    for s in reversed(range(len(efficiency))):
        choice[:, s] = numpy.where(numpy.abs(beyond) > 1e-12, numpy.sign(beyond), before[:, s])
        beyond = worth[:, s] + beyond * efficiency[s] ** -choice[:, s]
    return choice


def _ratios(choice: numpy.ndarray, efficiency: numpy.ndarray) -> numpy.ndarray:
    """Each run's pull over the first run's."""
    first = numpy.ones((len(choice), 1, *choice.shape[2:]))
    return numpy.concatenate([first, numpy.cumprod(efficiency**-choice, axis=1)], axis=1)


def _inverse(matrix: numpy.ndarray) -> numpy.ndarray:
    sound = numpy.abs(numpy.linalg.det(matrix)) > 1e-12
    result = numpy.full_like(matrix, numpy.nan)
    result[sound] = numpy.linalg.inv(matrix[sound])
    return result
