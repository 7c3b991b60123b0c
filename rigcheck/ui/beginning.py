"""How a rig begins: the pick of an arrangement, an example or a file, and the form of an arrangement's few numbers."""

from __future__ import annotations

import streamlit

from rigcheck.errors import RigcheckError
from rigcheck.rig import examples, files
from rigcheck.rig.arrangements import ARRANGEMENTS, Choice, Input
from rigcheck.rig.faults import words
from rigcheck.ui import faults_view, session
from rigcheck.ui.draft import answer_faults, label_unit
from rigcheck.ui.field_words import with_unit_in_label
from rigcheck.ui.plain_text import escaped

ARRANGEMENT, EXAMPLE, FILE = "an arrangement", "an example", "a rig file"


def pick() -> None:
    """The pick; what is open now stays open until another is picked."""
    draft = session.draft()
    ways = (ARRANGEMENT, EXAMPLE, FILE)
    way = streamlit.radio("Begin with", ways, index=ways.index(draft.origin) if draft else 0, key=f"way {session.opened()}", horizontal=True,
                          label_visibility="collapsed")  # fmt: skip
    if way == ARRANGEMENT:
        _pick_arrangement()
    elif way == EXAMPLE:
        _pick_example()
    else:
        _pick_file()


def _pick_arrangement() -> None:
    key = f"arrangement {session.opened()}"
    slugs = list(ARRANGEMENTS)
    now = session.draft().arrangement if session.draft() else None
    streamlit.radio("How is it rigged?", slugs, index=slugs.index(now) if now else None, key=key, format_func=lambda slug: ARRANGEMENTS[slug].title,
                    on_change=lambda: session.open_arrangement(session.entered(key)))  # fmt: skip
    if now:
        streamlit.caption(ARRANGEMENTS[now].about)
    else:
        streamlit.caption("Pick one: its numbers can be changed at once, every part of it later.")


def _pick_example() -> None:
    key = f"example {session.opened()}"
    names = examples.names()
    draft = session.draft()
    now = next(
        (name for name in names if draft and draft.origin == EXAMPLE and examples.example(name).name == draft.data.get("name")), None
    )
    streamlit.radio("Which scene?", names, index=names.index(now) if now else None, key=key, format_func=lambda name: escaped(examples.example(name).name),
                    on_change=lambda: session.open_example(session.entered(key)))  # fmt: skip
    if now:
        streamlit.caption(escaped(examples.about(now)))


def _pick_file() -> None:
    key = f"file {session.opened()}"
    sent = streamlit.file_uploader(
        "Rig file, at most 1 MB", key=key, max_upload_size=1, help="A file that was saved here, its name ends in .rig.json."
    )
    if sent is not None:
        if sent.size > files.LARGEST_BYTES:
            faults_view.beside(f"the file has {sent.size} bytes", "A rig file has at most 1 MB; a real one has a few kB.", sent.name)
            return
        try:
            session.open_file(sent.getvalue(), sent.name)
        except RigcheckError as fault:
            faults_view.error(fault)
            return
        streamlit.rerun()
    elif session.draft() is not None and session.draft().origin == FILE:
        streamlit.caption(escaped(f"Open: {session.draft().data.get('name', 'a rig')}"))


def answer_form() -> None:
    """The numbers of the arrangement, each with its fault beside it."""
    draft = session.draft()
    arrangement, found = ARRANGEMENTS[draft.arrangement], answer_faults(draft)
    streamlit.subheader("Its numbers")
    for item in arrangement.inputs:
        with streamlit.container():
            _input(item, draft.answers[item.key], found.get(item.key))
    for item in arrangement.choices:
        with streamlit.container():
            _choice(item, draft.answers[item.key], found.get(item.key))
    if "" in found:
        faults_view.error(found[""])
    _told_by_hand()


def _input(item: Input, text: str, fault: RigcheckError | None) -> None:
    key = _key(item.key)
    label = with_unit_in_label(item.label, label_unit(item.default))
    streamlit.text_input(label, text, key=key, help=item.help or None, on_change=_answer, args=(item.key, key))
    if fault is not None:
        faults_view.beside(fault.wrong, fault.right)


def _choice(item: Choice, chosen: str, fault: RigcheckError | None) -> None:
    key = _key(item.key)
    index = item.options.index(chosen)
    streamlit.selectbox(item.label, item.options, index=index, key=key, help=item.help or None, on_change=_answer, args=(item.key, key))
    if fault is not None:
        faults_view.beside(fault.wrong, fault.right)


def _key(answer: str) -> str:
    return f"answer {session.opened()} {answer}"


def _answer(answer: str, key: str) -> None:
    session.give_answer(answer, session.entered(key))


def _told_by_hand() -> None:
    draft = session.draft()
    by_hand = draft.changed_by_hand()
    if by_hand:
        shown = "; ".join(words(path) for path in by_hand[:8]) + (" …" if len(by_hand) > 8 else "")
        streamlit.caption(escaped(f"Changed by hand and kept as they are: {shown}"))
    if draft.dropped:
        streamlit.caption(escaped(f"These changes no longer have a place: {'; '.join(words(path) for path in draft.dropped)}"))
