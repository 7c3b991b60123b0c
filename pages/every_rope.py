"""Ropes: the pull in every run, what each place of a rope bears against it, and what every other rope of the catalogue would do."""

import streamlit

from rigcheck.ui import in_sight, pulls_view, rope_chain_view, rope_others_view, rope_pick, session

standing = session.standing()
if standing.assessment is None:
    in_sight.tell_no_rig()
else:
    streamlit.subheader("Ropes")
    section = rope_pick.section()
    if section == rope_pick.PULLS:
        pulls_view.show(standing.assessment)
    elif section == rope_pick.STRENGTH:
        rope_chain_view.show(standing.assessment, rope_pick.rope(standing.assessment))
    else:
        rope_others_view.show(standing, rope_pick.rope(standing.assessment))
