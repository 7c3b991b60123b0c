"""Small pictures of a rope turning round a sheave: it comes and goes as its neighbours lie, in one sense or the other."""

from __future__ import annotations

import math

from rigcheck.report.svg import Markup, element, number
from rigcheck.ui.places import ANTICLOCKWISE, Spot

SIDE_PX = 36
_RADIUS, _STRAIGHT, _HEAD = 7.0, 9.5, 4.0
_PIECES = 24


def picture(before: Spot | None, here: Spot | None, after: Spot | None, turns: str) -> str:
    """The picture as SVG text; a place that is not known lies below, as with a rope that comes up and goes down again."""
    into, out = _direction(before, here) or (0.0, 1.0), _direction(here, after) or (0.0, -1.0)
    side = 1.0 if turns == ANTICLOCKWISE else -1.0
    start, end = (math.atan2(-side * u[0], side * u[1]) for u in (into, out))
    sweep = side * ((side * (end - start) + 1e-9) % (2 * math.pi))
    arc = [start + sweep * k / _PIECES for k in range(_PIECES + 1)]
    bend = [(_RADIUS * math.cos(a), _RADIUS * math.sin(a)) for a in arc]
    last = bend[-1]
    tip = (last[0] + _STRAIGHT * out[0], last[1] + _STRAIGHT * out[1])
    line = [(bend[0][0] - _STRAIGHT * into[0], bend[0][1] - _STRAIGHT * into[1]), *bend, tip]
    barbs = [
        (tip[0] - _HEAD * (out[0] * 0.9 - across * out[1] * 0.6), tip[1] - _HEAD * (out[1] * 0.9 + across * out[0] * 0.6))
        for across in (1, -1)
    ]
    ink = {"fill": "none", "stroke": "currentColor"}
    return element(
        "svg",
        Markup(
            element("circle", cx=0, cy=0, r=number(_RADIUS - 1.6), stroke_width=1, **ink)
            + element("circle", cx=0, cy=0, r=1, fill="currentColor")
            + element("polyline", points=_points(line), stroke_width=2, stroke_linejoin="round", **ink)
            + element("polyline", points=_points([barbs[0], tip, barbs[1]]), stroke_width=2, stroke_linecap="round", **ink)
        ),
        xmlns="http://www.w3.org/2000/svg",
        viewBox="-18 -18 36 36",
        width=SIDE_PX,
        height=SIDE_PX,
    )


def _direction(one: Spot | None, other: Spot | None) -> Spot | None:
    if one is None or other is None or one == other:
        return None
    far = math.dist(one, other)
    return (other[0] - one[0]) / far, (other[1] - one[1]) / far


def _points(line: list[Spot]) -> str:
    return " ".join(f"{number(x)},{number(-y)}" for x, y in line)
