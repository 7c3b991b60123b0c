"""Placing labels: inside the picture, never over one another, over as few lines as can be, and near what they name.

The spot that costs least is taken: what the label would cover of the drawing, whether it would stand nearer to another line than
to its own, how far it is from its part, what its leader crosses. All spots of a label are weighed at once. Where nothing is free
the picture grows downwards, so a place always exists.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy

from rigcheck.report.crowding import THICK, InkMap, boxes_overlap, many_boxes, points_in_boxes
from rigcheck.report.labels import Box, Wish, sampled
from rigcheck.report.spots import Spots, rings

GAP_PX = 2.0
_NEIGHBOUR_PX = 9.0
_NEIGHBOUR_SHARE = 0.12
_COVERED_COST = 1.4
_CROSSING_COST = 60.0
_LEADER_COST = 3.0
_LEADER_WEIGHT = 1.5
_FAR, _FAR_NARROW = (
    0.035,
    0.09,
)  # by pixel; in a narrow picture leaders soon run across everything, so that rather some thin line is covered
_NARROW_PX = 480.0
_GOOD_ENOUGH = 4.0
_TOO_MUCH = 20.0
_ON_THICK_WEIGHT = 16.0
_CLEAR_PX = 1.5
_BATCH = 20
_LEADER_STEPS = numpy.linspace(0.08, 0.92, 20)[:, None]
_EDGE_PX = 2.0


@dataclass(frozen=True)
class Placed:
    """A label in its place, with the two ends of its leader where it has one; `papered` if it stands on lines that it must hide."""

    wish: Wish
    box: Box
    leader: tuple[numpy.ndarray, numpy.ndarray] | None = None
    on_line: bool = False
    papered: bool = False

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
        self._boxes = numpy.empty((0, 5))
        self._map = InkMap(self.width, self.height, self.ink, self.weights)

    @property
    def _far(self) -> float:
        return _FAR_NARROW if self.width < _NARROW_PX else _FAR

    def keep_free(self, one: Placed) -> None:
        """Take a label that stands where it stands."""
        self.taken.append(one.box)
        self.placed.append(one)

    def set(self, wish: Wish) -> Placed | None:
        """Place one label for good; None for one that may be left out and finds no clear place."""
        spots = Spots.of(wish.spots)
        upright = (spots.angles == 0) & ~spots.on_line
        # a label that is turned takes longer to weigh, so that those which could not win any more are left out
        found = self._best(wish, spots.where(~upright), self._best(wish, spots.where(upright), None))
        if found is None or found[0] > _GOOD_ENOUGH:
            found = self._best(wish, rings(wish, self._far), found)
        if found is None and not wish.may_go:
            found = self._best(wish, self._everywhere(wish), None)
        if found is None and not wish.may_go:
            found = 0.0, self._below(wish)
        if found is None:
            return None
        one = found[1]
        if one.on_line or self._map.is_on_thick_line(one.box):
            one = replace(one, papered=True)
        if wish.may_go and (one.papered or found[0] > _TOO_MUCH * self._far / _FAR):
            return None
        self.keep_free(one)
        if one.leader is not None:
            places = sampled(numpy.array(one.leader))
            self._map.add(places, numpy.full(len(places), _LEADER_WEIGHT))
        return one

    def _below(self, wish: Wish) -> Placed:
        """A place that is made for it under the picture."""
        box = Box(wish.width / 2 + 4, self.height + wish.height / 2 + 4, wish.width, wish.height)
        self.height += wish.height + 8
        edge, tip, away = _leaders(wish, numpy.array([[box.x, box.y]]), numpy.zeros(1))
        leader = (edge[0], tip[0]) if away[0] > wish.reach + 9 else None
        return Placed(wish, box, leader)

    def _best(self, wish: Wish, spots: Spots, best: tuple[float, Placed] | None) -> tuple[float, Placed] | None:
        """The spot that costs least, if it costs less than the best so far; a few at a time, those that look cheapest first."""
        if len(spots.dislike):
            spots = spots.where(self._inside(wish, spots) & (spots.dislike < (numpy.inf if best is None else best[0])))
        if not len(spots.dislike):
            return best
        upright = (spots.angles == 0) & ~spots.on_line
        least = spots.dislike.copy()
        if upright.any():
            least[upright] += _COVERED_COST * self._covered(wish, spots.places[upright])
        order = numpy.argsort(least, kind="stable")
        taken = self._taken_boxes
        for first in range(0, len(order), _BATCH):
            batch = order[first : first + _BATCH]
            if best is not None and least[batch[0]] >= best[0]:
                break
            if len(taken):
                batch = batch[~boxes_overlap(many_boxes(spots.places[batch], spots.angles[batch], wish), taken, GAP_PX)]
            if not len(batch):
                continue
            cost = least[batch]
            turned = ~upright[batch]
            if turned.any():
                cost[turned] += _COVERED_COST * self._turned_covers(wish, spots.where(batch[turned]))
            edges, tips, away = _leaders(wish, spots.places[batch], spots.angles[batch])
            led = (away > wish.reach + 9) & ~spots.on_line[batch]
            cost[led] += _LEADER_COST
            tried = led & (cost < (numpy.inf if best is None else best[0]))
            if tried.any():
                cost[tried] += self._crossings(edges[tried], tips[tried])
            k = int(numpy.argmin(cost))
            if best is None or cost[k] < best[0]:
                best = float(cost[k]), self._at(wish, spots, int(batch[k]), (edges[k], tips[k]) if led[k] else None)
        return best

    def _at(self, wish: Wish, spots: Spots, k: int, leader) -> Placed:
        (x, y), angle = spots.places[k], float(spots.angles[k])
        return Placed(wish, Box(float(x), float(y), wish.width, wish.height, angle), leader, bool(spots.on_line[k]))

    @property
    def _taken_boxes(self) -> numpy.ndarray:
        if len(self._boxes) != len(self.taken):
            self._boxes = numpy.array([(box.x, box.y, box.width / 2, box.height / 2, box.angle_deg) for box in self.taken]).reshape(-1, 5)
        return self._boxes

    def _covered(self, wish: Wish, places: numpy.ndarray) -> numpy.ndarray:
        """What an upright label covers at each place and has close by, as weights of ink."""
        half = numpy.array([wish.width / 2, wish.height / 2])
        covered, thick = self._map.weight_in(places, half + _CLEAR_PX)
        near = self._map.weight_in(places, half + _NEIGHBOUR_PX)[0] if wish.run else covered
        return covered + _NEIGHBOUR_SHARE * (near - covered) + _ON_THICK_WEIGHT * (thick > 0)

    def _turned_covers(self, wish: Wish, spots: Spots) -> numpy.ndarray:
        """The same for a label that is turned, or stands on its own run; that run is neither covered nor close by."""
        out = (wish.width + wish.height) / 2 + _NEIGHBOUR_PX
        ink, weights = self._map.within(spots.places.min(axis=0) - out, spots.places.max(axis=0) + out)
        if wish.run is not None:
            start, end = (numpy.array(p) for p in wish.run)
            u = (end - start) / max(float(numpy.hypot(*(end - start))), 1e-9)
            other = numpy.abs((ink - start) @ numpy.array([-u[1], u[0]])) > wish.clear_px + 1.2
            ink, weights = ink[other], weights[other]
        found = numpy.empty(len(spots.dislike))
        for angle in numpy.unique(spots.angles):
            alike = spots.angles == angle
            found[alike] = _cover_at_angle(wish, spots.places[alike], float(angle), ink, weights)
        return found

    def _inside(self, wish: Wish, spots: Spots) -> numpy.ndarray:
        turn = numpy.radians(spots.angles)
        c, s = numpy.abs(numpy.cos(turn)), numpy.abs(numpy.sin(turn))
        across, down = (c * wish.width + s * wish.height) / 2 + _EDGE_PX, (s * wish.width + c * wish.height) / 2 + _EDGE_PX
        x, y = spots.places[:, 0], spots.places[:, 1]
        return (x >= across) & (x <= self.width - across) & (y >= down) & (y <= self.height - down)

    def _crossings(self, edges: numpy.ndarray, tips: numpy.ndarray) -> numpy.ndarray:
        """What leaders cost that run over labels and ink."""
        paths = edges[:, None] + (tips - edges)[:, None] * _LEADER_STEPS
        lengths = numpy.hypot(*(tips - edges).T)
        near = self._map.weight_in(paths.reshape(-1, 2), numpy.array([1.5, 1.5]))[0].reshape(paths.shape[:2])
        # about three pixels lie between the places that ink is remembered at
        cost = 0.5 * near.mean(axis=1) * lengths / 3
        if self.taken:
            cost = cost + _CROSSING_COST * points_in_boxes(paths, self._taken_boxes, 1.0).any(axis=1).sum(axis=1)
        return cost

    def _everywhere(self, wish: Wish) -> Spots:
        y, x = numpy.meshgrid(
            numpy.arange(wish.height / 2 + 3, self.height - wish.height / 2 - 2, wish.height + 3),
            numpy.arange(wish.width / 2 + 3, self.width - wish.width / 2 - 2, 20.0), indexing="ij",
        )  # fmt: skip
        places = numpy.stack([x.ravel(), y.ravel()], axis=1)
        return Spots.upright(places, 20 + 0.05 * numpy.hypot(*(places - wish.target).T))


def _cover_at_angle(wish: Wish, places: numpy.ndarray, angle_deg: float, ink: numpy.ndarray, weights: numpy.ndarray) -> numpy.ndarray:
    """What a label at an angle covers at each place and has close by, counted along its own axes."""
    axes = Box(0.0, 0.0, 0.0, 0.0, angle_deg).axes.T
    own, middles = ink @ axes, places @ axes
    across, down = numpy.abs(own[:, 0] - middles[:, :1]), numpy.abs(own[:, 1] - middles[:, 1:])
    under = (across < wish.width / 2 + _CLEAR_PX) & (down < wish.height / 2 + _CLEAR_PX)
    near = (across < wish.width / 2 + _NEIGHBOUR_PX) & (down < wish.height / 2 + _NEIGHBOUR_PX)
    covered = under @ weights
    on_thick = (under[:, weights >= THICK]).any(axis=1)
    return covered + _NEIGHBOUR_SHARE * (near @ weights - covered) + _ON_THICK_WEIGHT * on_thick


def _leaders(wish: Wish, places: numpy.ndarray, angles: numpy.ndarray) -> tuple[numpy.ndarray, numpy.ndarray, numpy.ndarray]:
    """From the edge of each box to what its label points at, and how far that is."""
    targets = numpy.array(wish.target)
    if wish.run is not None:
        start, end = (numpy.array(p) for p in wish.run)
        run = end - start
        square = float(run @ run)
        share = numpy.clip((places - start) @ run / square, 0.05, 0.95) if square else numpy.zeros(len(places))
        targets = start + run * share[:, None]
    turn = numpy.radians(angles)
    c, s = numpy.cos(turn), numpy.sin(turn)
    away = targets - places
    own_x = numpy.minimum(numpy.maximum(away[:, 0] * c + away[:, 1] * s, -wish.width / 2), wish.width / 2)
    own_y = numpy.minimum(numpy.maximum(away[:, 1] * c - away[:, 0] * s, -wish.height / 2), wish.height / 2)
    edges = numpy.column_stack([places[:, 0] + c * own_x - s * own_y, places[:, 1] + s * own_x + c * own_y])
    gap = edges - targets
    far = numpy.hypot(gap[:, 0], gap[:, 1])
    return edges, targets + gap * (wish.reach / numpy.maximum(far, 1e-9))[:, None], far
