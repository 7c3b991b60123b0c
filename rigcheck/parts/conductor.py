"""Copper conductors: largest resistance per length by area and class, and how it grows with temperature."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck.parts.tables import Table, number, text, unknown_part
from rigcheck.units import to_unit

AREA_TOLERANCE = 0.001
"""Relative; it takes up rounding on the way to square metres and joins no two listed sizes."""

CONDUCTORS = Table(
    "conductors.csv",
    (
        text("cable_class", choices=("1/2", "5", "5 tinned")),
        number("area", "mm2", 0.1, 1000, order="rising"),
        number("resistance", "ohm/km", 0.01, 500, order="falling"),
    ),
    key=("cable_class", "area"),
    group=("cable_class",),
    one_source=True,
)
TEMPERATURE = Table(
    "conductor_temperature.csv",
    (number("temperature", "degC", -50, 200, order="rising"), number("factor", "1", 0.3, 1.2, order="falling")),
    key=("temperature",),
    one_source=True,
)
COPPER = Table("copper.csv", (text("name"), number("coefficient", "1/K", 0.001, 0.01, as_printed=True)), key=("name",))


@dataclass(frozen=True)
class Conductor:
    """The largest resistance per length of one conductor at 20 °C; go and return each count."""

    area_m2: float
    cable_class: str
    resistance_ohm_m: float
    source: str
    mark: str


@dataclass(frozen=True)
class TemperatureCoefficient:
    """Growth of copper's resistance per kelvin, as a share of that at 20 °C."""

    name: str
    per_k: float
    source: str
    mark: str


def cable_classes() -> list[str]:
    """Return the classes listed: "1/2" solid or stranded, "5" flexible, "5 tinned"."""
    return list(dict.fromkeys(row.text("cable_class") for row in CONDUCTORS.rows()))


def conductor_areas(cable_class: str) -> list[float]:
    """Return the listed areas of a class in m², ascending; PartError for an unknown class."""
    if cable_class not in cable_classes():
        raise unknown_part("cable class", cable_class, cable_classes())
    return [row.number("area") for row in CONDUCTORS.rows() if row.text("cable_class") == cable_class]


def conductor_resistance(area_m2: float, cable_class: str) -> Conductor:
    """Return the largest resistance of a listed conductor at 20 °C.

    Errors: PartError for an unknown class, and for an area that is not a listed size.
    Source: IEC 60228, Tables 1 to 3.

    >>> round(conductor_resistance(2.5e-6, "5").resistance_ohm_m, 6)
    0.00798
    """
    areas = conductor_areas(cable_class)
    for row in CONDUCTORS.rows():
        area = row.number("area")
        if row.text("cable_class") == cable_class and abs(area_m2 - area) <= AREA_TOLERANCE * area:
            return Conductor(area, cable_class, row.number("resistance"), row.source, row.mark)
    listed = (f"{to_unit(area, 'mm2'):g} mm²" for area in areas)
    raise unknown_part(f"class {cable_class} conductor", f"{to_unit(area_m2, 'mm2'):g} mm²", listed)


def copper_temperature_coefficient(name: str = "cable table") -> TemperatureCoefficient:
    """Return the temperature coefficient of copper's resistance: that of a cable maker's printed table unless another is named.

    Errors: PartError for an unknown name. The recalled textbook value, "annealed copper", is 0.00393.

    >>> copper_temperature_coefficient().per_k
    0.004
    """
    for row in COPPER.rows():
        if row.text("name") == name:
            return TemperatureCoefficient(name, row.number("coefficient"), row.source, row.mark)
    raise unknown_part("temperature coefficient of copper", name, (row.text("name") for row in COPPER.rows()))
