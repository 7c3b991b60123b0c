"""Where friction holds a running sheave still: sliding one way would draw what hangs free so that it slid the other way, so it does not slide.

There the pull on one side is 1/η^w times that on the other, with w between -1 and 1 as it happens: such that no rope has run over the sheave
since it came to a stop.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy

from rigcheck.errors import GeometryError
from rigcheck.statics import motion
from rigcheck.statics.friction import RAISING, Ways
from rigcheck.statics.layout import driven_end, take_in_shares
from rigcheck.statics.travel import Travel

ROUNDS = 60
CLOSE_M = 1e-8  # of rope over the sheave


def held(settle: Callable[[Ways], Travel], ways: Ways, others: Ways, way: int) -> tuple[Travel, Ways]:
    """The travel with the sheaves at rest where `ways` and `others`, each of which leads to the other, differ; and the ways there.

    `settle` finds the travel for stated ways. Raises GeometryError where the motion begins so, since then nothing tells where it stopped.
    """
    stuck = {rope: ways[rope] != others[rope] for rope in ways}
    low, high = ({rope: numpy.where(stuck[rope], end, ways[rope]) for rope in ways} for end in (-1.0, 1.0))
    slip_low, slip_high = (_slip(settle(each), stuck, way) for each in (low, high))
    for _ in range(ROUNDS):
        tried = {rope: _between(low[rope], slip_low[rope], high[rope], slip_high[rope], stuck[rope]) for rope in ways}
        found = settle(tried)
        slip = _slip(found, stuck, way)
        left = 0.0
        for rope in ways:
            inside = stuck[rope] & (numpy.abs(tried[rope]) < 1)
            left = max(left, float(numpy.max(numpy.abs(slip[rope][inside]), initial=0.0)))
            is_low = slip[rope] * slip_low[rope] > 0
            # the end that stays has its slip halved, lest the other creep up on the root from one side only
            slip_low[rope] = numpy.where(is_low, slip[rope], slip_low[rope] / 2)
            slip_high[rope] = numpy.where(is_low, slip_high[rope] / 2, slip[rope])
            low[rope], high[rope] = numpy.where(is_low, tried[rope], low[rope]), numpy.where(is_low, high[rope], tried[rope])
        if left < CLOSE_M:
            return found, tried
    raise _no_end()


def _between(low, slip_low, high, slip_high, stuck) -> numpy.ndarray:
    """Where a straight line puts no slip; the end with less of it where both ends slip alike: there the sheave turns after all."""
    differ = slip_low * slip_high < 0
    with numpy.errstate(all="ignore"):
        found = high - slip_high * (high - low) / (slip_high - slip_low)
    nearer = numpy.where(numpy.abs(slip_low) < numpy.abs(slip_high), low, high)
    return numpy.where(stuck, numpy.where(differ, found, nearer), low)


def _slip(travel: Travel, stuck: dict[str, numpy.ndarray], way: int) -> dict[str, numpy.ndarray]:
    """Rope that has run over each sheave since the last station at which it turned, in the order of the motion, (sheaves, stations)."""
    n = len(travel.free)
    steps = numpy.diff(travel.hung.unknown[:, :n], axis=0)
    taken_in = numpy.diff(travel.hung.unknown[:, n])
    found = {}
    for (rope, growth), share in zip(travel.growth.items(), take_in_shares(travel.rig), strict=True):
        fed = -share * taken_in if driven_end(travel.rig, rope) == 0 else numpy.zeros(len(taken_in))
        passing = motion.flows((growth[:, 1:] + growth[:, :-1]) / 2, steps, fed)
        found[rope] = _since_it_turned(passing, stuck[rope], way)
    return found


def _since_it_turned(passing: numpy.ndarray, stuck: numpy.ndarray, way: int) -> numpy.ndarray:
    sums = numpy.zeros(stuck.shape)
    stations = stuck.shape[1]
    for at in range(stations) if way == RAISING else reversed(range(stations)):
        before = at - way
        for sheave in numpy.flatnonzero(stuck[:, at]):
            if not 0 <= before < stations:
                raise _no_end()
            sums[sheave, at] = sums[sheave, before] + passing[sheave, min(at, before)]
    return sums


def _no_end() -> GeometryError:
    return GeometryError("whether a running sheave turns or friction holds it still, and so where the load hangs, could not be told", where="ropes",
                         right="Check where the sheaves and what hangs free are drawn; keep the rope from running nearly flat.")  # fmt: skip
