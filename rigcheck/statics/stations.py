"""The places along the travel that are worked out, and what counts them: the rise of the load, or the angle of its swing.

A load that turns about a hinge is counted by its angle, since its height changes little near the top and falls again beyond it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy

from rigcheck import whereabouts
from rigcheck.rig.model import Rig
from rigcheck.statics.poses import Freedom, Poses


@dataclass(frozen=True)
class Stations:
    """The places worked out, in metres of rise or in radians of swing."""

    values: numpy.ndarray
    are_angles: bool = False

    @property
    def unit(self) -> str:
        return "°" if self.are_angles else "m"

    @property
    def count(self) -> str:
        """What counts them, in words, for a chart or a slider."""
        return "angle of the swing" if self.are_angles else "height of the load"

    def words(self, index: int) -> str:
        """Where a station is, to follow what happens there.

        >>> Stations(numpy.array([0.25])).words(0), Stations(numpy.array([0.25]), True).words(0)
        ('at a height of 0.25 m', 'swung by 14.3°')
        """
        value = float(self.values[index])
        return whereabouts.swung(value) if self.are_angles else f"at a height of {whereabouts.standing(value)}"


MANY, FEWER = 101, 21  # stations along the travel; fewer where bodies hang free in depth, since each takes far longer to find


def heights(rig: Rig, many: int | None = None) -> numpy.ndarray:
    """Stations spread evenly over the whole travel: heights in metres, for a swing angles in radians."""
    in_depth = any(getattr(body.moves, "in_depth", False) for body in rig.bodies.values())
    return numpy.linspace(0.0, (rig.limits.swing if rig.swings else rig.limits.travel).value, many or (FEWER if in_depth else MANY))


class Progress:
    """How far along its travel the load is in a pose, and how that grows with every coordinate.

    Of the two ways to turn, the swing goes the one in which the load's reference point rises from the drawn pose; where it rises
    neither way at first, as if it hangs straight down, the one in which the rope is taken in (`turn_round`).
    """

    def __init__(self, rig: Rig, free: list[Freedom]):
        self.rig = rig
        self.turning = next((j for j, f in enumerate(free) if rig.swings and f.body == rig.carrier(rig.load_name)), None)
        self.drawn = Poses(rig, free, numpy.zeros((1, len(free))))
        self.drawn_up_m = float(self.drawn.reference(rig.load_name)[0, 1])
        self.begun = 0.0
        rise = self._rise(self.drawn)[0]
        self.sense = -1.0 if self.turning is not None and rise[self.turning] < -1e-9 else 1.0
        self.rises_at_first = bool(numpy.any(numpy.abs(rise) > 1e-9))

    def begins_at(self, poses: Poses) -> None:
        """Count from this pose: what hangs free comes to rest a little off where it is drawn."""
        self.drawn_up_m += float(self.heights_m(poses)[0])
        self.begun += float(self.of(poses)[0])

    def turn_round(self) -> None:
        self.sense = -self.sense

    def heights_m(self, poses: Poses) -> numpy.ndarray:
        """The load's reference point above its lowest place."""
        return poses.reference(self.rig.load_name)[:, 1] - self.drawn_up_m

    def of(self, poses: Poses) -> numpy.ndarray:
        return self.heights_m(poses) if self.turning is None else self.sense * poses.q[:, self.turning] - self.begun

    def growth(self, poses: Poses) -> numpy.ndarray:
        """d(progress)/dq, (stations, coordinates)."""
        if self.turning is None:
            return self._rise(poses)
        row = numpy.zeros(poses.q.shape)
        row[:, self.turning] = self.sense
        return row

    def _rise(self, poses: Poses) -> numpy.ndarray:
        load = self.rig.load_name
        return poses.moved_by(load, poses.reference(load))[:, :, 1]
