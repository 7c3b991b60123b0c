"""Sheaves with their straps, bodies with their eyes, and fixed points as hatched supports."""

from __future__ import annotations

import numpy

from rigcheck.report import strut_marks, svg
from rigcheck.report.canvas import Canvas, Grip
from rigcheck.report.outlines import circle_about, on_body, outline, pulls_on_point, sheave_normals
from rigcheck.report.svg import Markup
from rigcheck.report.view import FROM_ABOVE, FROM_THE_FRONT
from rigcheck.report.words import ROLES, place_words
from rigcheck.rig.fields import coordinates
from rigcheck.rig.model import Rig
from rigcheck.statics.travel import Travel

_SIDES = {"above": (0.0, -1.0), "right": (1.0, 0.0), "left": (-1.0, 0.0), "below": (0.0, 1.0)}
_BAR_REACH_PX = 11.0
_HATCH_PX = 7.0
_RAISE_PX = 6.0
_RAISES = 12
_SQUARE_PX = 5.0
_PLUMB_M = 0.02


def sheave_centres(travel: Travel, at: int) -> dict[str, numpy.ndarray]:
    return {name: travel.poses.on(sheave.on, coordinates(sheave.offset))[at] for name, sheave in travel.rig.sheaves.items()}


def draw_sheaves(canvas: Canvas, travel: Travel, at: int) -> None:
    """Every sheave at its pitch radius, face on or as it is seen, with its axle and the strap to the body it sits on."""
    centres, normals = sheave_centres(travel, at), sheave_normals(travel, at)
    for name, sheave in travel.rig.sheaves.items():
        view, radius = canvas.view, sheave.pitch_diameter.value / 2
        centre = view.px(centres[name])
        if view.shows_face_on(normals[name]):
            rim = canvas.circle(centre, radius * view.scale, "rig-sheave")
        else:
            rim = canvas.polygon(view.px(circle_about(centres[name], normals[name], radius)), "rig-sheave")
        canvas.filled(centre + radius * view.scale * numpy.array([[-0.8, -0.8], [0.8, 0.8]]))
        marks = [rim]
        if radius * view.scale > 9 and view.shows_face_on(normals[name]):
            marks.append(svg.circle(centre, radius * view.scale * 0.72, class_="rig-thin"))
        marks.append(svg.circle(centre, min(max(radius * view.scale * 0.16, 1.6), 4.0), class_="rig-solid"))
        told = f"sheave {name}, {place_words(centres[name])}"
        canvas.part("sheaves", "sheave", name, marks, Grip(centre, told))


def draw_bodies(canvas: Canvas, travel: Travel, at: int) -> None:
    """Every body as a box with its eyes and the hangers to what is outside it; a guessed size is dashed."""
    rig, is_front = travel.rig, canvas.view.direction == FROM_THE_FRONT
    for name, body in rig.bodies.items():
        box = outline(rig, name)
        corners = canvas.view.px(_seen(canvas, travel, name, at))
        canvas.filled(corners)
        marks = [canvas.polygon(corners, "rig-guess" if box.guessed or not is_front else "rig-body")]
        if body.role == "counterweight" and canvas.view.direction != FROM_ABOVE:
            marks += _weight_marks(canvas, corners)
        offsets = [coordinates(place) for place in body.picks.values()]
        offsets += [coordinates(sheave.offset) for sheave in rig.sheaves.values() if sheave.on == name]
        for offset in offsets:
            outer, inner = canvas.view.px(on_body(travel, name, [offset, box.nearest(offset)], at))
            if numpy.linalg.norm(outer - inner) > 1:
                marks.append(canvas.line(outer, inner, "rig-strap"))
        marks += [
            canvas.circle(canvas.view.px(on_body(travel, name, [coordinates(place)], at)[0]), 2.6, "rig-sheave")
            for place in body.picks.values()
        ]
        if is_front and getattr(body.moves, "tilts", False):
            marks += _centre_of_gravity(canvas, canvas.view.px(travel.poses.centre_of_gravity(name)[at]))
        place = travel.poses.reference(name)[at]
        told = f"{ROLES[body.role].lower()} {name}, its underside {place_words(place)}"
        canvas.part("bodies", "body", name, marks, Grip(canvas.view.px(place), told))


def _seen(canvas: Canvas, travel: Travel, name: str, at: int) -> numpy.ndarray:
    """The corners of a body's box as this view sees them, (4, 3)."""
    box = outline(travel.rig, name)
    corners = on_body(travel, name, box.corners(), at)
    if canvas.view.direction == FROM_THE_FRONT:
        return corners
    depth = travel.poses.reference(name)[at][2]
    near, far = box.depth[1] + depth, box.depth[0] + depth
    (left, low, _), (right, high, _) = corners.min(axis=0), corners.max(axis=0)
    if canvas.view.direction == FROM_ABOVE:
        return numpy.array([(left, high, near), (right, high, near), (right, high, far), (left, high, far)])
    return numpy.array([(left, low, near), (left, low, far), (left, high, far), (left, high, near)])


def _weight_marks(canvas: Canvas, corners: numpy.ndarray) -> list[Markup]:
    """Plates: level lines across the lower part of the box."""
    left, right = (corners[0], corners[3]), (corners[1], corners[2])
    found = []
    for share in (0.08, 0.16, 0.24):
        found.append(canvas.line(left[0] + (left[1] - left[0]) * share, right[0] + (right[1] - right[0]) * share, "rig-line", 0.7))
    return found


def _centre_of_gravity(canvas: Canvas, place: numpy.ndarray) -> list[Markup]:
    arm = 6.0
    lines = [canvas.line(place - step, place + step, "rig-thin", 8.0) for step in (numpy.array([arm, 0.0]), numpy.array([0.0, arm]))]
    return [canvas.circle(place, 4.0, "rig-thin"), *lines]


