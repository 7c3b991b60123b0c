"""What a picture must hold, and how its views stand: front view, from the right of it, from above over it, on one scale.

The views stand as third-angle projection has them: each on the side from which it looks.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy

from rigcheck.report import drive_marks, hinge_marks, measures, part_marks
from rigcheck.report.guide_marks import has_shoes, shoe_offsets
from rigcheck.report.outlines import circle_about, on_body, outline, rope_line, sheave_normals, stated_depths
from rigcheck.report.view import FROM_ABOVE, FROM_THE_FRONT, FROM_THE_RIGHT, Direction, Extent, View
from rigcheck.rig.fields import coordinates
from rigcheck.statics.travel import Travel

VIEW_NAMES = {FROM_THE_FRONT: "from the front", FROM_THE_RIGHT: "from the right", FROM_ABOVE: "from above"}
VIEWS_NOTE = "third-angle views: from above over the front view, from the right beside it"
_SIDE_MARGIN_SHARE = 0.14
_TOP_PX, _FOOT_PX, _BETWEEN_PX, _PLAN_TOP_PX, _NAME_PX = 44.0, 30.0, 70.0, 30.0, 10.0
_PLAN_FOOT_PX = 14.0
_TALLEST_SHARE, _TALLEST_SHARE_OF_THREE = 1.05, 1.3
_FLOOR_WITHIN_M = 1.0
# a narrow picture with many runs gets room over it for what is written beside them
_NARROW_PX, _FEW_RUNS, _MORE_FOR_A_RUN_PX = 460.0, 4, 8.0


@dataclass(frozen=True)
class Frame:
    """The views, the height of the field they stand in and of what the front view shows, whether zero up is drawn as the floor, and where each view's name stands."""

    views: list[View]
    height: float
    front_px: float
    has_floor: bool
    tops: dict[Direction, float]


def framed(travel: Travel, at: int, ghost: int | None, width: float) -> Frame:
    """The views of a rig: one, or three where anything stands out of the front plane."""
    places = _everything(travel, at, ghost)
    has_floor = floor_is_near(places)
    if has_floor:
        places = numpy.concatenate([places, [[places[0, 0], 0.0, places[0, 2]]]])
    runs = sum(len(path.directions) for path in travel.paths.values())
    over = _TOP_PX + (max(runs - _FEW_RUNS, 0) * _MORE_FOR_A_RUN_PX if width < _NARROW_PX else 0.0)
    views, height, tops = _in_depth(places, width, over) if stated_depths(travel) else _flat(places, width, over)
    front_px = Extent.of(places, FROM_THE_FRONT).height * views[0].scale
    return Frame(views, height, front_px, has_floor, tops)


def floor_is_near(places: numpy.ndarray) -> bool:
    """Whether zero up can be the floor: nothing below it, and something not far above."""
    lowest = float(places[:, 1].min())
    return -0.01 <= lowest <= max(_FLOOR_WITHIN_M, 0.3 * float(numpy.ptp(places[:, 1])))


def _everything(travel: Travel, at: int, ghost: int | None) -> numpy.ndarray:
    """Places that the picture must hold, (n, 3): all parts in the drawn poses, and the whole way of the load."""
    rig = travel.rig
    found = [numpy.array([coordinates(point.at) for point in rig.points.values()]).reshape(-1, 3), *drive_marks.places_of_drive(rig)]
    for index in (at, *(() if ghost is None else (ghost,))):
        centres, normals = part_marks.sheave_centres(travel, index), sheave_normals(travel, index)
        found += [circle_about(centres[n], normals[n], s.pitch_diameter.value / 2) for n, s in rig.sheaves.items()]
        found += [rope_line(path, index) for path in travel.paths.values()]
        found += [on_body(travel, name, outline(rig, name).corners(), index) for name in rig.bodies]
        found += [on_body(travel, name, shoe_offsets(travel, name), index) for name in rig.bodies if has_shoes(travel, name)]
    if rig.swings:
        found.append(hinge_marks.swing_places(travel))
        found.append(numpy.array([free.hinge for free in hinge_marks.hinges(travel).values()]))
    else:
        reference = travel.poses.reference(rig.load_name)[at]
        found.append(numpy.array([[reference[0], y, reference[2]] for y in measures.travel_span(travel, at)]))
    return numpy.concatenate(found)


def _flat(places: numpy.ndarray, width: float, over: float) -> tuple[list[View], float, dict[Direction, float]]:
    front = Extent.of(places, FROM_THE_FRONT)
    up = max(front.height, 1e-3)
    room = width * (1 - 2 * _SIDE_MARGIN_SHARE)
    scale = min(room / max(front.width, 1e-3), (_TALLEST_SHARE * width - _TOP_PX - _FOOT_PX) / up)
    left = (width - front.width * scale) / 2
    view = View(FROM_THE_FRONT, scale, left - front.left * scale, over + front.high * scale)
    return [view], over + up * scale + _FOOT_PX, {}


def _in_depth(places: numpy.ndarray, width: float, over: float) -> tuple[list[View], float, dict[Direction, float]]:
    front, side, plan = (Extent.of(places, direction) for direction in (FROM_THE_FRONT, FROM_THE_RIGHT, FROM_ABOVE))
    across, up = front.width + side.width, max(front.height, 1e-3) + plan.height
    room = width * (1 - 2 * _SIDE_MARGIN_SHARE) - _BETWEEN_PX
    rows = _PLAN_TOP_PX + _PLAN_FOOT_PX + _TOP_PX + _FOOT_PX
    scale = min(room / max(across, 1e-3), (_TALLEST_SHARE_OF_THREE * width - rows) / up)
    left = (width - across * scale - _BETWEEN_PX) / 2 - front.left * scale
    right = left + front.right * scale + _BETWEEN_PX - side.left * scale
    top = _PLAN_TOP_PX + plan.height * scale + _PLAN_FOOT_PX + over
    level = top + front.high * scale
    views = [
        View(FROM_THE_FRONT, scale, left, level), View(FROM_THE_RIGHT, scale, right, level),
        View(FROM_ABOVE, scale, left, _PLAN_TOP_PX + plan.high * scale),
    ]  # fmt: skip
    named = top - over + _NAME_PX
    tops = {FROM_ABOVE: _NAME_PX, FROM_THE_FRONT: named, FROM_THE_RIGHT: named}
    return views, top + max(front.height, 1e-3) * scale + _FOOT_PX, tops
