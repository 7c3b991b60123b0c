"""The outlines of what is drawn, in metres: bodies, sheaves, and the line of a rope with its true arcs.

A body without a stated size gets one guessed from its picks and sheaves; it is then drawn dashed, since a guess is not a measure.
How deep a body is is never stated, so that it is dashed in any view but the front one.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy

from rigcheck.rig.fields import coordinates
from rigcheck.rig.model import Body, Rig
from rigcheck.statics.frame import direction
from rigcheck.statics.paths import Path
from rigcheck.statics.poses import Poses
from rigcheck.statics.travel import Travel
from rigcheck.statics.vectors import cross

ARC_STEP_RAD = numpy.radians(5)
_LEAST_M = 0.08


@dataclass(frozen=True)
class Outline:
    """A body's box in its own frame: across, up and depth, each from least to most; `guessed` if its size is not stated."""

    across: tuple[float, float]
    up: tuple[float, float]
    depth: tuple[float, float]
    guessed: bool

    def corners(self) -> list[tuple[float, float, float]]:
        """The four corners in the middle of the depth, anticlockwise from the front."""
        z = sum(self.depth) / 2
        (left, right), (low, high) = self.across, self.up
        return [(left, low, z), (right, low, z), (right, high, z), (left, high, z)]

    def nearest(self, offset: tuple[float, float, float]) -> tuple[float, float, float]:
        """The place of the box nearest to an offset."""
        x, y, z = offset
        return min(max(x, self.across[0]), self.across[1]), min(max(y, self.up[0]), self.up[1]), z


def outline(rig: Rig, name: str) -> Outline:
    """The box of a body: of its stated size above its reference point, or guessed."""
    body = rig.bodies[name]
    picks = [coordinates(place) for place in body.picks.values()]
    sheaves = [(coordinates(s.offset), s.pitch_diameter.value / 2) for s in rig.sheaves.values() if s.on == name]
    depths = [0.0, *(p[2] for p in picks), *(c[2] for c, _ in sheaves)]
    depth = min(depths) - _LEAST_M / 2, max(depths) + _LEAST_M / 2
    if body.size is not None:
        width, height = (side.value for side in body.size)
        return Outline((-width / 2, width / 2), (0.0, height), depth, guessed=False)
    across, up = _guessed(body, picks, sheaves)
    return Outline(across, up, depth, guessed=True)


def _guessed(body: Body, picks: list, sheaves: list) -> tuple[tuple[float, float], tuple[float, float]]:
    sideways = [x for (x, _, _) in picks] + [c[0] for c, _ in sheaves]
    left, right = min(sideways, default=0.0), max(sideways, default=0.0)
    if body.role == "block" and sheaves:
        low = min([c[1] - r * 0.6 for c, r in sheaves] + [y for _, y, _ in picks])
        high = max([c[1] + r * 0.6 for c, r in sheaves] + [y for _, y, _ in picks])
        most = 0.6 * max(r for _, r in sheaves)
        return (left - most, right + most), (low, high)
    tops = [y for _, y, _ in picks] if not sheaves else [c[1] - 1.7 * r for c, r in sheaves]
    high = max(tops) if not sheaves and tops else min(tops, default=0.0)
    if high < _LEAST_M:
        high = max(4 * _LEAST_M, right - left)
    least = high * (0.7 if body.role == "load" else 0.5)
    middle, half = (left + right) / 2, max(least, right - left + _LEAST_M) / 2
    return (middle - half, middle + half), (0.0, high)


def on_body(travel: Travel, name: str, offsets: list[tuple[float, float, float]], at: int) -> numpy.ndarray:
    """Places carried by a body at one height, (n, 3)."""
    pose = Poses(travel.rig, travel.free, travel.poses.q[at])  # one height alone: of a hundred, a drawing shows one
    own, reference = numpy.asarray(offsets, dtype=float).reshape(-1, 3), pose.reference(name)[0]
    if not pose.turn(name).any():
        return reference + own
    return reference + own @ numpy.array([pose.turned(name, axis)[0] for axis in numpy.eye(3)])


def turned_about(places: numpy.ndarray, centre: numpy.ndarray, normal: numpy.ndarray, angles_rad: numpy.ndarray) -> numpy.ndarray:
    """A place turned about an axis through a centre by each of the angles, (angles, 3)."""
    arm = places - centre
    along = normal * (arm @ normal)
    flat = arm - along
    angles = numpy.asarray(angles_rad)[:, None]
    return centre + along + flat * numpy.cos(angles) + cross(normal, flat) * numpy.sin(angles)


