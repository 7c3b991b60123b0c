"""The page of the ropes: pulls, the chain of each rope as a picture, and every other rope of the catalogue to try."""

from __future__ import annotations

import json
import re

import numpy
import pytest
import streamlit

from rigcheck import units
from rigcheck.checks.assessment import assess
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS
from rigcheck.report.pulls import runs_of
from rigcheck.rig import examples, files
from rigcheck.rig.model import Rig
from rigcheck.statics.stations import Stations
from rigcheck.ui import draft as drafts
from rigcheck.ui import pulls_view, rope_chain, rope_chain_view, rope_offers, rope_table, rope_trial
from rigcheck.ui import session as sessions
from rigcheck.ui.rope_offers import DIAMETER, FACTOR, MASS, Wanted
from rigcheck.whatif import other_ropes
from rigcheck.whatif.catalogue_ropes import STEEL, catalogue
from rigcheck.whatif.other_ropes import OtherRopes, governing, is_place

SECTION = "What to look at"


@pytest.fixture
def buttons(monkeypatch):
    """The table as plain buttons, which a session without a browser can press; gathers the rows that were shown last."""
    seen: dict = {}

    def show(rows, caption, key, on_picked):
        seen.update(rows=rows, caption=caption)
        for row in rows:
            if not row["in_use"]:
                streamlit.button(f"Try it: {row['rope']}", key=f"{key} {row['id']}", on_click=on_picked, args=(row["id"],))

    monkeypatch.setattr(rope_table, "show", show)
    return seen


def assessed(name: str):
    return assess(examples.example(name))


def opened(session, name: str, section: str):
    return session.example(name).page("Ropes").choose(SECTION, section)


def rig_of(session) -> Rig:
    return Rig.model_validate(session.app.session_state["draft"].data)


# -- pulls ---------------------------------------------------------------------------------------------------------


def test_a_pull_is_told_as_the_mass_that_hangs_with_it_beside_its_newtons(session):
    session.example("tired-hoist").page("Ropes")
    assert re.search(r">1079 N<br><span class=\"rc-small\">as 110 kg hangs</span>", session.html)


def test_pulls_in_pounds_force_need_no_kilograms(session):
    session.example("tired-hoist").choose("Units", units.US).page("Ropes")
    assert "kg hangs" not in session.text


def test_shared_pulls_are_told_to_be_the_worst_share_and_others_are_not(session):
    told = "each is counted here with the worst share"
    assert session.example("kiln-shell").page("Ropes").markdown_text.count(told) == 2
    assert told not in session.example("loft-lift").page("Ropes").markdown_text


def test_the_chart_holds_every_height_of_a_run_and_its_line_stands_at_the_height_asked():
    assessment = assessed("gallery-crate")
    run = runs_of(assessment.solution)[0]
    curves, here = pulls_view.at_height(pulls_view.chart(assessment, run, "black"), Stations(numpy.array([0.4])), 0)["layer"]
    drawn = {(row["height"], kind): row["pull"] for row in curves["data"]["values"] for kind in row["what"].split(" = ")}
    for height_m, pull_n in zip(assessment.solution.travel.heights_m, run.raising_along_n, strict=True):
        assert drawn[units.in_shown(float(height_m), "m"), "raising"] == pytest.approx(units.in_shown(pull_n, "N"), rel=1e-12)
    assert here["data"]["values"] == [{"height": units.in_shown(0.4, "m")}]


def test_the_section_survives_a_change_of_page(session):
    opened(session, "loft-lift", "Strength").page("Verdicts").page("Ropes")
    assert session.by_label("button_group", SECTION).value == "Strength"


def test_nothing_of_the_catalogue_is_tried_before_its_section_is_open(session, monkeypatch):
    def tried(*_):
        raise AssertionError("tried too early")

    monkeypatch.setattr(OtherRopes, "tried", tried)
    opened(session, "well-crank", "Strength")
    assert "could not be shown" not in session.text
    assert "could not be shown" in session.choose(SECTION, "Other ropes").text


# -- the chain -----------------------------------------------------------------------------------------------------


def widths(html: str, css: str) -> list[float]:
    return [float(found) for found in re.findall(rf'class="{css}" style="(?:width|left):([0-9.]+)%"', html)]


