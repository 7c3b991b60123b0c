"""The line of a rope: straight between its stops and tangent to its sheaves and the drum, for a whole array of poses.

At a sheave of centre c and pitch radius r, with u_in and u_out the directions of the path before and after it and n the unit
normal about which the path turns, the rope meets the sheave at c + r u_in × n and leaves it at c + r u_out × n. For a
run from stop a to stop b, with D = c_b - c_a and m = r_b n_b - r_a n_a, the straight length L and direction u follow from
D = L u + m × u:

    L² = [(D² - m²) + √((D² - m²)² + 4 (m·D)²)] / 2        u = [L² D - L m × D + (m·D) m] / [L (L² + m²)]

Only the normals are found by repetition, since a sheave swivels into the plane of its two falls; in a plane they are known
from the start. Radius 0 gives centre lines.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy

from rigcheck.errors import GeometryError
from rigcheck.rig.fields import coordinates
from rigcheck.rig.model import Rig
from rigcheck.statics.poses import FRONT, Poses
from rigcheck.statics.stations import Stations
from rigcheck.statics.vectors import cross, dot, unit

ROUNDS = 1000
LONGEST_WRAP = numpy.radians(300)


@dataclass(frozen=True)
class Stop:
    """One stop of a rope: what carries it, its centre in every pose, its pitch radius and the axis its path turns about.

    `about` is (3,), or (heights, 3) where the body turns it. `mark` is a direction fixed in space from which the arc on the drum is counted.
    """

    name: str
    carrier: str | None
    centre: numpy.ndarray
    radius: float
    about: numpy.ndarray
    kind: str
    mark: numpy.ndarray | None = None


@dataclass(frozen=True)
class Path:
    """A rope's line in every pose; runs are counted from the rope's first end.

    `directions` (runs, heights, 3); `starts`, `ends` the contact points of each run; `straight` (runs, heights);
    `wraps` (sheaves, heights) in rad; `normals` per stop; `length` (heights,) counts the arc to a fixed mark on the drum.
    """

    stops: list[Stop]
    directions: numpy.ndarray
    starts: numpy.ndarray
    ends: numpy.ndarray
    straight: numpy.ndarray
    normals: numpy.ndarray
    wraps: numpy.ndarray
    length: numpy.ndarray

    def touches_at(self, stop: int) -> numpy.ndarray:
        """Where the rope meets (or, at the first stop, leaves) a stop."""
        return self.starts[0] if stop == 0 else self.ends[stop - 1]


def drum_radius(rig: Rig, rope: str) -> float:
    """The pitch radius of the first layer: half of core diameter and rope diameter together."""
    return (rig.drive.drum.diameter.value + rig.ropes[rope].diameter.value) / 2


def stops(rig: Rig, rope: str, poses: Poses) -> list[Stop]:
    """The stops of a rope in an array of poses."""
    found = []
    many = len(poses.q)
    for stop in rig.ropes[rope].path:
        sense = 1.0 if getattr(stop, "turns", None) == "anticlockwise" else -1.0
        if hasattr(stop, "over"):
            sheave = rig.sheaves[stop.over]
            carrier = sheave.on if sheave.on in rig.bodies else None
            axis = numpy.array(sheave.axis) / numpy.linalg.norm(sheave.axis)
            if carrier and numpy.any(numpy.abs((turned := poses.turned(carrier, axis)) - axis) > 1e-12):
                axis = turned
            centre = poses.on(sheave.on, coordinates(sheave.offset))
            found.append(Stop(stop.over, carrier, centre, sheave.pitch_diameter.value / 2, sense * axis, "sheave"))
        elif hasattr(stop, "wound_on"):
            centre = numpy.tile(coordinates(rig.drive.drum.at), (many, 1))
            found.append(Stop("drum", None, centre, drum_radius(rig, rope), sense * FRONT, "drum"))
        elif hasattr(stop, "pulled_by_hand_at"):
            found.append(Stop("hand", None, numpy.tile(coordinates(stop.pulled_by_hand_at), (many, 1)), 0.0, FRONT, "hand"))
        else:
            body = rig.bodies.get(stop.made_fast_to)
            offset = coordinates(body.picks[stop.pick]) if stop.pick else (0.0, 0.0, 0.0)
            name = f"{stop.made_fast_to} ({stop.pick})" if stop.pick else stop.made_fast_to
            found.append(Stop(name, stop.made_fast_to if body else None, poses.on(stop.made_fast_to, offset), 0.0, FRONT, "end"))
    return found


def with_marks(chain: list[Stop], drawn: list[Stop]) -> list[Stop]:
    """The stops with the drum's mark set towards its neighbour in the drawn pose, half a turn from where the arc would jump."""
    ends = {0: 1, len(chain) - 1: -2}
    return [replace(s, mark=unit(drawn[ends[k]].centre[0] - s.centre[0])) if s.kind == "drum" else s for k, s in enumerate(chain)]


