"""Line by line: every line of working, formula = numbers = result, to follow with pencil and paper."""

import streamlit

from rigcheck.report import file_words
from rigcheck.ui import in_sight, lines_filter, session, working_view

standing = session.standing()
if standing.assessment is None:
    in_sight.tell_no_rig()
else:
    streamlit.subheader("Line by line")
    found = lines_filter.pick(session.good_text(), standing.assessment)
    plain = file_words.plain_words(standing.assessment.rig)
    chapter = None
    for numbered in found:
        if numbered.chapter != chapter:
            chapter = numbered.chapter
            lines_filter.heading(chapter)
        working_view.show(numbered, plain)
