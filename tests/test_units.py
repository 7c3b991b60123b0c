"""The strict reader and the formatting of numbers: what is accepted, what is refused and why, and conversions against exact definitions.

The exact factors stand here by themselves, worked out from the definitions in `Fraction`: inch 25.4 mm and pound 0.45359237 kg (the
international yard and pound of 1959), standard gravity 9.80665 m/s² (CGPM 1901), horsepower 550 ft·lbf/s. They share nothing with pint.
"""

import copy
import itertools
import math
import pickle
import subprocess
import sys
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from rigcheck import unit_table, units
from rigcheck.errors import QuantityError
from rigcheck.units import KINDS, Quantity, from_unit, kind_of_unit, number, read, show, to_unit

INCH = Fraction("0.0254")
FOOT = 12 * INCH
POUND = Fraction("0.45359237")
GRAVITY = Fraction("9.80665")
POUND_FORCE = POUND * GRAVITY
PI = Fraction("3.14159265358979323846264338327950288")

EXACT = {
    "length": {"mm": Fraction(1, 1000), "cm": Fraction(1, 100), "m": 1, "km": 1000, "in": INCH, '"': INCH, "ft": FOOT, "'": FOOT, "yd": 3 * FOOT},
    "mass": {
        "kg": 1, "g": Fraction(1, 1000), "t": 1000, "tonne": 1000, "tonnes": 1000, "lb": POUND, "lbs": POUND,
        "short ton": 2000 * POUND, "short tons": 2000 * POUND, "long ton": 2240 * POUND, "long tons": 2240 * POUND,
    },
    "force": {"N": 1, "kN": 1000, "daN": 10, "kgf": GRAVITY, "lbf": POUND_FORCE, "kip": 1000 * POUND_FORCE},
    "angle": {"deg": PI / 180, "°": PI / 180, "rad": 1},
    "voltage": {"V": 1, "mV": Fraction(1, 1000), "kV": 1000},
    "current": {"A": 1, "mA": Fraction(1, 1000)},
    "resistance": {
        "ohm": 1, "Ω": 1, "\u2126": 1, "mohm": Fraction(1, 1000), "mΩ": Fraction(1, 1000), "kohm": 1000, "kΩ": 1000,
    },
    "torque": {
        **dict.fromkeys(["N·m", "N m", "Nm", "N*m", "N⋅m", "N · m", "N  m"], 1), **dict.fromkeys(["kN·m", "kN m", "kNm"], 1000),
        **dict.fromkeys(["N mm", "N·mm", "Nmm"], Fraction(1, 1000)), "kgf·cm": GRAVITY / 100, "kgf·m": GRAVITY, "kgf m": GRAVITY,
        **dict.fromkeys(["lbf·ft", "lbf ft", "ft·lbf", "ft lbf", "ft*lbf"], POUND_FORCE * FOOT),
        **dict.fromkeys(["lbf·in", "in·lbf", "lbf in", "in lbf"], POUND_FORCE * INCH),
    },
    "speed": {"m/s": 1, "m / s": 1, "m/min": Fraction(1, 60), "mm/s": Fraction(1, 1000), "ft/min": FOOT / 60, "ft/s": FOOT},
    "angular_speed": {"rpm": PI / 30, "1/min": PI / 30, "rev/min": PI / 30, "rad/s": 1},
    "stress": {
        **dict.fromkeys(["N/mm²", "N/mm2", "N/mm^2", "MPa"], 10**6), "GPa": 10**9, "kPa": 1000, "Pa": 1,
        "psi": POUND_FORCE / INCH**2, "ksi": 1000 * POUND_FORCE / INCH**2,
    },
    "power": {"W": 1, "kW": 1000, "hp": 550 * FOOT * POUND_FORCE},
    "time": {"s": 1, "min": 60, "h": 3600, "ms": Fraction(1, 1000)},
    "mass_per_length": {
        "kg/m": 1, "kg/100m": Fraction(1, 100), "kg/100 m": Fraction(1, 100), "g/m": Fraction(1, 1000),
        "lb/ft": POUND / FOOT, "lb/100ft": POUND / FOOT / 100, "lb/100 ft": POUND / FOOT / 100,
    },
    "acceleration": {"m/s²": 1, "m/s2": 1, "ft/s²": FOOT, "ft/s2": FOOT},
    "area": {
        "mm²": Fraction(1, 10**6), "mm2": Fraction(1, 10**6), "cm²": Fraction(1, 10**4), "m²": 1, "in²": INCH**2, "in2": INCH**2, "ft²": FOOT**2,
    },
    "second_moment": {
        "mm⁴": Fraction(1, 10**12), "mm4": Fraction(1, 10**12), "mm^4": Fraction(1, 10**12), "cm⁴": Fraction(1, 10**8), "m⁴": 1, "in⁴": INCH**4, "in4": INCH**4,
    },
    "inertia": {
        **dict.fromkeys(["kg·m²", "kg m2", "kg·m^2", "kgm²"], 1), "kg·cm²": Fraction(1, 10**4), "kgcm2": Fraction(1, 10**4),
        "lb·ft²": POUND * FOOT**2, "lb·in²": POUND * INCH**2,
    },
    "resistance_per_length": {
        "ohm/km": Fraction(1, 1000), "Ω/km": Fraction(1, 1000), "ohm/m": 1, "Ω/m": 1, "ohm/1000ft": 1 / (1000 * FOOT), "ohm/1000 ft": 1 / (1000 * FOOT),
    },
    "stiffness": {"N/m": 1, "N/mm": 1000, "lbf/in": POUND_FORCE / INCH},
    "energy": {"J": 1, "kJ": 1000, "N·m": 1, "Nm": 1, "ft·lbf": FOOT * POUND_FORCE, "lbf·ft": FOOT * POUND_FORCE},
    "torque_per_current": {
        "N·m/A": 1, "Nm/A": 1, "N m/A": 1, "N·mm/A": Fraction(1, 1000), "Nmm/A": Fraction(1, 1000),
        **dict.fromkeys(["lbf·in/A", "in·lbf/A"], POUND_FORCE * INCH), **dict.fromkeys(["lbf·ft/A", "ft·lbf/A"], POUND_FORCE * FOOT),
    },
    "per_temperature": {"1/K": 1, "1/°C": 1, "1/°F": Fraction(9, 5)},
    "ratio": {"%": Fraction(1, 100)},
}  # fmt: skip
EVERY_UNIT = [(kind, unit, Fraction(factor)) for kind, row in EXACT.items() for unit, factor in row.items()]
TEMPERATURE_UNITS = ["°C", "degC", "C", "deg C", "°F", "degF", "F", "deg F", "K"]


