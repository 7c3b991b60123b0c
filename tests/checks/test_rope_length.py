"""The least length of a rope: its runs and arcs with the load lowest, and the turns that stay on the drum."""

import math

import pytest

from rigcheck import units
from rigcheck.checks.assessment import assess
from rigcheck.report import contents
from rigcheck.rig import examples
from tests.rigs import assessed, counterweighted, lead_sheave

LAID_M = 3.5 + 0.06 * math.pi + 3.5
"""Eye at 0.5 m, sheave centre and drum centre at 4 m and 0.5 m: two plumb runs of 3.5 m and half a turn round 120 mm."""
TURN_M = math.pi * 0.126
"""Drum 120 mm and rope 6 mm: the middle of the rope runs at 126 mm."""


def length_of(found, name: str = "hoist"):
    return next(each for each in found.rope_lengths if each.name == name)


def test_by_hand_a_rope_over_one_sheave_with_three_turns_on_the_drum():
    length = length_of(assessed(lead_sheave()))
    assert length.length.number == pytest.approx(LAID_M + 3 * TURN_M)
    assert "3 turns on the drum" in length.words
    assert "from end to drum" in length.words
    assert length.words.startswith(units.show(LAID_M + 3 * TURN_M, "m", 4, "up"))
    assert "without knots" in length.words


def test_turns_in_a_second_layer_are_longer():
    """A drum 12 mm wide takes two turns of 6 mm: the third lies on them, at 138 mm."""
    data = lead_sheave()
    data["drive"]["drum"]["width"] = "12 mm"
    assert length_of(assessed(data)).length.number == pytest.approx(LAID_M + 2 * TURN_M + math.pi * 0.138)


def test_rope_is_bought_for_the_turns_that_are_asked_even_where_fewer_are_left():
    data = lead_sheave()
    data["drive"]["drum"]["dead_wraps"] = 0
    length = length_of(assessed(data))
    assert length.length.number == pytest.approx(LAID_M + 3 * TURN_M)
    assert "and 3 turns on the drum" in length.words


def test_turns_that_are_not_stated_are_said_to_come_on_top():
    data = lead_sheave()
    del data["drive"]["drum"]["dead_wraps"]
    length = length_of(assessed(data))
    assert length.length.number == pytest.approx(LAID_M)
    assert "which are not stated" in length.words


def test_without_a_width_the_turns_are_laid_on_the_bare_drum_and_that_is_said():
    data = lead_sheave()
    del data["drive"]["drum"]["width"]
    length = length_of(assessed(data))
    assert length.length.number == pytest.approx(LAID_M + 3 * TURN_M)
    assert "bare drum" in length.words


def test_a_rope_that_is_not_driven_is_as_long_at_every_height():
    found = assessed(counterweighted())
    length = length_of(found, "cw rope")
    assert length.length.number == pytest.approx(found.solution.travel.paths["cw rope"].length[0])
    assert "drum" not in length.words


def test_a_hand_line_reaches_from_its_end_to_the_hand():
    data = lead_sheave(20.0)
    data["drive"] = {"kind": "hand line"}
    data["ropes"]["hoist"]["path"][-1] = {"pulled_by_hand_at": ["0.12 m", "0.5 m"]}
    length = length_of(assessed(data))
    assert length.length.number == pytest.approx(LAID_M)
    assert "from end to hand" in length.words


@pytest.mark.parametrize("name", examples.names())
def test_the_least_length_reaches_along_the_whole_path(name):
    """An undriven rope is as long at every height; of a driven one the straight runs alone are never longer than what is to be bought."""
    found = assess(examples.example(name))
    assert [each.name for each in found.rope_lengths] == list(found.rig.ropes)
    for each in found.rope_lengths:
        path = found.solution.travel.paths[each.name]
        if each.end == "from end to end":
            assert path.length == pytest.approx(each.length.number)
        else:
            assert each.length.number > path.straight.sum(axis=0).max()


@pytest.mark.parametrize("name", examples.names())
def test_the_report_gives_every_rope_its_least_length(name):
    found = assess(examples.example(name))
    told = dict(contents.figures(found))
    for each in found.rope_lengths:
        assert each.words in told.values()
