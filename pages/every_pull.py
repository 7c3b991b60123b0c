"""Pulls: the pull in every run of every rope, raising, holding and lowering, along the travel and at any height of it."""

import streamlit

from rigcheck import units
from rigcheck.ui import drawing_view, in_sight, look, pulls_view, session

standing = session.standing()
if standing.assessment is None:
    in_sight.tell_no_rig()
else:
    assessment = standing.assessment
    heights_m = assessment.solution.travel.heights_m
    runs = pulls_view.runs(assessment)
    top_m = float(heights_m[-1])

    streamlit.subheader("Pulls along the travel")
    height_m = streamlit.slider("Height of the load above its lowest place, in m", 0.0, top_m, value=min(session.remembered("height", 0.0), top_m),
                                step=float(heights_m[1]), format="%.3f", key=f"height {session.opened()} {top_m}")  # fmt: skip
    session.remember("height", height_m)
    index = int(abs(heights_m - height_m).argmin())
    words = streamlit.segmented_control("Pulls written on the drawing while", ["raising", "holding", "lowering"], required=True,
                                        default=session.remembered("way", "raising"), key="pulls-way")  # fmt: skip
    session.remember("way", words)

    drawing, chart = streamlit.columns(2, gap="large")
    with drawing:
        drawing_view.show(
            assessment, key="drawing-pulls", at=index, ghost=0 if index else None, labels=pulls_view.labels_at(assessment, index, words)
        )
        streamlit.caption(
            f"The load is {units.show(round(float(heights_m[index]), 6), 'm')} above its lowest place; pulls while {words}, rounded up."
        )
    with chart:
        chosen = streamlit.selectbox("Run in the chart", range(len(runs)), format_func=lambda i: pulls_view.run_name(runs[i]),
                                     index=min(session.remembered("run", 0), len(runs) - 1), key=f"run {session.opened()}")  # fmt: skip
        session.remember("run", chosen)
        streamlit.altair_chart(pulls_view.chart(assessment, runs[chosen], float(heights_m[index]), look.ink()), width="stretch")

    streamlit.markdown("#### Greatest and least along the whole travel")
    streamlit.caption(
        "Each with the height where it stands. While holding, every sheave may hold back as much as its friction allows, either way."
    )
    streamlit.html(pulls_view.table(runs))

    streamlit.markdown("#### What the ropes do to the building")
    streamlit.caption("Each where it is greatest. Whether beams, bolts and screws bear it is not checked here.")
    streamlit.html(pulls_view.forces(assessment))
