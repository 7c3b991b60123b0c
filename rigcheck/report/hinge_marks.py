"""Hinges and what turns about them: the hinge on its support, the arms that lead to it, and the sector of the swing."""

from __future__ import annotations

import numpy

from rigcheck.report import svg
from rigcheck.report.canvas import Canvas, Grip
from rigcheck.report.outlines import on_body, outline, turned_about
from rigcheck.report.svg import Markup
from rigcheck.report.view import FROM_THE_FRONT
from rigcheck.report.words import place_words
from rigcheck.rig.fields import coordinates
from rigcheck.statics.poses import Freedom
from rigcheck.statics.travel import Travel

_PIN_PX = 4.0
_FOOT_PX, _FOOT_REACH_PX = 13.0, 11.0
SECTOR_SHARE = 0.62
_LEAST_SECTOR_PX = 34.0
_ARC_PARTS = 36
_POINTS_THE_WAY = 0.2
_ARROW_PX = 7.0


def hinges(travel: Travel) -> dict[str, Freedom]:
    """By body, what turns about a hinge."""
    return {free.body: free for free in travel.free if free.hinge is not None}


def draw_hinges(canvas: Canvas, travel: Travel, at: int) -> None:
    """Every hinge as a pin on its support, with the arm from it to its body and to what is fixed on that."""
    for name, free in hinges(travel).items():
        pin = canvas.view.px(numpy.array(free.hinge))
        marks = [*_support(canvas, pin)] if canvas.view.direction == FROM_THE_FRONT else []
        marks.append(canvas.circle(pin, _PIN_PX, "rig-sheave"))
        marks.append(svg.circle(pin, 1.4, class_="rig-solid"))
        told = f"hinge of {name}, {place_words(free.hinge)}"
        canvas.part("axles", "hinge", name, marks, Grip(pin, told))
    for name, arm in arms(travel, at).items():
        start, end = canvas.view.px(numpy.array(arm))
        if numpy.linalg.norm(end - start) > 1:
            canvas.part("straps", "arm", name, [canvas.line(start, end, "rig-strap")])


def arms(travel: Travel, at: int) -> dict[str, tuple[numpy.ndarray, numpy.ndarray]]:
    """By body, the two ends of what holds it to its hinge or to the body that carries it."""
    found = {}
    for name, body in travel.rig.bodies.items():
        own = travel.rig.carrier(name)
        if own != name or body.moves.kind == "hinged":
            found[name] = _arm(travel, name, own, at)
    return found


def _support(canvas: Canvas, pin: numpy.ndarray) -> list[Markup]:
    """The wedge and the hatched ground of a fixed hinge, below it."""
    left, right = (svg.moved(pin, side * _FOOT_REACH_PX, _FOOT_PX) for side in (-1, 1))
    wedge = canvas.polygon(numpy.array([pin, svg.moved(left, 4, 0), svg.moved(right, -4, 0)]), "rig-sheave")
    return [wedge, canvas.line(left, right, "rig-line"), canvas.hatch(left, right, (0.0, 1.0))]


def _arm(travel: Travel, name: str, own: str, at: int) -> tuple[numpy.ndarray, numpy.ndarray]:
    """From the hinge, or from the body that carries it, to the nearest place of a body's box."""
    body = travel.rig.bodies[name]
    reference = numpy.array(coordinates(body.at))
    box = outline(travel.rig, name)
    if own == name:
        held = numpy.array(coordinates(body.moves.hinge))
    else:
        carrier = travel.rig.bodies[body.moves.by]
        base = numpy.array(coordinates(carrier.at))
        held = base + outline(travel.rig, body.moves.by).nearest(tuple(reference - base))
        free = hinges(travel).get(own)
        if free is not None and numpy.linalg.norm(reference - free.hinge) < numpy.linalg.norm(reference - held):
            held = numpy.array(free.hinge)
    start, end = on_body(travel, name, [tuple(held - reference), box.nearest(tuple(held - reference))], at)
    return start, end


def swing_places(travel: Travel) -> numpy.ndarray:
    """Where the load's reference point comes by along its whole swing, (n, 3)."""
    return _along_swing(travel, numpy.array(coordinates(travel.rig.load.at)))


def _along_swing(travel: Travel, place: numpy.ndarray) -> numpy.ndarray:
    name = travel.rig.carrier(travel.rig.load_name)
    free = hinges(travel)[name]
    j = travel.free.index(free)
    end = numpy.sign(travel.poses.q[-1, j]) * travel.rig.limits.swing.value
    return turned_about(place, numpy.array(free.hinge), numpy.array(free.direction), numpy.linspace(0.0, end, _ARC_PARTS + 1))


def draw_swing(canvas: Canvas, travel: Travel) -> tuple[numpy.ndarray, numpy.ndarray]:
    """The sector of the swing: its two sides, and an arc with an arrow at either end; the two ends of the middle of the arc."""
    rig, view = travel.rig, canvas.view
    free = hinges(travel)[rig.carrier(rig.load_name)]
    hinge = numpy.array(free.hinge)
    arm = _longest_arm(travel, hinge)
    share = max(SECTOR_SHARE, min(_LEAST_SECTOR_PX / max(view.scale * float(numpy.linalg.norm(arm)), 1e-6), 1.0))
    arc, pin = view.px(_along_swing(travel, hinge + arm * share)), view.px(hinge)
    outer = view.px(_along_swing(travel, hinge + arm * min(share * 1.12, 1.15)))
    marks = [canvas.line(pin, outer[k], "rig-guide", 1.5) for k in (0, -1)]
    canvas.inked(arc, 1.0)
    marks.append(svg.element("polyline", points=svg.points(arc), class_="rig-thin"))
    marks += [_arrow(arc[0], arc[0] - arc[1]), _arrow(arc[-1], arc[-1] - arc[-2])]
    canvas.part("dimensions", "travel", rig.load_name, marks)
    middle = len(arc) // 2
    return arc[middle - 6], arc[middle + 6]


def _longest_arm(travel: Travel, hinge: numpy.ndarray) -> numpy.ndarray:
    """From the hinge towards the load's reference point, as far as its farthest eye is; towards that eye where the point is at the hinge."""
    rig = travel.rig
    reference = numpy.array(coordinates(rig.load.at))
    places = [reference, *(reference + coordinates(place) for place in rig.load.picks.values())]
    arms = [place - hinge for place in places]
    farthest = max(arms, key=lambda arm: float(numpy.hypot(arm[0], arm[1])))
    long, own = (float(numpy.linalg.norm(arm)) for arm in (farthest, arms[0]))
    return arms[0] * (long / own) if own > _POINTS_THE_WAY * long else farthest


def _arrow(tip: numpy.ndarray, along: numpy.ndarray) -> Markup:
    length = float(numpy.hypot(*along))
    ahead = along / length if length > 1e-9 else numpy.array([0.0, -1.0])
    aside, foot = numpy.array([-ahead[1], ahead[0]]) * 3.2, tip - ahead * _ARROW_PX
    return svg.polygon(numpy.array([tip, foot + aside, foot - aside]), class_="rig-solid")
