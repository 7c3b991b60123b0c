"""Gear stages: printed ranges of efficiency, and of friction between worm and wheel."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck.parts.tables import Table, number, text, unknown_part

STAGES = Table(
    "gear_stages.csv",
    (text("kind"), number("low", "1", 0.05, 1), number("high", "1", 0.05, 1), text("note", may_be_blank=True)),
    key=("kind",),
    one_source=True,
)
WORM_FRICTION = Table("worm_friction.csv", (text("name"), number("low", "1", 0.005, 0.3), number("high", "1", 0.005, 0.3)), key=("name",))


@dataclass(frozen=True)
class GearStage:
    """The range of efficiency printed for a kind of stage; the note says how far to trust it."""

    kind: str
    low: float
    high: float
    source: str
    mark: str
    note: str


@dataclass(frozen=True)
class FrictionRange:
    """A range of friction between worm and wheel."""

    name: str
    low: float
    high: float
    source: str
    mark: str


def gear_kinds() -> list[str]:
    """Return the kinds of stage that are listed."""
    return [row.text("kind") for row in STAGES.rows()]


def gear_stage(kind: str) -> GearStage:
    """Return the range of efficiency of one stage; PartError for an unknown kind.

    >>> gear_stage("spur").low, gear_stage("spur").note
    (0.97, 'weak source')
    """
    for row in STAGES.rows():
        if row.text("kind") == kind:
            return GearStage(kind, row.number("low"), row.number("high"), row.source, row.mark, row.text("note"))
    raise unknown_part("kind of gear stage", kind, gear_kinds())


def worm_friction(name: str = "textbook range") -> FrictionRange:
    """Return a range of worm friction by its name; PartError if there is none.

    >>> worm_friction().low
    0.028
    """
    for row in WORM_FRICTION.rows():
        if row.text("name") == name:
            return FrictionRange(name, row.number("low"), row.number("high"), row.source, row.mark)
    raise unknown_part("worm friction", name, (row.text("name") for row in WORM_FRICTION.rows()))
