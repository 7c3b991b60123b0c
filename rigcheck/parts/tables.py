"""The one reader of catalogue tables: CSV with its sources, checked at load, converted to SI.

A table file opens with lines starting with `#`, each `# key: value`:

    # source: who printed the numbers           (`see each row` where the rows carry their own)
    # edition: which edition or year            (one-source tables)
    # place: page, table or clause              (one-source tables)
    # mark: read                                (one-source tables)
    # unit diameter: mm                         (one for every number column)
    # note: anything a reader should know       (as many as wanted)

Then come a line of column names and the rows. What the columns are is declared in Python, beside the lookup that
uses them, and the file must agree with it: that way a slipped column or a changed unit cannot pass unseen.
"""

from __future__ import annotations

import csv
import math
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType

from rigcheck.errors import InputError, PartError
from rigcheck.units import from_unit

READ = "read"
FROM_MEMORY = "from memory"
COMMON_PRACTICE = "common practice, no source"
ESTIMATE = "estimate"
MARKS = (READ, FROM_MEMORY, COMMON_PRACTICE, ESTIMATE)

HERE = Path(__file__).parent
PLAIN_NUMBER = re.compile(r"[+-]?(\d+(\.\d*)?|\.\d+)(e[+-]?\d+)?", re.ASCII)
RATIO = "1"


@dataclass(frozen=True)
class Column:
    """What a column must hold; `unit` None means text, "1" a ratio or a count. Range and order are in the unit of the source."""

    name: str
    unit: str | None = None
    least: float = -math.inf
    most: float = math.inf
    order: str = ""
    may_be_blank: bool = False
    as_printed: bool = False
    choices: tuple[str, ...] = ()


def text(name: str, *, choices: Iterable[str] = (), may_be_blank: bool = False) -> Column:
    """Declare a column of words; `choices` lists all that are allowed."""
    return Column(name, choices=tuple(choices), may_be_blank=may_be_blank)


def number(
    name: str, unit: str, least: float, most: float, *, order: str = "", may_be_blank: bool = False, as_printed: bool = False
) -> Column:
    """Declare a column of numbers; `order` is "", "rising", "falling" or "not falling", and `as_printed` leaves the source's unit."""
    if order not in ("", "rising", "falling", "not falling"):
        raise ValueError(f"unknown order {order!r}")
    return Column(name, unit, least, most, order, may_be_blank, as_printed)


@dataclass(frozen=True)
class Table:
    """A table's declaration: file, columns, the columns that together name a row, and those within whose equal values order is judged."""

    file: str
    columns: tuple[Column, ...]
    key: tuple[str, ...]
    group: tuple[str, ...] = ()
    one_source: bool = False
    folder: Path = HERE

    def rows(self) -> tuple[Row, ...]:
        """Return the checked rows, read on first use and kept."""
        return load(self)


@dataclass(frozen=True)
class Row:
    """One checked row: cells in SI, with where the numbers come from."""

    line: int
    cells: Mapping[str, float | str | None]
    source: str
    mark: str

    def text(self, name: str) -> str:
        """Return a text cell, "" where it is blank."""
        value = self.cells[name]
        assert isinstance(value, str)
        return value

    def number(self, name: str) -> float:
        """Return a number cell that is never blank."""
        value = self.cells[name]
        assert isinstance(value, float)
        return value

    def maybe(self, name: str) -> float | None:
        """Return a number cell, or None where the source gives none."""
        value = self.cells[name]
        assert not isinstance(value, str)
        return value


def unknown_part(kind: str, asked: object, listed: Iterable[object]) -> PartError:
    """Build the error for a name that no table holds: it names what was asked and lists what exists."""
    return PartError(f'the catalogue has no {kind} "{asked}"', where=kind, right=f"It has: {', '.join(str(name) for name in listed)}.")


@cache
def load(table: Table) -> tuple[Row, ...]:
    """Read a table whole and check it against its declaration.

    Errors: PartError naming file, line and column, for a missing or faulty head, a column or unit that differs from the
    declaration, a cell that is blank, not a number or out of range, a column out of order, a row named twice, or a row
    without source or mark.
    """
    head, lines = _split(table)
    _check_head(table, head)
    if not lines:
        raise _fault(table, "no line of column names")
    names = [column.name for column in table.columns] + ([] if table.one_source else ["source", "mark"])
    found = _cells(table, *lines[0])
    if found != names:
        raise _fault(table, f"columns {', '.join(found)}", lines[0][0], right=f"the columns are {', '.join(names)}")
    printed = []
    for line, content in lines[1:]:
        cells = _cells(table, line, content)
        if len(cells) != len(names):
            raise _fault(table, f"{len(cells)} cells", line, right=f"{len(names)} are due")
        printed.append((line, dict(zip(names, cells, strict=True))))
    if not printed:
        raise _fault(table, "no rows")
    _check_keys(table, printed)
    rows = tuple(_row(table, line, cells, head) for line, cells in printed)
    for column in table.columns:
        if column.order:
            _check_order(table, column, printed)
    return rows


def _fault(table: Table, wrong: str, line: int | None = None, column: str = "", right: str = "") -> PartError:
    where = table.file + (f", line {line}" if line else "") + (f", column {column}" if column else "")
    return PartError(wrong, where=where, right=right)


