"""Places of the rig file that sources and notes name are told in the words of the forms, and nothing else is changed."""

import re

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.report.file_words import plain_words
from rigcheck.report.source_words import row_words
from rigcheck.rig import examples

IN_THE_FILE = re.compile(r"\b(bodies|ropes|sheaves|points|drive|limits|basis), [\w ]+|\b(?!V_m|I_stall|V_0)[a-z]+_[a-z_]+|wire-rope-board")


@pytest.mark.parametrize("name", examples.names())
def test_no_source_guess_or_thing_not_checked_is_left_in_the_language_of_the_file(name):
    found = assess(examples.example(name))
    say = plain_words(found.rig)
    told = [
        *found.guesses,
        *found.not_checked,
        *(line.source for line in found.solution.working.printed()),
        *(check.source for check in found.checks),
    ]
    left = {words[0] for text in told if (words := IN_THE_FILE.search(say(row_words(text))))}
    assert not [words for words in left if not words.startswith(("ropes, sheaves and", "ropes, timber and", "ropes, so if"))]


def test_names_are_kept_as_they_were_given_and_the_rest_of_a_text_is_left_alone():
    say = plain_words(examples.example("kiln-shell"))
    assert say("on the form; bodies, shell, mass (105 kg)") == "on the form; shell: mass (105 kg)"
    assert say("drive, gears, 2") == "gear stage 2"
    assert say("bodies, other, mass") == "bodies, other, mass"
    assert say("Heat: how warm the ropes, timber and people nearby get.") == "Heat: how warm the ropes, timber and people nearby get."
