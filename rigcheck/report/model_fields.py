"""What kind of field each field of the rig's model is, read off the model itself."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from types import UnionType
from typing import Annotated, Literal, Union, get_args, get_origin

from pydantic import BaseModel, WithJsonSchema
from pydantic.fields import FieldInfo

from rigcheck import units
from rigcheck.units import Quantity

QUANTITY, NUMBER, TRUTH, CHOICE, TEXT, PLACE, DIRECTION, PLACES, SIZE, PART, PARTS, NAMED_PARTS = (
    "quantity", "number", "truth", "choice", "text", "place", "direction", "places", "size", "part", "parts", "named parts",
)  # fmt: skip
_TUPLES = {
    "at": PLACE,
    "offset": PLACE,
    "centre_of_gravity": PLACE,
    "base": PLACE,
    "hinge": PLACE,
    "lower_shoe": PLACE,
    "pulled_by_hand_at": PLACE,
    "along": DIRECTION,
    "axis": DIRECTION,
    "size": SIZE,
}

WIDE = (PLACE, DIRECTION, SIZE)  # fields of several steps, each with an input of its own


@dataclass(frozen=True)
class ModelField:
    """One field: its name, its kind, whether it may be left out, and what it offers."""

    name: str
    kind: str
    is_optional: bool
    choices: tuple[str, ...] = ()
    quantity_kind: str = ""
    default: object = None
    model: type[BaseModel] | None = None


@cache
def fields_of(model: type[BaseModel]) -> tuple[ModelField, ...]:
    """The fields of a part in the order of the model, without its notes and what tells the forms apart."""
    return tuple(
        _field(name, info) for name, info in model.model_fields.items() if name not in ("notes", "format") and not _tells_forms_apart(info)
    )


@cache
def in_form_order(model: type[BaseModel]) -> tuple[ModelField, ...]:
    """The fields that a form shows by themselves, those of several steps after the others; parts within the part have forms of their own."""
    own = [field for field in fields_of(model) if field.kind not in (PART, PARTS, NAMED_PARTS, PLACES)]
    return tuple(sorted(own, key=lambda field: field.kind in WIDE))


def _tells_forms_apart(info: FieldInfo) -> bool:
    return get_origin(info.annotation) is Literal and len(get_args(info.annotation)) == 1


def _field(name: str, info: FieldInfo) -> ModelField:
    annotation, marks = info.annotation, list(info.metadata)
    optional = False
    if get_origin(annotation) in (Union, UnionType) and type(None) in get_args(annotation):
        optional = True
        annotation = next(a for a in get_args(annotation) if a is not type(None))
    while get_origin(annotation) is Annotated:
        annotation, *more = get_args(annotation)
        marks += more
    default = None if info.is_required() else info.get_default()
    kind, choices, quantity_kind = _kind(name, annotation, marks)
    inner = annotation if isinstance(annotation, type) and issubclass(annotation, BaseModel) else None
    return ModelField(name, kind, optional, choices, quantity_kind, default, inner)


def _kind(name: str, annotation, marks: list) -> tuple[str, tuple[str, ...], str]:
    if name in _TUPLES:
        return _TUPLES[name], (), ""
    if annotation is Quantity:
        example = next(m.json_schema["examples"][0] for m in marks if isinstance(m, WithJsonSchema))
        return QUANTITY, (), next(kind for kind, about in units.KINDS.items() if about.example == example)
    if annotation in (float, int):
        return NUMBER, (), ""
    if annotation is bool:
        return TRUTH, (), ""
    if get_origin(annotation) is Literal:
        return CHOICE, get_args(annotation), ""
    if annotation is str:
        return TEXT, (), ""
    if get_origin(annotation) is dict:
        inner = get_args(annotation)[1]
        return (NAMED_PARTS if isinstance(inner, type) and issubclass(inner, BaseModel) else PLACES), (), ""
    return (PARTS if get_origin(annotation) is tuple else PART), (), ""