def refused(text, kind):
    with pytest.raises(QuantityError) as caught:
        read(text, kind)
    return caught.value


# --- conversion


@pytest.mark.parametrize(("kind", "unit", "factor"), EVERY_UNIT)
def test_every_unit_converts_by_its_exact_definition(kind, unit, factor):
    assert float(read(f"7 {unit}", kind)) == pytest.approx(float(7 * factor), rel=5e-16, abs=0)
    assert from_unit(7.0, unit) == pytest.approx(float(7 * factor), rel=5e-16, abs=0)
    assert to_unit(float(factor), unit) == pytest.approx(1, rel=5e-16, abs=0)


@pytest.mark.parametrize(
    ("unit", "published"),
    [
        ("lb", 0.45359237),
        ("in", 0.0254),
        ("lbf", 4.4482216152605),
        ("hp", 745.69987158227022),
        ("psi", 6894.757293168),
        ("kip", 4448.2216152605),
    ],
)
def test_us_units_have_their_published_factors(unit, published):
    assert from_unit(1, unit) == pytest.approx(published, rel=1e-13, abs=0)


def test_the_table_of_exact_factors_covers_every_spelling_that_is_read():
    tested = {kind: {unit_table.fold(unit) for unit in row} for kind, row in EXACT.items()}
    tested["temperature"] = {unit_table.fold(unit) for unit in TEMPERATURE_UNITS}
    assert tested == {kind: set(names) for kind, names in unit_table.OFFERED.items()}
    assert set(tested) == set(KINDS)


def test_a_spelling_of_two_kinds_has_one_factor():
    shared = [names for names in unit_table.UNITS.values() if len(names) > 1]
    assert shared
    for names in shared:
        assert len({unit_table.conversion(name) for name in names.values()}) == 1


@pytest.mark.parametrize(("kind", "row"), KINDS.items())
def test_every_kind_shows_in_units_of_its_own_and_gives_an_example_that_reads(kind, row):
    assert kind in kind_of_unit(row.metric)
    assert kind in kind_of_unit(row.us)
    assert kind == "temperature" or from_unit(1, row.si) == 1
    assert read(row.example, kind).kind == kind
    assert row.name.split()[0] in ("a", "an")


