"""How a rig begins: the few numbers of the one that is open, or the pick of another: arrangement, example, scratch, rig file."""

from __future__ import annotations

import streamlit

from rigcheck.errors import RigcheckError
from rigcheck.report.path_words import in_words
from rigcheck.rig import files
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.ui import (
    arrangement_form,
    draft_parts,
    faults_view,
    few_numbers,
    form_notes,
    gallery,
    rope_condition,
    rope_path,
    scratch,
    session,
    still_missing,
)
from rigcheck.ui.draft import ARRANGEMENT, SCRATCH, Draft
from rigcheck.ui.plain_text import escaped

_MOST_FAULTS = 12
LINK = '<a class="rc-to-numbers" href="#its-numbers">To its numbers, below the drawing</a>'
LINKED = '<div id="its-numbers"></div>'
"""Where the page is one narrow column the form stands far below: the way there."""
NUMBERS, ANOTHER = still_missing.ITS_NUMBERS, "Begin with another"


def show() -> None:
    """One of the two; a session that has not begun yet is offered the pick."""
    ways = (NUMBERS, ANOTHER)
    way = streamlit.segmented_control("What to do", ways, key=f"way {session.opened()}", required=True, label_visibility="collapsed",
                                      default=session.remembered("way to begin", ANOTHER if session.is_fresh() else NUMBERS))  # fmt: skip
    session.remember("way to begin", way)
    if way == NUMBERS:
        still_missing.show(still_missing.BEGIN_PAGE)
    if way == ANOTHER:
        _pick()
    else:
        _numbers()


def _pick() -> None:
    """Every way to begin; what was open before is one step back."""
    streamlit.caption("Pick the one most like yours. The rig that is open now stays one step back: Undo brings it again.")
    gallery.show("gallery")
    streamlit.markdown("**A rig like none of these**")
    streamlit.button(
        "Start from one rope and one sheave", key="scratch", on_click=_scratch, help="It grows by sentences: rope from … over … to …"
    )
    streamlit.markdown("**A rig file that was saved here**")
    _file()


def _scratch() -> None:
    session.open_draft(scratch.beginning())


def _file() -> None:
    key = f"file {session.opened()}"
    sent = streamlit.file_uploader(
        "Choose it or drop it here, at most 1 MB", key=key, max_upload_size=1, help="Its name ends in .rig.json."
    )
    if sent is None:
        return
    if sent.size > files.LARGEST_BYTES:
        faults_view.beside(f"the file has {sent.size} bytes", "A rig file has at most 1 MB; a real one has a few kB.", sent.name)
        return
    try:
        found = files.faults_in(sent.getvalue(), sent.name)
        if not found:
            session.open_file(sent.getvalue(), sent.name)
    except RigcheckError as fault:
        faults_view.error(fault)
        return
    if not found:
        streamlit.rerun()
    streamlit.caption(escaped(f"{sent.name} cannot be used yet; the rig that was open stays. What is wrong with it:"))
    faults_view.listed(found[:_MOST_FAULTS])
    if len(found) > _MOST_FAULTS:
        streamlit.caption(f"and {len(found) - _MOST_FAULTS} more")


def _numbers() -> None:
    draft = session.draft()
    if draft.origin == ARRANGEMENT:
        streamlit.caption(ARRANGEMENTS[draft.arrangement].about)
        arrangement_form.show()
        _tell_what_is_put_in(draft)
        return
    if draft.origin == draft_parts.OWN:
        streamlit.caption(draft_parts.FORM_IS_GONE)
    streamlit.caption(escaped(str(draft.data.get("about") or "")))
    if draft.origin == SCRATCH:
        for name in draft.at(("ropes",)) or {}:
            rope_path.show(("ropes", name), session.standing().faults, with_notes=False)
        rope_path.show_another()
    few_numbers.show(session.standing().faults)
    rope_condition.show()
    if draft.origin != SCRATCH:  # there the sentence of each rope tells it
        _tell_what_is_put_in(draft)
    streamlit.page_link("change_parts.py", label="Every part of it can be changed under Change parts")


def _tell_what_is_put_in(draft: Draft) -> None:
    """What a form put in by itself, or an eye placed on the drawing, and nobody has stated yet."""
    if waiting := [in_words(path) for path in form_notes.waiting(draft.data)]:
        streamlit.caption(
            escaped(
                f"Guessed by the form or placed by eye, and not measured yet: {'; '.join(waiting)}. Give them under Change parts; the report lists them."
            )
        )
