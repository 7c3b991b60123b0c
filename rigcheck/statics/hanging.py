"""Bodies that hang free find their place: least potential energy for the lengths of the ropes, with friction a little off it.

Where the lengths of the ropes and the height of the load leave a body room to move, its weight decides. The unknowns are the
coordinates q, the rope taken in s and the pulls T; the equations

    Σ_b W_b ∂y_b/∂q_j + Σ_r T_r Σ_k φ_rk D_rkj = 0        each coordinate j (D grows with q, so a pull resists what lengthens its rope)
    T_r ≥ 0,   L_r - l_r(q) - share_r s ≥ 0,   one of them 0   each rope r: taut at its length, or slack
    progress(q) = what is asked                            the height of the load

are the balance of forces, the lengths of the ropes and the travel. Without friction (φ = 1) the first are the condition of least
energy. "One of them 0" is written a + b - √(a² + b²) = 0, so that a rope that would have to push goes slack and the rest settles anew.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property, lru_cache, partial

import numpy
from scipy.optimize import minimize

from rigcheck.errors import GeometryError, NotHeldError, StaticsError
from rigcheck.statics import settling
from rigcheck.statics.layout import Layout
from rigcheck.statics.paths import Path
from rigcheck.statics.poses import Poses
from rigcheck.statics.settling import State
from rigcheck.statics.turning import turning
from rigcheck.statics.vectors import cross

STEP = 1e-5  # of a coordinate, in m or rad, for the change of the balance with the pose
FAR = 0.3  # m or rad from the place drawn: what comes to rest so far off is looked for by its energy, lest it be the wrong place
TAUT_M = 1e-6
SLACK = 1e-9  # of all weight
MOST = 1e4  # times all weight: a pull beyond that comes of a line that runs, but for rounding, through what it is to turn
LOOSE = 1e-7  # of the greatest stiffness: what gives less is not held by anything
Ratios = dict[str, numpy.ndarray]
"""φ of every run of every rope, (runs, heights): its pull over that of the rope's reference run."""


