"""Published rules for rope drums: dead wraps, fleet angle, flange, brake torque, mounting."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck.errors import PartError
from rigcheck.parts.tables import Row, Table, number, text, unknown_part

QUANTITIES = ("turns", "angle", "ratio")

RULES = Table(
    "drum_rules.csv",
    (
        text("name"),
        text("use", choices=("limit", "advice")),
        number("turns", "1", 1, 20, may_be_blank=True),
        number("angle", "deg", 0.1, 15, may_be_blank=True),
        number("ratio", "1", 0.5, 5, may_be_blank=True),
    ),
    key=("name",),
)


@dataclass(frozen=True)
class DrumRule:
    """One rule; `quantity` says whether the value is turns, an angle in radians or a plain ratio."""

    name: str
    use: str
    quantity: str
    value: float
    source: str
    mark: str


def drum_rules() -> list[DrumRule]:
    """Return every drum rule."""
    return [_rule(row) for row in RULES.rows()]


def drum_rule(name: str) -> DrumRule:
    """Return one drum rule by its name; PartError if there is none.

    >>> drum_rule("dead-wraps").value, round(drum_rule("fleet-angle-limit").value, 4)
    (2.0, 0.0698)
    """
    for row in RULES.rows():
        if row.text("name") == name:
            return _rule(row)
    raise unknown_part("drum rule", name, (row.text("name") for row in RULES.rows()))


def _rule(row: Row) -> DrumRule:
    given = {quantity: value for quantity in QUANTITIES if (value := row.maybe(quantity)) is not None}
    if len(given) != 1:
        raise PartError(f"{len(given)} numbers", where=f"{RULES.file}, line {row.line}", right="a drum rule gives exactly one")
    [(quantity, value)] = given.items()
    return DrumRule(row.text("name"), row.text("use"), quantity, value, row.source, row.mark)
