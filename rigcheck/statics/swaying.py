"""Where what hangs free is while the rig moves: friction at the sheaves makes pulls differ, and pulls that differ draw it aside.

Which way rope flows over a sheave decides its friction, and how everything flows depends on where it hangs: the two are found in turn.
"""

from __future__ import annotations

from dataclasses import replace

import numpy

from rigcheck.errors import GeometryError
from rigcheck.statics import friction, settling
from rigcheck.statics.travel import Travel, of_hung

ROUNDS = 8
PARTS = 4  # where the whole friction at once leads astray, it is put on in so many parts


def moving(travel: Travel, efficiencies: dict[str, numpy.ndarray], way: int) -> Travel:
    """The travel while raising or lowering; the same travel where nothing hangs free or nothing rubs.

    `efficiencies` by sheave. Raises GeometryError where no place is found.
    """
    if travel.hung is None or not efficiencies:
        return travel
    found = travel
    for _ in range(ROUNDS):
        counts = {rope: friction.powers(found, rope) for rope in travel.paths}
        again = _settled(travel, counts, efficiencies, way)
        if all(numpy.array_equal(friction.powers(again, rope).counts, counts[rope].counts) for rope in counts):
            return again
        found = again
    raise GeometryError("the flow of rope over the sheaves does not settle: friction turns it round and round", where="ropes",
                        right="Check where the sheaves and what hangs free are drawn.")  # fmt: skip


def _settled(travel: Travel, counts: dict[str, friction.Powers], efficiencies: dict[str, numpy.ndarray], way: int) -> Travel:
    hung, at, unknown = travel.hung.balance, travel.stations.values, travel.hung.unknown
    for part in range(PARTS):
        share = (part + 1) / PARTS
        partly = {name: value**share for name, value in efficiencies.items()}
        ratios = {rope: numpy.array(power.ratios(partly, way)) for rope, power in counts.items()}
        balance = replace(hung, ratios=ratios)
        unknown, state = settling.settled(balance, unknown, at)
    return of_hung(balance, travel.stations, unknown, state)
