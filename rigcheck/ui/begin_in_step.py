"""The form of an arrangement kept in step with its rig: what was changed elsewhere is taken over by the field that stands for it.

A field takes a value over where it stands for one value of the rig (a mass, a diameter, a ratio), or where the form with that value would
draw the rig as it is (a place). What no field can say stays a difference between the rig and its form.
"""

from __future__ import annotations

import copy
import math
from collections.abc import Iterable
from dataclasses import replace

from pydantic import ValidationError

from rigcheck import units
from rigcheck.errors import QuantityError
from rigcheck.report.words import Dimension
from rigcheck.rig.arrangements import ARRANGEMENTS, Arrangement, pieces
from rigcheck.rig.arrangements.inputs import UNKNOWN
from rigcheck.rig.model import Rig
from rigcheck.ui import draft as drafts
from rigcheck.ui import lettered_places
from rigcheck.ui.draft import Draft, Path, answer_path

_PLACES = ("head_height", "load_height", "distance", "spread")
_SAME_M = 1e-6
_ROPE_MAKE = ("kind", "construction", "material")


def in_step(draft: Draft) -> Draft:
    """The draft whose form says what its rig has, as far as its fields can; the rig itself stays as it is."""
    if draft.arrangement is None or draft.made is None or draft.data is draft.made or not _changed(draft):
        return draft
    arrangement = ARRANGEMENTS[draft.arrangement]
    after = draft
    for item in (*arrangement.inputs, *arrangement.choices):
        after = _place_taken_over(after, item.key) if item.key in _PLACES else _value_taken_over(after, item.key)
    return draft if after is draft else _noted_anew(arrangement, after, draft)


def _changed(draft: Draft) -> list[Path]:
    return [path for path in draft.changed_by_hand() if "notes" not in path]


def _value_taken_over(draft: Draft, key: str) -> Draft:
    paths = [path for path in _stands_for(draft, key) if _parent_is_there(draft.made, path)]
    if all(draft.at(path) == _made_at(draft, path) for path in paths):
        return draft
    text = _answer(draft, key, [draft.at(path) for path in paths])
    return draft if text is None else _taken(draft, key, text, paths)


def _taken(draft: Draft, key: str, text: str, paths: Iterable[Path]) -> Draft:
    """The draft in which an answer says what stands at the paths; as before where the form would refuse it."""
    after = replace(draft, answers={**draft.answers, key: text}, given=draft.given | {key},
                    typed={path: shown for path, shown in draft.typed.items() if path != answer_path(key)})  # fmt: skip
    if set(drafts.answer_faults(after)) - set(drafts.answer_faults(draft)) or key in drafts.answer_faults(after):
        return draft
    made = Draft(copy.deepcopy(draft.made), "")
    for path in paths:
        made = made.edited(path, copy.deepcopy(draft.at(path)))
    return replace(after, made=made.data)


def _stands_for(draft: Draft, key: str) -> list[Path]:
    """The fields of the rig whose one value an answer is; none for an answer about how it is rigged."""
    ropes = [("ropes", name) for name in draft.at(("ropes",)) or {}]
    sheaves = [("sheaves", name) for name in draft.at(("sheaves",)) or {}]
    gears = [("drive", "gears", index) for index in range(len(draft.at(("drive", "gears")) or ()))]
    match key:
        case "mass" | "counterweight":
            role = "load" if key == "mass" else "counterweight"
            bodies = draft.at(("bodies",)) or {}
            return [("bodies", name, "mass") for name, body in bodies.items() if isinstance(body, dict) and body.get("role") == role]
        case "travel":
            return [("limits", "travel")]
        case "sheave_diameter":
            return [(*each, "pitch_diameter") for each in sheaves]
        case "bearing":
            return [(*each, "bearing") for each in sheaves]
        case "rope_diameter":
            return [(*each, "diameter") for each in ropes]
        case "rope":
            return [(*each, field) for each in ropes for field in _ROPE_MAKE]
        case "grade":
            return [(*each, "grade") for each in ropes]
        case "condition":
            return [(*each, "remaining_strength") for each in ropes]
        case "ends" | "ends_fibre":
            kinds = {draft.at((*each, "kind")) for each in ropes}
            return _ends(draft, ropes) if kinds == {"fibre" if key == "ends_fibre" else "steel"} else []
        case "drum_diameter":
            return [("drive", "drum", "diameter")]
        case "dead_wraps":
            return [("drive", "drum", "dead_wraps")]
        case "ratio":
            return [(*each, "ratio") for each in gears] if gears and len(gears) == len(_made_at(draft, ("drive", "gears")) or ()) else []
        case "voltage":
            return [("drive", part, "voltage") for part in ("motor", "supply")]
        case "people":
            return [("drive", "people")]
    return []


def _ends(draft: Draft, ropes: list[Path]) -> list[Path]:
    return [(*rope, "path", index, "fitting") for rope in ropes for index, stop in enumerate(draft.at((*rope, "path")) or ())
            if isinstance(stop, dict) and "made_fast_to" in stop]  # fmt: skip


