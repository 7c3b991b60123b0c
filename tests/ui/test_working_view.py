"""Lines of working on a page: rows of fractions stand clear of one another, heights are told with the numbers there, a telephone has room for all."""

import re
from dataclasses import replace

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.report.chapters import Entry, chapters
from rigcheck.rig import examples
from rigcheck.ui import working_view
from rigcheck.ui.formula_width import TELEPHONE_EM, width_em
from tests.report.report_rigs import assessed


def line_of(name: str, sign: str):
    return next(line for line in assess(examples.example(name)).solution.working.printed("latex") if line.sign.startswith(sign))


def test_rows_of_fractions_stand_further_apart_than_others():
    line = replace(line_of("gallery-crate", "T"), formula=r"\frac{W}{\eta}", numbers=r"\frac{100}{0.9}", shown="111 N")
    printed = working_view._mathematics(Entry(line, line, line, []))
    assert printed.count(r"\\[1em]") == 1
    assert printed.count(r"\\[.6em]") == 1
    plain = replace(line, formula="W", numbers="100")
    assert working_view._mathematics(Entry(plain, plain, plain, [])).count(r"\\[.35em]") == 2


def test_a_number_that_is_read_at_two_heights_is_told_at_both():
    share = line_of("gallery-crate", "c")
    assert share.shown == "0.86843"
    assert working_view.heights_of(share) == "at a height of 2.2 m; at 0 m it is 0.98191"
    assert working_view.heights_of(line_of("gallery-crate", "g")) == ""


GAPS = re.compile(r"\\\\\[[.\w]*\]")
BREAKS = re.compile(r" (?:\+|-|=|\\cdot|\\mathbin\{/\}) ")


def unbreakable(latex: str) -> list[str]:
    """The pieces of rows between the signs at which they may break: those outside every curly bracket."""
    pieces, start, deep = [], 0, 0
    for found in re.finditer(rf"{BREAKS.pattern}|[{{}}]", latex):
        deep += (found[0] == "{") - (found[0] == "}")
        if not deep and BREAKS.fullmatch(found[0]):
            pieces.append(latex[start : found.start()])
            start = found.end()
    return [*pieces, latex[start:]]


@pytest.mark.parametrize("name", ["kiln-shell", "cellar-hatch", "studio-counterweight", "longest names"])
def test_a_telephone_has_room_for_every_line_or_for_the_pieces_it_breaks_into(name):
    broken = 0
    for chapter in chapters(assessed(name), "latex"):
        for entry in chapter.entries:
            printed = working_view._mathematics(entry)
            rows = GAPS.split(printed.removeprefix(r"\begin{aligned}").removesuffix(r"\end{aligned}"))
            if printed.startswith(r"\begin{aligned}"):
                sides = [row.split("&=") for row in rows]
                assert width_em(sides[0][0]) + max(width_em(right) for _, right in sides) < TELEPHONE_EM
            else:
                broken += 1
                assert max(width_em(piece) for row in rows for piece in unbreakable(row)) <= TELEPHONE_EM, printed
    assert broken > 5


def test_what_may_break_is_printed_without_bars_and_roots_only_where_there_is_no_room():
    by_sign = {
        entry.plain.sign: working_view._mathematics(entry)
        for chapter in chapters(assessed("kiln-shell"), "latex")
        for entry in chapter.entries
    }
    assert r"\frac" in by_sign["T[left rope 3↑]"]
    assert r"\surd(" in by_sign["F[pin right head sheave, at rest]"]
    assert r"\sqrt" not in by_sign["F[pin right head sheave, at rest]"]


def test_a_degree_is_an_exponent_as_the_typesetter_of_the_page_has_no_such_letter():
    printed = [working_view._mathematics(entry) for chapter in chapters(assessed("kiln-shell"), "latex") for entry in chapter.entries]
    assert any(r"90^{\circ}" in line or r"90}^{\circ}" in line for line in printed)
    assert not any("°" in line for line in printed)