@dataclass(frozen=True)
class Arc:
    """An arc of rope at one height: it turns from `start` by `wrap_rad` about `normal` through `centre`."""

    stop: int
    centre: numpy.ndarray
    normal: numpy.ndarray
    radius: float
    start: numpy.ndarray
    wrap_rad: float

    def places(self, many: int | None = None) -> numpy.ndarray:
        """Places along the arc, both ends among them, (n, 3)."""
        count = many or max(int(numpy.ceil(abs(self.wrap_rad) / ARC_STEP_RAD)) + 1, 3)
        return turned_about(self.start, self.centre, self.normal, numpy.linspace(0.0, self.wrap_rad, count))


def rope_arcs(path: Path, at: int) -> list[Arc]:
    """The arc at each sheave, and a whole turn at the drum: the rope as it lies there, seen from its axis."""
    found = []
    last = len(path.stops) - 1
    for k, stop in enumerate(path.stops):
        centre, normal = stop.centre[at], path.normals[k][at]
        if stop.kind == "sheave":
            found.append(Arc(k, centre, normal, stop.radius, path.ends[k - 1][at], float(path.wraps[k - 1][at])))
        elif stop.kind == "drum":
            contact = path.ends[-1][at] if k == last else path.starts[0][at]
            found.append(Arc(k, centre, normal, stop.radius, contact, 2 * numpy.pi if k == last else -2 * numpy.pi))
    return found


def rope_line(path: Path, at: int) -> numpy.ndarray:
    """The whole line of a rope from its first end to its last without the turns on the drum, (n, 3)."""
    arcs = {arc.stop: arc for arc in rope_arcs(path, at)}
    pieces = []
    for k in range(len(path.directions)):
        pieces.append(numpy.array([path.starts[k][at], path.ends[k][at]]))
        if k + 1 < len(path.directions):
            pieces.append(arcs[k + 1].places())
    return numpy.concatenate(pieces)


def sheave_normals(travel: Travel, at: int) -> dict[str, numpy.ndarray]:
    """The axle's direction of every sheave: square to its falls, or its stated axis where no rope runs over it."""
    found = {}
    for path in travel.paths.values():
        for k, stop in enumerate(path.stops):
            if stop.kind == "sheave":
                found[stop.name] = path.normals[k][at]
    for name, sheave in travel.rig.sheaves.items():
        if name not in found:
            axis = numpy.array(sheave.axis)
            found[name] = axis / numpy.linalg.norm(axis)
    return found


def circle_about(centre: numpy.ndarray, normal: numpy.ndarray, radius: float, many: int = 48) -> numpy.ndarray:
    """Places round a circle in space, (many, 3)."""
    other = numpy.array([1.0, 0.0, 0.0]) if abs(normal[0]) < 0.9 else numpy.array([0.0, 1.0, 0.0])
    first = cross(normal, other)
    start = centre + radius * first / numpy.linalg.norm(first)
    return turned_about(start, centre, normal, numpy.linspace(0, 2 * numpy.pi, many, endpoint=False))


def pulls_on_point(travel: Travel, name: str, at: int) -> numpy.ndarray:
    """Which way ropes pull a point, and to which side the struts that end there lie, all of them counted alike, (3,)."""
    sheaves = {n for n, sheave in travel.rig.sheaves.items() if sheave.on == name}
    total = sum((direction(travel.rig, m, name) for m, strut in travel.rig.struts.items() if name in strut.ends), numpy.zeros(3))
    for rope, path in travel.paths.items():
        for k, (stop, stated) in enumerate(zip(path.stops, travel.rig.ropes[rope].path, strict=True)):
            if stop.name in sheaves and stop.kind == "sheave":
                total += path.directions[k][at] - path.directions[k - 1][at]
            elif getattr(stated, "made_fast_to", None) == name:
                total += path.directions[0][at] if k == 0 else -path.directions[-1][at]
    return total


def stated_depths(travel: Travel) -> bool:
    """Whether anything stands out of the front plane, so that a second view is due."""
    rig = travel.rig
    places = [p.at for p in rig.points.values()] + [s.offset for s in rig.sheaves.values()]
    places += [place for body in rig.bodies.values() for place in (body.at, *body.picks.values())]
    places += [s.pulled_by_hand_at for r in rig.ropes.values() for s in r.path if hasattr(s, "pulled_by_hand_at")]
    if rig.drive.kind == "winch":
        places.append(rig.drive.drum.at)
    return any(abs(coordinates(place)[2]) > 1e-9 for place in places)
