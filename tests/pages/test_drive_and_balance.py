"""The pages Drum and motor and Balance: what they tell is what the checks say, and what is tried can be taken back."""

from __future__ import annotations

import json

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.rig import examples, files
from rigcheck.rig.model import Rig
from rigcheck.ui import other_drive_view
from rigcheck.units import US, shown_in
from rigcheck.whatif import other_drive

DRIVE, BALANCE = "Drum and motor", "Balance"
RATIOS, DRUMS = "another gear ratio", "another drum"
PILLS = "Try one: the whole rig is then worked out with it"
MISLEADING = "<b>x</b> $y$ **z**"


def at(session, page: str, example: str):
    session.example(example).page(page)
    fine(session)
    return session


def fine(session) -> None:
    assert not session.app.exception
    assert "could not be shown" not in session.text


def charts(session) -> list[dict]:
    return [json.loads(each.proto.spec) for each in session.app.get("vega_lite_chart") + session.app.get("arrow_vega_lite_chart")]


def stands(session, *path):
    """What stands in the draft at a path."""
    return session.app.session_state["draft"].at(path)


# -- drum and motor ------------------------------------------------------------------------------------------------------


def test_the_working_point_and_one_lift_are_told_as_the_checks_worked_them_out(session):
    at(session, DRIVE, "loft-lift")
    for told in ("1.256 N·m", "2519 rpm", "18.5 A", "22.3 s", "8.64 m/min", "443 W", "332 W", "23.5 V", "1.9 N·m", "7.932 N·m"):
        assert told in session.html, told
    assert "Torque on the drum, the same at every height: raising 139 N·m" in session.html
    (working_point,) = charts(session)
    assert "the figures stand in the table" in working_point["description"].lower()


def test_what_changes_along_the_travel_is_drawn_and_what_does_not_is_told(session):
    at(session, DRIVE, "gallery-crate")
    titles = [chart["encoding"]["x"]["title"] for chart in charts(session) if "encoding" in chart]
    assert [title.rpartition(" in ")[0] for title in titles] == ["Torque on the drum", "Speed of the load", "Current"]


def test_an_unknown_motor_is_given_no_picture_and_what_is_missing_is_told(session):
    at(session, DRIVE, "found-winch")
    assert charts(session) == []
    assert "so no picture of it is drawn" in session.text
    assert "the motor&#x27;s stall torque" in session.html
    assert "count the turns left on the drum" in session.html
    assert "How the rope lies on the drum cannot be told" in session.text


def test_a_motor_that_cannot_turn_its_load_is_said_to_stand_and_given_no_speed(session):
    at(session, DRIVE, "tired-hoist")
    assert "The motor cannot turn this load" in session.text
    assert "the motor stands" in session.html
    assert "m/min" not in session.html


@pytest.mark.parametrize("example", ["loft-lift", "kiln-shell", "tired-hoist"])
def test_no_speed_of_lowering_is_given(session, example):
    at(session, DRIVE, example)
    assert "Lowering is not worked out" in session.text
    assert "no speed of lowering is given" in session.text


def test_a_crank_and_a_hand_line_tell_the_effort_of_one_person(session):
    at(session, DRIVE, "well-crank")
    assert "raising 70.25 N" in session.html
    assert "Customary is at most 150 N (common practice, no source)" in session.html
    at(session, DRIVE, "boat-engine")
    assert "neither drum nor motor" in session.text
    assert "raising 139.3 N" in session.html
    assert "another drum" not in session.text


def test_nothing_is_worked_out_before_it_is_asked_for(session, monkeypatch):
    from rigcheck.whatif import other_drive

    monkeypatch.setattr(other_drive, "try_drive", lambda *_: pytest.fail("worked out unasked"))
    at(session, DRIVE, "bakery-flour-hoist")


def test_another_ratio_is_shown_with_what_assess_says_of_it(session):
    at(session, DRIVE, "loft-lift").choose("Work out", RATIOS)
    fine(session)
    data = json.loads(files.dumps(examples.example("loft-lift")))
    data["drive"]["gears"][0]["ratio"] = 2.5
    found = assess(Rig.model_validate(data))
    row = session.html.partition('scope="row">1:2.5</th>')[2].partition("</tr>")[0]
    assert "2.52 N·m" in row  # 2.5115, rounded up
    assert f"{found.counts['holds']}</span>" in row
    assert f"{found.counts['falls short']}</span>" in row
    assert "151.3 kg" in row
    assert "1:5 (now)" in session.html


def test_a_ratio_is_tried_with_one_press_and_taken_back_with_one(session):
    at(session, DRIVE, "loft-lift").choose("Work out", RATIOS)
    before = session.strip
    session.choose(PILLS, "1:8")
    fine(session)
    assert stands(session, "drive", "gears", 0, "ratio") == 8
    assert r"Changed here last: another gear ratio\: 1\:8. Everything shown is worked out with it." in session.markdown_text
    assert "368.7 kg" in session.strip
    session.press("Go back to what it was")
    assert stands(session, "drive", "gears", 0, "ratio") == 5
    assert session.strip == before
    assert "Changed here last" not in session.text


