"""Change parts: every field of every part of the rig, as questions with what to measure, and which verdicts a change turned."""

import streamlit

from rigcheck.ui import in_sight, part_pages, session, turns_view

standing = session.standing()
if session.draft() is None:
    in_sight.tell_no_rig()
else:
    streamlit.subheader("Change parts")
    streamlit.caption(
        "A field left empty means that it is not known: the check that needs it then says cannot tell. A bare number takes the unit in the label."
    )
    turns_view.show(standing)
    part_pages.show(standing.faults)
