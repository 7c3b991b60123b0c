"""What was typed, what is sold by a size, bounds that are refused and ways to find out: each is told in the system of units that is on.

The factors stand here by themselves, from the definitions of the inch (25.4 mm), the pound (0.45359237 kg) and standard gravity (9.80665 m/s²).
"""

import math
import re
from typing import Annotated, get_args, get_origin

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError, WithJsonSchema

from rigcheck import unit_table, units
from rigcheck.errors import InputError
from rigcheck.rig import fields
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.rig.fields import FieldError
from rigcheck.ui import finding_out
from rigcheck.units import KINDS, METRIC, SYSTEMS, US, label, read, shown_in
from rigcheck.whatif.catalogue_ropes import catalogue

INCH, POUND, GRAVITY = 0.0254, 0.45359237, 9.80665
FOOT, POUND_FORCE = 12 * INCH, POUND * GRAVITY
ANY_SYSTEM = st.sampled_from(SYSTEMS)

# --- what was typed, told in the system that is on

TOLD = [
    ("200 kg ± 5 kg", "mass", "200 kg ± 5 kg", "440.9 lb ± 11 lb"),
    ("120 kg ± 5 %", "mass", "120 kg ± 5 %", "264.6 lb ± 5 %"),
    ("140 kg ± 4", "mass", "140 kg ± 4", "308.6 lb ± 8.82 lb"),
    ("1,6 m", "length", "1,6 m", "5.249 ft"),
    ("-0.55 m", "length", "-0.55 m", "-1.804 ft"),
    ("1234.567 mm", "length", "1234.567 mm", "48.605 in"),
    ("5 ft 6 in", "length", "1.676 m", "5 ft 6 in"),
    ("5' 6 1/2\"", "length", "1.689 m", "5' 6 1/2\""),
    ("1 1/4 in ± 1 mm", "length", "31.75 mm ± 1 mm", "1.25 in ± 0.0394 in"),
    ("40 °C ± 5", "temperature", "40 °C ± 5", "104 °F ± 9 °F"),
    ("1.9 Nm", "torque", "1.9 Nm", "1.401 lbf·ft"),
    ("25 ft lbf", "torque", "33.9 N·m", "25 ft lbf"),
    ("2 tonnes", "mass", "2 tonnes", "4409 lb"),
    ("1/2 hp", "power", "372.8 W", "1/2 hp"),
    ("370 W", "power", "370 W", "370 W"),
    ("24 V", "voltage", "24 V", "24 V"),
    ("80 %", "ratio", "80 %", "80 %"),
]


@pytest.mark.parametrize(("text", "kind", "metric", "us"), TOLD)
def test_what_was_typed_is_told_in_the_system_shown_and_as_typed_where_it_was_typed_in_it(text, kind, metric, us):
    quantity = read(text, kind)
    assert str(quantity) == metric
    with shown_in(US):
        assert str(quantity) == f"{quantity}" == us
    assert quantity.text == text


SPELLINGS = [(kind, spelling) for kind, names in unit_table.OFFERED.items() if kind != "ratio" for spelling in names.values()]


@pytest.mark.parametrize("kind", unit_table.TABLE)
def test_every_unit_is_of_one_system_or_of_both(kind):
    for spelling in unit_table.OFFERED[kind].values():
        first = unit_table.first_spelling(spelling, kind)
        assert not (first in unit_table.SHOWN_IN_US and first in unit_table.SHOWN_IN_METRIC)
        for there in (unit_table.SHOWN_IN_US, unit_table.SHOWN_IN_METRIC):
            if first in there:
                assert kind in units.kind_of_unit(there[first]) or first == "ft·lbf"
    feet_pounds = {
        unit for unit in unit_table.OFFERED[kind].values() if any(sign in unit for sign in ("ft", "lb", "in", "°F", "hp", "psi", "ksi"))
    }
    assert {unit_table.first_spelling(unit, kind) for unit in feet_pounds - {"min", "m/min", "1/min", "rev/min"}} <= set(
        unit_table.SHOWN_IN_METRIC
    )


