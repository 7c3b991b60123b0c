"""One drawing of a rig, for the pages and the report: SVG text, true to scale, from the geometry that was solved.

The front view; a view from the right beside it where anything stands out of the front plane. Every mark carries the id, the kind
and the name of its part (`id="sheave:head"`, `data-part`, `data-name`). The same travel gives the same bytes.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy

from rigcheck.report import drive_marks, measures, naming, part_marks, rope_marks, svg
from rigcheck.report.canvas import LAYERS, Canvas
from rigcheck.report.labels import LINE_HEIGHT, Box, Wish, text_width, wrapped
from rigcheck.report.outlines import circle_about, on_body, outline, rope_line, sheave_normals, stated_depths
from rigcheck.report.placement import Placed, Sheet
from rigcheck.report.svg import Markup
from rigcheck.report.theme import SMALL_PX, Theme, style
from rigcheck.report.view import FROM_THE_FRONT, FROM_THE_RIGHT, Extent, View
from rigcheck.report.words import MARKS_OF_WORDS, UNKNOWN, describe, metres
from rigcheck.rig.fields import coordinates
from rigcheck.statics.travel import Travel

__all__ = ["Picture", "compose", "describe", "draw"]

LEAST_WIDTH_PX = 320
_SIDE_MARGIN_SHARE = 0.14
_TOP_PX, _FOOT_PX, _BETWEEN_PX, _ROW_PX = 44.0, 26.0, 70.0, 18.0
_TALLEST_SHARE = 1.05
_FLOOR_WITHIN_M = 1.0


@dataclass(frozen=True)
class Picture:
    """A finished drawing with its views and all its labels."""

    text: str
    width: float
    height: float
    views: list[View]
    placed: list[Placed]


def draw(
    travel: Travel, *, at: int = 0, labels: Mapping[tuple[str, int], str] | None = None, ticks: Mapping[str, int] | None = None,
    ghost: int | None = None, width_px: int = 900, theme: Theme = "page",
) -> str:  # fmt: skip
    """The drawing as SVG text.

    `at` is the index of the height that is drawn, `ghost` that of a second one drawn thin; `labels` the text beside a run by rope and
    number of the run; `ticks` the whole factors in hand by rope: a rope left out of it is marked as one that cannot be told.
    """
    return compose(travel, at=at, labels=labels, ticks=ticks, ghost=ghost, width_px=width_px, theme=theme).text


def compose(
    travel: Travel, *, at: int = 0, labels: Mapping[tuple[str, int], str] | None = None, ticks: Mapping[str, int] | None = None,
    ghost: int | None = None, width_px: int = 900, theme: Theme = "page",
) -> Picture:  # fmt: skip
    """The drawing with its views and labels, for whoever wants more of it than its text."""
    width = float(max(width_px, LEAST_WIDTH_PX))
    places = _everything(travel, at, ghost)
    floor = _floor_is_near(places)
    views, field_height = _views(travel, places, width, floor)
    canvases = [Canvas(view, before) for view, before in zip(views, ("", "side:"), strict=False)]
    told: dict[str, str] = {}
    for canvas in canvases:
        told |= _draw_view(canvas, travel, at, ticks or {}, ghost, floor=floor, width=width, clickable=theme == "page")
    if ticks is not None:
        told |= {rope: "?" for rope in travel.rig.ropes if rope not in ticks}
    sheet = Sheet(width, field_height, *_ink(canvases))
    front = canvases[0]
    ends = measures.draw_travel(front, travel, at, width)
    sheet.ink, sheet.weights = _ink(canvases)
    _set_all(sheet, front, travel, at, labels or {}, told, ends, views)
    foot, foot_labels, height = _foot(travel, at, ticks, ghost, views[0].scale, width, sheet.height)
    placed = sheet.placed + foot_labels
    body = [mark for layer in LAYERS for canvas in canvases for mark in canvas.layers[layer]]
    words = describe(travel, at=at, labels=labels, ticks=ticks, ghost=ghost)
    return Picture(_document(travel, theme, width, height, words, [*body, *foot], placed), width, height, views, placed)


def _everything(travel: Travel, at: int, ghost: int | None) -> numpy.ndarray:
    """Places that the picture must hold, (n, 3): all parts in the drawn poses, and the whole way of the load."""
    rig = travel.rig
    found = [numpy.array([coordinates(point.at) for point in rig.points.values()]).reshape(-1, 3), *drive_marks.places_of_drive(rig)]
    for index in (at, *(() if ghost is None else (ghost,))):
        centres, normals = part_marks.sheave_centres(travel, index), sheave_normals(travel, index)
        found += [circle_about(centres[n], normals[n], s.pitch_diameter.value / 2) for n, s in rig.sheaves.items()]
        found += [rope_line(path, index) for path in travel.paths.values()]
        found += [on_body(travel, name, outline(rig, name).corners(), index) for name in rig.bodies]
    reference = travel.poses.reference(rig.load_name)[at]
    found.append(numpy.array([[reference[0], y, reference[2]] for y in measures.travel_span(travel, at)]))
    places = numpy.concatenate(found)
    return numpy.concatenate([places, [[places[0, 0], 0.0, places[0, 2]]]]) if _floor_is_near(places) else places


def _floor_is_near(places: numpy.ndarray) -> bool:
    """Whether zero up can be the floor: nothing below it, and something not far above."""
    lowest = float(places[:, 1].min())
    return -0.01 <= lowest <= max(_FLOOR_WITHIN_M, 0.3 * float(numpy.ptp(places[:, 1])))


def _views(travel: Travel, places: numpy.ndarray, width: float, floor: bool) -> tuple[list[View], float]:
    """One view or two on one scale and one level, and the height of the field they stand in."""
    sides = [FROM_THE_FRONT, FROM_THE_RIGHT] if stated_depths(travel) else [FROM_THE_FRONT]
    extents = [Extent.of(places, side) for side in sides]
    margin = _SIDE_MARGIN_SHARE * width
    room = width - 2 * margin - _BETWEEN_PX * (len(sides) - 1)
    across, up = sum(e.width for e in extents), max(extents[0].height, 1e-3)
    scale = min(room / max(across, 1e-3), (_TALLEST_SHARE * width - _TOP_PX - _FOOT_PX) / up)
    left = (width - across * scale - _BETWEEN_PX * (len(sides) - 1)) / 2
    level = _TOP_PX + extents[0].high * scale
    views = []
    for side, extent in zip(sides, extents, strict=True):
        views.append(View(side, scale, left - extent.left * scale, level))
        left += extent.width * scale + _BETWEEN_PX
    return views, _TOP_PX + up * scale + _FOOT_PX


def _draw_view(
    canvas: Canvas, travel: Travel, at: int, ticks: Mapping[str, int], ghost: int | None, *, floor: bool, width: float, clickable: bool
) -> dict[str, str]:
    """Draw one view; the ropes whose ticks are too many to be drawn, with what to write instead."""
    rig = travel.rig
    too_many = {}
    for name, path in travel.paths.items():
        rope_marks.draw_rope(canvas, name, rig.ropes[name], path, at, clickable=clickable)
    part_marks.draw_sheaves(canvas, travel, at)
    part_marks.draw_bodies(canvas, travel, at)
    if rig.drive.kind == "winch":
        drive_marks.draw_winch(canvas, travel, at, floor=floor)
    else:
        drive_marks.draw_hand(canvas, travel, at)
    if canvas.view.across == FROM_THE_FRONT:
        measures.draw_guides(canvas, travel, at)
        if floor:
            measures.draw_floor(canvas, 10.0, width - 10.0)
    if ghost is not None:
        part_marks.ghost_bodies(canvas, travel, ghost)
        for name, path in travel.paths.items():
            rope_marks.ghost_rope(canvas, name, path, ghost)
    part_marks.draw_points(canvas, travel, at)
    for name, count in ticks.items():
        if not rope_marks.draw_ticks(canvas, name, rig.ropes[name], travel.paths[name], at, count):
            too_many[name] = f"× {count}"
    return too_many if canvas.view.across == FROM_THE_FRONT else {}


def _ink(canvases: list[Canvas]) -> tuple[numpy.ndarray, numpy.ndarray]:
    parts = [canvas.all_ink() for canvas in canvases]
    return numpy.concatenate([p for p, _ in parts]), numpy.concatenate([w for _, w in parts])


def _set_all(sheet: Sheet, front: Canvas, travel: Travel, at: int, labels, told, ends, views: list[View]) -> None:
    """Place the labels, those with the least choice first."""
    if len(views) > 1:
        sideways = numpy.array([0.0, 0.0, 0.0])
        for view, words in zip(views, ("from the front", "from the right"), strict=True):
            x = float(view.px(sideways)[0])
            sheet.keep_free(_fixed("view", words, min(max(x, 60.0), sheet.width - 60.0), 10.0))
    wishes = naming.pull_wishes(front, travel, at, labels)
    wishes += naming.tick_text_wishes(front, travel, at, told)
    wishes += [naming.travel_wish(travel, ends)]
    wishes += naming.body_wishes(front, travel, at)
    wishes += naming.drive_wishes(front, travel, at)
    wishes += naming.sheave_wishes(front, travel, at)
    wishes += naming.point_wishes(front, travel)
    wishes += naming.rope_wishes(front, travel, at)
    for wish in wishes:
        sheet.set(wish)


def _foot(
    travel: Travel, at: int, ticks, ghost: int | None, scale: float, width: float, top: float
) -> tuple[list[Markup], list[Placed], float]:
    """The rows under the picture: scale, what is drawn thin, and what the ticks say."""
    y = top + _ROW_PX / 2
    bar, right, length = measures.scale_bar(scale, 12.0, y)
    notes = [f"load drawn {_raised(travel.heights_m[at])}"]
    if ghost is not None:
        notes.append(f"thin dashes: {_raised(travel.heights_m[ghost])}")
    if any(outline(travel.rig, name).guessed for name in travel.rig.bodies):
        notes.append("dashed box: size not stated")
    if ticks is not None:
        notes.append("marks across a rope: one for each whole factor in hand, none for less than one")
        if any(rope not in ticks for rope in travel.rig.ropes):
            notes.append(f"? at a rope: {UNKNOWN}")
    placed = []
    left = right + 10
    for words in (length, *notes):
        for part in wrapped(words, width - 24):
            size = text_width(part, SMALL_PX) + 4
            if left + size > width - 4 and left > 14:
                left, y = 12.0, y + _ROW_PX
            placed.append(_fixed("note", part, left + size / 2, y, target_x=left))
            left += size + 16
    return [bar], placed, y + _ROW_PX / 2 + 4


def _raised(height_m: float) -> str:
    return "at its lowest" if abs(height_m) < 5e-7 else f"raised by {metres(height_m)}"


def _fixed(part: str, words: str, x: float, y: float, target_x: float | None = None) -> Placed:
    """A label that stands where it is told to."""
    wish = Wish(part, words, (words,), (x if target_x is None else target_x, y), 0.0, SMALL_PX, "rig-quiet")
    return Placed(wish, Box(x, y, wish.width, wish.height))


def _label(one: Placed) -> Markup:
    wish, box = one.wish, one.box
    marks = []
    if one.leader is not None:
        marks.append(svg.line(*one.leader, class_="rig-thin"))
    if one.on_line:
        marks.append(svg.polygon(box.corners, class_="rig-paper"))
    across, down = box.axes
    for k, words in enumerate(wish.lines):
        # the middle of a row is about a third of the letter height above its base line
        row = (k - (len(wish.lines) - 1) / 2) * wish.size_px * LINE_HEIGHT + wish.size_px * 0.35
        place = numpy.array([box.x, box.y]) + down * row + across * (one.leans * (box.width / 2 - 2))
        marks.append(
            svg.text(words, place, angle_deg=box.angle_deg, leans=one.leans, class_=f"rig-text {wish.class_}", font_size=wish.size_px)
        )
    return svg.element("g", *marks, id=f"label:{wish.part}:{wish.name}", data_label=wish.part, data_name=wish.name)


def _document(travel: Travel, theme: Theme, width: float, height: float, words: str, body: list[Markup], placed: list[Placed]) -> str:
    texts = [_label(one) for one in placed]
    paper = [svg.element("rect", width=width, height=height, fill="#ffffff")] if theme == "print" else []
    inside = [
        svg.element("title", travel.rig.name), svg.element("desc", Markup(svg.escape(words, keep=MARKS_OF_WORDS))), svg.element("style", Markup(style(theme))),
        *paper, svg.element("g", *body, class_="rig-marks"), svg.element("g", *texts, class_="rig-labels"),
    ]  # fmt: skip
    view_box = f"0 0 {svg.number(width)} {svg.number(height)}"
    return svg.element(
        "svg", *inside, xmlns="http://www.w3.org/2000/svg", viewBox=view_box, width=width, height=height, role="img",
        aria_label=f"Drawing of {svg.clean(travel.rig.name)}", class_="rig-drawing",
    )  # fmt: skip
