"""Which way the shoes of guides are pressed while the rig moves: every case is solved, and the one that agrees with itself is the answer.

The shoes rub with μ max(|H|, 2 |M|/h) against the motion, and the force aside H and the moment M depend on the pulls, and those on the friction. In
each of the four cases of the greatest (H or M, positive or negative) the balance is linear.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import product

import numpy

from rigcheck.statics import balance
from rigcheck.statics.friction import Powers
from rigcheck.statics.guides import A_HAIR, Shoes
from rigcheck.statics.layout import driven_end, take_in_shares
from rigcheck.statics.travel import Travel

AT_THE_EDGE = 1e-3  # of what the pulls lift without friction: where friction leaves less, the digits of a pull mean nothing any more
TURNED_OVER, ASIDE = (1.0, -1.0), (1.0, -1.0)
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

        many, pressing = len(self.travel.free), [part for guide in self.guides for part in (guide.side, guide.arm)]
        lift = [
            [[*(-run[:, j] for j in range(many)), *(part[rope][k] for part in pressing)] for k, run in enumerate(growth)]
            for rope, growth in self.travel.growth.items()
        ]
        rows = [whole(row) for row in balance.assemble(list(ratios.values()), lift)]
        matrix, side, arm = (numpy.stack(part, axis=-2) for part in (rows[:many], rows[many::2], rows[many + 1 :: 2]))
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
