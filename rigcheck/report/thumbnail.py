"""A rig drawn very small and without words, to be picked from among others: true to scale, with lines that are made out at that size.

Its marks carry no ids and bring no sheet of styles, so that many of them can stand on one page.
"""

from __future__ import annotations

import numpy

from rigcheck.report import drive_marks, hinge_marks, strut_marks, svg
from rigcheck.report.outlines import Arc, on_body, outline, pulls_on_point, rope_arcs
from rigcheck.report.part_marks import sheave_centres, side_away_from
from rigcheck.report.svg import Markup
from rigcheck.report.theme import INK, PAPER, ROPE
from rigcheck.report.view import FROM_THE_FRONT, Extent, View
from rigcheck.rig.fields import coordinates
from rigcheck.statics.layout import driven_end
from rigcheck.statics.paths import Path
from rigcheck.statics.travel import Travel

_MARGIN_PX = 12.0
_ARC_STEP_RAD = numpy.radians(20)
_LEAST_RADIUS_PX, _LEAST_SIDE_PX = 2.4, 5.0
_BAR_REACH_PX, _HATCH_PX = 4.5, 3.0
_MOTOR_PX = 3.2
_FLOOR_WITHIN = 0.3


def thumbnail(travel: Travel, width_px: int = 160, height_px: int = 110) -> str:
    """The front view at the lowest of the travel as SVG text; colours follow the page around it."""
    lines = {name: _line(path) for name, path in travel.paths.items()}
    places = numpy.concatenate([*lines.values(), *_corners(travel)])
    has_floor = -0.01 <= places[:, 1].min() <= max(1.0, _FLOOR_WITHIN * float(numpy.ptp(places[:, 1])))
    if has_floor:
        places = numpy.concatenate([places, [[places[0, 0], 0.0, 0.0]]])
    view = _fitted(places, width_px, height_px)
    floor = [_path([[(0.0, view.level_px), (float(width_px), view.level_px)]])] if has_floor else []
    layers = [
        svg.element("g", *floor, stroke_width=1, stroke_opacity=0.6),
        svg.element("g", *_supports(view, travel), stroke_width=1.1),
        *_struts(view, travel),
        *_hinges(view, travel),
        *_bodies(view, travel),
        svg.element("g", *_round_things(view, travel), stroke_width=1.2, fill=PAPER),
        svg.element(
            "g", *(_rope(view, travel, name, line) for name, line in lines.items()), stroke=ROPE, stroke_width=_rope_width(view, travel)
        ),
        *_drive(view, travel),
    ]
    drawn = svg.element("g", *layers, stroke=INK, fill="none", stroke_linejoin="round", stroke_linecap="round")
    return svg.element(
        "svg", svg.element("title", travel.rig.name), drawn, xmlns="http://www.w3.org/2000/svg", viewBox=f"0 0 {width_px} {height_px}",
        width=width_px, height=height_px, role="img", class_="rig-thumbnail",
    )  # fmt: skip


def _line(path: Path) -> numpy.ndarray:
    """A rope from end to end with coarse arcs, (n, 3)."""
    arcs: dict[int, Arc] = {arc.stop: arc for arc in rope_arcs(path, 0)}
    pieces = []
    for k in range(len(path.directions)):
        pieces.append(numpy.array([path.starts[k][0], path.ends[k][0]]))
        if k + 1 < len(path.directions):
            arc = arcs[k + 1]
            pieces.append(arc.places(max(int(abs(arc.wrap_rad) / _ARC_STEP_RAD) + 2, 3))[1:-1])
    return numpy.concatenate(pieces)


def _corners(travel: Travel) -> list[numpy.ndarray]:
    rig = travel.rig
    found = [on_body(travel, name, outline(rig, name).corners(), 0) for name in rig.bodies]
    found += [numpy.array([coordinates(point.at) for point in rig.points.values()]).reshape(-1, 3)]
    return found + drive_marks.places_of_drive(rig)[:1]


def _fitted(places: numpy.ndarray, width_px: float, height_px: float) -> View:
    extent = Extent.of(places, FROM_THE_FRONT)
    across, up = max(extent.width, 1e-3), max(extent.height, 1e-3)
    scale = min((width_px - 2 * _MARGIN_PX) / across, (height_px - 2 * _MARGIN_PX) / up)
    left = (width_px - across * scale) / 2 - extent.left * scale
    return View(FROM_THE_FRONT, scale, left, (height_px + up * scale) / 2 + extent.low * scale)


def _rope_width(view: View, travel: Travel) -> float:
    """Thinner where the falls over the smallest sheave would else run into one."""
    least = min((sheave.pitch_diameter.value for sheave in travel.rig.sheaves.values()), default=1.0) * view.scale
    return min(max(0.4 * least, 0.7), 1.8)


def _short(value: float) -> str:
    """A coordinate to a tenth of a pixel."""
    return f"{value:.1f}".removesuffix(".0")


def _path(lines, **attributes) -> Markup:
    """Lines through places, (n, 2) each, as one path."""
    data = "".join("M" + "L".join(f"{_short(x)} {_short(y)}" for x, y in line) for line in lines)
    return svg.element("path", d=data, **attributes)


def _rope(view: View, travel: Travel, name: str, line: numpy.ndarray) -> Markup:
    return _path([view.px(line)], stroke_dasharray="3 1.4" if travel.rig.ropes[name].kind == "fibre" else None,
                 stroke_linecap="butt" if travel.rig.ropes[name].kind == "fibre" else None)  # fmt: skip


