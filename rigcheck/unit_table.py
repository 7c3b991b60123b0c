"""The units that are read and shown: kinds of quantity, spellings, what they mean, and how they convert."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of quantity: its name in a sentence, the units it is mostly shown in, the SI unit of its floats, and texts that read well."""

    name: str
    metric: str
    us: str
    si: str
    example: str
    us_example: str


KINDS = {
    "length": Kind("a length", "m", "ft", "m", "1.6 m", "5 ft 6 in"),
    "mass": Kind("a mass", "kg", "lb", "kg", "120 kg", "250 lb"),
    "force": Kind("a force", "N", "lbf", "N", "1.2 kN", "300 lbf"),
    "angle": Kind("an angle", "deg", "deg", "rad", "30 deg", "30 deg"),
    "temperature": Kind("a temperature", "°C", "°F", "K", "80 °C", "180 °F"),
    "voltage": Kind("a voltage", "V", "V", "V", "24 V", "24 V"),
    "current": Kind("a current", "A", "A", "A", "8 A", "8 A"),
    "resistance": Kind("a resistance", "ohm", "ohm", "ohm", "0.4 ohm", "0.4 ohm"),
    "torque": Kind("a torque", "N·m", "lbf·ft", "N·m", "35 N·m", "25 lbf·ft"),
    "speed": Kind("a speed", "m/min", "ft/min", "m/s", "6 m/min", "20 ft/min"),
    "angular_speed": Kind("a speed of turning", "rpm", "rpm", "rad/s", "40 rpm", "40 rpm"),
    "stress": Kind("a stress", "N/mm²", "ksi", "Pa", "250 N/mm²", "36 ksi"),
    "power": Kind("a power", "W", "W", "W", "370 W", "0.5 hp"),
    "time": Kind("a time", "s", "s", "s", "30 s", "30 s"),
    "mass_per_length": Kind("a mass per length", "kg/m", "lb/ft", "kg/m", "0.14 kg/m", "0.1 lb/ft"),
    "acceleration": Kind("an acceleration", "m/s²", "ft/s²", "m/s²", "0.5 m/s²", "1.5 ft/s²"),
    "area": Kind("an area", "mm²", "in²", "m²", "2.5 mm²", "0.01 in²"),
    "second_moment": Kind("a second moment of area", "cm⁴", "in⁴", "m⁴", "12 cm⁴", "0.3 in⁴"),
    "inertia": Kind("a moment of inertia", "kg·m²", "lb·ft²", "kg·m²", "0.02 kg·m²", "0.5 lb·ft²"),
    "resistance_per_length": Kind("a resistance per length", "ohm/km", "ohm/1000ft", "ohm/m", "7.4 ohm/km", "2.3 ohm/1000ft"),
    "stiffness": Kind("a stiffness", "N/mm", "lbf/in", "N/m", "12 N/mm", "70 lbf/in"),
    "energy": Kind("an energy", "J", "ft·lbf", "J", "900 J", "660 ft·lbf"),
    "torque_per_current": Kind("a torque per current", "N·m/A", "lbf·in/A", "N·m/A", "0.05 N·m/A", "0.5 lbf·in/A"),
    "per_temperature": Kind("a share per degree", "1/K", "1/°F", "1/K", "0.004 1/K", "0.0022 1/°F"),
    "ratio": Kind("a plain ratio", "", "", "", "0.95", "0.95"),
}

