"""The checks of one part, short: mark, what is checked, factor and required factor, the worst first."""

from __future__ import annotations

from collections import Counter

import streamlit

from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import HOLDS, Check
from rigcheck.report import contents
from rigcheck.ui import lines_filter
from rigcheck.ui.draft import Path
from rigcheck.ui.next_steps import path_of
from rigcheck.ui.plain_text import escaped, in_html
from rigcheck.ui.verdict_words import MARKS

LINES_PAGE = "line_by_line.py"
_NUMBER = ' class="rc-number"'
_HEAD = (("verdict", ""), ("what is checked", ""), ("factor", _NUMBER), ("required", _NUMBER))


def of(assessment: Assessment, path: Path) -> list[Check]:
    """The checks that are about the part at a path, the worst first; of a gear stage those of that stage."""
    found = [check for check in assessment.checks if path_of(check.part) == path[:2]]
    if path[:2] == ("drive", "gears") and len(path) > 2 and isinstance(path[2], int):
        found = [check for check in found if check.part[1] == f"gear stage {path[2] + 1}"]
    return contents.worst_first(found)


def show(assessment: Assessment, path: Path) -> None:
    """The table of them, and the way to the lines of the worst."""
    checks = of(assessment, path)
    if not checks:
        streamlit.html('<p class="rc-small">No check is about this part alone; what it does is in the verdicts of the others.</p>')
        return
    streamlit.html(table(checks))
    worked = next((check for check in checks if check.demand is not None or check.capacity is not None), None)
    if worked is not None and streamlit.button(f"Lines of: {escaped(worked.what)}", key="part-lines", type="tertiary"):
        lines_filter.ask_for(worked.id)
        streamlit.switch_page(LINES_PAGE)


def table(checks: list[Check]) -> str:
    """The checks as one table, as HTML."""
    head = "".join(f'<th scope="col"{css}>{words}</th>' for words, css in _HEAD)
    told: set[str] = set()
    rows = "".join(_row(check, what, told) for check, what in zip(checks, _told_apart(checks), strict=True))
    return f'<table class="rc-table"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>'


def _told_apart(checks: list[Check]) -> list[str]:
    """What each check looks at; where several look at the same, also the rope, or whatever else, that each is about."""
    often = Counter(check.what for check in checks)
    return [check.what if often[check.what] == 1 else f"{check.what}: {check.item.partition(', ')[2] or check.item}" for check in checks]


def _row(check: Check, what: str, said: set[str]) -> str:
    """One row, and a second one with why it does not hold; what was said at a check above is not said again."""
    told = contents.shown(check)
    mark = f'<span class="rc-mark" aria-hidden="true">{MARKS[check.verdict]}</span> {check.verdict}'
    why = "" if check.verdict == HOLDS or (told.remedy or told.reason) in said else told.remedy or told.reason
    said.add(why)
    more = f'<tr><td></td><td class="rc-small" colspan="3">{in_html(why)}</td></tr>' if why else ""
    return (
        f'<tr><td style="white-space: nowrap">{mark}</td><th scope="row">{in_html(what)}</th>'
        f'<td class="rc-number">{in_html(told.factor)}</td><td class="rc-number">{in_html(told.required)}</td></tr>{more}'
    )
