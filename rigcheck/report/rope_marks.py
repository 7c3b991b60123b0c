"""Ropes as drawn: straight runs and true arcs, by their kind, with a small stroke for each whole time they have their required factor.

A steel rope is one solid line; a fibre rope is two edges with a twist of dashes between them.
"""

from __future__ import annotations

import numpy

from rigcheck.report import svg
from rigcheck.report.canvas import GRIP_RADIUS_PX, Canvas
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
            if abs(turn) <= _CROSSES_FROM * numpy.linalg.norm(along) * numpy.linalg.norm(other):
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


def draw_rope(canvas: Canvas, name: str, rope: Rope, path: Path, at: int) -> None:
    """One rope with its whole line; where parts are held, also a wide unseen one along its straight runs that is easy to press."""
    width = rope_width(rope, canvas.view.scale)
    runs = runs_px(canvas, path, at)
    marks = [*_gaps(canvas, runs, width), *_strokes(rope.kind, path_data(canvas, path, at), width)]
    canvas.runs += runs
    line = canvas.view.px(rope_line(path, at))
    canvas.inked(line, 2.0)
    if width > 3.5:
        for start, end in runs:
            across = numpy.array([start[1] - end[1], end[0] - start[0]]) / max(float(numpy.hypot(*(end - start))), 1e-9) * width / 2
            canvas.inked(numpy.array([start + across, end + across]), 1.0)
            canvas.inked(numpy.array([start - across, end - across]), 1.0)
    for arc in rope_arcs(path, at):
        if path.stops[arc.stop].kind == "drum":
            canvas.inked(canvas.view.px(arc.places()), 1.0)
    held = {}
    if canvas.is_held:
        marks.append(svg.element("path", d=_hit_data(runs), class_="rig-hit"))
        held = {"tabindex": "0", "role": "button", "aria_label": f"rope {name}, {rope.kind}, {rope.diameter}"}
    canvas.layers["ropes"].append(svg.group("rope", name, marks, before=canvas.before, **held))


def _hit_data(runs: list[tuple[numpy.ndarray, numpy.ndarray]]) -> str:
    """The straight runs, short of their ends, where the parts that they meet are taken hold of."""
    data = []
    for start, end in runs:
        along = end - start
        length = float(numpy.hypot(*along))
        kept = min(GRIP_RADIUS_PX + 1, 0.35 * length) / max(length, 1e-9)
        (x, y), (u, v) = start + along * kept, end - along * kept
        data.append(f"M{number(x)} {number(y)}L{number(u)} {number(v)}")
    return "".join(data)


def ghost_rope(canvas: Canvas, name: str, path: Path, at: int) -> None:
    line = canvas.view.px(rope_line(path, at))
    data = "M" + "L".join(f"{number(x)} {number(y)}" for x, y in line)
    canvas.inked(line, 0.2)
    canvas.part("ghost", "ghost:rope", name, [svg.element("path", d=data, class_="rig-ghost")])


def runs_px(canvas: Canvas, path: Path, at: int) -> list[tuple[numpy.ndarray, numpy.ndarray]]:
    """Both ends of every straight run in the drawing."""
    return [(canvas.view.px(path.starts[k][at]), canvas.view.px(path.ends[k][at])) for k in range(len(path.directions))]


def tick_places(run: tuple[numpy.ndarray, numpy.ndarray], count: int, share: float) -> tuple[numpy.ndarray, numpy.ndarray] | None:
    """Where the strokes cross a run, (count, 2), and the run's direction: one after the other in fives; None if they do not fit."""
    start, end = run
    length = float(numpy.hypot(*(end - start)))
    room = length - 2 * _CLEAR_OF_ENDS_PX
    steps = numpy.arange(count) + numpy.arange(count) // 5 * 0.9
    span = float(steps[-1]) if count else 0.0
    step = min(TICK_STEP_PX, room / span) if span and room > 0 else TICK_STEP_PX
    if room <= 0 or step < _LEAST_TICK_STEP_PX:
        return None
    u = (end - start) / length
    return start + u * (_CLEAR_OF_ENDS_PX + (room - span * step) * share + step * steps)[:, None], u


def draw_ticks(canvas: Canvas, name: str, rope: Rope, path: Path, at: int, count: int) -> bool:
    """Small strokes across a rope, one for each whole time it has its required factor, where fewest lines are near; False if they do not fit."""
    runs = runs_px(canvas, path, at)
    lengths = [round(float(numpy.hypot(*(end - start))), 3) for start, end in runs]
    reach = max(_TICK_REACH_PX, rope_width(rope, canvas.view.scale) / 2 + 3)
    best = None
    for k, run in enumerate(runs):
        if lengths[k] < 0.6 * max(lengths) or tick_places(run, count, 0.5) is None:
            continue
        start, end = run
        u = (end - start) / lengths[k]
        ink, _ = canvas.all_ink()
        away = ink - start
        off = numpy.abs(away @ numpy.array([-u[1], u[0]]))
        near = away[(off > 1.0 + rope_width(rope, canvas.view.scale) / 2) & (off < reach + 5)] @ u
        for share in _SHARES:
            places, _ = tick_places(run, count, share)
            first, last = float((places[0] - start) @ u), float((places[-1] - start) @ u)
            cost = int(((near > first - 8) & (near < last + 8)).sum()), -lengths[k]
            if best is None or cost < best[0]:
                best = cost, places, u
    if best is None:
        return False
    _, places, u = best
    across = numpy.array([-u[1], u[0]]) * reach
    canvas.part("ticks", "ticks", name, [canvas.line(place - across, place + across, "rig-tick", 2.0) for place in places])
    return True
