"""Finding the poses along the travel: Newton's method on the lengths of the ropes, for many stations at once."""

from __future__ import annotations

from typing import Protocol

import numpy

from rigcheck.errors import GeometryError
from rigcheck.statics.paths import Path
from rigcheck.statics.poses import Poses

ROUNDS = 40
FEWER = 4  # where many stations at once lose their way, a quarter of them is tried
HALVINGS = 12
LOOSE = 1e-9  # of the greatest singular value: less is a way to move that nothing decides, such as spinning under one hook
SETTLED = 1e-12  # of a step, in m, rad or shares of all weight
ROUNDING = 1e-10  # a step that does not get smaller any more is rounding where it is no larger
LOST = 1e3  # so large a step leads nowhere
DAMPING = 1e-14  # of the sum of the squares of all entries
TAKEN_AWAY = 1e-4  # what one step may leave of what was left: it is a step of many
SMOOTH = 0.05  # of the fastest step: what steps from station to station may differ from the speeds there

State = tuple[Poses, dict[str, Path], dict[str, numpy.ndarray], numpy.ndarray, numpy.ndarray]
"""Poses, paths, growth of the runs, the matrix of the equations and what is left of them."""


class Equations(Protocol):
    """What the lengths of the ropes ask of the coordinates and the rope taken in, (stations, unknowns)."""

    def at(self, unknown: numpy.ndarray, at: numpy.ndarray) -> State: ...

    def exactly(self, unknown: numpy.ndarray, at: numpy.ndarray, state: State) -> State:
        """The state with a matrix that is exact: what is left of the equations need only come near enough to lead there."""
        ...

    def slack(self, unknown: numpy.ndarray) -> numpy.ndarray:
        """Which ropes hang slack, (stations, ropes): where one comes taut, speeds change at once."""
        ...


def speeds_of(matrix: numpy.ndarray) -> numpy.ndarray:
    """All velocities per unit of progress, (stations, unknowns)."""
    wanted = numpy.zeros(matrix.shape[1])
    wanted[-1] = 1.0
    return numpy.einsum("hij,j->hi", numpy.linalg.pinv(matrix, rcond=LOOSE), wanted)


def poses_along(
    layout: Equations, at: numpy.ndarray, speed: numpy.ndarray, *, in_parts: bool, begin: numpy.ndarray | None = None
) -> tuple[numpy.ndarray, State]:
    """The unknowns at every station, and poses, paths, growth, the exact matrix and what is left of the equations there.

    `begin` is where the unknowns are at no progress, zero if left out, and `speed` how they change from there on.

    All stations at once from a straight guess. Where something turns about a hinge (`in_parts`) that may be too far for one step: then
    some stations at a time, each part from where the one before it ended, and at last one by way of places between.
    """
    here, begun, many = numpy.zeros(len(speed)) if begin is None else begin, 0.0, len(at)
    done: list[numpy.ndarray] = []
    while (known := sum(map(len, done))) < len(at):
        part = at[known : known + many]
        if in_parts and many == 1:
            found, speeds = _by_halves(layout, here, begun, speed, float(part[0]))
            done.append(found)
            here, speed, begun = found[0], speeds[0], float(part[0])
            continue
        try:
            found, state = settled(layout, here + (part - begun)[:, None] * speed, part)
            state = layout.exactly(found, part, state)
            speeds = speeds_of(state[3])
            if in_parts and not _is_one_way(layout, found, speeds, part):
                raise _no_pose()
            if len(part) == len(at):
                return found, state
        except GeometryError:
            if not in_parts:
                raise
            many = max(min(many, len(part)) // FEWER, 1)
            continue
        done.append(found)
        here, speed, begun = found[-1], speeds[-1], float(part[-1])
    unknown = numpy.concatenate(done)
    return unknown, layout.exactly(unknown, at, layout.at(unknown, at))


def _by_halves(layout: Equations, here: numpy.ndarray, begun: float, speed: numpy.ndarray, target: float, halvings: int = HALVINGS):
    """The unknowns and the speeds at one station, (1, unknowns) each, by way of places half-way where one step would be too far."""
    try:
        there = numpy.array([target])
        found, state = settled(layout, (here + (target - begun) * speed)[None], there)
        speeds = speeds_of(layout.exactly(found, there, state)[3])
        if _is_one_way(layout, numpy.stack([here, found[0]]), numpy.stack([speed, speeds[0]]), numpy.array([begun, target])):
            return found, speeds
    except GeometryError:
        if not halvings:
            raise
    if not halvings:
        raise _no_pose()
    middle = (begun + target) / 2
    half, speeds = _by_halves(layout, here, begun, speed, middle, halvings - 1)
    return _by_halves(layout, half[0], middle, speeds[0], target, halvings - 1)


def settled(layout: Equations, unknown: numpy.ndarray, at: numpy.ndarray):
    """The unknowns in the poses that keep to the lengths of the ropes, found by Newton's method from a guess, and their state."""
    before = numpy.inf
    for _ in range(ROUNDS):
        state = layout.at(unknown, at)
        *_, matrix, left = state
        step = _step(matrix, left)
        size = numpy.max(numpy.abs(step))
        if size < SETTLED or (size < ROUNDING and size > before / 4):
            return unknown, state
        if not size < LOST:
            break
        unknown, before = unknown - step, size
    raise _no_pose()


def _step(matrix: numpy.ndarray, left: numpy.ndarray) -> numpy.ndarray:
    """The shortest step that takes away what is left of the equations, or as much of it as can be, (stations, unknowns).

    The normal equations, damped so little that it shows only in what nothing decides, are several times quicker than the pseudo-inverse;
    where they do not take away all but rounding, that one is used.
    """
    turned = numpy.swapaxes(matrix, 1, 2)
    square = turned @ matrix
    size = numpy.einsum("hii->h", square)
    square += (DAMPING * size)[:, None, None] * numpy.eye(square.shape[1])
    with numpy.errstate(all="ignore"):
        try:
            step = numpy.linalg.solve(square, turned @ left[..., None])[..., 0]
            rest = left - numpy.einsum("hij,hj->hi", matrix, step)
            bad = ~(numpy.linalg.norm(rest, axis=1) <= TAKEN_AWAY * numpy.linalg.norm(left, axis=1) + 1e-13)
        except numpy.linalg.LinAlgError:
            step, bad = numpy.zeros((len(matrix), matrix.shape[2])), numpy.ones(len(matrix), dtype=bool)
    if bad.any():
        step[bad] = numpy.einsum("hij,hj->hi", numpy.linalg.pinv(matrix[bad], rcond=LOOSE), left[bad])
    return step


def _no_pose() -> GeometryError:
    return GeometryError("no pose was found along the travel that keeps to the lengths of the ropes", where="travel",
                         right="Check the travel, the guide and the lengths of the ropes.")  # fmt: skip


def _is_one_way(layout: Equations, unknown: numpy.ndarray, speeds: numpy.ndarray, at: numpy.ndarray) -> bool:
    """Whether the steps from station to station agree with the speeds there: a jump to another pose does not.

    A step over which a rope comes taut or goes slack is left out, since speeds change there.
    """
    steps, passed = numpy.diff(unknown, axis=0), numpy.diff(at)[:, None]
    off = numpy.abs(steps - (speeds[1:] + speeds[:-1]) / 2 * passed)
    slack = layout.slack(unknown)
    same = numpy.all(slack[1:] == slack[:-1], axis=1)
    return bool(numpy.all(off[same] <= SMOOTH * passed[same] * numpy.max(numpy.abs(speeds), axis=0) + 1e-9))