@dataclass(frozen=True)
class Hanging:
    """The equations of bodies that hang free, for Newton's method; unknowns (stations, coordinates + 1 + ropes), pulls as shares of all weight.

    `weights_n` by body, one number each or one for every station, (1,) or (stations,). `ratios` is None without friction. `taken_in` counts by the rope taken in where True, else by the height of
    the load. `roughly` where places alone are wanted and no speeds.
    """

    layout: Layout
    weights_n: dict[str, numpy.ndarray]
    ratios: Ratios | None = None
    taken_in: bool = False
    roughly: bool = False

    @property
    def coordinates(self) -> int:
        return len(self.layout.free)

    def at(self, unknown: numpy.ndarray, at: numpy.ndarray) -> State:
        n = self.coordinates
        poses, laid, growth, lengths, left = self.layout.at(unknown[:, : n + 1], at)
        pulls, gaps = unknown[:, n + 1 :], -left[:, :-1]
        many, ropes = pulls.shape
        acting = self._acting(growth)
        matrix = numpy.zeros((many, n + 1 + ropes, n + 1 + ropes))
        matrix[:, :n, :n] = self._stiffness(poses, laid, pulls)
        matrix[:, :n, n + 1 :] = numpy.moveaxis(acting, 0, 2)
        size = numpy.hypot(pulls, gaps)
        safe = numpy.where(size > 0, size, 1.0)
        by_pull, by_gap = (1 - numpy.where(size > 0, part / safe, numpy.sqrt(0.5)) for part in (pulls, gaps))
        matrix[:, n:-1, : n + 1] = -by_gap[..., None] * lengths[:, :-1]
        matrix[:, n:-1, n + 1 :] = by_pull[..., None] * numpy.eye(ropes)
        if self.taken_in:
            matrix[:, -1, n], last = 1.0, unknown[:, n] - at
        else:
            matrix[:, -1, : n + 1], last = lengths[:, -1], left[:, -1]
        return (
            poses,
            laid,
            growth,
            matrix,
            numpy.concatenate([self._balance(poses, acting, pulls), pulls + gaps - size, last[:, None]], axis=1),
        )

    def slack(self, unknown: numpy.ndarray) -> numpy.ndarray:
        return unknown[:, self.coordinates + 1 :] < SLACK

    def _acting(self, growth: dict[str, numpy.ndarray]) -> numpy.ndarray:
        """What one unit of pull in each rope does to each coordinate, (ropes, stations, coordinates)."""
        ratios = self.ratios
        return numpy.array([(run if ratios is None else ratios[rope][..., None] * run).sum(axis=0) for rope, run in growth.items()])

    def _balance(self, poses: Poses, acting: numpy.ndarray, pulls: numpy.ndarray) -> numpy.ndarray:
        whole = sum(self.weights_n.values())
        heavy = sum(
            (w / whole)[:, None] * poses.moved_by(body, poses.centre_of_gravity(body))[:, :, 1] for body, w in self.weights_n.items()
        )
        return heavy + numpy.einsum("hr,rhj->hj", pulls, acting)

    def _stiffness(self, poses: Poses, laid: dict[str, Path], pulls: numpy.ndarray) -> numpy.ndarray:
        """How the balance changes with the pose at the same pulls, (stations, coordinates, coordinates).

        Exact where all stays in one plane; how sheaves swivel in space is told nearly here, and counted whole in `exactly`.
        """
        n, whole = self.coordinates, sum(self.weights_n.values())
        found = numpy.zeros((len(pulls), n, n))
        for body, w in self.weights_n.items():
            place = poses.centre_of_gravity(body)
            found += (w / whole)[:, None, None] * poses.moved_twice(body, place, poses.moved_by(body, place))[..., 1]
        for r, (rope, path) in enumerate(laid.items()):
            slides = [poses.moved_by(stop.carrier, stop.centre) for stop in path.stops]
            turns, leans = turning(path, slides, self.stays_in_plane)
            for k, u in enumerate(path.directions):
                grows, twice = 0.0, numpy.zeros((len(pulls), n, n))
                for at, touch, side in ((k, path.starts[k], -1.0), (k + 1, path.ends[k], 1.0)):
                    stop, normal = path.stops[at], path.normals[at][:, None]
                    if stop.carrier is None:
                        continue
                    slide = slides[at] + stop.radius * (cross(turns[k], normal) + cross(u[:, None], leans[at]))
                    grows = grows + side * poses.moved_by(stop.carrier, touch)
                    twice += side * numpy.einsum("hx,hjix->hji", u, poses.moved_twice(stop.carrier, touch, slide))
                if stop_moves := not isinstance(grows, float):
                    twice += numpy.einsum("hix,hjx->hji", turns[k], grows)
                pull = pulls[:, r] if self.ratios is None else pulls[:, r] * self.ratios[rope][k]
                found += pull[:, None, None] * twice if stop_moves else 0.0
        return found

    @cached_property
    def stays_in_plane(self) -> bool:
        return all(bool(free.direction[2]) == free.tilts and not (free.tilts and any(free.direction[:2])) for free in self.layout.free)

    def exactly(self, unknown: numpy.ndarray, at: numpy.ndarray, state: State) -> State:
        """The same state with everything counted that changes with the pose."""
        if self.roughly or self.stays_in_plane:
            return state
        poses, laid, growth, matrix, left = state
        n = self.coordinates
        matrix = matrix.copy()
        matrix[:, :n, :n] = self._stiffness_by_differences(unknown, at)
        return poses, laid, growth, matrix, left

    def _stiffness_by_differences(self, unknown: numpy.ndarray, at: numpy.ndarray) -> numpy.ndarray:
        """The same by central differences."""
        n, many = self.coordinates, len(unknown)
        moved = numpy.repeat(unknown[None, :, : n + 1], 2 * n, axis=0)
        for j in range(n):
            moved[2 * j, :, j] += STEP
            moved[2 * j + 1, :, j] -= STEP
        poses, _, growth, *_ = self.layout.at(moved.reshape(2 * n * many, n + 1), numpy.tile(at, 2 * n))
        ratios = self.ratios and {rope: numpy.tile(ratio, (1, 2 * n)) for rope, ratio in self.ratios.items()}
        weights = {body: numpy.tile(w, 2 * n) if len(w) > 1 else w for body, w in self.weights_n.items()}
        beside = replace(self, weights_n=weights, ratios=ratios)
        acting, pulls = beside._acting(growth), numpy.tile(unknown[:, n + 1 :], (2 * n, 1))
        found = beside._balance(poses, acting, pulls).reshape(n, 2, many, n)
        return numpy.moveaxis((found[:, 0] - found[:, 1]) / (2 * STEP), 0, 2)


