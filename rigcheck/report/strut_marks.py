"""Struts as drawn: a bar of its true width for what can push, a thin double line for what can only pull, and joints as pins."""

from __future__ import annotations

import numpy

from rigcheck.report import svg
from rigcheck.report.canvas import Canvas
from rigcheck.report.svg import Markup
from rigcheck.rig.fields import coordinates
from rigcheck.rig.model import Rig, Strut
from rigcheck.statics.travel import Travel

STRUT = -1
"""In place of a run's number among the labels of a drawing: what is written beside a strut."""
_LEAST_PX, _GUY_PX, _INK = 4.5, 2.4, 1.0


def ends_px(canvas: Canvas, rig: Rig, name: str) -> tuple[numpy.ndarray, numpy.ndarray]:
    one, other = (canvas.view.px(coordinates(rig.points[end].at)) for end in rig.struts[name].ends)
    return one, other


def width_px(strut: Strut, scale: float) -> float:
    """Drawn width: true to scale where that can be seen."""
    if strut.pulls_only:
        return _GUY_PX
    wide = strut.diameter or strut.broad_side
    return max(wide.value * scale if wide else 0.0, _LEAST_PX)


def draw_struts(canvas: Canvas, travel: Travel) -> None:
    """Every strut between its two points, and every joint as a pin."""
    rig = travel.rig
    for name, strut in rig.struts.items():
        start, end = ends_px(canvas, rig, name)
        if numpy.linalg.norm(end - start) < 1.0:
            continue  # seen end on
        canvas.part("struts", "strut", name, _bar(canvas, strut, start, end))


def _bar(canvas: Canvas, strut: Strut, start: numpy.ndarray, end: numpy.ndarray) -> list[Markup]:
    along = (end - start) / numpy.linalg.norm(end - start)
    half = numpy.array([-along[1], along[0]]) * width_px(strut, canvas.view.scale) / 2
    canvas.inked(numpy.array([start, end]), _INK)
    if strut.pulls_only:
        return [svg.line(start + side * half, end + side * half, class_="rig-thin") for side in (1, -1)]
    return [canvas.polygon(numpy.array([start + half, end + half, end - half, start - half]), "rig-sheave")]


def is_joint(rig: Rig, point: str) -> bool:
    return rig.points[point].held == "struts"


def draw_joint(canvas: Canvas, name: str, place: numpy.ndarray, hanging: list[numpy.ndarray]) -> list[Markup]:
    """A pin, with the straps of what hangs in it."""
    straps = [canvas.line(centre, place, "rig-strap", 1.5) for centre in hanging if numpy.linalg.norm(centre - place) > 1]
    return [*straps, canvas.circle(place, 3.4, "rig-sheave"), svg.circle(place, 1.2, class_="rig-solid")]
