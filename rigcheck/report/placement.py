"""Placing labels: inside the picture, never over one another, over as few lines as can be, and near what they name.

The spot that costs least is taken: what the label would cover of the drawing, whether it would stand nearer to another line than
to its own, how far it is from its part, what its leader crosses. Where nothing is free the picture grows downwards, so a place
always exists.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

import numpy

from rigcheck.report.labels import Box, Spot, Wish, sampled

GAP_PX = 2.0
_CELL_PX = 1.5
_NEIGHBOUR_PX = 9.0
_NEIGHBOUR_SHARE = 0.12
_COVERED_COST = 1.4
_CROSSING_COST = 60.0
_LEADER_COST = 3.0
_GOOD_ENOUGH = 4.0


@dataclass(frozen=True)
class Placed:
    """A label in its place, with the two ends of its leader where it has one."""

    wish: Wish
    box: Box
    leader: tuple[numpy.ndarray, numpy.ndarray] | None = None
    on_line: bool = False

    @property
    def leans(self) -> int:
        """Where the text stands in its box: -1 at its left edge, 1 at its right, towards its part; 0 in the middle."""
        if self.box.angle_deg or self.on_line:
            return 0
        away = self.box.x - self.wish.target[0]
        return 0 if abs(away) < self.box.width * 0.3 else (-1 if away > 0 else 1)


@dataclass
class Sheet:
    """The picture as far as labels see it: its bounds, its ink as weighted places, and the labels set so far."""

    width: float
    height: float
    ink: numpy.ndarray
    weights: numpy.ndarray
    taken: list[Box] = field(default_factory=list)
    placed: list[Placed] = field(default_factory=list)

    def __post_init__(self):
        self._add_up()

    def _add_up(self) -> None:
        """Sums of weight over all cells up and left of each corner, from which the weight in any upright box follows at once."""
        shape = int(self.height // _CELL_PX) + 2, int(self.width // _CELL_PX) + 2
        cells = numpy.clip((self.ink / _CELL_PX).astype(int), 0, (shape[1] - 1, shape[0] - 1))
        inside = ((self.ink >= 0) & (self.ink < (self.width, self.height))).all(axis=1)
        weight = numpy.zeros(shape)
        numpy.add.at(weight, (cells[inside, 1], cells[inside, 0]), self.weights[inside])
        self._sums = numpy.zeros((shape[0] + 1, shape[1] + 1))
        self._sums[1:, 1:] = weight.cumsum(axis=0).cumsum(axis=1)

    def weight_in(self, box: Box, more: float = 0.0) -> float:
        """About how much ink an upright box covers."""
        rows, columns = self._sums.shape
        left, right = ((box.x + side * (box.width / 2 + more)) / _CELL_PX for side in (-1, 1))
        top, bottom = ((box.y + side * (box.height / 2 + more)) / _CELL_PX for side in (-1, 1))
        x0, x1 = (min(max(int(v), 0), columns - 1) for v in (left, right + 1))
        y0, y1 = (min(max(int(v), 0), rows - 1) for v in (top, bottom + 1))
        return float(self._sums[y1, x1] - self._sums[y0, x1] - self._sums[y1, x0] + self._sums[y0, x0])

    def keep_free(self, one: Placed) -> None:
        """Take a label that stands where it stands."""
        self.taken.append(one.box)
        self.placed.append(one)

    def set(self, wish: Wish) -> Placed:
        """Place one label for good."""
        found = self._best(wish, wish.spots, None)
        if found is None or found[0] > _GOOD_ENOUGH:
            found = self._best(wish, _rings(wish), found)
        if found is None:
            found = self._best(wish, self._everywhere(wish), None)
        if found is None:
            box = Box(wish.width / 2 + 4, self.height + wish.height / 2 + 4, wish.width, wish.height)
            self.height += wish.height + 8
            self._add_up()
            found = 0.0, Placed(wish, box, self._leader(wish, box))
        one = found[1]
        self.keep_free(one)
        if one.leader is not None:
            places = sampled(numpy.array(one.leader))
            self.ink = numpy.concatenate([self.ink, places])
            self.weights = numpy.concatenate([self.weights, numpy.full(len(places), 1.5)])
            self._add_up()
        return one

    def _best(self, wish: Wish, spots: Iterable[Spot], best: tuple[float, Placed] | None) -> tuple[float, Placed] | None:
        for spot in spots:
            if best is not None and spot.dislike >= best[0]:
                continue
            box = Box(spot.x, spot.y, wish.width, wish.height, spot.angle_deg)
            if not self._inside(box):
                continue
            cost = spot.dislike + _COVERED_COST * self._covered(wish, box, spot)
            if best is not None and cost >= best[0]:
                continue
            if any(box.overlaps(other, GAP_PX) for other in self.taken):
                continue
            leader = None if spot.on_line else self._leader(wish, box)
            if leader is not None and best is not None and cost + _LEADER_COST >= best[0]:
                continue
            cost += self._crossings(leader)
            if best is None or cost < best[0]:
                best = cost, Placed(wish, box, leader, spot.on_line)
        return best

    def _covered(self, wish: Wish, box: Box, spot: Spot) -> float:
        """The cost of what a box covers and of lines close by; a label on its own run may cover that run."""
        if not box.angle_deg and not spot.on_line:
            covered = self.weight_in(box, 1.0)
            return covered + (_NEIGHBOUR_SHARE * (self.weight_in(box, _NEIGHBOUR_PX) - covered) if wish.run else 0.0)
        near = box.holds(self.ink, _NEIGHBOUR_PX)
        ink, weights = self.ink[near], self.weights[near]
        if spot.on_line:
            start, end = (numpy.array(p) for p in wish.run)
            u = (end - start) / numpy.linalg.norm(end - start)
            other = numpy.abs((ink - start) @ numpy.array([-u[1], u[0]])) > 1.2
            ink, weights = ink[other], weights[other]
        covered = float(weights[box.holds(ink, 1.0)].sum())
        return covered + _NEIGHBOUR_SHARE * (float(weights.sum()) - covered)

    def _inside(self, box: Box) -> bool:
        if not box.angle_deg:
            return (
                abs(box.x - self.width / 2) + box.width / 2 <= self.width / 2 - 2
                and abs(box.y - self.height / 2) + box.height / 2 <= self.height / 2 - 2
            )
        corners = box.corners
        return bool((corners >= 2).all() and (corners[:, 0] <= self.width - 2).all() and (corners[:, 1] <= self.height - 2).all())

    def _leader(self, wish: Wish, box: Box) -> tuple[numpy.ndarray, numpy.ndarray] | None:
        target = numpy.array(wish.target)
        if wish.run is not None:
            target = _nearest_on(wish.run, (box.x, box.y))
        edge = box.edge_towards(target)
        away = float(numpy.linalg.norm(edge - target))
        if away <= wish.reach + 9:
            return None
        return edge, target + (edge - target) * (wish.reach / away)

    def _crossings(self, leader) -> float:
        if leader is None:
            return 0.0
        path = sampled(numpy.array(leader))
        low, high = path.min(axis=0), path.max(axis=0)
        crossed = 0
        for box in self.taken:
            out = (box.width + box.height) / 2
            if low[0] < box.x + out and high[0] > box.x - out and low[1] < box.y + out and high[1] > box.y - out:
                crossed += bool(box.holds(path, 1.0).any())
        rows, columns = self._sums.shape
        cells = (path[2:-2] / _CELL_PX).astype(int)
        x0, x1 = (numpy.clip(cells[:, 0] + step, 0, columns - 1) for step in (-1, 2))
        y0, y1 = (numpy.clip(cells[:, 1] + step, 0, rows - 1) for step in (-1, 2))
        near = float((self._sums[y1, x1] - self._sums[y0, x1] - self._sums[y1, x0] + self._sums[y0, x0]).sum())
        return _LEADER_COST + _CROSSING_COST * crossed + 0.5 * near

    def _everywhere(self, wish: Wish) -> Iterable[Spot]:
        for y in numpy.arange(wish.height / 2 + 3, self.height - wish.height / 2 - 2, wish.height + 3):
            for x in numpy.arange(wish.width / 2 + 3, self.width - wish.width / 2 - 2, 20.0):
                yield Spot(float(x), float(y), 0.0, 20 + 0.05 * float(numpy.hypot(x - wish.target[0], y - wish.target[1])))


def _nearest_on(run, place) -> numpy.ndarray:
    start, end = (numpy.array(p) for p in run)
    along = end - start
    square = float(along @ along)
    share = float((numpy.array(place) - start) @ along) / square if square else 0.0
    return start + along * min(max(share, 0.05), 0.95)


def _rings(wish: Wish) -> Iterable[Spot]:
    """Spots further and further away, for a leader."""
    x, y = wish.target
    for ring in range(1, 15):
        out = wish.reach + 6 + 11 * ring
        for k in range(24):
            turn = numpy.radians(15 * k)
            dx, dy = float(numpy.cos(turn)), float(numpy.sin(turn))
            yield Spot(x + dx * (out + wish.width / 2), y + dy * (out + wish.height / 2), 0.0, 1.0 + 0.035 * out)
