"""The first look at the report: what stands on its first page."""

from __future__ import annotations

import streamlit

from rigcheck.checks.assessment import Assessment
from rigcheck.report import contents
from rigcheck.ui.plain_text import in_html


def show(assessment: Assessment) -> None:
    """What the report says first."""
    rows = "".join(f'<tr><th scope="row">{in_html(name)}</th><td>{in_html(value)}</td></tr>'
                   for name, value in (*contents.rated_load(assessment), *contents.figures(assessment)))  # fmt: skip
    streamlit.html(
        f'<p class="rc-sentence">{in_html(contents.verdict_sentence(assessment))}</p><table class="rc-table"><tbody>{rows}</tbody></table>'
    )
    streamlit.caption(
        "The report holds the drawing, every check, every pull, every input with its note, every line of working and every source."
    )
