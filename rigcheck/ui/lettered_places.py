"""Where on the drawing of an arrangement each of its numbers is measured, under the letter it has in the form."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

from rigcheck.report.hinge_marks import SECTOR_SHARE
from rigcheck.report.words import Callout, Dimension
from rigcheck.rig.fields import coordinates
from rigcheck.rig.model import Rig

Place = tuple[float, float, float]
Mark = Callout | Dimension


def marks(rig: Rig, lettered: Mapping[str, str]) -> tuple[list[Dimension], list[Callout]]:
    """The lettered lines and the letters beside single places; a number that has no place of its own on the drawing is left out."""
    found = [_MARKS[key](rig, letter) for key, letter in lettered.items() if key in _MARKS]
    return [mark for mark in found if isinstance(mark, Dimension)], [mark for mark in found if isinstance(mark, Callout)]


def _mass(rig: Rig, letter: str) -> Mark:
    across, up, depth = _load(rig)
    return Callout(letter, (across, up + _eye(rig)[1] / 2, depth))


def _height(rig: Rig, letter: str) -> Mark:
    across, up, depth = _load(rig)
    beside = across + _eye(rig)[0]
    return Dimension(letter, (beside, up, depth), (beside, up + _eye(rig)[1], depth))


def _travel(rig: Rig, letter: str) -> Mark:
    across, up, depth = _load(rig)
    return Dimension(letter, (across, up, depth), (across, up + rig.limits.travel.value, depth))


def _head(rig: Rig, letter: str) -> Mark:
    across, up, depth = _sheave(rig, _highest(rig))
    return Dimension(letter, (across, 0.0, depth), (across, up, depth))


def _sheave_width(rig: Rig, letter: str) -> Mark:
    return Callout(letter, _sheave(rig, _highest(rig)))


def _rope_width(rig: Rig, letter: str) -> Mark:
    """Beside the rope, half-way between the load's eye and the head sheave."""
    across, up, depth = _load(rig)
    x, y, _ = _sheave(rig, _highest(rig))
    radius = rig.sheaves[_highest(rig)].pitch_diameter.value / 2
    if rig.swings:
        across, up = across + _eye(rig)[0], up + _eye(rig)[1]
        long = math.hypot(x - across, y - up)
        along = math.atan2(y - up, x - across) - math.asin(radius / long)  # it turns anticlockwise over the sheave
        half = math.sqrt(long**2 - radius**2) / 2
        return Callout(letter, (across + half * math.cos(along), up + half * math.sin(along), depth))
    return Callout(letter, (x - radius, (up + _eye(rig)[1] + y) / 2, depth))


def _drum_width(rig: Rig, letter: str) -> Mark:
    return Callout(letter, coordinates(rig.drive.drum.at))


def _distance(rig: Rig, letter: str) -> Mark:
    """From the load's rope across to the drum, or to the lead sheave where there is one."""
    across, up, depth = _load(rig)
    end = _sheave(rig, "lead sheave") if "lead sheave" in rig.sheaves else coordinates(rig.drive.drum.at)
    return Dimension(letter, (across + _eye(rig)[0], up, depth), (end[0], up, depth))


def _spread(rig: Rig, letter: str) -> Mark:
    across, up, depth = _load(rig)
    left, right = (min(_eyes(rig), key=lambda eye, side=side: (side * eye[0], -eye[2])) for side in (1, -1))
    return Dimension(letter, (across + left[0], up + left[1], depth), (across + right[0], up + right[1], depth))


def _depth(rig: Rig, letter: str) -> Mark:
    """Beside an eye: the line itself runs away from the viewer."""
    return _beside_eye(rig, letter, min(_eyes(rig), key=lambda eye: (eye[0], eye[2])))


def _circle(rig: Rig, letter: str) -> Mark:
    return _beside_eye(rig, letter, min(_eyes(rig), key=lambda eye: eye[2]))


def _beside_eye(rig: Rig, letter: str, eye: Place) -> Mark:
    return Callout(letter, tuple(a + b for a, b in zip(_load(rig), eye, strict=True)))


def _leg_length(rig: Rig, letter: str) -> Mark:
    """Half-way up the leg on the right."""
    across, up, depth = _load(rig)
    eye, ring = max(_eyes(rig), key=lambda eye: (eye[0], eye[2])), tuple(map(float, coordinates(rig.bodies["ring"].at)))
    return Callout(letter, ((across + eye[0] + ring[0]) / 2, (up + eye[1] + ring[1]) / 2, (depth + eye[2] + ring[2]) / 2))


def _off_middle(rig: Rig, letter: str) -> Mark:
    across, up, depth = _load(rig)
    gravity = coordinates(rig.load.centre_of_gravity)
    return Callout(letter, (across + float(gravity[0]), up + float(gravity[1]), depth))


