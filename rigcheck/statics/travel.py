"""The whole travel at once: the pose at every height from the lengths of the ropes, and the motion there.

The unknowns are the coordinates and the rope taken in. Each rope gives one equation: its length keeps to what it was in the
drawn pose (or to its stated length), less what the drive has taken in. The height of the load, or the angle of its swing, gives
one more.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy

from rigcheck import units, whereabouts
from rigcheck.errors import ClashError, GeometryError
from rigcheck.rig.model import Rig
from rigcheck.statics import hanging, motion, settling
from rigcheck.statics.formulas import GRAVITY_M_S2
from rigcheck.statics.hanging import Hanging
from rigcheck.statics.layout import Layout, driven_end
from rigcheck.statics.motion import Motion
from rigcheck.statics.paths import Path
from rigcheck.statics.poses import Freedom, Poses
from rigcheck.statics.settling import State
from rigcheck.statics.stations import Stations, heights

STEP_KEPT_M = 1e-3  # falls that part by more than a millimetre along the travel do not both stay taut


@dataclass(frozen=True)
class Hung:
    """The balance that what hangs free has settled in, and its unknowns at every station."""

    balance: Hanging
    unknown: numpy.ndarray


@dataclass(frozen=True)
class Travel:
    """Everything about the travel but the forces; motion is told per metre of rise or, for a swing, per radian."""

    rig: Rig
    free: list[Freedom]
    heights_m: numpy.ndarray
    poses: Poses
    paths: dict[str, Path]
    growth: dict[str, numpy.ndarray]
    motion: Motion
    mismatch_m: numpy.ndarray
    stations: Stations
    hung: Hung | None = None

    @property
    def angles_rad(self) -> numpy.ndarray | None:
        """How far the load has swung at every height; None for a load that does not turn about a hinge."""
        return self.stations.values if self.stations.are_angles else None

    def angle_rad(self, index: int) -> float | None:
        return None if self.angles_rad is None else float(self.angles_rad[index])

    def rise(self, body: str) -> numpy.ndarray:
        """How fast the centre of gravity of a body rises, for each metre of the load's rise or, for a swing, each radian of it, (heights,)."""
        moved = self.poses.moved_by(body, self.poses.centre_of_gravity(body))
        return numpy.einsum("hj,hj->h", moved[:, :, 1], self.motion.q)

    def standing(self, index: int) -> str:
        """Where the load stands there, in words."""
        return whereabouts.standing(float(self.heights_m[index]), self.angle_rad(index))


def follow(rig: Rig, at: numpy.ndarray | None = None) -> Travel:
    """The pose, the lines of the ropes and the motion at every height.

    Raises NotHeldError for a body that no rope holds in some direction, ClashError where ropes contradict each other,
    GeometryError where a rope cannot run as stated.
    """
    at = heights(rig) if at is None else numpy.asarray(at, dtype=float)
    layout = Layout(rig)
    stations = Stations(at, rig.swings)
    if not layout.is_held:
        hung = Hanging(layout, {name: numpy.array([body.mass.value * GRAVITY_M_S2]) for name, body in rig.bodies.items()})
        unknown, state = hanging.along(hung, at)
        return of_hung(hung, stations, unknown, state)
    speed = settling.speeds_of(layout.drawn_matrix[None])[0]
    if rig.swings and not layout.progress.rises_at_first and speed[-1] < 0:
        layout.progress.turn_round()
        speed = -speed
    turns = any(free.hinge is not None for free in layout.free)
    _, (poses, laid, growth, matrix, left) = settling.poses_along(layout, at, speed, in_parts=turns)
    _refuse_clash(rig, matrix, left, stations)
    return _travel(layout, stations, poses, laid, growth, settling.speeds_of(matrix), left)


def of_hung(hung: Hanging, stations: Stations, unknown: numpy.ndarray, state: State) -> Travel:
    """The travel of a rig in which something hangs free, from where it has settled and the exact state there."""
    poses, laid, growth, matrix, left = state
    n = len(hung.layout.free)
    found = _travel(hung.layout, stations, poses, laid, growth, settling.speeds_of(matrix), left[:, n:-1])
    return replace(found, hung=Hung(hung, unknown))