@pytest.mark.parametrize(
    ("celsius", "fahrenheit", "kelvin"),
    [(0, 32, 273.15), (100, 212, 373.15), (-40, -40, 233.15), (-273.15, -459.67, 0), (1200, 2192, 1473.15)],
)
def test_temperatures_agree_at_fixed_points(celsius, fahrenheit, kelvin):
    for text in [f"{kelvin} K", *(f"{celsius} {u}" for u in TEMPERATURE_UNITS[:4]), *(f"{fahrenheit} {u}" for u in TEMPERATURE_UNITS[4:8])]:
        assert float(read(text, "temperature")) == pytest.approx(kelvin, rel=1e-15, abs=1e-300)
    assert to_unit(kelvin, "°F") == pytest.approx(fahrenheit, abs=1e-12)


def test_kind_of_unit_names_every_kind_of_a_spelling():
    assert kind_of_unit("ft·lbf") == kind_of_unit("ft lbf") == ("torque", "energy")
    assert kind_of_unit("lb") == ("mass",)
    assert kind_of_unit("") == kind_of_unit("1") == ("ratio",)
    assert kind_of_unit("ton") == kind_of_unit("furlong") == ()


def test_converting_by_an_unknown_unit_is_refused_with_the_nearest_spelling():
    with pytest.raises(QuantityError, match='"furlong" is not a unit known here'):
        from_unit(1, "furlong")
    with pytest.raises(QuantityError, match="perhaps MPa: capitals matter"):
        to_unit(1, "mpa")
    with pytest.raises(QuantityError, match='"ton" is not a unit'):
        show(1.0, "ton")


# --- what is read

ACCEPTED = [
    ("120 kg", "mass", 120, None),
    ("  120 kg \n", "mass", 120, None),
    ("120kg", "mass", 120, None),
    ("120\u00a0kg", "mass", 120, None),
    ("1,5 m", "length", 1.5, None),
    ("1.5 m", "length", 1.5, None),
    ("0,500 m", "length", 0.5, None),
    ("1.125 in", "length", 1.125 * 0.0254, None),
    ("1,50 m", "length", 1.5, None),
    ("1,5000 m", "length", 1.5, None),
    ("1234,500 mm", "length", 1.2345, None),
    (".5 in", "length", 0.0127, None),
    ("007 mm", "length", 0.007, None),
    ("4.5 mm", "length", 0.0045, None),
    ("1e3 N", "force", 1000, None),
    ("1,5E+3 N", "force", 1500, None),
    ("1e-3 m", "length", 0.001, None),
    ("+5 m", "length", 5, None),
    ("-5 m", "length", -5, None),
    ("−5 m", "length", -5, None),
    ("-0 m", "length", 0, None),
    ("0 kg", "mass", 0, None),
    ("1/4 in", "length", 0.00635, None),
    ("1 1/4 in", "length", 0.03175, None),
    ("-1/4 in", "length", -0.00635, None),
    ("-1 1/4 in", "length", -0.03175, None),
    ("5/4 in", "length", 0.03175, None),
    ("1 / 4 in", "length", 0.00635, None),
    ('3/8"', "length", 0.009525, None),
    ("1/2 hp", "power", 372.84993579113507, None),
    ("5 ft 6 in", "length", 1.6764, None),
    ("5ft6in", "length", 1.6764, None),
    ("5' 6\"", "length", 1.6764, None),
    ("5'6\"", "length", 1.6764, None),
    ("5’ 6”", "length", 1.6764, None),
    ("5′ 6″", "length", 1.6764, None),
    ("5' 6 1/2\"", "length", 1.6891, None),
    ("5 ft 6,5 in", "length", 1.6891, None),
    ("-5 ft 6 in", "length", -1.6764, None),
    ("-0 ft 6 in", "length", -0.1524, None),
    ("6'", "length", 1.8288, None),
    ('6"', "length", 0.1524, None),
    ("30°", "angle", math.pi / 6, None),
    ("90 deg", "angle", math.pi / 2, None),
    ("180 deg", "angle", math.pi, None),
    ("5 1/min", "angular_speed", math.pi / 6, None),
    ("1 1/2 1/min", "angular_speed", math.pi / 20, None),
    ("14 kg/100 m", "mass_per_length", 0.14, None),
    ("20 ft·lbf", "torque", 20 * 1.3558179483314004, None),
    ("20 ft·lbf", "energy", 20 * 1.3558179483314004, None),
    ("0.95", "ratio", 0.95, None),
    ("0,95", "ratio", 0.95, None),
    ("95 %", "ratio", 0.95, None),
    ("95%", "ratio", 0.95, None),
    ("1/20", "ratio", 0.05, None),
    ("120 kg ± 5 kg", "mass", 120, 5),
    ("120 kg ± 5", "mass", 120, 5),
    ("120 kg±5kg", "mass", 120, 5),
    ("120 kg +- 5 kg", "mass", 120, 5),
    ("120 kg +/- 5 kg", "mass", 120, 5),
    ("120 kg ± 5 %", "mass", 120, 6),
    ("120 kg ± 10 lb", "mass", 120, 4.5359237),
    ("120 kg ± 0 kg", "mass", 120, 0),
    ("-2 m ± 5 %", "length", -2, 0.1),
    ("2 in ± 1/16 in", "length", 0.0508, 0.0015875),
    ("2 in ± 1/16", "length", 0.0508, 0.0015875),
    ("5 ft 6 in ± 1/2 in", "length", 1.6764, 0.0127),
    ("20 °C ± 5 °C", "temperature", 293.15, 5),
    ("20 °C ± 5", "temperature", 293.15, 5),
    ("20 °C ± 9 °F", "temperature", 293.15, 5),
    ("68 °F ± 9", "temperature", 293.15, 5),
    ("293.15 K ± 5 °C", "temperature", 293.15, 5),
    ("-459.67 °F", "temperature", 0, None),
    ("-273.15 °C", "temperature", 0, None),
    ("0.95 ± 0.02", "ratio", 0.95, 0.02),
    ("1e12 N", "force", 1e12, None),
    ("1e-15 m", "length", 1e-15, None),
]