@pytest.mark.parametrize("name, rope", [("loft-lift", "hoist rope"), ("tired-hoist", "hoist rope"), ("kiln-shell", "counterweight rope")])
def test_every_length_of_the_picture_is_to_scale(name, rope):
    assessment = assessed(name)
    found = rope_chain.chain(assessment, rope)
    html, scale = rope_chain_view.picture(found), rope_chain_view.scale_n(found)
    places = [c for c in assessment.checks if is_place(c, rope)]
    assert len(found.branches) == len(places) > 1
    lefts = widths(html, "rc-left")[-len(places) :]
    for branch, left, asked in zip(found.branches, lefts, widths(html, "rc-asked"), strict=True):
        assert left == pytest.approx(100 * branch.check.capacity.number / scale, abs=6e-4)
        assert asked == pytest.approx(100 * branch.check.required * branch.check.demand.number / scale, abs=6e-4)
        # the thick mark lies within the rope just where the place holds
        assert (asked <= left) == (branch.check.verdict == HOLDS)
    assert widths(html, "rc-left")[0] == pytest.approx(100 * found.force.left_n / scale, abs=6e-4)


def test_the_links_lead_from_the_breaking_force_to_the_factor_of_the_check():
    # 900 lbf of 8 mm manila (US table) · 0.6 condition · 0.6 clove hitch, against 110 kg · 9.80665
    found = rope_chain.chain(assessed("tired-hoist"), "hoist rope")
    first = found.branches[0]
    assert found.force.left_n == pytest.approx(900 * 4.4482216152605, rel=1e-12)
    assert found.condition.left_n == pytest.approx(0.6 * found.force.left_n, rel=1e-12)
    assert first.share.left_n == pytest.approx(0.6 * 0.6 * found.force.left_n, rel=1e-12)
    assert first.governs
    assert first.check.factor_value == pytest.approx(first.share.left_n / (110 * 9.80665), rel=1e-12)
    assert "clove hitch" in first.share.what
    assert "USCG" in first.share.source
    assert "US cordage table" in found.force.source


def test_the_place_that_governs_is_named_in_words_once_and_its_factor_stands_in_picture_and_table(session):
    opened(session, "loft-lift", "Strength")
    assert session.html.count("which governs") == session.html.count("(governs)") == 1
    assert "End at platform (eye), which governs" in session.html
    assert "goes <b>9.21</b> times" in session.html
    assert re.search(r"end at platform \(eye\) \(governs\)</th>.*?>9\.21</td>", session.html)


def test_a_table_force_shows_what_it_was_worked_out_from():
    data = json.loads(files.dumps(examples.example("loft-lift")))
    del data["ropes"]["hoist rope"]["breaking_force"]
    found = rope_chain.chain(assess(Rig.model_validate(data)), "hoist rope")
    # 0.356 · 6² · 1770 N
    assert found.force.left_n == pytest.approx(0.356 * 36 * 1770, rel=1e-12)
    for words in ("6 mm", "1770 N/mm²", "0.356", "6x19 IWRC", "EN 12385-4"):
        assert words in found.force.source


def test_links_that_are_not_known_cannot_tell_and_say_what_to_find_out(session):
    opened(session, "found-winch", "Strength")
    assert session.html.count(f"<b>{CANNOT_TELL}</b>") == 2
    assert "count strands and wires" in session.html
    assert "rc-left" not in session.html.replace(".rc-left", "").replace(".rc-length .rc-left", "")
    find = next(
        button for button in session.app.button if button.label.startswith(("Find out", "See why")) and button.key.startswith("find ")
    )
    find.click().run()
    assert session.app.session_state["page open part"][:2] == ("ropes", "hoist rope")


def test_a_rope_that_was_opened_on_another_page_is_the_one_looked_at(session):
    session.example("kiln-shell")
    session.app.session_state["page open part"] = ("ropes", "counterweight rope")
    session.page("Ropes").choose(SECTION, "Strength")
    assert session.by_label("selectbox", "Rope").value == "counterweight rope"
    session.by_label("selectbox", "Rope").set_value("left rope").run()
    assert session.by_label("selectbox", "Rope").value == "left rope"
    assert "Left rope, breaking force" in session.html


# -- other ropes ---------------------------------------------------------------------------------------------------


