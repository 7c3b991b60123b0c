"""Limits and sources: what is not checked, how to use the answer, where every factor comes from and how the numbers are confirmed."""

import streamlit

from rigcheck.ui import limits_view, session

streamlit.subheader("Limits and sources")
limits_view.cautions()
assessment = session.standing().assessment
if assessment is not None:
    limits_view.not_checked(assessment)
    limits_view.assumed(assessment)
limits_view.words()
limits_view.bases()
limits_view.confirmed()
if assessment is not None:
    limits_view.sources(assessment)
