"""Checks on a page: a filter by part and by verdict, and each check with its numbers in words."""

from __future__ import annotations

import streamlit

from rigcheck.checks.check import CANNOT_TELL, Check
from rigcheck.report import contents
from rigcheck.ui import lines_filter, session
from rigcheck.ui.plain_text import in_html
from rigcheck.ui.verdict_words import MARKS, PLURALS

EVERY_PART = "every part"
LINES_PAGE = "line_by_line.py"


def filtered(checks: list[Check]) -> list[Check]:
    """The checks of the part and the verdict that are picked."""
    part, verdict = streamlit.columns([2, 3])
    items = [EVERY_PART, *dict.fromkeys(check.item for check in checks)]
    with part:
        now = session.remembered("part", EVERY_PART)
        chosen = streamlit.selectbox("Part", items, index=items.index(now) if now in items else 0, key=f"part {session.opened()}")
    session.remember("part", chosen)
    with verdict:
        wanted = streamlit.segmented_control("Only those that", contents.WORST_FIRST, selection_mode="multi", default=session.remembered("verdicts", []),
                                             key=f"verdicts {session.opened()}", format_func=PLURALS.get)  # fmt: skip
    session.remember("verdicts", wanted)
    found = [c for c in checks if chosen in (EVERY_PART, c.item) and (not wanted or c.verdict in wanted)]
    streamlit.caption(f"{len(found)} of {len(checks)} checks are shown.")
    return found


def show(check: Check) -> None:
    """One check, with the way to its lines of working."""
    told, lines = streamlit.columns([6, 1])
    with told:
        streamlit.html(_block(check))
    with lines:
        if (check.demand is not None or check.capacity is not None) and streamlit.button("Its lines", key=f"lines {check.id}"):
            lines_filter.ask_for(check.id)
            streamlit.switch_page(LINES_PAGE)


def _block(check: Check) -> str:
    told = contents.shown(check)
    numbers = [("demand", told.demand), ("capacity", told.capacity), ("factor", told.factor), ("required factor", told.required)]
    listed = "".join(f"<div><dt>{name}</dt><dd>{in_html(value)}</dd></div>" for name, value in numbers if value)
    more = [("To make it hold", told.remedy), ("Why" if check.verdict == CANNOT_TELL else "Note", told.reason)]
    sentences = "".join(f"<p>{name}: {in_html(text)}</p>" for name, text in more if text)
    source = f'<p class="rc-small">Source: {in_html(told.source)}</p>' if told.source else ""
    return (
        f'<section class="rc-check"><h3><span class="rc-mark" aria-hidden="true">{MARKS[check.verdict]}</span> {check.verdict} · '
        f"{in_html(told.item)}, {in_html(told.what)}</h3>{f'<dl>{listed}</dl>' if listed else ''}{sentences}{source}</section>"
    )
