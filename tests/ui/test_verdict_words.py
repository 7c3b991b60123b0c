"""The sentence about the whole rig says what the checks and the rated load say, no more and no less."""

from __future__ import annotations

import re

import pytest

from rigcheck import units
from rigcheck.checks.assessment import assess
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT
from rigcheck.report import contents, governing, whole_words
from rigcheck.rig import examples
from rigcheck.ui import verdict_words
from tests.rigs import assessed, counterweighted, lead_sheave


@pytest.fixture(scope="module", params=examples.names())
def assessment(request):
    return assess(examples.example(request.param))


def of_mass(mass: str, data: dict | None = None) -> dict:
    data = lead_sheave() if data is None else data
    data["bodies"]["load"]["mass"] = mass
    return data


def test_the_sentence_gives_the_verdict_of_the_whole(assessment):
    sentence = verdict_words.sentence(assessment)
    assert sentence.startswith(f"With {whole_words.load_entered(assessment)} ")
    if assessment.counts[FALLS_SHORT]:
        assert "it falls short" in sentence
    elif assessment.counts[CANNOT_TELL]:
        assert "it cannot be told" in sentence
    else:
        assert "it holds" in sentence
    assert "safe" not in sentence


def test_where_it_holds_the_sentence_names_the_rated_load_what_governs_it_and_the_spare(assessment):
    if not assessment.all_hold:
        assert governing.to_spare_percent(assessment) is None or assessment.whole.rated_load_kg > 0
        return
    sentence = verdict_words.sentence(assessment)
    rated, entered = assessment.whole.rated_load_kg, assessment.rig.load.mass.value
    assert f"up to {units.show(rated, 'kg', 4, 'down')}" in sentence
    assert f"{governing.greatest(assessment)} governs" in sentence
    if governing.is_rule_of_thumb(assessment):  # what a rule of thumb leaves is no spare of the rig
        assert "to spare" not in sentence
        return
    spare = int(re.search(r"(\d+) % to spare", sentence)[1])
    assert entered * (1 + spare / 100) <= rated * (1 + 1e-9) < entered * (1 + (spare + 1) / 100) * (1 + 1e-6)


def test_by_hand_the_spare_of_a_straight_lift():
    """428.09 kg over 400 kg: 7.02 %; over 428 kg: 0.02 %."""
    found = assessed(lead_sheave(400.0))
    assert "With 400 kg it holds, up to 428 kg, 7 % to spare; rope hoist over head governs." in verdict_words.sentence(found)
    assert governing.to_spare_percent(assessed(lead_sheave(428.0))) == 0
    assert governing.to_spare_percent(assessed(lead_sheave(429.0))) is None


def test_a_load_that_is_just_the_rated_load_has_nothing_to_spare_and_is_not_called_unlimited():
    just = assessed(lead_sheave(400.0)).whole.rated_load_kg
    sentence = verdict_words.sentence(assessed(lead_sheave(just)))
    assert "no load was found" not in sentence
    assert "it holds, up to 428 kg, 0 % to spare" in sentence


def test_a_load_that_is_too_heavy_is_told_up_to_where_it_holds():
    sentence = verdict_words.sentence(assessed(lead_sheave(500.0)))
    assert sentence.startswith("With 500 kg it falls short; ")
    assert "It holds up to 428 kg; rope hoist over head governs." in sentence


def test_a_load_too_heavy_only_within_its_tolerance_falls_short():
    sentence = verdict_words.sentence(assessed(of_mass("420 kg ± 9 kg")))
    assert sentence.startswith("With 420 kg ± 9 kg it falls short; ")
    assert "tolerance" in sentence
    assert "It holds up to 428 kg" in sentence


def test_while_something_is_unknown_no_load_is_named_that_could_be_read_as_a_permission():
    data = lead_sheave()
    del data["sheaves"]["head"]["rated_load"]
    sentence = verdict_words.sentence(assessed(data))
    assert "it cannot be told" in sentence
    assert "428" not in sentence
    assert "to spare" not in sentence


def test_where_it_falls_short_whatever_the_load_that_is_told_before_how_far_the_checks_on_the_load_reach():
    """Half of 428.09 kg is left by a rope of half its strength."""
    data = lead_sheave()
    data["ropes"]["hoist"]["remaining_strength"] = 0.5
    told = "Whatever it lifts, it falls short because of rope hoist (condition: share of strength left). The checks on the load, taken alone, hold up to 214 kg"
    assert told in verdict_words.sentence(assessed(data))


def test_a_least_load_is_told_with_what_governs_it():
    data = counterweighted(100, 60, 0.95)
    data["limits"]["stopping"] = "0.1 m/s²"
    assert "The load must not be lighter than 64.46 kg; there " in verdict_words.sentence(assessed(data))


def test_in_us_units_the_whole_sentence_is_in_pounds():
    with units.shown_in("us"):
        sentence = verdict_words.sentence(assessed(lead_sheave(400.0)))
    assert "kg" not in sentence
    assert sentence.count(" lb") == 2


def test_the_lines_of_the_rated_load_name_the_same_part_as_the_sentence(assessment):
    lines = dict(contents.rated_load(assessment))
    if assessment.all_hold:
        assert governing.greatest(assessment) in lines["Rated load"]
        spare = governing.to_spare_percent(assessment)
        assert (f"{spare} % to spare" in lines["Rated load"]) == (spare is not None) == (not governing.is_rule_of_thumb(assessment))
