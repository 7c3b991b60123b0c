"""The router: which pages there are, and what stands above each of them."""

import sys
from pathlib import Path

if (home := str(Path(__file__).resolve().parent.parent)) not in sys.path:
    sys.path.insert(0, home)

import streamlit

from rigcheck.ui import boundary, in_sight, look, session

PAGES = [
    streamlit.Page("begin_here.py", title="Begin", url_path="begin", default=True),
    streamlit.Page("change_parts.py", title="Change parts", url_path="change-parts"),
    streamlit.Page("every_rope.py", title="Ropes", url_path="ropes"),
    streamlit.Page("drum_and_motor.py", title="Drum and motor", url_path="drive"),
    streamlit.Page("balance_weight.py", title="Balance", url_path="balance"),
    streamlit.Page("every_verdict.py", title="Verdicts", url_path="verdicts"),
    streamlit.Page("line_by_line.py", title="Line by line", url_path="line-by-line"),
    streamlit.Page("take_away.py", title="Report", url_path="report"),
    streamlit.Page("limits_and_sources.py", title="Limits and sources", url_path="limits"),
]

streamlit.set_page_config(layout="wide")
look.put_on()
page = streamlit.navigation(PAGES, position="hidden")


def whole_page() -> None:
    session.begin()
    if (asked := session.asked_page()) is not None:
        streamlit.switch_page(asked)
    with streamlit.container(horizontal=True, gap="small", key="ways"):
        for each in PAGES:
            streamlit.page_link(each)
    in_sight.show(session.standing())
    page.run()


boundary.within(whole_page)
