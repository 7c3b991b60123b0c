"""Guides that rub: the shoes of a guided body, and how everything that acts on it presses them.

A guide line has an along and an across direction; across is the along direction turned by a quarter clockwise, so that it points right where the
guide is plumb. Two shoes h apart take the force aside H and the moment M about the middle between them: N = -H/2 ± M/h, and rub with
μ (|N_upper| + |N_lower|) = μ max(|H|, 2 |M|/h) against the motion.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy

from rigcheck.rig.fields import coordinates
from rigcheck.rig.model import Guided, Rig
from rigcheck.statics.poses import FRONT
from rigcheck.statics.travel import Travel
from rigcheck.statics.vectors import cross

A_HAIR = 1e-9
IN_PLANE_M = 1e-3  # what pulls farther than this before or behind the shoes turns the body in depth too


@dataclass(frozen=True)
class Shoes:
    """The shoes of one guided body, and how everything that acts on it presses them, along the travel.

    `side[rope]` and `arm[rope]` (runs, heights): force aside and moment about the middle between the shoes for each newton of pull in a run;
    `side_weight` and `arm_weight` by body, per newton of weight. `way` (heights,) is +1 where the body moves along its guide while raising, -1
    where it moves back. `faces_m` is the width between the faces, negative where the shoes run between two rails, 0 where it does not matter.
    """

    body: str
    equation: int
    apart_m: float
    friction: float
    faces_m: float
    way: numpy.ndarray
    side: dict[str, numpy.ndarray]
    arm: dict[str, numpy.ndarray]
    side_weight: dict[str, float]
    arm_weight: dict[str, float]
    notes: Mapping[str, str] = field(default_factory=dict)

    @property
    def is_pulled_aside(self) -> bool:
        """Whether anything presses both shoes the same way."""
        return any(numpy.any(part) for part in self.side.values()) or any(self.side_weight.values())


@dataclass(frozen=True)
class Uncounted:
    """A guide of which something is stated, and why its friction is in no pull all the same: in words, and the fields that would let it be."""

    body: str
    reason: str
    wants: tuple[tuple[str | int, ...], ...] = ()


def read(travel: Travel) -> tuple[list[Shoes], list[Uncounted]]:
    """The guides whose friction is counted in the pulls, and those of which it cannot be."""
    counted, left = [], []
    for j, free in enumerate(travel.free):
        moves = travel.rig.bodies[free.body].moves
        if moves.kind != "guided" or not moves.is_described:
            continue
        if (missing := what_is_missing(moves)) is not None:
            left.append(Uncounted(free.body, missing[1], (("bodies", free.body, "moves", missing[0]),)))
            continue
        shoes = _shoes(travel, j)
        why = _why_not(travel, shoes)
        if why is not None:
            left.append(why)
        else:
            counted.append(shoes)
    return counted, left


def what_is_missing(moves: Guided) -> tuple[str, str] | None:
    """The first field without which the friction of a guide cannot be worked out, and how to find it out."""
    asked = {
        "shoes_apart": "How far apart its shoes are is not stated: measure along the guide from the middle of the lower shoe or roller to the middle of the upper one.",
        "lower_shoe": "Where its lower shoe is, is not stated: measure across and up to it from the middle of the body's underside.",
        "friction": "The friction of its guide is not stated: lay the body with its shoes on a length of the rail and tip the rail until it slides by itself; rise over "
        "run is the friction. Take the highest of several tries, dry and dusty too.",
    }  # fmt: skip
    return next(((name, how) for name, how in asked.items() if getattr(moves, name) is None), None)


def directions(moves: Guided) -> tuple[numpy.ndarray, numpy.ndarray]:
    """Along the guide and across it, as unit vectors."""
    along = numpy.array([*moves.along, 0.0][:3])
    along = along / numpy.linalg.norm(along)
    return along, numpy.array([along[1], -along[0], 0.0])


def middle(rig: Rig, body: str) -> numpy.ndarray:
    """The middle between the shoes, from the reference point of the body."""
    moves = rig.bodies[body].moves
    return numpy.array(coordinates(moves.lower_shoe)) + directions(moves)[0] * moves.shoes_apart.value / 2


def faces(moves: Guided) -> float:
    """The width between the faces, negative between rails; 0 where it is not stated."""
    if moves.faces_apart is None or moves.shoes is None:
        return 0.0
    return moves.faces_apart.value * (1.0 if moves.shoes == "around a rail" else -1.0)


def weights_on(rig: Rig, body: str) -> tuple[dict[str, float], dict[str, float]]:
    """Force aside and moment about the middle between the shoes for each newton of weight of the body and of all fixed on it."""
    _, across = directions(rig.bodies[body].moves)
    here = numpy.array(coordinates(rig.bodies[body].at)) + middle(rig, body)
    side, arm = {}, {}
    for name in rig.moving_as_one(body):
        centre = numpy.add(coordinates(rig.bodies[name].at), coordinates(rig.bodies[name].centre_of_gravity))
        side[name], arm[name] = -float(across[1]), -_exactly(float(centre[0] - here[0]))
    return side, arm


def _shoes(travel: Travel, j: int) -> Shoes:
    rig, body = travel.rig, travel.free[j].body
    moves = rig.bodies[body].moves
    _, across = directions(moves)
    here = travel.poses.reference(body) + middle(rig, body)
    side, arm = {}, {}
    for rope, path in travel.paths.items():
        pressing = numpy.zeros((len(path.directions), len(here)))
        turning = numpy.zeros_like(pressing)
        for k, along in enumerate(path.directions):
            for stop, place, sense in ((path.stops[k], path.starts[k], 1.0), (path.stops[k + 1], path.ends[k], -1.0)):
                if _is_on(rig, stop.carrier, body):
                    pressing[k] += sense * along @ across
                    turning[k] += sense * (cross(place - here, along) @ FRONT)
        side[rope], arm[rope] = _exactly(pressing), _exactly(turning)
    side_weight, arm_weight = weights_on(rig, body)
    moved = travel.motion.q[:, j]
    way = numpy.where(numpy.abs(moved) < A_HAIR, 0.0, numpy.sign(moved))
    return Shoes(body, j, moves.shoes_apart.value, moves.friction, faces(moves), way, side, arm, side_weight, arm_weight, moves.notes)


def _is_on(rig: Rig, carrier: str | None, body: str) -> bool:
    return carrier in rig.bodies and rig.carrier(carrier) == body


def _exactly(value):
    """Without the last digits of a float: what points along the guide presses nothing aside."""
    return numpy.where(numpy.abs(value) < A_HAIR, 0.0, value) if numpy.ndim(value) else (0.0 if abs(value) < A_HAIR else value)


def _why_not(travel: Travel, shoes: Shoes) -> Uncounted | None:
    rig, body = travel.rig, shoes.body
    moves, own = rig.bodies[body].moves, ("bodies", body, "moves")
    if travel.hung is not None:
        return Uncounted(body, "Something in this rig hangs free, and how the friction of a guide draws it aside is not worked out.")
    if len(travel.growth) > len(travel.free):
        return Uncounted(
            body, "There are more ropes than hold the bodies, so how they share decides what presses the guide, and that is not known."
        )
    if _reaches_in_depth(travel, shoes):
        return Uncounted(
            body, "It is pulled before or behind its shoes or towards one side in depth, and what turns it in depth is not worked out."
        )
    if shoes.is_pulled_aside and not shoes.faces_m:
        reason = (
            "Something presses it aside, so that it matters how far apart the two faces are that its shoes run on, and whether the shoes grip around one rail or run "
            "between two: measure across the rail, or from rail to rail."
        )
        return Uncounted(body, reason, tuple((*own, name) for name in ("shoes", "faces_apart") if getattr(moves, name) is None))
    return None


def _reaches_in_depth(travel: Travel, shoes: Shoes) -> bool:
    rig, body = travel.rig, shoes.body
    along, _ = directions(rig.bodies[body].moves)
    depth = (travel.poses.reference(body) + middle(rig, body))[:, 2]
    reaching = [travel.poses.centre_of_gravity(name)[:, 2] - depth for name in shoes.arm_weight]
    slanting = [along[2:]]
    for path in travel.paths.values():
        for k, direction in enumerate(path.directions):
            for stop, place in ((path.stops[k], path.starts[k]), (path.stops[k + 1], path.ends[k])):
                if _is_on(rig, stop.carrier, body):
                    reaching.append(place[:, 2] - depth)
                    slanting.append(direction[:, 2])
    return any(numpy.any(numpy.abs(part) > IN_PLANE_M) for part in reaching) or any(
        numpy.any(numpy.abs(part) > A_HAIR) for part in slanting
    )
