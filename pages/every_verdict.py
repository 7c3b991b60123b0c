"""Verdicts: every check, the worst first, with its factor, its source, what would make it hold, and the way to its lines."""

import streamlit

from rigcheck.report.contents import worst_first
from rigcheck.ui import in_sight, session, verdict_list

standing = session.standing()
if standing.assessment is None:
    in_sight.tell_no_rig()
else:
    streamlit.subheader("Verdicts")
    streamlit.caption(
        "A part holds if its capacity is at least the required factor times the demand. Demands are rounded up, capacities and factors down."
    )
    for check in verdict_list.filtered(worst_first(standing.assessment.checks)):
        verdict_list.show(check)