def test_the_stage_that_changes_can_be_chosen(session):
    at(session, DRIVE, "kiln-shell").choose("Work out", RATIOS)
    assert "1:4 (now)" in session.html, "a spur stage is changed more easily than a worm"
    session.by_label("selectbox", "Stage, counted from the motor").set_value(1).run()
    assert "1:60 (now)" in session.html
    session.choose(PILLS, "1:50")
    assert stands(session, "drive", "gears", 1, "ratio") == 50
    assert stands(session, "drive", "gears", 0, "ratio") == 4


def test_another_drum_is_tried_with_its_flanges_as_far_out_as_now(session):
    at(session, DRIVE, "loft-lift").choose("Work out", DRUMS)
    assert "20.8 where 18 is asked" in session.html
    session.choose(PILLS, "112 mm")
    assert stands(session, "drive", "drum", "diameter") == "112 mm"
    assert stands(session, "drive", "drum", "flange_diameter") == "157 mm"
    assert stands(session, "drive", "drum", "notes", "diameter") == "chosen, not measured"
    session.press("Go back to what it was")
    assert stands(session, "drive", "drum", "diameter") == "125 mm"
    assert stands(session, "drive", "drum", "flange_diameter") == "170 mm"


# -- balance -------------------------------------------------------------------------------------------------------------


def test_a_rig_without_a_counterweight_says_so_and_how_to_add_one(session):
    at(session, BALANCE, "loft-lift")
    assert "This rig has no counterweight. To add one" in session.text
    assert charts(session) == []


def test_the_best_weight_and_the_limits_are_told(session):
    at(session, BALANCE, "studio-counterweight")
    for told in ("65 kg ± 1 kg", "is 185.7 N", "The best weight is 74.13 kg", "above 76.68 kg the hoist rope goes slack when the load is started down", "above 83.21 kg it goes slack even while the load moves steadily",
                 "above 90 kg it runs away", "less than 70.31 kg", "for loads from 76.29 kg to 166 kg"):  # fmt: skip
        assert told in session.html, told
    assert "starting down or stopping on the way up 124 N" in session.html
    assert "stands at 2.6 m with the load down and at 0.1 m with the load up" in session.html


def test_the_chart_marks_the_weight_now_and_the_best(session):
    at(session, BALANCE, "kiln-shell")
    (chart,) = charts(session)
    assert "now 105 kg" in chart["description"]
    assert "best 113.1 kg" in chart["description"]


def test_a_weight_on_the_slider_is_worked_out_and_the_rig_stays_as_it_is(session):
    at(session, BALANCE, "studio-counterweight")
    session.app.slider[0].set_value(72.0).run()
    fine(session)
    # raising (90 - 72 / 1.04²) g · 1.04 = 238.98 N, lowering (90 - 72 · 1.04²) g / 1.04 = 114.33 N
    for told in ('scope="col" class="rc-number">72 kg</th>', ">239 N</td>", ">114.3 N</td>", "No verdict would turn"):
        assert told in session.html, told
    assert stands(session, "bodies", "counterweight", "mass") == "65 kg ± 1 kg"


def test_a_weight_that_lets_the_rope_go_slack_gives_no_pull_and_tells_which_verdicts_turn(session):
    at(session, BALANCE, "studio-counterweight")
    session.app.slider[0].set_value(90.0).run()
    assert "none: it goes slack" in session.html
    assert "hoist rope, pull left over along the travel, both ways: falls short" in session.html


def test_a_weight_with_which_the_rope_goes_slack_is_shown_but_not_offered(session):
    at(session, BALANCE, "studio-counterweight")
    session.app.slider[0].set_value(90.0).run()
    assert "Not offered: with 90 kg this falls short" in " ".join(caption.value for caption in session.app.caption).replace("\\", "")
    assert not [button for button in session.app.button if button.label.startswith("Take this weight")]


def test_a_weight_is_taken_in_the_unit_typed_and_given_back(session):
    at(session, BALANCE, "studio-counterweight")
    session.app.slider[0].set_value(72.0).run()
    session.press(r"Take this weight\: 72 kg")
    fine(session)
    assert stands(session, "bodies", "counterweight", "mass") == "72 kg"
    assert "Weight of counterweight: 72 kg" in session.html
    session.press("Go back to what it was")
    assert stands(session, "bodies", "counterweight", "mass") == "65 kg ± 1 kg"


def test_the_best_weight_is_taken_with_one_press_and_holds(session):
    data = json.loads(files.dumps(examples.example("studio-counterweight")))
    del data["limits"]["stopping"]
    session.begin_with(data).page(BALANCE)
    session.press(r"Take the best weight\: 76\.51 kg")
    assert stands(session, "bodies", "counterweight", "mass") == "76.51 kg"
    assert "Weight of counterweight: 76.51 kg" in session.html
    assert r"Take the best weight\: 76\.51 kg" not in [button.label for button in session.app.button]