def test_at_first_the_ropes_that_hold_are_listed_thinnest_first_below_the_one_in_use(session, buttons):
    opened(session, "loft-lift", "Other ropes")
    present, *rows = buttons["rows"]
    assert present["in_use"]
    assert present["factor"] == "9.21"
    assert rows
    assert all(HOLDS in row["own"] for row in rows)
    thick = [float(row["rope"].split(" mm")[0]) for row in rows]
    assert thick == sorted(thick)
    assert all("grade 1770" in row["rope"] for row in rows)


def test_trying_a_rope_gives_the_factor_that_was_listed_and_one_press_puts_the_old_one_back(session, buttons):
    opened(session, "loft-lift", "Other ropes")
    before = session.app.session_state["draft"].data
    listed = next(row for row in buttons["rows"] if row["rope"] == "5 mm, 7x19, grade 1770")
    session.press("Try it: 5 mm, 7x19, grade 1770")
    found = assess(rig_of(session))
    assert rig_of(session).ropes["hoist rope"].diameter.text == "5 mm"
    assert buttons["rows"][0]["factor"] == listed["factor"] == units.number(governing(found.checks, ["hoist rope"]).factor_value, 3, "down")
    assert "261.3 kg" in session.strip
    assert "Rated load before: 302.6 kg" in session.html
    same = next(row for row in buttons["rows"][1:] if row["rope"] == listed["rope"])
    assert same["in_use"]
    session.press("Put the rope back that was there")
    assert session.app.session_state["draft"].data == before
    assert "302.6 kg" in session.strip
    assert not any(button.label == "Put the rope back that was there" for button in session.app.button)


def test_two_trials_are_taken_back_one_after_the_other(session, buttons):
    opened(session, "loft-lift", "Other ropes")
    session.press("Try it: 5 mm, 7x19, grade 1770").press("Try it: 5 mm, 6x7 FC, grade 1770")
    session.press("Put the rope back that was there")
    assert rig_of(session).ropes["hoist rope"].construction == "7x19"
    session.press("Put the rope back that was there")
    assert rig_of(session).ropes["hoist rope"].construction == "6x19 IWRC"


def test_ropes_that_are_the_same_are_changed_together_or_alone(session, buttons):
    opened(session, "kiln-shell", "Other ropes")
    session.press("Try it: 5 mm, 7x19, grade 1770")
    assert {rope.diameter.text for rope in rig_of(session).ropes.values()} == {"5 mm"}
    session.press("Put the rope back that was there")
    session.app.toggle[0].set_value(False).run()
    assert all("hold" not in row["own"] for row in buttons["rows"][1:] if not row["rope"].startswith("6 mm"))


def test_a_rope_that_falls_short_is_replaced_by_one_that_holds(session, buttons):
    data = json.loads(files.dumps(examples.example("loft-lift")))
    data["ropes"]["hoist rope"] |= {"breaking_force": "9 kN"}
    session.begin_with(data).page("Ropes").choose(SECTION, "Other ropes")
    assert FALLS_SHORT in buttons["rows"][0]["own"]
    session.press(f"Try it: {buttons['rows'][1]['rope']}")
    assert HOLDS in buttons["rows"][0]["own"]
    assert "0 fall short" in session.strip


def test_another_kind_of_rope_has_its_ends_to_be_chosen(session, buttons):
    opened(session, "loft-lift", "Other ropes").choose("Kind", "fibre")
    assert "its ends to be chosen" in buttons["caption"]
    assert not any(HOLDS in row["own"] for row in buttons["rows"][1:])
    session.by_label("selectbox", "How the ends of a fibre rope would be made").set_value("eye splice").run()
    assert "eye splice" in buttons["caption"]


def test_a_draft_that_cannot_be_read_is_not_changed_by_a_trial(session, buttons):
    opened(session, "loft-lift", "Other ropes")
    broken = sessions.Kept(drafts.Draft(session.app.session_state["draft"].data | {"limits": {"travel": "no length"}}, drafts.FILE), session.app.session_state["good_text"])  # fmt: skip
    sessions._kept()["broken"] = broken
    session._open(draft="broken").page("Ropes").choose(SECTION, "Other ropes")
    session.press(f"Try it: {buttons['rows'][1]['rope']}")
    assert session.app.session_state["draft"].data == broken.draft.data


def test_opening_the_section_again_works_nothing_out_anew(session, buttons, monkeypatch):
    opened(session, "loft-lift", "Other ropes")

    def assess_again(_):
        raise AssertionError("worked out anew")

    monkeypatch.setattr(other_ropes, "assess", assess_again)
    session.choose("Sort by", FACTOR).choose(SECTION, "Pulls").choose(SECTION, "Other ropes")
    assert "could not be shown" not in session.text
    factors = [float(row["factor"]) for row in buttons["rows"][1:]]
    assert factors == sorted(factors)


