"""Fibre ropes: breaking force and mass by material and catalogue size.

Sizes are those a table prints, never between them. The US tables pair an inch size with a rounded millimetre size
(1/2 in with 12 mm); either finds the row. Where two tables list a size, the lower strength stands.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from rigcheck.errors import PartError
from rigcheck.parts.tables import READ, Row, Table, number, text, unknown_part
from rigcheck.units import from_unit, to_unit

SIZE_TOLERANCE_M = 0.0003
ROUNDING_M = 1e-9
PI_OF_THE_RULE = 3.14
"""The licence rule is printed with this value; it reproduces 2218 lb for 1/2 in manila."""

_INCH_COLUMNS = (
    text("material"),
    text("size"),
    number("inches", "in", 0.1, 4, order="rising"),
    number("diameter", "mm", 2, 100, order="rising"),
    number("strength", "lbf", 100, 100_000, order="rising"),
)
US = Table(
    "fibre_ropes.csv",
    (*_INCH_COLUMNS, number("working_load", "lbf", 10, 20_000, order="rising"), number("mass", "lb/ft", 0.001, 2, may_be_blank=True)),
    key=("material", "diameter"),
    group=("material",),
    one_source=True,
)
FEDERAL = Table("fibre_ropes_federal.csv", _INCH_COLUMNS, key=("material", "diameter"), group=("material",))
DUAL = Table(
    "fibre_ropes_dual.csv",
    (
        text("material"),
        number("diameter", "mm", 2, 100, order="rising"),
        number("strength", "kN", 1, 500, order="rising"),
        number("working_load", "kN", 0.1, 100, order="rising"),
    ),
    key=("material", "diameter"),
    group=("material",),
    one_source=True,
)
ISO = Table(
    "fibre_ropes_iso.csv",
    (text("material"), number("diameter", "mm", 2, 100, order="rising"), number("strength", "kN", 1, 500, order="rising")),
    key=("material", "diameter"),
    group=("material",),
    one_source=True,
)
RULES = Table(
    "fibre_rope_rules.csv",
    (text("material"), number("manila_coefficient", "lbf/in2", 100, 2000, as_printed=True), number("comparison", "1", 1, 5)),
    key=("material",),
    one_source=True,
)
ANSWERING = (US, FEDERAL, DUAL)
RULE_MATERIALS = ("polyester",)


@dataclass(frozen=True)
class FibreRope:
    """A fibre rope of one catalogue size; the mass is None where the table prints none.

    `tested_diameter_m` is the size the strength belongs to: an inch table pairs 1/2 in (12.7 mm) with 12 mm, and a true
    12 mm rope is weaker than the rope the strength was printed for.
    """

    material: str
    diameter_m: float
    tested_diameter_m: float
    breaking_force_n: float
    mass_per_length_kg_m: float | None
    source: str
    mark: str
    table: str


def fibre_materials() -> list[str]:
    """Return the materials that have a readable strength.

    >>> fibre_materials()
    ['manila', 'polyamide', 'polypropylene', 'polyester-polyolefin', 'polyester']
    """
    return [*dict.fromkeys(row.text("material") for _, row in _read_rows()), *RULE_MATERIALS]


def fibre_sizes(material: str) -> list[float]:
    """Return the catalogue diameters of a material in metres, ascending; PartError for an unknown material.

    >>> fibre_sizes("polyester-polyolefin")[:3]
    [0.006, 0.008, 0.01]
    """
    _check_material(material)
    rows = US.rows() if material in RULE_MATERIALS else [row for _, row in _read_rows() if row.text("material") == material]
    return sorted({row.number("diameter") for row in rows})


def fibre_rope(material: str, diameter_m: float) -> FibreRope:
    """Return the rope of a material whose catalogue size lies within 0.3 mm of the diameter.

    Errors: PartError for an unknown material, and for a diameter that is no catalogue size.
    Source: the table named in the answer.

    >>> rope = fibre_rope("polyamide", 0.012)
    >>> round(rope.breaking_force_n), rope.table
    (25577, 'fibre_ropes.csv')
    """
    _check_material(material)
    if material in RULE_MATERIALS:
        return _by_rule(material, diameter_m)
    found = [(table, row) for table, row in _read_rows() if row.text("material") == material and _is_size(row, diameter_m)]
    if not found:
        raise _no_size(material, diameter_m)
    table, row = min(found, key=lambda pair: pair[1].number("strength"))
    mass = row.maybe("mass") if "mass" in row.cells else None
    size = f"{to_unit(row.number('diameter'), 'mm'):g} mm" + (f" ({row.text('size')})" if "size" in row.cells else "")
    tested = row.number("inches") if "inches" in row.cells else row.number("diameter")
    return FibreRope(material, diameter_m, tested, row.number("strength"), mass, f"{row.source}; size {size}", row.mark, table.file)


def _by_rule(material: str, diameter_m: float) -> FibreRope:
    """Strength from the circumference C of the rope as stated: coefficient · C² · comparison, in lb and in."""
    if not any(_is_size(row, diameter_m) for row in US.rows()):
        raise _no_size(material, diameter_m)
    rule = next(row for row in RULES.rows() if row.text("material") == material)
    circumference_in = PI_OF_THE_RULE * to_unit(diameter_m, "in")
    strength_lbf = rule.number("manila_coefficient") * circumference_in**2 * rule.number("comparison")
    return FibreRope(material, diameter_m, diameter_m, from_unit(strength_lbf, "lbf"), None, rule.source, rule.mark, RULES.file)


def _read_rows() -> Iterator[tuple[Table, Row]]:
    """Every row that may answer: those that were read, table by table."""
    return ((table, row) for table in ANSWERING for row in table.rows() if row.mark == READ)


def _is_size(row: Row, diameter_m: float) -> bool:
    sizes = [row.number(name) for name in ("diameter", "inches") if name in row.cells]
    return any(abs(size - diameter_m) <= SIZE_TOLERANCE_M + ROUNDING_M for size in sizes)


def _check_material(material: str) -> None:
    if material not in fibre_materials():
        raise unknown_part("fibre rope material", material, fibre_materials())


def _no_size(material: str, diameter_m: float) -> PartError:
    listed = (f"{to_unit(size, 'mm'):g} mm" for size in fibre_sizes(material))
    return unknown_part(f"size of {material} rope", f"{to_unit(diameter_m, 'mm'):g} mm", listed)
