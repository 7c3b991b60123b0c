"""Guides that rub: what presses the shoes of a guided body, and which way they are pressed while the rig moves.

A guide line has an along and an across direction; across is the along direction turned by a quarter clockwise, so that it points right where the
guide is plumb. Two shoes h apart take the force aside H and the moment M about the middle between them: N = -H/2 ± M/h, and rub with
μ (|N_upper| + |N_lower|) = μ max(|H|, 2 |M|/h) against the motion. H and M depend on the pulls, and the pulls on this friction. In each of the
four cases of the greatest (H or M, positive or negative) the balance is linear: all cases are solved, and the one that agrees with itself is the answer.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from itertools import product

import numpy

from rigcheck.rig.fields import coordinates
from rigcheck.rig.model import Guided, Rig
from rigcheck.statics.friction import Powers
from rigcheck.statics.layout import driven_end, take_in_shares
from rigcheck.statics.poses import FRONT
from rigcheck.statics.travel import Travel
from rigcheck.statics.vectors import cross

A_HAIR = 1e-9
AT_THE_EDGE = 1e-3  # of what the pulls lift without friction: where friction leaves less, the digits of a pull mean nothing any more
IN_PLANE_M = 1e-3  # what pulls farther than this before or behind the shoes turns the body in depth too
TURNED_OVER, ASIDE = (1.0, -1.0), (1.0, -1.0)


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


Numbers = Mapping[str, numpy.ndarray]


@dataclass(frozen=True)
class Moving:
    """All guides that rub in one way of moving: solves every case of what presses them and tells which holds.

    `lift` (ropes of runs, heights, equations) and `rise` are those of the balance without friction.
    """

    travel: Travel
    guides: list[Shoes]
    powers: dict[str, Powers]
    shares: list[dict[str, numpy.ndarray]]
    way: int

    @cached_property
    def _drive(self) -> numpy.ndarray:
        rig = self.travel.rig
        return take_in_shares(rig) * numpy.array([driven_end(rig, rope) is not None for rope in rig.ropes])

    def senses(self, weights: Numbers, efficiencies: Numbers, frictions: Numbers) -> numpy.ndarray:
        """Which way each guide is pressed over and aside against its motion: (guides, over and aside, ..., heights), +1, -1 or 0; NaN where no pull moves the rig.

        Where several answers agree with themselves, raising begins at the least pull and lowering comes down to the greatest.
        """
        base = self._base(weights, efficiencies)
        shape = base[0].shape[:-2]
        best = numpy.full(shape, numpy.nan)
        found = numpy.full((len(self.guides), 2, *shape), numpy.nan)
        for chosen in product(*(self._cases(guide) for guide in self.guides)):
            pulls, agrees = self._tried(chosen, base, frictions)
            worth = (pulls @ self._drive) * -self.way
            # an answer in which a rope would have to push counts only where there is no other
            worth = numpy.where(numpy.all(pulls >= -A_HAIR * base[4][..., None], axis=-1), worth, worth - 1e6 * base[4])
            better = agrees & ~(worth <= best)
            best = numpy.where(better, worth, best)
            for g, case in enumerate(chosen):
                for i in (0, 1):
                    found[g, i] = numpy.where(better, case[i] * self.guides[g].way * self.way, found[g, i])
        return found

    def _cases(self, guide: Shoes) -> list[tuple[float, float]]:
        return [(over, 0.0) for over in TURNED_OVER] + ([(0.0, aside) for aside in ASIDE] if guide.is_pulled_aside else [])

    def _base(self, weights: Numbers, efficiencies: Numbers):
        """The balance without friction, and what presses every guide: matrices (..., heights, equations, ropes) and right-hand sides."""
        ratios = {rope: power.ratios(efficiencies, self.way) for rope, power in self.powers.items()}
        shape = numpy.broadcast_shapes(
            *(value.shape for value in weights.values()), *(r.shape for own in ratios.values() for r in own), self.travel.heights_m.shape
        )

        def whole(rows) -> numpy.ndarray:
            return numpy.stack([numpy.broadcast_to(row, shape) for row in rows], axis=-1)

        matrix = numpy.stack(
            [
                whole(
                    [
                        sum(r * -run[:, j] for r, run in zip(ratios[rope], growth, strict=True))
                        for rope, growth in self.travel.growth.items()
                    ]
                )
                for j in range(len(self.travel.free))
            ],
            axis=-2,
        )
        side, arm = (
            numpy.stack([whole([sum(r * run for r, run in zip(ratios[rope], part(g)[rope], strict=True)) for rope in ratios]) for g in self.guides], axis=-2)
            for part in (lambda g: g.side, lambda g: g.arm)
        )  # fmt: skip
        lifted = whole([sum(weights[body] * rise for body, rise in own.items()) for own in self.shares])
        aside, over = (
            whole([sum(weights[body] * share for body, share in part(g).items()) for g in self.guides])
            for part in (lambda g: g.side_weight, lambda g: g.arm_weight)
        )
        scale = numpy.broadcast_to(sum(numpy.abs(value) for value in weights.values()), shape)
        return matrix, side, arm, (lifted, aside, over), scale

    def _tried(self, chosen, base, frictions: Numbers) -> tuple[numpy.ndarray, numpy.ndarray]:
        """The pulls in one case, and where they agree with it."""
        matrix, side, arm, (lifted, aside, over), scale = base
        rows, right = matrix.copy(), lifted.copy()
        for g, (guide, case) in enumerate(zip(self.guides, chosen, strict=True)):
            s, t = shares_taken(guide, guide.way * self.way, case, frictions[guide.body])
            rows[..., guide.equation, :] -= s[..., None] * side[..., g, :] + t[..., None] * arm[..., g, :]
            right[..., guide.equation] += s * aside[..., g] + t * over[..., g]
        sound = numpy.abs(numpy.linalg.det(rows)) > AT_THE_EDGE * numpy.abs(numpy.linalg.det(matrix))
        pulls = numpy.full(right.shape, numpy.nan)
        pulls[sound] = numpy.linalg.solve(rows[sound], right[sound][..., None])[..., 0]
        agrees = sound
        for g, (guide, (turned, pressed)) in enumerate(zip(self.guides, chosen, strict=True)):
            push = numpy.einsum("...r,...r->...", side[..., g, :], pulls) + aside[..., g]
            moment = numpy.einsum("...r,...r->...", arm[..., g, :], pulls) + over[..., g]
            moment = moment + guide.way * self.way * frictions[guide.body] * guide.faces_m / 2 * push
            couple = 2 * moment / guide.apart_m
            greatest = numpy.maximum(numpy.abs(push), numpy.abs(couple))
            agrees = agrees & (turned * couple + pressed * push >= greatest * (1 - A_HAIR) - A_HAIR * scale)
        return pulls, agrees


def shares_taken(guide: Shoes, way: numpy.ndarray, case: tuple[float, float], friction) -> tuple[numpy.ndarray, numpy.ndarray]:
    """What friction takes along the guide of each newton aside, and of each newton-metre of moment, in one case.

    `way` is +1 where the body moves along its guide, -1 where it moves back; `case` is the sense of the moment or of the force aside.
    """
    turned, pressed = case
    over = way * turned * friction
    return way * pressed * friction + over * friction * way * guide.faces_m / guide.apart_m, 2 * over / guide.apart_m