@pytest.mark.parametrize(("text", "kind", "value", "plus_minus"), ACCEPTED)
def test_what_is_unambiguous_is_read(text, kind, value, plus_minus):
    quantity = read(text, kind)
    assert quantity.value == pytest.approx(value, rel=1e-15, abs=0)
    assert (quantity.plus_minus is None) == (plus_minus is None)
    assert quantity.plus_minus is None or quantity.plus_minus == pytest.approx(plus_minus, rel=1e-15, abs=0)
    assert (quantity.kind, quantity.text) == (kind, text.strip())
    assert math.copysign(1, quantity.value) == 1 or quantity.value < 0


def test_a_quantity_is_a_value_that_can_be_hashed_copied_and_kept():
    quantity = read(" 120 kg ± 5 kg", "mass")
    assert quantity == Quantity(120.0, 5.0, "mass", "120 kg ± 5 kg")
    assert (float(quantity), str(quantity)) == (120.0, "120 kg ± 5 kg")
    assert quantity == copy.deepcopy(quantity) == pickle.loads(pickle.dumps(quantity))
    assert len({quantity, read("120 kg ± 5 kg", "mass"), read("120kg", "mass")}) == 2
    with pytest.raises(AttributeError):
        quantity.value = 1.0


# --- what is refused

REFUSED = [  # text, kind, words of what is wrong, words of what would be right
    ("1,500 kg", "mass", "could be 1500 or 1.5", '"1500 kg" or "1.5 kg"'),
    ("-12,000 m", "length", "could be 12000 or 12", '"-12000 m" or "-12 m"'),
    ("1,500e3 N", "force", "could be 1500 or 1.5", '"1500e3 N" or "1.5e3 N"'),
    ("120 kg ± 1,500 kg", "mass", "could be 1500 or 1.5", "1.5 kg"),
    ("5 ft 6,500 in", "length", "could be 6500 or 6.5", "6.5"),
    ("1,500.0 kg", "mass", "more than one decimal mark", "no thousands marks"),
    ("1.500,0 kg", "mass", "more than one decimal mark", "no thousands marks"),
    ("1,500,000 kg", "mass", "more than one decimal mark", "no thousands marks"),
    ("1.5.0 kg", "mass", "more than one decimal mark", "no thousands marks"),
    ("5. kg", "mass", "one with no digit after it", "one decimal mark"),
    ("1e3.5 N", "force", "more than one decimal mark", "one decimal mark"),
    ("1 500 kg", "mass", "in groups", 'write "1500 kg"'),
    ("1\u202f500 kg", "mass", "in groups", 'write "1500 kg"'),
    ("1'500 kg", "mass", "in groups", 'write "1500 kg"'),
    ("1’500 kg", "mass", "in groups", 'write "1500 kg"'),
    ("1_500 kg", "mass", "in groups", 'write "1500 kg"'),
    ("-1 500 000,5 N", "force", "in groups", 'write "-1500000,5 N"'),
    ("1 500/1000 in", "length", "in groups", "1500/1000 in"),
    ("2 ton", "mass", "which ton", "short ton"),
    ("2 tons", "mass", "which ton", "long ton"),
    ("2 TON", "mass", "which ton", "long ton"),
    ("2 ton", "force", "which ton", "kN"),
    ("5 t ± 1 ton", "mass", "which ton", "short ton"),
    ("50 lb", "force", '"50 lb" is a mass, and a force is due', "lbf"),
    ("50 kg", "force", "is a mass, and a force is due", "kgf"),
    ("50 lbf", "mass", "is a force, and a mass is due", "kg, g, t, lb"),
    ("5 m", "mass", "is a length, and a mass is due", "kg"),
    ("5 kg ± 2 m", "mass", 'm in "5 kg ± 2 m" is a length, and a mass is due', "kg"),
    ("5 ft 6 in", "mass", "is a length, and a mass is due", "kg"),
    ("20 ft·lbf", "force", "is a torque or an energy, and a force is due", "lbf"),
    ("5 %", "mass", "is a plain ratio, and a mass is due", "kg"),
    ("5 kg", "ratio", "is a mass, and a plain ratio is due", "%"),
    ("24 V", "current", "is a voltage, and a current is due", "mA"),
    ("5 kilo", "mass", 'the unit "kilo", which is not read', "kg"),
    ("5 #", "mass", 'the unit "#", which is not read', "kg"),
    ("5 furlong", "length", 'the unit "furlong"', "mm, cm, m"),
    ("5 ft·lb", "torque", 'the unit "ft·lb"', "write ft·lbf"),
    ("5 inches", "length", 'the unit "inches"', "write in"),
    ("5 m3", "area", 'the unit "m3"', "mm²"),
    ("5 * m", "length", "not read", "mm, cm, m"),
    ("5 N**m", "torque", "not read", "N·m"),
    ("5 KG", "mass", 'the unit "KG", and capitals matter', "write kg"),
    ("5 MM", "length", "capitals matter", "write mm"),
    ("5 M", "length", "capitals matter", "write m"),
    ("5 n", "force", "capitals matter", "write N"),
    ("5 Kn", "force", "capitals matter", "write kN"),
    ("5 mpa", "stress", "capitals matter", "write MPa"),
    ("5 RPM", "angular_speed", "capitals matter", "write rpm"),
    ("5 mN", "force", 'the unit "mN", which is not read', "kN"),
    ("5 MN", "force", 'the unit "MN", which is not read', "kN"),
    ("1/0 in", "length", "divides by zero", "1/4"),
    ("1 1/0 in", "length", "divides by zero", "1/4"),
    ("1 5/4 in", "length", "one or more by itself", "1 1/4"),
    ("1-1/4 in", "length", "more than one number", '"1 1/4 in"'),
    ("1.5/2 in", "length", "more than one number", '"1 1/4 in"'),
    ("1/4.5 in", "length", "more than one number", '"1 1/4 in"'),
    ("5 m 20 cm", "length", "more than one number", "cm"),
    ("5 ft in", "length", 'the unit "ft in"', "mm"),
    ("5 5 kg", "mass", "more than one number", "kg"),
    ("5-6 mm", "length", "more than one number", "mm"),
    ("5.5 ft 6 in", "length", "more than one number", '"5 ft 6 in"'),
    ("5 ft 12 in", "length", "less than 12 inches", '"5 ft 6 in"'),
    ("5 ft -6 in", "length", "less than 12 inches", '"5 ft 6 in"'),
    ("5'-6\"", "length", "less than 12 inches", '"5 ft 6 in"'),
    ("5'6", "length", "more than one number", '"5 ft 6 in"'),
    ("5 ft 6 in ± 1", "length", "in feet or inches", "1/2 in"),
    ("120", "mass", '"120" has no unit', '"120 kg"'),
    ("120 ± 5 kg", "mass", "has no unit after its value", '"120 kg ± 5 %"'),
    ("kg", "mass", "does not begin with a number", '"120 kg"'),
    ("/min", "angular_speed", "does not begin with a number", "rpm"),
    ("- 5 kg", "mass", "does not begin with a number", '"120 kg"'),
    ("--5 kg", "mass", "does not begin with a number", '"120 kg"'),
    ("inf m", "length", "does not begin with a number", '"1.6 m"'),
    ("nan", "ratio", "does not begin with a number", '"0.95"'),
    ("-inf N", "force", "does not begin with a number", "kN"),
    ("1e999 N", "force", "beyond what is read, which is 1e-15 N to 1e12 N", "kN"),
    ("-1e999 N", "force", "beyond what is read", "kN"),
    ("1.0001e12 N", "force", "beyond what is read", "kN"),
    ("1e12 kN", "force", "beyond what is read", "kN"),
    ("1e-16 m", "length", "beyond what is read", "mm"),
    ("1e-999 m", "length", "beyond what is read", "mm"),
    ("5 m ± 1e-999 m", "length", "beyond what is read", "mm"),
    ("5 m ± 1e13 m", "length", "beyond what is read", "mm"),
    ("٥ kg", "mass", 'holds "٥"', "plain digits"),
    ("５ kg", "mass", 'holds "５"', "plain digits"),
    ("五 kg", "mass", 'holds "五"', "plain digits"),
    ("5² m", "length", 'holds "²"', "plain digits"),
    ("10³ N", "force", 'holds "³"', "plain digits"),
    ("½ in", "length", 'holds "½"', "plain digits"),
    ("5\x00 m", "length", r'"5\x00 m" holds a control character', "by hand"),
    ("5\tm", "length", r'"5\tm" holds a control character', "by hand"),
    ("5\u200b m", "length", "cannot be seen", "by hand"),
    ("5 \ud800m", "length", r'"5 \ud800m"', "by hand"),
    ("", "length", '"" is empty', '"1.6 m"'),
    (" \n ", "length", '"" is empty', '"1.6 m"'),
    ("5" + " " * 78 + "kg", "mass", "is 81 characters long, and 80 are the most", '"120 kg"'),
    ("± 5 kg", "mass", "one value before the ±", '"120 kg ± 5 %"'),
    ("+-5 kg", "mass", "one value before the ±", '"120 kg ± 5 %"'),
    ("5 kg ±", "mass", "one tolerance after it", '"120 kg ± 5 %"'),
    ("5 kg ± 1 ± 1", "mass", "one tolerance after it", '"120 kg ± 5 %"'),
    ("5 kg ± -1 kg", "mass", "tolerance below zero", '"120 kg ± 5 %"'),
    ("5 kg ± kg", "mass", "does not begin with a number", '"120 kg"'),
    ("5 kg ± inf", "mass", "does not begin with a number", '"120 kg"'),
    ("5 kg +2 -1", "mass", "more than one number", "kg"),
    ("1e+-5 kg", "mass", "not read here", "kg"),
    ("20 °C ± 5 %", "temperature", "depends on where its scale begins", '"80 °C ± 5 °C"'),
    ("95 % ± 2 %", "ratio", "per cent of the value or points", '"0.95 ± 0.02"'),
    ("95 ± 2 %", "ratio", "per cent of the value or points", '"0.95 ± 0.02"'),
    ("95 % ± 0.02", "ratio", "per cent of the value or points", '"0.95 ± 0.02"'),
    ("-273.16 °C", "temperature", "below absolute zero", '"80 °C"'),
    ("-460 °F", "temperature", "below absolute zero", '"80 °C"'),
    ("-1 K", "temperature", "below absolute zero", '"80 °C"'),
    (120, "mass", "120 is a bare number and has no unit", 'write it with its unit, such as "120 kg"'),
    (1.5, "length", "1.5 is a bare number and has no unit", 'write it with its unit, such as "1.6 m"'),
    (math.nan, "length", "nan is a bare number", "with its unit"),
    (True, "mass", "True is not a text with a number and its unit", 'write it with its unit, such as "120 kg"'),
    (None, "mass", "None is not a text", 'write it with its unit, such as "120 kg"'),
    (["120 kg"], "mass", "['120 kg'] is not a text", 'write it with its unit, such as "120 kg"'),
    ({}, "mass", "is not a text", "with its unit"),
    (0.95, "ratio", "0.95 is not a text", 'write it as text, such as "0.95"'),
]


