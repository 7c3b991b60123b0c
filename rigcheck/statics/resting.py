"""The balances at rest: one where no guide rubs, else one for every way in which the friction of the guides may be used up to its limit.

At rest a guide holds whatever is needed up to μ max(|H|, 2 |M|/h): that is so if it is within μ times one of H, -H, 2 M/h and -2 M/h, so the
pulls that can be held are four regions put together, each with straight bounds. On a bound the friction stands in the balance as it does while moving.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product

import numpy

from rigcheck.statics.guide_cases import shares_taken
from rigcheck.statics.guides import Shoes
from rigcheck.statics.holding import HoldingRanges
from rigcheck.statics.travel import Travel, weight_shares

NEAR_JAMMING = 0.02  # of what a pull lifts without friction: where so little is left, no greatest pull is told


@dataclass(frozen=True)
class RestBalance:
    """Lifts by rope (runs, heights, equations), and by equation the share of each weight (heights,)."""

    lifts: list[numpy.ndarray]
    shares: list[dict[str, numpy.ndarray]]


class AtRest:
    """All balances at rest of one rig, and the ranges of its pulls from theirs put together."""

    def __init__(self, travel: Travel, guides: list[Shoes]):
        self.ropes, self.guides = list(travel.growth), guides
        plain = RestBalance([-growth for growth in travel.growth.values()], weight_shares(travel))
        self.plain = plain
        self.balances = [self._bounded(plain, chosen) for chosen in product(*(_bounds(guide) for guide in guides))] if guides else [plain]
        if all(_is_steady(balance) for balance in [plain, *self.balances]):
            # falls that keep their direction pull alike at every height: one height stands for all
            self.plain, self.balances = _at_first(plain), [_at_first(balance) for balance in self.balances]
        self.heights = self.plain.lifts[0].shape[1]

    def _bounded(self, plain: RestBalance, chosen) -> RestBalance:
        lifts, shares = [lift.copy() for lift in plain.lifts], [dict(own) for own in plain.shares]
        for guide, (way, case) in zip(self.guides, chosen, strict=True):
            s, t = shares_taken(guide, numpy.full(lifts[0].shape[1], way), case, guide.friction)
            for r, rope in enumerate(self.ropes):
                lifts[r][..., guide.equation] -= s * guide.side[rope] + t * guide.arm[rope]
            for body in guide.arm_weight:
                shares[guide.equation][body] = shares[guide.equation][body] + s * guide.side_weight[body] + t * guide.arm_weight[body]
        return RestBalance(lifts, shares)

    def ranges(self, corners: list[HoldingRanges], weights: dict[str, numpy.ndarray], efficiencies: dict[str, numpy.ndarray]):
        """Least and greatest pull of every run, two lists of arrays (runs, ..., heights)."""
        found = []
        for balance, ranges in zip(self.balances, corners, strict=True):
            lifted = [sum(weights[body] * share for body, share in own.items()) for own in balance.shares]
            shape = numpy.broadcast_shapes(*(value.shape for value in [*lifted, *efficiencies.values()]))
            found.append(ranges.at(numpy.array([numpy.broadcast_to(each, shape) for each in lifted])))
        if not self.guides:
            return found[0]
        least, most = (list(zip(*side, strict=True)) for side in zip(*found, strict=True))
        jams, hangs = self._jams(efficiencies), self._hang(weights)
        # beyond the edge of jamming a bound is not reached by pulling less, but by pulling harder than without limit
        beyond = [_determinant(balance, 1.0) * numpy.sign(_determinant(self.plain, 1.0)) <= 0 for balance in self.balances]
        lowest = []
        for r, parts in enumerate(least):
            at_least = numpy.fmin.reduce(parts)
            # where a rope would have to push at one bound and pulls at another, in between it hangs slack
            loose = numpy.any([numpy.isnan(part) & ~far for part, far in zip(parts, beyond, strict=True)], axis=0) | hangs[r]
            lowest.append(numpy.where(loose & numpy.isfinite(at_least), 0.0, at_least))
        return lowest, [numpy.where(jams, numpy.nan, numpy.fmax.reduce(parts)) for parts in most]

    def _hang(self, weights: dict[str, numpy.ndarray]) -> list[numpy.ndarray]:
        """By rope, where a body it holds stays where it is by its friction and weight alone."""
        found = [numpy.zeros(1, dtype=bool) for _ in self.ropes]
        for guide in self.guides:
            own = self.plain.shares[guide.equation]
            down = sum(weights[body] * share for body, share in own.items())
            holds = numpy.abs(down) <= weight_friction(guide, weights)
            for r, lift in enumerate(self.plain.lifts):
                if numpy.any(lift[..., guide.equation]):
                    found[r] = found[r] | holds
        return found

    def _jams(self, efficiencies: dict[str, numpy.ndarray]) -> numpy.ndarray:
        """Where some pulls press a guide so hard that however hard they pull nothing moves: there is no greatest pull then."""
        worst = min((float(numpy.min(value)) for value in efficiencies.values()), default=1.0)
        found = numpy.zeros(self.heights, dtype=bool)
        if len(self.ropes) != len(self.plain.shares):
            return found
        for each in (1.0, worst, 1 / worst):
            without = _determinant(self.plain, each)
            for balance in self.balances:
                found |= _determinant(balance, each) * numpy.sign(without) <= NEAR_JAMMING * numpy.abs(without)
        return found


def weight_friction(guide: Shoes, weights: dict[str, numpy.ndarray]) -> numpy.ndarray:
    """The most that a guide can rub where nothing but weight acts on the body."""
    push = sum(weights[body] * share for body, share in guide.side_weight.items())
    moment = sum(weights[body] * arm for body, arm in guide.arm_weight.items())
    over = numpy.abs(moment) + numpy.abs(guide.friction * guide.faces_m / 2 * push)
    return guide.friction * numpy.maximum(numpy.abs(push), 2 * over / guide.apart_m)


def _bounds(guide: Shoes) -> list[tuple[float, tuple[float, float]]]:
    """Way of motion that is about to begin, and which way the body is pressed; without faces apart the ways are the same with the other sense."""
    cases = [(1.0, 0.0), (-1.0, 0.0)]
    if guide.is_pulled_aside:
        return [(1.0, (0.0, 1.0)), (1.0, (0.0, -1.0)), *((way, case) for way in (1.0, -1.0) for case in cases)]
    return [(1.0, case) for case in cases]


def _determinant(balance: RestBalance, ratio: float) -> numpy.ndarray:
    ratios = [ratio ** numpy.arange(len(lift))[:, None, None] for lift in balance.lifts]
    return numpy.linalg.det(numpy.stack([(q * lift).sum(axis=0) for q, lift in zip(ratios, balance.lifts, strict=True)], axis=-1))


def _is_steady(balance: RestBalance) -> bool:
    return all(numpy.ptp(lift, axis=1).max() == 0 for lift in balance.lifts) and all(
        numpy.ptp(share) == 0 for own in balance.shares for share in own.values()
    )


def _at_first(balance: RestBalance) -> RestBalance:
    return RestBalance(
        [lift[:, :1] for lift in balance.lifts], [{body: share[:1] for body, share in own.items()} for own in balance.shares]
    )
