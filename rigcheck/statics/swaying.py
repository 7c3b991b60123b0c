"""Where what hangs free is while the rig moves, and where it would be under other weights.

Friction at the sheaves makes pulls differ, and pulls that differ draw a free body aside. Which way rope flows over a sheave decides its
friction, and how everything flows depends on where it hangs: the two are found in turn.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Mapping
from dataclasses import replace

import numpy

from rigcheck.errors import GeometryError
from rigcheck.statics import friction, settling, sticking
from rigcheck.statics.friction import Powers, Ways
from rigcheck.statics.hanging import Hanging
from rigcheck.statics.stations import Stations
from rigcheck.statics.travel import Travel, of_hung

ROUNDS = 8
PARTS = 4  # where a change at once would lead astray, it is made in so many parts
STILL = 0
KEPT = 6  # answers kept, since every line, and many a check, asks for the same loads


def moving(travel: Travel, efficiencies: Mapping[str, float], way: int) -> tuple[Travel, dict[str, Powers]]:
    """The travel while raising or lowering and the friction on it; the same travel where nothing hangs free or no rope runs over a sheave.

    `efficiencies` by sheave. Raises GeometryError where no place is found.
    """

    def with_friction(flow: Ways) -> Travel:
        return _with_friction(travel, _powers(travel, flow), efficiencies, way)

    flow = friction.ways(travel)
    if travel.hung is None or not efficiencies or way == STILL:
        return travel, _powers(travel, flow)
    tried: list[Ways] = []
    for _ in range(ROUNDS):
        found = with_friction(flow)
        again = friction.ways(found)
        if _alike(again, flow):
            return found, _powers(travel, flow)
        if any(_alike(again, before) for before in tried):
            found, flow = sticking.held(with_friction, flow, again, way)
            return found, _powers(travel, flow)
        tried.append(flow)
        flow = again
    raise GeometryError("the flow of rope over the sheaves does not settle: friction turns it round and round", where="ropes",
                        right="Check where the sheaves and what hangs free are drawn.")  # fmt: skip


def _same(one: numpy.ndarray, other: numpy.ndarray) -> bool:
    return one is other or numpy.array_equal(one, other)


def _powers(travel: Travel, flow: Ways) -> dict[str, Powers]:
    return {rope: friction.powers(travel, rope, way) for rope, way in flow.items()}


def _alike(one: Ways, other: Ways) -> bool:
    return all(numpy.array_equal(one[rope], other[rope]) for rope in one)


def _with_friction(travel: Travel, counts: dict[str, Powers], efficiencies: Mapping[str, float], way: int) -> Travel:
    hung = travel.hung.balance

    def partly(share: float) -> Hanging:
        return replace(hung, ratios=_ratios(counts, {name: value**share for name, value in efficiencies.items()}, way))

    return _led(partly, travel.hung.unknown, travel.stations)


def _led(partly: Callable[[float], Hanging], unknown: numpy.ndarray, stations: Stations, by_parts: bool = True) -> Travel:
    """Settle under a change of which any share can be made: at once if that leads there, else, if so asked, part by part."""
    try:
        balance = partly(1.0)
        unknown, state = settling.settled(balance, unknown, stations.values)
    except GeometryError:
        if not by_parts:
            raise
        for part in range(1, PARTS + 1):
            balance = partly(part / PARTS)
            unknown, state = settling.settled(balance, unknown, stations.values)
    return of_hung(balance, stations, unknown, balance.exactly(unknown, stations.values, state))


def _ratios(counts: dict[str, Powers], efficiencies: Mapping[str, float | numpy.ndarray], way: int) -> dict[str, numpy.ndarray]:
    return {rope: numpy.array(power.ratios(efficiencies, way)) for rope, power in counts.items()}


class Swaying:
    """Where everything hangs in one way of moving (raising, lowering, or still and without friction), for other weights and bearings too.

    Readings have the shape (..., heights), as lines of working do: what comes before the heights are the cases asked for. A case in which no
    place is found reads NaN.
    """

    def __init__(self, travel: Travel, efficiencies: Mapping[str, float], way: int):
        self.way, self.efficiencies = way, dict(efficiencies)
        self.travel, self.powers = moving(travel, efficiencies, way)
        self._kept: deque[tuple[list[numpy.ndarray], list[tuple[slice, Travel | None]]]] = deque(maxlen=KEPT)

    def read(
        self, what: Callable[[Travel], numpy.ndarray], weights: Mapping[str, numpy.ndarray], efficiencies: Mapping[str, numpy.ndarray]
    ) -> numpy.ndarray:
        """One number for every case and height: `what` reads it off a travel, (heights,)."""
        given = [*weights.values(), *efficiencies.values()]
        heights = len(self.travel.stations.values)
        shape = (*numpy.broadcast_shapes(*(value.shape for value in given), (1,))[:-1], heights)
        parts = next((parts for asked, parts in self._kept if all(map(_same, given, asked))), None)
        if parts is None:
            parts = self._settled(weights, efficiencies, shape)
            self._kept.append((given, parts))
        found = numpy.full(int(numpy.prod(shape)), numpy.nan)
        for where, travel in parts:
            if travel is not None:
                found[where] = what(travel)
        return found.reshape(shape)

    def _settled(self, weights, efficiencies, shape: tuple[int, ...]) -> list[tuple[slice, Travel | None]]:
        nominal = self.travel.hung.balance.weights_n
        wanted = {body: numpy.broadcast_to(value, shape).ravel() for body, value in weights.items()}
        rubbing = {name: numpy.broadcast_to(value, shape).ravel() for name, value in efficiencies.items()}
        many = int(numpy.prod(shape[:-1]))
        if all(numpy.allclose(wanted[body], nominal[body], rtol=1e-14, atol=0) for body in wanted) and all(
            numpy.all(rubbing[name] == self.efficiencies[name]) for name in rubbing
        ):
            heights = shape[-1]
            return [(slice(case * heights, (case + 1) * heights), self.travel) for case in range(many)]
        return list(self._cases(wanted, rubbing, 0, many))

    def _cases(self, wanted, rubbing, first: int, last: int):
        """Settle some cases at once; where that fails, one half after the other, down to the case that has no place."""
        heights = len(self.travel.stations.values)
        where = slice(first * heights, last * heights)
        try:
            yield where, self._at_once({n: v[where] for n, v in wanted.items()}, {n: v[where] for n, v in rubbing.items()}, last - first)
        except GeometryError:
            if last - first == 1:
                yield where, None
                return
            middle = (first + last) // 2
            yield from self._cases(wanted, rubbing, first, middle)
            yield from self._cases(wanted, rubbing, middle, last)

    def _at_once(self, wanted, rubbing, many: int) -> Travel:
        begin = self.travel.hung.balance
        counts = {rope: replace(power, counts=numpy.tile(power.counts, many)) for rope, power in self.powers.items()}

        def partly(share: float) -> Hanging:
            weights = {body: (1 - share) * begin.weights_n[body] + share * value for body, value in wanted.items()}
            rubs = {name: (1 - share) * self.efficiencies[name] + share * value for name, value in rubbing.items()}
            return Hanging(begin.layout, weights, None if begin.ratios is None else _ratios(counts, rubs, self.way), roughly=True)

        stations = Stations(numpy.tile(self.travel.stations.values, many), self.travel.stations.are_angles)
        return _led(partly, numpy.tile(self.travel.hung.unknown, (many, 1)), stations, by_parts=many == 1)
