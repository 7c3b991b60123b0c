"""A field keeps what was typed into it; where other units are shown, what it comes to stands beneath it, and the rig stays as it is."""

from __future__ import annotations

import pytest

from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.ui import draft as drafts
from rigcheck.ui import session as sessions
from rigcheck.ui.field_input import comes_to
from rigcheck.units import METRIC, US, shown_in
from tests.pages.conftest import Session


def beneath(session: Session) -> list[str]:
    """What is told beneath fields of what they come to."""
    bodies = [element.proto.body for element in session.app.get("html")]
    return [body.partition(">")[2].partition("<")[0] for body in bodies if ">= " in body and "rc-small" in body]


def kept() -> drafts.Draft:
    return next(reversed(sessions._kept().values())).draft


@pytest.mark.parametrize(
    ("text", "kind", "metric", "us"),
    [
        ("120 kg", "mass", "", "= 264.6 lb"),
        ("250 lb", "mass", "= 113.4 kg", ""),
        ("400 kg", "force", "", "= 881.8 lb"),  # a rated load is a force or a mass
        ("6 kN", "force", "", "= 1349 lbf"),
        ("0 m", "length", "", ""),
        ("0 °C", "temperature", "", "= 32 °F"),
        ("24 V", "voltage", "", ""),
        ("some", "mass", "", ""),
        ("", "mass", "", ""),
        (0.95, "ratio", "", ""),
        (None, "length", "", ""),
    ],
)
def test_what_a_text_comes_to(text, kind, metric, us):
    for system, told in ((METRIC, metric), (US, us)):
        with shown_in(system):
            assert comes_to(text, kind) == told


@pytest.mark.parametrize("slug", list(ARRANGEMENTS))
def test_every_number_an_arrangement_begins_with_is_told_in_us_units_and_not_altered(slug):
    metric, us = Session(begin=slug), Session(begin=slug, units=US)
    texts = [item.default for item in ARRANGEMENTS[slug].inputs]
    assert [field.value for field in us.app.text_input] == [field.value for field in metric.app.text_input] == texts
    with shown_in(US):
        expected = [comes_to(item.default, item.kind) for item in ARRANGEMENTS[slug].inputs]
    angles = [item.kind == "angle" for item in ARRANGEMENTS[slug].inputs]  # degrees are degrees everywhere
    assert all(told.startswith("= ") != turns for told, turns in zip(expected, angles, strict=True))
    assert beneath(us) == [told for told in expected if told]
    assert beneath(metric) == []


def test_the_few_numbers_of_an_example_are_told_in_us_units():
    session = Session(begin="loft-lift", units=US)
    assert session.by_label("text_input", "Travel [ft]").value == "3.2 m"
    assert beneath(session) == ["= 440.9 lb ± 11 lb", "= 10.5 ft", "= 0.2362 in", "= 4.921 in", "= 1.401 lbf·ft"]


def test_steps_of_a_place_are_told_and_directions_are_left_alone():
    session = Session(begin="loft-lift", units=US).page("Change parts")
    assert beneath(session) == ["= 440.9 lb ± 11 lb", "= 0.9843 ft", "= 3.281 ft", "= 2.953 ft", "= 2.953 ft"]
    assert session.by_label("text_input", "Guide's direction, up").value == "1"


def test_typing_in_us_units_is_kept_as_typed_and_told_in_metric_ones_after_the_switch():
    session = Session(begin="tackle", units=US).type_in("Travel [ft]", "5 ft 3 in").type_in("Diameter of the sheaves [in]", "5")
    assert "= 5.249 ft" not in beneath(session)
    assert session.by_label("text_input", "Diameter of the sheaves [in]").value == "5"
    assert kept().answers["travel"] == "5 ft 3 in"
    assert kept().answers["sheave_diameter"] == "5 in"
    before = kept().data
    session.choose("Units", METRIC)
    assert session.by_label("text_input", "Travel [m]").value == "5 ft 3 in"
    assert session.by_label("text_input", "Diameter of the sheaves [mm]").value == "5 in"
    assert beneath(session) == ["= 1.6 m", "= 127 mm"]
    assert kept().data == before


def test_switching_to_and_fro_alters_nothing_in_the_rig_file():
    session = Session(begin="kiln-shell").type_in("Mass, shell [kg]", "139 kg ± 4 kg")
    there = kept().data
    for system in (US, METRIC, US):
        session.choose("Units", system)
    assert kept().data == there
    assert session.by_label("text_input", "Mass, shell [lb]").value == "139 kg ± 4 kg"
    assert "= 306.4 lb ± 8.82 lb" in beneath(session)


def test_a_fault_stands_alone_beneath_its_field_with_bounds_in_the_units_shown():
    session = Session(begin="tackle", units=US).type_in("Travel [ft]", "400 m")
    assert "Write more than 0 ft and at most 328 ft." in session.html
    assert "= 1312 ft" not in beneath(session)


def test_a_change_by_hand_is_told_with_what_it_comes_to():
    draft = drafts.of_arrangement("tackle").edited(("ropes", "hoist rope", "diameter"), "8 mm")
    sessions._kept()["by hand"] = sessions.Kept(draft, None)
    assert "diameter: 6 mm (= 0.2362 in) → 8 mm (= 0.315 in)" in Session(draft="by hand", units=US).html
    assert "diameter: 6 mm → 8 mm" in Session(draft="by hand").html
