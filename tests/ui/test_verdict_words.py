"""The sentence about the whole rig says what the checks say, no more and no less."""

from __future__ import annotations

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT
from rigcheck.rig import examples
from rigcheck.ui import verdict_words


@pytest.fixture(scope="module", params=examples.names())
def assessment(request):
    return assess(examples.example(request.param))


def test_the_sentence_gives_the_verdict_of_the_whole(assessment):
    sentence = verdict_words.sentence(assessment)
    assert sentence.startswith(f"With {assessment.rig.load.mass.text} ")
    if assessment.counts[FALLS_SHORT]:
        assert "it falls short" in sentence
    elif assessment.counts[CANNOT_TELL]:
        assert "it cannot be told" in sentence
    else:
        assert "it holds" in sentence
    assert "safe" not in sentence


def test_nothing_that_could_be_judged_is_nearer_to_its_limit_than_what_is_named(assessment):
    named = verdict_words.nearest(assessment)
    for check in assessment.checks:
        if check.on_load and check.verdict != CANNOT_TELL and verdict_words.in_hand(check) is not None:
            assert verdict_words.in_hand(check) >= verdict_words.in_hand(named)


def test_what_is_to_spare_is_rounded_down(assessment):
    named = verdict_words.nearest(assessment)
    if named is not None:
        assert named.required * (1 + verdict_words.to_spare_percent(named) / 100) <= named.factor_value * (1 + 1e-9)
