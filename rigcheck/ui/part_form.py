"""The form of one part: one labelled input for every field of its model, in the draft's own words, each fault beside its field.

Whatever may come and go has a container of its own: an input that changes its place in the page is made anew and loses what is being typed.
"""

from __future__ import annotations

import streamlit
from pydantic import BaseModel

from rigcheck.rig.faults import Fault
from rigcheck.ui import faults_view, session
from rigcheck.ui import model_fields as kinds
from rigcheck.ui.draft import Path
from rigcheck.ui.field_words import Words, with_unit_in_label, words_for
from rigcheck.ui.model_fields import ModelField, fields_of
from rigcheck.ui.offers import UNKNOWN, offers, title_of
from rigcheck.ui.plain_text import escaped
from rigcheck.ui.typed import plain_number, with_unit

_STEPS = ("across", "up", "depth")
_SIZES = ("width", "height")
_ROW = 3
_WIDE = (kinds.PLACE, kinds.DIRECTION, kinds.SIZE)
_NESTED = (kinds.PART, kinds.PARTS, kinds.NAMED_PARTS)
_TRUTHS = {"yes": True, "no": False}


def show(model: type[BaseModel], path: Path, faults: list[Fault], *, with_notes: bool = False) -> None:
    """Every field of the part at a path of the draft, three in a row; places have a row of their own."""
    row: list[ModelField] = []
    for field in fields_of(model):
        if field.kind in _NESTED or _is_beside_the_point(model, path, field):
            continue
        if field.kind in _WIDE or field.kind == kinds.PLACES:
            _show_row(model, path, row, faults, with_notes)
            row = []
            _show_place(model, path, field, faults, with_notes)
        else:
            row.append(field)
            if len(row) == _ROW:
                _show_row(model, path, row, faults, with_notes)
                row = []
    _show_row(model, path, row, faults, with_notes)


def key_of(path: Path) -> str:
    """The key of the input of a field."""
    return f"{session.generation()}: {' / '.join(map(str, path))}"


def _is_beside_the_point(model: type[BaseModel], path: Path, field: ModelField) -> bool:
    """A fibre rope has no wires, a steel rope no material; what is stated all the same is shown."""
    if model.__name__ != "Rope" or session.draft().at((*path, field.name)) is not None:
        return False
    kind = session.draft().at((*path, "kind"))
    return field.name in {"fibre": ("construction", "grade"), "steel": ("material",)}.get(kind, ())


def _show_row(model, path: Path, row: list[ModelField], faults: list[Fault], with_notes: bool) -> None:
    if not row:
        return
    for field, column in zip(row, streamlit.columns(_ROW), strict=False):
        with column:
            with streamlit.container():
                _show_field(model, path, field)
                faults_view.of_field(faults, (*path, field.name))
            if with_notes:
                _note(path, field.name, words_for(model.__name__, field))


def _show_field(model, path: Path, field: ModelField) -> None:
    own, words = (*path, field.name), words_for(model.__name__, field)
    offered = offers(session.draft(), model.__name__, path, field)
    if offered is not None:
        _select(own, field, words, offered)
    elif field.kind == kinds.TRUTH:
        _select(own, field, words, list(_TRUTHS))
    else:
        _text(own, field, words)


def _shown_text(path: Path, field: ModelField) -> str:
    """What the field shows: the text of the draft, or the default of a field that is left out."""
    return session.draft().shown(path) or ("" if field.default is None else str(field.default))


def _shown_choice(path: Path, field: ModelField) -> str | None:
    stands = session.draft().at(path)
    stands = field.default if stands is None and not field.is_optional else stands
    if stands is None:
        return UNKNOWN if field.is_optional else None
    return {True: "yes", False: "no"}.get(stands, str(stands)) if field.kind == kinds.TRUTH else str(stands)


def _typed(key: str) -> str | None:
    """What was typed into an input; None for one that has left the page, whose change may still be called out."""
    text = session.entered(key)
    return None if text is None else text.strip()


def _text(path: Path, field: ModelField, words: Words) -> None:
    key, shown = key_of(path), _shown_text(path, field)
    what = with_unit_in_label(words.label, words.unit)
    if field.name == "about":
        streamlit.text_area(
            what, shown, key=key, help=words.help or None, on_change=_read_text, args=(key, path, field, words.unit), max_chars=2000
        )
        return
    streamlit.text_input(what, shown, key=key, help=words.help or None, placeholder=UNKNOWN if field.is_optional else None,
                         on_change=_read_text, args=(key, path, field, words.unit))  # fmt: skip


