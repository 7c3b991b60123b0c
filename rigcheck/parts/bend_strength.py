"""What a wire rope keeps of its strength and its life where it is bent over a sheave, pin or drum."""

from __future__ import annotations

import numpy

from rigcheck.errors import OutOfRangeError
from rigcheck.parts.tables import Table, number

BEND = Table(
    "bend_strength.csv",
    (number("ratio", "1", 0.5, 200, order="rising"), number("share", "1", 0.1, 1, order="rising")),
    key=("ratio",),
    one_source=True,
)
LIFE = Table(
    "bending_life.csv",
    (number("ratio", "1", 5, 200, order="rising"), number("life", "1", 0.1, 100, order="rising")),
    key=("ratio",),
    one_source=True,
)


BEND_SOURCE = BEND.rows()[0].source
BEND_MARK = BEND.rows()[0].mark


def bend_strength(ratio: float | numpy.ndarray) -> float | numpy.ndarray:
    """Return the share of a wire rope's strength left at a bend.

    `ratio` is the diameter of the sheave or pin over that of the rope, a number or an array; the answer has its shape.
    Between rows the share is read off a straight line. Beyond the last row (40) it is held at that row's 0.95, which
    counts no more strength than the table does.

    Errors: OutOfRangeError below the first row (1); in an array those entries are NaN.
    Source: a block maker's table, see `BEND_SOURCE`.

    >>> bend_strength(20)
    0.91
    >>> bend_strength(numpy.array([0.5, 3, 100])).tolist()
    [nan, 0.7, 0.95]
    """
    return _read_off(BEND, "share", ratio, hold_last=True)


def bending_life(ratio: float | numpy.ndarray) -> float | numpy.ndarray:
    """Return the relative bending-fatigue life of a wire rope, for comparing two sheave sizes with one another.

    `ratio` and shapes as for `bend_strength`. Errors: OutOfRangeError outside the table (12 to 30); in an array NaN.
    Source: a block maker's table. Printed example: 30 against 16 lasts 4.7 times as long (there 10/2.1).

    >>> round(bending_life(30) / bending_life(16), 2)
    4.76
    """
    return _read_off(LIFE, "life", ratio, hold_last=False)


def _read_off(table: Table, column: str, ratio: float | numpy.ndarray, *, hold_last: bool) -> float | numpy.ndarray:
    ratios = numpy.array([row.number("ratio") for row in table.rows()])
    values = numpy.array([row.number(column) for row in table.rows()])
    asked = numpy.asarray(ratio, dtype=float)
    inside = (asked >= ratios[0]) & ((asked <= ratios[-1]) | (hold_last & ~numpy.isnan(asked)))
    found = numpy.where(inside, numpy.interp(asked, ratios, values), numpy.nan)
    if found.ndim:
        return found
    if not inside:
        limit = f"at least {ratios[0]:g}" if hold_last else f"{ratios[0]:g} to {ratios[-1]:g}"
        raise OutOfRangeError(f"bend ratio {float(asked):.4g}", where=table.file, right=f"the table covers {limit}")
    return float(found)
