"""Beginning: an arrangement's numbers, an example, a file; nothing typed is lost and the last good result stays."""

from __future__ import annotations

import pytest

from rigcheck.rig import examples, files
from rigcheck.rig.arrangements import ARRANGEMENTS


@pytest.mark.parametrize("slug", list(ARRANGEMENTS))
def test_every_arrangement_is_drawn_and_judged_as_soon_as_it_is_picked(session, slug):
    session.arrangement(slug)
    assert not session.app.exception
    assert ARRANGEMENTS[slug].title in session.strip
    assert "older result" not in session.strip
    assert "With 120 kg" in session.text


def test_a_bare_number_takes_the_unit_in_the_label(session):
    session.arrangement("straight").type_in("Mass of the load [kg]", "150")
    assert "With 150 kg" in session.text
    assert session.by_label("text_input", "Mass of the load [kg]").value == "150"


def test_other_units_and_tolerances_are_read(session):
    session.arrangement("straight").type_in("Mass of the load [kg]", "300 lb ± 10 lb")
    assert "With 300 lb ± 10 lb" in session.text


def test_what_cannot_be_read_is_told_beside_its_field_and_the_last_good_result_stays_marked(session):
    session.arrangement("straight").type_in("Mass of the load [kg]", "150").type_in("Mass of the load [kg]", "12 ton")
    assert "does not say which ton" in session.text
    assert "older result" in session.strip
    assert "With 150 kg" in session.text
    session.type_in("Travel [m]", "two")
    assert "does not say which ton" in session.text
    assert "does not begin with a number" in session.text


def test_what_was_typed_survives_a_change_of_page_even_where_it_cannot_be_read(session):
    session.arrangement("straight").type_in("Mass of the load [kg]", "heavy").page("Verdicts")
    assert "older result" in session.strip
    session.page("Begin")
    assert session.by_label("text_input", "Mass of the load [kg]").value == "heavy"


def test_values_that_do_not_go_together_are_told_at_the_label_they_belong_to(session):
    session.arrangement("straight").type_in("Height of the head sheave [m]", "1")
    assert "leaves no room under the head sheave" in session.text
    session.type_in("Height of the head sheave [m]", "3.5")
    assert "older result" not in session.strip


def test_what_was_changed_by_hand_is_kept_when_a_number_of_the_arrangement_changes(session):
    session.arrangement("straight").page("Change parts")
    session.by_label("button_group", "Which parts?").set_value("Ropes and ends").run()
    session.type_in("Share of strength left", "0.9").page("Begin").type_in("Mass of the load [kg]", "90")
    assert "With 90 kg" in session.text
    assert "Changed by hand and kept" in session.text
    assert "remaining_strength" in session.text.replace("\\", "")


def test_a_rig_file_can_be_opened(session):
    session.by_label("radio", "Begin with").set_value("a rig file").run()
    content = files.dumps(examples.example("well-crank")).encode()
    session.app.file_uploader[0].set_value(("well.rig.json", content, "application/json")).run()
    assert "well crank" in session.strip


@pytest.mark.parametrize(
    "content, told",
    [
        (b"{", "the file is not JSON"),
        (b"", "the file is empty"),
        (b"\xff\xfe\x00", "not UTF-8"),
        (b'{"format": 9}', "newer rigcheck"),
        (b" " * 1_000_001, "at most 1 MB"),
    ],
)
def test_a_broken_file_is_told_and_the_rig_that_was_open_stays(session, content, told):
    session.example("loft-lift")
    session.by_label("radio", "Begin with").set_value("a rig file").run()
    session.app.file_uploader[0].set_value(("broken.rig.json", content, "application/json")).run()
    assert not session.app.exception
    assert told in session.text
    assert "loft lift" in session.strip


def test_a_page_that_is_loaded_again_takes_up_its_draft(session):
    session.arrangement("straight").type_in("Mass of the load [kg]", "77")
    again = type(session)(draft=session.app.session_state["draft_name"])
    assert "With 77 kg" in again.text