def _read_text(key: str, path: Path, field: ModelField, unit: str) -> None:
    text = _typed(key)
    if text is None or text == _shown_text(path, field):
        return
    if not text:
        may_go = field.is_optional or field.default is not None
        session.edit(path, None if may_go else "")
    elif field.kind == kinds.NUMBER:
        session.edit(path, plain_number(text), text)
    elif field.kind == kinds.QUANTITY:
        session.edit(path, with_unit(text, unit), text)
    else:
        session.edit(path, text)


def _select(path: Path, field: ModelField, words: Words, offered: list[str]) -> None:
    key, stands = key_of(path), _shown_choice(path, field)
    options = ([UNKNOWN] if field.is_optional else []) + offered
    if stands is not None and stands not in options:
        options.append(stands)
    index = options.index(stands) if stands is not None else None
    streamlit.selectbox(words.label, options, index=index, key=key, help=words.help or None, format_func=title_of(path[-1]),
                        on_change=_read_choice, args=(key, path, field))  # fmt: skip


def _read_choice(key: str, path: Path, field: ModelField) -> None:
    chosen = session.entered(key)
    if chosen is None or chosen == _shown_choice(path, field):
        return
    value = None if chosen == UNKNOWN else _TRUTHS.get(chosen, chosen) if field.kind == kinds.TRUTH else chosen
    session.edit(path, value)


def _show_place(model, path: Path, field: ModelField, faults: list[Fault], with_notes: bool) -> None:
    words = words_for(model.__name__, field)
    if field.kind == kinds.PLACES:
        for name in session.draft().at((*path, field.name)) or {}:
            label = Words(f"{words.label}: {escaped(name)}", words.unit, words.help)
            _steps((*path, field.name, name), field, label, _STEPS, ["0 m", "0 m"], faults)
    else:
        names = _SIZES if field.kind == kinds.SIZE else _STEPS
        _steps((*path, field.name), field, words, names, list(field.default or ["", ""]), faults)
    if with_notes:
        _note(path, field.name, words)


def _steps(path: Path, field: ModelField, words: Words, names: tuple[str, ...], otherwise: list, faults: list[Fault]) -> None:
    with streamlit.container():
        _steps_in_a_row(path, field, words, names, otherwise, faults)
        for fault in faults:
            if fault.path == path:
                faults_view.beside(fault.wrong, fault.right)


def _steps_in_a_row(path: Path, field: ModelField, words: Words, names: tuple[str, ...], otherwise: list, faults: list[Fault]) -> None:
    for index, (name, column) in enumerate(zip(names, streamlit.columns(_ROW), strict=False)):
        own = (*path, index)
        stands = _shown_step(path, index, otherwise)
        may_go = index == 2 or field.is_optional
        with column:
            streamlit.text_input(with_unit_in_label(f"{words.label}, {name}", words.unit), stands, key=key_of(own), help=words.help or None,
                                 placeholder="left out" if may_go else None, on_change=_read_step, args=(key_of(own), path, index, field.kind, words.unit, otherwise))  # fmt: skip
            faults_view.of_field(faults, own)


def _shown_step(path: Path, index: int, otherwise: list) -> str:
    draft = session.draft()
    if (*path, index) in draft.typed:
        return draft.typed[*path, index]
    whole = draft.at(path) or otherwise
    return _as_text(whole[index]) if index < len(whole) else ""


def _as_text(value) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value)


def _read_step(key: str, path: Path, index: int, kind: str, unit: str, otherwise: list) -> None:
    text = _typed(key)
    if text is None or text == _shown_step(path, index, otherwise):
        return
    value = plain_number(text) if kind == kinds.DIRECTION and text else with_unit(text, unit)
    whole = session.draft().at(path) or otherwise  # as it stands now: another step may have been typed meanwhile
    session.edit_step(path, index, value, text, [_as_plain(step, kind) for step in whole])


def _as_plain(step, kind: str):
    return step if kind == kinds.DIRECTION else str(step)


def _note(path: Path, name: str, words: Words) -> None:
    own = (*path, "notes", name)
    streamlit.text_input(f"Where from: {words.label}", session.draft().shown(own), key=key_of(own), max_chars=400,
                         placeholder="weighed, certificate, marking, guess …", on_change=_read_note, args=(key_of(own), own))  # fmt: skip


def _read_note(key: str, path: Path) -> None:
    text = _typed(key)
    if text is not None and text != session.draft().shown(path):
        session.edit(path, text or None)
