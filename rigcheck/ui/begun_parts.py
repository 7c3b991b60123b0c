"""Parts that are begun but not complete: what was typed is kept in the draft, beside the rig, until what must be known is given; then the part joins.

So a half-filled form never stands in the way of the result. The texts are kept under the path ("begun", *path of the part, key).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from pydantic import BaseModel, ValidationError

from rigcheck.report import model_fields as kinds
from rigcheck.report.field_words import words_for
from rigcheck.report.model_fields import fields_of
from rigcheck.rig import faults as rig_faults
from rigcheck.rig import model
from rigcheck.ui import draft_parts, drive_change, fault_words
from rigcheck.ui.draft import Draft, Path
from rigcheck.ui.offers import offers
from rigcheck.ui.typed import plain_number, with_unit

BEGUN = "begun"
GEAR: Path = ("drive", "gears", "new")
WINCH: Path = ("drive", "winch")
TEXT, CHOICE, TRUTH = "text", "choice", "truth"
_SENSES = ("clockwise", "anticlockwise")
_IN_DRIVE: dict[str, type[BaseModel]] = {
    "motor": model.Motor, "crank": model.Crank, "supply": model.Supply, "cable": model.Cable, "brake": model.Brake, "pawl": model.Pawl,
    "gears": model.Gear, "winch": model.Drum,
}  # fmt: skip
_NAMED: dict[str, type[BaseModel]] = {"points": model.Point, "struts": model.Strut, "bodies": model.Body, "sheaves": model.Sheave}
INSTEAD = {"motor": "crank", "crank": "motor"}
_YES_NO = {"yes": True, "no": False}


@dataclass(frozen=True)
class Ask:
    """One thing that must be known before the part joins: its key, label, unit, help, how it is given, and what is offered."""

    key: str
    label: str
    unit: str
    help: str
    how: str
    options: tuple[str, ...] = ()
    field: str = ""


def form_of(path: Path) -> type[BaseModel]:
    """The form of the part that is begun at a path."""
    return _IN_DRIVE[path[1]] if path[0] == "drive" else _NAMED[path[0]]


def title(path: Path) -> str:
    """What is begun, in words.

    >>> title(("drive", "brake")), title(GEAR), title(WINCH), title(("sheaves", "lead sheave"))
    ('the brake', 'the new gear stage', 'the winch', 'sheave lead sheave')
    """
    if path[0] == "drive":
        return "the new gear stage" if path == GEAR else f"the {path[1]}"
    return f"{draft_parts.KINDS[path[0]]} {path[1]}"


def begun(draft: Draft) -> list[Path]:
    """The parts that are begun and have not joined, in the order they were begun."""
    return [path[1:] for path in draft.typed if path[:1] == (BEGUN,) and draft.typed[path] == BEGUN]


def begin(draft: Draft, path: Path) -> Draft:
    """Begin a part; one that asks for nothing joins at once. FieldError for a name that cannot be used."""
    if path[0] in _NAMED:
        draft_parts.added(draft, path[0], path[1], {})  # refuses a name that is taken
    draft = replace(draft, typed={**draft.typed, (BEGUN, *path): BEGUN})
    return _joined(draft, path) or draft


def forgotten(draft: Draft, path: Path) -> Draft:
    """The draft without the part that was begun."""
    own = (BEGUN, *path)
    return replace(draft, typed={each: text for each, text in draft.typed.items() if each[: len(own)] != own})


def text_of(draft: Draft, path: Path, key: str) -> str:
    """What was typed or chosen."""
    return draft.typed.get((BEGUN, *path, key), "")


def given(draft: Draft, path: Path, key: str, text: str, unit: str = "") -> Draft:
    """One thing typed or chosen, a bare number in the unit of its label; the part joins the rig if it was the last that was missing.

    It is kept with its unit, so that a switch of units before the part is complete changes no meaning.
    """
    typed = {each: old for each, old in draft.typed.items() if each != (BEGUN, *path, key)}
    if text:
        typed[(BEGUN, *path, key)] = with_unit(text, unit)
    draft = replace(draft, typed=typed)
    return _joined(draft, path) or draft


def asked(draft: Draft, path: Path) -> list[Ask]:
    """What must be known before the part can join."""
    form, found = form_of(path), []
    for field in fields_of(form):
        if field.is_optional or field.default is not None or field.kind in (kinds.PART, kinds.PARTS, kinds.NAMED_PARTS):
            continue
        words = words_for(form.__name__, field)
        if field.kind == kinds.PLACE:
            found += [
                Ask(f"{field.name} {step}", f"{words.label}, {step}", words.unit, words.help, TEXT, field=field.name)
                for step in ("across", "up")
            ]
            continue
        offered = offers(draft, form.__name__, path, field)
        how = TRUTH if field.kind == kinds.TRUTH else TEXT if offered is None else CHOICE
        options = tuple(_YES_NO) if how == TRUTH else tuple(offered or ())
        found.append(Ask(field.name, words.label, words.unit, words.help, how, options, field.name))
    if path == WINCH:
        turns = words_for("WoundOn", next(field for field in fields_of(model.WoundOn) if field.name == "turns"))
        found.append(Ask("turns", turns.label, "", turns.help, CHOICE, _SENSES))
    return found


def missing(draft: Draft, path: Path) -> list[Ask]:
    """What is not given yet."""
    return [ask for ask in asked(draft, path) if not text_of(draft, path, ask.key).strip()]


def faults(draft: Draft, path: Path) -> dict[str, tuple[str, str]]:
    """What is wrong with what was given, by its key, in the words of the form; what is not given yet is no fault."""
    keys = {ask.key for ask in asked(draft, path)}
    lacking = {ask.key for ask in missing(draft, path)}
    found: dict[str, tuple[str, str]] = {}
    for fault in _faults(form_of(path), _data(draft, path)):
        key = (
            " ".join((str(fault.path[0]), *(("across", "up")[step] for step in fault.path[1:2] if isinstance(step, int))))
            if fault.path
            else ""
        )
        if key in keys - lacking:
            found.setdefault(key, (fault_words.wrong(fault), fault_words.right(fault)))
    return found


def consequence(draft: Draft, path: Path) -> str:
    """What goes out of the rig when the part joins; "" for nothing."""
    other = INSTEAD.get(path[1]) if path[0] == "drive" else None
    if other is not None and draft.at(("drive", other)) is not None:
        return f"It takes the place of the {other}; Undo brings that back."
    return "It takes the place of the hand line; Undo brings that back." if path == WINCH else ""


def _faults(form: type[BaseModel], data: dict) -> list[rig_faults.Fault]:
    try:
        form.model_validate(data)
    except ValidationError as problem:
        return rig_faults.found(problem, data)
    return []


def _data(draft: Draft, path: Path) -> dict:
    """The part as it would stand in the rig file."""
    form, data = form_of(path), {}
    for field in fields_of(form):
        if field.kind == kinds.PLACE and not field.is_optional and field.default is None:
            data[field.name] = [text_of(draft, path, f"{field.name} {step}") for step in ("across", "up")]
            continue
        text = text_of(draft, path, field.name)
        if not text:
            continue
        if field.kind == kinds.NUMBER:
            data[field.name] = plain_number(text)
        else:
            data[field.name] = _YES_NO.get(text, text) if field.kind == kinds.TRUTH else text
    return data


def _joined(draft: Draft, path: Path) -> Draft | None:
    """The draft with the part in the rig, None while something is missing or cannot be used."""
    if missing(draft, path):
        return None
    data = _data(draft, path)
    if _faults(form_of(path), data):
        return None
    done = forgotten(draft, path)
    if path[0] in _NAMED:
        return draft_parts.added(done, path[0], path[1], data)
    if path == GEAR:
        return drive_change.gear_added(done, data)
    if path == WINCH:
        return drive_change.to_winch(done, data, text_of(draft, path, "turns"))
    done = done.edited(path, data)
    return done.edited(("drive", INSTEAD[path[1]]), None) if path[1] in INSTEAD else done
