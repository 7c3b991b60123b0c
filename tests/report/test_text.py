"""The plain text of a check: the worst first, roundings on the cautious side, never too wide."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS
from rigcheck.report import contents, governing, whole_words
from rigcheck.report.as_text import WIDTH, text
from tests.report.report_rigs import ALL, HEBREW, HOSTILE, assessed


@pytest.mark.parametrize("name", ALL)
def test_no_line_is_wider_than_the_console_and_none_ends_in_spaces(name):
    lines = text(assessed(name)).split("\n")
    assert max(map(len, lines)) <= WIDTH
    assert all(line == line.rstrip() for line in lines)


@pytest.mark.parametrize("name", ALL)
def test_every_check_and_every_caution_is_told(name):
    found = assessed(name)
    told = " ".join(text(found).split())
    lines = text(found).split("\n")
    assert sum(line.startswith(("  holds  ", "  FALLS SHORT", "  CANNOT TELL")) for line in lines) == len(found.checks)
    assert all(caution in told for caution in contents.CAUTIONS)
    assert contents.verdict_sentence(found) in told
    assert " ".join(whole_words.sentence(found).split()) in told


def test_the_worst_comes_first():
    order = {FALLS_SHORT: 0, CANNOT_TELL: 1, HOLDS: 2}
    for name in ALL:
        verdicts = [order[check.verdict] for check in contents.worst_first(assessed(name).checks)]
        assert verdicts == sorted(verdicts)
    first = next(iter(contents.by_item(assessed("tired-hoist").checks).values()))
    assert first[0].verdict == FALLS_SHORT


@pytest.mark.parametrize("name", ALL)
def test_shown_demands_are_never_less_and_shown_factors_and_capacities_never_more(name):
    for check in assessed(name).checks:
        told = contents.shown(check)
        if check.factor_value is not None:
            assert float(told.factor) <= check.factor_value * (1 + 1e-9)
        if check.unit == "N" and check.demand and told.demand not in ("unknown", ""):
            assert float(told.demand.split()[0]) >= check.demand.number * (1 - 1e-9)
        if check.unit == "N" and check.capacity and told.capacity not in ("unknown", ""):
            assert float(told.capacity.split()[0]) <= check.capacity.number * (1 + 1e-9)


def test_a_check_that_falls_short_says_what_would_hold():
    told = text(assessed("tired-hoist"))
    assert "to make it hold:" in told
    assert "FALLS SHORT" in told


def test_what_is_not_known_is_named_with_how_to_find_it_out():
    told = text(assessed("found-winch"))
    assert "\n               Its condition is not stated." in told
    assert "because:" not in told
    assert "factor unknown" in told


def test_a_rated_load_that_cannot_be_told_says_why_and_how_far_what_is_known_reaches():
    found = assessed("loft-lift")
    governs = found.whole.governed_by
    unknown = replace(found, whole=replace(found.whole, rated_load_kg=None))
    lines = dict(contents.rated_load(unknown))
    named = next(f"{c.item}, {c.what}" for c in found.checks if c.id == governs)
    assert lines["Rated load"] == f"cannot tell, because of: {named}"
    assert lines[contents.ON_WHAT_IS_KNOWN].endswith(f"kg, limited by: {governing.greatest(found)}")
    assert "motor" in governing.greatest(found)
    endless = replace(found, whole=replace(unknown.whole, known=replace(found.whole.known, greatest_kg=math.inf)))
    assert dict(contents.rated_load(endless))[contents.ON_WHAT_IS_KNOWN] == "no limit can be told from what is known"


def test_a_slack_rope_leaves_the_pulls_unknown_and_says_why():
    told = text(assessed("slack"))
    assert contents.SLACK_NOTE in " ".join(told.split())
    assert "unknown" in told


def test_names_stand_as_typed_and_nothing_turns_the_text_around():
    told = "".join(text(assessed("hostile")).split())
    assert "".join(HOSTILE.split()) in told
    assert HEBREW in told
    assert "\u202e" not in told


def test_strokes_on_the_drawing_are_whole_times_the_required_factor_and_left_out_where_one_cannot_be_told():
    assert contents.factors_in_hand(assessed("found-winch")) == {}
    assert contents.factors_in_hand(assessed("tired-hoist")) == {"hoist rope": 0}
    for name in ("loft-lift", "boat-engine"):
        found = assessed(name)
        places = [c for c in found.checks if c.id.startswith("rope.hoist rope.") and c.unit == "N"]
        # the pull of a hand and the margin to slack are no strength of the rope
        assert contents.factors_in_hand(found) == {"hoist rope": int(min(c.factor_value / c.required for c in places))}
