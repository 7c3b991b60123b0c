"""Which lines of working are shown: those of a check, of a chapter, or with certain words, a sheet at a time."""

from __future__ import annotations

import math

import streamlit

from rigcheck.checks.assessment import Assessment
from rigcheck.ui import session, working_view
from rigcheck.ui.plain_text import escaped
from rigcheck.ui.verdict_words import check_of, named
from rigcheck.ui.working_view import NumberedLine

EVERYTHING = "everything"
ON_A_SHEET = 40
_CHAPTER, _CHECK = "chapter ", "check "


def pick(text: str, assessment: Assessment) -> list[NumberedLine]:
    """The picks and the lines they leave."""
    every = working_view.lines(text, assessment)
    options = [EVERYTHING, *(_CHAPTER + title for title in dict.fromkeys(numbered.chapter for numbered in every))]
    options += [_CHECK + check.id for check in assessment.checks if check.demand is not None or check.capacity is not None]
    asked = session.remembered("lines", EVERYTHING)
    left, right = streamlit.columns(2)
    with left:
        chosen = streamlit.selectbox("Lines of", options, index=options.index(asked) if asked in options else 0, key=f"lines-of {session.opened()}",
                                     format_func=lambda option: _title(option, assessment))  # fmt: skip
    with right:
        words = streamlit.text_input("With the words", session.remembered("words", ""), key=f"lines-words {session.opened()}", max_chars=80,
                                     placeholder="such as: efficiency").strip()  # fmt: skip
    session.remember("lines", chosen)
    session.remember("words", words)
    found = [numbered for numbered in every if working_view.holds_words(numbered.entry, words)]
    if chosen.startswith(_CHAPTER):
        found = [numbered for numbered in found if numbered.chapter == chosen.removeprefix(_CHAPTER)]
    elif chosen.startswith(_CHECK):
        wanted = working_view.numbers_of(assessment, check_of(assessment, chosen.removeprefix(_CHECK)))
        found = [numbered for numbered in found if numbered.number in wanted]
    return _sheet(found, len(every))


def ask_for(check_id: str) -> None:
    """Have the page show the lines of a check when it is opened next."""
    session.remember("lines", _CHECK + check_id)
    session.remember("words", "")


def _title(option: str, assessment: Assessment) -> str:
    if option.startswith(_CHECK):
        check = check_of(assessment, option.removeprefix(_CHECK))
        return f"check: {named(check)}" if check else option
    return option.removeprefix(_CHAPTER)


def _sheet(found: list[NumberedLine], many: int) -> list[NumberedLine]:
    sheets = max(math.ceil(len(found) / ON_A_SHEET), 1)
    sheet = 1
    if sheets > 1:
        sheet = streamlit.segmented_control("Sheet", range(1, sheets + 1), default=1, required=True, key=f"lines-sheet {sheets}")
    streamlit.caption(f"{len(found)} of {many} lines" + (f", sheet {sheet} of {sheets}." if sheets > 1 else "."))
    return found[(sheet - 1) * ON_A_SHEET : sheet * ON_A_SHEET]


def heading(chapter: str) -> None:
    streamlit.markdown(f"#### {escaped(chapter[:1].upper() + chapter[1:])}")