# For each kind: the unit as pint knows it, then every spelling read here; the first spelling is the one offered in messages.
# Not spelled out, because `fold` makes them one: ² 2 and ^2, ⁴ 4 and ^4; · * ⋅ and a space as product sign; spaces beside a stroke.
TABLE = {
    "length": {"millimeter": "mm", "centimeter": "cm", "meter": "m", "kilometer": "km", "inch": 'in, "', "foot": "ft, '", "yard": "yd"},
    "mass": {"kilogram": "kg", "gram": "g", "metric_ton": "t, tonne, tonnes", "pound": "lb, lbs", "short_ton": "short ton, short tons",
             "long_ton": "long ton, long tons"},
    "force": {"newton": "N", "decanewton": "daN", "kilonewton": "kN", "kilogram_force": "kgf", "pound_force": "lbf", "1000*pound_force": "kip"},
    "angle": {"degree": "deg, °", "radian": "rad"},
    "temperature": {"degC": "°C, degC, deg C, C", "degF": "°F, degF, deg F, F", "kelvin": "K"},
    "voltage": {"volt": "V", "millivolt": "mV", "kilovolt": "kV"},
    "current": {"ampere": "A", "milliampere": "mA"},
    "resistance": {"ohm": "ohm, Ω", "milliohm": "mohm, mΩ", "kiloohm": "kohm, kΩ"},
    "torque": {"newton*meter": "N·m, Nm", "newton*millimeter": "N·mm, Nmm", "kilonewton*meter": "kN·m, kNm",
               "kilogram_force*centimeter": "kgf·cm", "kilogram_force*meter": "kgf·m",
               "pound_force*foot": "lbf·ft, ft·lbf", "pound_force*inch": "lbf·in, in·lbf"},
    "speed": {"meter/second": "m/s", "meter/minute": "m/min", "millimeter/second": "mm/s", "foot/minute": "ft/min", "foot/second": "ft/s"},
    "angular_speed": {"revolution/minute": "rpm, 1/min, rev/min", "radian/second": "rad/s"},
    "stress": {"newton/millimeter**2": "N/mm²", "megapascal": "MPa", "gigapascal": "GPa", "kilopascal": "kPa", "pascal": "Pa",
               "pound_force/inch**2": "psi", "1000*pound_force/inch**2": "ksi"},
    "power": {"watt": "W", "kilowatt": "kW", "550*foot*pound_force/second": "hp"},
    "time": {"second": "s", "minute": "min", "hour": "h", "millisecond": "ms"},
    "mass_per_length": {"kilogram/meter": "kg/m", "kilogram/(100*meter)": "kg/100m, kg/100 m", "gram/meter": "g/m",
                        "pound/foot": "lb/ft", "pound/(100*foot)": "lb/100ft, lb/100 ft"},
    "acceleration": {"meter/second**2": "m/s²", "foot/second**2": "ft/s²"},
    "area": {"millimeter**2": "mm²", "centimeter**2": "cm²", "meter**2": "m²", "inch**2": "in²", "foot**2": "ft²"},
    "second_moment": {"centimeter**4": "cm⁴", "millimeter**4": "mm⁴", "meter**4": "m⁴", "inch**4": "in⁴"},
    "inertia": {"kilogram*meter**2": "kg·m², kgm²", "kilogram*centimeter**2": "kg·cm², kgcm²",
                "pound*foot**2": "lb·ft²", "pound*inch**2": "lb·in²"},
    "resistance_per_length": {"ohm/kilometer": "ohm/km, Ω/km", "ohm/meter": "ohm/m, Ω/m", "ohm/(1000*foot)": "ohm/1000ft, ohm/1000 ft"},
    "stiffness": {"newton/meter": "N/m", "newton/millimeter": "N/mm", "pound_force/inch": "lbf/in"},
    "energy": {"joule": "J", "kilojoule": "kJ", "newton*meter": "N·m, Nm", "pound_force*foot": "ft·lbf, lbf·ft"},
    "torque_per_current": {"newton*meter/ampere": "N·m/A, Nm/A", "newton*millimeter/ampere": "N·mm/A, Nmm/A",
                           "pound_force*inch/ampere": "lbf·in/A, in·lbf/A", "pound_force*foot/ampere": "lbf·ft/A, ft·lbf/A"},
    "per_temperature": {"1/kelvin": "1/K, 1/°C", "1/delta_degF": "1/°F"},
    "ratio": {"percent": "%"},
}  # fmt: skip

# What a unit is shown as where US units are shown; a unit that is not listed is shown as it is. The unit is one a workshop there reads off its
# scales, gauges and plates: lbf also for kN, since blocks and ropes are rated in pounds; ksi, in which grades and moduli have few figures. Watts stay,
# in which electric power is told there too; kW is what motors are sold by, which is hp there.
SHOWN_IN_US = {
    "mm": "in", "cm": "in", "m": "ft", "km": "ft",
    "g": "lb", "kg": "lb", "t": "lb",
    "N": "lbf", "daN": "lbf", "kN": "lbf", "kgf": "lbf",
    "°C": "°F", "K": "°F",
    "N·mm": "lbf·in", "N·m": "lbf·ft", "kN·m": "lbf·ft", "kgf·cm": "lbf·in", "kgf·m": "lbf·ft",
    "m/s": "ft/min", "m/min": "ft/min", "mm/s": "ft/min",
    "Pa": "psi", "kPa": "psi", "MPa": "ksi", "N/mm²": "ksi", "GPa": "ksi",
    "kW": "hp",
    "g/m": "lb/ft", "kg/m": "lb/ft", "kg/100m": "lb/100ft",
    "m/s²": "ft/s²",
    "mm²": "in²", "cm²": "in²", "m²": "ft²",
    "mm⁴": "in⁴", "cm⁴": "in⁴", "m⁴": "in⁴",
    "kg·m²": "lb·ft²", "kg·cm²": "lb·in²",
    "ohm/km": "ohm/1000ft", "ohm/m": "ohm/1000ft",
    "N/m": "lbf/in", "N/mm": "lbf/in",
    "J": "ft·lbf", "kJ": "ft·lbf",
    "N·m/A": "lbf·in/A", "N·mm/A": "lbf·in/A",
    "1/K": "1/°F", "1/°C": "1/°F",
}  # fmt: skip

