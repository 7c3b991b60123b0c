"""End fittings and knots: the share of a rope's strength that is left at its end."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck.parts.tables import READ, Row, Table, number, text, unknown_part

ROPE_KINDS = ("steel", "fibre")

FITTINGS = Table(
    "end_fittings.csv",
    (
        text("fitting"),
        text("rope_kind", choices=ROPE_KINDS),
        number("share", "1", 0.2, 1),
        text("forbidden", may_be_blank=True),
        text("note", may_be_blank=True),
    ),
    key=("fitting", "rope_kind", "source"),
)


@dataclass(frozen=True)
class EndFitting:
    """What a fitting or knot leaves of the rope's strength; `forbidden` says what it may not be used for, "" if nothing."""

    name: str
    rope_kind: str
    share: float
    source: str
    mark: str
    forbidden: str
    note: str


def end_fitting_rows(name: str, rope_kind: str) -> list[EndFitting]:
    """Return what each source says of a fitting; PartError if none says anything."""
    found = [row for row in FITTINGS.rows() if (row.text("fitting"), row.text("rope_kind")) == (name, rope_kind)]
    if not found:
        raise unknown_part(f"end fitting for {rope_kind} rope", name, end_fittings(rope_kind))
    return [_fitting(row) for row in found]


def end_fitting(name: str, rope_kind: str) -> EndFitting:
    """Return the most cautious reading of a fitting: the least share among the rows that were read.

    Only where no source was read does a recalled row answer, with its mark, so that the caller can say "cannot tell".
    Errors: PartError for an unknown fitting or kind of rope.

    >>> end_fitting("clove hitch", "fibre").share, end_fitting("figure-eight loop", "fibre").mark
    (0.6, 'from memory')
    """
    rows = end_fitting_rows(name, rope_kind)
    return min([row for row in rows if row.mark == READ] or rows, key=lambda row: row.share)


def end_fittings(rope_kind: str) -> list[str]:
    """Return the names of the fittings listed for "steel" or "fibre" rope; PartError for another kind.

    >>> end_fittings("steel")[:2]
    ['metal or resin socket', 'ferrule-secured eye']
    """
    if rope_kind not in ROPE_KINDS:
        raise unknown_part("kind of rope", rope_kind, ROPE_KINDS)
    return list(dict.fromkeys(row.text("fitting") for row in FITTINGS.rows() if row.text("rope_kind") == rope_kind))


def _fitting(row: Row) -> EndFitting:
    return EndFitting(
        row.text("fitting"), row.text("rope_kind"), row.number("share"), row.source, row.mark, row.text("forbidden"), row.text("note")
    )
