"""What drives the rig: the drum on its base with gears and motor or crank, or the hand on its line."""

from __future__ import annotations

import numpy

from rigcheck.report import svg
from rigcheck.report.canvas import Canvas
from rigcheck.report.outlines import circle_about
from rigcheck.report.svg import Markup
from rigcheck.report.view import FROM_THE_FRONT
from rigcheck.rig.fields import coordinates
from rigcheck.rig.model import Rig, Winch
from rigcheck.statics.paths import drum_radius
from rigcheck.statics.poses import FRONT
from rigcheck.statics.travel import Travel, driven_end

MOTOR_PX = 10.0
_GEARS_PX = 12.0
_WIDTH_IN_DIAMETERS = 1.5
HIGHEST_ON_ITS_BASE_M = 1.2


def winding_radius(rig: Rig) -> float:
    """The greatest radius the drum takes up: flange, or rope in its first layer."""
    drum = rig.drive.drum
    ropes = [drum_radius(rig, n) + rope.diameter.value / 2 for n, rope in rig.ropes.items() if driven_end(rig, n) is not None]
    return max([drum.flange_diameter.value / 2 if drum.flange_diameter else 0.0, *ropes])


def stands_on_floor(rig: Rig) -> bool:
    """Whether the drum is near enough to the floor for its base to stand on it."""
    up = coordinates(rig.drive.drum.at)[1]
    return 0 < up <= max(HIGHEST_ON_ITS_BASE_M, 2 * winding_radius(rig))


def reach_of_crank(rig: Rig) -> float:
    return rig.drive.crank.radius.value if rig.drive.kind == "winch" and rig.drive.crank else 0.0


def draw_winch(canvas: Canvas, travel: Travel, at: int, *, floor: bool) -> None:
    """Base, drum and what turns it; seen from the side the drum is a rectangle, dashed where its width is not stated."""
    rig, view = travel.rig, canvas.view
    winch: Winch = rig.drive
    centre = view.px(coordinates(winch.drum.at))
    radius = winding_radius(rig) * view.scale
    _draw_base(canvas, rig, centre, radius, floor)
    marks = _end_on(canvas, rig, centre) if view.across == FROM_THE_FRONT else _from_the_side(canvas, rig, centre)
    canvas.part("winch", "drum", "drum", marks)
    if view.across != FROM_THE_FRONT:
        return
    if winch.motor is not None:
        _draw_motor(canvas, winch, centre, radius)
    elif winch.crank is not None:
        arm = winch.crank.radius.value * view.scale
        handle = centre + arm * numpy.array([0.7071, -0.7071])
        crank = [canvas.line(centre, handle, "rig-strap", 1.5), canvas.circle(handle, 4.5, "rig-body")]
        canvas.part("axles", "crank", "crank", crank)
    canvas.part("axles", "axis", "drum", [svg.circle(centre, 2.4, class_="rig-solid")])


def _end_on(canvas: Canvas, rig: Rig, centre: numpy.ndarray) -> list[Markup]:
    drum, scale = rig.drive.drum, canvas.view.scale
    marks = []
    if drum.flange_diameter:
        marks.append(canvas.circle(centre, drum.flange_diameter.value / 2 * scale, "rig-sheave"))
    core = drum.diameter.value / 2 * scale
    marks.append(canvas.circle(centre, core, "rig-body"))
    canvas.filled(centre + core * numpy.array([[-0.8, -0.8], [0.8, 0.8]]))
    spokes = [numpy.array([numpy.cos(t), numpy.sin(t)]) * core * 0.8 for t in numpy.radians([30, 90, 150])]
    return [*marks, *(svg.line(centre - spoke, centre + spoke, class_="rig-thin") for spoke in spokes)]


def _from_the_side(canvas: Canvas, rig: Rig, centre: numpy.ndarray) -> list[Markup]:
    drum, scale = rig.drive.drum, canvas.view.scale
    half = (drum.width.value if drum.width else _WIDTH_IN_DIAMETERS * drum.diameter.value) / 2 * scale
    core = drum.diameter.value / 2 * scale
    corners = centre + numpy.array([[-half, core], [half, core], [half, -core], [-half, -core]])
    marks = [canvas.polygon(corners, "rig-body" if drum.width else "rig-guess")]
    if drum.flange_diameter:
        flange = drum.flange_diameter.value / 2 * scale
        marks += [canvas.line(svg.moved(centre, x, -flange), svg.moved(centre, x, flange), "rig-strap") for x in (-half, half)]
    return marks


