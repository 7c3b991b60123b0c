"""Begin: a rig that is worked out, its verdict in one sentence; its few numbers to change, or another rig to begin with."""

import streamlit

from rigcheck.ui import (
    begin_hand_pull,
    beginning,
    drawing_view,
    in_sight,
    keeping,
    limits_view,
    opening,
    session,
    verdict_list,
    verdict_words,
)
from rigcheck.ui.plain_text import in_html

standing = session.standing()
result, entry = streamlit.columns([3, 2], gap="large")

with result:
    if standing.assessment is None:
        in_sight.tell_no_rig()
    else:
        streamlit.html(f'<p class="rc-sentence">{in_html(verdict_words.sentence(standing.assessment))}</p>{beginning.LINK}')
        if pull := begin_hand_pull.sentence(standing.assessment):
            streamlit.html(f"<p>{in_html(pull)}</p>")
        drawing_view.show(standing.assessment, key="drawing-begin", on_open=opening.open_part)
        streamlit.markdown("#### What came out")
        streamlit.html(verdict_list.brief(standing.assessment) + limits_view.not_checked_folded(standing.assessment))
        with streamlit.container(horizontal=True, vertical_alignment="center"):
            keeping.save_rig_file("save-begin")
            streamlit.page_link("every_verdict.py", label="Every verdict, with its numbers and sources")

with entry:
    streamlit.html(beginning.LINKED)
    beginning.show()

streamlit.caption(
    "It helps a builder think. It does not replace local rules or a competent, licensed person. "
    "Never lift people with it; nobody under the load; prop it before working below."
)
