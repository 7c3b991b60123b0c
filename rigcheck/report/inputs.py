"""Every field of a rig as it was typed, with its note: what a report rests on."""

from __future__ import annotations

from dataclasses import dataclass

from pydantic import BaseModel

from rigcheck.rig.model import Rig
from rigcheck.units import Quantity

NOT_TYPED = "not typed: left at this"
_LEFT_OUT = {"format", "notes"}


@dataclass(frozen=True)
class Field:
    """One field: its name, its value as typed, its note, whether nobody typed it."""

    name: str
    value: str
    note: str


@dataclass(frozen=True)
class Group:
    """The fields of one part."""

    title: str
    fields: list[Field]


def groups(rig: Rig) -> list[Group]:
    """The parts of a rig in the order of its file; what is not stated is left out."""
    found = [_group("body", name, body) for name, body in rig.bodies.items()]
    building = {"held"} if not rig.struts else frozenset()  # without struts there is nothing else that could hold a point
    found += [Group(f"point: {name}", _fields(point, building)) for name, point in rig.points.items()]
    found += [_group("strut", name, strut) for name, strut in rig.struts.items()]
    found += [_group("sheave", name, sheave) for name, sheave in rig.sheaves.items()]
    found += [_group("rope", name, rope) for name, rope in rig.ropes.items()]
    found += _drive_groups(rig)
    return [*found, _group("", "limits", rig.limits), _group("", "basis", rig.basis)]


def _drive_groups(rig: Rig) -> list[Group]:
    drive = rig.drive
    found = [
        Group(
            f"drive: {drive.kind}",
            _fields(drive, {n for n in type(drive).model_fields if isinstance(getattr(drive, n), BaseModel | tuple)}),
        )
    ]
    for name in type(drive).model_fields:
        part = getattr(drive, name)
        if isinstance(part, BaseModel):
            found.append(_group("drive", name, part))
        elif isinstance(part, tuple):
            found += [_group("drive", f"gear stage {number}, {stage.kind}", stage) for number, stage in enumerate(part, 1)]
    return [group for group in found if group.fields]


def as_typed(quantity: Quantity) -> str:
    """What was typed; where that is in other units than are shown, what it comes to beside it.

    >>> from rigcheck import units
    >>> with units.shown_in(units.US):
    ...     as_typed(units.read("8 kN", "force")), as_typed(units.read("250 lb", "mass"))
    ('8 kN = 1798 lbf', '250 lb')
    """
    return quantity.text if str(quantity) == quantity.text else f"{quantity.text} = {quantity}"


def _group(kind: str, name: str, part: BaseModel) -> Group:
    return Group(f"{kind}: {name}" if kind else name, _fields(part))


def _fields(part: BaseModel, left_out: set[str] | frozenset[str] = frozenset()) -> list[Field]:
    """The fields of a part; the stops of a rope each stand on a line of their own."""
    found = []
    for name in type(part).model_fields:
        value = getattr(part, name)
        if name in left_out or name in _LEFT_OUT or value is None or value in ("", {}, ()):
            continue
        note = part.notes.get(name, "") or ("" if name in part.model_fields_set else NOT_TYPED)
        if name == "path":
            found += [Field(f"stop {number}", _stop(stop), _notes(stop)) for number, stop in enumerate(value, 1)]
        else:
            found.append(Field(name.replace("_", " "), _told(value), note))
    return found


def _stop(stop: BaseModel) -> str:
    parts = []
    for name in type(stop).model_fields:
        value = getattr(stop, name)
        if name != "notes" and value is not None:
            parts.append(f"{name.replace('_', ' ')} {_told(value)}")
    return ", ".join(parts)


def _notes(part: BaseModel) -> str:
    return "; ".join(f"{name.replace('_', ' ')}: {note}" for name, note in part.notes.items())


def _told(value) -> str:
    if isinstance(value, Quantity):
        return as_typed(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.10g}"
    if isinstance(value, tuple) and value and all(isinstance(inner, Quantity) for inner in value):
        typed, told = (f"({', '.join(texts)})" for texts in ([inner.text for inner in value], map(str, value)))
        return typed if told == typed else f"{typed} = {told}"
    if isinstance(value, tuple | list):
        return "(" + ", ".join(_told(inner) for inner in value) + ")"
    if isinstance(value, dict):
        return "; ".join(f"{name} {_told(inner)}" for name, inner in value.items())
    if isinstance(value, BaseModel):
        return ", ".join(
            _told(getattr(value, n)) if n == "kind" else f"{n.replace('_', ' ')} {_told(getattr(value, n))}"
            for n in type(value).model_fields
            if n != "notes"
        )
    return str(value)
