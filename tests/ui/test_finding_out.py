"""Every field says how to find its value out, what waits for it, and how large it often is, and no hand is put where it can be hurt."""

from __future__ import annotations

import re

import pytest

from rigcheck import units
from rigcheck.report.field_words import often, remark
from rigcheck.report.model_fields import NAMED_PARTS, PART, PARTS, QUANTITY, fields_of
from rigcheck.rig import examples, model
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.ui import draft as drafts
from rigcheck.ui import finding_out

FORMS = [form for form in vars(model).values() if isinstance(form, type) and issubclass(form, model.Part) and form is not model.Part]
FIELDS = [(form.__name__, field) for form in FORMS for field in fields_of(form) if field.kind not in (PART, PARTS, NAMED_PARTS)]


def test_ways_are_listed_for_fields_that_exist_and_for_every_quantity():
    existing = {(form, field.name) for form, field in FIELDS}
    assert finding_out.listed() <= existing
    assert {(form, field.name) for form, field in FIELDS if field.kind == QUANTITY} <= finding_out.listed()
    assert {(form, field.name) for form, field in FIELDS if field.is_optional and form != "Demands"} - finding_out.listed() == set()


@pytest.mark.parametrize("pair", sorted(finding_out.listed()), ids=str)
def test_a_way_is_one_to_three_whole_sentences(pair):
    text = finding_out.way(*pair)
    assert text[0].isupper()
    assert text.endswith((".", "?"))
    assert 1 <= len(re.findall(r"[.?:](?= [A-Z]|$)", text)) <= 5
    assert len(text) <= 400


@pytest.mark.parametrize("slug", list(ARRANGEMENTS))
def test_every_number_that_an_arrangement_asks_for_can_be_found_out(slug):
    for item in ARRANGEMENTS[slug].inputs:
        assert finding_out.of_input(item.key), item.key


def test_a_motor_is_never_stalled_or_run_away_to_be_measured():
    for field in ("stall_torque", "stall_current"):
        assert "Do not" in finding_out.way("Motor", field)
    for field in ("no_load_speed", "no_load_current"):
        assert "series-wound" in finding_out.way("Motor", field)


def test_what_waits_for_a_field_is_told_only_where_something_waits():
    draft = drafts.of_rig(examples.example("found-winch"), "an example")
    rope = ("ropes", "hoist rope")
    assert "strength" in finding_out.without(draft, "Rope", rope, "grade")
    assert finding_out.without(draft, "Rope", rope, "material") == ""
    assert finding_out.without(draft.edited((*rope, "breaking_force"), "10 kN"), "Rope", rope, "grade") == ""
    assert finding_out.without(draft.edited((*rope, "grade"), "1770 N/mm²"), "Rope", rope, "grade") == ""
    assert finding_out.without(draft, "Limits", ("limits",), "taut_margin") == ""
    assert finding_out.without(draft, "Sheave", ("sheaves", "head sheave"), "bearing") != ""
    assert (
        finding_out.without(draft.edited(("sheaves", "head sheave", "efficiency"), 0.95), "Sheave", ("sheaves", "head sheave"), "bearing")
        == ""
    )


def test_what_often_is_comes_with_its_source_and_follows_the_units_that_are_shown():
    assert often("Rope", "diameter") == "often 4 mm to 12 mm: common practice, no source"
    assert "common practice" not in often("Gear", "efficiency", "worm")
    with_worm = {("Gear", "ratio"): "worm", ("Gear", "efficiency"): "worm"}
    told = [text for form, field in FIELDS if (text := often(form, field.name, with_worm.get((form, field.name), "")))]
    assert all(": " in text for text in told)
    assert units.read(often("Limits", "travel").split(" to ")[0].removeprefix("often "), "length").value == 0.5


def test_one_stage_of_a_great_ratio_is_remarked_upon_and_a_worm_is_not():
    assert "seldom" in remark("Gear", "ratio", {"kind": "spur", "ratio": 60})
    assert remark("Gear", "ratio", {"kind": "spur", "ratio": 6}) == ""
    assert remark("Gear", "ratio", {"kind": "worm", "ratio": 60}) == ""
    assert remark("Gear", "ratio", {"kind": "spur", "ratio": "many"}) == ""
