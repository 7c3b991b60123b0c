"""Beginning: an arrangement's numbers, an example, a file; nothing typed is lost and the last good result stays."""

from __future__ import annotations

import pytest

from rigcheck.rig import examples, files
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.ui import cards, trying
from rigcheck.ui.plain_text import escaped


def test_the_first_thing_seen_is_a_rig_that_is_worked_out_and_the_ways_to_begin(session):
    assert "loft lift" in session.strip
    assert "With 200 kg ± 5 kg it holds" in session.text
    assert session.by_label("button_group", "What to do").value == "Begin with another"


def test_a_press_on_a_card_opens_what_is_on_it(session):
    opened = {(group["kind"], card["slug"]) for group in cards.cards() for card in group["cards"]}
    assert opened == {("arrangement", slug) for slug in ARRANGEMENTS} | {("example", name) for name in examples.names()}
    assert all(card["svg"].startswith("<svg") for group in cards.cards() for card in group["cards"])


def test_undo_and_redo_reach_over_a_change_of_rig(session):
    session.arrangement("straight").type_in("Mass of the load [kg]", "77").press("Undo")
    assert "With 120 kg" in session.text
    assert session.by_label("text_input", "Mass of the load [kg]").value == "120 kg"
    session.press("Redo")
    assert "With 77 kg" in session.text
    session.file("well.rig.json", files.dumps(examples.example("well-crank")).encode()).press("Undo")
    assert "With 77 kg" in session.text


def test_the_units_of_everything_follow_the_switch_and_what_was_typed_stays(session):
    session.arrangement("straight").type_in("Mass of the load [kg]", "77").choose("Units", "us")
    assert "With 169.8 lb" in session.text
    assert " kg" not in session.strip
    assert session.by_label("text_input", "Mass of the load [lb]").value == "77 kg"
    session.type_in("Mass of the load [lb]", "200")
    assert "With 200 lb" in session.text
    session.choose("Units", "metric")
    assert session.by_label("text_input", "Mass of the load [kg]").value == "200 lb"


def test_what_is_not_known_is_said_with_a_way_to_find_it_out(session):
    session.arrangement("straight").type_in("Mass of the load [kg]", "")
    assert "older result" in session.strip
    assert "scales" in session.text


def test_an_address_whose_rig_is_no_longer_kept_says_so(session):
    lost = type(session)(draft="nothing-of-that-name")
    assert "no longer kept" in lost.text
    assert "loft lift" in lost.strip


@pytest.mark.parametrize("slug", list(ARRANGEMENTS))
def test_every_arrangement_is_drawn_and_judged_as_soon_as_it_is_picked(session, slug):
    session.arrangement(slug)
    assert not session.app.exception
    assert ARRANGEMENTS[slug].title in session.strip
    assert "older result" not in session.strip
    assert f"With {ARRANGEMENTS[slug].defaults()['mass']}" in session.text


def test_a_bare_number_takes_the_unit_in_the_label(session):
    session.arrangement("straight").type_in("Mass of the load [kg]", "150")
    assert "With 150 kg" in session.text
    assert session.by_label("text_input", "Mass of the load [kg]").value == "150"


def test_other_units_and_tolerances_are_read(session):
    session.arrangement("straight").type_in("Mass of the load [kg]", "300 lb ± 10 lb")
    assert "With 136.1 kg ± 4.536 kg" in session.text


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
    assert "Changed elsewhere, and no field of this form says it" in session.html
    assert "hoist rope: share of strength left: not stated → 0.9" in session.html


def test_a_rig_file_can_be_opened(session):
    session.file("well.rig.json", files.dumps(examples.example("well-crank")).encode())
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
    session.file("broken.rig.json", content)
    assert not session.app.exception
    assert told in session.text
    assert "loft lift" in session.strip


def test_every_fault_of_a_file_is_told_at_once(session):
    data = files.dumps(examples.example("loft-lift")).replace('"200 kg ± 5 kg"', '"heavy"').replace('"clockwise"', '"left"')
    session.file("broken.rig.json", data.encode())
    assert "does not begin with a number" in session.text
    assert "is not one of the choices" in session.text


def test_a_page_that_is_loaded_again_takes_up_its_draft(session):
    session.arrangement("straight").type_in("Mass of the load [kg]", "77")
    again = type(session)(draft=session.app.session_state["draft_name"])
    assert "With 77 kg" in again.text


