"""The faults that the model finds, told in plain words: where in the file, what is wrong with which value, what would be right."""

from __future__ import annotations

import json
from dataclasses import dataclass

from pydantic import ValidationError

from rigcheck.rig.fields import FieldError

LONGEST_SHOWN = 300

_ENTRIES = {"path": "stop", "gears": "stage"}
_ACROSS_UP_DEPTH = ("across", "up", "depth")
_AXES = dict.fromkeys(("at", "offset", "centre_of_gravity", "pulled_by_hand_at", "hinge", "along", "axis"), _ACROSS_UP_DEPTH) | {
    "size": ("width", "height")
}
_FIXED_LENGTH = {"axis": "[0, 0, 1]", "size": '["0.6 m", "0.8 m"]'}


@dataclass(frozen=True)
class Fault:
    """One fault: the path of keys and list positions that leads to it, what is wrong, and what would be right."""

    path: tuple[str | int, ...]
    wrong: str
    right: str


def found(error: ValidationError, given) -> list[Fault]:
    """Every fault once, in the order of the model."""
    faults: dict[tuple, Fault] = {}
    for detail in error.errors(include_url=False):
        path = _path(detail, given)
        wrong, right = _told(detail, given, path)
        if detail["type"] == "missing":
            path = path[:-1]
        path += getattr(detail.get("ctx", {}).get("error"), "path", ())
        faults.setdefault((path, wrong), Fault(path, cut(wrong), cut(right)))
    return list(faults.values())


def words(path: tuple[str | int, ...]) -> str:
    """A path as a person would say it.

    >>> words(("bodies", "shell", "at", 1)), words(("ropes", "hoist rope", "path", 2, "turns"))
    ('bodies, shell, at, up', 'ropes, hoist rope, path, stop 3, turns')
    """
    said = []
    for index, step in enumerate(path):
        if isinstance(step, str):
            said.append(cut(step, 60) or '""')
            continue
        above = path[index - 1] if index else ""
        named = _ACROSS_UP_DEPTH if index > 1 and path[index - 2] == "picks" else _AXES.get(above, ())
        if above in _ENTRIES or step >= len(named):
            said.append(f"{_ENTRIES.get(above, 'entry')} {step + 1}")
        else:
            said.append(named[step])
    return ", ".join(said)


def cut(text: str, longest: int = LONGEST_SHOWN) -> str:
    """Text fit for a line of a message: invisible characters made visible, and not too long."""
    text = text if len(text) <= longest else text[: longest - 1] + "…"
    return "".join(c if c.isprintable() else c.encode("unicode_escape", "backslashreplace").decode() for c in text)


def shown(value) -> str:
    """A value as it stands in the file, cut short."""
    try:
        return cut(json.dumps(value, ensure_ascii=False), 60)
    except (TypeError, ValueError):
        return cut(str(value), 60)


def _path(detail, given) -> tuple[str | int, ...]:
    """The location without what is no part of the file, such as the names of alternatives."""
    path: list[str | int] = []
    here = given
    steps = detail["loc"]
    for index, step in enumerate(steps):
        in_object = isinstance(here, dict) and isinstance(step, str) and step in here
        in_list = isinstance(here, list | tuple) and isinstance(step, int) and step < len(here)
        if in_object or in_list:
            here = here[step]
        elif not (detail["type"] == "missing" and index == len(steps) - 1):
            continue
        path.append(step)
    return tuple(path)


def _told(detail, given, path) -> tuple[str, str]:
    kind, value, context = detail["type"], detail["input"], detail.get("ctx", {})
    if isinstance(context.get("error"), FieldError):
        fault = context["error"]
        return "null is no value" if value is None else fault.wrong, fault.right
    match kind:
        case "missing":
            return _length(value)[0], f"Write it such as {_FIXED_LENGTH.get(path[-2], 'in the examples')}."
        case "too_short" | "too_long":
            return _length(value, context)
        case "literal_error":
            return f"{shown(value)} is not one of the choices", f"Choose {context['expected'].replace(chr(39), chr(34))}."
        case "union_tag_not_found":
            return '"kind" is missing', f'Add "kind", such as "kind": "{_first_choice(path)}".'
        case "union_tag_invalid":
            return f"there is no kind {shown(context['tag'])}", f"Choose {context['expected_tags'].replace(chr(39), chr(34))}."
        case "stop":
            forms = '{"made_fast_to": "beam"}, {"over": "head sheave", "turns": "clockwise"}, {"wound_on": "drum", "turns": "clockwise"}'
            return f"{shown(value)} is not a stop of a rope", f'A stop is one of {forms} and {{"pulled_by_hand_at": ["1 m", "1.2 m"]}}.'
        case "string_type":
            return f"{shown(value)} is not text", "Write it in double quotes."
        case "string_too_long":
            return f"the text has {len(value)} characters", f"Keep it to {context['max_length']} characters."
        case "bool_type":
            return f"{shown(value)} is neither true nor false", "Write true or false, without quotes."
        case "tuple_type":
            return f"{shown(value)} is not a list", "Write a list in square brackets, its entries parted by commas."
        case "dict_type" | "model_type" | "model_attributes_type":
            return f"{shown(value)} stands where keys and values are due", 'Write them in braces, such as {"mass": "120 kg"}.'
    return f"{shown(value)} cannot be used here", "Look up this field in the description of the rig file."


def _first_choice(path) -> str:
    return "winch" if path and path[-1] == "drive" else "guided"


def _length(value, context=None) -> tuple[str, str]:
    count = len(value) if isinstance(value, list | tuple | dict) else 0
    has = f"the list has {count} {'entry' if count == 1 else 'entries'}"
    least, most = (context or {}).get("min_length"), (context or {}).get("max_length")
    return has, f"At least {least} are due." if least else f"At most {most} are possible." if most else "More are due."