def _travel(layout: Layout, stations: Stations, poses, laid, growth, speeds, left) -> Travel:
    rig = layout.rig
    _refuse_dead_centre(speeds[:, len(layout.free)], stations)
    height = _heights(layout, poses, stations)
    for exact in (0.0, 1.0, -1.0):
        speeds = numpy.where(numpy.abs(speeds - exact) < 1e-12, exact, speeds)
    q_speeds, take_in = speeds[:, : len(layout.free)], speeds[:, len(layout.free)]
    flow = {}
    for rope, share in zip(rig.ropes, layout.shares, strict=True):
        fed = -share * take_in if driven_end(rig, rope) == 0 else numpy.zeros(len(stations.values))
        flow[rope] = motion.flows(growth[rope], q_speeds, fed)
    return Travel(rig, layout.free, height, poses, laid, growth, Motion(q_speeds, take_in, flow), left[:, : len(rig.ropes)], stations)


def _refuse_dead_centre(take_in: numpy.ndarray, stations: Stations) -> None:
    """Refuse a drive that does not raise the load, from the start or from somewhere on."""
    dead = numpy.flatnonzero(take_in <= 1e-9)
    if not len(dead):
        return
    if not stations.are_angles or dead[0] == 0:
        raise ClashError("taking rope in does not raise the load", where="drive",
                         right="Check the senses of turning and which body is the load.")  # fmt: skip
    raise ClashError(f"taking rope in no longer turns the load: {stations.words(dead[0])}, the pull runs through the hinge or beyond it",
                     where="limits, swing", right="Shorten the swing, or lead the rope off farther from the hinge.")  # fmt: skip


def _heights(layout: Layout, poses: Poses, stations: Stations) -> numpy.ndarray:
    """The height of the load at every station; the drawn pose must be the lowest."""
    if not stations.are_angles:
        return stations.values
    found = layout.progress.heights_m(poses)
    low = numpy.flatnonzero(found < -1e-9)
    if len(low):
        raise GeometryError(f"{stations.words(low[0])} the load stands lower than as drawn, which is to be its lowest place", where="limits, swing",
                            right="Draw the load at its lowest, or shorten the swing.")  # fmt: skip
    return numpy.where(numpy.abs(found) < 1e-12, 0.0, found)


def weight_shares(travel: Travel) -> list[dict[str, numpy.ndarray]]:
    """For each coordinate how the centre of gravity of each body that moves with it rises, along the travel."""
    poses, found = travel.poses, []
    for j, free in enumerate(travel.free):
        together = travel.rig.moving_as_one(free.body)
        found.append({body: poses.moved_by(body, poses.centre_of_gravity(body))[:, j, 1] for body in together})
    return found


def _refuse_clash(rig: Rig, matrix: numpy.ndarray, left: numpy.ndarray, stations: Stations) -> None:
    """Refuse ropes that cannot all keep their lengths.

    The pose found spreads the miss over the ropes; what one rope would have to give if the others kept theirs is its
    share over one less its leverage on the fit.
    """
    leverage = numpy.einsum("hij,hji->hi", matrix, numpy.linalg.pinv(matrix))
    free_to_miss = leverage < 1 - 1e-9
    off = numpy.where(free_to_miss, numpy.abs(left) / numpy.where(free_to_miss, 1 - leverage, 1.0), 0.0)[:, : len(rig.ropes)]
    worst = numpy.max(off)
    if worst > STEP_KEPT_M:
        index, _ = numpy.unravel_index(numpy.argmax(off), off.shape)
        names = [n for n, o in zip(rig.ropes, off[index], strict=True) if o > worst / 10]
        who = (
            f"the rope {names[0]} cannot keep its length"
            if len(names) == 1
            else f"the ropes {', '.join(names)} cannot all keep their lengths"
        )
        raise ClashError(
            f"{who} along the travel: {stations.words(int(index))} {units.show(worst, 'mm', 3)} are missing",
            where="ropes",
            right="Let the body tilt, make the falls alike, or let one rope end where it may move.",
        )