@pytest.mark.parametrize(("text", "kind", "wrong", "right"), REFUSED)
def test_what_is_ambiguous_or_wrong_is_refused_with_the_reason_and_what_would_be_right(text, kind, wrong, right):
    error = refused(text, kind)
    assert wrong in error.wrong
    assert right in error.right
    assert str(error).count("\n") == 1
    assert str(error).replace("\n", "").isprintable()


@pytest.mark.parametrize(("kind", "other"), list(itertools.permutations(KINDS, 2)))
def test_every_unit_of_another_kind_is_refused_and_both_kinds_are_named(kind, other):
    for unit in unit_table.OFFERED[other].values():
        if kind not in kind_of_unit(unit):
            error = refused(f"5 {unit}", kind)
            assert KINDS[other].name in error.wrong
            assert f"{KINDS[kind].name} is due" in error.wrong
            assert KINDS[kind].example in error.right


def test_no_change_of_case_is_guessed():
    for kind, spellings in unit_table.OFFERED.items():
        for spelling in spellings.values():
            for changed in {spelling.upper(), spelling.lower(), spelling.swapcase()}:
                if kind not in kind_of_unit(changed):
                    assert f"5 {changed}".split(" ", 1)[1] in refused(f"5 {changed}", kind).wrong


def test_an_unknown_kind_is_a_fault_of_the_caller():
    with pytest.raises(KeyError, match="weight"):
        read("5 kg", "weight")