def tangent_run(centre_a, normal_a, radius_a, centre_b, normal_b, radius_b):
    """Direction and straight length of the run between two stops; NaN where no tangent exists."""
    between = centre_b - centre_a
    m = radius_b * normal_b - radius_a * normal_a
    gap, along = dot(between, between) - dot(m, m), dot(m, between)
    # |between| ≤ |m| means that one sheave lies inside the other: the general root would still give a number there
    square = numpy.where(gap > 0, (gap + numpy.sqrt(gap**2 + 4 * along**2)) / 2, numpy.nan)
    length = numpy.sqrt(square)[..., None]
    direction = (square[..., None] * between - length * cross(m, between) + along[..., None] * m) / (
        length * (square + dot(m, m))[..., None]
    )
    return direction, length[..., 0]


def _normals(chain: list[Stop], before: list, after: list) -> numpy.ndarray:
    """The normal at each stop: of the plane through its centre and the neighbouring contact points, in the stated sense."""
    found = []
    for k, stop in enumerate(chain):
        plane = None
        if stop.kind == "sheave":
            one, two = before[k] - stop.centre, after[k] - stop.centre
            raw = cross(one, two)
            size = numpy.linalg.norm(raw, axis=-1, keepdims=True)
            flat = size <= 1e-9 * numpy.linalg.norm(one, axis=-1, keepdims=True) * numpy.linalg.norm(two, axis=-1, keepdims=True)
            plane = numpy.where(flat, 0.0, raw / numpy.where(flat, 1.0, size))
            plane = plane * numpy.where(dot(plane, stop.about)[:, None] < 0, -1.0, 1.0)
            chord = after[k] - before[k]
        elif stop.radius > 0:
            flat, chord = True, (after[k] if k == 0 else before[k]) - stop.centre
        else:
            found.append(numpy.tile(FRONT, (len(stop.centre), 1)))
            continue
        # where the plane is not fixed by three points, the sheave keeps its own axis as nearly as the rope lets it
        along = unit(chord)
        kept = unit(stop.about - dot(stop.about * numpy.ones_like(along), along)[:, None] * along)
        found.append(kept if plane is None else numpy.where(flat, kept, plane))
    return numpy.array(found)