def test_what_was_changed_elsewhere_stands_in_its_field_and_can_be_typed_over(session):
    session.arrangement("straight")
    assert "Not yours yet" in session.text
    session.page("Change parts")
    session.by_label("button_group", "Which parts?").set_value("Ropes and ends").run()
    session.type_in("Diameter [mm]", "5").page("Begin")
    assert session.by_label("text_input", "Diameter of the rope [mm]").value == "5 mm"
    assert "Changed elsewhere" not in session.html
    session.type_in("Diameter of the rope [mm]", "8")
    assert session.app.session_state["draft"].at(("ropes", "hoist rope", "diameter")) == "8 mm"
    assert "Gave way" not in session.html
    session.press("Undo")
    assert session.by_label("text_input", "Diameter of the rope [mm]").value == "5 mm"


def test_every_fault_of_the_answers_is_told_at_once_each_by_its_field(session):
    session.arrangement("straight").type_in("Mass of the load [kg]", "heavy").type_in("Height of the head sheave [m]", "1")
    session.type_in("Diameter of the rope [mm]", "100")
    for told in ("does not begin with a number", "leaves no room under the head sheave", "is less than twice the diameter of the rope"):
        assert told in session.text


def typed(session, label: str, text: str) -> None:
    """Type into a choice what is none of its options: the browser sends it as an option of its own."""
    box = session.by_label("selectbox", label)
    box.options.append(text)
    box.set_value(text).run()


def test_any_ratio_can_be_typed_and_one_that_is_none_is_told(session):
    session.arrangement("straight")
    typed(session, "Gear ratio", "480")
    assert session.app.session_state["draft"].at(("drive", "gears", 0, "ratio")) == 480
    assert "guess" in session.app.session_state["draft"].at(("drive", "gears", 0, "notes", "ratio"))
    assert "older result" not in session.strip
    typed(session, "Gear ratio", "many")
    assert not session.app.exception
    assert "Write a plain number above 1 and at most 10000" in session.text
    assert session.app.session_state["draft"].at(("drive", "gears", 0, "ratio")) == 480


def test_what_waits_for_the_width_of_the_drum_is_told_by_the_drum_until_it_is_typed(session):
    session.arrangement("straight")
    assert "cannot be told until its width is typed" in session.text
    draft = session.app.session_state["draft"]
    session.app.session_state["draft"] = draft.edited(("drive", "drum", "width"), "200 mm")
    session.app.run()
    assert "cannot be told until its width is typed" not in session.text


def test_a_change_that_was_taken_back_is_not_credited_to_the_one_before_it(session):
    session.arrangement("straight").type_in("Mass of the load [kg]", "90").page("Change parts")
    told = next(text for text in session.html.split("<div") if "The last change" in text).partition("</div>")[0]
    session.page("Begin").type_in("Diameter of the rope [mm]", "20").press("Undo").page("Change parts")
    assert told in session.html
    session.press("Undo")
    assert "The last change" not in session.html


def test_a_trial_ends_with_the_next_change_which_is_said_and_comes_again_when_that_is_taken_back(session):
    session.arrangement("straight-counterweight").page("Balance")
    state = session.app.session_state
    draft = state["draft"].edited(("bodies", "counterweight", "mass"), "70 kg")
    state["undo"], state["draft"] = (*state["undo"], state["draft"]), draft
    state["page trials"] = (trying.Trial("weight", "weight of counterweight: 70 kg", draft),)
    session.app.run()
    assert "Changed here last: weight of counterweight: 70 kg" in session.text.replace("\\", "")
    session.page("Begin").type_in("Travel [m]", "1.2").page("Balance")
    assert "Changed here last" not in session.text
    assert "weight of counterweight: 70 kg. Something else was changed since" in session.text.replace("\\", "")
    session.press("Undo")
    assert "Changed here last: weight of counterweight: 70 kg" in session.text.replace("\\", "")


def test_how_hard_one_pulls_stands_beside_the_verdict_of_a_rig_worked_by_hand(session):
    assert "One person pulls with up to 139.3 N" in session.example("boat-engine").text
    assert "pulls with up to" not in session.example("kiln-shell").text


