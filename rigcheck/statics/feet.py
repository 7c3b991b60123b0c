"""What the struts do to the feet they stand on and the places they are made fast to: the force on each, how hard a foot is pressed, how hard it kicks.

Signs: across positive to the right, up positive upwards; the press of a foot is positive downwards, and one below zero lifts it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

import numpy

from rigcheck.formula import Sign
from rigcheck.statics.carrying import carrying
from rigcheck.statics.joint_loads import Loads
from rigcheck.statics.members import Members
from rigcheck.statics.reactions import Reaction
from rigcheck.statics.solution import Solution
from rigcheck.working import Line

HOW = "resultant of the struts, ropes and own weight that meet here"
PRESS = Sign("N", "least press of a foot on the ground", "N")
KICK = Sign("H", "kick of a foot along the ground", "N")
RATIO = Sign("q", "kick of a foot over its press", "")


@dataclass(frozen=True)
class Foot:
    """What one foot or fixing bears. A foot on the ground has its least press, its greatest kick and the greatest ratio of kick to press too."""

    name: str
    reaction: Reaction
    press: Line | None = None
    kick: Line | None = None
    ratio: Line | None = None


def feet(solution: Solution, members: Members) -> list[Foot]:
    """Every point that is no joint and that a strut ends at."""
    return [_foot(solution, members, name) for name in members.frame.feet]


def _foot(solution: Solution, members: Members, name: str) -> Foot:
    working, forces = solution.working, {}
    for word, loads in members.loads.items():
        sign = Sign(f"R_{name}, {word}", f"force on {name}, {word}", "N")
        forces[word] = working.solve_in_numbers(sign, partial(_magnitude, members, loads, name), HOW, "sum of forces", **loads.inputs)
    greatest = working.extreme(Sign(f"R_{name}", f"greatest force on {name}", "N"), list(forces.values()))
    source, index = working.where(greatest)
    word = next(w for w, line in forces.items() if line is source)
    loads = members.loads[word]
    vectors = _vectors(members, loads, name, {key: line.value for key, line in loads.inputs.items()})
    at = [numpy.array([numpy.broadcast_to(part, solution.travel.heights_m.shape)[index] for part in vector]) for vector in vectors]
    known = [force for force in at if numpy.isfinite(force).all()]
    worst = max(known, key=numpy.linalg.norm, default=numpy.full(3, numpy.nan))
    height, angle = float(solution.travel.heights_m[index]), solution.travel.angle_rad(index)
    reaction = Reaction(name, greatest, word, height, *(float(part) for part in worst), None, angle)
    if solution.rig.points[name].held != "ground":
        return Foot(name, reaction)
    inputs = {f"{word}: {key}": line for word, loads in members.loads.items() for key, line in loads.inputs.items()}
    found = {}
    for letter, sign, compute, most in (("press", PRESS, _press, False), ("kick", KICK, _kick, True), ("ratio", RATIO, _ratio, True)):
        told = f"{'' if not most else 'greatest '}{sign.meaning.replace('a foot', name)}"
        line = working.solve_in_numbers(
            sign.of(name, told), partial(_in_all_ways, members, name, compute, most), HOW, "sum of forces", **inputs
        )
        found[letter] = working.extreme(sign.of(f"{name} {'max' if most else 'min'}", f"{told} of all"), [line], most=most)
    return Foot(name, reaction, **found)


def _in_all_ways(members: Members, name: str, compute, most: bool, **values: numpy.ndarray) -> numpy.ndarray:
    """The worst of raising, lowering and rest."""
    found = []
    for word, loads in members.loads.items():
        own = {key.removeprefix(f"{word}: "): value for key, value in values.items() if key.startswith(f"{word}: ")}
        found.append(compute(members, loads, name, **own))
    return _over_all(members, found, numpy.fmax if most else numpy.fmin)


def _rows(members: Members, name: str, way) -> numpy.ndarray:
    """What of the forces on the nodes comes to a foot, (3, nodes, 3): its own, and the push of every strut that ends there."""
    frame = members.frame
    found = numpy.zeros((3, len(frame.nodes), 3))
    for axis in range(3):
        found[axis, frame.nodes.index(name), axis] = 1.0
    for index, member in enumerate(frame.all_members):
        if name in frame.rig.struts[member].ends:
            found -= frame.direction(member, name)[:, None, None] * way.map[index]
    return found


def _vectors(members: Members, loads: Loads, name: str, values) -> list[list[numpy.ndarray]]:
    """The force on a foot for every mixture of pulls and every way of carrying; where mixtures are too many, a box of extremes around them all."""
    found = []
    for way, carries in zip(members.frame.ways, carrying(members.frame, loads, values), strict=True):
        rows = _rows(members, name, way)
        mixtures = loads.mixtures(values)
        if mixtures is None:
            ends = [loads.extremes(values, row) for row in rows]
            box = [[ends[axis][side] for axis, side in enumerate(sides)] for sides in numpy.ndindex(2, 2, 2)]
        else:
            shares = loads.shares(values)
            box = [loads.following(shares, mixed, rows) for mixed in mixtures]
        found += [[numpy.where(carries, part, numpy.nan) for part in force] for force in box]
    return found


def _over_all(members: Members, found: list, worse) -> numpy.ndarray:
    many = len(next(iter(members.loads.values())).solution.working.heights_m)
    worst = None
    for each in found:
        worst = each if worst is None else worse(worst, each)
    return numpy.full(many, numpy.nan) if worst is None else worst + numpy.zeros(many)


def _magnitude(members: Members, loads: Loads, name: str, **values) -> numpy.ndarray:
    found = [numpy.sqrt(x**2 + y**2 + z**2) for x, y, z in _vectors(members, loads, name, values)]
    return _over_all(members, found, numpy.fmax)


def _press(members: Members, loads: Loads, name: str, **values) -> numpy.ndarray:
    return _over_all(members, [-y for _, y, _ in _vectors(members, loads, name, values)], numpy.fmin)


def _kick(members: Members, loads: Loads, name: str, **values) -> numpy.ndarray:
    return _over_all(members, [_flat(force, values) for force in _vectors(members, loads, name, values)], numpy.fmax)


def _ratio(members: Members, loads: Loads, name: str, **values) -> numpy.ndarray:
    """Kick over press; a foot that kicks and is not pressed has no friction at all, which counts as without limit."""
    found = []
    for x, y, z in _vectors(members, loads, name, values):
        kick, press = _flat((x, y, z), values), -y
        with numpy.errstate(all="ignore"):
            against = numpy.where(press > 0, kick / press, numpy.inf)
        found.append(numpy.where(numpy.isnan(press), numpy.nan, numpy.where(kick == 0, 0.0, against)))
    return _over_all(members, found, numpy.fmax)


def _flat(force, values) -> numpy.ndarray:
    """The part along the ground, 0 where it is nothing but rounding."""
    x, _, z = force
    along = numpy.sqrt(x**2 + z**2)
    small = 1e-9 * sum((numpy.abs(value) for key, value in values.items() if key.startswith("most")), numpy.zeros(1))
    return numpy.where(along <= small, 0.0, along)
