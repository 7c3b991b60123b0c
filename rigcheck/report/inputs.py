"""Every field of a rig as it was typed, in the words of the forms, with its note: what a report rests on."""

from __future__ import annotations

from dataclasses import dataclass

from pydantic import BaseModel

from rigcheck.report.field_words import title_of
from rigcheck.report.path_words import label
from rigcheck.rig.model import Rig
from rigcheck.units import Quantity

NOT_TYPED = "not typed: left at this"
_LEFT_OUT = {"format", "notes"}
_SAID = {
    "made_fast_to": "made fast to {}", "pick": "at its {}", "fitting": "with {}", "over": "over {}", "turns": "{}", "wound_on": "wound on the {}",
    "pulled_by_hand_at": "pulled by hand at {}",
}  # fmt: skip


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
            _fields(drive, {n for n in type(drive).model_fields if n == "kind" or isinstance(getattr(drive, n), BaseModel | tuple)}),
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
    """The fields of a part as the forms call them; the stops of a rope each stand on a line of their own."""
    found = []
    for name in type(part).model_fields:
        value = getattr(part, name)
        if name in left_out or name in _LEFT_OUT or value is None or value in ("", {}, ()):
            continue
        note = part.notes.get(name, "") or ("" if name in part.model_fields_set else NOT_TYPED)
        if name == "path":
            found += [Field(f"stop {number}", _stop(stop), _notes(stop)) for number, stop in enumerate(value, 1)]
        elif name == "moves":
            found.append(Field("how it moves", value.kind, note))
            found += _fields(value, {"kind"})
        else:
            found.append(Field(label(type(part), name), title_of(name)(value) if isinstance(value, str) else _told(name, value), note))
    return found


def _stop(stop: BaseModel) -> str:
    """A stop of a rope as its sentence says it."""
    parts = []
    for name in type(stop).model_fields:
        value = getattr(stop, name)
        if name == "notes" or value is None:
            continue
        told = _told(name, value)
        parts.append(_SAID[name].format(told) if name in _SAID else f"{label(type(stop), name)} {told}")
    return ", ".join(parts)


def _notes(part: BaseModel) -> str:
    return "; ".join(f"{label(type(part), name)}: {note}" for name, note in part.notes.items())


def _told(name: str, value) -> str:
    if isinstance(value, Quantity):
        return as_typed(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.10g}"
    if isinstance(value, tuple) and value and all(isinstance(inner, Quantity) for inner in value):
        typed, told = (_along(name, texts) for texts in ([inner.text for inner in value], list(map(str, value))))
        return typed if told == typed else f"{typed} = {told}"
    if isinstance(value, tuple | list):
        return _along(name, [_told(name, inner) for inner in value])
    if isinstance(value, dict):
        return "; ".join(f"{key}: {_told(name, inner)}" for key, inner in value.items())
    return str(value)


def _along(name: str, steps: list[str]) -> str:
    """Numbers of several steps, each with its way: "0.4 m across, 2.6 m up"."""
    ways = ("wide", "high") if name == "size" else ("across", "up", "in depth")
    return ", ".join(f"{step} {way}" for step, way in zip(steps, ways, strict=False))
