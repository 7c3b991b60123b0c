"""Drum and motor: where the motor works on its line, what it gives and takes along the travel, the rope on the drum, and what others would do."""

import streamlit

from rigcheck.ui import drum_view, in_sight, motor_view, other_drive_view, session
from rigcheck.whatif.drive_figures import drive_figures

standing = session.standing()
if standing.assessment is None:
    in_sight.tell_no_rig()
else:
    assessment = standing.assessment
    drive, figures = assessment.rig.drive, drive_figures(assessment)
    streamlit.subheader("Drum and motor")
    motor_view.show_unanswered(assessment)
    if drive.kind == "hand line":
        streamlit.markdown("This rig has neither drum nor motor: a line is pulled by hand.")
        motor_view.show_effort(assessment)
    else:
        if drive.motor is not None:
            motor_view.show_working_point(assessment, figures)
        elif drive.crank is not None:
            motor_view.show_effort(assessment)
        motor_view.show_along(assessment, figures)
        streamlit.markdown("#### Rope on the drum")
        drum_view.show(assessment)
        other_drive_view.show(assessment, standing.is_current)