def lowest_place(hanging: Hanging) -> numpy.ndarray:
    """Where everything hangs at the beginning of the travel, the unknowns, (1, unknowns).

    Near the place drawn if it comes to rest there, else where the energy is least. Raises GeometryError where no place is found.
    """
    begin = replace(hanging, taken_in=True)
    for guess in (_drawn_place, _least_energy):
        try:
            found, state = settling.settled(begin, guess(hanging)[None], numpy.zeros(1))
            if numpy.max(numpy.abs(found[0, : hanging.coordinates])) > FAR and guess is _drawn_place:
                continue
            _refuse_dead_lines(hanging, found)
            _refuse_unheld(hanging, state)
            return found
        except StaticsError:
            if guess is _least_energy:
                raise
    raise no_place()


def _drawn_place(hanging: Hanging) -> numpy.ndarray:
    """The place drawn, with the pulls that come nearest to balance there."""
    return _with_pulls(hanging, numpy.zeros(hanging.coordinates))


def _with_pulls(hanging: Hanging, q: numpy.ndarray) -> numpy.ndarray:
    """The unknowns in a pose: no rope taken in, and in the ropes that are taut there the pulls that come nearest to balance."""
    _, _, _, matrix, left = hanging.layout.at(numpy.append(q, 0.0)[None], numpy.zeros(1))
    taut, pulls = -left[0, :-1] < TAUT_M, numpy.zeros(left.shape[1] - 1)
    if taut.any():
        pulls[taut] = numpy.linalg.lstsq(matrix[0, :-1, : len(q)][taut].T, -_rise_of_weight(hanging, q), rcond=None)[0]
    return numpy.concatenate([q, [0.0], pulls])


def _rise_of_weight(hanging: Hanging, q: numpy.ndarray) -> numpy.ndarray:
    poses, whole = Poses(hanging.layout.rig, hanging.layout.free, q), sum(hanging.weights_n.values())
    return sum((w / whole)[0] * poses.moved_by(body, poses.centre_of_gravity(body))[0, :, 1] for body, w in hanging.weights_n.items())


def _least_energy(hanging: Hanging) -> numpy.ndarray:
    """The place where the energy is least for the lengths of the ropes, found from the place drawn."""
    layout, n = hanging.layout, hanging.coordinates
    whole, here = sum(hanging.weights_n.values()), numpy.zeros(1)

    @lru_cache(maxsize=4)
    def laid(q: tuple[float, ...]):
        _, _, _, matrix, left = layout.at(numpy.array([*q, 0.0])[None], here)
        return -left[0, :-1], -matrix[0, :-1, :n]

    def energy(q: numpy.ndarray) -> float:
        poses = Poses(layout.rig, layout.free, q)
        return float(sum((w / whole)[0] * poses.centre_of_gravity(body)[0, 1] for body, w in hanging.weights_n.items()))

    spare = {"type": "ineq", "fun": lambda q: laid(tuple(q))[0], "jac": lambda q: laid(tuple(q))[1]}
    slope = partial(_rise_of_weight, hanging)
    found = minimize(energy, numpy.zeros(n), jac=slope, constraints=[spare], method="SLSQP", options={"maxiter": 400, "ftol": 1e-14})
    if not found.success and found.status != 8:  # 8: no way down any more, which the balance of forces then confirms or not
        raise no_place()
    return _with_pulls(hanging, found.x)


