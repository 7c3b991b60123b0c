"""Drum rules, gear stages and conductors against figures retyped from their sources."""

import math

import pytest

from rigcheck.errors import PartError
from rigcheck.parts.conductor import TEMPERATURE, cable_classes, conductor_areas, conductor_resistance, copper_temperature_coefficient
from rigcheck.parts.drum_rule import drum_rule, drum_rules
from rigcheck.parts.gear_stage import gear_kinds, gear_stage, worm_friction


@pytest.mark.parametrize(
    ("name", "quantity", "value", "use"),
    [
        ("dead-wraps", "turns", 2, "limit"),  # 29 CFR 1910.179(h)(2)(iii)(a), ASME B30, DGUV Vorschrift 54 s. 35(2)
        ("dead-wraps-mine-hoist", "turns", 3, "limit"),  # 30 CFR 57.19026(b)
        ("dead-wraps-with-lower-limit-device", "turns", 1, "limit"),  # ASME B30.2 2-1.14.3
        ("fleet-angle-smooth-drum", "angle", math.radians(1.5), "advice"),  # wire-rope users' text, fig. 39
        ("fleet-angle-grooved-drum", "angle", math.radians(2), "advice"),
        ("fleet-angle-least", "angle", math.radians(0.5), "advice"),
        ("fleet-angle-limit", "angle", math.radians(4), "limit"),  # DGUV Vorschrift 54 s. 25(4)
        ("flange-overhang", "ratio", 1.5, "limit"),  # DGUV Vorschrift 54 s. 19 DA
        ("brake-torque", "ratio", 1.25, "limit"),  # Cal. Title 8 § 4898
        ("brake-torque-with-mechanical-control-braking", "ratio", 1, "limit"),
        ("brake-torque-hoisting-engine", "ratio", 1.5, "limit"),  # WAC 296-155-77135
        ("winch-mounting", "ratio", 2, "limit"),  # Mich. Admin. Code R 408.42925(2)(a)
    ],
)
def test_a_drum_rule_gives_its_published_value(name, quantity, value, use):
    rule = drum_rule(name)
    assert rule.value == pytest.approx(value, rel=1e-12)
    assert (rule.quantity, rule.use, rule.mark) == (quantity, use, "read")


def test_every_drum_rule_has_one_number():
    assert len(drum_rules()) == 12


def test_an_unknown_drum_rule_lists_what_exists():
    with pytest.raises(PartError, match=r'"wraps".*\n.*dead-wraps, dead-wraps-mine-hoist'):
        drum_rule("wraps")


@pytest.mark.parametrize(
    ("kind", "low", "high"),
    [("spur", 0.97, 0.99), ("helical", 0.96, 0.98), ("bevel", 0.94, 0.97), ("worm", 0.40, 0.85), ("chain", 0.95, 0.98)],
)
def test_a_gear_stage_gives_its_printed_range_and_says_that_the_source_is_weak(kind, low, high):
    stage = gear_stage(kind)
    assert (stage.low, stage.high) == (low, high)
    assert stage.note.startswith("weak source")


def test_ranges_run_upwards():
    assert all(gear_stage(kind).low < gear_stage(kind).high for kind in gear_kinds())
    assert (worm_friction().low, worm_friction().high) == (0.028, 0.10)  # textbook examples
    assert worm_friction("at 4.8 m/s sliding").low == 0.022  # Mott, p. 480


def test_an_unknown_stage_or_friction_lists_what_exists():
    with pytest.raises(PartError, match=r'"belt".*\n.*spur, helical'):
        gear_stage("belt")
    with pytest.raises(PartError, match=r'"greased".*\n.*textbook range'):
        worm_friction("greased")


# IEC 60228, largest resistance in ohm/km at 20 degC: mm2: class 1/2, class 5, class 5 tinned
RESISTANCES = {
    0.5: (36.0, 39.0, 40.1),
    0.75: (24.5, 26.0, 26.7),
    1: (18.1, 19.5, 20.0),
    1.5: (12.1, 13.3, 13.7),
    2.5: (7.41, 7.98, 8.21),
    4: (4.61, 4.95, 5.09),
    6: (3.08, 3.30, 3.39),
    10: (1.83, 1.91, 1.95),
    16: (1.15, 1.21, 1.24),
    25: (0.727, 0.780, 0.795),
}


@pytest.mark.parametrize("area_mm2", RESISTANCES)
def test_a_conductor_has_the_resistance_of_iec_60228(area_mm2):
    for cable_class, printed in zip(cable_classes(), RESISTANCES[area_mm2], strict=True):
        conductor = conductor_resistance(area_mm2 * 1e-6, cable_class)
        assert conductor.resistance_ohm_m == pytest.approx(printed / 1000, rel=1e-12)
        assert conductor.mark == "read"


@pytest.mark.parametrize("cable_class", cable_classes())
def test_resistance_times_area_is_near_that_of_copper(cable_class):
    for area in conductor_areas(cable_class):
        assert 1.72e-8 < conductor_resistance(area, cable_class).resistance_ohm_m * area < 2.1e-8


@pytest.mark.parametrize("area_mm2", [0.3, 3, 50, math.nan])
def test_an_area_that_is_not_listed_is_refused(area_mm2):
    with pytest.raises(PartError, match=r"It has: 0.5 mm², 0.75 mm²"):
        conductor_resistance(area_mm2 * 1e-6, "5")


def test_an_unknown_cable_class_lists_what_exists():
    with pytest.raises(PartError, match=r'"6".*\n.*1/2, 5, 5 tinned'):
        conductor_resistance(1e-6, "6")


def test_the_temperature_coefficient_gives_the_printed_factors():
    # cable maker's table: 30 degC .962 to 90 degC .781
    factors = {round(row.number("temperature") - 273.15): row.number("factor") for row in TEMPERATURE.rows()}
    assert factors == {30: 0.962, 40: 0.926, 50: 0.893, 60: 0.862, 70: 0.833, 80: 0.806, 90: 0.781}
    for name, mark, tolerance in (("cable table", "read", 6e-4), ("annealed copper", "from memory", 4e-3)):
        coefficient = copper_temperature_coefficient(name)
        assert coefficient.mark == mark
        for degrees, factor in factors.items():
            assert 1 / (1 + coefficient.per_k * (degrees - 20)) == pytest.approx(factor, abs=tolerance)  # three figures printed
    assert copper_temperature_coefficient("annealed copper").per_k == 0.00393


def test_an_unknown_temperature_coefficient_lists_what_exists():
    with pytest.raises(PartError, match=r'"gold".*\n.*cable table, annealed copper'):
        copper_temperature_coefficient("gold")
