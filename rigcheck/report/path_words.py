"""A path into a rig in the words of the form: "hoist rope: Grade" for ("ropes", "hoist rope", "grade")."""

from __future__ import annotations

from pydantic import BaseModel

from rigcheck.report.field_words import words_for
from rigcheck.report.model_fields import fields_of
from rigcheck.rig import faults, model

Path = tuple[str | int, ...]

_NAMED = {"points": model.Point, "struts": model.Strut, "bodies": model.Body, "sheaves": model.Sheave, "ropes": model.Rope}
_IN_DRIVE = {
    "drum": model.Drum, "gears": model.Gear, "motor": model.Motor, "supply": model.Supply, "cable": model.Cable,
    "brake": model.Brake, "pawl": model.Pawl, "crank": model.Crank,
}  # fmt: skip
_ALONE = {"limits": (model.Limits, "limits"), "basis": (model.Demands, "basis")}


def in_words(path: Path) -> str:
    """The part and the field, as the form names them; a path of another kind is told step by step.

    >>> in_words(("ropes", "hoist rope", "grade")), in_words(("drive", "motor", "rated_torque"))
    ('hoist rope: rope grade', 'motor: rated torque')
    >>> in_words(("ropes", "hoist rope", "path", 0, "fitting")), in_words(("drive", "gears", 0, "ratio")), in_words(("drive", "brake"))
    ('hoist rope, stop 1: fitting or knot', 'gear stage 1: ratio', 'brake')
    """
    match path:
        case ("ropes", name, "path", int(stop), field):
            return f"{name}, stop {stop + 1}: {label(_stop_with(field), field)}"
        case ("bodies", name, "moves", field, *_) if isinstance(field, str):
            return f"{name}: {label(_moves_with(field), field)}"
        case (section, name, field, *_) if section in _NAMED and isinstance(field, str):
            return f"{name}: {label(_NAMED[section], field)}"
        case (section, name) if section in _NAMED:
            return str(name)
        case ("drive", "gears", int(stage)):
            return f"gear stage {stage + 1}"
        case ("drive", "gears", int(stage), field):
            return f"gear stage {stage + 1}: {label(model.Gear, field)}"
        case ("drive", part, field, *_) if part in _IN_DRIVE and isinstance(field, str):
            return f"{part}: {label(_IN_DRIVE[part], field)}"
        case ("drive", "people"):
            return "hand line: people"
        case ("drive", part) if isinstance(part, str):
            return "gear stages" if part == "gears" else part
        case (section, field, *_) if section in _ALONE:
            form, name = _ALONE[section]
            return f"{name}: {label(form, field)}"
    return faults.words(path)


def _stop_with(field: str) -> type[BaseModel]:
    return next((form for form in (model.MadeFast, model.Over, model.WoundOn, model.ByHand) if field in form.model_fields), model.MadeFast)


def _moves_with(field: str) -> type[BaseModel]:
    return next((form for form in (model.Hinged, model.Carried, model.Level) if field in form.model_fields), model.Guided)


def label(form: type[BaseModel], name: str) -> str:
    """A field of a part as its form calls it, to stand in a sentence.

    >>> label(model.Rope, "remaining_strength"), label(model.Motor, "rated_torque")
    ('share of strength left', 'rated torque')
    """
    field = next((field for field in fields_of(form) if field.name == name), None)
    words = words_for(form.__name__, field).label if field else name.replace("_", " ")
    return words[:1].lower() + words[1:]