def test_names_made_to_mislead_are_told_as_typed_in_every_section(session, buttons):
    name = "<b>x</b> ![p](http://a.b/c.png) $y$"
    data = json.loads(files.dumps(examples.example("loft-lift")).replace("hoist rope", name))
    session.begin_with(data).page("Ropes").choose(SECTION, "Strength")
    assert "&lt;b&gt;x&lt;/b&gt;" in session.html
    assert "<b>x</b>" not in session.html
    session.choose(SECTION, "Other ropes").press("Try it: 5 mm, 7x19, grade 1770")
    assert buttons["rows"][0]["rope"].startswith(name)
    assert "<b>x</b>" not in session.html
    assert "![p]" not in session.markdown_text


# -- rows ----------------------------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def tried():
    return OtherRopes(assessed("loft-lift"), ["hoist rope"]).tried(catalogue(STEEL))


@pytest.mark.parametrize("by", [DIAMETER, FACTOR, MASS])
def test_rows_are_sorted_by_what_is_asked_and_the_unknown_comes_last(tried, by):
    found = rope_offers.listed(tried, Wanted(STEEL, by=by))
    values = [{DIAMETER: e.rope.diameter_m, FACTOR: e.factor, MASS: e.rope.mass_per_metre_kg}[by] for e in found]
    known = [value for value in values if value is not None]
    assert known == sorted(known)
    assert values[len(known) :] == [None] * (len(values) - len(known))


def test_what_rules_ropes_out_is_told_with_the_sizes_it_rules_out():
    found = rope_offers.ruled_out(
        OtherRopes(assessed("gallery-crate"), ["hoist rope"]).tried(catalogue(STEEL, construction="7x19", grade="1770"))
    )
    first = found[0]
    assert first.startswith("falls short for every one from 7 mm up: ")
    assert "head sheave, groove under hoist rope" in first
    assert len(found) <= 4


def test_a_check_that_no_rope_passes_is_told_for_every_one(session):
    opened(session, "tired-hoist", "Other ropes")
    assert "No rope of these holds, as the rig stands" in session.html
    assert "falls short for every one: drum, hoist rope, dead wraps" in session.html
    assert "Pick every size or steel rope above." in session.html


def test_filters_leave_what_is_asked_for_and_nothing_else(tried):
    found = rope_offers.listed(tried, Wanted(STEEL, make="7x19", grade="1960", only_holding=True))
    assert found
    assert {(e.rope.construction, e.rope.grade, e.verdict) for e in found} == {("7x19", "1960", HOLDS)}
    assert len(rope_offers.listed(tried, Wanted(STEEL, make="7x19"))) == 19 * 3


def test_near_is_from_half_to_twice_as_thick():
    near = {rope.diameter_m for rope in catalogue(STEEL) if rope_offers.is_near(rope, 0.006)}
    assert (min(near), max(near)) == (0.003, 0.012)
    assert all(rope_offers.is_near(rope, None) for rope in catalogue(STEEL))


def test_a_row_tells_the_rest_of_the_rig_and_why_it_does_not_hold():
    others = OtherRopes(assessed("loft-lift"), ["hoist rope"])
    thin = next(rope for rope in catalogue(STEEL, construction="7x19", grade="1570"))
    row = rope_offers.row(others.tried([thin])[0], others.turns(thin), is_in_use=False)
    assert FALLS_SHORT in row["own"]
    assert "end at platform (eye)" in row["more"]
    assert row["rest"].startswith("3 worse: whole rig, static test")


def test_what_was_typed_for_the_old_rope_is_gone_and_the_rest_stays():
    draft = drafts.of_rig(examples.example("loft-lift"), drafts.EXAMPLE)
    draft = draft.edited(("ropes", "hoist rope", "diameter"), "6.5 mm", "6.5").edited(("limits", "travel"), "2 m", "2")
    placed = rope_trial.placed(draft, ("hoist rope",), catalogue(STEEL)[0])
    assert dict(placed.typed) == {("limits", "travel"): "2"}
    assert placed.shown(("ropes", "hoist rope", "diameter")) == "3 mm"
