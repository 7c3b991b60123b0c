"""What follows from something easier to measure: the numbers are right, on the cautious side, and none comes from half an answer."""

from __future__ import annotations

import math

import pytest

from rigcheck import units
from rigcheck.report.model_fields import NUMBER, QUANTITY, fields_of
from rigcheck.rig import examples, model
from rigcheck.ui import draft as drafts
from rigcheck.ui import worked_out

CASES = {
    "Rated torque from power and speed": ({"power": "90 W", "speed": "1400 rpm"}, 90 / (1400 * 2 * math.pi / 60)),
    "Current at standstill from cold resistance": ({"voltage": "24 V", "resistance": "0.4 ohm"}, 60),
    "Diameter from a tape round the drum": ({"around": "377 mm"}, 0.377 / math.pi),
    "Pitch diameter from a string round the groove": ({"around": "358 mm", "rope": "6 mm"}, 0.358 / math.pi + 0.006),
    "Rated load from the stamp on the block": ({"stamp": "400 kg", "parts": "4"}, 200),
    "Ratio from counted teeth": ({"driven": "60", "driving": "15"}, 4),
    "Lead angle from pitch and circumference": ({"pitch": "6.28 mm", "threads": "1", "around": "62.8 mm"}, math.atan(0.1)),
    "Resistance from a fall in voltage": ({"idle": "25.2 V", "loaded": "24.2 V", "current": "20 A"}, 0.05),
    "Cross-section from its hairs": ({"hairs": "80", "thick": "0.2 mm"}, 2.5e-6),
    "Braking from speed and time": ({"metre": "10 s", "stop": "0.2 s"}, 0.5),
    "Mass from two scales": ({"left": "61 kg", "right": "58.5 kg"}, 119.5),
}


def by_title(title: str) -> worked_out.WorkedOut:
    return next(way for way in worked_out.WAYS if way.title == title)


def in_si(way: worked_out.WorkedOut, value) -> float:
    if isinstance(value, float):
        return value
    number, _, unit = value.partition(" ")
    return units.from_unit(float(number), unit)


def test_every_way_has_its_case():
    assert {way.title for way in worked_out.WAYS} == set(CASES)


@pytest.mark.parametrize("title", list(CASES))
def test_the_value_is_the_one_worked_by_hand_rounded_to_the_cautious_side(title):
    given, expected = CASES[title]
    way = by_title(title)
    value, note = worked_out.result(way, given)
    assert in_si(way, value) == pytest.approx(expected, rel=1e-3)
    if way.towards == "down":
        assert in_si(way, value) <= expected * (1 + 1e-9)
    if way.towards == "up":
        assert in_si(way, value) >= expected * (1 - 1e-9)
    assert all(text in note for text in given.values())


@pytest.mark.parametrize("title", list(CASES))
def test_half_an_answer_or_one_that_cannot_be_read_gives_nothing(title):
    given, _ = CASES[title]
    way = by_title(title)
    for key in given:
        assert worked_out.result(way, {**given, key: ""}) is None
        assert worked_out.result(way, {**given, key: "some"}) is None
        assert set(worked_out.faults(way, {**given, key: "some"})) == {key}
        assert set(worked_out.faults(way, {**given, key: given[key].replace(given[key].split()[0], "0", 1)})) == {key}


@pytest.mark.parametrize("way", worked_out.WAYS, ids=lambda way: way.title)
def test_what_is_worked_out_is_of_the_kind_of_its_field(way):
    field = next(field for field in fields_of(getattr(model, way.form)) if field.name == way.field)
    assert field.kind in (QUANTITY, NUMBER)
    if field.kind == NUMBER:
        assert way.unit == ""
    for asked in way.asked:
        assert asked.kind in units.kind_of_unit(asked.unit)


def test_the_tolerances_of_two_scales_add_up_and_no_other_tolerance_is_dropped_unseen():
    scales = by_title("Mass from two scales")
    value, note = worked_out.result(scales, {"left": "62.3 kg ± 1 kg", "right": "58.15 kg ± 1 kg"})
    assert value == "120.5 kg ± 2 kg"
    assert "62.3 kg ± 1 kg" in note
    tape = by_title("Diameter from a tape round the drum")
    assert worked_out.result(tape, {"around": "377 mm ± 2 mm"}) is None
    assert "tolerance" in worked_out.faults(tape, {"around": "377 mm ± 2 mm"})["around"].wrong


@pytest.mark.parametrize(
    ("hairs", "thick", "listed"),
    [("50", "0.25 mm", "2.5 mm²"), ("84", "0.3 mm", "6 mm²"), ("30", "0.25 mm", "1.5 mm²"), ("45", "0.25 mm", "1.5 mm²")],
)
def test_hairs_make_up_a_listed_cross_section_never_a_larger_one(hairs, thick, listed):
    value, _ = worked_out.result(by_title("Cross-section from its hairs"), {"hairs": hairs, "thick": thick})
    assert value == listed


def test_the_field_can_be_read_by_the_model():
    draft = drafts.of_rig(examples.example("found-winch"), "an example")
    value, _ = worked_out.result(by_title("Rated load from the stamp on the block"), {"stamp": "400 kg", "parts": "5.5"})
    rig, _ = draft.edited(("sheaves", "head sheave", "rated_load"), value).read()
    assert rig.sheaves["head sheave"].rated_load.kind == "mass"
    assert rig.sheaves["head sheave"].rated_load.value == pytest.approx(145.4, abs=0.05)


def test_a_voltage_that_rises_under_load_gives_no_resistance():
    assert worked_out.result(by_title("Resistance from a fall in voltage"), {"idle": "24 V", "loaded": "25 V", "current": "20 A"}) is None
