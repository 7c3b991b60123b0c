"""What is shown in metric and in US units: the units themselves, the numbers, and the side to which they are rounded.

The factors stand here by themselves, from the definitions of the inch (25.4 mm), the pound (0.45359237 kg) and standard gravity (9.80665 m/s²).
"""

import importlib
import pkgutil
import threading
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

import rigcheck
from rigcheck import unit_table, units
from rigcheck.errors import QuantityError
from rigcheck.formula import Formula, Sign
from rigcheck.units import KINDS, METRIC, SYSTEMS, US, in_shown, label, number, read, show, shown_in

INCH, POUND, GRAVITY = 0.0254, 0.45359237, 9.80665
FOOT, POUND_FORCE = 12 * INCH, POUND * GRAVITY
US_FACTORS = {
    "mm": ("in", INCH), "m": ("ft", FOOT), "kg": ("lb", POUND), "N": ("lbf", POUND_FORCE), "kN": ("lbf", POUND_FORCE),
    "N·m": ("lbf·ft", POUND_FORCE * FOOT), "N/mm²": ("ksi", 1000 * POUND_FORCE / INCH**2), "m/s": ("ft/min", FOOT / 60), "m/min": ("ft/min", FOOT / 60),
    "m/s²": ("ft/s²", FOOT), "mm²": ("in²", INCH**2), "cm⁴": ("in⁴", INCH**4), "kg/m": ("lb/ft", POUND / FOOT), "J": ("ft·lbf", POUND_FORCE * FOOT),
    "kW": ("hp", 550 * FOOT * POUND_FORCE), "ohm/km": ("ohm/1000ft", 1 / (1000 * FOOT)), "1/K": ("1/°F", 1.8), "kg·m²": ("lb·ft²", POUND * FOOT**2),
    "N/mm": ("lbf/in", POUND_FORCE / INCH), "N·m/A": ("lbf·in/A", POUND_FORCE * INCH),
}  # fmt: skip
THE_SAME = ["V", "A", "W", "ohm", "rpm", "deg", "°", "rad", "s", "min", "%", ""]


def of_modules() -> set[str]:
    """The unit of every sign that stands in a module, alone or in a formula."""
    found = set()
    for info in pkgutil.walk_packages([str(Path(rigcheck.__file__).parent)], "rigcheck."):
        if info.name.endswith("__main__") or ".ui" in info.name:
            continue
        for thing in vars(importlib.import_module(info.name)).values():
            if isinstance(thing, Formula):
                found |= {sign.unit for sign in (*thing.parameters.values(), thing.result)}
            elif isinstance(thing, Sign):
                found.add(thing.unit)
    return found


UNITS_OF_SIGNS = sorted(of_modules())
SHOWN_UNITS = sorted({*UNITS_OF_SIGNS, *unit_table.SHOWN_IN_US, *THE_SAME})
ANY_UNIT = st.sampled_from(SHOWN_UNITS)
ANY_SYSTEM = st.sampled_from(SYSTEMS)
ANY_VALUE = st.floats(-1e9, 1e9).filter(lambda value: value == 0 or abs(value) > 1e-9)


def read_back(shown: str, unit: str) -> float:
    """The SI value of a text as shown."""
    return units.from_unit(float(shown.removesuffix(label(unit)).strip()), label(unit))


def test_the_signs_of_the_formulas_were_found():
    assert {"mm", "m", "kg", "N", "N·m", "°", "°C", "N/mm²", "m/s", "rpm", "ohm/km"} <= set(UNITS_OF_SIGNS)


@pytest.mark.parametrize(("unit", "us", "factor"), [(unit, us, factor) for unit, (us, factor) in US_FACTORS.items()])
def test_a_metric_unit_is_shown_in_us_as_the_one_read_in_a_workshop_there(unit, us, factor):
    with shown_in(US):
        assert label(unit) == us
        assert in_shown(factor, unit) == pytest.approx(1, rel=1e-14)
        assert show(7 * factor, unit) == f"7 {us}"
    assert label(unit) == unit


@pytest.mark.parametrize("unit", THE_SAME)
def test_units_that_are_the_same_everywhere_stay(unit):
    metric = show(0.25, unit)
    with shown_in(US):
        assert label(unit) == unit
        assert show(0.25, unit) == metric


@pytest.mark.parametrize("unit", UNITS_OF_SIGNS)
def test_every_unit_of_a_sign_is_metric_and_has_its_counterpart_or_is_the_same_everywhere(unit):
    assert unit in THE_SAME or unit == "°C" or unit in US_FACTORS


def test_us_units_are_of_the_same_kind_and_can_be_read():
    for metric, us in unit_table.SHOWN_IN_US.items():
        assert set(units.kind_of_unit(metric)) & set(units.kind_of_unit(us)), metric
    assert not set(unit_table.SHOWN_IN_US) & set(unit_table.SHOWN_IN_US.values())


@pytest.mark.parametrize("row", KINDS.values(), ids=KINDS)
def test_the_units_of_a_kind_are_each_others_counterparts(row):
    assert label(row.metric) == row.metric
    with shown_in(US):
        assert label(row.metric) == row.us
        assert label(row.us) == row.us


@pytest.mark.parametrize(("celsius", "fahrenheit"), [(0, "32 °F"), (20, "68 °F"), (100, "212 °F"), (-40, "-40 °F"), (90, "194 °F")])
def test_temperatures_agree_at_fixed_points(celsius, fahrenheit):
    kelvin = celsius + 273.15
    assert show(kelvin, "°C") == f"{celsius} °C"
    with shown_in(US):
        assert show(kelvin, "°C") == fahrenheit


