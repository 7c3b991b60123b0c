"""Report: the rig with everything that was worked out, to save, to print and to hand on."""

import streamlit

from rigcheck.ui import in_sight, keeping, report_view, session

standing = session.standing()
if standing.assessment is None:
    in_sight.tell_no_rig()
else:
    streamlit.subheader("Report")
    with streamlit.container(horizontal=True):
        keeping.save_report(standing.assessment)
        keeping.save_answer(standing.assessment)
        keeping.save_rig_file("save-report")
    report_view.show(standing.assessment)
