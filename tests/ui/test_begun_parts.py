"""Parts that are begun: they join when all that must be known is there, stand in nobody's way before that, and lose nothing."""

from __future__ import annotations

import pytest

from rigcheck.rig import examples
from rigcheck.rig.fields import FieldError
from rigcheck.ui import begun_parts
from rigcheck.ui import draft as drafts

CABLE = ("drive", "cable")


def example(name: str):
    return drafts.of_rig(examples.example(name), "an example")


def filled(draft, path, **texts):
    for key, text in texts.items():
        unit = next(ask.unit for ask in begun_parts.asked(draft, path) if ask.key == key.replace("_step_", " "))
        draft = begun_parts.given(draft, path, key.replace("_step_", " "), text, unit)
    return draft


def test_a_cable_stands_in_nobodys_way_until_its_two_fields_are_given():
    draft = begun_parts.begin(example("found-winch"), CABLE)
    before = draft.data
    draft = begun_parts.given(draft, CABLE, "area", "2.5", "mm²")
    assert draft.data == before
    assert draft.read()[1] == []
    assert [ask.key for ask in begun_parts.missing(draft, CABLE)] == ["length"]
    draft = begun_parts.given(draft, CABLE, "length", "4", "m")
    assert draft.at(CABLE) == {"area": "2.5 mm²", "length": "4 m"}
    assert begun_parts.begun(draft) == []
    assert draft.typed == {}


def test_what_cannot_be_used_is_told_at_its_field_and_keeps_the_part_out():
    draft = begun_parts.begin(example("found-winch"), CABLE)
    draft = filled(draft, CABLE, area="40 kg", length="4")
    assert draft.at(CABLE) is None
    assert begun_parts.text_of(draft, CABLE, "area") == "40 kg"
    assert list(begun_parts.faults(draft, CABLE)) == ["area"]
    assert begun_parts.given(draft, CABLE, "area", "2.5", "mm²").at(CABLE)["area"] == "2.5 mm²"


def test_what_is_not_given_yet_is_no_fault():
    draft = begun_parts.begin(example("found-winch"), CABLE)
    assert begun_parts.faults(draft, CABLE) == {}


def test_a_switch_of_units_before_the_last_answer_changes_no_meaning():
    path = ("points", "new hook")
    draft = begun_parts.given(begun_parts.begin(example("found-winch"), path), path, "at across", "1", "m")
    draft = begun_parts.given(draft, path, "at up", "10", "ft")
    assert draft.at(path) == {"at": ["1 m", "10 ft"]}


def test_a_begun_part_can_be_let_go_without_a_trace():
    draft = example("found-winch")
    begun = begun_parts.given(begun_parts.begin(draft, CABLE), CABLE, "area", "2.5", "mm²")
    assert begun_parts.begun(begun) == [CABLE]
    assert begun_parts.forgotten(begun, CABLE) == draft


@pytest.mark.parametrize("part", ["pawl", "brake"])
def test_a_part_of_which_nothing_must_be_known_joins_at_once(part):
    draft = begun_parts.begin(example("found-winch"), ("drive", part))
    assert draft.at(("drive", part)) == {}
    assert draft.read()[1] == []


def test_a_crank_takes_the_place_of_the_motor_only_when_it_joins():
    path = ("drive", "crank")
    draft = begun_parts.begin(example("found-winch"), path)
    assert "motor" in begun_parts.consequence(draft, path)
    assert draft.at(("drive", "motor")) is not None
    draft = begun_parts.given(draft, path, "radius", "0.35", "m")
    assert draft.at(("drive", "motor")) is None
    assert draft.read()[0].drive.crank.radius.value == 0.35


def test_a_new_sheave_joins_with_what_it_needs():
    draft = begun_parts.begin(example("found-winch"), ("sheaves", "second sheave"))
    draft = filled(draft, ("sheaves", "second sheave"), on="hanger of head sheave", pitch_diameter="100")
    assert draft.read()[0].sheaves["second sheave"].pitch_diameter.value == 0.1


def test_a_body_that_nothing_holds_yet_joins_and_is_told_in_words():
    path = ("bodies", "counterweight")
    draft = filled(
        begun_parts.begin(example("found-winch"), path), path, role="counterweight", mass="60", at_step_across="-1", at_step_up="1"
    )
    assert draft.at(path) == {"role": "counterweight", "mass": "60 kg", "at": ["-1 m", "1 m"]}
    assert draft.read()[1][0].wrong == 'nothing holds the body "counterweight"'


def test_a_gear_stage_is_put_in_at_the_drum():
    draft = filled(begun_parts.begin(example("found-winch"), begun_parts.GEAR), begun_parts.GEAR, kind="spur")
    assert [gear["kind"] for gear in draft.at(("drive", "gears"))] == ["worm", "spur"]
    assert draft.read()[0].drive.gears[1].ratio is None


def test_a_name_that_is_taken_cannot_be_begun():
    with pytest.raises(FieldError, match="already"):
        begun_parts.begin(example("found-winch"), ("bodies", "press"))


def test_a_winch_takes_the_place_of_a_hand_line_with_the_turning_that_was_told():
    draft = drafts.of_arrangement("tackle-hand")
    path = begun_parts.WINCH
    draft = begun_parts.begin(draft, path)
    draft = filled(draft, path, at_step_across="2", at_step_up="0.4", diameter="120")
    assert draft.at(("drive", "kind")) == "hand line"
    draft = begun_parts.given(draft, path, "turns", "anticlockwise")
    rig, faults = draft.read()
    assert faults == []
    assert rig.drive.kind == "winch"
    assert rig.ropes["hoist rope"].path[-1].turns == "anticlockwise"