def test_the_best_weight_can_be_stopped_as_hard_as_stated_at_both_ends_of_the_loads_tolerance(session):
    at(session, BALANCE, "kiln-shell")
    assert "the hoist rope goes slack when the load is started down or stopped as hard as is stated, 0.5 m/s²" in session.html
    assert "fall short with a load of 136 kg" in session.html, "the lower end of the tolerance"
    (best,) = (button for button in session.app.button if button.label.startswith("Take the"))
    session.press(best.label)
    fine(session)
    ids = {check.id: check.verdict for check in assess(Rig.model_validate(session.app.session_state["draft"].data)).checks}
    assert ids["counterweight.stopping"] == ids["taut.hoist"] == "holds"


def test_without_a_stated_margin_the_best_weight_is_asked_for(session):
    data = json.loads(files.dumps(examples.example("studio-counterweight")))
    del data["limits"]["taut_margin"]
    session.begin_with(data).page(BALANCE)
    fine(session)
    assert "The best weight cannot be told" in session.html
    assert not [button for button in session.app.button if button.label.startswith("Take the best")]
    session.press("State the pull to be left in the hoist rope")
    assert session.app.session_state["page open field"] == ("limits", "taut_margin")


def test_one_press_leads_to_the_field_of_the_weight(session):
    at(session, BALANCE, "studio-counterweight")
    session.press("Change its weight in its own field")
    fine(session)
    assert session.app.session_state["page open field"] == ("bodies", "counterweight", "mass")


def test_without_a_stated_stopping_it_is_said_that_it_cannot_be_told(session):
    data = json.loads(files.dumps(examples.example("studio-counterweight")))
    del data["limits"]["stopping"]
    session.begin_with(data).page(BALANCE)
    fine(session)
    assert "While starting and stopping it cannot be told" in session.html
    assert "Time how long the load runs on" in session.html


def test_while_the_draft_cannot_be_used_nothing_can_be_tried(session):
    data = json.loads(files.dumps(examples.example("studio-counterweight")))
    session.begin_with(data).page("Change parts")
    session.app.session_state["draft"] = session.app.session_state["draft"].edited(("limits", "travel"), "far")
    session.page(BALANCE)
    fine(session)
    assert session.app.slider[0].disabled
    session.page(DRIVE).choose("Work out", RATIOS)
    assert "once what was typed can be used" in session.text


def test_names_made_to_mislead_are_no_markup(session):
    text = json.dumps(json.loads(files.dumps(examples.example("kiln-shell"))))
    for name in ("left rope", "counterweight rope", "shell"):
        text = text.replace(f'"{name}"', json.dumps(f"{MISLEADING} {name}"))
    data = json.loads(text)
    data["bodies"] = {(MISLEADING if name == "counterweight" else name): body for name, body in data["bodies"].items()}
    for rope in data["ropes"].values():
        for stop in rope["path"]:
            if stop.get("made_fast_to") == "counterweight":
                stop["made_fast_to"] = MISLEADING
    for page in (DRIVE, BALANCE):
        session.begin_with(data).page(page)
        fine(session)
        assert "<b>x</b>" not in session.html
        assert "$y$" not in session.markdown_text
        assert "&lt;b&gt;x&lt;/b&gt;" in session.html


def test_both_pages_show_us_units_everywhere_at_once_and_keep_what_was_typed(session):
    at(session, BALANCE, "studio-counterweight")
    session.by_label("button_group", "Units").set_value("us").run()
    fine(session)
    assert "The best weight is 163.4 lb" in session.html  # 74.1318 kg
    assert "with a load of 191.8 lb" in session.html
    assert session.app.slider[0].label == "Weight to try, in lb"
    (chart,) = charts(session)
    assert chart["layer"][0]["encoding"]["x"]["title"] == "weight of the counterweight in lb"
    session.app.slider[0].set_value(160.0).run()
    session.press(r"Take this weight\: 72\.57 kg")
    assert stands(session, "bodies", "counterweight", "mass") == "72.57 kg", "it was typed in kilograms"
    session.page(DRIVE)
    fine(session)
    assert "ft/min" in session.html
    assert "lbf·ft" in session.html
    assert " m/min" not in session.html


def test_the_weight_tried_is_one_more_upright_line_in_the_chart(session):
    at(session, BALANCE, "studio-counterweight")
    session.app.slider[0].set_value(72.0).run()
    (chart,) = charts(session)
    rows = chart["layer"][1]["data"]["values"]
    from_the_left = [row["what"] for row in sorted(rows, key=lambda row: row["mass"])]
    assert from_the_left == ["now: 65 kg", "tried: 72 kg", "best: 74.13 kg", "stopping limit: 76.68 kg"]
    assert next(row["mass"] for row in rows if row["what"].startswith("tried")) == pytest.approx(72.0)
    assert "The weight tried is 72 kg" in chart["description"]


def test_another_drum_is_told_in_us_units_too_with_the_size_it_is_sold_by():
    found = assess(examples.example("kiln-shell"))
    with shown_in(US):
        html = other_drive_view.table([other_drive.of_assessment(found, other_drive.Change("120 mm", ()))], other_drive_view.DRUM)
    assert "120 mm" in html
    assert "= 4.724 in" in html
