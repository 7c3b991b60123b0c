"""How far a load goes aside and tilts is told alike in words, as data and on the drawing's own numbers."""

from functools import cache

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.report import drift_told
from rigcheck.report.as_json import contract
from rigcheck.report.as_text import text
from rigcheck.report.chapters import DRIFT, chapters
from rigcheck.report.pdf import report_data
from rigcheck.rig import examples
from rigcheck.rig.arrangements import ARRANGEMENTS


@cache
def log_span():
    return assess(examples.example("log-span"))


def test_the_answer_holds_both_ends_and_every_height_of_every_way():
    bands = {band["what"]: band for band in contract(log_span())["drift"]}
    assert (bands["across"]["unit"], bands["tilt"]["unit"]) == ("m", "rad")
    travel = {word: log_span().solution.ways[word].travel for word in log_span().solution.ways}
    begin = travel["at rest"].poses.reference("log")[0, 0]
    for word, key in (("raising", "raising"), ("lowering", "lowering"), ("at rest", "holding")):
        told = bands["across"]["heights"][key]
        assert told == pytest.approx(list(travel[word].poses.reference("log")[:, 0] - begin), abs=2e-6)
        assert bands["across"]["least"] <= min(told)
        assert max(told) <= bands["across"]["greatest"]


def test_the_words_give_the_same_ends_with_the_way_of_moving():
    (across, _) = drift_told.shown_bands(log_span())
    band = next(band for band in log_span().drift if band.what == "across")
    assert across.least == drift_told.amount(band.least.number, "across")
    assert across.least.endswith("to the left")
    assert across.least_when.startswith("lowering")
    assert across.most_when.startswith("raising")
    assert across.least in text(log_span())
    assert report_data(log_span())["drift"][0]["most"] == across.most


def test_its_lines_of_working_stand_in_a_chapter_of_their_own():
    (own,) = [chapter for chapter in chapters(log_span()) if chapter.title == DRIFT]
    assert len(own.entries) == sum(len(band.along) + 2 for band in log_span().drift)


def test_a_load_that_hangs_straight_is_said_to_and_one_in_a_guide_is_not_spoken_of():
    four = ARRANGEMENTS["bridle-four"]
    straight = assess(four.make(four.defaults()))
    assert drift_told.shown_bands(straight) == []
    assert drift_told.where_it_hangs(straight) == "At rest at its lowest the load hangs as it is drawn."
    guided = assess(examples.example("kiln-shell"))
    assert drift_told.where_it_hangs(guided) == ""
    assert contract(guided)["drift"] == []