@pytest.mark.parametrize("wide", [f"{n} kg" for n in ("9" * 77, "0." + "0" * 74 + "1", "9" * 37 + "/" + "9" * 39, "1/" + "9" * 75)])
def test_numbers_of_many_digits_are_read_or_refused_and_nothing_else(wide):
    assert len(wide) == 80
    try:
        assert 0 < float(read(wide, "mass")) <= 1e12
    except QuantityError as error:
        assert "beyond what is read" in error.wrong


# --- properties

kinds_and_units = st.sampled_from([(kind, unit) for kind, unit, _ in EVERY_UNIT])
sizes = st.floats(1e-4, 900) | st.floats(-900, -1e-4)  # 1000 GPa is the most that is read


@given(kinds_and_units, sizes, st.none() | st.floats(1e-3, 1e3))
def test_a_number_written_with_its_unit_reads_back_the_same(kind_and_unit, value, spread):
    kind, unit = kind_and_unit
    spread = None if kind == "ratio" else spread
    text = f"{Decimal(value):.17g} {unit}" + (f" ± {spread!r} {unit}" if spread is not None else "")
    quantity = read(text, kind)
    assert to_unit(quantity.value, unit) == pytest.approx(value, rel=1e-12, abs=0)
    assert spread is None or to_unit(quantity.plus_minus, unit) == pytest.approx(spread, rel=1e-12, abs=0)


