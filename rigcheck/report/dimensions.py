"""Lettered dimensions for a sheet to measure by: a line between two places in the rig, or a letter beside one, each where it crosses least."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy

from rigcheck.report import labels as place
from rigcheck.report import svg
from rigcheck.report.canvas import Canvas
from rigcheck.report.labels import Spot, Wish
from rigcheck.report.svg import Markup, clean
from rigcheck.report.theme import FONT_PX
from rigcheck.report.words import Callout, Dimension

_OFFSETS_PX = (0.0, 16.0, 26.0, 38.0, 52.0, 68.0, 86.0)
_EDGE_PX = 12.0
_HEAD_PX, _HEAD_HALF_PX = 7.0, 2.8
_SHORT_PX = 24.0
_TAIL_PX = 14.0
_BESIDE_COST = 0.06
_ON_THE_SPOT_COST = 3.0
_WELCOME = 8.0


def draw_dimensions(canvas: Canvas, dimensions: Sequence[Dimension], width: float, height: float) -> list[Wish]:
    """Draw every line with its arrows and what carries it out of the rig; the letters still to be placed."""
    return [_draw(canvas, each, index, width, height) for index, each in enumerate(dimensions)]


def callout_wishes(canvas: Canvas, callouts: Sequence[Callout]) -> list[Wish]:
    """The letters beside single places, with a leader to each."""
    found = []
    for index, each in enumerate(callouts):
        wish = _letter(each.letter, f"{each.letter}:{index}", canvas.view.px(each.place), 3.0)
        found.append(replace(wish, spots=(Spot(*wish.target, 0.0, -_WELCOME), *wish.spots)))
    return found


def _letter(letter: str, name: str, target: numpy.ndarray, reach: float, **more) -> Wish:
    x, y = (float(v) for v in target)
    wish = Wish("letter", name, (clean(letter),), (x, y), reach, FONT_PX, "rig-letter", True, ringed=True, **more)
    return replace(wish, spots=tuple(place.around(wish.width, wish.height, (x, y), reach + 6)))


def _draw(canvas: Canvas, dimension: Dimension, index: int, width: float, height: float) -> Wish:
    start, end = canvas.view.px(dimension.start), canvas.view.px(dimension.end)
    length = float(numpy.hypot(*(end - start)))
    name = f"{dimension.letter}:{index}"
    if length < 1e-6:
        return _letter(dimension.letter, name, start, 3.0)
    u = (end - start) / length
    n = numpy.array([-u[1], u[0]])
    offset = _clear_offset(canvas, start, end, n, width, height)
    one, two = start + n * offset, end + n * offset
    marks = [canvas.line(one, two, "rig-thin", 1.5)]
    if abs(offset) > 1:
        beyond = n * (4.0 if offset > 0 else -4.0)
        gap = n * (3.0 if offset > 0 else -3.0)
        marks += [canvas.line(foot + gap, foot + n * offset + beyond, "rig-thin", 0.4) for foot in (start, end)]
    outside = length < _SHORT_PX
    for tip, inwards in ((one, u), (two, -u)):
        away = -inwards if outside else inwards
        marks.append(_arrow_head(tip, away))
        if outside:
            marks.append(canvas.line(tip, tip + away * _TAIL_PX, "rig-thin", 1.0))
    canvas.part("dimensions", "dimension", name, marks)
    middle = (one + two) / 2
    wish = _letter(dimension.letter, name, middle, 2.0, run=(tuple(map(float, one)), tuple(map(float, two))))
    on_line = [
        Spot(*map(float, one + (two - one) * share), 0.0, abs(share - 0.5) - _WELCOME, on_line=True) for share in (0.5, 0.4, 0.6, 0.3, 0.7)
    ]
    return replace(wish, spots=(*(on_line if length > 2 * _SHORT_PX else ()), *wish.spots))


def _clear_offset(canvas: Canvas, start, end, n, width: float, height: float) -> float:
    """How far beside the two places the line is drawn, to which side."""
    ink, weights = canvas.all_ink()
    along = end - start
    length = float(numpy.hypot(*along))
    u = along / length
    own, off = (ink - start) @ u, (ink - start) @ n
    beside = (own > -4) & (own < length + 4)
    best = None
    for offset in sorted({side * far for far in _OFFSETS_PX for side in (1.0, -1.0)}, key=lambda v: (abs(v), v)):
        ends = numpy.array([start, end]) + n * offset
        if (ends < _EDGE_PX).any() or (ends > (width - _EDGE_PX, height - _EDGE_PX)).any():
            continue
        crowd = float(weights[beside & (numpy.abs(off - offset) < 6)].sum())
        cost = crowd + _BESIDE_COST * abs(offset) + (_ON_THE_SPOT_COST if offset == 0 else 0.0)
        if best is None or cost < best[0]:
            best = cost, offset
    return best[1] if best else 0.0


def _arrow_head(tip: numpy.ndarray, away: numpy.ndarray) -> Markup:
    n = numpy.array([-away[1], away[0]]) * _HEAD_HALF_PX
    return svg.polygon(numpy.array([tip, tip + away * _HEAD_PX + n, tip + away * _HEAD_PX - n]), class_="rig-solid")
