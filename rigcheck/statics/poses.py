"""Where the bodies are, and how each of their points moves with the coordinates.

A coordinate is one freedom of one body: a distance along its guide or along an axis, a tilt in the plane, or a turn about a
hinge. What is fixed on another body moves with it and has none of its own. Arrays of poses have the shape (heights, coordinates); arrays of
places (heights, 3). Zero is the drawn pose.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy

from rigcheck.rig.fields import coordinates
from rigcheck.rig.model import Rig
from rigcheck.statics.vectors import cross, dot

FRONT = numpy.array([0.0, 0.0, 1.0])
SMALL_TURN = 1e-5  # rad
TURNS = {"tipping forwards": (1.0, 0.0, 0.0), "turning round": (0.0, 1.0, 0.0), "tilting": (0.0, 0.0, 1.0)}
DIRECTIONS = {"across": (1.0, 0.0, 0.0), "up": (0.0, 1.0, 0.0), "in depth": (0.0, 0.0, 1.0)}


@dataclass(frozen=True)
class Freedom:
    """One coordinate: the body, what it does in words, its direction, and whether it is a tilt or a turn, whose direction is its axis.

    A turn about a hinge has a place on its axis, fixed in the room; a tilt is about the body's reference point.
    """

    body: str
    words: str
    direction: tuple[float, float, float]
    tilts: bool = False
    hinge: tuple[float, float, float] | None = None


def freedoms(rig: Rig) -> list[Freedom]:
    """The coordinates of a rig, the load's first."""
    found = []
    for name in sorted(rig.bodies, key=lambda n: rig.bodies[n].role != "load"):
        moves = rig.bodies[name].moves
        if moves.kind == "carried":
            continue
        if moves.kind == "hinged":
            axis = numpy.array(moves.axis) / numpy.linalg.norm(moves.axis)
            found.append(Freedom(name, "turning about its hinge", tuple(axis.tolist()), tilts=True, hinge=coordinates(moves.hinge)))
        elif moves.kind == "guided":
            along = numpy.array([*moves.along, 0.0][:3])
            along = along / numpy.linalg.norm(along)
            words = {(0, 1, 0): "up", (1, 0, 0): "across"}.get(tuple(along.tolist()), "along its guide")
            found.append(Freedom(name, words, tuple(along.tolist())))
            if moves.tilts:
                found.append(Freedom(name, "tilting", tuple(FRONT), tilts=True))
        else:
            found += [Freedom(name, words, DIRECTIONS[words]) for words in ("across", "up", *(("in depth",) if moves.in_depth else ()))]
            if moves.kind == "free":
                turns = ("tipping forwards", "turning round", "tilting") if moves.in_depth else ("tilting",)
                found += [Freedom(name, words, TURNS[words], tilts=True) for words in turns]
    return found


