"""The verdicts at a glance: no factor is blank, and the last column tells why they stand in this order."""

import re
from itertools import pairwise

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS
from rigcheck.report.contents import worst_first
from rigcheck.rig import examples
from rigcheck.ui import verdict_list


@pytest.mark.parametrize("name", examples.names())
def test_every_verdict_has_a_factor_or_says_why_it_has_none(name):
    cells = re.findall(r'<td class="rc-number">(.*?)</td>', verdict_list.brief(assess(examples.example(name))))
    assert cells
    assert all(cells[::2])


def test_a_missing_brake_has_no_factor_and_a_demand_of_nothing_asks_for_none():
    checks = {check.id: check for check in assess(examples.example("kiln-shell")).checks}
    brake = next(check for check in checks.values() if check.verdict == FALLS_SHORT)
    assert verdict_list._factor(brake) == "no factor"
    nothing = next(check for check in checks.values() if check.demand is not None and check.demand.number == 0)
    assert (verdict_list._factor(nothing), verdict_list.in_hand(nothing)) == ("nothing asked", "")
    unknown = next(check for check in assess(examples.example("found-winch")).checks if check.verdict == CANNOT_TELL)
    assert verdict_list._factor(unknown) == CANNOT_TELL


@pytest.mark.parametrize("name", examples.names())
def test_among_those_that_a_heavier_load_uses_up_the_column_grows_downwards(name):
    ordered = [check for check in worst_first(assess(examples.example(name)).checks) if check.verdict == HOLDS and check.on_load]
    told = [float(times) for check in ordered if (times := verdict_list.in_hand(check))]
    assert all(before <= after for before, after in pairwise(told))


def test_what_falls_short_is_never_left_out_of_the_short_list():
    found = assess(examples.example("tired-hoist"))
    told = verdict_list.brief(found)
    short = [check for check in found.checks if check.verdict == "falls short"]
    assert len(short) > verdict_list.MOST_BRIEF
    assert told.count("▲") == len(short)
    assert "of which" in verdict_list.brief(assess(examples.example("found-winch")))
