"""Where the bodies are, and how each of their points moves with the coordinates.

A coordinate is one freedom of one body: a distance along its guide or along an axis, or a tilt in the plane. Arrays of
poses have the shape (heights, coordinates); arrays of places (heights, 3). Zero is the drawn pose.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy

from rigcheck.rig.fields import coordinates
from rigcheck.rig.model import Rig
from rigcheck.statics.vectors import cross

FRONT = numpy.array([0.0, 0.0, 1.0])
DIRECTIONS = {"across": (1.0, 0.0, 0.0), "up": (0.0, 1.0, 0.0), "in depth": (0.0, 0.0, 1.0)}


@dataclass(frozen=True)
class Freedom:
    """One coordinate: the body, what it does in words, its direction, and whether it is a tilt."""

    body: str
    words: str
    direction: tuple[float, float, float]
    tilts: bool = False


def freedoms(rig: Rig) -> list[Freedom]:
    """The coordinates of a rig, the load's first."""
    found = []
    for name in sorted(rig.bodies, key=lambda n: rig.bodies[n].role != "load"):
        moves = rig.bodies[name].moves
        if moves.kind == "guided":
            along = numpy.array([*moves.along, 0.0][:3])
            along = along / numpy.linalg.norm(along)
            words = {(0, 1, 0): "up", (1, 0, 0): "across"}.get(tuple(along.tolist()), "along its guide")
            found.append(Freedom(name, words, tuple(along.tolist())))
            if moves.tilts:
                found.append(Freedom(name, "tilting", tuple(FRONT), tilts=True))
        else:
            found += [Freedom(name, words, DIRECTIONS[words]) for words in ("across", "up", *(("in depth",) if moves.in_depth else ()))]
    return found


class Poses:
    """The bodies of a rig in an array of poses."""

    def __init__(self, rig: Rig, free: list[Freedom], q: numpy.ndarray):
        self.rig, self.free, self.q = rig, free, numpy.atleast_2d(q)

    def reference(self, body: str) -> numpy.ndarray:
        """The reference point of a body, (heights, 3)."""
        at = numpy.tile(coordinates(self.rig.bodies[body].at), (len(self.q), 1))
        for j, freedom in enumerate(self.free):
            if freedom.body == body and not freedom.tilts:
                at = at + self.q[:, j : j + 1] * numpy.array(freedom.direction)
        return at

    def tilt(self, body: str) -> numpy.ndarray:
        """The tilt of a body, anticlockwise from the front, (heights,)."""
        return sum((self.q[:, j] for j, f in enumerate(self.free) if f.body == body and f.tilts), numpy.zeros(len(self.q)))

    def on_body(self, body: str, offset: tuple[float, float, float]) -> numpy.ndarray:
        """A place carried by a body, given by its offset in the drawn pose, (heights, 3)."""
        turn = self.tilt(body)
        x, y, z = offset
        turned = numpy.stack(
            [x * numpy.cos(turn) - y * numpy.sin(turn), x * numpy.sin(turn) + y * numpy.cos(turn), numpy.full_like(turn, z)], axis=1
        )
        return self.reference(body) + turned

    def on(self, name: str, offset: tuple[float, float, float]) -> numpy.ndarray:
        """A place carried by a point or a body."""
        if name in self.rig.points:
            return numpy.tile(numpy.add(coordinates(self.rig.points[name].at), offset), (len(self.q), 1))
        return self.on_body(name, offset)

    def centre_of_gravity(self, body: str) -> numpy.ndarray:
        return self.on_body(body, coordinates(self.rig.bodies[body].centre_of_gravity))

    def moved_by(self, carrier: str | None, place: numpy.ndarray) -> numpy.ndarray:
        """d(place)/dq for a place fixed in its carrier, (heights, coordinates, 3); zero for fixed places."""
        moved = numpy.zeros((len(self.q), len(self.free), 3))
        for j, freedom in enumerate(self.free):
            if freedom.body == carrier:
                moved[:, j] = cross(FRONT, place - self.reference(carrier)) if freedom.tilts else freedom.direction
        return moved
