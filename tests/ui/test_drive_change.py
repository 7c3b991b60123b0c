"""The drive from winch to hand line and back: the rope's end follows, and what belonged to the other is gone as one step."""

from __future__ import annotations

import pytest

from rigcheck.rig import examples
from rigcheck.rig.fields import FieldError
from rigcheck.ui import draft as drafts
from rigcheck.ui import drive_change


def example(name: str):
    return drafts.of_rig(examples.example(name), "an example")


def test_a_hand_line_is_pulled_where_the_drum_was_and_says_that_this_is_to_be_measured():
    draft = example("found-winch")
    changed = drive_change.to_hand_line(draft)
    rig, faults = changed.read()
    assert faults == []
    assert rig.drive.kind == "hand line"
    assert rig.ropes["hoist rope"].path[-1].pulled_by_hand_at == tuple(rig_place(draft))
    assert "measure" in rig.ropes["hoist rope"].path[-1].notes["pulled_by_hand_at"]


def rig_place(draft):
    return draft.read()[0].drive.drum.at


def test_there_and_back_gives_the_rope_its_drum_again():
    draft = example("found-winch")
    drum = {key: value for key, value in draft.at(("drive", "drum")).items() if key in ("at", "diameter")}
    back = drive_change.to_winch(drive_change.to_hand_line(draft), drum, "clockwise")
    assert back.at(("ropes",)) == draft.at(("ropes",))
    assert back.at(("drive",)) == {"kind": "winch", "drum": drum}


def test_two_ropes_on_one_drum_are_no_hand_line():
    with pytest.raises(FieldError, match="2 ropes are wound on the drum"):
        drive_change.to_hand_line(example("kiln-shell"))


def test_gears_change_places_with_what_was_typed_for_them():
    draft = drive_change.gear_added(example("found-winch"), {"kind": "spur", "ratio": 3})
    draft = draft.edited(("drive", "gears", 1, "ratio"), 3.5, "3,5")
    moved = drive_change.gear_moved(draft, 1, -1)
    assert [gear["kind"] for gear in moved.at(("drive", "gears"))] == ["spur", "worm"]
    assert moved.shown(("drive", "gears", 0, "ratio")) == "3,5"
    assert moved.typed.keys() == {("drive", "gears", 0, "ratio")}
    assert drive_change.gear_moved(draft, 1, 1) == draft
    fewer = drive_change.gear_removed(moved, 1)
    assert fewer.shown(("drive", "gears", 0, "ratio")) == "3,5"
    assert drive_change.gear_removed(fewer, 0).at(("drive", "gears")) is None
