"""The form of one part: one labelled input for every field of its model, in the draft's own words, three in a row; places have a row of their own."""

from __future__ import annotations

from dataclasses import replace

import streamlit
from pydantic import BaseModel

from rigcheck.report import model_fields as kinds
from rigcheck.report.model_fields import ModelField, fields_of, in_form_order
from rigcheck.rig.faults import Fault
from rigcheck.ui import fault_words, faults_view, field_input, session
from rigcheck.ui.asked_fields import is_asked
from rigcheck.ui.draft import Path
from rigcheck.ui.field_input import Form, key_of

__all__ = ["key_of", "show", "show_one"]

STEPS = ("across", "up", "depth")
_SIZES = ("width", "height")
_ROW = 3


def show(model: type[BaseModel], path: Path, faults: list[Fault], *, with_notes: bool = False, only: tuple[str, ...] | None = None) -> None:
    """Every field of the part at a path of the draft, or only those named."""
    form = Form(model, path, faults)
    row: list[ModelField] = []
    for field in in_form_order(model):
        if not is_asked(session.draft(), model, path, field.name) or (only is not None and field.name not in only):
            continue
        field = may_be_unknown(field)
        if field.kind in kinds.WIDE:
            _show_row(form, row, with_notes)
            row = []
            show_place(form, field, (*path, field.name), form.words(field).label)
            if with_notes:
                field_input.show_note(form, field)
        else:
            row.append(field)
            if len(row) == _ROW:
                _show_row(form, row, with_notes)
                row = []
    _show_row(form, row, with_notes)
    with streamlit.container():
        for fault in faults:  # what belongs to the part as a whole
            if fault_words.path_of(fault) == path:
                faults_view.beside(fault_words.wrong(fault), fault_words.right(fault))


def show_one(model: type[BaseModel], path: Path, name: str, faults: list[Fault], of_what: str = "") -> None:
    """One field of a part; `of_what` names the part in the label where several parts stand side by side."""
    field = next(field for field in fields_of(model) if field.name == name)
    field_input.show(Form(model, path, faults, of_what), may_be_unknown(field))


def may_be_unknown(field: ModelField) -> ModelField:
    """The field, with "I don't know" among its options where it has some: beside one the rig needs, it is then told what waits for it."""
    is_chosen = field.kind == kinds.CHOICE or field.name in ("on", "one_end", "other_end")
    return replace(field, is_optional=True) if is_chosen and field.default is None else field


def show_place(form: Form, field: ModelField, path: Path, label: str, otherwise: list | None = None) -> None:
    """A place, a direction or a size: one input for each of its steps, side by side."""
    names = _SIZES if field.kind == kinds.SIZE else STEPS
    stands_for = list(field.default or ["", ""]) if otherwise is None else otherwise
    with streamlit.container(key=f"steps-{'-'.join(map(str, path))}"):  # side by side on the narrowest page too
        columns = streamlit.columns(_ROW, vertical_alignment="bottom")
    for index, (name, column) in enumerate(zip(names, columns, strict=False)):
        with column:
            field_input.show_step(form, path, index, f"{label}, {name}", field, stands_for, index == 2 or field.is_optional)
    with streamlit.container():
        for fault in form.faults:
            if fault_words.path_of(fault) == path:
                faults_view.beside(fault_words.wrong(fault), fault_words.right(fault))


def _show_row(form: Form, row: list[ModelField], with_notes: bool) -> None:
    if not row:
        return
    for field, column in zip(row, streamlit.columns(_ROW, vertical_alignment="bottom"), strict=False):
        with column:
            field_input.show(form, field)
            if with_notes:
                field_input.show_note(form, field)
