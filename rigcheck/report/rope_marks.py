"""Ropes as drawn: straight runs and true arcs, by their kind, with tick marks for the whole factors in hand.

A steel rope is one solid line; a fibre rope is two edges with a twist of dashes between them.
"""

from __future__ import annotations

import numpy

from rigcheck.report import svg
from rigcheck.report.canvas import Canvas
from rigcheck.report.outlines import Arc, rope_arcs, rope_line
from rigcheck.report.svg import Markup, number
from rigcheck.rig.model import Rope
from rigcheck.statics.paths import Path

TICK_STEP_PX = 5.0
_LEAST_TICK_STEP_PX = 3.0
_TICK_REACH_PX = 5.5
_CLEAR_OF_ENDS_PX = 14.0
_CROSSES_FROM = 0.3
_SHARES = (0.8, 0.2, 0.65, 0.35, 0.5)


def _arc_data(canvas: Canvas, arc: Arc) -> str:
    """The arc as path data from its start: true arcs in two halves where it is seen face on, else a fine polyline."""
    view = canvas.view
    if not view.shows_face_on(arc.normal):
        return "".join(f"L{number(x)} {number(y)}" for x, y in view.px(arc.places())[1:])
    radius = number(arc.radius * view.scale)
    anticlockwise = (float(arc.normal @ view.towards) > 0) == (arc.wrap_rad > 0)
    sweep = 0 if anticlockwise else 1
    many = 5 if abs(arc.wrap_rad) > numpy.pi * 1.01 else 3
    return "".join(f"A{radius} {radius} 0 0 {sweep} {number(x)} {number(y)}" for x, y in view.px(arc.places(many))[1:])


def path_data(canvas: Canvas, path: Path, at: int) -> str:
    """The rope from its first end to its last: the turn on the drum, straight runs, and the arcs between them."""
    arcs = {arc.stop: arc for arc in rope_arcs(path, at)}
    last = len(path.stops) - 1
    px = canvas.view.px

    def to(letter: str, place) -> str:
        x, y = px(place)
        return f"{letter}{number(x)} {number(y)}"

    data = []
    for k in range(len(path.directions)):
        if k == 0 and 0 in arcs:
            drum = arcs[0]
            data += [to("M", drum.start), _arc_data(canvas, drum)]
        data += [to("L" if data else "M", path.starts[k][at]), to("L", path.ends[k][at])]
        if k + 1 in arcs and (k + 1 < last or path.stops[last].kind == "drum"):
            data.append(_arc_data(canvas, arcs[k + 1]))
    return "".join(data)


def rope_width(rope: Rope, scale: float) -> float:
    """Drawn width: true to scale where that can be seen, never thinner than what can."""
    return max(rope.diameter.value * scale, 2.2 if rope.kind == "steel" else 4.4)


def _gaps(canvas: Canvas, runs: list[tuple[numpy.ndarray, numpy.ndarray]], width: float) -> list[Markup]:
    """Paper where a rope passes over a run drawn before it, so that the one in front can be told; not where they run together."""
    found = []
    for start, end in runs:
        along = end - start
        for other_start, other_end in canvas.runs:
            other = other_end - other_start
            turn = along[0] * other[1] - along[1] * other[0]
            if abs(turn) < _CROSSES_FROM * numpy.linalg.norm(along) * numpy.linalg.norm(other):
                continue
            away = other_start - start
            share, other_share = (away[0] * other[1] - away[1] * other[0]) / turn, (away[0] * along[1] - away[1] * along[0]) / turn
            if 0 < share < 1 and 0 < other_share < 1:
                half = along / numpy.linalg.norm(along) * (width + 5)
                crossing = start + along * share
                found.append(svg.line(crossing - half, crossing + half, class_="rig-rope-gap", stroke_width=width + 4))
    return found


def _strokes(kind: str, data: str, width: float) -> list[Markup]:
    rope = svg.element("path", d=data, class_="rig-rope", stroke_width=width)
    if kind == "steel":
        return [rope]
    inside = svg.element("path", d=data, class_="rig-rope-gap", stroke_width=width - 1.6)
    twist = svg.element("path", d=data, class_="rig-rope", stroke_width=width - 1.6, stroke_dasharray="2 3")
    return [rope, inside, twist]


