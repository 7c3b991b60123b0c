"""The whole travel at once: the pose at every height from the lengths of the ropes, and the motion there.

The unknowns are the coordinates and the rope taken in. Each rope gives one equation: its length keeps to what it was in the
drawn pose (or to its stated length), less what the drive has taken in. The height of the load gives one more.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy

from rigcheck import units
from rigcheck.errors import ClashError, GeometryError, NotHeldError
from rigcheck.rig.model import Rig
from rigcheck.statics import motion, paths
from rigcheck.statics.motion import Motion
from rigcheck.statics.paths import Path
from rigcheck.statics.poses import Freedom, Poses, freedoms

ROUNDS = 40
STEP_KEPT_M = 1e-3  # falls that part by more than a millimetre along the travel do not both stay taut


@dataclass(frozen=True)
class Travel:
    """Everything about the travel but the forces."""

    rig: Rig
    free: list[Freedom]
    heights_m: numpy.ndarray
    poses: Poses
    paths: dict[str, Path]
    growth: dict[str, numpy.ndarray]
    motion: Motion
    mismatch_m: numpy.ndarray


def driven_end(rig: Rig, rope: str) -> int | None:
    """0 if the rope's first end is on the drum or in the hand, -1 if its last is, None if neither."""
    for end in (0, -1):
        stop = rig.ropes[rope].path[end]
        if hasattr(stop, "wound_on") or hasattr(stop, "pulled_by_hand_at"):
            return end
    return None


def take_in_shares(rig: Rig) -> numpy.ndarray:
    """Rope taken in by each rope while the drive's first rope takes in one metre."""
    radii = [paths.drum_radius(rig, n) if rig.drive.kind == "winch" else 1.0 for n in rig.ropes]
    driven = [driven_end(rig, n) is not None for n in rig.ropes]
    first = radii[driven.index(True)]
    return numpy.array([radius / first if on else 0.0 for radius, on in zip(radii, driven, strict=True)])


def heights(rig: Rig, many: int = 101) -> numpy.ndarray:
    return numpy.linspace(0.0, rig.limits.travel.value, many)


class _Layout:
    """Lays all ropes in an array of poses and compares their lengths with what they must be."""

    def __init__(self, rig: Rig):
        self.rig, self.free = rig, freedoms(rig)
        self.drawn = Poses(rig, self.free, numpy.zeros((1, len(self.free))))
        self.drawn_stops = {rope: paths.stops(rig, rope, self.drawn) for rope in rig.ropes}
        self.shares = take_in_shares(rig)
        self.rise = numpy.array([0.0 if f.tilts or f.body != rig.load_name else f.direction[1] for f in self.free])
        if not numpy.any(self.rise):
            raise NotHeldError(
                f'the load "{rig.load_name}" cannot rise: its guide runs level', where="bodies", right="Give its guide an upward direction."
            )
        laid = {rope: self.lay(rope, self.drawn, None) for rope in rig.ropes}
        self.drawn_matrix = self.matrix({rope: motion.run_growth(path, self.drawn) for rope, path in laid.items()})[0]
        stated = {rope: rig.ropes[rope].length for rope in laid if driven_end(rig, rope) is None}
        self.lengths = numpy.array([stated[rope].value if stated.get(rope) else path.length[0] for rope, path in laid.items()])

    def lay(self, rope: str, poses: Poses, at: numpy.ndarray | None) -> Path:
        chain = paths.with_marks(paths.stops(self.rig, rope, poses), self.drawn_stops[rope])
        return paths.trace(rope, chain, at)

    def at(
        self, unknown: numpy.ndarray, at: numpy.ndarray
    ) -> tuple[Poses, dict[str, Path], dict[str, numpy.ndarray], numpy.ndarray, numpy.ndarray]:
        """Poses, paths, growth, the matrix of the equations and what is left of them."""
        poses = Poses(self.rig, self.free, unknown[:, :-1])
        laid = {rope: self.lay(rope, poses, at) for rope in self.rig.ropes}
        growth = {rope: motion.run_growth(path, poses) for rope, path in laid.items()}
        left = [
            path.length + share * unknown[:, -1] - length
            for path, share, length in zip(laid.values(), self.shares, self.lengths, strict=True)
        ]
        left.append(unknown[:, :-1] @ self.rise - at)
        return poses, laid, growth, self.matrix(growth), numpy.stack(left, axis=1)

    def matrix(self, growth: dict[str, numpy.ndarray]) -> numpy.ndarray:
        """One row for each rope and one for the height, one column for each coordinate and one for the rope taken in, at every height."""
        sums = [part.sum(axis=0) for part in growth.values()]
        rows = [numpy.column_stack([row, numpy.full(len(row), share)]) for row, share in zip(sums, self.shares, strict=True)]
        rows.append(numpy.tile([*self.rise, 0.0], (len(sums[0]), 1)))
        return numpy.stack(rows, axis=1)