# What a US unit is told as where metric units are shown, of a quantity that somebody typed.
SHOWN_IN_METRIC = {
    "in": "mm", "ft": "m", "yd": "m", "lb": "kg", "short ton": "t", "long ton": "t", "lbf": "N", "kip": "kN", "°F": "°C",
    "lbf·ft": "N·m", "lbf·in": "N·m", "ft·lbf": "J", "ft/min": "m/min", "ft/s": "m/s", "psi": "kPa", "ksi": "N/mm²", "hp": "W",
    "lb/ft": "kg/m", "lb/100ft": "kg/100m", "ft/s²": "m/s²", "in²": "mm²", "ft²": "m²", "in⁴": "cm⁴", "lb·ft²": "kg·m²", "lb·in²": "kg·cm²",
    "ohm/1000ft": "ohm/km", "lbf/in": "N/mm", "lbf·in/A": "N·m/A", "lbf·ft/A": "N·m/A", "1/°F": "1/K",
}  # fmt: skip

# Characters that mean the same; the space-like ones come from text pasted out of a document.
SAME = str.maketrans({
    **dict.fromkeys("\u00a0\u2002\u2003\u2007\u2009\u200a\u202f", " "),
    "\u2212": "-", "\u2032": "'", "\u2019": "'", "\u2033": '"', "\u201d": '"', "\u2126": "Ω", "⋅": "·", "∙": "·", "*": "·",
})  # fmt: skip

# Spellings met in practice that are not read, and what is probably meant.
MEANT = {
    "ft·lb": "ft·lbf", "lb·ft": "lbf·ft", "in·lb": "in·lbf", "lb·in": "lbf·in", "kg·cm": "kgf·cm", "kg·m": "kgf·m", "kgs": "kg", "lbm": "lb",
    "foot": "ft", "feet": "ft", "inch": "in", "inches": "in", "metre": "m", "meter": "m", "metres": "m", "meters": "m", "metric·ton": "t",
    "pound": "lb", "pounds": "lb", "degree": "deg", "degrees": "deg", "lb/in2": "psi", "r/min": "rpm", "sec": "s", "hr": "h",
}  # fmt: skip


def fold(unit: str) -> str:
    """One spelling for those that differ only in product sign, spaces beside a stroke, or how a power is written."""
    unit = unit.strip().translate(SAME).replace("^2", "2").replace("²", "2").replace("^4", "4").replace("⁴", "4")
    return re.sub(r" *· *| +", "·", re.sub(r" */ *", "/", unit))


UNITS: dict[str, dict[str, str]] = {}  # folded spelling -> {kind: unit as pint knows it}
OFFERED: dict[str, dict[str, str]] = {}  # kind -> {folded spelling: spelling as offered}
for _kind, _rows in TABLE.items():
    for _pint_unit, _spellings in _rows.items():
        for _spelling in _spellings.split(", "):
            UNITS.setdefault(fold(_spelling), {})[_kind] = _pint_unit
            OFFERED.setdefault(_kind, {})[fold(_spelling)] = _spelling


def first_spelling(unit: str, kind: str) -> str:
    """The spelling that is offered for a unit of a kind, however it was spelled; the unit itself where it has none.

    >>> first_spelling("Nm", "torque"), first_spelling("'", "length"), first_spelling("", "ratio")
    ('N·m', 'ft', '')
    """
    pint_unit = UNITS.get(fold(unit), {}).get(kind)
    return TABLE[kind][pint_unit].split(", ")[0] if pint_unit else unit


@cache
def registry():
    """pint's registry, in exact fractions; built on the first conversion and not before, since it takes a good part of a second."""
    import pint

    return pint.UnitRegistry(non_int_type=Fraction)


@cache
def conversion(pint_unit: str) -> tuple[float, float, float]:
    """`times`, `over`, `shift` with SI = (number + shift) × times / over: exact pairs, such as 127 and 5000 for the inch, where floats hold them.

    >>> conversion("inch")
    (127.0, 5000.0, 0.0)
    """
    if pint_unit in ("degC", "degF"):
        times, over, _ = conversion(f"delta_{pint_unit}")
        return times, over, float(registry().Quantity(Fraction(0), pint_unit).to("kelvin").magnitude * Fraction(over) / Fraction(times))
    factor = Fraction(registry().parse_expression(pint_unit).to_base_units().magnitude)
    if max(factor.numerator, factor.denominator) > 2**53:
        return float(factor), 1.0, 0.0
    return float(factor.numerator), float(factor.denominator), 0.0
