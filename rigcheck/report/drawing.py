"""One drawing of a rig, for the pages and the report: SVG text, true to scale, from the geometry that was solved.

The front view; where anything stands out of the front plane, also a view from the right beside it and one from above over it.
Every mark carries the id, the kind and the name of its part (`id="sheave:head"`, `data-part`, `data-name`). On a page the parts of
the front view can be taken hold of: see `_held_attributes`. The same travel gives the same bytes.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy

from rigcheck.report import drive_marks, hinge_marks, measures, naming, part_marks, rope_marks, strut_marks, svg
from rigcheck.report.canvas import LAYERS, Canvas
from rigcheck.report.dimensions import callout_wishes, draw_dimensions
from rigcheck.report.foot import fixed, foot, notes_of
from rigcheck.report.framing import VIEW_NAMES, VIEWS_NOTE, Frame, framed
from rigcheck.report.labels import LINE_HEIGHT, RING_PX, Wish
from rigcheck.report.person import HEIGHT_M, draw_person
from rigcheck.report.placement import Placed, Sheet
from rigcheck.report.svg import Markup
from rigcheck.report.theme import Theme, style
from rigcheck.report.thumbnail import thumbnail
from rigcheck.report.view import FROM_ABOVE, FROM_THE_FRONT, View
from rigcheck.report.words import MARKS_OF_WORDS, MOST_STROKES, Callout, Dimension, describe, metres, times_words
from rigcheck.statics.travel import Travel

__all__ = ["Callout", "Dimension", "Picture", "compose", "describe", "draw", "thumbnail"]

LEAST_WIDTH_PX = 320
LEAST_WIDTH_WITH_PERSON_PX = 440
_EDGE_PX = 10.0
_IDS_BEFORE = ("", "side:", "plan:")


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
    ghost: int | None = None, width_px: int = 900, theme: Theme = "page", notes: Sequence[str] = (),
    dimensions: Sequence[Dimension] = (), callouts: Sequence[Callout] = (),
) -> str:  # fmt: skip
    """The drawing as SVG text.

    `at` is the index of the height that is drawn, `ghost` that of a second one drawn thin; `labels` the text beside a run by rope and
    number of the run; `ticks` by rope how many whole times over it has its required factor, 0 where it falls short: a rope left out of
    it is marked as one that cannot be told. `notes` stand in the foot; `dimensions` and `callouts` are letters to measure by.
    """
    return compose(
        travel, at=at, labels=labels, ticks=ticks, ghost=ghost, width_px=width_px, theme=theme, notes=notes, dimensions=dimensions, callouts=callouts
    ).text  # fmt: skip


def compose(
    travel: Travel, *, at: int = 0, labels: Mapping[tuple[str, int], str] | None = None, ticks: Mapping[str, int] | None = None,
    ghost: int | None = None, width_px: int = 900, theme: Theme = "page", notes: Sequence[str] = (),
    dimensions: Sequence[Dimension] = (), callouts: Sequence[Callout] = (),
) -> Picture:  # fmt: skip
    """The drawing with its views and labels, for whoever wants more of it than its text."""
    width = float(max(width_px, LEAST_WIDTH_PX))
    frame = framed(travel, at, ghost, width)
    canvases = [Canvas(view, before) for view, before in zip(frame.views, _IDS_BEFORE, strict=False)]
    front = canvases[0]
    front.is_held = theme == "page"
    for canvas in canvases:
        _draw_parts(canvas, travel, at, ghost, has_floor=frame.has_floor, width=width)
    told = _draw_strokes(front, travel, at, ticks)
    lettered = draw_dimensions(front, dimensions, width, frame.height)
    ends = hinge_marks.draw_swing(front, travel) if travel.rig.swings else measures.draw_travel(front, travel, at, width)
    told_of = list(notes)
    right_edge = min([width - _EDGE_PX, *(float(canvas.all_ink()[0][:, 0].min()) - _EDGE_PX for canvas in canvases[1:2])])
    if frame.has_floor and width >= LEAST_WIDTH_WITH_PERSON_PX and draw_person(front, travel, at, _EDGE_PX, right_edge, frame.front_px):
        told_of.append(f"for scale, a person of {metres(HEIGHT_M)}")
    if len(frame.views) > 1:
        told_of.append(VIEWS_NOTE)
    sheet = Sheet(width, frame.height, *_ink(canvases))
    _name_views(sheet, frame, travel)
    for wish in _wishes(front, travel, at, labels or {}, told, ends, [*lettered, *callout_wishes(front, callouts)]):
        sheet.set(wish)
    in_foot = notes_of(travel, at, ticks, ghost, told_of, in_depth=len(frame.views) > 1)
    foot_marks, foot_labels, height = foot([svg.clean(note) for note in in_foot], front.view.scale, width, sheet.height)
    placed = sheet.placed + foot_labels
    marks = [mark for layer in LAYERS for canvas in canvases for mark in canvas.layers[layer]]
    words = describe(travel, at=at, labels=labels, ticks=ticks, ghost=ghost, notes=told_of, dimensions=dimensions, callouts=callouts)
    text = _document(travel, theme, front.view, (width, height), words, [*marks, *foot_marks], placed)
    return Picture(text, width, height, frame.views, placed)


def _draw_parts(canvas: Canvas, travel: Travel, at: int, ghost: int | None, *, has_floor: bool, width: float) -> None:
    """Draw one view but for what only the front view tells."""
    rig, direction = travel.rig, canvas.view.direction
    strut_marks.draw_struts(canvas, travel)
    for name, path in travel.paths.items():
        rope_marks.draw_rope(canvas, name, rig.ropes[name], path, at)
    part_marks.draw_sheaves(canvas, travel, at)
    hinge_marks.draw_hinges(canvas, travel, at)
    part_marks.draw_bodies(canvas, travel, at)
    if rig.drive.kind == "winch":
        drive_marks.draw_winch(canvas, travel, at, floor=has_floor)
    else:
        drive_marks.draw_hand(canvas, travel, at)
    if direction == FROM_THE_FRONT:
        measures.draw_guides(canvas, travel, at)
        if has_floor:
            measures.draw_floor(canvas, 10.0, width - 10.0)
    if ghost is not None and direction != FROM_ABOVE:
        part_marks.ghost_bodies(canvas, travel, ghost)
        for name, path in travel.paths.items():
            rope_marks.ghost_rope(canvas, name, path, ghost)
    part_marks.draw_points(canvas, travel, at)


def _draw_strokes(front: Canvas, travel: Travel, at: int, ticks: Mapping[str, int] | None) -> dict[str, str]:
    """The strokes across every rope; what to write at those ropes where they say nothing, or are too many."""
    told = {}
    if ticks is None:
        return told
    for name, rope in travel.rig.ropes.items():
        times = ticks.get(name)
        if times is None:
            told[name] = "?"
        elif not 1 <= times <= MOST_STROKES or not rope_marks.draw_ticks(front, name, rope, travel.paths[name], at, times):
            told[name] = times_words(times)
    return told


def _ink(canvases: list[Canvas]) -> tuple[numpy.ndarray, numpy.ndarray]:
    parts = [canvas.all_ink() for canvas in canvases]
    return numpy.concatenate([p for p, _ in parts]), numpy.concatenate([w for _, w in parts])


def _name_views(sheet: Sheet, frame: Frame, travel: Travel) -> None:
    """Over each view from where it looks, where there is more than one."""
    if len(frame.views) < 2:
        return
    load = travel.poses.reference(travel.rig.load_name)[0]
    for view in frame.views:
        x = min(max(float(view.px(load)[0]), 60.0), sheet.width - 60.0)
        above = frame.tops[view.direction]
        sheet.keep_free(fixed("view", VIEW_NAMES[view.direction], x, above))


def _wishes(front: Canvas, travel: Travel, at: int, labels, told, ends, lettered: list[Wish]) -> list[Wish]:
    """All labels, those with the least choice first."""
    return [
        *lettered,
        *naming.pull_wishes(front, travel, at, labels),
        *naming.strut_wishes(front, travel, labels),
        *naming.tick_text_wishes(front, travel, at, told),
        naming.travel_wish(travel, ends),
        *naming.body_wishes(front, travel, at),
        *naming.drive_wishes(front, travel, at),
        *naming.sheave_wishes(front, travel, at),
        *naming.point_wishes(front, travel),
        *naming.rope_wishes(front, travel, at),
    ]


def _label(one: Placed) -> Markup:
    wish, box = one.wish, one.box
    marks = []
    if one.leader is not None:
        marks.append(svg.line(*one.leader, class_="rig-thin"))
    if wish.ringed:
        marks.append(svg.circle((box.x, box.y), RING_PX / 2 - 0.5, class_="rig-ring"))
    elif one.papered:
        marks.append(svg.polygon(box.corners, class_="rig-paper"))
    across, down = box.axes
    leans = 0 if wish.ringed else one.leans
    for k, words in enumerate(wish.lines):
        # the middle of a row is about a third of the letter height above its base line
        row = (k - (len(wish.lines) - 1) / 2) * wish.size_px * LINE_HEIGHT + wish.size_px * 0.35
        place = numpy.array([box.x, box.y]) + down * row + across * (leans * (box.width / 2 - 2))
        marks.append(svg.text(words, place, angle_deg=box.angle_deg, leans=leans, class_=f"rig-text {wish.class_}", font_size=wish.size_px))
    return svg.element("g", *marks, id=f"label:{wish.part}:{wish.name}", data_label=wish.part, data_name=wish.name)


def _held_attributes(front: View, theme: Theme) -> dict[str, str]:
    """What a page needs to turn the front view's pixels into metres: x = (px - left) / scale, y = (level - px) / scale.

    In it every part that can be moved holds a round `rig-grip` at its own place, every rope a wide `rig-hit`, and both are reached and
    pressed like buttons.
    """
    if theme != "page":
        return {"role": "img"}
    return {"role": "group", "data_scale": f"{front.scale:.6g}", "data_left": f"{front.left_px:.4f}", "data_level": f"{front.level_px:.4f}"}


def _document(
    travel: Travel, theme: Theme, front: View, size: tuple[float, float], words: str, body: list[Markup], placed: list[Placed]
) -> str:
    width, height = size
    texts = [_label(one) for one in placed]
    paper = [svg.element("rect", width=width, height=height, fill="#ffffff")] if theme == "print" else []
    inside = [
        svg.element("title", travel.rig.name), svg.element("desc", Markup(svg.escape(words, keep=MARKS_OF_WORDS))), svg.element("style", Markup(style(theme))),
        *paper, svg.element("g", *body, class_="rig-marks"), svg.element("g", *texts, class_="rig-labels"),
    ]  # fmt: skip
    view_box = f"0 0 {svg.number(width)} {svg.number(height)}"
    return svg.element(
        "svg", *inside, xmlns="http://www.w3.org/2000/svg", viewBox=view_box, width=width, height=height,
        aria_label=f"Drawing of {svg.clean(travel.rig.name)}", class_="rig-drawing", **_held_attributes(front, theme),
    )  # fmt: skip
