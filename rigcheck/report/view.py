"""From metres to the drawing: a view of the rig from the front or from its right side, true to scale."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, log10

import numpy

FROM_THE_FRONT = (1.0, 0.0, 0.0)
FROM_THE_RIGHT = (0.0, 0.0, -1.0)
UP = numpy.array([0.0, 1.0, 0.0])


@dataclass(frozen=True)
class View:
    """A parallel projection: `across` is the direction that runs to the right; the rig's origin is at `left_px`, `floor_px`."""

    across: tuple[float, float, float]
    scale: float
    left_px: float
    floor_px: float

    @property
    def towards(self) -> numpy.ndarray:
        """The direction from the rig to the eye."""
        return numpy.cross(self.across, UP)

    def px(self, places) -> numpy.ndarray:
        """Places (..., 3) in metres as places (..., 2) in the drawing.

        >>> View((1.0, 0.0, 0.0), 100.0, 50.0, 400.0).px([1.0, 2.0, 0.0])
        array([150., 200.])
        """
        places = numpy.asarray(places, dtype=float)
        return numpy.stack(
            [self.left_px + self.scale * (places @ numpy.array(self.across)), self.floor_px - self.scale * places[..., 1]], axis=-1
        )

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
    def of(places: numpy.ndarray, across: tuple[float, float, float]) -> Extent:
        sideways = places @ numpy.array(across)
        return Extent(float(sideways.min()), float(sideways.max()), float(places[:, 1].min()), float(places[:, 1].max()))

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