def test_numbers_that_nobody_gave_are_listed_as_guesses_until_they_are_confirmed(session):
    session.arrangement("straight").type_in("Mass of the load [kg]", "95")
    note = session.app.session_state["draft"].data["notes"]["name"]
    assert "guess" in note
    assert "Travel 1.6 m" in note
    assert "Mass" not in note
    session.type_in("Travel [m]", "1.6")
    assert "Travel" not in session.app.session_state["draft"].data["notes"]["name"]
    chosen = session.app.session_state["draft"].data["notes"]["about"]
    assert "guess" in chosen
    assert "Rope steel, 7x19" in chosen
    session.press("They are all right as they stand")
    assert not session.app.session_state["draft"].data.get("notes")
    assert "Not yours yet" not in session.text
    session.press("Undo")
    assert session.app.session_state["draft"].data["notes"]["about"] == chosen


def test_no_end_of_another_kind_of_rope_is_offered_under_one_kind(session):
    session.arrangement("straight")
    asked = []
    for kind, made_of in (("steel", "steel, 7x19"), ("fibre", "fibre, polyester")):
        session.by_label("selectbox", "Rope").set_value(made_of).run()
        asked.append(session.by_label("selectbox", f"Ends of the {kind} rope").options)
        labels = [box.label for box in session.app.selectbox]
        assert sum("Ends of the" in label for label in labels) == 1
        assert any("Grade of the rope" in label for label in labels) == (kind == "steel")
    steel, fibre = asked
    assert "bowline" not in steel
    assert "wedge socket" not in fibre
    assert set(steel) & set(fibre) == {"I don't know"}


@pytest.mark.parametrize("slug", list(ARRANGEMENTS))
def test_every_choice_of_every_arrangement_offers_that_it_is_not_known(session, slug):
    session.arrangement(slug)
    for box in session.app.selectbox:
        assert [option for option in box.options if option.startswith("I don't know")], box.label
    assert len(session.app.text_input) <= 8


def test_a_worn_rope_is_said_on_the_first_page_of_an_arrangement(session):
    session.arrangement("straight")
    session.by_label("selectbox", "Condition of the rope").select("worn or damaged").run()
    rope = session.app.session_state["draft"].at(("ropes", "hoist rope"))
    assert "remaining_strength" not in rope
    assert rope["notes"]["remaining_strength"].startswith("worn or damaged")
    assert "older result" not in session.strip


def test_the_condition_of_every_rope_of_another_rig_is_said_there_too(session):
    session.example("found-winch")
    box = session.by_label("selectbox", "Condition of hoist rope")
    assert box.value == "I don't know"
    box.select("new, no fault found").run()
    assert session.app.session_state["draft"].at(("ropes", "hoist rope", "remaining_strength")) == 1
    session.by_label("selectbox", "Condition of hoist rope").select("worn or damaged").run()
    assert session.app.session_state["draft"].at(("ropes", "hoist rope", "remaining_strength")) is None
    assert session.by_label("selectbox", "Condition of hoist rope").value == "worn or damaged"


@pytest.mark.parametrize("name", examples.names())
def test_no_rig_asks_for_more_than_eight_numbers_at_first(session, name):
    session.example(name)
    assert 3 <= len(session.app.text_input) <= 8


def test_what_the_form_guessed_is_told_on_the_first_page_until_it_is_given(session):
    session.arrangement("straight")
    session.by_label("selectbox", "Worked by").select("crank on the drum").run()
    told = session.text.replace("\\", "")
    assert (
        "Guessed by the form or placed by eye, and not measured yet: drum: axis of the drum; crank: radius of the crank; crank: people at the crank."
        in told
    )
    draft = session.app.session_state["draft"]
    session.app.session_state["draft"] = draft.edited(("drive", "crank", "radius"), "0.3 m")
    session.app.run()
    assert "crank: radius of the crank; crank: people" not in session.text.replace("\\", "")


def test_two_numbers_of_an_arrangement_that_are_missing_are_led_to_from_the_parts(session):
    session.arrangement("straight").type_in("Mass of the load [kg]", "").type_in("Travel [m]", "")
    assert "Below, in this form: A · Mass of the load; C · Travel." in session.text.replace("\\", "")
    session.page("Change parts").press(escaped("Find out: C · Travel"))
    assert session.by_label("text_input", "Travel [m]").value == ""
    assert session.by_label("text_input", "Mass of the load [kg]").value == ""