def test_temperatures_round_to_the_side_asked_in_both_systems():
    assert [show(293.26, "°C", 3, way) for way in ("down", "up")] == ["20.1 °C", "20.2 °C"]
    with shown_in(US):
        assert [show(293.26, "°C", 3, way) for way in ("down", "up")] == ["68.1 °F", "68.2 °F"]
        assert [show(233.26, "°C", 3, way) for way in ("down", "up")] == ["-39.9 °F", "-39.8 °F"]


@given(ANY_VALUE, ANY_UNIT, st.integers(2, 6), ANY_SYSTEM)
def test_what_is_shown_up_is_no_less_and_what_is_shown_down_no_more_than_the_value(value, unit, digits, system):
    with shown_in(system):
        low, high = (read_back(show(value, unit, digits, way), unit) for way in ("down", "up"))
        coarse = (
            abs(in_shown(value, unit)) * 10.0 ** (1 - digits) * abs(units.from_unit(1.0, label(unit)) - units.from_unit(0.0, label(unit)))
        )
    slack = 2e-11 * (abs(value) + (500 if unit in ("°C", "K") else 0))
    assert low <= value + slack
    assert high >= value - slack
    assert high - low <= 1.0001 * coarse + slack


@given(ANY_VALUE, ANY_UNIT, ANY_SYSTEM)
def test_the_number_in_the_unit_of_the_label_is_the_value_again(value, unit, system):
    with shown_in(system):
        again = units.from_unit(in_shown(value, unit), label(unit))
    assert again == pytest.approx(value, rel=1e-13, abs=1e-10 if unit in ("°C", "K") else 0)


@given(ANY_VALUE, ANY_UNIT, ANY_SYSTEM)
def test_label_number_and_text_say_the_same(value, unit, system):
    with shown_in(system):
        between = "" if label(unit) in ("", "°") else " "
        assert show(value, unit, 9) == f"{number(in_shown(value, unit), 9)}{between}{label(unit)}"


@given(st.floats(0.01, 1e5), st.sampled_from([(kind, row) for kind, row in KINDS.items() if kind != "ratio"]), ANY_SYSTEM)
def test_what_is_shown_can_be_typed_again(value, of_kind, system):
    kind, row = of_kind
    assume(kind != "temperature" or value > 1)
    with shown_in(system):
        shown = show(value, row.metric, 9)
    assume("e" not in shown.split()[0])
    assert read(shown, kind).value == pytest.approx(value, rel=1e-8, abs=1e-6 if kind == "temperature" else 0)


def test_unknown_and_infinite_have_no_unit_in_either_system():
    for system in SYSTEMS:
        with shown_in(system):
            assert (show(None, "kg"), show(float("nan"), "m"), show(float("inf"), "kN")) == ("unknown", "unknown", "infinite")


@pytest.mark.parametrize(("kind", "row"), KINDS.items())
def test_each_kind_has_an_example_that_reads_in_both_systems(kind, row):
    assert units.example(kind) == row.example
    with shown_in(US):
        assert read(units.example(kind), kind).kind == kind
        assert row.metric == row.us or units.example(kind) != row.example


def test_a_refusal_tells_what_would_be_right_in_the_units_shown():
    with pytest.raises(QuantityError, match="120 kg"):
        read("120", "mass")
    with shown_in(US):
        with pytest.raises(QuantityError, match="250 lb"):
            read("120", "mass")
        with pytest.raises(QuantityError, match="180 °F ± 5 °F"):
            read("20 °C ±", "temperature")


def test_a_us_unit_that_is_asked_for_by_name_is_shown_in_both_systems():
    for system in SYSTEMS:
        with shown_in(system):
            assert show(1.5 * POUND, "lb") == "1.5 lb"


def test_what_was_typed_is_never_converted():
    typed = read("1 1/4 in ± 1 mm", "length")
    with shown_in(US):
        again = read("1 1/4 in ± 1 mm", "length")
        assert read("120 kg", "mass").text == "120 kg"
    assert again == typed
    assert again.text == "1 1/4 in ± 1 mm"


def test_the_system_lasts_as_long_as_it_was_asked_for_and_comes_back_after_a_fault():
    assert units.system() == METRIC
    with shown_in(US):
        with shown_in(METRIC):
            assert units.system() == METRIC
        assert units.system() == US
    with pytest.raises(ZeroDivisionError), shown_in(US):
        1 / 0  # noqa: B018
    assert units.system() == METRIC


def test_a_thread_of_its_own_begins_metric():
    told = []
    with shown_in(US):
        thread = threading.Thread(target=lambda: told.append(show(1.0, "m")))
        thread.start()
        thread.join()
    assert told == ["1 m"]


@pytest.mark.parametrize("name", ["", "US", "imperial"])
def test_another_name_is_no_system_of_units(name):
    with pytest.raises(ValueError, match="metric or us"):
        units.show_in(name)
    assert units.system() == METRIC


def test_rounding_is_done_in_the_unit_shown():
    drum_m = 0.1080001  # 4.25197… in
    with shown_in(US):
        assert show(drum_m, "mm", 4, "up") == "4.252 in"
        assert show(drum_m, "mm", 4, "down") == "4.251 in"
    assert show(drum_m, "mm", 4, "up") == "108.1 mm"
    assert Decimal("4.252") * Decimal("25.4") > Decimal("108.0001")
