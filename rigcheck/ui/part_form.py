"""The form of one part: one labelled input for every field of its model, in the draft's own words, three in a row; places have a row of their own."""

from __future__ import annotations

import streamlit
from pydantic import BaseModel

from rigcheck.rig.faults import Fault
from rigcheck.ui import draft_parts, fault_words, faults_view, field_input, session
from rigcheck.ui import model_fields as kinds
from rigcheck.ui.draft import Path
from rigcheck.ui.field_input import Form, key_of
from rigcheck.ui.model_fields import ModelField, fields_of, in_form_order

__all__ = ["key_of", "show", "show_one"]

STEPS = ("across", "up", "depth")
_SIZES = ("width", "height")
_ROW = 3
_ELSEWHERE = {("Guided", "tilts")}  # told by how the body moves
_OF_STEEL, _OF_FIBRE = ("construction", "grade"), ("material",)
_OF_SHARING = ("modulus", "metal_area")


def show(model: type[BaseModel], path: Path, faults: list[Fault], *, with_notes: bool = False, only: tuple[str, ...] | None = None) -> None:
    """Every field of the part at a path of the draft, or only those named."""
    form = Form(model, path, faults)
    row: list[ModelField] = []
    for field in in_form_order(model):
        if (model.__name__, field.name) in _ELSEWHERE or _is_beside_the_point(model, path, field):
            continue
        if only is not None and field.name not in only:
            continue
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
    field_input.show(Form(model, path, faults, of_what), field)


def show_place(form: Form, field: ModelField, path: Path, label: str, otherwise: list | None = None) -> None:
    """A place, a direction or a size: one input for each of its steps, side by side."""
    names = _SIZES if field.kind == kinds.SIZE else STEPS
    stands_for = list(field.default or ["", ""]) if otherwise is None else otherwise
    for index, (name, column) in enumerate(zip(names, streamlit.columns(_ROW), strict=False)):
        with column:
            field_input.show_step(form, path, index, f"{label}, {name}", field, stands_for, index == 2 or field.is_optional)
    with streamlit.container():
        for fault in form.faults:
            if fault_words.path_of(fault) == path:
                faults_view.beside(fault_words.wrong(fault), fault_words.right(fault))


def _is_beside_the_point(model: type[BaseModel], path: Path, field: ModelField) -> bool:
    """A fibre rope has no wires, a steel rope no material, a worm alone has angles; what is stated all the same is shown."""
    draft = session.draft()
    if draft.at((*path, field.name)) is not None:
        return False
    kind = draft.at((*path, "kind"))
    if model.__name__ == "Limits" and field.name in ("travel", "swing"):
        return (field.name == "swing") != draft_parts.swings(draft)
    if model.__name__ == "Rope":
        if field.name in _OF_SHARING and kind == "fibre":
            return len(draft.at(("ropes",)) or {}) < 2
        return field.name in {"fibre": _OF_STEEL, "steel": _OF_FIBRE}.get(kind, ())
    return model.__name__ == "Gear" and kind != "worm" and field.name in ("lead_angle", "pressure_angle", "friction", "friction_lowest")


def _show_row(form: Form, row: list[ModelField], with_notes: bool) -> None:
    if not row:
        return
    for field, column in zip(row, streamlit.columns(_ROW), strict=False):
        with column:
            field_input.show(form, field)
            if with_notes:
                field_input.show_note(form, field)