@given(st.sampled_from(SPELLINGS), st.floats(0.01, 9000), st.none() | st.floats(0.01, 9), ANY_SYSTEM)
def test_what_is_told_means_what_was_typed_to_four_digits_and_holds_no_unit_of_the_other_system(of_kind, amount, spread, system):
    kind, unit = of_kind
    assume(unit != "GPa" or amount <= 1000)  # more is beyond what is read
    typed = f"{amount:.5g} {unit}" + ("" if spread is None else f" ± {spread:.3g} {unit}")
    assume("e" not in typed.replace("degC", "").replace("degF", "").replace("deg", "").replace("tonne", "").replace("rev", ""))
    quantity = read(typed, kind)
    with shown_in(system):
        told = str(quantity)
    again = read(told, kind)
    assert again.value == pytest.approx(quantity.value, rel=5.1e-4, abs=0.06 if kind == "temperature" else 0)
    assert again.plus_minus == pytest.approx(quantity.plus_minus, rel=5.1e-3) if spread is not None else again.plus_minus is None
    others = unit_table.SHOWN_IN_US if system == US else unit_table.SHOWN_IN_METRIC
    assert unit_table.first_spelling(told.split("±")[0].strip().partition(" ")[2], kind) not in others
    assert quantity.text == typed


def test_a_size_that_is_sold_in_millimetres_keeps_its_name_in_both_systems():
    assert units.nominal(0.0125, "mm") == "12.5 mm"
    assert units.nominal(2.5e-6, "mm²") == "2.5 mm²"
    with shown_in(US):
        assert units.nominal(0.0125, "mm") == "0.4921 in (12.5 mm)"
        assert units.nominal(0.0127, "in") == "0.5 in"


@pytest.mark.parametrize(
    "rope",
    [*catalogue("steel", construction="7x19", grade="1770"), *catalogue("fibre")],
    ids=lambda rope: f"{rope.material or 'steel'} {rope.diameter_m}",
)
def test_a_rope_of_the_catalogue_keeps_the_size_it_is_sold_by(rope):
    assert read(rope.size, "length").value == pytest.approx(rope.diameter_m, rel=1e-12)
    with shown_in(US):
        measured, listed = rope.size.removesuffix(")").split(" (")
    metric, _, inches = listed.partition(", listed beside ")
    assert metric == rope.size
    assert read(measured, "length").value == pytest.approx(rope.diameter_m, rel=5e-4)
    assert bool(inches) == (rope.inch_size_m is not None)
    if inches:
        assert read(inches, "length").value == pytest.approx(rope.inch_size_m, rel=1e-12)
        assert read(inches, "length").value == pytest.approx(rope.diameter_m, abs=1.1e-3)


# --- bounds, in what is refused

FIELDS = {name: field for name, field in vars(fields).items() if get_origin(field) is Annotated and get_args(field)[0] is units.Quantity}


FAR = {"Stress": ("-9e11 Pa",), "Temperature": ("9e9 °F", "-200 °F")}  # a stress beyond the bound of its field is not even read


def refused_by(field, text: str) -> FieldError:
    with pytest.raises(ValidationError) as caught:
        TypeAdapter(field).validate_python(text)
    return caught.value.errors()[0]["ctx"]["error"]


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("name", FIELDS)
def test_the_bounds_of_a_field_are_told_in_the_system_shown_and_never_wider_than_they_are(name, system):
    field, reader = FIELDS[name], TypeAdapter(FIELDS[name])
    example = next(mark for mark in get_args(field)[1:] if isinstance(mark, WithJsonSchema)).json_schema["examples"][0]
    kind = next(kind for kind, row in KINDS.items() if row.example == example)
    shown_unit = KINDS[kind].us if system == US else KINDS[kind].metric
    with shown_in(system):
        for far in FAR.get(name, (f"9e11 {KINDS[kind].si}", f"-9e11 {KINDS[kind].si}")):
            fault = refused_by(field, far)
            told = re.fullmatch(r'".*" must (?:not )?be (?:more|less) than (.*)', fault.wrong)[1]
            if told != "zero":
                assert told.endswith(f" {shown_unit}"), fault.wrong
                assert reader.validate_python(told)
            assert units.example(kind) in fault.right