@given(kinds_and_units, sizes)
def test_a_comma_reads_as_the_point_does_unless_it_is_refused_as_ambiguous(kind_and_unit, value):
    kind, unit = kind_and_unit
    point = f"{value!r} {unit}"
    try:
        assert read(point.replace(".", ","), kind).value == read(point, kind).value
    except QuantityError as error:
        assert len(repr(value).partition(".")[2].partition("e")[0]) == 3
        assert "thousands or decimals" in error.wrong


@given(kinds_and_units, sizes, st.integers(1, 12))
def test_what_is_shown_reads_back_within_its_rounding(kind_and_unit, value, digits):
    kind, unit = kind_and_unit
    value_si = from_unit(value, unit)
    step = 10.0 ** (math.floor(math.log10(abs(value))) - digits + 1)
    shown = {towards: to_unit(read(show(value_si, unit, digits, towards), kind).value, unit) for towards in ("nearest", "up", "down")}
    noise = 2e-11 * abs(value) + 1e-300
    assert abs(shown["nearest"] - value) <= step / 2 + noise
    assert value - noise <= shown["up"] <= value + step + noise
    assert value - step - noise <= shown["down"] <= value + noise


@given(st.floats(150, 2000), st.sampled_from(["°C", "°F", "K"]))
def test_temperatures_shown_read_back_within_their_rounding(kelvin, unit):
    assert read(show(kelvin, unit, 6), "temperature").value == pytest.approx(kelvin, abs=6e-3)


looks_like = st.lists(
    st.sampled_from(
        [*"0123456789", *" .,'\"+-−±/%°²·*_", "e", "E", "ft", "in", "kg", "lb", "m", "N", "ton", "1/4", "+/-", "nan", "inf", "½", "\t"]
    ),
    max_size=24,
).map("".join)