def follow(rig: Rig, at: numpy.ndarray | None = None) -> Travel:
    """The pose, the lines of the ropes and the motion at every height.

    Raises NotHeldError for a body that no rope holds in some direction, ClashError where ropes contradict each other,
    GeometryError where a rope cannot run as stated.
    """
    at = heights(rig) if at is None else numpy.asarray(at, dtype=float)
    layout = _Layout(rig)
    unknown = numpy.zeros((len(at), len(layout.free) + 1))
    _refuse_unheld(layout, layout.drawn_matrix)
    speed = numpy.linalg.lstsq(layout.drawn_matrix, numpy.array([0.0] * len(rig.ropes) + [1.0]), rcond=None)[0]
    unknown = unknown + at[:, None] * speed
    for _ in range(ROUNDS):
        poses, laid, growth, matrix, left = layout.at(unknown, at)
        step = numpy.einsum("hij,hj->hi", numpy.linalg.pinv(matrix), left)
        if numpy.max(numpy.abs(step)) < 1e-12:
            break
        unknown = unknown - step
    else:
        raise GeometryError("no pose was found along the travel that keeps to the lengths of the ropes", where="travel",
                            right="Check the travel, the guide and the lengths of the ropes.")  # fmt: skip
    _refuse_clash(rig, matrix, left, at)
    wanted = numpy.zeros(matrix.shape[1])
    wanted[-1] = 1.0
    speeds = numpy.einsum("hij,j->hi", numpy.linalg.pinv(matrix), wanted)
    if numpy.any(speeds[:, -1] <= 1e-9):
        raise ClashError("taking rope in does not raise the load", where="drive",
                         right="Check the senses of turning and which body is the load.")  # fmt: skip
    for exact in (0.0, 1.0, -1.0):
        speeds = numpy.where(numpy.abs(speeds - exact) < 1e-12, exact, speeds)
    flow = {}
    for rope, share in zip(rig.ropes, layout.shares, strict=True):
        fed = -share * speeds[:, -1] if driven_end(rig, rope) == 0 else numpy.zeros(len(at))
        flow[rope] = motion.flows(growth[rope], speeds[:, :-1], fed)
    return Travel(rig, layout.free, at, poses, laid, growth, Motion(speeds[:, :-1], speeds[:, -1], flow), left[:, : len(rig.ropes)])


def _refuse_unheld(layout: _Layout, matrix: numpy.ndarray) -> None:
    scale = numpy.max(numpy.abs(matrix), axis=0, keepdims=True)
    _, sizes, directions = numpy.linalg.svd(matrix / numpy.where(scale > 0, scale, 1.0))
    rank = int(numpy.sum(sizes > 1e-9))
    if rank >= matrix.shape[1]:
        return
    loose = numpy.abs(directions[-1])
    j = int(numpy.argmax(loose[:-1]))
    freedom = layout.free[j]
    how = "from tilting" if freedom.tilts else f"from moving {freedom.words}"
    raise NotHeldError(f'nothing holds the body "{freedom.body}" {how}', where="bodies",
                       right="Add a rope that holds it, run it in a guide, or have it held level.")  # fmt: skip


def _refuse_clash(rig: Rig, matrix: numpy.ndarray, left: numpy.ndarray, at: numpy.ndarray) -> None:
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
            f"{who} along the travel: at a height of {units.show(at[index], 'm', 3)} {units.show(worst, 'mm', 3)} are missing",
            where="ropes",
            right="Let the body tilt, make the falls alike, or let one rope end where it may move.",
        )