def along(hanging: Hanging, at: numpy.ndarray) -> tuple[numpy.ndarray, State]:
    """Where everything hangs at every station, followed from the lowest place: the unknowns and their exact state.

    Raises NotHeldError or GeometryError where something would not stay, or no place is found.
    """
    begin = lowest_place(hanging)
    hanging.layout.progress.begins_at(Poses(hanging.layout.rig, hanging.layout.free, begin[:, : hanging.coordinates]))
    lowest = numpy.zeros(1)
    speed = settling.speeds_of(hanging.exactly(begin, lowest, hanging.at(begin, lowest))[3])[0]
    unknown, state = settling.poses_along(hanging, at, speed, in_parts=True, begin=begin[0])
    _refuse_dead_lines(hanging, unknown)
    _refuse_unheld(hanging, state)
    return unknown, state


def no_place() -> GeometryError:
    return GeometryError("no place was found where what hangs free comes to rest", where="bodies",
                         right="Check the lengths of the ropes and where the bodies are drawn.")  # fmt: skip


def _refuse_unheld(hanging: Hanging, state: State) -> None:
    """Refuse a place that a body would leave by itself: the energy must grow, or stay, whatever the ropes leave it free to do.

    Nothing may leave a body free to move sideways either; what may turn on the spot, as under a single hook, may stay so.
    """
    *_, matrix, _ = state
    n = hanging.coordinates
    stiff, taut = matrix[:, :n, :n], numpy.moveaxis(matrix[:, :n, n + 1 :], 1, 2)
    stiff = (stiff + numpy.swapaxes(stiff, 1, 2)) / 2
    for index in range(len(matrix)):
        _, sizes, ways = numpy.linalg.svd(taut[index])
        free = ways[int(numpy.sum(sizes > 1e-9)) :]
        if not len(free):
            continue
        values, vectors = numpy.linalg.eigh(free @ stiff[index] @ free.T)
        for value, vector in zip(values, vectors.T, strict=True):
            way = vector @ free
            if value < -LOOSE:
                raise _tips_over(hanging, way)
            if value < LOOSE:
                _refuse_sliding(hanging, state[0], index, way)


def _refuse_dead_lines(hanging: Hanging, unknown: numpy.ndarray) -> None:
    pulls = unknown[:, hanging.coordinates + 1 :].max(axis=0)
    if pulls.max() > MOST:
        rope = list(hanging.layout.rig.ropes)[int(numpy.argmax(pulls))]
        raise GeometryError(f"it would pull with {pulls.max():.1e} times all the weight: it has next to no arm about what it is to hold", where=f'rope "{rope}"',
                            right="Lead it farther from the hinge or the line it runs along.")  # fmt: skip


def _tips_over(hanging: Hanging, way: numpy.ndarray) -> GeometryError:
    freedom = hanging.layout.free[int(numpy.argmax(numpy.abs(way)))]
    return GeometryError(f'the body "{freedom.body}" would not stay: left alone it goes on {freedom.words}', where="bodies",
                         right="Hang it above its centre of gravity, or hold it with one more rope or a guide.")  # fmt: skip


def _refuse_sliding(hanging: Hanging, poses: Poses, index: int, way: numpy.ndarray) -> None:
    """Refuse a way to move that shifts a body's weight; spinning about the plumb line through it is left alone."""
    for body in hanging.weights_n:
        shift = way @ poses.moved_by(body, poses.centre_of_gravity(body))[index]
        if numpy.linalg.norm(shift) > 1e-5:
            words = ("across", "up", "in depth")[int(numpy.argmax(numpy.abs(shift)))]
            raise NotHeldError(f'nothing holds the body "{body}" from moving {words}', where="bodies",
                               right="Add a rope that holds it, run it in a guide, or have it held level.")  # fmt: skip
