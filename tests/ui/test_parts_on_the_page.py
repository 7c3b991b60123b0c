"""Which parts there are to open, which checks stand beside them, and how a body's way of moving is changed without a stale text."""

from __future__ import annotations

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.report.model_fields import WIDE, fields_of, in_form_order
from rigcheck.rig import examples, model
from rigcheck.ui import begun_parts, body_form, letters, part_checks, part_choice
from rigcheck.ui import draft as drafts
from rigcheck.ui.next_steps import path_of


def example(name: str):
    return drafts.of_rig(examples.example(name), "an example")


@pytest.mark.parametrize("name", examples.names())
def test_every_part_that_has_a_letter_can_be_opened(name):
    draft = example(name)
    there = {path for group in part_choice.GROUPS for path in part_choice.parts_of(draft, group)}
    assert set(letters.of_parts(draft)) <= there
    assert all(part_choice.group_of(path) in part_choice.GROUPS for path in there)


@pytest.mark.parametrize("name", examples.names())
def test_every_check_of_a_named_part_stands_beside_that_part(name):
    draft, assessment = example(name), assess(examples.example(name))
    shown = [check.id for path in letters.of_parts(draft) for check in part_checks.of(assessment, path)]
    assert len(shown) == len(set(shown))
    opened = set(letters.of_parts(draft)) | {path[:2] for path in letters.of_parts(draft)}
    assert {check.id for check in assessment.checks if path_of(check.part) in opened and check.part[0] != "gears"} <= set(shown)


def test_the_table_says_the_same_reason_once_and_shows_names_as_they_are():
    assessment = assess(examples.example("found-winch"))
    checks = part_checks.of(assessment, ("ropes", "hoist rope"))
    reasons = [check.reason for check in checks if check.reason]
    assert len(reasons) > len(set(reasons))
    html = part_checks.table(checks)
    assert all(html.count(check.what) >= 1 for check in checks)
    assert html.count("count strands and wires") == 1


def test_begun_parts_can_be_opened_and_say_that_they_are_begun():
    draft = begun_parts.begin(begun_parts.begin(example("found-winch"), ("drive", "cable")), ("sheaves", "lead sheave"))
    assert part_choice.parts_of(draft, part_choice.DRIVE)["drive", "cable"] == "cable (begun)"
    assert part_choice.parts_of(draft, part_choice.SHEAVES)["sheaves", "lead sheave"] == "lead sheave (begun)"


def test_a_body_that_hangs_free_forgets_its_guide_and_what_was_typed_for_it():
    path = ("bodies", "press")
    draft = body_form.moving(example("found-winch"), path, body_form.TILTING)
    assert draft.read()[0].load.moves.tilts is True
    draft = draft.with_step((*path, "moves", "along"), 0, 0.5, "1/2", [0, 1])
    assert body_form.moving(draft, path, body_form.GUIDED).at((*path, "moves", "along")) == [0.5, 1]
    free = body_form.moving(draft, path, body_form.LEVEL)
    assert free.at((*path, "moves")) == {"kind": "level"}
    assert not [each for each in free.typed if "along" in each]
    assert body_form.way_of(free, path) == body_form.LEVEL
    assert body_form.moving(free, path, body_form.GUIDED).read()[0].load.moves.along == (0.0, 1.0)


@pytest.mark.parametrize("form", [model.Sheave, model.Body, model.Drum, model.Rope, model.Guided, model.Rig])
def test_a_form_shows_every_field_once_and_those_of_several_steps_last(form):
    order = in_form_order(form)
    assert len({field.name for field in order}) == len(order)
    assert {field.name for field in order} <= {field.name for field in fields_of(form)}
    wide = [field.kind in WIDE for field in order]
    assert wide == sorted(wide)


def test_a_guide_asks_for_its_shoes_once_their_distance_is_stated_and_not_where_the_body_tilts():
    draft = example("tile-lift")
    path = ("bodies", "tray of tiles")
    shoes = {(*path, "moves", field) for field in model.SHOE_FIELDS}
    assert shoes <= set(letters.of_fields(draft))
    plain = draft
    for *_, field in shoes:
        plain = plain.edited((*path, "moves", field), None)
    assert shoes & set(letters.of_fields(plain)) == {(*path, "moves", "shoes_apart")}
    tilting = body_form.moving(draft, path, body_form.TILTING)
    assert not shoes & set(letters.of_fields(tilting))
    assert tilting.read()[0].load.moves.tilts
    assert body_form.moving(draft, path, body_form.GUIDED).read()[0].load.moves.friction == 0.2
