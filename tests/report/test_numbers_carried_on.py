"""A number that one line hands on to the next is printed there as its own line prints it."""

from __future__ import annotations

import pytest

from tests.report.report_rigs import assessed

NAMES = ("kiln-shell", "studio-counterweight", "tired-hoist", "askew")


@pytest.mark.parametrize("name", NAMES)
def test_every_number_put_into_a_line_is_the_one_its_own_line_shows(name):
    working = assessed(name).solution.working
    printed = dict(zip(working.lines, working.printed("text"), strict=True))
    compared = 0
    for line, told in printed.items():
        for read in set(line.inputs.values()) if told.numbers else ():
            own = printed[read]
            shown = [own.shown, *(words for _, words in own.elsewhere)]
            assert any(words.removesuffix(".") in told.numbers for words in shown), (told.sign, told.numbers, shown)
            compared += 1
    assert compared > 20
