"""Letters of the fields, the same on the form and on the sheet to print: A, B, C for what an arrangement asks; A1, A2, B1 for the parts of a rig.

The parts of a rig that began as an arrangement take the letters after those of its form, so that no letter means two things. Parts are lettered in the order of the rig file and their fields numbered in the order of the form, whether a field is filled in or not:
only a part that comes or goes changes the letters after it. What has no input has no letter; the number of a field that is only asked of
another kind of rope or gear is kept free for it. I and O are left out, since by hand they read as 1 and 0.
"""

from __future__ import annotations

from pydantic import BaseModel

from rigcheck.report import model_fields as kinds
from rigcheck.report.model_fields import fields_of, in_form_order
from rigcheck.rig import model
from rigcheck.rig.arrangements import ARRANGEMENTS, Arrangement
from rigcheck.ui.asked_fields import is_asked, may_be_asked
from rigcheck.ui.draft import Draft, Path

ALPHABET = "ABCDEFGHJKLMNPQRSTUVWXYZ"
NAMED = {"points": model.Point, "struts": model.Strut, "bodies": model.Body, "sheaves": model.Sheave, "ropes": model.Rope}
MOVES: dict[str, type[BaseModel]] = {
    "guided": model.Guided,
    "level": model.Level,
    "free": model.Free,
    "hinged": model.Hinged,
    "carried": model.Carried,
}
STOPS: dict[str, type[BaseModel]] = {
    "made_fast_to": model.MadeFast,
    "over": model.Over,
    "wound_on": model.WoundOn,
    "pulled_by_hand_at": model.ByHand,
}


def letter(index: int) -> str:
    """The letters of the part at an index.

    >>> letter(0), letter(8), letter(23), letter(24), letter(599), letter(600)
    ('A', 'J', 'Z', 'AA', 'ZZ', 'AAA')
    """
    said = ""
    while index >= 0:
        index, rest = divmod(index, len(ALPHABET))
        said, index = ALPHABET[rest] + said, index - 1
    return said


def of_inputs(arrangement: Arrangement) -> dict[str, str]:
    """The letter of each number and choice that an arrangement asks for, by its key."""
    return {item.key: letter(index) for index, item in enumerate((*arrangement.inputs, *arrangement.choices))}


def of_fields(draft: Draft) -> dict[Path, str]:
    """The letter and number of each field of the rig that has an input, by its path; a place has one for all its steps."""
    return {field: lettered for path, form in lettered_parts(draft) for field, (lettered, _) in of_part(draft, path, form).items()}


def of_part(draft: Draft, path: Path, form: type[BaseModel]) -> dict[Path, tuple[str, type[BaseModel]]]:
    """The letter and number of each field of one part that has an input, with the form the field is one of; eyes are of the body's form."""
    own, fields = of_parts(draft)[path], enumerate(_fields(draft, path, form), start=1)
    return {
        field: (f"{own}{number}", of_form)
        for number, (of_form, field) in fields
        if field[-2] == "picks" or is_asked(draft, of_form, field[:-1], field[-1])
    }


def of_parts(draft: Draft) -> dict[Path, str]:
    """The letter of each part, by its path."""
    first = len(of_inputs(ARRANGEMENTS[draft.arrangement])) if draft.arrangement is not None else 0
    return {path: letter(index) for index, (path, _) in enumerate(lettered_parts(draft), start=first)}


def lettered_parts(draft: Draft) -> list[tuple[Path, type[BaseModel]]]:
    """The parts that have a letter, each with its form, in the order of the rig file."""
    found: list[tuple[Path, type[BaseModel]]] = [
        ((section, name), form) for section, form in NAMED.items() for name in _dict(draft.at((section,)))
    ]
    drive = _dict(draft.at(("drive",)))
    if drive.get("kind") == "hand line":
        found.append((("drive",), model.HandLine))
    else:
        for field in fields_of(model.Winch):
            if field.kind == kinds.PARTS:
                found += [(("drive", field.name, index), model.Gear) for index in range(len(drive.get(field.name) or ()))]
            elif drive.get(field.name) is not None:
                found.append((("drive", field.name), field.model))
    return [*found, (("limits",), model.Limits), (("basis",), model.Demands)]


def _fields(draft: Draft, path: Path, form: type[BaseModel]) -> list[tuple[type[BaseModel], Path]]:
    """The fields of a part that may have an input, how it moves, the ends of its path, and its eyes; each with the form it is one of."""
    found = [(form, path)]
    if form is model.Body:
        found.append((MOVES.get(draft.at((*path, "moves", "kind")), model.Guided), (*path, "moves")))
    if form is model.Rope:
        for index, stop in enumerate(draft.at((*path, "path")) or ()):
            of_stop = next((form for key, form in STOPS.items() if key in _dict(stop)), None)
            found += [(of_stop, (*path, "path", index))] if of_stop else []
    fields = [(each, (*own, field.name)) for each, own in found for field in in_form_order(each) if may_be_asked(each, field.name)]
    return fields + [(form, (*path, "picks", name)) for name in (_dict(draft.at((*path, "picks"))) if form is model.Body else ())]


def _dict(value) -> dict:
    return value if isinstance(value, dict) else {}
