"""Changing parts: each fault beside its field, nothing lost, parts that come and go and change their names, and what a change turned is told."""

from __future__ import annotations

import pytest

from rigcheck.report.field_words import words_for
from rigcheck.report.model_fields import fields_of
from rigcheck.rig import examples, model
from rigcheck.ui import letters
from rigcheck.ui.part_choice import GROUPS
from rigcheck.ui.plain_text import escaped


def group(session, name: str):
    return session.choose("Which parts?", name)


def draft(session):
    return session.app.session_state["draft"]


@pytest.fixture
def parts(session):
    return session.example("loft-lift").page("Change parts")


@pytest.mark.parametrize("name", GROUPS)
def test_every_group_of_parts_is_shown(parts, name):
    group(parts, name)
    assert not parts.app.exception
    assert "could not be shown" not in parts.text


@pytest.mark.parametrize("name", examples.names())
def test_showing_every_part_of_every_example_changes_nothing(session, name):
    parts = session.example(name).page("Change parts")
    before = draft(parts)
    for each in GROUPS:
        group(parts, each)
        boxes = [box for box in parts.app.selectbox if box.label == "Which one?"]
        for option in boxes[0].options if boxes else ():
            parts.by_label("selectbox", "Which one?").select(option).run()
            assert not parts.app.exception
            assert "could not be shown" not in parts.text
    assert draft(parts) == before


def test_notes_can_be_shown_without_changing_anything(parts):
    before = draft(parts)
    for each in GROUPS:
        group(parts, each)
        parts.by_label("toggle", "Say where each value comes from").set_value(True).run()
        assert not parts.app.exception
    assert draft(parts) == before


def test_a_change_says_which_verdicts_it_turned(parts):
    group(parts, "Load and bodies").type_in("Mass [kg]", "600")
    assert "The last change turned these verdicts" in parts.text
    assert "holds before" in parts.text
    assert "falls short now" in parts.text
    assert "600 kg" in parts.app.session_state["good_text"]


def test_the_checks_of_the_open_part_stand_beside_its_form(parts):
    group(parts, "Ropes and ends")
    assert "Checks of hoist rope" in parts.text
    assert "over head sheave" in parts.html
    group(parts, "Drive")
    assert "Checks of drum" in parts.text


def test_a_change_can_be_taken_back(parts):
    good = parts.app.session_state["good_text"]
    group(parts, "Load and bodies").type_in("Mass [kg]", "600").press("Undo")
    assert parts.app.session_state["good_text"] == good
    assert parts.by_label("text_input", "Mass [kg]").value == "200 kg ± 5 kg"


def test_a_bad_value_is_told_at_its_field_and_survives_a_change_of_page(parts):
    group(parts, "Load and bodies").type_in("Mass [kg]", "200 lbf")
    assert "a mass is due" in parts.text
    assert "older result" in parts.strip
    parts.page("Ropes").page("Change parts")
    assert parts.by_label("text_input", "Mass [kg]").value == "200 lbf"
    parts.type_in("Mass [kg]", "210")
    assert "older result" not in parts.strip


def test_i_dont_know_the_mass_keeps_the_last_result_and_says_how_to_find_it_out(parts):
    good = parts.app.session_state["good_text"]
    group(parts, "Load and bodies").type_in("Mass [kg]", "")
    assert "older result" in parts.strip
    assert parts.app.session_state["good_text"] == good
    assert "not known yet" in parts.html
    assert "bathroom scale" in parts.html
    assert parts.by_label("text_input", "Mass [kg]").placeholder == "I don't know"


def test_an_emptied_field_means_not_known_its_check_cannot_tell_and_what_waits_for_it_is_said(parts):
    group(parts, "Ropes and ends").type_in("Share of strength left", "")
    assert draft(parts).at(("ropes", "hoist rope", "remaining_strength")) is None
    assert "0 cannot tell" not in parts.strip
    assert "not known: the rope" in parts.html
    assert "How to find out" in parts.html


