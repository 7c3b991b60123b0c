"""Lines of working on a page: rows of fractions stand clear of one another, heights are told with the numbers there."""

from dataclasses import replace

from rigcheck.checks.assessment import assess
from rigcheck.rig import examples
from rigcheck.ui import working_view


def line_of(name: str, sign: str):
    return next(line for line in assess(examples.example(name)).solution.working.printed("latex") if line.sign.startswith(sign))


def test_rows_of_fractions_stand_further_apart_than_others():
    line = replace(line_of("gallery-crate", "T"), formula=r"\frac{W}{\eta}", numbers=r"\frac{100}{0.9}", shown="111 N")
    assert working_view._mathematics(line).count(r"\\[1em]") == 1
    assert working_view._mathematics(line).count(r"\\[.6em]") == 1
    plain = replace(line, formula="W", numbers="100")
    assert working_view._mathematics(plain).count(r"\\[.35em]") == 2


def test_a_number_that_is_read_at_two_heights_is_told_at_both():
    share = line_of("gallery-crate", "c")
    assert share.shown == "0.86843"
    assert working_view.heights_of(share) == "at a height of 2.2 m; at 0 m it is 0.98191"
    assert working_view.heights_of(line_of("gallery-crate", "g")) == ""