def _draw_base(canvas: Canvas, rig: Rig, centre: numpy.ndarray, radius: float, floor: bool) -> None:
    on_floor = floor and stands_on_floor(rig)
    foot = canvas.view.floor_px if on_floor else centre[1] + radius * 1.35 + 6
    top, bottom = 0.3 * radius + 2, 1.05 * radius + 4
    frame = numpy.array(
        [[centre[0] - top, centre[1]], [centre[0] + top, centre[1]], [centre[0] + bottom, foot], [centre[0] - bottom, foot]]
    )
    canvas.filled(numpy.array([[centre[0] - top, centre[1]], [centre[0] + top, foot]]))
    marks = [canvas.polygon(frame, "rig-body", 0.7)]
    if not on_floor:
        start, end = numpy.array([centre[0] - bottom - 4, foot]), numpy.array([centre[0] + bottom + 4, foot])
        marks += [canvas.line(start, end, "rig-line"), *canvas.hatch(start, end, (0.0, 1.0))]
    canvas.part("straps", "base", "drum", marks)


def _draw_motor(canvas: Canvas, winch: Winch, centre: numpy.ndarray, radius: float) -> None:
    """A circle with an M, joined to the drum's axis through a box that stands for the gears; on the side that is free."""
    gap = 6 + (_GEARS_PX + 6 if winch.gears else 0)
    spots = []
    for side in (1.0, -1.0):
        motor = svg.moved(centre, side * (radius + gap + MOTOR_PX), 0)
        low, high = motor - (MOTOR_PX + 3), motor + (MOTOR_PX + 3)
        spots.append((canvas.ink_within(low, high), side))
    side = min(spots, key=lambda spot: spot[0])[1]
    motor = svg.moved(centre, side * (radius + gap + MOTOR_PX), 0)
    shaft = canvas.line(svg.moved(centre, side * radius, 0), svg.moved(motor, -side * MOTOR_PX, 0), "rig-line")
    body = canvas.circle(motor, MOTOR_PX, "rig-body")
    letter = svg.element("path", d=_letter_m(motor), class_="rig-line")
    canvas.filled(motor + MOTOR_PX * numpy.array([[-0.9, -0.9], [0.9, 0.9]]))
    canvas.part("winch", "motor", "motor", [shaft, body, letter])
    if winch.gears:
        middle = svg.moved(centre, side * (radius + 6 + _GEARS_PX / 2), 0)
        half = numpy.array([[-1, -1.25], [1, -1.25], [1, 1.25], [-1, 1.25]]) * _GEARS_PX / 2
        teeth = [canvas.line(svg.moved(middle, -4, y), svg.moved(middle, 4, y), "rig-thin") for y in (-4, 0, 4)]
        canvas.part("winch", "gears", "gears", [canvas.polygon(middle + half, "rig-body"), *teeth])


def _letter_m(centre: numpy.ndarray) -> str:
    x, y = centre
    return "M" + "L".join(f"{svg.number(x + dx)} {svg.number(y + dy)}" for dx, dy in ((-4, 4.5), (-4, -4.5), (0, 1.5), (4, -4.5), (4, 4.5)))


def draw_hand(canvas: Canvas, travel: Travel, at: int) -> None:
    """A grip across the rope and an arrow the way the hand pulls."""
    for name, path in travel.paths.items():
        end = driven_end(travel.rig, name)
        if end is None:
            continue
        place = path.starts[0][at] if end == 0 else path.ends[-1][at]
        outward = -path.directions[0][at] if end == 0 else path.directions[-1][at]
        tip, start = canvas.view.px(place + outward), canvas.view.px(place)
        u = (tip - start) / max(float(numpy.linalg.norm(tip - start)), 1e-9)
        across = numpy.array([-u[1], u[0]])
        grip = numpy.array(
            [start + across * 8 - u * 3.5, start + across * 8 + u * 3.5, start - across * 8 + u * 3.5, start - across * 8 - u * 3.5]
        )
        head = numpy.array([start + u * 30, start + u * 21 + across * 4.5, start + u * 21 - across * 4.5])
        arrow = [canvas.line(start + u * 5, start + u * 22, "rig-line"), svg.polygon(head, class_="rig-solid")]
        canvas.part("axles", "hand", name, [canvas.polygon(grip, "rig-body"), *arrow])


def places_of_drive(rig: Rig) -> list[numpy.ndarray]:
    """Places round the drum and its crank that a picture must hold, (n, 3) each."""
    if rig.drive.kind != "winch":
        return []
    centre = numpy.array(coordinates(rig.drive.drum.at))
    found = [circle_about(centre, FRONT, max(winding_radius(rig), reach_of_crank(rig)))]
    half = (rig.drive.drum.width.value if rig.drive.drum.width else _WIDTH_IN_DIAMETERS * rig.drive.drum.diameter.value) / 2
    found.append(centre + numpy.array([[0, 0, half], [0, 0, -half]]))
    return found
