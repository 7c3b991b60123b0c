"""The draft: it keeps what was typed, reads back what was opened, and keeps changes by hand when an arrangement is made anew."""

from __future__ import annotations

import pytest

from rigcheck.rig import examples
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.ui import draft as drafts


@pytest.mark.parametrize("name", examples.names())
def test_a_rig_that_is_opened_reads_back_the_same(name):
    rig, faults = drafts.of_rig(examples.example(name), "an example").read()
    assert rig == examples.example(name)
    assert faults == []


def test_an_edit_leaves_the_draft_before_it_as_it_was():
    first = drafts.of_rig(examples.example("loft-lift"), "an example")
    second = first.edited(("limits", "travel"), "2 m", "2")
    assert first.at(("limits", "travel")) != "2 m"
    assert second.at(("limits", "travel")) == "2 m"
    assert second.shown(("limits", "travel")) == "2"


def test_a_fault_is_found_at_its_field_and_others_beside_it():
    draft = drafts.of_rig(examples.example("loft-lift"), "an example")
    load = next(iter(draft.data["bodies"]))
    draft = draft.edited(("limits", "travel"), "far").edited(("bodies", load, "mass"), "3 m")
    rig, faults = draft.read()
    assert rig is None
    assert {fault.path for fault in faults} == {("limits", "travel"), ("bodies", load, "mass")}


def test_a_part_that_was_left_out_is_made_when_a_field_of_it_is_typed():
    draft = drafts.of_arrangement("straight").edited(("basis", "dynamic_factor"), 1.2)
    rig, _ = draft.read()
    assert rig.basis.dynamic_factor == 1.2


def test_how_a_body_moves_can_be_typed_where_the_file_leaves_it_out():
    draft = drafts.of_arrangement("straight").edited(("bodies", "load", "moves", "tilts"), False)
    assert draft.read()[0].load.moves.tilts is False


def test_a_field_that_is_emptied_is_left_out():
    draft = drafts.of_arrangement("straight").edited(("basis", "dynamic_factor"), 1.2).edited(("basis", "dynamic_factor"), None)
    assert draft.read()[0].basis.dynamic_factor == 1.0


def test_a_place_loses_its_depth_when_that_is_emptied():
    draft = drafts.of_arrangement("straight")
    deep = draft.with_step(("bodies", "load", "at"), 2, "0.5 m", "0.5", ["0 m", "0 m"])
    assert deep.at(("bodies", "load", "at")) == ["0 m", "0 m", "0.5 m"]
    assert deep.with_step(("bodies", "load", "at"), 2, "", "", deep.at(("bodies", "load", "at"))).at(("bodies", "load", "at")) == [
        "0 m",
        "0 m",
    ]


@pytest.mark.parametrize("slug", list(ARRANGEMENTS))
def test_an_answer_changes_the_rig_as_if_it_had_been_given_at_once(slug):
    changed = drafts.answered(drafts.of_arrangement(slug), "mass", "95")
    at_once = ARRANGEMENTS[slug].make({**ARRANGEMENTS[slug].defaults(), "mass": "95 kg"})
    assert changed.read()[0].model_copy(update={"notes": {}}) == at_once
    assert changed.changed_by_hand() == []


def test_changes_by_hand_are_kept_when_an_answer_changes():
    draft = drafts.of_arrangement("tackle").edited(("ropes", "hoist rope", "remaining_strength"), 0.9)
    draft = drafts.answered(draft, "mass", "95")
    assert draft.read()[0].ropes["hoist rope"].remaining_strength == 0.9
    assert draft.read()[0].load.mass.value == 95
    assert draft.changed_by_hand() == [("ropes", "hoist rope", "remaining_strength")]
    assert draft.dropped == ()


def test_a_change_by_hand_that_has_no_place_any_more_is_named():
    draft = drafts.of_arrangement("tackle").edited(("sheaves", "upper sheave 2", "rated_load"), "3 kN")
    draft = drafts.answered(draft, "parts", "2")
    assert draft.dropped == (("sheaves", "upper sheave 2", "rated_load"),)
    assert draft.read()[0] is not None


def test_an_answer_that_cannot_be_read_leaves_the_rig_and_keeps_the_text():
    draft = drafts.of_arrangement("straight")
    after = drafts.answered(draft, "mass", "heavy")
    assert after.data == draft.data
    assert after.answers["mass"] == "heavy"
    assert set(drafts.answer_faults(after)) == {"mass"}


def test_every_answer_that_cannot_be_read_is_found_at_once():
    draft = drafts.answered(drafts.answered(drafts.of_arrangement("straight"), "mass", "heavy"), "travel", "")
    assert set(drafts.answer_faults(draft)) == {"mass", "travel"}