def ghost_bodies(canvas: Canvas, travel: Travel, at: int) -> None:
    """Bodies and what they carry at another height, thin."""
    rig, view = travel.rig, canvas.view
    centres, normals = sheave_centres(travel, at), sheave_normals(travel, at)
    for name in rig.bodies:
        canvas.part("ghost", "ghost:body", name, [canvas.polygon(view.px(_seen(canvas, travel, name, at)), "rig-ghost", 0.15)])
    for name, sheave in rig.sheaves.items():
        if sheave.on in rig.bodies:
            rim = view.px(circle_about(centres[name], normals[name], sheave.pitch_diameter.value / 2))
            canvas.part("ghost", "ghost:sheave", name, [canvas.polygon(rim, "rig-ghost", 0.15)])


def draw_points(canvas: Canvas, travel: Travel, at: int) -> None:
    """Every fixed point as a hatched bar on the side away from the pull, with the straps of what hangs there."""
    rig, view = travel.rig, canvas.view
    centres = sheave_centres(travel, at)
    for name, point in rig.points.items():
        place = view.px(coordinates(point.at))
        if view.direction == FROM_ABOVE:
            canvas.part("supports", "point", name, _from_above(canvas, place))
            continue
        held = [(view.px(centres[n]), s.pitch_diameter.value / 2 * view.scale) for n, s in rig.sheaves.items() if s.on == name]
        if strut_marks.is_joint(rig, name):
            marks = strut_marks.draw_joint(canvas, name, place, [centre for centre, _ in held])
            canvas.part("axles", "point", name, marks, Grip(place, f"joint {name}, held by struts, {place_words(coordinates(point.at))}"))
            continue
        tied = any(getattr(stop, "made_fast_to", None) == name for rope in rig.ropes.values() for stop in rope.path)
        tied = tied or any(name in strut.ends for strut in rig.struts.values())
        pull = pulls_on_point(travel, name, at)
        if point.held == "ground":
            out = numpy.array(_SIDES["below"])
        elif view.direction == FROM_THE_FRONT and _is_on_a_wall(rig, name):
            out = numpy.array(_SIDES["right" if view.flat(pull)[0] < 0 else "left"])
        else:
            out = side_away_from(view.flat(pull))
        along = numpy.array([abs(out[1]), abs(out[0])])
        level = max([float(place @ out), *(float(centre @ out) + radius + 5 for centre, radius in held)])
        reaches = [float(place @ along), *(float(centre @ along) for centre, _ in held)]
        low, high = min(reaches) - _BAR_REACH_PX, max(reaches) + _BAR_REACH_PX
        level = _clear_level(canvas, out, along, low, high, level)
        start, end = out * level + along * low, out * level + along * high
        marks = [canvas.line(start, end, "rig-line"), canvas.hatch(start, end, out, length_px=_HATCH_PX)]
        for centre in [*(centre for centre, _ in held), *([place] if tied or not held else [])]:
            top = out * level + along * float(centre @ along)
            if numpy.linalg.norm(top - centre) > 1:
                marks.append(canvas.line(centre, top, "rig-strap", 1.5))
        if tied or not held:
            marks.append(canvas.circle(place, 2.6, "rig-sheave"))
        if canvas.is_held:
            far = out * (level + _HATCH_PX)
            marks.append(svg.polygon(numpy.array([start, end, far + along * high, far + along * low]), class_="rig-hold"))
        canvas.part("supports", "point", name, marks, Grip(place, f"fixed point {name}, {place_words(coordinates(point.at))}"))


def _is_on_a_wall(rig: Rig, name: str) -> bool:
    """Whether struts hold on to the building at another place plumb over or under this one: that is a wall."""
    held = {end for strut in rig.struts.values() for end in strut.ends if rig.points[end].held == "fixed"}
    across, up, _ = coordinates(rig.points[name].at)
    others = [coordinates(rig.points[other].at) for other in held - {name}] if name in held else []
    return any(abs(x - across) < _PLUMB_M and abs(y - up) > _PLUMB_M for x, y, _ in others)


def _from_above(canvas: Canvas, place: numpy.ndarray) -> list[Markup]:
    """A small crossed square, whichever way the point is held."""
    corners = place + _SQUARE_PX * numpy.array([[-1, -1], [1, -1], [1, 1], [-1, 1]])
    marks = [canvas.polygon(corners, "rig-sheave")]
    return marks + [canvas.line(corners[k], corners[k + 2], "rig-hatch") for k in (0, 1)]


def side_away_from(pull: numpy.ndarray) -> numpy.ndarray:
    """The direction, in the drawing, from a point to its support: against the pull, above where nothing says otherwise."""
    if numpy.linalg.norm(pull) < 1e-9:
        return numpy.array(_SIDES["above"])
    # a pull aslant is held from above or below: to the side only where it is nearly level
    weighed = {side: -float(numpy.dot(direction, pull)) * (1.6 if direction[0] == 0 else 1.0) for side, direction in _SIDES.items()}
    return numpy.array(_SIDES[max(weighed, key=lambda side: weighed[side])])


def _clear_level(canvas: Canvas, out, along, low: float, high: float, level: float) -> float:
    """The level of the bar, moved outwards until neither it nor its hatching lies on other marks."""
    for step in range(_RAISES):
        tried = level + step * _RAISE_PX
        one, two = out * (tried + 0.5) + along * low, out * (tried + _HATCH_PX) + along * high
        if not canvas.ink_within(numpy.minimum(one, two) - 1, numpy.maximum(one, two) + 1):
            return tried
    return level