@settings(max_examples=1500, deadline=None)
@given(st.text(max_size=200) | looks_like, st.sampled_from(sorted(KINDS)))
@example("5' 6\" ± 1/0", "length")
@example("1e5000000 N", "force")
@example("°", "angle")
def test_no_text_raises_anything_but_a_quantity_error(text, kind):
    try:
        quantity = read(text, kind)
    except QuantityError as error:
        assert error.wrong
        assert error.right
        str(error).encode()
    else:
        assert math.isfinite(quantity.value)
        assert quantity.value == 0 or 1e-15 <= abs(quantity.value) <= 1e12
        assert quantity.plus_minus is None or 0 <= quantity.plus_minus <= 1e12
        assert quantity.text == text.strip()


# --- numbers for people


@pytest.mark.parametrize(
    ("value", "digits", "towards", "shown"),
    [
        (6.0, 4, "nearest", "6"),
        (1200.0, 4, "nearest", "1200"),
        (1200.0, 2, "nearest", "1200"),
        (1176.8, 4, "nearest", "1177"),
        (123456.0, 4, "nearest", "123500"),
        (100, 1, "nearest", "100"),
        (0.5, 4, "nearest", "0.5"),
        (0.00012345, 3, "nearest", "0.000123"),
        (-1.5, 4, "nearest", "-1.5"),
        (2.5, 1, "nearest", "3"),
        (999.96, 4, "nearest", "1000"),
        (9.9999, 4, "up", "10"),
        (1.2341, 4, "up", "1.235"),
        (1.2349, 4, "down", "1.234"),
        (-1.2341, 4, "up", "-1.234"),
        (-1.2341, 4, "down", "-1.235"),
        (0.1 + 0.2, 4, "up", "0.3"),
        (0.3 - 1e-17, 4, "down", "0.3"),
        (0.30000001, 4, "up", "0.3001"),
        (0.0, 4, "up", "0"),
        (-0.0, 4, "nearest", "0"),
        (1e7, 4, "nearest", "10000000"),
        (1.2e8, 4, "nearest", "1.2e8"),
        (2.1e11, 4, "nearest", "2.1e11"),
        (-1.23456e8, 4, "down", "-1.235e8"),
        (1e-4, 4, "nearest", "0.0001"),
        (9e-5, 4, "nearest", "9e-5"),
        (1.2345e-7, 3, "down", "1.23e-7"),
        (9.99999e-5, 4, "nearest", "0.0001"),
        (math.pi, 16, "nearest", "3.141592653589793"),
        (math.nan, 4, "nearest", "unknown"),
        (None, 4, "up", "unknown"),
        (math.inf, 4, "up", "infinite"),
        (-math.inf, 4, "down", "-infinite"),
    ],
)
def test_a_number_has_so_many_digits_and_no_more(value, digits, towards, shown):
    assert number(value, digits, towards) == shown


@pytest.mark.parametrize(
    ("value_si", "unit", "shown"),
    [
        (0.006, "mm", "6 mm"),
        (1176.8, "N", "1177 N"),
        (293.15, "°C", "20 °C"),
        (math.pi / 6, "deg", "30 deg"),
        (math.pi / 6, "°", "30°"),
        (0.0254, '"', '1"'),
        (0.95, "%", "95 %"),
        (0.95, "", "0.95"),
        (0.95, "1", "0.95"),
        (2.1e11, "Pa", "2.1e11 Pa"),
        (None, "N", "unknown"),
        (math.nan, "kg", "unknown"),
        (math.inf, "kg", "infinite"),
    ],
)
def test_an_si_value_is_shown_in_the_unit_asked_for(value_si, unit, shown):
    assert show(value_si, unit) == shown


def test_demands_round_up_and_factors_round_down():
    assert show(1176.2, "N", towards="up") == "1177 N"
    assert show(1.9999, "", 3, towards="down") == "1.99"


def test_importing_does_not_load_pint_and_one_registry_serves_all():
    program = (
        "import sys; from rigcheck import unit_table, units; assert 'pint' not in sys.modules; units.read('1 lb', 'mass'); units.read('1 in', 'length'); "
        "assert 'pint' in sys.modules; assert unit_table.registry.cache_info().misses == 1"
    )
    done = subprocess.run([sys.executable, "-c", program], cwd=Path(units.__file__).parents[1], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
