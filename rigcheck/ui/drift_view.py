"""How far a load that hangs free goes aside and tilts: a table, and a chart for each along the travel."""

from __future__ import annotations

import streamlit

from rigcheck.checks.assessment import Assessment
from rigcheck.report import drift_told
from rigcheck.ui import height_chart, look, session, tables
from rigcheck.ui.plain_text import in_html


def show(assessment: Assessment) -> None:
    """The whole part of the page; nothing where nothing hangs free."""
    if not assessment.drift:
        return
    streamlit.markdown("#### How far it goes aside and tilts")
    streamlit.caption(f"{drift_told.where_it_hangs(assessment)} {drift_told.COUNTED}")
    told = drift_told.shown_bands(assessment)
    if not told:
        streamlit.markdown("It hangs straight below, at every height.")
        return
    streamlit.html(table(told))
    for spec in _charts(session.good_text(), session.system(), look.ink(), assessment):
        streamlit.vega_lite_chart(spec, width="stretch")


def table(told: list[drift_told.ShownBand]) -> str:
    """Both ends of every band, as HTML."""
    rows = [
        (in_html(band.what), f"{in_html(band.least)}{_small(band.least_when)}", f"{in_html(band.most)}{_small(band.most_when)}")
        for band in told
    ]
    return tables.table(("what", "from", "to"), rows, numbers=(1, 2), name="How far it goes aside and tilts")


def _small(words: str) -> str:
    return f'<br><span class="rc-small">{in_html(words)}</span>'


@streamlit.cache_data(max_entries=100, show_spinner=False)
def _charts(text: str, system: str, ink: str, _assessment: Assessment) -> list[dict]:
    stations = _assessment.solution.travel.stations
    return [
        height_chart.chart({word: line.value for word, line in band.along.items()}, stations, drift_told.named(band), drift_told.unit(band.what), ink,
                           from_zero=False)
        for band in _assessment.drift
        if not band.is_none
    ]  # fmt: skip
