"""A load that turns about a hinge on the pages: its few numbers, its forms, its slider, and what is told when it is begun from a guide."""

from __future__ import annotations

import pytest

from rigcheck.report.path_words import in_words
from rigcheck.rig import examples
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.ui import body_form, draft_parts, few_numbers, letters
from rigcheck.ui import draft as drafts
from rigcheck.ui.part_choice import LIMITS

SLIDER = "Angle of the swing from its lowest place, in °"


def hatch():
    return drafts.of_rig(examples.example("cellar-hatch"), "an example")


def test_the_pulls_follow_a_slider_of_the_angle_and_say_where_the_load_stands(session):
    session.example("cellar-hatch").page("Ropes")
    slider = session.by_label("slider", SLIDER)
    assert (slider.min, slider.max) == (0.0, pytest.approx(70.0))
    slider.set_value(35.0).run()
    assert "m above its lowest place, swung by 35°; pulls while raising" in session.markdown_text
    assert "hinge of hatch" in session.html
    assert "swung by 70°" in session.html
    session.page("Verdicts").page("Ropes")
    assert session.by_label("slider", SLIDER).value == pytest.approx(35.0)


@pytest.mark.parametrize(
    "title", ["Begin", "Change parts", "Drum and motor", "Balance", "Verdicts", "Line by line", "Report", "Limits and sources"]
)
def test_every_page_shows_a_rig_with_a_hinge(session, title):
    for name in ("cellar-hatch", "kiln-lid"):
        session.example(name).page(title)
        assert not session.app.exception


def test_the_few_numbers_of_a_swing_hold_its_angle_and_no_travel():
    fields = {name for _, _, name in few_numbers.of(hatch())}
    assert "swing" in fields
    assert "travel" not in fields


def test_the_form_of_the_limits_asks_for_the_swing_of_a_lid_and_for_the_travel_of_a_load(session):
    for name, asked, other in (("cellar-hatch", "Swing [deg]", "Travel [m]"), ("loft-lift", "Travel [m]", "Swing [deg]")):
        session.example(name).page("Change parts").choose("Which parts?", LIMITS)
        labels = {element.label.partition(" · ")[2] for element in session.app.text_input}
        assert asked in labels
        assert other not in labels


def test_a_lid_is_lettered_with_its_hinge_and_a_fixed_weight_with_what_it_is_fixed_on():
    lettered = letters.of_fields(hatch())
    assert ("bodies", "hatch", "moves", "hinge") in lettered
    lid = drafts.of_rig(ARRANGEMENTS["kiln-lid"].make(ARRANGEMENTS["kiln-lid"].defaults()), "an example")
    assert ("bodies", "counterweight", "moves", "by") in letters.of_fields(lid)
    assert in_words(("bodies", "hatch", "moves", "hinge")) == "hatch: hinge"
    assert in_words(("bodies", "counterweight", "moves", "by")) == "counterweight: fixed on"


def test_a_load_put_on_a_hinge_asks_for_the_hinge_and_the_swing_and_takes_its_travel_back_when_it_is_guided_again():
    draft, path = drafts.of_rig(examples.example("well-crank"), "an example"), ("bodies", "pump")
    on_hinge = body_form.moving(draft, path, body_form.HINGED)
    assert body_form.way_of(on_hinge, path) == body_form.HINGED
    assert on_hinge.at(("limits", "travel")) is None
    rig, faults = on_hinge.read()
    assert rig is None
    assert any("hinge" in fault.wrong for fault in faults)
    placed = on_hinge.edited((*path, "moves", "hinge"), ["-1 m", "-4.6 m"]).edited(("limits", "swing"), "20 deg")
    assert placed.read()[0].swings
    back = body_form.moving(placed, path, body_form.GUIDED)
    assert back.at(("limits", "swing")) is None


def test_a_body_that_carries_another_is_not_removed_and_keeps_it_under_another_name():
    lid = drafts.of_rig(ARRANGEMENTS["kiln-lid"].make(ARRANGEMENTS["kiln-lid"].defaults()), "an example")
    assert "body counterweight is fixed on it" in draft_parts.users(lid, "bodies", "load")
    renamed = draft_parts.renamed(lid, "bodies", "load", "lid")
    assert renamed.at(("bodies", "counterweight", "moves", "by")) == "lid"
    assert renamed.read()[0].carrier("counterweight") == "lid"


def test_the_forms_of_lid_and_weight_are_shown_with_how_they_move(session):
    session.arrangement("kiln-lid").page("Change parts").choose("Which parts?", "Load and bodies")
    assert session.by_label("selectbox", "It moves").value == body_form.HINGED
    assert session.by_label("text_input", "Hinge, up [m]").value == "1.1 m"
    session.by_label("selectbox", "Which one?").select_index(1).run()
    assert session.by_label("selectbox", "It moves").value == body_form.CARRIED
    assert session.by_label("selectbox", "Fixed on").value == "load"
    session.type_in("Mass [kg]", "35").page("Verdicts")
    assert "the weights turn it on by themselves" in session.text


def test_a_load_is_put_on_a_hinge_on_its_form_and_comes_out_once_hinge_and_swing_are_typed(session):
    session.example("well-crank").page("Change parts").choose("Which parts?", "Load and bodies")
    session.by_label("selectbox", "It moves").set_value(body_form.HINGED).run()
    assert not session.app.exception
    session.type_in("Hinge, across [m]", "-1.5")
    session.type_in("Hinge, up [m]", "-4.6")
    session.choose("Which parts?", LIMITS).type_in("Swing [deg]", "30")
    assert not session.app.exception
    rig, faults = session.app.session_state["draft"].read()
    assert faults == []
    assert rig.swings
    session.page("Ropes")
    assert session.by_label("slider", SLIDER).max == pytest.approx(30.0)
