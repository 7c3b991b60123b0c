"""What drives the rig: the drum on its base with gears and motor or crank, or the hand on its line."""

from __future__ import annotations

import numpy

from rigcheck.report import svg
from rigcheck.report.canvas import Canvas, Grip
from rigcheck.report.outlines import circle_about
from rigcheck.report.svg import Markup
from rigcheck.report.view import FROM_ABOVE, FROM_THE_FRONT, FROM_THE_RIGHT
from rigcheck.report.words import place_words
from rigcheck.rig.fields import coordinates
from rigcheck.rig.model import Rig, Winch
from rigcheck.statics.layout import driven_end
from rigcheck.statics.paths import drum_radius
from rigcheck.statics.poses import FRONT
from rigcheck.statics.travel import Travel

MOTOR_PX = 10.0
_GEARS_PX = 12.0
_WIDTH_IN_DIAMETERS = 1.5
_LEAST_WRAP_PX = 2.6
HIGHEST_ON_ITS_BASE_M = 1.2


def winding_radius(rig: Rig) -> float:
    """The greatest radius the drum takes up: flange, or rope in its first layer."""
    drum = rig.drive.drum
    ropes = [drum_radius(rig, n) + rope.diameter.value / 2 for n, rope in rig.ropes.items() if driven_end(rig, n) is not None]
    return max([drum.flange_diameter.value / 2 if drum.flange_diameter else 0.0, *ropes])


def stands_on_floor(rig: Rig) -> bool:
    """Whether the drum is near enough to the floor for its base to stand on it."""
    if rig.drive.drum.bolted_to is not None:
        return False
    up = coordinates(rig.drive.drum.at)[1]
    return 0 < up <= max(HIGHEST_ON_ITS_BASE_M, 2 * winding_radius(rig))


def reach_of_crank(rig: Rig) -> float:
    return rig.drive.crank.radius.value if rig.drive.kind == "winch" and rig.drive.crank else 0.0


def draw_winch(canvas: Canvas, travel: Travel, at: int, *, floor: bool) -> None:
    """Base, drum and what turns it; seen from the side or from above the drum is a rectangle, dashed where its width is not stated."""
    rig, view = travel.rig, canvas.view
    winch: Winch = rig.drive
    centre = view.px(coordinates(winch.drum.at))
    radius = winding_radius(rig) * view.scale
    is_front = view.direction == FROM_THE_FRONT
    if winch.drum.bolted_to is not None:
        _draw_bracket(canvas, rig, centre)
    elif view.direction != FROM_ABOVE:
        _draw_base(canvas, rig, centre, radius, floor)
    marks = _end_on(canvas, rig, centre) if is_front else _lengthways(canvas, travel, centre, at)
    told = f"drum, {place_words(coordinates(winch.drum.at))}"
    canvas.part("winch", "drum", "drum", marks, Grip(centre, told))
    if not is_front:
        return
    if winch.motor is not None:
        _draw_motor(canvas, rig, centre, radius)
    elif winch.crank is not None:
        arm = winch.crank.radius.value * view.scale
        handle = centre + arm * numpy.array([0.7071, -0.7071])
        crank = [canvas.line(centre, handle, "rig-strap", 1.5), canvas.circle(handle, 4.5, "rig-body")]
        canvas.part("axles", "crank", "crank", crank)
    _draw_holding(canvas, rig)
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


