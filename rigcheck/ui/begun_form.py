"""The small form of a part that is begun: what must be known before it joins the rig, and nothing else."""

from __future__ import annotations

import streamlit

from rigcheck import units
from rigcheck.report.field_words import often, with_unit_in_label
from rigcheck.rig.arrangements.inputs import UNKNOWN
from rigcheck.ui import begun_parts, faults_view, finding_out, part_choice, session
from rigcheck.ui.begun_parts import CHOICE, TEXT, TRUTH, Ask
from rigcheck.ui.draft import Path
from rigcheck.ui.plain_text import escaped

_ROW = 3


def show(path: Path) -> None:
    """One input for each thing that must be known; the rig stays as it is until the last of them is given."""
    draft = session.draft()
    asks, faults, left = begun_parts.asked(draft, path), begun_parts.faults(draft, path), begun_parts.missing(draft, path)
    title = begun_parts.title(path)
    streamlit.markdown(f"#### Describe {escaped(title)}")
    still = (
        f"still to be given: {', '.join(ask.label.lower() for ask in left)}" if left else "what is told beside a field stands in the way"
    )
    streamlit.caption(
        escaped(f"It joins the rig when {_these(len(asks))} given; {still}. What was typed is kept. {begun_parts.consequence(draft, path)}")
    )
    for start in range(0, len(asks), _ROW):
        for ask, column in zip(asks[start : start + _ROW], streamlit.columns(_ROW, vertical_alignment="bottom"), strict=False):
            with column, streamlit.container():
                _input(path, ask)
                if ask.key in faults:
                    faults_view.beside(*faults[ask.key])
    streamlit.button(escaped(f"Leave {title} out"), key=f"forget {path}", on_click=_forget, args=(path,))


def _these(many: int) -> str:
    words = {1: "this one field is", 2: "these two fields are", 3: "these three fields are", 4: "these four fields are"}
    return words.get(many, f"these {many} fields are")


def _input(path: Path, ask: Ask) -> None:
    key = f"begun {session.opened()} {path} {ask.key}"
    shown, form = begun_parts.text_of(session.draft(), path, ask.key), begun_parts.form_of(path).__name__
    usual, way = often(form, ask.field), finding_out.way(form, ask.field)
    about = " ".join(
        text for text in (ask.help, f"{usual[:1].upper()}{usual[1:]}." if usual else "", f"How to find out: {way}" if way else "") if text
    )
    if ask.how in (CHOICE, TRUTH):
        options = (UNKNOWN, *ask.options)
        index = options.index(shown) if shown in options else None
        streamlit.selectbox(
            ask.label,
            options,
            index=index,
            key=key,
            help=about or None,
            placeholder="Choose",
            on_change=_give,
            args=(path, ask.key, key),
        )
    elif ask.how == TEXT:
        unit = units.label(ask.unit)
        streamlit.text_input(with_unit_in_label(ask.label, unit), shown, key=key, help=about or None, placeholder=UNKNOWN,
                             on_change=_give, args=(path, ask.key, key, unit))  # fmt: skip


def _give(path: Path, ask: str, key: str, unit: str = "") -> None:
    text = session.entered(key)
    text = "" if text is None or text.strip().lower() == UNKNOWN.lower() else text.strip()
    draft = session.draft()
    if path not in begun_parts.begun(draft) or text == begun_parts.text_of(draft, path, ask):
        return
    after = begun_parts.given(draft, path, ask, text, unit)
    session.put(after)
    if path not in begun_parts.begun(after):
        _open_joined(path)


def _open_joined(path: Path) -> None:
    if path == begun_parts.GEAR:
        part_choice.open_one(("drive", "gears", len(session.draft().at(("drive", "gears"))) - 1))
    elif path == begun_parts.WINCH:
        part_choice.open_one(("drive", "drum"))


def _forget(path: Path) -> None:
    session.put(begun_parts.forgotten(session.draft(), path))
    part_choice.open_one(path[:1])
