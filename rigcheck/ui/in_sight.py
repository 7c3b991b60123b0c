"""What is always in sight on top of every page: how many checks hold, the rated load and what governs it, what to do next, and the way back."""

from __future__ import annotations

import streamlit

from rigcheck import units
from rigcheck.ui import fault_words, faults_view, next_steps, session, verdict_words
from rigcheck.ui.draft import ARRANGEMENT
from rigcheck.ui.plain_text import escaped, in_html
from rigcheck.ui.session import Standing

PARTS_PAGE = "change_parts.py"
SYSTEMS = {units.METRIC: "metric", units.US: "US"}


def show(standing: Standing) -> None:
    """The strip, and below it why the last good result is an older one."""
    with streamlit.container(key="in-sight"):
        streamlit.html(_strip(standing) if standing.assessment is not None else _nothing_yet())
        with streamlit.container(horizontal=True, vertical_alignment="center", gap="small", key="at-hand"):
            _ways_back()
            _units()
            _what_next(standing)
    with streamlit.container():  # always there, so that nothing below it changes its place
        if not standing.is_current:
            _explain(standing)
        elif session.is_lost():
            streamlit.html(
                '<p class="rc-stale">The rig that belongs to this address is no longer kept: the program was started again since. '
                "If you saved its rig file, open it under Begin.</p>"
            )


def tell_no_rig() -> None:
    """What a page shows that needs a result while there is none."""
    streamlit.markdown("This page needs a rig that can be worked out; what stands in the way is told above.")
    streamlit.page_link("begin_here.py", label="Begin with an arrangement, an example or a rig file")


def _ways_back() -> None:
    streamlit.button(
        "Undo",
        key="press-undo",
        on_click=session.undo,
        disabled=not session.can_undo(),
        help="Take the last change back, on whatever page it was made.",
    )
    streamlit.button(
        "Redo", key="press-redo", on_click=session.redo, disabled=not session.can_redo(), help="Make the change again that was taken back."
    )


def _units() -> None:
    streamlit.segmented_control("Units", list(SYSTEMS), key="choose-units", default=session.system(), required=True, format_func=SYSTEMS.get, label_visibility="collapsed",
                                on_change=lambda: session.show_in(session.entered("choose-units")))  # fmt: skip


def _what_next(standing: Standing) -> None:
    if standing.assessment is None or not standing.is_current:
        return
    todo = next_steps.steps(standing.assessment)
    if not todo:
        streamlit.page_link("take_away.py", label="Next: save or print the report")
        return
    more = f" (and {len(todo) - 1} more)" if len(todo) > 1 else ""
    if streamlit.button(escaped(f"Next: {todo[0].words}{more}"), key="press-next", type="tertiary"):
        session.open_part(todo[0].path)
        streamlit.switch_page(PARTS_PAGE)


def _nothing_yet() -> str:
    name = session.draft().data.get("name") or "a rig without a name"
    return f'<div class="rc-sight"><span class="rc-name">{in_html(name)}</span><span>no result yet: see below what stands in the way</span></div>'


def _strip(standing: Standing) -> str:
    assessment = standing.assessment
    told = "".join(
        f'<span><span class="rc-mark" aria-hidden="true">{verdict_words.MARKS[verdict]}</span> {count} {verdict if count == 1 else verdict_words.PLURALS[verdict]}</span>'
        for verdict, count in assessment.counts.items()
    )
    loads = "".join(f"<span>{words}: <b>{in_html(value)}</b></span>" for words, value in verdict_words.rated(assessment))
    older = "<span>▸ <b>older result, see below</b></span>" if not standing.is_current else ""
    return f'<div class="rc-sight"><span class="rc-name">{in_html(assessment.rig.name)}</span>{told}{older}{loads}</div>'


def _explain(standing: Standing) -> None:
    if standing.assessment is not None:
        streamlit.html('<p class="rc-stale">What is shown is the last good result. What was typed since cannot be used yet.</p>')
    if standing.fault is not None:
        where, wrong, right = fault_words.of_error(standing.fault)
        faults_view.beside(wrong, right, where)
    for fault in standing.faults:
        faults_view.beside(*fault_words.told(fault))
    if not standing.faults and standing.fault is None and session.draft().origin == ARRANGEMENT:
        streamlit.caption("It is told beside the number it belongs to, on the page Begin.")