def _lengthways(canvas: Canvas, travel: Travel, centre: numpy.ndarray, at: int) -> list[Markup]:
    """The drum with its axis in the drawing, its flanges, and the wraps that lie on it, side by side from one flange."""
    drum, scale = travel.rig.drive.drum, canvas.view.scale
    half, core = half_width(travel.rig) * scale, drum.diameter.value / 2 * scale
    # seen from the right the axis runs across, from above it runs down
    across, down = (
        numpy.array([[1.0, 0.0], [0.0, 1.0]]) if canvas.view.direction == FROM_THE_RIGHT else numpy.array([[0.0, 1.0], [1.0, 0.0]])
    )
    corners = centre + numpy.array(
        [down * core - across * half, down * core + across * half, across * half - down * core, -across * half - down * core]
    )
    marks = [canvas.polygon(corners, "rig-body" if drum.width else "rig-guess")]
    if drum.flange_diameter:
        flange = drum.flange_diameter.value / 2 * scale
        marks += [canvas.line(centre + across * x - down * flange, centre + across * x + down * flange, "rig-strap") for x in (-half, half)]
    for name, rope in travel.rig.ropes.items():
        if driven_end(travel.rig, name) is None or drum.dead_wraps is None:
            continue
        step = max(rope.diameter.value * scale, _LEAST_WRAP_PX)
        many = min(int(wraps_on(travel, name, at)), int(2 * half // step))
        starts = [centre - across * (half - step * (k + 0.75)) - down * core for k in range(many)]
        marks += [canvas.line(start, start + down * 2 * core - across * step / 2, "rig-thin", 0.4) for start in starts]
    return marks


def wraps_on(travel: Travel, name: str, at: int) -> float:
    """How many wraps of a rope lie on the drum: the dead ones and those taken in since the lowest of the travel."""
    lengths = travel.paths[name].length
    dead = travel.rig.drive.drum.dead_wraps or 0.0
    return dead + float(lengths[0] - lengths[at]) / (2 * numpy.pi * drum_radius(travel.rig, name))


def half_width(rig: Rig) -> float:
    """Half the drum's width, or half of what is drawn where it is not stated."""
    drum = rig.drive.drum
    return (drum.width.value if drum.width else _WIDTH_IN_DIAMETERS * drum.diameter.value) / 2


def holding_places(canvas: Canvas, rig: Rig) -> dict[str, numpy.ndarray]:
    """Where brake and pawl are drawn, by what they are called."""
    winch, found = rig.drive, {}
    if winch.kind != "winch":
        return found
    centre, radius = canvas.view.px(coordinates(winch.drum.at)), winding_radius(rig) * canvas.view.scale
    if winch.pawl is not None:
        found["pawl"] = centre + (radius + 4) * numpy.array([-0.7071, 0.7071])
    if winch.brake is not None and (winch.brake.on, winch.brake.sets_itself, winch.brake.torque) != (None, None, None):
        on_motor = winch.brake.on == "motor shaft" and winch.motor is not None
        found["brake"] = (
            motor_place(canvas, rig) + (MOTOR_PX + 5) * _side_of_motor(canvas, rig) if on_motor else svg.moved(centre, 0, radius + 4)
        )
    return found


def _draw_holding(canvas: Canvas, rig: Rig) -> None:
    """A brake as two blocks, at the shaft or under the drum; a pawl as a wedge against the drum."""
    for part, place in holding_places(canvas, rig).items():
        if part == "pawl":
            out, along = numpy.array([-0.7071, 0.7071]), numpy.array([0.7071, 0.7071])
            marks = [canvas.polygon(numpy.array([place - out * 4, place + out * 5 + along * 4, place + out * 5 - along * 4]), "rig-body")]
        elif place[1] == canvas.view.px(coordinates(rig.drive.drum.at))[1]:
            blocks = place + numpy.array([[-3, -3], [3, -3], [3, 3], [-3, 3]]) * (1, 0.9)
            marks = [canvas.polygon(svg.moved(blocks, 0, dy), "rig-body") for dy in (-5.5, 5.5)]
            marks.append(canvas.line(svg.moved(place, -3, 0), svg.moved(place, 3, 0), "rig-line"))
        else:
            marks = [canvas.polygon(place + numpy.array([[-7, -3], [7, -3], [7, 3], [-7, 3]]), "rig-body")]
        canvas.part("axles", part, part, marks)


def _draw_bracket(canvas: Canvas, rig: Rig, centre: numpy.ndarray) -> None:
    """From the drum square to the strut that the winch is bolted to."""
    start, end = (canvas.view.px(coordinates(rig.points[name].at)) for name in rig.struts[rig.drive.drum.bolted_to].ends)
    along = end - start
    square = float(along @ along)
    near = start + along * min(max(float((centre - start) @ along) / square, 0.0), 1.0) if square > 1.0 else start
    if numpy.linalg.norm(near - centre) > 1.0:
        canvas.part("straps", "base", "drum", [canvas.line(centre, near, "rig-strap", 1.5)])


def _draw_base(canvas: Canvas, rig: Rig, centre: numpy.ndarray, radius: float, floor: bool) -> None:
    on_floor = floor and stands_on_floor(rig)
    foot = canvas.view.level_px if on_floor else centre[1] + radius * 1.35 + 6
    top, bottom = 0.3 * radius + 2, 1.05 * radius + 4
    frame = numpy.array(
        [[centre[0] - top, centre[1]], [centre[0] + top, centre[1]], [centre[0] + bottom, foot], [centre[0] - bottom, foot]]
    )
    canvas.filled(numpy.array([[centre[0] - top, centre[1]], [centre[0] + top, foot]]))
    marks = [canvas.polygon(frame, "rig-body")]
    if not on_floor:
        start, end = numpy.array([centre[0] - bottom - 4, foot]), numpy.array([centre[0] + bottom + 4, foot])
        marks += [canvas.line(start, end, "rig-line"), canvas.hatch(start, end, (0.0, 1.0))]
    canvas.part("straps", "base", "drum", marks)


def _side_of_motor(canvas: Canvas, rig: Rig) -> numpy.ndarray:
    """To the right of the drum or to its left: where no rope runs."""
    centre = canvas.view.px(coordinates(rig.drive.drum.at))
    reach = _reach_of_motor(canvas, rig)
    crowd = []
    for side in (1.0, -1.0):
        motor = svg.moved(centre, side * reach, 0)
        near = [_runs_near(run, motor) for run in canvas.runs]
        crowd.append((any(near), side))
    return numpy.array([min(crowd, key=lambda spot: spot[0])[1], 0.0])


def _runs_near(run: tuple[numpy.ndarray, numpy.ndarray], place: numpy.ndarray) -> bool:
    start, end = run
    along = end - start
    share = min(max(float((place - start) @ along) / max(float(along @ along), 1e-9), 0.0), 1.0)
    return float(numpy.hypot(*(start + along * share - place))) < MOTOR_PX + 4


def _reach_of_motor(canvas: Canvas, rig: Rig) -> float:
    return winding_radius(rig) * canvas.view.scale + 6 + (_GEARS_PX + 6 if rig.drive.gears else 0) + MOTOR_PX


def motor_place(canvas: Canvas, rig: Rig) -> numpy.ndarray:
    """The middle of the motor in the drawing; its place and size are not stated, so they are not to scale."""
    return canvas.view.px(coordinates(rig.drive.drum.at)) + _side_of_motor(canvas, rig) * _reach_of_motor(canvas, rig)


def _draw_motor(canvas: Canvas, rig: Rig, centre: numpy.ndarray, radius: float) -> None:
    """A circle with an M, joined to the drum's axis through a box that stands for the gears, on the side where no rope runs."""
    side, motor = float(_side_of_motor(canvas, rig)[0]), motor_place(canvas, rig)
    shaft = canvas.line(svg.moved(centre, side * radius, 0), svg.moved(motor, -side * MOTOR_PX, 0), "rig-line")
    body = canvas.circle(motor, MOTOR_PX, "rig-body")
    letter = svg.element("path", d=_letter_m(motor), class_="rig-line")
    canvas.filled(motor + MOTOR_PX * numpy.array([[-0.9, -0.9], [0.9, 0.9]]))
    canvas.part("winch", "motor", "motor", [shaft, body, letter])
    if rig.drive.gears:
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
        told = f"hand at rope {name}, {place_words(place)}"
        canvas.part("axles", "hand", name, [canvas.polygon(grip, "rig-body"), *arrow], Grip(start, told))


def places_of_drive(rig: Rig) -> list[numpy.ndarray]:
    """Places round the drum and its crank that a picture must hold, (n, 3) each."""
    if rig.drive.kind != "winch":
        return []
    centre = numpy.array(coordinates(rig.drive.drum.at))
    found = [circle_about(centre, FRONT, max(winding_radius(rig), reach_of_crank(rig)))]
    half = half_width(rig)
    found.append(centre + numpy.array([[0, 0, half], [0, 0, -half]]))
    return found
