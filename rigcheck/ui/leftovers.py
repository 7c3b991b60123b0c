"""What came with a change and what went, what nothing uses any more, and what the form put in, or an eye placed, and nobody has measured yet."""

from __future__ import annotations

from rigcheck.ui import draft_parts
from rigcheck.ui.draft import Draft
from rigcheck.ui.form_notes import BY_EYE, is_by_the_form
from rigcheck.ui.rope_words import stops


def unused(draft: Draft) -> list[tuple[str, str]]:
    """Sheaves no rope runs over, and fixed points nothing hangs from."""
    return [
        (section, name)
        for section in ("sheaves", "points")
        for name in draft_parts.names(draft, section)
        if not draft_parts.users(draft, section, name)
    ]


def cleared(draft: Draft) -> Draft:
    """The draft without what is not used by any rope."""
    while found := unused(draft):
        draft = draft_parts.removed(draft, *found[0])
    return draft


def came_and_went(before: Draft, after: Draft) -> tuple[list[str], list[str]]:
    """The names of the parts that one draft has more than another, and of those it has no longer."""
    old, new = (
        [(section, name) for section in draft_parts.SECTIONS for name in draft_parts.names(each, section)] for each in (before, after)
    )
    return [part[1] for part in new if part not in old], [part[1] for part in old if part not in new]


def to_measure(draft: Draft, rope: str) -> list[str]:
    """What on the path of a rope was put in by the form, or placed by eye, and is not measured yet: the parts by name, in the order of the path."""
    found: dict[str, None] = {}
    for stop in stops(draft, rope):
        parts = (
            [("sheaves", stop["over"])] if "over" in stop else [("points", stop.get("made_fast_to")), ("bodies", stop.get("made_fast_to"))]
        )
        if "over" in stop:
            parts.append(("points", draft.at(("sheaves", stop["over"], "on"))))
            parts.append(("bodies", draft.at(("sheaves", stop["over"], "on"))))
        parts += [("drive", "drum")] if "wound_on" in stop else []
        found |= dict.fromkeys(name for section, name in parts if name and _has_values_of_the_form(draft.at((section, name))))
        if _has_values_of_the_form(stop):
            found["where the hand is"] = None
    return list(found)


def _has_values_of_the_form(part) -> bool:
    return isinstance(part, dict) and any(is_by_the_form(note) for note in (part.get("notes") or {}).values())


def tidied(draft: Draft, stop: dict) -> Draft:
    """The draft without what only this stop had used, where the form itself had put it in."""
    waiting = [("sheaves", stop["over"])] if "over" in stop else [(s, stop.get("made_fast_to")) for s in ("points", "bodies")]
    for section, name in waiting:
        part = draft.at((section, name)) if name else None
        if part is None or draft_parts.users(draft, section, name) or part.get("role") == "load":
            continue
        carrier = part.get("on")
        if _was_placed(draft, section, name):
            draft = draft_parts.removed(draft, section, name)
            waiting += [(s, carrier) for s in ("points", "bodies")] if carrier else []
    return draft


def _was_placed(draft: Draft, section: str, name: str) -> bool:
    notes = draft.at((section, name, "notes")) or {}
    if section == "sheaves":
        carrier = draft.at((section, name, "on"))
        return _is_the_forms_own(notes.get("offset")) or _is_the_forms_own((draft.at(("points", carrier, "notes")) or {}).get("at"))
    return _is_the_forms_own(notes.get("at"))


def _is_the_forms_own(note) -> bool:
    """Whether the form alone put the value in: what was moved by eye since is somebody's own."""
    return is_by_the_form(note) and note != BY_EYE