def _answer(draft: Draft, key: str, values: list) -> str | None:
    """The answer that says these values, None where no answer does."""
    if key == "rope":
        return _rope_make(values)
    if key == "ratio":
        numbers = [value for value in values if isinstance(value, int | float) and not isinstance(value, bool)]
        return f"{math.prod(numbers):.10g}" if numbers and len(numbers) == len(values) else UNKNOWN if not numbers else None
    first = values[0] if values else None
    if any(value != first for value in values):
        return None
    arrangement = ARRANGEMENTS[draft.arrangement]
    if any(item.key == key for item in arrangement.inputs):
        return first if isinstance(first, str) else None
    options = next(choice for choice in arrangement.choices if choice.key == key).options
    if first is None:
        return UNKNOWN if UNKNOWN in options else None
    if key == "condition":
        return pieces.NEW if first == 1 and not isinstance(first, bool) else None
    if key == "bearing":
        return next((said for said, means in pieces.BEARINGS.items() if means == first), None)
    return next((option for option in options if option == str(first) or _same_quantity(option, first, key)), None)


def _rope_make(values: list) -> str | None:
    makes = {tuple(values[start : start + len(_ROPE_MAKE)]) for start in range(0, len(values), len(_ROPE_MAKE))}
    if len(makes) != 1:
        return None
    make = makes.pop()
    return next(
        (said for said, means in pieces.ROPES.items() if said != UNKNOWN and tuple(means.get(field) for field in _ROPE_MAKE) == make), None
    )


def _same_quantity(option: str, value, key: str) -> bool:
    kind = {"grade": "stress", "voltage": "voltage"}.get(key)
    if kind is None:
        return False
    try:
        one, other = (units.read(text, kind) for text in (option, value))
    except QuantityError:
        return False
    return not other.plus_minus and math.isclose(one.value, other.value, rel_tol=1e-9)


def _place_taken_over(draft: Draft, key: str) -> Draft:
    """A distance or a height taken over where the form, with it, draws every place as it stands now."""
    if not any(path[0] in ("points", "bodies", "sheaves", "drive") and _is_of_a_place(path) for path in _changed(draft)):
        return draft
    arrangement = ARRANGEMENTS[draft.arrangement]
    if all(item.key != key for item in arrangement.inputs) or drafts.answer_faults(draft):
        return draft
    answers = drafts.in_label_units(arrangement, draft.answers)
    before = drafts.made_of(arrangement, answers, draft.given)
    old, now = _length_m(before, key), _length_m(draft.data, key)
    if old is None or now is None or abs(old - now) < _SAME_M:
        return draft
    kind = next(item.kind for item in arrangement.inputs if item.key == key)
    text = pieces.metres(units.read(answers[key], kind).value + now - old)
    trial = {**answers, key: text}
    if arrangement.faults(trial):
        return draft
    drawn = Draft(drafts.made_of(arrangement, trial, draft.given), "")
    moved = [path for path in drafts.differences(before, drawn.data) if "notes" not in path]
    if not moved or not all(_same_length(drawn.at(path), draft.at(path)) for path in moved):
        return draft
    return _taken(draft, key, text, moved)


def _is_of_a_place(path: Path) -> bool:
    return "at" in path or "offset" in path or "picks" in path


def _length_m(data: dict, key: str) -> float | None:
    try:
        marks, _ = lettered_places.marks(Rig.model_validate(data), {key: key})
    except (ValidationError, KeyError, StopIteration):
        return None
    line = next((mark for mark in marks if isinstance(mark, Dimension)), None)
    if line is None:
        return None
    along = 0 if key in ("distance", "spread") else 1
    return abs(line.end[along] - line.start[along])


def _same_length(one, other) -> bool:
    try:
        return abs(units.read(one, "length").value - units.read(other, "length").value) < _SAME_M
    except (QuantityError, TypeError, AttributeError):
        return one == other


def _noted_anew(arrangement: Arrangement, after: Draft, before: Draft) -> Draft:
    """What was taken over is no guess of the form any more: neither in the notes of the rig, unless people wrote others there."""
    if drafts.answer_faults(after):
        return after
    notes = drafts.made_of(arrangement, drafts.in_label_units(arrangement, after.answers), after.given).get("notes", {})
    made, data = dict(after.made), dict(after.data)
    for part, old in ((made, before.made.get("notes", {})), (data, before.made.get("notes", {}))):
        kept = {field: note for field, note in (part.get("notes") or {}).items() if old.get(field) != note}
        part["notes"] = {**notes, **kept}
        if not part["notes"]:
            del part["notes"]
    return replace(after, made=made, data=data)


def _made_at(draft: Draft, path: Path):
    return Draft(draft.made, "").at(path)


def _parent_is_there(made: dict, path: Path) -> bool:
    return isinstance(Draft(made, "").at(path[:-1]), dict)
