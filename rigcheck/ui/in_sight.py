"""What is always in sight on top of every page: the rig, how many checks hold, its rated load and what governs it."""

from __future__ import annotations

import streamlit

from rigcheck.ui import faults_view, session, verdict_words
from rigcheck.ui.plain_text import in_html
from rigcheck.ui.session import Standing


def show(standing: Standing) -> None:
    """The strip, and below it why the last good result is an older one."""
    with streamlit.container(key="in-sight"):
        if standing.assessment is None:
            streamlit.html('<div class="rc-sight"><span class="rc-name">No rig yet</span><span>What came out is told here.</span></div>')
        else:
            streamlit.html(_strip(standing))
    with streamlit.container():  # always there, so that nothing below it changes its place
        if not standing.is_current:
            _explain(standing)


def tell_no_rig() -> None:
    """What a page shows that needs a rig while there is none."""
    streamlit.markdown("This page needs a rig.")
    streamlit.page_link("begin_here.py", label="Begin with an arrangement, an example or a rig file")


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
        faults_view.error(standing.fault)
    faults_view.listed(standing.faults)
    if not standing.faults and standing.fault is None and session.draft().arrangement is not None:
        streamlit.caption("It is told beside the number it belongs to, on the page Begin.")
