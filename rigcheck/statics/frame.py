"""The frame that struts make: which points are joints, the balance of each, and how the force on the joints comes to every member.

A member pushes positive: a leg that is pressed has a positive force, a tie that is pulled a negative one. With u the direction from a joint to the
other end of a member, S its push and F the force on the joint, the balance of a joint is Σ S u = F. Joints do not move, so the balance is the
same all along the travel: only the forces change.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy

from rigcheck import units
from rigcheck.errors import ClashError, NotHeldError
from rigcheck.rig.fields import coordinates
from rigcheck.rig.model import Rig
from rigcheck.statics.formulas import GRAVITY_M_S2
from rigcheck.statics.sections import area_m2
from rigcheck.statics.ways import MOST_GROWTH, PLAIN, Way, growth_of, ways_of

AXES = ("across", "up", "in depth")
MUCH_GROWTH = 10.0


@dataclass(frozen=True)
class Frame:
    """The joints and members of a rig; `matrix` (balances, members) holds the u of Σ S u = F, one row for each joint and axis.

    `ties` run between feet and hold them together; they stand in no joint's balance, and those that go `slack` are left out. `ways` is empty where the share of each member is not known.
    `growth` is how many times as great as a force on a joint a push can come at worst, by the joint where that is so.
    """

    rig: Rig
    axes: tuple[int, ...]
    joints: list[str]
    members: list[str]
    ties: list[str]
    matrix: numpy.ndarray
    feet: list[str]
    ways: list[Way]
    growth: tuple[float, str]
    shared_by_stiffness: bool
    slack: list[str]

    @property
    def all_members(self) -> list[str]:
        return [*self.members, *self.ties]

    @property
    def nodes(self) -> list[str]:
        return [*self.joints, *self.feet]

    @property
    def is_plain(self) -> bool:
        """Whether there are just as many members as balances, none of which may go slack without a joint falling."""
        return self.matrix.shape[0] == self.matrix.shape[1]

    def at(self, point: str) -> list[str]:
        """The members that end at a point."""
        return [name for name in self.all_members if point in self.rig.struts[name].ends]

    def direction(self, member: str, end: str) -> numpy.ndarray:
        """From one end of a member to its other, of length 1."""
        return direction(self.rig, member, end)

    def length_m(self, member: str) -> float:
        one, other = (coordinates(self.rig.points[end].at) for end in self.rig.struts[member].ends)
        return float(numpy.linalg.norm(numpy.subtract(other, one)))

    def weight_n(self, member: str) -> float:
        mass = self.rig.struts[member].mass
        return 0.0 if mass is None else mass.value * GRAVITY_M_S2


def direction(rig: Rig, member: str, end: str) -> numpy.ndarray:
    ends = rig.struts[member].ends
    other = ends[1] if ends[0] == end else ends[0]
    step = numpy.subtract(coordinates(rig.points[other].at), coordinates(rig.points[end].at))
    found = step / numpy.linalg.norm(step)
    for exact in (0.0, 1.0, -1.0):
        found = numpy.where(numpy.abs(found - exact) < 1e-12, exact, found)
    return found


def frame(rig: Rig, pulled_in_depth: set[str]) -> Frame | None:
    """The frame of a rig, None without struts; `pulled_in_depth` names the joints that something pulls in depth.

    Raises NotHeldError for a joint that its struts leave free to move, ClashError for one that they hold only just.
    """
    if not rig.struts:
        return None
    joints = [name for name, point in rig.points.items() if point.held == "struts"]
    members = [name for name, strut in rig.struts.items() if any(end in joints for end in strut.ends)]
    ties = [name for name in rig.struts if name not in members]
    directions = {(m, end): direction(rig, m, end) for m in members for end in rig.struts[m].ends}
    in_depth = any(abs(u[2]) > 0 for u in directions.values())
    axes = (0, 1, 2) if in_depth or pulled_in_depth else (0, 1)
    matrix = numpy.zeros((len(joints) * len(axes), len(members)))
    for column, member in enumerate(members):
        for end in rig.struts[member].ends:
            if end in joints:
                row = joints.index(end) * len(axes)
                matrix[row : row + len(axes), column] = directions[member, end][list(axes)]
    if joints:
        _refuse_loose(rig, joints, axes, matrix, members)
    guys = [i for i, member in enumerate(members) if rig.struts[member].pulls_only]
    maps, by_stiffness = ways_of(matrix, guys, [_stiffness(rig, member) for member in members])
    worst, at = growth_of(matrix, maps, len(axes))
    growth = worst, joints[at] if joints else ""
    if growth[0] > MOST_GROWTH:
        raise ClashError(
            f'the struts at "{growth[1]}" lie so nearly on one line or in one plane that a force there comes {units.number(growth[0], 2)} times as great to a strut',
            where=f"points, {growth[1]}", right=f"Spread them: more than {units.number(MOST_GROWTH)} times has no answer that a measured length could bear.",
        )  # fmt: skip
    feet = [name for name in rig.points if name not in joints and any(name in strut.ends for strut in rig.struts.values())]
    ways = [_with_ties(rig, joints, feet, axes, members, ties, way) for way in maps]
    return Frame(rig, axes, joints, members, ties, matrix, feet, ways, growth, by_stiffness, [])


def without_ties(found: Frame, slack: set[str]) -> Frame:
    """The frame with some ties between feet left out, as they go slack; their feet stay."""
    ties = [tie for tie in found.ties if tie not in slack]
    ways = []
    for way in found.ways:
        few = _with_ties(
            found.rig, found.joints, found.feet, found.axes, found.members, ties,
            Way(*(_gathered(found, rows) for rows in (way.map[: len(found.members)], way.needs, way.sure))),
        )  # fmt: skip
        ways.append(few)
    return replace(found, ties=ties, slack=[*found.slack, *sorted(slack)], ways=ways)


def _gathered(found: Frame, rows: numpy.ndarray) -> numpy.ndarray:
    """Rows over the balances of the joints alone, from those over all nodes."""
    return rows[:, : len(found.joints)][:, :, list(found.axes)].reshape(len(rows), len(found.joints) * len(found.axes))


def _with_ties(rig: Rig, joints: list[str], feet: list[str], axes: tuple[int, ...], members: list[str], ties: list[str], way: Way) -> Way:
    """The pushes of all members from the forces on joints and feet.

    Ties between feet take what would push the feet apart as if the ground were smooth; what they cannot take is left to the ground.
    """

    def spread(rows: numpy.ndarray) -> numpy.ndarray:
        found = numpy.zeros((len(rows), len(joints) + len(feet), 3))
        found[:, : len(joints), list(axes)] = rows.reshape(len(rows), len(joints), len(axes))
        return found

    whole = numpy.concatenate([spread(way.map), numpy.zeros((len(ties), len(joints) + len(feet), 3))])
    tied = [foot for foot in feet if rig.points[foot].held == "ground" and any(foot in rig.struts[tie].ends for tie in ties)]
    if tied:
        rows = [(foot, axis) for foot in tied for axis in (0, 2)]
        pull = numpy.array(
            [[direction(rig, tie, foot)[axis] if foot in rig.struts[tie].ends else 0.0 for tie in ties] for foot, axis in rows]
        )
        kicks = numpy.array(
            [[-direction(rig, m, foot)[axis] if foot in rig.struts[m].ends else 0.0 for m in members] for foot, axis in rows]
        )
        taking = numpy.linalg.pinv(pull)
        whole[len(members) :] = numpy.einsum("tr,rm,mna->tna", taking, kicks, whole[: len(members)])
        for column, (foot, axis) in enumerate(rows):
            whole[len(members) :, len(joints) + feet.index(foot), axis] += taking[:, column]
    return Way(whole, spread(way.needs), spread(way.sure))


def _refuse_loose(rig: Rig, joints: list[str], axes: tuple[int, ...], matrix: numpy.ndarray, members: list[str]) -> None:
    """Refuse a joint that its struts leave free to move, and say which way."""
    for joint in joints:
        own = [m for m in members if joint in rig.struts[m].ends]
        if len(own) < len(axes):
            where = "in the plane of the drawing, two" if len(axes) == 2 else "in space, three"
            raise NotHeldError(
                f'the point "{joint}" is not held: {len(own)} strut{"s end" if len(own) != 1 else " ends"} there, and {where} are due',
                where=f"points, {joint}", right="Add the strut, tie or guy that holds it, or say that the building holds it.",
            )  # fmt: skip
    left, sizes, _ = numpy.linalg.svd(matrix)
    rank = int(numpy.sum(sizes > PLAIN))
    if rank == len(matrix):
        return
    free = left[:, rank:].T.reshape(-1, len(joints), len(axes))
    mode = max(free, key=lambda m: numpy.max(numpy.linalg.norm(m, axis=1)))
    at = int(numpy.argmax(numpy.linalg.norm(mode, axis=1)))
    way = mode[at] / numpy.linalg.norm(mode[at])
    words = _direction_words(way * numpy.sign(way[numpy.argmax(numpy.abs(way))]), axes)
    raise NotHeldError(f'the point "{joints[at]}" is not held {words}: the struts there leave it free to move that way',
                       where=f"points, {joints[at]}", right="Add a strut, tie or guy that holds it that way, or spread those there are.")  # fmt: skip


def _direction_words(way: numpy.ndarray, axes: tuple[int, ...]) -> str:
    for place, axis in enumerate(axes):
        if abs(way[place]) > 1 - 1e-6:
            return AXES[axis]
    parts = [f"{units.number(float(step), 2)} {AXES[axis]}" for step, axis in zip(way, axes, strict=True) if abs(step) > 0.005]
    return f"along the direction {', '.join(parts)}"


def _stiffness(rig: Rig, member: str) -> float | None:
    strut = rig.struts[member]
    area = area_m2(strut)
    if strut.modulus is None or area is None:
        return None
    one, other = (coordinates(rig.points[end].at) for end in strut.ends)
    return strut.modulus.value * area / float(numpy.linalg.norm(numpy.subtract(other, one)))
