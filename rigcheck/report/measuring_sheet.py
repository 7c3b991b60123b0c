"""The measuring sheet to print: what to measure and how, with room to write, under the letters that the form carries."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from rigcheck.report.pdf import typeset

TEMPLATE = Path(__file__).with_name("measuring_sheet.typ")
CAUTIONS = (
    "Measure with the load down on the floor, or propped, and the power off.",
    "Nobody under the load, and no fingers between rope and sheave.",
    "What you cannot find out, leave empty: the check that needs it then says cannot tell.",
)


@dataclass(frozen=True)
class Row:
    """One thing to measure: its letter, what it is, the unit to write it in, how to find it out, and what is written in the form now."""

    letter: str
    what: str
    unit: str
    way: str
    now: str = ""


@dataclass(frozen=True)
class Group:
    """Rows that belong to one part."""

    title: str
    rows: tuple[Row, ...]


def sheet(name: str, drawing: str, groups: list[Group]) -> bytes:
    """The sheet as PDF, A4; `drawing` is SVG text, "" for none.

    >>> sheet("loft lift", "", [Group("Load", (Row("A", "mass of the load", "kg", "Weigh it."),))])[:5]
    b'%PDF-'
    """
    told = [{"title": group.title, "rows": [vars(row) for row in group.rows]} for group in groups]
    return typeset(TEMPLATE, "sheet", {"name": name, "drawing": drawing, "groups": told, "cautions": list(CAUTIONS)}, "pdf", timestamp=0)