def _split(table: Table) -> tuple[dict[str, str], list[tuple[int, str]]]:
    """Part a file into its head and its numbered lines."""
    try:
        content = (table.folder / table.file).read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as problem:
        raise _fault(table, f"cannot be read: {problem}") from problem
    head: dict[str, str] = {}
    lines: list[tuple[int, str]] = []
    for line, printed in enumerate(content.splitlines(), start=1):
        if not printed.startswith("#"):
            if printed.strip():
                lines.append((line, printed))
            continue
        key, colon, value = (part.strip() for part in printed[1:].partition(":"))
        if not colon or not value:
            raise _fault(table, f"head line {printed!r}", line, right="head lines read `# key: value`")
        if key in head and key != "note":
            raise _fault(table, f"{key!r} is given twice in the head", line)
        head[key] = value
    return head, lines


def _check_head(table: Table, head: Mapping[str, str]) -> None:
    """Check that sources and units stand in the head, and that the units are the declared ones."""
    needed = ("source", "edition", "place", "mark") if table.one_source else ("source",)
    for key in needed:
        if key not in head:
            raise _fault(table, f"the head gives no {key}", right=f"a line `# {key}: ...` is due")
    for key in head:
        if key not in (*needed, "note") and not key.startswith("unit "):
            raise _fault(table, f"the head has an unknown key {key!r}", right=f"keys: {', '.join(needed)}, note, unit ...")
    if table.one_source and head["mark"] not in MARKS:
        raise _fault(table, f"mark {head['mark']!r} in the head", right=f"a mark is one of {', '.join(MARKS)}")
    declared = {f"unit {column.name}": column.unit for column in table.columns if column.unit is not None}
    given = {key: value for key, value in head.items() if key.startswith("unit ")}
    for key in declared | given:
        if declared.get(key) != given.get(key):
            column = key.removeprefix("unit ")
            raise _fault(table, f"unit {given.get(key, 'missing')}", None, column, f"declared: {declared.get(key, 'no number column')}")


def _cells(table: Table, line: int, content: str) -> list[str]:
    """Part one line at its commas."""
    try:
        return [cell.strip() for cell in next(csv.reader([content], strict=True))]
    except csv.Error as problem:
        raise _fault(table, f"not readable as CSV: {problem}", line) from problem


def _row(table: Table, line: int, cells: Mapping[str, str], head: Mapping[str, str]) -> Row:
    """Check and convert one row."""
    if table.one_source:
        source, mark = f"{head['source']}, {head['edition']}, {head['place']}", head["mark"]
    else:
        source, mark = cells["source"], cells["mark"]
        if not source:
            raise _fault(table, "no source", line, "source", "every row says where its numbers come from")
        if mark not in MARKS:
            raise _fault(table, f"mark {mark!r}", line, "mark", f"a mark is one of {', '.join(MARKS)}")
    values = {column.name: _value(table, column, line, cells[column.name]) for column in table.columns}
    return Row(line, MappingProxyType(values), source, mark)


def _value(table: Table, column: Column, line: int, printed: str) -> float | str | None:
    """Check one cell; return words as they are and numbers in SI."""
    if not printed:
        if not column.may_be_blank:
            raise _fault(table, "blank", line, column.name, "this column may not be blank")
        return "" if column.unit is None else None
    if column.unit is None:
        if column.choices and printed not in column.choices:
            raise _fault(table, repr(printed), line, column.name, f"one of {', '.join(column.choices)}")
        return printed
    if not PLAIN_NUMBER.fullmatch(printed):
        raise _fault(table, f"{printed!r} is not a number", line, column.name)
    value = float(printed)
    if not column.least <= value <= column.most:
        allowed = f"allowed: {column.least:g} to {column.most:g} {column.unit}"
        raise _fault(table, f"{printed} is out of range", line, column.name, allowed)
    if column.as_printed or column.unit == RATIO:
        return value
    try:
        return float(from_unit(value, column.unit))
    except InputError as problem:
        raise _fault(table, f"unit {column.unit!r} cannot be converted", line, column.name, problem.wrong) from problem


def _check_keys(table: Table, rows: Iterable[tuple[int, Mapping[str, str]]]) -> None:
    """Check that no two rows have the same name."""
    seen: dict[tuple[str, ...], int] = {}
    for line, cells in rows:
        key = tuple(cells[name] for name in table.key)
        if key in seen:
            raise _fault(table, f"{' / '.join(key)} is already in line {seen[key]}", line, table.key[0], "a row is named once")
        seen[key] = line


def _check_order(table: Table, column: Column, rows: Iterable[tuple[int, Mapping[str, str]]]) -> None:
    """Check that a column runs one way within each group; blanks are passed over."""
    last: dict[tuple[str, ...], float] = {}
    for line, cells in rows:
        if not cells[column.name]:
            continue
        group, value = tuple(cells[name] for name in table.group), float(cells[column.name])
        step = value - last.get(group, -math.inf if column.order != "falling" else math.inf)
        if not (step > 0 if column.order == "rising" else step < 0 if column.order == "falling" else step >= 0):
            raise _fault(table, f"{value:g} after {last[group]:g}", line, column.name, f"this column is {column.order}")
        last[group] = value
