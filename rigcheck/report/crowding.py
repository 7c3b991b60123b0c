"""How crowded a picture is: where its ink lies, and which of many boxes cover it, hold a place or overlap one another.

Boxes are arrays of rows: the middle across and down, half the width, half the height, and the angle in degrees.
"""

from __future__ import annotations

import numpy

from rigcheck.report.labels import Box, Wish

_CELL_PX = 1.5
_STEP = 2.0**20
THICK = 1.0  # the weight from which a line is one that no text may stand on without paper under it


class InkMap:
    """The ink of a picture as weighted places, and its sums over all cells above and left of each, from which any upright box follows at once."""

    def __init__(self, width: float, height: float, ink: numpy.ndarray, weights: numpy.ndarray):
        self.ink, self.weights = ink, weights
        rows, columns = int(height // _CELL_PX) + 2, int(width // _CELL_PX) + 2
        x, y = ink[:, 0], ink[:, 1]
        inside = (x >= 0) & (x < width) & (y >= 0) & (y < height)
        cells, weights = (y[inside] / _CELL_PX).astype(int) * columns + (x[inside] / _CELL_PX).astype(int), weights[inside]
        # a thick line counts for far more than all the thin ones that a box can hold, so that both are told from one sum
        weights = weights + _STEP * (weights >= THICK)
        sums = numpy.zeros((rows + 1, columns + 1))
        sums[1:, 1:] = numpy.bincount(cells, weights, rows * columns).reshape(rows, columns)
        numpy.cumsum(sums, axis=0, out=sums)
        numpy.cumsum(sums, axis=1, out=sums)
        self._sums, self._stride = sums.ravel(), columns + 1
        self._last = numpy.array([columns, rows])
        self._later, self._later_weights = numpy.empty((0, 2)), numpy.empty(0)

    def add(self, ink: numpy.ndarray, weights: numpy.ndarray) -> None:
        """Add a few places, which are not summed over the picture but counted one by one."""
        self._later, self._later_weights = numpy.concatenate([self._later, ink]), numpy.concatenate([self._later_weights, weights])
        self.ink, self.weights = numpy.concatenate([self.ink, ink]), numpy.concatenate([self.weights, weights])

    def weight_in(self, places: numpy.ndarray, half: numpy.ndarray) -> tuple[numpy.ndarray, numpy.ndarray]:
        """About how much ink each upright box about a place covers, and how much of it belongs to thick lines, (n,) each."""
        sums, last = self._sums, self._last
        low = numpy.minimum(numpy.maximum(((places - half) / _CELL_PX).astype(int), 0), last)
        high = numpy.minimum(numpy.maximum(((places + half) / _CELL_PX + 1).astype(int), 0), last)
        left, right, above, below = low[:, 0], high[:, 0], low[:, 1], high[:, 1]
        below, above = below * self._stride, above * self._stride
        found = sums.take(below + right) - sums.take(above + right) - sums.take(below + left) + sums.take(above + left)
        if len(self._later):
            held = (numpy.abs(self._later[:, 0] - places[:, :1]) < half[0]) & (numpy.abs(self._later[:, 1] - places[:, 1:]) < half[1])
            found = found + held @ self._later_weights
        thick = numpy.floor(found / _STEP + 1e-9)
        return found - thick * _STEP, thick

    def within(self, low: numpy.ndarray, high: numpy.ndarray) -> tuple[numpy.ndarray, numpy.ndarray]:
        """The ink in an upright box."""
        x, y = self.ink[:, 0], self.ink[:, 1]
        inside = (x > low[0]) & (x < high[0]) & (y > low[1]) & (y < high[1])
        return self.ink[inside], self.weights[inside]

    def is_on_thick_line(self, box: Box) -> bool:
        """Whether a line that is not thin runs under a box."""
        return bool((self.weights[box.holds(self.ink, -1.0)] >= THICK).any())


def many_boxes(places: numpy.ndarray, angles: numpy.ndarray, wish: Wish) -> numpy.ndarray:
    """A label's box at each place, (n, 5)."""
    boxes = numpy.empty((len(places), 5))
    boxes[:, :2], boxes[:, 2], boxes[:, 3], boxes[:, 4] = places, wish.width / 2, wish.height / 2, angles
    return boxes


def _axes(boxes: numpy.ndarray) -> tuple[numpy.ndarray, numpy.ndarray]:
    turn = numpy.radians(boxes[:, 4])
    c, s = numpy.cos(turn), numpy.sin(turn)
    return numpy.stack([c, s], axis=1), numpy.stack([-s, c], axis=1)


def boxes_overlap(ones: numpy.ndarray, others: numpy.ndarray, gap: float) -> numpy.ndarray:
    """Which of the first boxes come nearer than the gap to any of the others: if no side of either parts them, (n,)."""
    between = others[None, :, :2] - ones[:, None, :2]
    upright = (ones[:, None, 4] == 0) & (others[None, :, 4] == 0)
    x, y = numpy.abs(between[..., 0]), numpy.abs(between[..., 1])
    meet = upright & (x < ones[:, 2:3] + others[:, 2] + gap) & (y < ones[:, 3:4] + others[:, 3] + gap)
    # a box that is turned lies within a circle about its middle
    far = numpy.hypot(ones[:, 2], ones[:, 3])[:, None] + numpy.hypot(others[:, 2], others[:, 3]) + gap
    rows, columns = numpy.nonzero(~upright & (x * x + y * y < far * far))
    if len(rows):
        meet[rows, columns] = _turned_overlap(ones[rows], others[columns], between[rows, columns], gap)
    return meet.any(axis=1)


def _turned_overlap(ones: numpy.ndarray, others: numpy.ndarray, between: numpy.ndarray, gap: float) -> numpy.ndarray:
    """Pair by pair, whether no side of either box parts them."""
    turn = numpy.radians(others[:, 4] - ones[:, 4])
    c, s = numpy.abs(numpy.cos(turn)), numpy.abs(numpy.sin(turn))
    meet = numpy.ones(len(ones), dtype=bool)
    for boxes, turned in ((ones, others), (others, ones)):  # along the sides of the one, then of the other
        own = numpy.radians(boxes[:, 4])
        across, down = numpy.cos(own), numpy.sin(own)
        meet &= numpy.abs(between[:, 0] * across + between[:, 1] * down) < gap + boxes[:, 2] + c * turned[:, 2] + s * turned[:, 3]
        meet &= numpy.abs(between[:, 1] * across - between[:, 0] * down) < gap + boxes[:, 3] + s * turned[:, 2] + c * turned[:, 3]
    return meet


def points_in_boxes(points: numpy.ndarray, boxes: numpy.ndarray, more: float) -> numpy.ndarray:
    """Which of the places (..., 2) lie in which of the boxes, (..., boxes)."""
    across, down = _axes(boxes)
    x, y = points[..., :1] - boxes[:, 0], points[..., 1:] - boxes[:, 1]
    sideways, along = x * across[:, 0] + y * across[:, 1], x * down[:, 0] + y * down[:, 1]
    return (numpy.abs(sideways) < boxes[:, 2] + more) & (numpy.abs(along) < boxes[:, 3] + more)