def test_a_choice_can_be_set_to_unknown_and_back(parts):
    group(parts, "Sheaves")
    parts.by_label("selectbox", "Bearing").set_value("I don't know").run()
    assert draft(parts).at(("sheaves", "head sheave", "bearing")) is None
    parts.by_label("selectbox", "Bearing").set_value("plain").run()
    assert draft(parts).at(("sheaves", "head sheave", "bearing")) == "plain"


def test_every_optional_field_offers_i_dont_know(session):
    parts = group(session.example("kiln-shell").page("Change parts"), "Sheaves")
    for field in fields_of(model.Sheave):
        if field.is_optional:
            words = words_for("Sheave", field)
            label = f"{words.label} [{words.unit}]" if words.unit else words.label
            found = [e for kind in ("text_input", "selectbox") for e in getattr(parts.app, kind) if e.label.endswith(label)]
            assert found
            assert getattr(found[0], "placeholder", "") == "I don't know" or "I don't know" in getattr(found[0], "options", ())


def test_a_step_of_a_place_is_changed_by_itself(parts):
    group(parts, "Load and bodies").type_in("Centre of gravity, up [m]", "0.3")
    load = draft(parts).data["bodies"]
    assert next(iter(load.values()))["centre_of_gravity"] == ["0 m", "0.3 m"]
    assert "older result" not in parts.strip


def test_a_note_says_where_a_value_comes_from_and_a_guess_is_listed(parts):
    group(parts, "Load and bodies")
    parts.by_label("toggle", "Say where each value comes from").set_value(True).run()
    parts.type_in("Where from: Mass", "a guess of the owner")
    parts.page("Limits and sources")
    assert "a guess of the owner" in parts.text


def test_a_brake_that_is_half_described_stands_in_nobodys_way(session):
    parts = group(session.example("found-winch").page("Change parts"), "Drive")
    parts.by_label("selectbox", "Which one?").select("brake").run()
    parts.press("Leave the brake out").press("Add the brake")
    assert "older result" not in parts.strip
    assert draft(parts).at(("drive", "brake")) == {}
    parts.type_in("Torque of the brake [N·m]", "40")
    assert "older result" not in parts.strip
    assert draft(parts).at(("drive", "brake")) == {"torque": "40 N·m"}
    parts.page("Ropes").page("Change parts")
    parts.by_label("selectbox", "Sits on").set_value("drum").run()
    parts.by_label("selectbox", "Sets by itself when power fails").set_value("yes").run()
    assert "older result" not in parts.strip
    assert draft(parts).at(("drive", "brake")) == {"torque": "40 N·m", "on": "drum", "sets_itself": True}
    parts.press("Leave the brake out")
    assert draft(parts).at(("drive", "brake")) is None


def test_what_cannot_be_used_in_a_begun_part_is_told_in_the_words_of_the_form(session):
    parts = group(session.example("found-winch").page("Change parts"), "Drive").press("Add the cable")
    parts.type_in("Cross-section of a wire [mm²]", "2.5 kg").type_in("Length, one way [m]", "4")
    assert "an area is due" in parts.html
    assert "older result" not in parts.strip
    parts.type_in("Cross-section of a wire [mm²]", "2.5")
    assert draft(parts).at(("drive", "cable")) == {"area": "2.5 mm²", "length": "4 m"}


def test_a_sheave_that_is_renamed_keeps_its_rope(parts):
    group(parts, "Sheaves").type_in("Name of this sheave", "top sheave")
    assert "top sheave" in draft(parts).data["sheaves"]
    assert "top sheave" in str(draft(parts).data["ropes"])
    assert "older result" not in parts.strip
    assert parts.by_label("text_input", "Name of this sheave").value == "top sheave"


def test_a_name_that_is_taken_is_refused_beside_the_field_and_nothing_is_lost(parts):
    before = draft(parts)
    body = next(iter(before.data["bodies"]))
    group(parts, "Fixed places").type_in("Name of this point", body)
    assert "already" in parts.html
    assert draft(parts) == before
    assert parts.by_label("text_input", "Name of this point").value == body