def _to_ring(rig: Rig, letter: str) -> Mark:
    across, up, depth = _load(rig)
    ring = coordinates(rig.bodies["ring"].at)
    return Dimension(letter, (across, up, depth), (float(ring[0]), up, depth))


def _span(rig: Rig, letter: str) -> Mark:
    post, head = coordinates(rig.points["left post"].at), _sheave(rig, "head sheave")
    return Dimension(letter, tuple(map(float, post)), (head[0], float(post[1]), 0.0))


def _counterweight(rig: Rig, letter: str) -> Mark:
    name = next(name for name, body in rig.bodies.items() if body.role == "counterweight")
    across, up, depth = coordinates(rig.bodies[name].at)
    eye = next(iter(rig.bodies[name].picks.values()), None)
    return Callout(letter, (across, up + (coordinates(eye)[1] / 2 if eye else 0.0), depth))


def _lid_length(rig: Rig, letter: str) -> Mark:
    across, up, depth = _hinge(rig)
    return Dimension(letter, (across, up, depth), (_load(rig)[0] + _eye(rig)[0], up, depth))


def _arm_length(rig: Rig, letter: str) -> Mark:
    across, up, depth = _hinge(rig)
    body = next(body for body in rig.bodies.values() if body.role == "counterweight")
    place = [a + b for a, b in zip(coordinates(body.at), coordinates(body.centre_of_gravity), strict=True)]
    return Dimension(letter, tuple(map(float, place)), (across, up, depth))


def _swing(rig: Rig, letter: str) -> Mark:
    """On the arc of the swing, past its middle."""
    across, up, depth = _hinge(rig)
    load, eye = _load(rig), _eye(rig)
    radius, angle = SECTOR_SHARE * math.hypot(load[0] + eye[0] - across, load[1] + eye[1] - up), 0.7 * rig.limits.swing.value
    return Callout(letter, (across + radius * math.cos(angle), up + radius * math.sin(angle), depth))


def _hinge(rig: Rig) -> Place:
    return tuple(map(float, coordinates(rig.load.moves.hinge)))


def _from_head(rig: Rig, letter: str) -> Mark:
    """Level, from the foot of the first strut, or from the wall, to plumb under the head; at the height of that foot."""
    strut = next(iter(rig.struts.values()))
    head, foot = (coordinates(rig.points[end].at) for end in strut.ends)
    return Dimension(letter, (float(foot[0]), float(foot[1]), 0.0), (float(head[0]), float(foot[1]), 0.0))


_MARKS: dict[str, Callable[[Rig, str], Mark]] = {
    "mass": _mass, "load_height": _height, "travel": _travel, "head_height": _head, "sheave_diameter": _sheave_width,
    "rope_diameter": _rope_width, "drum_diameter": _drum_width, "distance": _distance, "spread": _spread, "counterweight": _counterweight,
    "lid_length": _lid_length, "arm_length": _arm_length, "swing": _swing, "foot_distance": _from_head, "lean": _from_head, "reach": _from_head,
    "depth": _depth, "circle": _circle, "leg_length": _leg_length, "off_middle": _off_middle, "to_ring": _to_ring, "span": _span,
}  # fmt: skip


def _load(rig: Rig) -> Place:
    return tuple(map(float, coordinates(rig.load.at)))


def _eye(rig: Rig) -> Place:
    """Where the rope takes hold of the load, from the load's reference point: an eye, or the axle of a sheave it carries."""
    axles = [tuple(map(float, coordinates(sheave.offset))) for sheave in rig.sheaves.values() if sheave.on == rig.load_name]
    return max([*_eyes(rig), *axles], key=lambda eye: eye[1])


def _eyes(rig: Rig) -> list[Place]:
    """The eyes of the load that ropes are made fast to, from its reference point."""
    return [tuple(map(float, coordinates(place))) for name, place in rig.load.picks.items() if name != "counterweight eye"]


def _sheave(rig: Rig, name: str) -> Place:
    sheave = rig.sheaves[name]
    base = coordinates(rig.points[sheave.on].at) if sheave.on in rig.points else coordinates(rig.bodies[sheave.on].at)
    return tuple(float(a + b) for a, b in zip(base, coordinates(sheave.offset), strict=True))


def _highest(rig: Rig) -> str:
    """The head sheave: named so, otherwise the first of the fixed sheaves that a rope of the load runs over."""
    fixed = [name for name, sheave in rig.sheaves.items() if sheave.on in rig.points]
    return next((name for name in fixed if "head" in name), None) or next((name for name in fixed if "upper" in name), fixed[0])
