"""From metres to the drawing: a view of the rig from the front, from its right side or from above, true to scale."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import floor, log10

import numpy


@dataclass(frozen=True)
class Direction:
    """From where a rig is seen: the directions in it that run to the right and up in the drawing."""

    across: tuple[float, float, float]
    up: tuple[float, float, float] = (0.0, 1.0, 0.0)


FROM_THE_FRONT = Direction((1.0, 0.0, 0.0))
FROM_THE_RIGHT = Direction((0.0, 0.0, -1.0))
FROM_ABOVE = Direction((1.0, 0.0, 0.0), (0.0, 0.0, -1.0))


@dataclass(frozen=True)
class View:
    """A parallel projection: the rig's origin is drawn at `left_px`, `level_px`."""

    direction: Direction
    scale: float
    left_px: float
    level_px: float

    @cached_property
    def towards(self) -> numpy.ndarray:
        """The direction from the rig to the eye."""
        return numpy.cross(self.direction.across, self.direction.up)

    def px(self, places) -> numpy.ndarray:
        """Places (..., 3) in metres as places (..., 2) in the drawing.

        >>> View(FROM_THE_FRONT, 100.0, 50.0, 400.0).px([1.0, 2.0, 0.0])
        array([150., 200.])
        >>> View(FROM_ABOVE, 100.0, 50.0, 400.0).px([1.0, 2.0, 0.5])
        array([150., 450.])
        """
        return numpy.asarray(places, dtype=float) @ self._turning + self._origin

    @cached_property
    def _turning(self) -> numpy.ndarray:
        (ax, ay, az), (ux, uy, uz) = self.direction.across, self.direction.up
        return numpy.array([[ax * self.scale, -ux * self.scale], [ay * self.scale, -uy * self.scale], [az * self.scale, -uz * self.scale]])

    @cached_property
    def _origin(self) -> numpy.ndarray:
        return numpy.array([self.left_px, self.level_px])

    def flat(self, direction) -> numpy.ndarray:
        """A direction in the rig, (3,), as it runs in the drawing, (2,), its length kept as far as it is seen."""
        return numpy.array([float(numpy.dot(direction, self.direction.across)), -float(numpy.dot(direction, self.direction.up))])

    def shows_face_on(self, normal) -> bool:
        return bool(abs(numpy.dot(normal, self.towards)) > 1 - 1e-9)


@dataclass(frozen=True)
class Extent:
    """The room that things take up, in metres across and up in one view."""

    left: float
    right: float
    low: float
    high: float

    @staticmethod
    def of(places: numpy.ndarray, direction: Direction) -> Extent:
        sideways, upwards = places @ numpy.array(direction.across), places @ numpy.array(direction.up)
        return Extent(float(sideways.min()), float(sideways.max()), float(upwards.min()), float(upwards.max()))

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.high - self.low


def round_length(longest_m: float) -> float:
    """The longest of 1, 2 and 5 times a power of ten that is not longer.

    >>> round_length(0.7), round_length(3.2), round_length(0.0499)
    (0.5, 2.0, 0.02)
    """
    power = 10.0 ** floor(log10(longest_m) + 1e-12)
    return max(step * power for step in (1.0, 2.0, 5.0) if step * power <= longest_m * (1 + 1e-9))