def test_a_point_in_use_is_not_removed_and_says_by_whom(parts):
    group(parts, "Fixed places")
    button = parts.by_label("button", "Remove this point")
    assert button.disabled
    assert "head sheave sits on it" in parts.text.replace("\\", "")


def test_a_point_is_added_described_and_removed_again(parts):
    before = draft(parts).data
    group(parts, "Fixed places").type_in("Add a point: its name", "spare hook")
    assert draft(parts).data == before
    parts.type_in("Place, across [m]", "1").type_in("Place, up [m]", "2.5")
    assert draft(parts).at(("points", "spare hook")) == {"at": ["1 m", "2.5 m"]}
    assert "older result" not in parts.strip
    parts.press("Remove this point")
    assert draft(parts).data == before


def test_a_drive_is_changed_to_a_hand_line_and_back(session):
    parts = group(session.example("found-winch").page("Change parts"), "Drive").press("Change to a hand line")
    assert draft(parts).at(("drive",)) == {"kind": "hand line"}
    assert "older result" not in parts.strip
    assert "measure where the hands are" in parts.text.replace("\\", "")
    parts.press("Change to a winch")
    parts.type_in("Axis of the drum, across [m]", "1.4").type_in("Axis of the drum, up [m]", "0.4").type_in(
        "Diameter of the bare drum [mm]", "95"
    )
    assert draft(parts).at(("drive", "kind")) == "hand line"
    parts.by_label("selectbox", "Wound on the drum, turning").set_value("clockwise").run()
    assert draft(parts).at(("drive", "drum")) == {"at": ["1.4 m", "0.4 m"], "diameter": "95 mm"}
    assert "older result" not in parts.strip


def test_two_ropes_on_one_drum_are_refused_as_a_hand_line_and_nothing_is_lost(session):
    parts = group(session.example("kiln-shell").page("Change parts"), "Drive")
    before = draft(parts)
    parts.press("Change to a hand line")
    assert "2 ropes are wound on the drum" in parts.html
    assert draft(parts) == before


def test_gears_are_added_and_change_places(session):
    parts = group(session.example("found-winch").page("Change parts"), "Drive").press("Add a gear stage")
    parts.by_label("selectbox", "Kind of stage").set_value("spur").run()
    parts.type_in("Ratio", "14")
    assert [gear["kind"] for gear in draft(parts).at(("drive", "gears"))] == ["worm", "spur"]
    assert "seldom goes above" in parts.html
    parts.press("Move it towards the motor")
    assert [gear["kind"] for gear in draft(parts).at(("drive", "gears"))] == ["spur", "worm"]
    parts.press("Remove this stage")
    assert [gear["kind"] for gear in draft(parts).at(("drive", "gears"))] == ["worm"]


def test_rated_torque_is_worked_out_from_power_and_speed_with_a_note(session):
    parts = group(session.example("found-winch").page("Change parts"), "Drive")
    parts.by_label("selectbox", "Which one?").select("motor").run()
    parts.press("Work out: rated torque from power and speed")
    parts.type_in("Rated power that the shaft gives [W]", "90").type_in("Rated speed of the motor's own shaft [rpm]", "1400")
    next(button for button in parts.app.button if button.label.startswith("Put in")).click().run()
    motor = draft(parts).at(("drive", "motor"))
    assert motor["rated_torque"] == "0.6138 N·m"
    assert motor["notes"]["rated_torque"] == "from 90 W and 1400 rpm"
    assert "older result" not in parts.strip


def test_how_a_body_moves_can_be_changed(parts):
    group(parts, "Load and bodies")
    load = next(iter(draft(parts).data["bodies"]))
    parts.by_label("selectbox", "It moves").set_value("without turning, held by its ropes alone").run()
    assert draft(parts).at(("bodies", load, "moves")) == {"kind": "level"}
    parts.by_label("selectbox", "It moves").set_value("in a straight guide, held level").run()
    assert draft(parts).at(("bodies", load, "moves")) == {"kind": "guided", "tilts": False}
    assert "older result" not in parts.strip


