"""The balance of forces: one assembly for floats, arrays of poses and symbols, and the order in which a person would solve it.

For every coordinate j:   Σ_r T_r Σ_k φ_rk lift_rkj = weight_j,   with lift = -D (a run that shortens as the coordinate grows lifts).
"""

from __future__ import annotations

import operator
from dataclasses import dataclass
from itertools import combinations

import networkx
import numpy

from rigcheck.errors import NotHeldError


def assemble(ratios: list[list], lift: list[list[list]], times=operator.mul, add=sum) -> list[list]:
    """The matrix A[j][r] = Σ_k φ_rk lift_rkj from ratios[r][k] and lift[r][k][j]; entries may be floats, arrays or expressions.

    Expressions bring their own `times` and `add`, which keep the order of writing.

    >>> assemble([[1.0, 0.5]], [[[1.0], [1.0]]])
    [[1.5]]
    """
    return [
        [add([times(ratio, run[j]) for ratio, run in zip(ratios[r], lift[r], strict=True)]) for r in range(len(lift))]
        for j in range(len(lift[0][0]))
    ]


@dataclass(frozen=True)
class Block:
    """Equations solved together for as many pulls; `spare` pulls more than that are a matter of sharing."""

    equations: list[int]
    ropes: list[int]

    @property
    def spare(self) -> int:
        return len(self.ropes) - len(self.equations)


def blocks(present: numpy.ndarray, names: list[str]) -> list[Block]:
    """Split the balance into blocks in the order of solving, from which entries of A (equations, ropes) are there at all.

    Ropes and equations are matched, ropes that are more than needed gather what hangs on them into one last block (the
    Dulmage–Mendelsohn parts), and the rest falls into strongly connected blocks. `names` names the equations.

    >>> blocks(numpy.array([[True, True], [False, True]]), ["load", "counterweight"])
    [Block(equations=[1], ropes=[1]), Block(equations=[0], ropes=[0])]
    """
    many_equations, many_ropes = present.shape
    graph = networkx.Graph()
    graph.add_nodes_from([("e", j) for j in range(many_equations)] + [("r", r) for r in range(many_ropes)])
    graph.add_edges_from((("e", int(j)), ("r", int(r))) for j, r in numpy.argwhere(present))
    matched = networkx.bipartite.hopcroft_karp_matching(graph, top_nodes=[("e", j) for j in range(many_equations)])
    for j in range(many_equations):
        if ("e", j) not in matched:
            raise NotHeldError(f"nothing balances {names[j]}", where="bodies", right="Add a rope that holds it, or run it in a guide.")
    shared_ropes = _reached_from_spare(graph, matched, many_ropes)
    shared = Block(sorted(matched[("r", r)][1] for r in shared_ropes if ("r", r) in matched), sorted(shared_ropes))
    order = networkx.DiGraph()
    plain = [j for j in range(many_equations) if j not in shared.equations]
    order.add_nodes_from(plain)
    for j in plain:
        for _, r in graph.neighbors(("e", j)):
            other = matched[("r", r)][1]
            if other != j:
                order.add_edge(other, j)
    whole = networkx.condensation(order)
    found = []
    for node in networkx.lexicographical_topological_sort(whole, key=lambda n: min(whole.nodes[n]["members"])):
        members = sorted(whole.nodes[node]["members"])
        found.append(Block(members, sorted(matched[("e", j)][1] for j in members)))
    return found + ([shared] if shared.ropes else [])


def _reached_from_spare(graph, matched, many_ropes: int) -> set[int]:
    """Ropes that can be left out of the matching in turn: they share what they carry."""
    reached = {r for r in range(many_ropes) if ("r", r) not in matched}
    waiting = list(reached)
    while waiting:
        for equation in graph.neighbors(("r", waiting.pop())):
            other = matched[equation][1]
            if other not in reached:
                reached.add(other)
                waiting.append(other)
    return reached


def sharings(matrix: numpy.ndarray, weight: numpy.ndarray) -> numpy.ndarray:
    """Every way in which just enough of the ropes can carry the weight, none of them pushing: (ways, heights, ropes).

    The greatest pull each rope can get lies among these corners of the linear program "balance, no pull below zero".
    `matrix` (heights, equations, ropes), `weight` (heights, equations). A corner that would push is NaN.

    >>> sharings(numpy.array([[[1.0, 1.0]]]), numpy.array([[10.0]])).tolist()
    [[[10.0, 0.0]], [[0.0, 10.0]]]
    """
    many, equations, ropes = matrix.shape
    corners = []
    for chosen in combinations(range(ropes), equations):
        part = matrix[:, :, list(chosen)]
        sound = numpy.abs(numpy.linalg.det(part)) > 1e-12
        pulls = numpy.full((many, ropes), numpy.nan)
        if numpy.any(sound):
            found = numpy.linalg.solve(part[sound], weight[sound][..., None])[..., 0]
            held = numpy.zeros((len(found), ropes))
            held[:, list(chosen)] = found
            held[numpy.any(found < -1e-9 * numpy.max(numpy.abs(weight)), axis=1)] = numpy.nan
            pulls[sound] = held
        corners.append(pulls)
    return numpy.array(corners)


def can_be_tightened(matrix: numpy.ndarray) -> bool:
    """Whether some pulls balance among themselves (guys set against each other): then no share is the worst.

    `matrix` (equations, ropes) at one pose.

    >>> can_be_tightened(numpy.array([[1.0, 1.0]])), can_be_tightened(numpy.array([[1.0, -0.5]]))
    (False, True)
    """
    if len(matrix) == 1:
        return bool((matrix >= 0).any() and (matrix <= 0).any())
    from scipy.optimize import linprog

    ropes = matrix.shape[1]
    found = linprog(-numpy.ones(ropes), A_eq=matrix, b_eq=numpy.zeros(len(matrix)), bounds=[(0, 1)] * ropes)
    return bool(found.status == 0 and -found.fun > 1e-9)


def likely_sharing(matrix: numpy.ndarray, weight: numpy.ndarray, stiffness: numpy.ndarray) -> numpy.ndarray:
    """Pulls by stiffness: the share with the least stretch energy, (heights, ropes); `stiffness` (heights, ropes) in N/m or any common scale."""
    spread = stiffness[:, :, None] * numpy.swapaxes(matrix, 1, 2)
    return numpy.einsum("hrj,hj->hr", spread, numpy.linalg.solve(matrix @ spread, weight[..., None])[..., 0])
