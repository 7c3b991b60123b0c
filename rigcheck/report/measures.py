"""What a drawing says about size: the floor, the guides, the travel with its arrow, the bar that gives the scale."""

from __future__ import annotations

import numpy

from rigcheck import units
from rigcheck.report import guide_marks, svg
from rigcheck.report.canvas import Canvas
from rigcheck.report.outlines import on_body, outline
from rigcheck.report.svg import Markup
from rigcheck.report.view import round_length
from rigcheck.statics.travel import Travel

_BESIDE_PX = (18.0, 30.0, 42.0, 56.0, 72.0)
_ARROW_PX = 7.0
_MARGIN_PX = 12.0
BAR_LONGEST_PX = 150.0


def draw_floor(canvas: Canvas, left_px: float, right_px: float) -> None:
    start, end = numpy.array([left_px, canvas.view.level_px]), numpy.array([right_px, canvas.view.level_px])
    marks = [canvas.line(start, end, "rig-line"), canvas.hatch(start, end, (0.0, 1.0), step_px=9.0)]
    canvas.part("floor", "floor", "floor", marks)


def draw_guides(canvas: Canvas, travel: Travel, at: int) -> None:
    """Two thin lines along the way of every guided body, as far as it goes; its shoes where it is stated where they are."""
    for name, body in travel.rig.bodies.items():
        if body.moves.kind != "guided":
            continue
        if guide_marks.has_shoes(travel, name):
            guide_marks.draw_shoes(canvas, travel, name, at)
            continue
        along = numpy.array([*body.moves.along, 0.0][:3])
        along = along / numpy.linalg.norm(along)
        ways = travel.poses.reference(name) @ along
        here = ways[at]
        box = outline(travel.rig, name)
        corners = on_body(travel, name, box.corners(), at)
        side = numpy.array([along[1], -along[0], 0.0])
        middle, offsets = corners.mean(axis=0), corners @ side
        heights = corners @ along
        marks = []
        for edge, out in ((offsets.min(), -1.0), (offsets.max(), 1.0)):
            guided = heights[numpy.abs(offsets - edge) < 1e-6]
            low, high = ways.min() - here + guided.min(), ways.max() - here + guided.max()
            foot = middle + side * (edge - middle @ side)
            ends = canvas.view.px(numpy.array([foot + along * (low - foot @ along), foot + along * (high - foot @ along)]))
            ends = ends + out * 4.0 * numpy.array([along[1], along[0]])
            marks.append(canvas.line(ends[0], ends[1], "rig-guide", 0.5))
        canvas.part("guides", "guide", name, marks)


def _arrow_head(tip: numpy.ndarray, up: float) -> Markup:
    return svg.polygon(numpy.array([tip, svg.moved(tip, -3.2, up * _ARROW_PX), svg.moved(tip, 3.2, up * _ARROW_PX)]), class_="rig-solid")


def travel_span(travel: Travel, at: int) -> tuple[float, float]:
    """How high the load's reference point is at the lowest and at the highest of the stated travel."""
    name = travel.rig.load_name
    lowest = float(travel.poses.reference(name)[at][1] - travel.heights_m[at])
    return lowest, lowest + travel.rig.limits.travel.value


def draw_travel(canvas: Canvas, travel: Travel, at: int, width: float) -> tuple[numpy.ndarray, numpy.ndarray]:
    """The travel as a dimension beside the load, where it crosses least; its two ends in the drawing."""
    name, view = travel.rig.load_name, canvas.view
    corners = view.px(on_body(travel, name, outline(travel.rig, name).corners(), at))
    low, high = (float(view.level_px - view.scale * y) for y in travel_span(travel, at))
    reference = view.px(travel.poses.reference(name)[at])
    best = None
    for beside in _BESIDE_PX:
        for side, edge in ((-1.0, corners[:, 0].min()), (1.0, corners[:, 0].max())):
            x = min(max(float(edge + side * beside), _MARGIN_PX), width - _MARGIN_PX)
            cost = canvas.weight_within((x - 6, high - 2), (x + 6, low + 2)) + 0.05 * beside
            if best is None or cost < best[0]:
                best = cost, x, side
    _, x, side = best
    bottom, top = numpy.array([x, low]), numpy.array([x, high])
    marks = [
        canvas.line(bottom, top, "rig-thin", 1.5), _arrow_head(bottom, -1.0), _arrow_head(top, 1.0),
        canvas.line((reference[0], low), (x + side * 5, low), "rig-thin", 0.3), canvas.line((x - 8, high), (x + 8, high), "rig-thin", 0.5),
    ]  # fmt: skip
    canvas.part("dimensions", "travel", name, marks)
    return bottom, top


def travel_words(travel: Travel) -> str:
    return f"swing {travel.rig.limits.swing}" if travel.rig.swings else f"travel {travel.rig.limits.travel}"


def scale_bar(scale: float, left_px: float, y_px: float) -> tuple[Markup, float, str]:
    """A bar of a length that is round in the shown unit, where it ends, and its length in words."""
    longest_m = BAR_LONGEST_PX / scale
    large = units.in_shown(1.0, "m")
    unit = "m" if longest_m * large >= 1 else "mm"
    length_m = round_length(longest_m * units.in_shown(1.0, unit)) / units.in_shown(1.0, unit)
    right = left_px + length_m * scale
    marks = [svg.line((left_px, y_px), (right, y_px), class_="rig-line")]
    marks += [svg.line((x, y_px - 4), (x, y_px + 4), class_="rig-line") for x in (left_px, (left_px + right) / 2, right)]
    return svg.group("scale", "scale", marks), right, units.show(length_m, unit)