def _bodies(view: View, travel: Travel) -> list[Markup]:
    """Boxes: the load tinted, a counterweight filled, what only guides the rope left open."""
    found = []
    for name, body in travel.rig.bodies.items():
        corners = view.px(on_body(travel, name, outline(travel.rig, name).corners(), 0))
        middle, half = corners.mean(axis=0), numpy.ptp(corners, axis=0) / 2
        corners = middle + (corners - middle) * numpy.maximum(_LEAST_SIDE_PX / 2 / numpy.maximum(half, 1e-6), 1.0)
        eyes = view.px(on_body(travel, name, [coordinates(place) for place in body.picks.values()], 0)) if body.picks else []
        straps = [(eye, numpy.clip(eye, corners.min(axis=0), corners.max(axis=0))) for eye in eyes]
        found.append(svg.polygon(corners.round(1), fill=PAPER, stroke_width=1.5))
        tint = {"load": 0.16, "counterweight": 0.6}.get(body.role)
        if tint:
            found.append(svg.polygon(corners.round(1), fill=INK, fill_opacity=tint, stroke="none"))
        found += [_path([strap]) for strap in straps if numpy.linalg.norm(strap[0] - strap[1]) > 1]
    return found


def _hinges(view: View, travel: Travel) -> list[Markup]:
    """Arms from every hinge to its body and what is fixed on it, and the pin as a dot."""
    arms = hinge_marks.arms(travel, 0)
    found = [_path([view.px(numpy.array(arm)) for arm in arms.values()], stroke_width=1.5)] if arms else []
    pins = [view.px(numpy.array(free.hinge)).round(1) for free in hinge_marks.hinges(travel).values()]
    return found + [svg.circle(pin, 2.4, fill=INK, stroke="none") for pin in pins]


def _round_things(view: View, travel: Travel) -> list[Markup]:
    rig = travel.rig
    found = []
    for name, centre in sheave_centres(travel, 0).items():
        radius = max(rig.sheaves[name].pitch_diameter.value / 2 * view.scale, _LEAST_RADIUS_PX)
        found.append(svg.circle(view.px(centre).round(1), round(radius, 1)))
    return found


def _supports(view: View, travel: Travel) -> list[Markup]:
    """A bar with three strokes on the side away from the pull, clear of the sheaves that hang there."""
    rig, centres, lines = travel.rig, sheave_centres(travel, 0), []
    for name, point in rig.points.items():
        if strut_marks.is_joint(rig, name):
            continue
        place = view.px(coordinates(point.at))
        pull = pulls_on_point(travel, name, 0)
        out = side_away_from(numpy.array([pull[0], -pull[1]]))
        along = numpy.array([abs(out[1]), abs(out[0])])
        held = [
            (view.px(centres[n]), max(s.pitch_diameter.value / 2 * view.scale, _LEAST_RADIUS_PX))
            for n, s in rig.sheaves.items()
            if s.on == name
        ]
        level = max([float(place @ out) + 1, *(float(centre @ out) + radius + 2 for centre, radius in held)])
        reach = [float(place @ along), *(float(centre @ along) for centre, _ in held)]
        low, high = min(reach) - _BAR_REACH_PX, max(reach) + _BAR_REACH_PX
        foot = out * level
        lines.append((foot + along * low, foot + along * high))
        for k in range(1, 4):
            start = foot + along * (low + (high - low) * k / 3.5)
            lines.append((start, start + (out - along) * _HATCH_PX * 0.8))
        lines += [(centre, foot + along * float(centre @ along)) for centre, _ in held or [(place, 0.0)]]
    return [_path(lines)] if lines else []


def _struts(view: View, travel: Travel) -> list[Markup]:
    """Thick lines for what can push, thin ones for what can only pull."""
    found = []
    for pulls_only, width in ((False, 2.6), (True, 0.8)):
        own = [strut for strut in travel.rig.struts.values() if strut.pulls_only == pulls_only]
        lines = [[tuple(view.px(coordinates(travel.rig.points[end].at))) for end in strut.ends] for strut in own]
        found += [_path(lines, stroke_width=width)] if lines else []
    return found


def _drive(view: View, travel: Travel) -> list[Markup]:
    rig = travel.rig
    if rig.drive.kind != "winch":
        return _hand(view, travel)
    winch = rig.drive
    centre = view.px(coordinates(winch.drum.at))
    radius = max(winch.drum.diameter.value / 2 * view.scale, 3.4)
    foot = view.level_px if drive_marks.stands_on_floor(rig) else float(centre[1]) + 2 * radius
    legs = _path([[(centre[0] - radius, foot), tuple(centre), (centre[0] + radius, foot)]], stroke_width=1.2)
    found = [legs, svg.circle(centre.round(1), round(radius, 1), stroke_width=2, fill=PAPER)]
    if winch.motor is not None:
        motor = svg.moved(centre, radius + 3 + _MOTOR_PX, 0)
        found += [_path([[svg.moved(centre, radius, 0), motor]]), svg.circle(motor.round(1), _MOTOR_PX, fill=INK)]
    elif winch.crank is not None:
        handle = svg.moved(centre, 0.75 * radius + 4, -0.75 * radius - 4)
        found += [_path([[centre, handle]], stroke_width=1.6), svg.circle(handle.round(1), 1.6, fill=INK)]
    return found


def _hand(view: View, travel: Travel) -> list[Markup]:
    """An arrow head where the hand pulls."""
    found = []
    for name, path in travel.paths.items():
        end = driven_end(travel.rig, name)
        if end is None:
            continue
        place, outward = (path.starts[0][0], -path.directions[0][0]) if end == 0 else (path.ends[-1][0], path.directions[-1][0])
        start = view.px(place)
        u = view.px(place + outward) - start
        u = u / max(float(numpy.linalg.norm(u)), 1e-9)
        n = numpy.array([-u[1], u[0]])
        found.append(svg.polygon(numpy.array([start + u * 8, start + n * 3.4, start - n * 3.4]).round(1), fill=INK))
    return found
