"""Verdicts, lines of working, pulls and the report: what they show is what was worked out."""

from __future__ import annotations

import re

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.report import contents
from rigcheck.report.pulls import runs_of
from rigcheck.rig import examples


@pytest.fixture(scope="module")
def tired():
    return assess(examples.example("tired-hoist"))


def blocks(session) -> list[str]:
    return [e.proto.body for e in session.app.get("html") if '<section class="rc-check">' in e.proto.body]


def test_every_check_is_shown_the_worst_first_with_word_mark_source_and_remedy(session, tired):
    shown = blocks(session.example("tired-hoist").page("Verdicts"))
    assert len(shown) == len(tired.checks)
    for block, check in zip(shown, contents.worst_first(tired.checks), strict=True):
        assert f"</span> {check.verdict} · " in block
        assert "Source: " in block or not check.source
        assert "To make it hold" in block or not check.remedy
    order = [re.search("</span> (holds|falls short|cannot tell) · ", block)[1] for block in shown]
    assert order == sorted(order, key=contents.WORST_FIRST.index)


def test_checks_can_be_narrowed_to_a_part(session, tired):
    session.example("tired-hoist").page("Verdicts")
    item = tired.checks[0].item
    session.by_label("selectbox", "Part").set_value(item).run()
    assert len(blocks(session)) == sum(check.item == item for check in tired.checks)


def test_a_check_leads_to_its_lines(session, tired):
    session.example("tired-hoist").page("Verdicts")
    check = next(check for check in tired.checks if check.id == "rope.hoist rope.first-end")
    next(button for button in session.app.button if button.key == f"lines {check.id}").click().run()
    session.page("Line by line")
    assert session.by_label("selectbox", "Lines of").value == f"check {check.id}"
    wanted = tired.solution.working.ancestors([check.demand, check.capacity, check.factor])
    assert f"{len(wanted)} of {len(tired.solution.working.lines)} lines" in session.text


def test_lines_can_be_found_by_word_and_every_line_is_on_some_sheet(session, tired):
    session.example("tired-hoist").page("Line by line")
    many = len(tired.solution.working.lines)
    assert f"{many} of {many} lines" in session.text
    assert len(session.app.latex) == min(many, 40)
    session.by_label("button_group", "Sheet").set_value(2).run()
    assert len(session.app.latex) == min(many - 40, 40)
    session.type_in("With the words", "efficiency")
    assert 0 < len(session.app.latex) < many
    told = [f"{line.what} {line.source} {line.sign}".lower() for line in tired.solution.working.printed("text")]
    assert f"{sum('efficiency' in text for text in told)} of {many} lines" in session.text


def test_every_line_shows_its_result_with_its_unit(session, tired):
    session.example("tired-hoist").page("Line by line")
    for line, latex in zip(tired.solution.working.printed("text"), session.app.latex, strict=False):
        number, _, unit = line.shown.partition(" ")
        assert number.removesuffix("°") in latex.value
        assert all(letters in latex.value for letters in re.findall("[A-Za-z]+", unit))


def test_the_table_of_pulls_has_every_run_with_units(session, tired):
    session.example("tired-hoist").page("Ropes")
    table = next(e.proto.body for e in session.app.get("html") if 'aria-label="Greatest and least pulls"' in e.proto.body)
    assert table.count('scope="row">') == len(runs_of(tired.solution))
    assert len(re.findall(r'class="rc-number">[0-9.]+ N', table)) == 4 * len(runs_of(tired.solution))


def test_the_height_survives_a_change_of_page(session):
    session.example("loft-lift").page("Ropes")
    slider = session.app.slider[0]
    slider.set_value(slider.max / 2).run()
    chosen = session.app.slider[0].value
    session.page("Verdicts").page("Ropes")
    assert session.app.slider[0].value == chosen > 0


def test_the_report_can_be_taken_away_in_three_forms(session):
    session.example("loft-lift").page("Report")
    saving = [button.label for button in session.app.button if button.label.startswith("Save ")]
    assert saving == ["Save the report as PDF", "Save every number as JSON", "Save the rig file"]


def test_the_limits_name_what_was_not_checked(session, tired):
    session.example("tired-hoist").page("Limits and sources")
    plain = session.text.replace("\\", "")
    for text in tired.not_checked:
        assert " ".join(text.split()) in plain
    for caution in contents.CAUTIONS:
        assert caution in plain


def test_the_limits_explain_the_words_of_the_trade(session):
    session.page("Limits and sources")
    assert "a small wire rope of its own" in session.html
