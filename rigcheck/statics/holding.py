"""Standing still: the range each pull may take when every sheave holds any ratio between η and 1/η on its own.

The least and the greatest pull of a run is a linear program in the pulls of all runs. At its corners every sheave stands at one end of its
range, and changing one sheave leads from a corner to the next, so it is climbed sheave by sheave: the sign of the pull's derivative with
respect to each ratio says which end is better. All runs, both ways and all heights climb at once. (A test compares this with scipy's
linear programs.)
"""

from __future__ import annotations

from itertools import combinations

import numpy

ROUNDS = 60


def holding_range(
    lifts: list[numpy.ndarray], efficiencies: list[numpy.ndarray], weight: numpy.ndarray
) -> tuple[list[numpy.ndarray], list[numpy.ndarray]]:
    """Least and greatest pull of every run of every rope.

    `lifts[r]` (runs, heights, equations); `efficiencies[r]` (sheaves, heights); `weight` (heights, equations). Returns two lists of
    arrays (runs, heights), NaN where no pulls at all balance without pushing. With more ropes than equations every choice of just enough ropes counts.
    """
    least = [numpy.full(part.shape[:2], numpy.inf) for part in lifts]
    most = [numpy.full(part.shape[:2], -numpy.inf) for part in lifts]
    acts = numpy.array([numpy.any(part != 0, axis=(0, 1)) for part in lifts])
    for chosen in combinations(range(len(lifts)), weight.shape[1]):
        if not acts[list(chosen)].any(axis=0).all():
            continue  # some equation would have no rope in it
        found = _climb([lifts[r] for r in chosen], [efficiencies[r] for r in chosen], weight)
        for place, r in enumerate(chosen):
            most[r] = numpy.fmax(most[r], found[place][0])
            least[r] = numpy.fmin(least[r], found[place][1])
        balances = numpy.isfinite(found[0][0, 0])
        for r in range(len(lifts)):
            if r not in chosen:  # where these ropes carry everything, the others may hang loose
                least[r] = numpy.where(balances, numpy.minimum(least[r], 0.0), least[r])
                most[r] = numpy.where(balances, numpy.maximum(most[r], 0.0), most[r])
    return [numpy.where(numpy.isfinite(a), a, numpy.nan) for a in least], [numpy.where(numpy.isfinite(a), a, numpy.nan) for a in most]


def _climb(lifts: list[numpy.ndarray], efficiencies: list[numpy.ndarray], weight: numpy.ndarray) -> list[numpy.ndarray]:
    """The greatest and the least pull of every run, one array (2, runs, heights) for each rope.

    Axis b below runs over the things sought: every run of every rope, once for the greatest and once for the least.
    """
    many, scale = len(weight), numpy.max(numpy.abs(weight))
    sought = [(r, k, way) for way in (1, -1) for r, part in enumerate(lifts) for k in range(len(part))]
    rope_of, run_of, way_of = (numpy.array(column) for column in zip(*sought, strict=True))
    b = numpy.arange(len(sought))
    way_of = way_of[:, None, None]
    size = [-numpy.log(e)[None] for e in efficiencies]
    # +1 where the later run pulls harder; at first every sheave favours the run sought as if it stood alone
    choice = [
        numpy.where(numpy.arange(len(e))[None, :, None] < run_of[:, None, None], way_of, -way_of) * numpy.ones((1, 1, many))
        for e in efficiencies
    ]
    for round_ in range(ROUNDS):
        ratios = [numpy.exp(numpy.cumsum(_after_zero(c * s), axis=1)) for c, s in zip(choice, size, strict=True)]
        matrix = numpy.stack([numpy.einsum("bkh,khj->bhj", ratio, lift) for ratio, lift in zip(ratios, lifts, strict=True)], axis=3)
        inverse = _inverse(matrix)
        with numpy.errstate(all="ignore"):
            pulls = numpy.einsum("bhrj,hj->bhr", inverse, weight)
            own = numpy.array([ratios[rope_of[i]][i, run_of[i]] for i in b])
            found = own * pulls[b, :, rope_of]
            changed = False
            for r, lift in enumerate(lifts):
                beyond = numpy.cumsum((ratios[r][..., None] * lift)[:, ::-1], axis=1)[:, ::-1][:, 1:]
                slope = -own[:, None] * numpy.einsum("bhj,bshj->bsh", inverse[b, :, rope_of], beyond) * pulls[:, None, :, r]
                before = (rope_of[:, None] == r) & (numpy.arange(slope.shape[1]) < run_of[:, None])
                slope = slope + numpy.where(before[:, :, None], found[:, None], 0.0)
                wanted = numpy.where(numpy.abs(slope) > 1e-12 * scale, way_of * numpy.sign(slope), choice[r])
                if round_ > ROUNDS // 2:  # all at once may swing to and fro: then one sheave at a time
                    first = (wanted != choice[r]).cumsum(axis=1).cumsum(axis=1) == 1
                    wanted = numpy.where(first, wanted, choice[r])
                changed = changed or bool(numpy.any(wanted != choice[r]))
                choice[r] = wanted
        if not changed:
            break
    else:
        found = numpy.full_like(found, numpy.nan)
    pushing = numpy.any(pulls < -1e-9 * scale, axis=2)
    found = numpy.where(pushing, numpy.nan, found).reshape(2, -1, many)
    ends = numpy.cumsum([len(part) for part in lifts])
    return numpy.split(found, ends[:-1], axis=1)


def _after_zero(steps: numpy.ndarray) -> numpy.ndarray:
    return numpy.concatenate([numpy.zeros((steps.shape[0], 1, steps.shape[2])), steps], axis=1)


def _inverse(matrix: numpy.ndarray) -> numpy.ndarray:
    if matrix.shape[-1] == 1:
        with numpy.errstate(divide="ignore"):
            return numpy.where(numpy.abs(matrix) > 1e-12, 1 / matrix, numpy.nan)
    sound = numpy.abs(numpy.linalg.det(matrix)) > 1e-12
    result = numpy.full_like(matrix, numpy.nan)
    if numpy.any(sound):
        result[sound] = numpy.linalg.inv(matrix[sound])
    return result