def test_there_are_fields_with_bounds_of_most_kinds():
    assert len(FIELDS) >= 18


@pytest.mark.parametrize(("system", "most", "nothing"), [(METRIC, "at most 200 mm", '"6 mm"'), (US, "at most 7.874 in", '"0.24 in"')])
def test_an_arrangement_tells_bounds_and_examples_in_the_units_shown(system, most, nothing):
    tackle = ARRANGEMENTS["tackle"]
    with shown_in(system):
        with pytest.raises(InputError) as caught:
            tackle.make(tackle.defaults() | {"rope_diameter": "1 km"})
        assert caught.value.wrong == '"1 km" is out of proportion'
        assert most in caught.value.right
        with pytest.raises(InputError) as caught:
            tackle.make({key: text for key, text in tackle.defaults().items() if key != "rope_diameter"})
        assert nothing in caught.value.right


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize(("slug", "item"), [(slug, item) for slug, one in ARRANGEMENTS.items() for item in one.inputs], ids=str)
def test_the_greatest_value_that_an_arrangement_tells_is_in_the_units_shown_and_within_its_bounds(slug, item, system):
    arrangement = ARRANGEMENTS[slug]
    assert item.kind in units.kind_of_unit(item.unit)
    with shown_in(system):
        with pytest.raises(InputError) as caught:
            arrangement.make(arrangement.defaults() | {item.key: f"{item.most * 1.001!r} {KINDS[item.kind].si}"})
        told = re.search(r"at most (.*)\.", caught.value.right)[1]
        assert told.endswith(f" {label(item.unit)}")
        assert item.most * 0.998 <= read(told, item.kind).value <= item.most * (1 + 1e-12)
        assert read(item.such, item.kind).value == pytest.approx(read(item.default, item.kind).value, rel=0.05)


# --- how a value is found out

METRIC_UNIT = re.compile(r"(?<![\w.])(mm²?|cm|m|kg|kN|N|N·m|grams?|litres?|kilograms?|metres?)(?![\w·/])")


def test_a_way_to_find_out_names_the_units_that_are_shown():
    listed = finding_out.listed()
    with_units = {pair for pair in listed if METRIC_UNIT.search(finding_out.way(*pair))}
    assert with_units >= {("Rope", "metal_area"), ("Rope", "modulus"), ("Motor", "rated_torque"), ("Limits", "stopping")}
    with shown_in(US):
        for pair in listed:
            assert not METRIC_UNIT.search(finding_out.way(*pair).replace("one metre of lift (3 ft 3 3/8 in)", "")), pair
        assert "ft" in finding_out.way("Rope", "modulus")
    assert "2 m of the rope" in finding_out.way("Rope", "modulus")


def test_the_factors_of_the_ways_in_us_units_are_those_of_the_ways_in_metric_ones():
    with shown_in(US):
        torque, area, stopping = (
            finding_out.way(*pair) for pair in (("Motor", "rated_torque"), ("Rope", "metal_area"), ("Limits", "stopping"))
        )
    turn, torque_unit = 2 * math.pi / 60, POUND_FORCE * FOOT
    assert int(re.search(r"horsepower × (\d+) ", torque)[1]) == round(550 * POUND_FORCE * FOOT / turn / torque_unit)
    assert float(re.search(r"watts × (\d+\.\d+)", torque)[1]) == pytest.approx(1 / turn / torque_unit, abs=0.005)
    ounce, yard = POUND / 16, 3 * FOOT
    grams_over = int(re.search(r"grams per metre over (\d+) ", finding_out.way("Rope", "metal_area"))[1])
    mm2_of_an_ounce = 1000 * ounce / yard / grams_over
    assert int(re.search(r"ounces over (\d+) ", area)[1]) == pytest.approx(INCH**2 * 1e6 / mm2_of_an_ounce, rel=5e-3)
    assert read(re.search(r"\((.*)\)", stopping)[1], "length").value == pytest.approx(1, rel=2e-4)