def test_an_eye_is_renamed_with_its_rope_and_a_new_one_is_added(session):
    parts = group(session.example("found-winch").page("Change parts"), "Load and bodies").type_in("Name of this eye", "lifting eye")
    assert draft(parts).at(("ropes", "hoist rope", "path", 0, "pick")) == "lifting eye"
    parts.type_in("Add an eye or hook: its name", "side eye")
    assert draft(parts).at(("bodies", "press", "picks", "side eye")) == ["0 m", "0 m"]
    parts.press("Remove this eye")
    assert list(draft(parts).at(("bodies", "press", "picks"))) == ["lifting eye"]


def test_the_letters_of_the_form_are_those_of_the_sheet(parts):
    group(parts, "Ropes and ends")
    lettered = letters.of_fields(draft(parts))
    shown = {element.label.partition(" · ")[0] for element in parts.app.text_input if " · " in element.label}
    assert lettered["ropes", "hoist rope", "diameter"] in shown
    assert shown <= set(lettered.values())


def test_a_switch_of_units_changes_labels_and_no_meaning(parts):
    group(parts, "Ropes and ends").choose("Units", "us")
    before = draft(parts).at(("ropes", "hoist rope", "diameter"))
    assert parts.by_label("text_input", "Diameter [in]").value == before
    parts.type_in("Diameter [in]", "1/4")
    assert draft(parts).at(("ropes", "hoist rope", "diameter")) == "1/4 in"
    parts.choose("Units", "metric")
    assert parts.by_label("text_input", "Diameter [mm]").value == "1/4 in"


def test_a_part_asked_for_elsewhere_is_the_one_that_is_open(session):
    parts = session.example("kiln-shell").page("Change parts")
    group(parts, "Drive")
    parts.app.session_state["page open part"] = ("ropes", "right rope")
    parts.app.session_state["page open field"] = ("ropes", "right rope", "grade")
    parts.app.run()
    assert parts.by_label("button_group", "Which parts?").value == "Ropes and ends"
    assert parts.by_label("text_input", "Name of this rope").value == "right rope"
    letter = letters.of_fields(draft(parts))["ropes", "right rope", "grade"]
    assert f"Asked for: {letter} · right rope: rope grade" in parts.text.replace("\\", "")
    group(parts, "Sheaves")
    assert "Asked for" not in parts.text


def test_a_change_that_leaves_the_rig_without_an_answer_is_told_and_the_last_result_stays(parts):
    group(parts, "Load and bodies").type_in("Guide's direction, up", "0").type_in("Guide's direction, across", "1")
    assert not parts.app.exception
    assert "older result" in parts.strip
    assert "rc-fault" in parts.text


def test_ropes_that_cannot_keep_their_lengths_are_told_on_the_page_of_the_rope(session):
    parts = group(session.example("kiln-shell").page("Change parts"), "Ropes and ends").type_in("Diameter [mm]", "6.2")
    assert "cannot all keep their lengths" in parts.html
    assert "could not be shown" not in parts.text
    assert parts.by_label("selectbox", "Fitting or knot").value == "ferrule-secured eye"


def ends_of(parts, rope: str) -> list:
    group(parts, "Ropes and ends")
    if any(box.label == "Which one?" for box in parts.app.selectbox):
        parts.by_label("selectbox", "Which one?").select(rope).run()
    return [box for box in parts.app.selectbox if box.label.endswith("Fitting or knot")]


@pytest.mark.parametrize("kind, fits, does_not", [("steel", "wedge socket", "bowline"), ("fibre", "bowline", "wedge socket")])
def test_only_the_ends_of_its_kind_of_rope_are_offered(session, kind, fits, does_not):
    data = session.example("found-winch").app.session_state["draft"].edited(("ropes", "hoist rope", "kind"), kind).data
    for box in ends_of(session.begin_with(data).page("Change parts"), "hoist rope"):
        assert fits in box.options
        assert does_not not in box.options


