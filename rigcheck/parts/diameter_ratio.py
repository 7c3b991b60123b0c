"""Least diameter of a sheave or drum, in rope diameters."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck.parts.tables import Row, Table, number, text, unknown_part

LIMIT = "limit"

RATIOS = Table(
    "diameter_ratios.csv",
    (
        text("item", choices=("sheave", "drum")),
        text("rope_kind", choices=("steel", "fibre")),
        text("applies"),
        text("use", choices=(LIMIT, "advice")),
        number("ratio", "1", 4, 100),
    ),
    key=("item", "rope_kind", "applies"),
)


@dataclass(frozen=True)
class LeastRatio:
    """A least ratio of diameters and what it applies to."""

    item: str
    rope_kind: str
    applies: str
    use: str
    value: float
    source: str
    mark: str


def least_ratio(item: str, rope_kind: str) -> LeastRatio:
    """Return the limit for a "sheave" or "drum" under "steel" or "fibre" rope; PartError for anything else.

    >>> least_ratio("sheave", "steel").value, least_ratio("drum", "fibre").mark
    (16.0, 'from memory')
    """
    for row in RATIOS.rows():
        if (row.text("item"), row.text("rope_kind"), row.text("use")) == (item, rope_kind, LIMIT):
            return _ratio(row)
    listed = (f"{row.text('item')} under {row.text('rope_kind')} rope" for row in RATIOS.rows() if row.text("use") == LIMIT)
    raise unknown_part("least diameter ratio", f"{item} under {rope_kind} rope", listed)


def all_ratios(item: str, rope_kind: str) -> list[LeastRatio]:
    """Return every published ratio for an item and kind of rope, the limit among them; PartError if there is none."""
    least_ratio(item, rope_kind)
    return [_ratio(row) for row in RATIOS.rows() if (row.text("item"), row.text("rope_kind")) == (item, rope_kind)]


def _ratio(row: Row) -> LeastRatio:
    return LeastRatio(
        row.text("item"), row.text("rope_kind"), row.text("applies"), row.text("use"), row.number("ratio"), row.source, row.mark
    )
