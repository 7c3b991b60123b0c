"""Which labels a drawing carries, and where each would like to stand.

Names of sheaves, points and ropes may be left out where a picture is too crowded for them: each stays as the tooltip of its part and in the words.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy

from rigcheck.report import labels as place
from rigcheck.report.canvas import Canvas
from rigcheck.report.drive_marks import holding_places, winding_radius
from rigcheck.report.labels import Spot, Wish, folded, shortened
from rigcheck.report.measures import travel_words
from rigcheck.report.outlines import on_body, outline
from rigcheck.report.part_marks import sheave_centres
from rigcheck.report.rope_marks import rope_width, runs_px
from rigcheck.report.strut_marks import STRUT, ends_px, width_px
from rigcheck.report.svg import clean
from rigcheck.report.theme import FONT_PX, SMALL_PX
from rigcheck.rig.fields import coordinates
from rigcheck.statics.layout import driven_end
from rigcheck.statics.travel import Travel

_LONGEST_PULL_PX = 290.0


def _wish(part: str, name: str, lines: tuple[str, ...], target, reach: float, **more) -> Wish:
    """A label that would like to stand round a place."""
    x, y = (float(v) for v in target)
    bare = Wish(part, name, tuple(clean(line) for line in lines), (x, y), reach, **({"size_px": SMALL_PX, "class_": "rig-quiet"} | more))
    return replace(bare, spots=tuple(place.around(bare.width, bare.height, (x, y), reach)))


def _named(name: str) -> tuple[str, ...]:
    return folded(shortened(name))


def _beside_run(part: str, name: str, lines: tuple[str, ...], run, *, may_break: bool = False, drawn_px: float = 0.0, **more) -> Wish:
    """A label that would like to stand along a straight run that is drawn with that width."""
    start, end = run
    clear = drawn_px / 2
    wish = _wish(part, name, lines, (start + end) / 2, 3.0, clear_px=clear, **more)
    ends = tuple(tuple(map(float, p)) for p in run)
    return replace(wish, spots=tuple(place.along(wish.width, wish.height, start, end, may_break=may_break, clear_px=clear)), run=ends)


def pull_wishes(canvas: Canvas, travel: Travel, at: int, labels: Mapping[tuple[str, int], str]) -> list[Wish]:
    """The text beside each run, shortest run first, since it has the least room."""
    found = []
    for rope, path in travel.paths.items():
        drawn_px = rope_width(travel.rig.ropes[rope], canvas.view.scale)
        for k, run in enumerate(runs_px(canvas, path, at)):
            if labels.get((rope, k)):
                words = (shortened(labels[rope, k], _LONGEST_PULL_PX, FONT_PX, bold=True),)
                wish = _beside_run(
                    "run", f"{rope}:{k}", words, run, may_break=True, drawn_px=drawn_px, size_px=FONT_PX, class_="rig-pull", bold=True
                )
                found.append((round(float(numpy.linalg.norm(run[1] - run[0])), 3), wish))
    return [wish for _, wish in sorted(found, key=lambda pair: pair[0])]


def strut_wishes(canvas: Canvas, travel: Travel, labels: Mapping[tuple[str, int], str]) -> list[Wish]:
    """The name of each strut with what it pushes or pulls, along it."""
    found = []
    for name, strut in travel.rig.struts.items():
        run = ends_px(canvas, travel.rig, name)
        if numpy.linalg.norm(run[1] - run[0]) < 1.0:
            continue
        force = labels.get((name, STRUT))
        lines = (shortened(f"{name} {force}" if force else name, _LONGEST_PULL_PX),)
        found.append(_beside_run("strut", name, lines, run, drawn_px=width_px(strut, canvas.view.scale), may_go=not force))
    return found


def tick_text_wishes(canvas: Canvas, travel: Travel, at: int, told: Mapping[str, str]) -> list[Wish]:
    """Words for a rope whose factor in hand is not told by strokes."""
    runs = {rope: _longest(runs_px(canvas, travel.paths[rope], at)) for rope in told}
    return [
        _beside_run(
            "factor",
            rope,
            (words,),
            runs[rope],
            drawn_px=rope_width(travel.rig.ropes[rope], canvas.view.scale),
            size_px=FONT_PX,
            class_="rig-pull",
            bold=True,
        )
        for rope, words in told.items()
    ]


def _longest(runs):
    return max(runs, key=lambda run: round(float(numpy.linalg.norm(run[1] - run[0])), 3))


def body_wishes(canvas: Canvas, travel: Travel, at: int) -> list[Wish]:
    """Name and mass, inside the box where they fit."""
    found = []
    for name, body in travel.rig.bodies.items():
        corners = canvas.view.px(on_body(travel, name, outline(travel.rig, name).corners(), at))
        middle, size = corners.mean(axis=0), corners.max(axis=0) - corners.min(axis=0)
        wish = _wish("body", name, (*_named(name), shortened(str(body.mass))), middle, float(min(size)) / 2)
        inside = []
        if wish.width + 4 <= size[0] and wish.height + 4 <= size[1]:
            room = (size[1] - wish.height) / 2 - 3
            inside = [
                Spot(float(middle[0]), float(middle[1] + share * room), 0.0, -40.0 + abs(share)) for share in (0.0, 0.4, -0.4, 0.8, -0.8)
            ]
        x, y = middle
        beside = [(side * (size[0] / 2 + wish.width / 2 + 6), dy) for dy in (0.0, -0.25 * size[1], 0.25 * size[1]) for side in (1, -1)]
        above = [(0.0, side * (size[1] / 2 + wish.height / 2 + 5)) for side in (1, -1)]
        outside = [Spot(float(x + dx), float(y + dy), 0.0, 1.0) for dx, dy in beside + above]
        found.append(replace(wish, spots=tuple(inside + outside)))
    return found


def sheave_wishes(canvas: Canvas, travel: Travel, at: int) -> list[Wish]:
    centres = sheave_centres(travel, at)
    return [
        _wish("sheave", name, _named(name), canvas.view.px(centres[name]), sheave.pitch_diameter.value / 2 * canvas.view.scale, may_go=True)
        for name, sheave in travel.rig.sheaves.items()
    ]


def point_wishes(canvas: Canvas, travel: Travel) -> list[Wish]:
    """The names of the points, but for those that only carry one sheave at the same place, which has a name of its own."""
    rig = travel.rig
    found = []
    for name, point in rig.points.items():
        held = [sheave for sheave in rig.sheaves.values() if sheave.on == name]
        ends = any(getattr(stop, "made_fast_to", None) == name for rope in rig.ropes.values() for stop in rope.path)
        if len(held) == 1 and not ends and not any(coordinates(held[0].offset)):
            continue
        found.append(_wish("point", name, _named(name), canvas.view.px(coordinates(point.at)), 5.0, may_go=True))
    return found


def rope_wishes(canvas: Canvas, travel: Travel, at: int) -> list[Wish]:
    """The name of each rope, once, at its longest run."""
    return [
        _beside_run(
            "rope",
            name,
            (shortened(name),),
            _longest(runs_px(canvas, path, at)),
            drawn_px=rope_width(travel.rig.ropes[name], canvas.view.scale),
            may_go=True,
        )
        for name, path in travel.paths.items()
    ]


def drive_wishes(canvas: Canvas, travel: Travel, at: int) -> list[Wish]:
    rig = travel.rig
    if rig.drive.kind == "winch":
        reach = winding_radius(rig) * canvas.view.scale
        wraps = rig.drive.drum.dead_wraps
        lines = ("drum",) if wraps is None else ("drum", f"{wraps:g} dead wrap{'s' * (wraps != 1)}")
        wishes = [_wish("drum", "drum", lines, canvas.view.px(coordinates(rig.drive.drum.at)), reach)]
        holding = holding_places(canvas, rig)
        return wishes + [_wish(part, part, (part,), where, 5.0, may_go=True) for part, where in holding.items()]
    found = []
    for name, path in travel.paths.items():
        end = driven_end(rig, name)
        if end is not None:
            hand = path.starts[0][at] if end == 0 else path.ends[-1][at]
            found.append(_wish("hand", name, ("hand",), canvas.view.px(hand), 9.0))
    return found


def travel_wish(travel: Travel, ends: tuple[numpy.ndarray, numpy.ndarray]) -> Wish:
    return _beside_run("travel", travel.rig.load_name, (shortened(travel_words(travel), _LONGEST_PULL_PX),), ends)