def test_a_knot_in_a_steel_rope_of_a_file_is_told_beside_the_field_and_stays_as_it_was_typed(session):
    path = ("ropes", "hoist rope", "path", 0, "fitting")
    data = session.example("found-winch").app.session_state["draft"].edited(path, "bowline").data
    parts = session.begin_with(data).page("Change parts")
    (box,) = ends_of(parts, "hoist rope")
    assert box.value == "bowline"
    assert "bowline" in parts.html
    assert "is no end for a steel rope" in parts.html
    assert "wedge socket" in parts.html
    assert draft(parts).at(path) == "bowline"
    box.select("wedge socket").run()
    assert "is no end for a steel rope" not in parts.html


@pytest.mark.parametrize("kind, part, label, path", [
    ("Ropes and ends", "hoist rope", "Steel or fibre", ("ropes", "hoist rope", "kind")), ("Sheaves", "head sheave", "Sits on", ("sheaves", "head sheave", "on")),
    ("Load and bodies", "press", "What it is", ("bodies", "press", "role")), ("Drive", "gear stage 1", "Kind of stage", ("drive", "gears", 0, "kind")),
])  # fmt: skip
def test_a_required_choice_may_be_unknown_and_says_that_nothing_can_be_worked_out_without_it(session, kind, part, label, path):
    parts = group(session.example("found-winch").page("Change parts"), kind)
    if kind == "Drive":
        parts.by_label("selectbox", "Which one?").select(("drive", "gears", 0)).run()
    was = draft(parts).at(path)
    parts.by_label("selectbox", label).select("I don't know").run()
    assert draft(parts).at(path) is None
    assert "not known yet, and nothing can be worked out without it" in parts.html
    assert "older result" in parts.strip
    assert parts.by_label("selectbox", label).value == "I don't know"
    parts.by_label("selectbox", label).select(was).run()
    assert "older result" not in parts.strip


def test_each_of_two_missing_numbers_is_led_to_from_the_list_of_what_is_next(session):
    parts = group(session.example("found-winch").page("Change parts"), "Limits and basis").type_in("Travel [m]", "")
    group(parts, "Load and bodies").type_in("Mass [kg]", "")
    mass, travel = escaped("Find out: press: mass"), escaped("Find out: limits: travel")
    assert asked_for(parts) == [mass, travel]
    parts.press(travel)
    assert f"Asked for: {letters.of_fields(draft(parts))['limits', 'travel']} · limits: travel" in parts.text.replace("\\", "")
    assert parts.by_label("text_input", "Travel [m]").value == ""
    parts.press(mass)
    assert parts.by_label("text_input", "Mass [kg]").value == ""
    parts.type_in("Mass [kg]", "95")
    assert asked_for(parts) == [travel]


def asked_for(parts) -> list[str]:
    return [button.label for button in parts.app.button if button.label.startswith("Find out")]


def test_a_part_of_an_arrangement_that_is_renamed_says_where_its_form_went_and_undo_brings_it_back(session):
    parts = group(session.arrangement("straight").page("Change parts"), "Sheaves")
    assert "does not: the rig is then one of its own" in parts.by_label("text_input", "Name of this sheave").help
    parts.type_in("Name of this sheave", "top sheave")
    assert "Undo gives the old name and the form back" in parts.html
    parts.page("Begin")
    assert "Undo gives the old name and the form back" in parts.text
    parts.press("Undo")
    assert draft(parts).arrangement == "straight"
    assert "head sheave" in draft(parts).data["sheaves"]
    parts = group(session.example("loft-lift").page("Change parts"), "Sheaves").type_in("Name of this sheave", "top sheave")
    assert "Undo gives the old name" not in parts.html


def test_depth_is_explained_where_it_is_first_asked_for(parts):
    group(parts, "Fixed places")
    assert "minus: away" in parts.by_label("text_input", "Place, depth [m]").help
    assert "in depth: towards you as you see the drawing" in parts.text
