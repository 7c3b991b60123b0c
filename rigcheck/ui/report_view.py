"""The report looked at before it is saved: its very pages, one at a time, and what stands on the first of them in words."""

from __future__ import annotations

import streamlit

from rigcheck import units
from rigcheck.checks.assessment import Assessment
from rigcheck.report import contents, whole_words
from rigcheck.report.pdf import sheets
from rigcheck.ui import session
from rigcheck.ui.plain_text import in_html

_WIDTH_PX = 760


def show(assessment: Assessment) -> None:
    """What the report says first, and the look at its pages, which are typeset when they are asked for."""
    rows = "".join(f'<tr><th scope="row">{in_html(name)}</th><td>{in_html(value)}</td></tr>'
                   for name, value in (*contents.rated_load(assessment), *contents.figures(assessment)))  # fmt: skip
    told = f"{whole_words.sentence(assessment)} {contents.verdict_sentence(assessment)}"
    streamlit.html(f'<p class="rc-sentence">{in_html(told)}</p><table class="rc-table"><tbody>{rows}</tbody></table>')
    streamlit.caption(
        "The report holds the drawing, every check, every pull, every input with its note, every line of working and every source."
    )
    look = streamlit.toggle("Look at its pages", value=session.remembered("look at pages", False), key=f"look {session.opened()}")
    session.remember("look at pages", look)
    if look:
        _pages(assessment)


def _pages(assessment: Assessment) -> None:
    made = _sheets(session.good_text(), session.system(), assessment)
    number = min(session.remembered("sheet of the report", 1), len(made))
    with streamlit.container(horizontal=True, vertical_alignment="center"):
        streamlit.button(
            "Page before", disabled=number == 1, on_click=session.remember, args=("sheet of the report", number - 1), key="page-before"
        )
        streamlit.button(
            "Page after",
            disabled=number == len(made),
            on_click=session.remember,
            args=("sheet of the report", number + 1),
            key="page-after",
        )
        streamlit.markdown(f"Page {number} of {len(made)}")
    streamlit.image(made[number - 1], width=_WIDTH_PX, caption=f"Page {number} of the report as it will be saved")


@streamlit.cache_resource(max_entries=2, show_spinner="Typesetting the report …")
def _sheets(text: str, system: str, _assessment: Assessment) -> list[str]:
    with units.shown_in(system):
        return sheets(_assessment)
