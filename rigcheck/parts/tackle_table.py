"""Printed tables for whole tackles, by parts of line: second opinions on what a rule per sheave gives."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck.errors import OutOfRangeError
from rigcheck.parts.sheave_rule import BEARINGS
from rigcheck.parts.tables import Row, Table, number, unknown_part

_PARTS = number("parts", "1", 1, 30, order="rising")

LINE_PARTS = Table(
    "line_parts_table.csv",
    (_PARTS, number("plain", "1", 0.5, 30, order="rising"), number("rolling", "1", 0.5, 30, order="rising")),
    key=("parts",),
    one_source=True,
)
OVERHAUL = Table(
    "overhaul_factors.csv",
    (_PARTS, number("plain", "1", 1, 40, order="rising"), number("rolling", "1", 1, 40, order="rising")),
    key=("parts",),
    one_source=True,
)
MEASURED = Table(
    "measured_tackles.csv",
    (
        _PARTS,
        number("efficiency", "1", 0.1, 1, order="falling"),
        number("pull_share", "1", 0.1, 2, order="falling"),
    ),
    key=("parts",),
    one_source=True,
)


@dataclass(frozen=True)
class TackleFigure:
    """One printed figure of a whole tackle."""

    parts: int
    value: float
    source: str
    mark: str


@dataclass(frozen=True)
class MeasuredTackle:
    """A white-rope tackle as measured: useful share of the work, and pull over load while raising."""

    parts: int
    efficiency: float
    pull_share: float
    source: str
    mark: str


def line_parts_ratio(parts: int, bearing: str) -> TackleFigure:
    """Return load over lead-line pull while raising, lead line coming off the fixed block.

    Errors: OutOfRangeError for parts that the table does not print, PartError for an unknown bearing.

    >>> line_parts_ratio(4, "plain").value
    3.59
    """
    return _figure(LINE_PARTS, parts, bearing)


def overhaul_factor(parts: int, bearing: str) -> TackleFigure:
    """Return block weight over the line weight and drum friction it overhauls; same errors as `line_parts_ratio`."""
    return _figure(OVERHAUL, parts, bearing)


def measured_tackle(parts: int) -> MeasuredTackle:
    """Return a measured white-rope tackle; OutOfRangeError for parts that the table does not print.

    >>> measured_tackle(4).pull_share
    0.37
    """
    row = _row(MEASURED, parts)
    return MeasuredTackle(parts, row.number("efficiency"), row.number("pull_share"), row.source, row.mark)


def _figure(table: Table, parts: int, bearing: str) -> TackleFigure:
    if bearing not in BEARINGS:
        raise unknown_part("sheave bearing", bearing, BEARINGS)
    row = _row(table, parts)
    return TackleFigure(parts, row.number(bearing), row.source, row.mark)


def _row(table: Table, parts: int) -> Row:
    rows = table.rows()
    for row in rows:
        if row.number("parts") == parts:
            return row
    limit = f"whole parts of line from {rows[0].number('parts'):g} to {rows[-1].number('parts'):g}"
    raise OutOfRangeError(f"{parts} parts of line", where=table.file, right=f"the table prints {limit}")
