"""Many spots for one label at once: those it would like, and rings of further ones round what it names."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy

from rigcheck.report.labels import Spot, Wish

_TURNS = numpy.radians(numpy.arange(0, 360, 18))
_RING_DIRECTIONS = numpy.tile(numpy.stack([numpy.cos(_TURNS), numpy.sin(_TURNS)], axis=1), (12, 1))
_RING_DISTANCES = numpy.repeat(6 + 13.0 * numpy.arange(1, 13), len(_TURNS))


@dataclass(frozen=True)
class Spots:
    """Many spots at once."""

    places: numpy.ndarray
    angles: numpy.ndarray
    dislike: numpy.ndarray
    on_line: numpy.ndarray

    @staticmethod
    def of(spots: Sequence[Spot]) -> Spots:
        told = numpy.array([(s.x, s.y, s.angle_deg, s.dislike, s.on_line) for s in spots]).reshape(-1, 5)
        return Spots(told[:, :2], told[:, 2], told[:, 3], told[:, 4] > 0)

    @staticmethod
    def upright(places: numpy.ndarray, dislike: numpy.ndarray) -> Spots:
        return Spots(places, numpy.zeros(len(places)), dislike, numpy.zeros(len(places), dtype=bool))

    def where(self, kept: numpy.ndarray) -> Spots:
        return Spots(self.places[kept], self.angles[kept], self.dislike[kept], self.on_line[kept])


def rings(wish: Wish, dislike_per_px: float) -> Spots:
    """Places further and further away, for a leader, the less liked the further."""
    out = wish.reach + _RING_DISTANCES
    places = wish.target + _RING_DIRECTIONS * (out[:, None] + (wish.width / 2, wish.height / 2))
    return Spots.upright(places, 1.0 + dislike_per_px * out)
