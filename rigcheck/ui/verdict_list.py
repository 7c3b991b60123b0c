"""Checks on a page: a filter by part and by verdict, and each check with its numbers in words."""

from __future__ import annotations

import streamlit

from rigcheck import units
from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS, Check
from rigcheck.report import contents
from rigcheck.report.path_words import in_words
from rigcheck.ui import lines_filter, session
from rigcheck.ui.draft import Path
from rigcheck.ui.next_steps import path_of
from rigcheck.ui.plain_text import escaped, in_html
from rigcheck.ui.verdict_words import MARKS, PLURALS

EVERY_PART = "every part"
LINES_PAGE, PARTS_PAGE = "line_by_line.py", "change_parts.py"
BRIEF, MOST_BRIEF = 8, 14
_NUMBER = ' class="rc-number"'
_HEAD = (("verdict", ""), ("part", ""), ("what is checked", ""), ("factor", _NUMBER), ("times what is required", _NUMBER))
ORDER = (
    "Of those that hold, what a heavier load would use up first comes first: the last column tells how many times over a part is enough."
)


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
    """One check, with the way to its lines of working, and to the field it waits for or the part that falls short."""
    told, ways = streamlit.columns([5, 1])
    with told:
        streamlit.html(_block(check))
    with ways:
        if (check.demand is not None or check.capacity is not None) and streamlit.button("Its lines", key=f"lines {check.id}"):
            lines_filter.ask_for(check.id)
            streamlit.switch_page(LINES_PAGE)
        if check.verdict != HOLDS:
            words = "Fill it in" if check.wants else "Its part"
            if streamlit.button(words, key=f"field {check.id}", help=escaped(in_words(_field(check)))):
                session.open_part(_field(check))
                streamlit.switch_page(PARTS_PAGE)


def _field(check: Check) -> Path:
    return check.wants[0] if check.wants else path_of(check.part)


def brief(assessment: Assessment) -> str:
    """The verdicts at a glance, the worst first, as HTML: those that do not hold, and a few of those that hold."""
    ordered = contents.worst_first(assessment.checks)
    short, unknown, holding = ([check for check in ordered if check.verdict == verdict] for verdict in (FALLS_SHORT, CANNOT_TELL, HOLDS))
    many = max(BRIEF, len(short), min(len(short) + len(unknown), MOST_BRIEF))  # what falls short is never left out
    shown, left = [*short, *unknown, *holding][:many], [*short, *unknown, *holding][many:]
    rows = "".join(map(_row, shown))
    unknown_left = sum(check.verdict == CANNOT_TELL for check in left)
    kinds = "all of which hold" if not unknown_left else f"of which {unknown_left} cannot tell"
    more = f'<p class="rc-small">and {len(left)} more, {kinds}.</p>' if left else ""
    head = "".join(f'<th scope="col"{css}>{words}</th>' for words, css in _HEAD)
    order = f'<p class="rc-small">{ORDER}</p>' if any(check.verdict == HOLDS for check in shown) else ""
    table = f'<table class="rc-table rc-brief"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>'
    return f'<div class="rc-scroll" tabindex="0" role="region" aria-label="Verdicts">{table}</div>{more}{order}'


def _row(check: Check) -> str:
    told = contents.shown(check)
    needs = f'<span class="rc-small">, needs {in_html(told.required)}</span>' if told.factor and told.required else ""
    mark = f'<span class="rc-mark" aria-hidden="true">{MARKS[check.verdict]}</span> {check.verdict}'
    return (
        f'<tr><td>{mark}</td><th scope="row">{in_html(check.item)}</th><td>{in_html(check.what)}</td>'
        f'<td class="rc-number">{_factor(check)}{needs}</td><td class="rc-number">{in_hand(check)}</td></tr>'
    )


def _factor(check: Check) -> str:
    """The factor; where there is none, why."""
    if told := contents.shown(check).factor:
        return CANNOT_TELL if told == "unknown" else told
    if check.verdict == CANNOT_TELL:
        return CANNOT_TELL
    return "nothing asked" if check.demand is not None else "no factor"


def in_hand(check: Check) -> str:
    """How many times over the factor is what is required, rounded down; empty where either is not known."""
    factor = check.factor_value
    return units.number(factor / check.required, 3, "down") if factor is not None and check.required else ""


def _block(check: Check) -> str:
    told = contents.shown(check)
    numbers = [
        ("demand", told.demand),
        ("capacity", told.capacity),
        ("factor", _factor(check)),
        ("required factor", told.required),
        ("times what is required", in_hand(check)),
    ]
    listed = "".join(f"<div><dt>{name}</dt><dd>{in_html(value)}</dd></div>" for name, value in numbers if value) if told.demand else ""
    more = [("To make it hold: ", told.remedy), ("" if check.verdict == CANNOT_TELL else "Note: ", told.reason)]
    sentences = "".join(f"<p>{name}{in_html(text)}</p>" for name, text in more if text)
    source = f'<p class="rc-small">Source: {in_html(told.source)}</p>' if told.source else ""
    return (
        f'<section class="rc-check"><h3><span class="rc-mark" aria-hidden="true">{MARKS[check.verdict]}</span> {check.verdict} · '
        f"{in_html(told.item)}, {in_html(told.what)}</h3>{f'<dl>{listed}</dl>' if listed else ''}{sentences}{source}</section>"
    )
