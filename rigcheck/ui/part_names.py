"""Names of parts on the page: give another, take a part out, begin a new one. A refusal is told beside the field, and what was typed stays."""

from __future__ import annotations

import streamlit

from rigcheck.rig.fields import FieldError
from rigcheck.ui import begun_parts, draft_parts, faults_view, part_choice, session
from rigcheck.ui.draft import Draft, Path
from rigcheck.ui.plain_text import escaped, in_html

_REFUSED, _FOLLOWED = "name refused", "name followed"
_MOST_TOLD = 300


def rename(path: Path) -> None:
    """The name of a part, to be changed; everything that refers to it follows."""
    section, name = path
    key = f"{session.generation()}: name of {section} {name}"
    with streamlit.container():
        streamlit.text_input(f"Name of this {draft_parts.KINDS[section]}", name, key=key, max_chars=60, on_change=_rename, args=(path, key),
                             help=_about_names())  # fmt: skip
        _tell(key)
        _tell_of_the_form()


def _about_names() -> str:
    follows = "Everything that refers to it follows the name."
    is_arranged = session.draft().arrangement is not None
    return f"{follows} The form of the arrangement under Begin does not: the rig is then one of its own." if is_arranged else follows


def _tell_of_the_form() -> None:
    if session.remembered(_FOLLOWED) is session.draft():
        streamlit.html(f'<p class="rc-stale" role="status">{in_html(draft_parts.FORM_IS_GONE)}</p>')


def _rename(path: Path, key: str) -> None:
    typed = session.entered(key)
    if typed is None:
        return
    section, name = path
    new = typed.strip()
    try:
        draft = draft_parts.renamed(session.draft(), section, name, new)
    except FieldError as fault:
        session.remember(_REFUSED, (key, fault.wrong, fault.right))
        return
    session.remember(_REFUSED, None)
    if new != name:
        _put(draft)
        part_choice.open_one((section, new))


def _put(renamed: Draft) -> None:
    """Take over a draft in which a part has another name, and tell where the form of its arrangement went with the old one."""
    was_arranged = session.draft().arrangement is not None
    session.put(renamed)
    session.remember(_FOLLOWED, renamed if was_arranged and renamed.arrangement is None else None)


def remove(path: Path) -> None:
    """Take a part out, with what follows from it; one that is still needed says by whom."""
    section, name = path
    found = draft_parts.users(session.draft(), section, name)
    kind = draft_parts.KINDS[section]
    is_needed = bool(found) and section in (draft_parts.POINTS, draft_parts.BODIES, draft_parts.STRUTS)
    with streamlit.container():
        streamlit.button(
            f"Remove this {kind}", key=f"remove {session.generation()} {section}", on_click=_remove, args=(path,), disabled=is_needed
        )
        if found:
            after = {
                draft_parts.SHEAVES: "Removed, it is taken out of the rope's path as well.",
                draft_parts.ROPES: "Removed, nothing holds that any more.",
            }.get(section, "It can be removed when these are changed first.")
            streamlit.caption(escaped(f"{_sentence(found)}. {after}"))


def _sentence(found: list[str]) -> str:
    text = "; ".join(found)
    text = text if len(text) <= _MOST_TOLD else f"{text[:_MOST_TOLD]} …"
    return text[:1].upper() + text[1:]


def _remove(path: Path) -> None:
    try:
        session.put(draft_parts.removed(session.draft(), *path))
    except FieldError as fault:
        session.remember(_REFUSED, (f"remove {path[0]}", fault.wrong, fault.right))
        return
    part_choice.open_one((path[0],))


def begin(section: str) -> None:
    """Begin a new part of a section by giving it a name."""
    kind, key = draft_parts.KINDS[section], f"{session.opened()} new {section} {session.remembered('begun so far', 0)}"
    with streamlit.container():
        streamlit.text_input(f"Add a {kind}: its name", "", key=key, max_chars=60, placeholder=f"such as {draft_parts.free_name(session.draft(), _WISHES[section])}",
                             on_change=_begin, args=(section, key))  # fmt: skip
        _tell(key)


_WISHES = {"points": "second hook", "struts": "back stay", "bodies": "counterweight", "sheaves": "lead sheave"}


def _begin(section: str, key: str) -> None:
    name = (session.entered(key) or "").strip()
    if not name:
        session.remember(_REFUSED, None)
        return
    try:
        draft = begun_parts.begin(session.draft(), (section, name))
    except FieldError as fault:
        session.remember(_REFUSED, (key, fault.wrong, fault.right))
        return
    session.remember(_REFUSED, None)
    session.remember("begun so far", session.remembered("begun so far", 0) + 1)
    session.put(draft)
    part_choice.open_one((section, name))


def rename_eye(body: str, eye: str) -> None:
    """The name of an eye of a body."""
    key = f"{session.generation()}: eye {body} / {eye}"
    with streamlit.container():
        streamlit.text_input("Name of this eye", eye, key=key, max_chars=60, on_change=_rename_eye, args=(body, eye, key))
        _tell(key)


def _rename_eye(body: str, eye: str, key: str) -> None:
    typed = session.entered(key)
    if typed is None:
        return
    try:
        draft = draft_parts.pick_renamed(session.draft(), body, eye, typed.strip())
    except FieldError as fault:
        session.remember(_REFUSED, (key, fault.wrong, fault.right))
        return
    session.remember(_REFUSED, None)
    if typed.strip() != eye:
        _put(draft)


def add_eye(body: str) -> None:
    """One more eye of a body, by its name."""
    key = f"{session.generation()}: new eye {body}"
    with streamlit.container():
        streamlit.text_input(
            "Add an eye or hook: its name", "", key=key, max_chars=60, placeholder="such as left eye", on_change=_add_eye, args=(body, key)
        )
        _tell(key)


def _add_eye(body: str, key: str) -> None:
    name = (session.entered(key) or "").strip()
    if not name:
        return
    try:
        session.put(draft_parts.pick_added(session.draft(), body, name))
    except FieldError as fault:
        session.remember(_REFUSED, (key, fault.wrong, fault.right))


def _tell(key: str) -> None:
    refused = session.remembered(_REFUSED)
    if refused is not None and refused[0] == key:
        faults_view.beside(refused[1], refused[2])
