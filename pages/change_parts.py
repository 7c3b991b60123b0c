"""Change parts: every field of every part of the rig, as questions with what to measure, and what a change did."""

import streamlit

from rigcheck.ui import measuring_sheet_view, part_pages, session

streamlit.subheader("Change parts")
streamlit.caption(
    "A field left empty means: I don't know; the check that needs it then says cannot tell. A bare number takes the unit in the label. "
    "Places are measured across, up and, only where not all hangs in one plane, in depth: towards you as you see the drawing."
)
part_pages.show(session.standing())
measuring_sheet_view.save("sheet-parts")
