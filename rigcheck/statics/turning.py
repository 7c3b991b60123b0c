"""How a rope's runs turn, and how its sheaves swivel after them, as each coordinate of what hangs free grows."""

from __future__ import annotations

import numpy

from rigcheck.statics.paths import Path, Stop
from rigcheck.statics.vectors import cross, dot

PASSES = 3  # each leaves of what it does not know yet a part as small as a sheave's radius is to a run's length
FLAT = 1e-6  # sine of the angle between two falls: below it the plane of a sheave is not theirs to turn


def turning(path: Path, slides: list[numpy.ndarray], in_plane: bool) -> tuple[list[numpy.ndarray], list[numpy.ndarray]]:
    """How each run's direction and each stop's normal change, (stations, coordinates, 3) each; `slides` is how the stops' centres move.

    With u a run's direction, L its length, c the centres and n the normals at its ends, L u' is the part of c_b' - c_a' + r_b u × n_b' -
    r_a u × n_a' that is square to u, and the normal at a sheave is that of the plane of its two falls.
    """
    round_ones = [stop.radius > 0 for stop in path.stops]
    leans = [numpy.zeros_like(slides[0]) for _ in path.stops]
    turns = _turns(path, slides, leans)
    if in_plane or not any(round_ones):
        return turns, leans
    for _ in range(PASSES):
        leans = [_lean(path, k, turns) if is_round else leans[k] for k, is_round in enumerate(round_ones)]
        turns = _turns(path, slides, leans)
    return turns, leans


def _turns(path: Path, slides: list[numpy.ndarray], leans: list[numpy.ndarray]) -> list[numpy.ndarray]:
    found = []
    for k, u in enumerate(path.directions):
        near, far = path.stops[k].radius, path.stops[k + 1].radius
        gap = slides[k + 1] - slides[k] + far * cross(u[:, None], leans[k + 1]) - near * cross(u[:, None], leans[k])
        found.append((gap - dot(gap, u[:, None])[..., None] * u[:, None]) / path.straight[k][:, None, None])
    return found


def _lean(path: Path, k: int, turns: list[numpy.ndarray]) -> numpy.ndarray:
    """How the normal at one stop changes."""
    n = path.normals[k][:, None]
    if 0 < k < len(path.stops) - 1:
        into, out = path.directions[k - 1][:, None], path.directions[k][:, None]
        plane = dot(cross(into, out), n)[..., None]
        is_flat = numpy.abs(plane) < FLAT
        change = (cross(turns[k - 1], out) + cross(into, turns[k])) / numpy.where(is_flat, 1.0, plane)
        return numpy.where(is_flat, 0.0, change - dot(change, n)[..., None] * n)
    return _lean_of_drum(path.stops[k], path.directions[0 if k == 0 else -1][:, None], turns[0 if k == 0 else -1], n)


def _lean_of_drum(stop: Stop, u: numpy.ndarray, turn: numpy.ndarray, n: numpy.ndarray) -> numpy.ndarray:
    """The drum's own axis as nearly as the rope lets it: square to the rope, which comes off it in the direction u."""
    change = -dot(stop.about, turn)[..., None] * u - dot(stop.about, u)[..., None] * turn
    size = numpy.sqrt(numpy.maximum(1 - dot(stop.about, u) ** 2, FLAT))[..., None]
    return (change - dot(change, n)[..., None] * n) / size
