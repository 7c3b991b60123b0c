"""Lines of working on a page: formula = numbers = result, what it is, where it comes from."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from dataclasses import dataclass

import streamlit

from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import Check
from rigcheck.report import contents, source_words
from rigcheck.report.chapters import Entry, chapters
from rigcheck.ui.formula_width import TELEPHONE_EM, width_em
from rigcheck.ui.plain_text import escaped
from rigcheck.ui.verdict_words import MARKS, named
from rigcheck.vocabularies import LATEX
from rigcheck.working import PrintedLine

_EQUALS_EM = 1.3
_INDENT_EM = 1.5
"""How far the later rows of a formula that breaks stand in; the sheet of styles has the same."""


@dataclass(frozen=True)
class NumberedLine:
    """A line with its number in the working and the chapter it stands in."""

    number: int
    chapter: str
    entry: Entry


@streamlit.cache_resource(max_entries=16, show_spinner=False)
def lines(text: str, _assessment: Assessment) -> list[NumberedLine]:
    """Every line of working; `text` is the rig file's text, by which they are kept."""
    entries = [(chapter.title, entry) for chapter in chapters(_assessment, "latex") for entry in chapter.entries]
    return [NumberedLine(number, title, entry) for number, (title, entry) in enumerate(entries, 1)]


def numbers_of(assessment: Assessment, check: Check) -> set[int]:
    """The numbers of the lines that lead to a check."""
    ends = [line for line in (check.demand, check.capacity, check.factor) if line is not None]
    wanted = assessment.solution.working.ancestors(ends)
    return {number for number, line in enumerate(assessment.solution.working.lines, 1) if line in wanted}


def holds_words(entry: Entry, words: str) -> bool:
    """Whether every word looked for stands in the line."""
    line = entry.plain
    text = " ".join((line.what, line.source, line.kind, line.sign, line.shown)).lower()
    return all(word in text for word in words.lower().split())


def show(numbered: NumberedLine, plain: Callable[[str], str]) -> None:
    """One line: what it is, then the formula with its numbers and the result, then kind and source in plain words, then what it decides."""
    line = numbered.entry.typeset
    streamlit.html('<hr class="rc-rule">')
    told, mathematics = streamlit.columns([2, 3], gap="medium")
    with told:
        streamlit.markdown(f"**{numbered.number}** · {escaped(line.what)}")
        streamlit.caption(
            escaped(" · ".join(part for part in (line.kind, plain(source_words.row_words(line.source)), heights_of(line)) if part))
        )
    with mathematics:
        streamlit.latex(_mathematics(numbered.entry))
        for check in numbered.entry.decides:
            shown = contents.shown(check)
            needs = f": factor {shown.factor}, required {shown.required}" if shown.factor and shown.required else ""
            streamlit.markdown(f"{MARKS[check.verdict]} **{check.verdict}** · {escaped(named(check) + needs)}")


def heights_of(line: PrintedLine) -> str:
    """The heights of a line in words: "at a height of 2.2 m; at 0 m it is 0.98191"."""
    return contents.heights_told(line).replace("at ", "at a height of ", 1)


def _mathematics(entry: Entry) -> str:
    """Rows with the equals signs below one another where a telephone has room for them; else rows that break at their signs."""
    line, in_rows = entry.typeset, entry.in_rows
    number, _, unit = line.shown.partition(" ")
    result = LATEX.quantity(number, unit)
    steps = [step for step in (line.formula, line.numbers) if step]
    if not steps:
        return _signs_in_units(rf"\kern-{_INDENT_EM}em {line.sign} = {result}")
    if width_em(line.sign) + max(map(width_em, steps)) + _EQUALS_EM <= TELEPHONE_EM:
        rows = [rf"{line.sign} &= {steps[0]}", *(rf"&= {step}" for step in steps[1:]), rf"&= {result}"]
        return _signs_in_units(rf"\begin{{aligned}}{_stacked(rows)}\end{{aligned}}")
    broken = [
        one if width_em(one) + _INDENT_EM <= TELEPHONE_EM else other
        for one, other in zip(steps, (step for step in (in_rows.formula, in_rows.numbers) if step), strict=True)
    ]
    rows = [rf"\kern-{_INDENT_EM}em {line.sign} = \displaystyle {broken[0]}", *(f"= {step}" for step in broken[1:]), f"= {result}"]
    return _signs_in_units(_stacked(rows))


def _stacked(rows: list[str]) -> str:
    """Rows one below the other; those that fractions reach into stand further apart, so that no two fractions touch."""
    stacked = rows[0]
    for above, below in itertools.pairwise(rows):
        gap = "1em" if r"\frac" in above and r"\frac" in below else ".6em" if r"\frac" in above + below else ".35em"
        stacked += rf"\\[{gap}]{below}"
    return stacked


def _signs_in_units(latex: str) -> str:
    """Squares and degrees of a unit, which stand among words, as exponents: the typesetter of the page does not know them as letters."""
    return latex.replace("²", r"}^{2}\text{").replace("⁴", r"}^{4}\text{").replace("°", r"}^{\circ}\text{")
