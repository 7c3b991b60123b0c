"""Which keys a part of a rig has: a slip of the pen is met with the nearest key, a missing one with what to write."""

from __future__ import annotations

import difflib
from typing import get_args

from pydantic import WithJsonSchema

from rigcheck.rig.fields import FieldError

# What to write for a missing key whose field carries no example of its own.
_EXAMPLES = {
    "format": "1",
    "name": '"loft lift"',
    "at": '["0.4 m", "2.6 m"]',
    "pulled_by_hand_at": '["1 m", "1.2 m"]',
    "bodies": '{"crate": {"role": "load", "mass": "120 kg", "at": ["0 m", "0 m"]}}',
    "ropes": '{"hoist rope": {"kind": "steel", "diameter": "5 mm", "path": [...]}}',
    "path": '[{"made_fast_to": "crate"}, {"over": "head sheave", "turns": "clockwise"}, {"wound_on": "drum", "turns": "clockwise"}]',
    "drive": '{"kind": "winch", "drum": {"at": ["2 m", "0.3 m"], "diameter": "100 mm"}}',
    "drum": '{"at": ["2 m", "0.3 m"], "diameter": "100 mm"}',
    "limits": '{"travel": "1.6 m"}',
    "made_fast_to": '"beam"',
    "hinge": '["0 m", "1 m"]',
    "by": '"arm"',
    "one_end": '"head"',
    "other_end": '"foot"',
    "over": '"head sheave"',
    "on": '"beam"',
    "ratio": "30",
    "sets_itself": "true",
}


def check(form, given: dict) -> None:
    """Raise FieldError for a key that the form does not have, or for the first one that is missing."""
    known = form.model_fields
    for key in given:
        if key not in known:
            near = difflib.get_close_matches(str(key), known, 1)
            meant = f'Perhaps "{near[0]}" is meant. ' if near else ""
            raise FieldError(
                f'the key "{str(key)[:60]}" is not known here', f"{meant}Allowed: {', '.join(sorted(known, key='notes'.__eq__))}."
            )
    missing = [name for name, field in known.items() if field.is_required() and name not in given]
    if missing:
        raise FieldError(f'"{missing[0]}" is missing', f'Add "{missing[0]}": {_example(missing[0], known[missing[0]])}')


def _example(name: str, field) -> str:
    for mark in field.metadata:
        if isinstance(mark, WithJsonSchema) and mark.json_schema:
            return f'"{mark.json_schema["examples"][0]}"'
    choices = get_args(field.annotation)
    if choices and all(isinstance(choice, str) for choice in choices):
        return f'"{choices[0]}"' + (f", or {', '.join(choices[1:])}" if choices[1:] else "")
    return _EXAMPLES[name]
