"""The ways in which the members of a frame can carry: one where there are just as many as balances, several where guys are more than are due.

A guy may be slack, so that with more guys than needed it depends on the load which of them are taut. Nothing is assumed tightened beforehand.
Where the stiffness of every member is known, each choice of taut guys is a way, which counts where its guys pull and all others grow shorter. Where
it is not known, each choice of just enough guys is one; it is sure, whatever the stiffness, where all that it makes longer or shorter can only
slacken the guys left out: with a state of stress of its own that a guy left out would make (itself pulled by 1 N, the others n_i), it grows shorter by
Σ n_i S_i / k_i in proportion, by virtual work, so that no term below zero suffices.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import chain, combinations

import numpy

MOST_GROWTH = 1000.0
"""A frame in which some force on a joint comes a thousand times as great to a member has no answer that a measured length could bear."""
MOST_WAYS = 500
PLAIN = 1e-9


@dataclass(frozen=True)
class Way:
    """One way to carry. `map` gives every push from the forces (members, ...); it counts where nothing that follows with `needs` (any, ...) is below zero.

    It is then sure where nothing that follows with `sure` (any, ...) is below zero either; everywhere if that is empty.
    """

    map: numpy.ndarray
    needs: numpy.ndarray
    sure: numpy.ndarray


def ways_of(matrix: numpy.ndarray, guys: list[int], stiffness: list[float | None]) -> tuple[list[Way], bool]:
    """Every way in which members can carry, and whether they share by their stiffness; none where that would be needed and is not known.

    `matrix` (balances, members) of Σ S u = F, `guys` the members that can only pull, `stiffness` in N/m.
    """
    balances, many = matrix.shape
    nothing = numpy.zeros((0, balances))
    rigid = [i for i in range(many) if i not in guys]
    if many == balances:
        return [Way(numpy.linalg.inv(matrix), nothing, nothing)], False
    if None not in stiffness and 2 ** len(guys) <= MOST_WAYS:
        return _by_stiffness(matrix, rigid, guys, numpy.array(stiffness)), True
    if len(rigid) <= balances and numpy.linalg.matrix_rank(matrix[:, rigid], tol=PLAIN) == len(rigid):
        return _just_enough(matrix, rigid, guys), False
    return [], False


def _by_stiffness(matrix: numpy.ndarray, rigid: list[int], guys: list[int], stiffness: numpy.ndarray) -> list[Way]:
    found = []
    for taut in chain.from_iterable(combinations(guys, count) for count in range(len(guys), -1, -1)):
        kept = sorted([*rigid, *taut])
        if numpy.linalg.matrix_rank(matrix[:, kept], tol=1 / MOST_GROWTH) < len(matrix):
            continue
        spread = stiffness[kept, None] * matrix[:, kept].T
        give = numpy.linalg.inv(matrix[:, kept] @ spread)  # how far the joints move for a force of 1 N
        whole = numpy.zeros(matrix.T.shape)
        whole[kept] = spread @ give
        loose = [guy for guy in guys if guy not in taut]
        needs = numpy.concatenate([-whole[list(taut)], stiffness[loose, None] * (matrix[:, loose].T @ give)])
        found.append(Way(whole, needs, needs[:0]))
    return found


def _just_enough(matrix: numpy.ndarray, rigid: list[int], guys: list[int]) -> list[Way]:
    found = []
    for taut in combinations(guys, len(matrix) - len(rigid)):
        kept = sorted([*rigid, *taut])
        if numpy.linalg.svd(matrix[:, kept], compute_uv=False)[-1] <= 1 / MOST_GROWTH:
            continue
        whole = numpy.zeros(matrix.T.shape)
        whole[kept] = numpy.linalg.inv(matrix[:, kept])
        stress = (
            whole[kept] @ matrix[:, [guy for guy in guys if guy not in taut]]
        )  # of the kept members, for 1 N of pull in each guy left out
        sure = [stress[row, column] * whole[i] for row, i in enumerate(kept) for column in range(stress.shape[1])
                if abs(stress[row, column]) > PLAIN and not (i in taut and stress[row, column] < 0)]  # fmt: skip
        found.append(Way(whole, -whole[list(taut)], numpy.array(sure).reshape(-1, len(matrix))))
        if len(found) > MOST_WAYS:
            return []
    return found


def growth_of(matrix: numpy.ndarray, ways: list[Way], many_axes: int) -> tuple[float, int]:
    """How many times as great as a force on a joint a push can become, in the way in which that is least, and at which joint."""
    maps = [way.map for way in ways] or [numpy.linalg.pinv(matrix)]
    found = (0.0, 0)
    for joint in range(len(matrix) // max(many_axes, 1)):
        own = [each[:, joint * many_axes : (joint + 1) * many_axes] for each in maps]
        worst = min(float(numpy.max(numpy.linalg.norm(each, axis=1), initial=0.0)) for each in own)
        if worst > found[0] * (1 + 1e-9):
            found = (worst, joint)
    return found
