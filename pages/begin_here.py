"""Begin: pick an arrangement, an example or a rig file; give its few numbers; see the drawing and the verdict."""

import streamlit

from rigcheck.ui import beginning, drawing_view, keeping, session, verdict_words
from rigcheck.ui.plain_text import in_html

standing = session.standing()
entry, result = streamlit.columns([2, 3], gap="large")

with entry:
    streamlit.subheader("Begin with")
    beginning.pick()
    if session.draft() is not None and session.draft().arrangement is not None:
        beginning.answer_form()

with result, streamlit.container(key="result"):
    if standing.assessment is None:
        streamlit.subheader("What you will get")
        streamlit.markdown(
            "The pull in every rope at every height, a verdict for each part with its factor and its source, "
            "the load the rig may carry, and every line of working, to save and to print.\n\n"
            "It helps a builder think. It does not replace local rules or a competent, licensed person. "
            "Never lift people with it; nobody under the load; prop it before working below."
        )
    else:
        streamlit.html(f'<p class="rc-sentence">{in_html(verdict_words.sentence(standing.assessment))}</p>')
        drawing_view.show(standing.assessment, key="drawing-begin")
        keeping.save_rig_file("save-begin")
