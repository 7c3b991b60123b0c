"""How everything moves: the matrices of motion, the velocities along the travel, and the flow of rope over every sheave.

D[k, j] = u_k · (∂x_b/∂q_j - ∂x_a/∂q_j) is how fast run k grows with coordinate j, its contact points a and b carried by their
bodies as if fixed in them. The pull of a rope acts on coordinate j with -T D: a run that shortens as the coordinate grows helps it.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy

from rigcheck.statics.paths import Path
from rigcheck.statics.poses import Poses


def run_growth(path: Path, poses: Poses) -> numpy.ndarray:
    """D of one rope, (runs, heights, coordinates)."""
    grown = []
    for k, direction in enumerate(path.directions):
        far = poses.moved_by(path.stops[k + 1].carrier, path.ends[k])
        near = poses.moved_by(path.stops[k].carrier, path.starts[k])
        grown.append(numpy.einsum("hjx,hx->hj", far - near, direction))
    growth = numpy.array(grown)
    # an exact 0 or ±1 stays exact, so that parallel falls give the textbook's closed form
    for exact in (0.0, 1.0, -1.0):
        growth = numpy.where(numpy.abs(growth - exact) < 1e-12, exact, growth)
    return growth


@dataclass(frozen=True)
class Motion:
    """Velocities per metre of rise of the load: `q` (heights, coordinates), `take_in` (heights,), `flow` per rope (sheaves, heights).

    `take_in` is rope taken in by the drive's first rope. A flow is positive where rope runs over the sheave towards the rope's last end.
    """

    q: numpy.ndarray
    take_in: numpy.ndarray
    flow: dict[str, numpy.ndarray]


def flows(growth: numpy.ndarray, q_speed: numpy.ndarray, fed_in: numpy.ndarray) -> numpy.ndarray:
    """Rope running over each sheave of one rope relative to its pin, (sheaves, heights).

    `fed_in` is what the first end feeds into the path; what the runs before a sheave do not keep passes over it.
    """
    kept = numpy.cumsum(numpy.einsum("khj,hj->kh", growth, q_speed), axis=0)[:-1]
    passing = fed_in - kept
    largest = numpy.max(numpy.abs(passing), initial=0.0)
    return numpy.where(numpy.abs(passing) <= 1e-9 * max(largest, 1.0), 0.0, passing)
