"""Wire ropes: construction classes with their strength, area and mass factors, rope grades and usual sizes."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck.parts.tables import Row, Table, number, text, unknown_part

CORES = ("fibre core", "steel core", "no core", "core not stated")

CLASSES = Table(
    "wire_ropes.csv",
    (
        text("name"),
        number("strands", "1", 1, 40),
        text("core", choices=CORES),
        number("w", "kg/100 m per mm2", 0.2, 0.6, may_be_blank=True, as_printed=True),
        number("c", "1", 0.2, 0.8, may_be_blank=True),
        number("k", "1", 0.2, 0.7),
        number("discard_wires_low", "1", 1, 400, may_be_blank=True),
        number("discard_wires_high", "1", 1, 400, may_be_blank=True),
    ),
    key=("name",),
)
GRADES = Table(
    "wire_rope_grades.csv", (text("name"), number("strength", "N/mm2", 1000, 2300, order="rising")), key=("name",), one_source=True
)
SIZES = Table("wire_rope_sizes.csv", (number("diameter", "mm", 1, 100, order="rising"),), key=("diameter",), one_source=True)


@dataclass(frozen=True)
class WireRopeClass:
    """A construction with its core and the factors of its standard.

    With d in mm and Rr in N/mm²: `k_factor`·d²·Rr N is the least breaking force, `c_factor`·d² mm² the metal area and
    `w_factor`·d² kg the mass of 100 m. None where the source prints no factor. `discard_wires` is the band of
    load-bearing outer wires under which ISO 4309 judges broken wires, None where its table does not name the construction.
    """

    name: str
    strands: int
    core: str
    w_factor: float | None
    c_factor: float | None
    k_factor: float
    discard_wires: tuple[int, int] | None
    source: str
    mark: str


@dataclass(frozen=True)
class WireRopeGrade:
    """A rope grade and its strength Rr in pascal."""

    name: str
    strength_pa: float
    source: str
    mark: str


def constructions() -> list[WireRopeClass]:
    """Return every construction class, those that were read before those from memory.

    >>> [rope.name for rope in constructions()][:3]
    ['6x7 FC', '6x7 IWRC', '7x7']
    """
    return [_class(row) for row in CLASSES.rows()]


def wire_rope_class(name: str) -> WireRopeClass:
    """Return one construction class by its name; PartError if the catalogue has no such class.

    >>> wire_rope_class("6x19 IWRC").k_factor
    0.356
    """
    for row in CLASSES.rows():
        if row.text("name") == name:
            return _class(row)
    raise unknown_part("wire rope construction", name, (row.text("name") for row in CLASSES.rows()))


def grades() -> list[WireRopeGrade]:
    """Return the rope grades, weakest first."""
    return [WireRopeGrade(row.text("name"), row.number("strength"), row.source, row.mark) for row in GRADES.rows()]


def wire_rope_grade(name: str) -> WireRopeGrade:
    """Return one grade by its name; PartError if the catalogue has no such grade.

    >>> wire_rope_grade("1770").strength_pa
    1770000000.0
    """
    for grade in grades():
        if grade.name == name:
            return grade
    raise unknown_part("wire rope grade", name, (grade.name for grade in grades()))


def wire_rope_diameters() -> list[float]:
    """Return the usual nominal diameters in metres, ascending (common practice, no source)."""
    return [row.number("diameter") for row in SIZES.rows()]


def _class(row: Row) -> WireRopeClass:
    low, high = row.maybe("discard_wires_low"), row.maybe("discard_wires_high")
    return WireRopeClass(
        name=row.text("name"),
        strands=int(row.number("strands")),
        core=row.text("core"),
        w_factor=row.maybe("w"),
        c_factor=row.maybe("c"),
        k_factor=row.number("k"),
        discard_wires=None if low is None or high is None else (int(low), int(high)),
        source=row.source,
        mark=row.mark,
    )