class Poses:
    """The bodies of a rig in an array of poses."""

    def __init__(self, rig: Rig, free: list[Freedom], q: numpy.ndarray):
        self.rig, self.free, self.q = rig, free, numpy.atleast_2d(q)
        self._references: dict[str, numpy.ndarray] = {}
        self._axes: dict[tuple[str, str], numpy.ndarray] = {}
        self._leanings: dict[tuple[str, str], dict[int, numpy.ndarray]] = {}
        self._turns: dict[str, tuple[numpy.ndarray, tuple[numpy.ndarray, numpy.ndarray, numpy.ndarray]]] = {}

    def reference(self, body: str) -> numpy.ndarray:
        """The reference point of a body, (heights, 3)."""
        if body not in self._references:
            self._references[body] = self._reference(body)
        return self._references[body]

    def _reference(self, body: str) -> numpy.ndarray:
        own = self.rig.carrier(body)
        drawn = coordinates(self.rig.bodies[own].at)
        if own != body:
            return self.on_body(own, tuple(numpy.subtract(coordinates(self.rig.bodies[body].at), drawn)))
        at = numpy.tile(drawn, (len(self.q), 1))
        for j, freedom in enumerate(self.free):
            if freedom.body != body:
                continue
            if freedom.hinge is not None:
                at = numpy.array(freedom.hinge) + self.turned(body, numpy.subtract(drawn, freedom.hinge))
            elif not freedom.tilts:
                at = at + self.q[:, j : j + 1] * numpy.array(freedom.direction)
        return at

    def turn(self, body: str) -> numpy.ndarray:
        """The turn of a body from its drawn pose as a vector along its axis, as long as the angle in radians, (heights, 3)."""
        return self._turn(body)[0]

    def _turn(self, body: str):
        own = self.rig.carrier(body)
        if own not in self._turns:
            turned = [self.q[:, j : j + 1] * numpy.array(f.direction) for j, f in enumerate(self.free) if f.body == own and f.tilts]
            turn = sum(turned, numpy.zeros((len(self.q), 3)))
            self._turns[own] = turn, _series(numpy.sqrt(dot(turn, turn)))
        return self._turns[own]

    def turned(self, body: str, offset: tuple[float, float, float] | numpy.ndarray) -> numpy.ndarray:
        """A direction or an arm, stated in the drawn pose, as the body has turned it (Rodrigues' formula), (heights, 3)."""
        arm = numpy.tile(numpy.asarray(offset, dtype=float), (len(self.q), 1))
        turn, (first, second, _) = self._turn(body)
        if not numpy.any(turn):
            return arm
        once = cross(turn, arm)
        return arm + first * once + second * cross(turn, once)

    def on_body(self, body: str, offset: tuple[float, float, float]) -> numpy.ndarray:
        """A place carried by a body, given by its offset in the drawn pose, (heights, 3)."""
        return self.reference(body) + self.turned(body, offset)

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
        own = self.rig.carrier(carrier) if carrier in self.rig.bodies else None
        for j, freedom in enumerate(self.free):
            if freedom.body != own:
                continue
            if freedom.tilts:
                about = self.reference(own) if freedom.hinge is None else numpy.array(freedom.hinge)
                moved[:, j] = cross(self._axis(own, freedom), place - about)
            else:
                moved[:, j] = freedom.direction
        return moved

    def moved_twice(self, carrier: str | None, place: numpy.ndarray, slides: numpy.ndarray) -> numpy.ndarray:
        """How `moved_by` of a place changes with each coordinate, (heights, moved by, changing, 3), the place going with `slides` (heights, changing, 3)."""
        many = len(self.free)
        found = numpy.zeros((len(self.q), many, many, 3))
        own = self.rig.carrier(carrier) if carrier in self.rig.bodies else None
        for j, freedom in enumerate(self.free):
            if freedom.body != own or not freedom.tilts:
                continue
            if freedom.hinge is None:
                about, goes = self.reference(own), self.moved_by(own, self.reference(own))
            else:
                about, goes = numpy.array(freedom.hinge), 0.0
            found[:, j] = cross(self._axis(own, freedom)[:, None], slides - goes)
            for i, leaning in self._leaning(own, freedom).items():
                found[:, j, i] += cross(leaning, place - about)
        return found

    def _leaning(self, body: str, freedom: Freedom) -> dict[int, numpy.ndarray]:
        """How the axis of one turn leans over as each of the body's turns grows; none where it has one turn only."""
        if (body, freedom.words) in self._leanings:
            return self._leanings[body, freedom.words]
        turns = [i for i, f in enumerate(self.free) if f.body == body and f.tilts]
        found = self._leanings[body, freedom.words] = {}
        if len(turns) == 1:
            return found
        for i in turns:
            step = numpy.zeros(len(self.free))
            step[i] = SMALL_TURN
            ahead, behind = (Poses(self.rig, self.free, self.q + side * step)._axis(body, freedom) for side in (1, -1))
            found[i] = (ahead - behind) / (2 * SMALL_TURN)
        return found

    def _axis(self, body: str, freedom: Freedom) -> numpy.ndarray:
        """The axis about which a body turns as one of its turns grows: its own direction, leaning over where others turn it too."""
        if (body, freedom.words) not in self._axes:
            axis = numpy.tile(numpy.array(freedom.direction), (len(self.q), 1))
            if sum(f.body == body and f.tilts for f in self.free) > 1:
                turn, (_, second, third) = self._turn(body)
                once = cross(turn, axis)
                axis = axis + second * once + third * cross(turn, once)
            self._axes[body, freedom.words] = axis
        return self._axes[body, freedom.words]


def _series(angle: numpy.ndarray) -> tuple[numpy.ndarray, numpy.ndarray, numpy.ndarray]:
    """sin a / a, (1 - cos a) / a² and (a - sin a) / a³, each (heights, 1), also at and near no turn at all."""
    a, square = angle[..., None], angle[..., None] ** 2
    small = a < 0.1  # there the difference in the third would lose its last digits
    far = numpy.where(small, 1.0, a)
    near = 1 / 6 - square / 120 + square**2 / 5040 - square**3 / 362880
    third = numpy.where(small, near, (far - numpy.sin(far)) / far**3)
    return numpy.sinc(a / numpy.pi), numpy.sinc(a / (2 * numpy.pi)) ** 2 / 2, third