def trace(rope: str, chain: list[Stop], stations: Stations | None = None) -> Path:
    """Lay one rope along its stops; `stations` says in a message where along the travel it fails.

    Raises GeometryError, naming the stops and the height, if sheaves overlap, if the rope leaves a sheave, or if the
    repetition does not settle.
    """
    runs = range(len(chain) - 1)
    centres = [stop.centre for stop in chain]
    normals = _normals(chain, [centres[0], *centres[:-1]], [*centres[1:], centres[-1]])
    for _ in range(ROUNDS):
        laid = [
            tangent_run(chain[k].centre, normals[k], chain[k].radius, chain[k + 1].centre, normals[k + 1], chain[k + 1].radius)
            for k in runs
        ]
        directions, straight = numpy.array([r[0] for r in laid]), numpy.array([r[1] for r in laid])
        _refuse_overlap(rope, chain, straight, stations)
        starts = numpy.array([chain[k].centre + chain[k].radius * cross(directions[k], normals[k]) for k in runs])
        ends = numpy.array([chain[k + 1].centre + chain[k + 1].radius * cross(directions[k], normals[k + 1]) for k in runs])
        again = _normals(chain, [starts[0], *starts], [*ends, ends[-1]])
        settled = numpy.max(numpy.abs(again - normals)) < 1e-13
        normals = again
        if settled:
            break
    else:
        raise GeometryError("its line does not settle: the planes of its sheaves keep swinging", where=f'rope "{rope}"',
                            right="Check the places of its sheaves and their axes; sheaves very close together in depth can do this.")  # fmt: skip
    wraps = _wraps(rope, chain, directions, normals, stations)
    radii = numpy.array([stop.radius for stop in chain[1:-1]]).reshape(-1, 1)
    length = straight.sum(axis=0) + (radii * wraps).sum(axis=0) + _arc_on_drum(chain, directions, normals)
    return Path(chain, directions, starts, ends, straight, normals, wraps, length)


def _where(stations: Stations | None, index: int) -> str:
    return f" {stations.words(index)}" if stations is not None else ""


def _refuse_overlap(rope: str, chain: list[Stop], straight: numpy.ndarray, stations) -> None:
    bad = numpy.argwhere(~(straight > 0))
    if not len(bad):
        return
    run, index = bad[0]
    one, two = chain[run].name, chain[run + 1].name
    raise GeometryError(f'"{one}" and "{two}" overlap{_where(stations, index)}, so no straight run fits between them', where=f'rope "{rope}"',
                        right="Move them apart, make them smaller, or shorten the travel.")  # fmt: skip


def _wraps(rope: str, chain: list[Stop], directions, normals, stations) -> numpy.ndarray:
    wraps = numpy.empty((max(len(chain) - 2, 0), directions.shape[1]))
    for k in range(1, len(chain) - 1):
        into, out, n = directions[k - 1], directions[k], normals[k]
        tilted = numpy.abs(dot(n, numpy.broadcast_to(chain[k].about, n.shape))) < 0.05
        if numpy.any(tilted):
            raise GeometryError(f'the sheave "{chain[k].name}" is edge-on to its stated axis, so its sense of turning says nothing', where=f'rope "{rope}"',
                                right='State the sheave\'s "axis", for example [1, 0, 0] for one seen from the side.')  # fmt: skip
        # parallel falls may turn by a hair less than nothing in floating point: that is no wrap, not a whole turn
        wrap = numpy.mod(numpy.arctan2(dot(n, cross(into, out)), dot(into, out)) + 1e-9, 2 * numpy.pi) - 1e-9
        if numpy.any(wrap > LONGEST_WRAP):
            index = int(numpy.argmax(wrap > LONGEST_WRAP))
            raise GeometryError(f'it leaves the sheave "{chain[k].name}"{_where(stations, index)}: it would pass on the other side', where=f'rope "{rope}"',
                                right=f'Turn the sense of "{chain[k].name}" round, or move the sheave into the rope\'s way.')  # fmt: skip
        wraps[k - 1] = wrap
    return wraps


def _arc_on_drum(chain: list[Stop], directions, normals) -> numpy.ndarray:
    """The arc between the contact point and a fixed mark, up to a constant; it grows as the contact retreats from the mark."""
    arc = numpy.zeros(directions.shape[1])
    for stop, run, sense in ((0, 0, 1.0), (len(chain) - 1, -1, -1.0)):
        if chain[stop].kind == "drum":
            u, n = directions[run], normals[stop]
            contact = cross(u, n)
            across = unit(chain[stop].mark - dot(chain[stop].mark, n)[:, None] * n)
            turned = numpy.arctan2(dot(cross(n, across), contact), dot(across, contact))
            arc = arc + sense * chain[stop].radius * turned
    return arc
