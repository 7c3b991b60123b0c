"""What the last change did to the verdicts."""

from __future__ import annotations

import streamlit

from rigcheck.report import contents
from rigcheck.ui import session
from rigcheck.ui.answers import Turn, turned
from rigcheck.ui.plain_text import in_html
from rigcheck.ui.session import Standing
from rigcheck.ui.verdict_words import MARKS, named, rated


def show(standing: Standing) -> None:
    """The verdicts that turned with the last change, and what became of the rated load."""
    with streamlit.container():  # always there, so that nothing below it changes its place
        _tell(standing)


def _tell(standing: Standing) -> None:
    before = session.before()
    if before is not None and standing.assessment is not None:
        turns = turned(before, standing.assessment)
        rows = "".join(f"<li>{_told(turn)}</li>" for turn in turns)
        then, now = (in_html(dict(rated(each))["Rated load"]) for each in (before, standing.assessment))
        loads = f"Rated load before: {then}; now: {now}." if then != now else f"Rated load as before: {now}."
        what = f"The last change turned these verdicts:<ul>{rows}</ul>" if turns else "The last change turned no verdict. "
        streamlit.html(f'<div class="rc-check"><p>{what}{loads}</p></div>')


def _told(turn: Turn) -> str:
    if turn.before is None:
        return f"{in_html(named(turn.after))}: new, {_word(turn.after.verdict)}"
    if turn.after is None:
        return f"{in_html(named(turn.before))}: no longer asked, it was {_word(turn.before.verdict)}"
    old, new = contents.shown(turn.before).factor, contents.shown(turn.after).factor
    change = f", factor {old} before, {new} now" if old and new else ""
    return f"{in_html(named(turn.after))}: {_word(turn.before.verdict)} before, {_word(turn.after.verdict)} now{change}"


def _word(verdict: str) -> str:
    return f'<span class="rc-mark" aria-hidden="true">{MARKS[verdict]}</span> {verdict}'