def draw_rope(canvas: Canvas, name: str, rope: Rope, path: Path, at: int, *, clickable: bool) -> None:
    """One rope with its whole line, and a wide unseen one that is easy to click."""
    data = path_data(canvas, path, at)
    width = rope_width(rope, canvas.view.scale)
    runs = runs_px(canvas, path, at)
    marks = [*_gaps(canvas, runs, width), *_strokes(rope.kind, data, width)]
    canvas.runs += runs
    canvas.inked(canvas.view.px(rope_line(path, at)), 2.0)
    for arc in rope_arcs(path, at):
        if path.stops[arc.stop].kind == "drum":
            canvas.inked(canvas.view.px(arc.places()), 1.0)
    if clickable:
        marks.append(svg.element("path", d=data, class_="rig-hit"))
    canvas.part("ropes", "rope", name, marks)


def ghost_rope(canvas: Canvas, name: str, path: Path, at: int) -> None:
    line = canvas.view.px(rope_line(path, at))
    data = "M" + "L".join(f"{number(x)} {number(y)}" for x, y in line)
    canvas.inked(line, 0.2)
    canvas.part("ghost", "ghost:rope", name, [svg.element("path", d=data, class_="rig-ghost")])


def runs_px(canvas: Canvas, path: Path, at: int) -> list[tuple[numpy.ndarray, numpy.ndarray]]:
    """Both ends of every straight run in the drawing."""
    return [(canvas.view.px(path.starts[k][at]), canvas.view.px(path.ends[k][at])) for k in range(len(path.directions))]


def tick_places(run: tuple[numpy.ndarray, numpy.ndarray], count: int, share: float) -> tuple[numpy.ndarray, numpy.ndarray] | None:
    """Where the ticks cross a run, (count, 2), and the run's direction: one after the other in fives; None if they do not fit."""
    start, end = run
    length = float(numpy.linalg.norm(end - start))
    room = length - 2 * _CLEAR_OF_ENDS_PX
    steps = numpy.arange(count) + numpy.arange(count) // 5 * 0.9
    span = float(steps[-1]) if count else 0.0
    step = min(TICK_STEP_PX, room / span) if span and room > 0 else TICK_STEP_PX
    if room <= 0 or step < _LEAST_TICK_STEP_PX:
        return None
    u = (end - start) / length
    return start + u * (_CLEAR_OF_ENDS_PX + (room - span * step) * share + step * steps)[:, None], u


def draw_ticks(canvas: Canvas, name: str, rope: Rope, path: Path, at: int, count: int) -> bool:
    """Tick marks across a rope, one for each whole factor in hand, where fewest lines are near; False if they do not fit."""
    runs = runs_px(canvas, path, at)
    lengths = [round(float(numpy.linalg.norm(end - start)), 3) for start, end in runs]
    tried = [
        (k, share, tick_places(runs[k], count, share)) for k in range(len(runs)) if lengths[k] >= 0.6 * max(lengths) for share in _SHARES
    ]
    fitting = [(-lengths[k], k, share, found) for k, share, found in tried if found is not None]
    if not fitting:
        return False
    if count < 1:
        return True
    reach = max(_TICK_REACH_PX, rope_width(rope, canvas.view.scale) / 2 + 3)
    _, _, _, (places, u) = min(fitting, key=lambda each: (_lines_near(canvas, *each[3], reach), each[0]))
    across = numpy.array([-u[1], u[0]]) * reach
    canvas.part("ticks", "ticks", name, [canvas.line(place - across, place + across, "rig-tick", 2.0) for place in places])
    return True


def _lines_near(canvas: Canvas, places: numpy.ndarray, u: numpy.ndarray, reach: float) -> int:
    """How much ink other than the rope's own is close to its ticks."""
    n = numpy.array([-u[1], u[0]])
    last = float((places[-1] - places[0]) @ u)
    near = 0
    for ink, _ in canvas.ink:
        along, off = (ink - places[0]) @ u, numpy.abs((ink - places[0]) @ n)
        near += int(((along > -8) & (along < last + 8) & (off > 1.0) & (off < reach + 5)).sum())
    return near
