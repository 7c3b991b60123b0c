"""What stands in the way of a result, each a press that leads to its field: on whatever page the field is."""

from __future__ import annotations

import streamlit

from rigcheck.ui import next_steps, session
from rigcheck.ui.next_steps import Gap
from rigcheck.ui.plain_text import escaped

ITS_NUMBERS = "Its numbers"
BEGIN_PAGE, PARTS_PAGE = "begin_here.py", "change_parts.py"
_MOST = 8


def show(page: str) -> None:
    """One press for each field that is not filled in or cannot be used, those further down this page by name; nothing while the result is current."""
    with streamlit.container():  # always there, so that nothing below it changes its place
        standing = session.standing()
        found = [] if standing.is_current else next_steps.gaps(session.draft(), standing.faults)
        if not found:
            return
        streamlit.markdown("**Next, before it can be worked out**")
        below = [gap for gap in found if page == BEGIN_PAGE and gap.path[0] == "answers"]
        if below:
            streamlit.markdown(escaped(f"Below, in this form: {'; '.join(gap.called for gap in below)}."))
        elsewhere = [gap for gap in found if gap not in below]
        with streamlit.container(horizontal=True):
            for number, gap in enumerate(elsewhere[:_MOST]):
                streamlit.button(escaped(gap.words), key=f"{page} gap {number} {gap.path}", type="tertiary", on_click=_lead_to, args=(gap,))
        if len(elsewhere) > _MOST:
            streamlit.caption(f"and {len(elsewhere) - _MOST} more")


def _lead_to(gap: Gap) -> None:
    if gap.path[0] == "answers":
        session.remember("way to begin", ITS_NUMBERS)
        session.ask_for_page(BEGIN_PAGE)
        return
    session.open_part(gap.path)
    session.ask_for_page(PARTS_PAGE)
