"""All ropes laid in an array of poses, and their lengths compared with what they must be."""

from __future__ import annotations

import numpy

from rigcheck.errors import NotHeldError
from rigcheck.rig.model import Rig
from rigcheck.statics import motion, paths
from rigcheck.statics.paths import Path
from rigcheck.statics.poses import Poses, freedoms
from rigcheck.statics.settling import State
from rigcheck.statics.stations import Progress, Stations


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


class Layout:
    """Lays all ropes in an array of poses and compares their lengths with what they must be."""

    def __init__(self, rig: Rig):
        self.rig, self.free = rig, freedoms(rig)
        self.progress = Progress(rig, self.free)
        self.drawn = self.progress.drawn
        self.drawn_stops = {rope: paths.stops(rig, rope, self.drawn) for rope in rig.ropes}
        self.shares = take_in_shares(rig)
        if not self.progress.rises_at_first and not rig.swings:
            raise NotHeldError(
                f'the load "{rig.load_name}" cannot rise: its guide runs level', where="bodies", right="Give its guide an upward direction."
            )
        laid = {rope: self.lay(rope, self.drawn, None) for rope in rig.ropes}
        self.drawn_growth = {rope: motion.run_growth(path, self.drawn) for rope, path in laid.items()}
        stated = {rope: rig.ropes[rope].length for rope in laid if driven_end(rig, rope) is None}
        self.lengths = numpy.array([stated[rope].value if stated.get(rope) else path.length[0] for rope, path in laid.items()])

    def lay(self, rope: str, poses: Poses, at: numpy.ndarray | None) -> Path:
        chain = paths.with_marks(paths.stops(self.rig, rope, poses), self.drawn_stops[rope])
        return paths.trace(rope, chain, None if at is None else Stations(at, self.rig.swings))

    @property
    def drawn_matrix(self) -> numpy.ndarray:
        return self.matrix(self.drawn_growth, self.drawn)[0]

    @property
    def is_held(self) -> bool:
        """Whether the lengths of the ropes and the height of the load leave nothing free to move as drawn."""
        matrix = self.drawn_matrix
        scale = numpy.max(numpy.abs(matrix), axis=0, keepdims=True)
        return bool(numpy.linalg.matrix_rank(matrix / numpy.where(scale > 0, scale, 1.0), tol=1e-9) == matrix.shape[1])

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
        left.append(self.progress.of(poses) - at)
        return poses, laid, growth, self.matrix(growth, poses), numpy.stack(left, axis=1)

    def matrix(self, growth: dict[str, numpy.ndarray], poses: Poses) -> numpy.ndarray:
        """One row for each rope and one for the height, one column for each coordinate and one for the rope taken in, at every height."""
        sums = [part.sum(axis=0) for part in growth.values()]
        rows = [numpy.column_stack([row, numpy.full(len(row), share)]) for row, share in zip(sums, self.shares, strict=True)]
        rows.append(numpy.column_stack([self.progress.growth(poses), numpy.zeros(len(sums[0]))]))
        return numpy.stack(rows, axis=1)

    @staticmethod
    def exactly(unknown: numpy.ndarray, at: numpy.ndarray, state: State) -> State:
        """The same: lengths change with the pose as the matrix says."""
        return state

    def slack(self, unknown: numpy.ndarray) -> numpy.ndarray:
        """None: where the lengths decide alone, every rope is taken as taut, and one that would have to push is told by the pulls."""
        return numpy.zeros((len(unknown), 0), dtype=bool)
