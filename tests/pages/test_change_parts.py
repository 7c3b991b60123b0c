"""Changing parts: each fault beside its field, nothing lost, and what a change turned is told."""

from __future__ import annotations

import pytest

from rigcheck.ui.part_pages import GROUPS


def group(session, name: str):
    session.by_label("button_group", "Which parts?").set_value(name).run()
    return session


@pytest.fixture
def parts(session):
    return session.example("loft-lift").page("Change parts")


@pytest.mark.parametrize("name", list(GROUPS))
def test_every_group_of_parts_is_shown(parts, name):
    group(parts, name)
    assert not parts.app.exception
    assert "could not be shown" not in parts.text


@pytest.mark.parametrize("name", list(GROUPS))
def test_showing_a_field_changes_nothing(parts, name):
    before = parts.app.session_state["draft"]
    group(parts, name)
    parts.by_label("toggle", "Say where each value comes from").set_value(True).run()
    assert parts.app.session_state["draft"] == before


def test_a_change_says_which_verdicts_it_turned(parts):
    group(parts, "Load and bodies").type_in("Mass [kg]", "600")
    assert "The last change turned these verdicts" in parts.text
    assert "holds before" in parts.text
    assert "falls short now" in parts.text
    assert "600 kg" in parts.app.session_state["good_text"]


def test_a_change_can_be_taken_back(parts):
    good = parts.app.session_state["good_text"]
    group(parts, "Load and bodies").type_in("Mass [kg]", "600")
    next(button for button in parts.app.button if button.label == "Take the last change back").click().run()
    assert parts.app.session_state["good_text"] == good
    assert parts.by_label("text_input", "Mass [kg]").value == "200 kg ± 5 kg"


def test_a_bad_value_is_told_at_its_field_and_survives_a_change_of_page(parts):
    group(parts, "Load and bodies").type_in("Mass [kg]", "200 lbf")
    assert "a mass is due" in parts.text
    assert "older result" in parts.strip
    parts.page("Pulls").page("Change parts")
    assert parts.by_label("text_input", "Mass [kg]").value == "200 lbf"
    parts.type_in("Mass [kg]", "210")
    assert "older result" not in parts.strip


def test_an_emptied_field_means_not_known_and_its_check_cannot_tell(parts):
    group(parts, "Ropes and ends").type_in("Share of strength left", "")
    assert parts.app.session_state["draft"].at(("ropes", "hoist rope", "remaining_strength")) is None
    assert "0 cannot tell" not in parts.strip


def test_a_choice_can_be_set_to_unknown_and_back(parts):
    group(parts, "Sheaves")
    parts.by_label("selectbox", "Bearing").set_value("I don't know").run()
    assert parts.app.session_state["draft"].at(("sheaves", "head sheave", "bearing")) is None
    parts.by_label("selectbox", "Bearing").set_value("plain").run()
    assert parts.app.session_state["draft"].at(("sheaves", "head sheave", "bearing")) == "plain"


def test_a_step_of_a_place_is_changed_by_itself(parts):
    group(parts, "Load and bodies").type_in("Centre of gravity, up [m]", "0.3")
    load = parts.app.session_state["draft"].data["bodies"]
    assert next(iter(load.values()))["centre_of_gravity"] == ["0 m", "0.3 m"]
    assert "older result" not in parts.strip


def test_a_note_says_where_a_value_comes_from_and_a_guess_is_listed(parts):
    group(parts, "Load and bodies")
    parts.by_label("toggle", "Say where each value comes from").set_value(True).run()
    parts.type_in("Where from: Mass", "a guess of the owner")
    parts.page("Limits and sources")
    assert "a guess of the owner" in parts.text


def test_a_brake_can_be_added_and_left_out_again(session):
    parts = group(session.example("found-winch").page("Change parts"), "Drive")
    next(button for button in parts.app.button if button.label == "Add the brake").click().run()
    assert "is missing" in parts.text
    assert "older result" in parts.strip
    parts.type_in("Torque of the brake [N·m]", "40")
    parts.by_label("selectbox", "Sits on").set_value("drum").run()
    parts.by_label("selectbox", "Sets by itself when power fails").set_value("yes").run()
    assert "older result" not in parts.strip
    assert parts.app.session_state["draft"].at(("drive", "brake")) == {"torque": "40 N·m", "on": "drum", "sets_itself": True}
    next(button for button in parts.app.button if button.label == "Leave the brake out").click().run()
    assert parts.app.session_state["draft"].at(("drive", "brake")) is None


def test_a_change_that_leaves_the_rig_without_an_answer_is_told_and_the_last_result_stays(parts):
    group(parts, "Load and bodies").type_in("Direction of the guide, up", "0").type_in("Direction of the guide, across", "1")
    assert not parts.app.exception
    assert "older result" in parts.strip
    assert "rc-fault" in parts.text
