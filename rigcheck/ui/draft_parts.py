"""The named parts of a draft: one more, one fewer, another name. Whatever refers to a part follows it or is named; nothing typed is lost.

Sections are "points", "struts", "bodies", "sheaves" and "ropes"; the eyes of a body (its picks) have functions of their own.
"""

from __future__ import annotations

import copy
from collections.abc import Callable, Mapping
from dataclasses import replace

from pydantic import TypeAdapter, ValidationError

from rigcheck.rig import fields
from rigcheck.rig.fields import FieldError
from rigcheck.ui.draft import Draft, Path

POINTS, STRUTS, BODIES, SHEAVES, ROPES = SECTIONS = ("points", "struts", "bodies", "sheaves", "ropes")
KINDS = {POINTS: "point", STRUTS: "strut", BODIES: "body", SHEAVES: "sheave", ROPES: "rope"}
MOST = {POINTS: 100, STRUTS: 40, BODIES: 20, SHEAVES: 100, ROPES: 40}
DRUM = "drum"
ENDS = ("one_end", "other_end")
BOLTED_TO = ("drive", "drum", "bolted_to")
OWN = "an arrangement that was renamed"
FORM_IS_GONE = (
    "This rig began as an arrangement. Since a part of it was given another name it is a rig of its own: the form of the arrangement would make "
    "that part again under its old name. Every number of it stands under Change parts. Undo gives the old name and the form back."
)
_ONE_SPACE_OF_NAMES = (POINTS, BODIES)
_NAME = TypeAdapter(fields.Name)


def names(draft: Draft, section: str) -> list[str]:
    """The names of a section in the order of the rig file."""
    return list(_parts(draft, section))


def added(draft: Draft, section: str, name: str, data: dict) -> Draft:
    """One more part at the end of its section; FieldError for a name that cannot be used, or where no more can be handled."""
    _check_name(draft, section, name)
    held = _parts(draft, section)
    if len(held) >= MOST[section]:
        raise FieldError(f"the rig has {len(held)} {section}", f"At most {MOST[section]} can be handled.")
    return _with(draft, section, {**held, name: copy.deepcopy(data)})


def removed(draft: Draft, section: str, name: str) -> Draft:
    """One part fewer. Ropes run on without a sheave that is removed; a point or body in use is refused with who uses it (FieldError)."""
    if section in (POINTS, BODIES, STRUTS) and (found := users(draft, section, name)):
        raise FieldError(f"{name} is still needed: {'; '.join(found)}", "Change these first, then remove it.")
    if section == SHEAVES:
        draft = _without_stops(draft, name)
    held = {each: part for each, part in _parts(draft, section).items() if each != name}
    return replace(_with(draft, section, held), typed=_moved(draft.typed, lambda path: None if path[:2] == (section, name) else path))


def renamed(draft: Draft, section: str, old: str, new: str) -> Draft:
    """A part under another name, with everything that refers to it; FieldError for a name that is taken or cannot be one.

    A rig that began as an arrangement is one of its own from then on: the arrangement would make the part again under its old name.
    """
    if new == old:
        return draft
    _check_name(draft, section, new)
    typed = _moved(draft.typed, lambda path: (section, new, *path[2:]) if path[:2] == (section, old) else path)
    return _own(replace(draft, data=_renamed_in(draft.data, section, old, new), typed=typed))


def users(draft: Draft, section: str, name: str) -> list[str]:
    """What refers to a part, in words."""
    found = []
    if section in (POINTS, BODIES):
        found += [f"sheave {each} sits on it" for each, sheave in _parts(draft, SHEAVES).items() if _of(sheave, "on") == name]
        found += [f"body {each} is fixed on it" for each, body in _parts(draft, BODIES).items() if _of(_of(body, "moves"), "by") == name]
        found += [f"rope {rope} is made fast to it" for rope in _ropes_with(draft, "made_fast_to", name)]
    if section == POINTS:
        found += [f"strut {each} ends at it" for each, strut in _parts(draft, STRUTS).items() if name in (_of(strut, end) for end in ENDS)]
    if section == STRUTS and draft.at(BOLTED_TO) == name:
        found.append("the winch is bolted to it")
    if section == SHEAVES:
        found += [f"rope {rope} runs over it" for rope in _ropes_with(draft, "over", name)]
    if section == ROPES:
        before, after = _held(draft, _parts(draft, ROPES)), _held(draft, {n: r for n, r in _parts(draft, ROPES).items() if n != name})
        found += [f"body {body} hangs on this rope alone" for body in _parts(draft, BODIES) if body in before and body not in after]
    return found


def swings(draft: Draft) -> bool:
    """Whether the load turns about a hinge, as far as the draft says, so that its travel is an angle."""
    bodies, seen = _parts(draft, BODIES), set()
    name = next((each for each, body in bodies.items() if _of(body, "role") == "load"), None)
    while name in bodies and name not in seen:
        seen.add(name)
        moves = _of(bodies[name], "moves")
        if _of(moves, "kind") != "carried":
            return _of(moves, "kind") == "hinged"
        name = _of(moves, "by")
    return False


def free_name(draft: Draft, wish: str) -> str:
    """The wish, or the wish with the first number that makes it free in every section."""
    taken = {DRUM, *(name for section in SECTIONS for name in _parts(draft, section))}
    number, name = 2, wish
    while name in taken:
        number, name = number + 1, f"{wish} {number}"
    return name


def picks(draft: Draft, body: str) -> list[str]:
    """The names of a body's eyes."""
    return list(draft.at((BODIES, body, "picks")) or {})


def pick_added(draft: Draft, body: str, name: str) -> Draft:
    """One more eye, at the body's reference point until it is measured."""
    _check_pick(draft, body, name)
    return _with_picks(draft, body, {**(draft.at((BODIES, body, "picks")) or {}), name: ["0 m", "0 m"]})


def pick_users(draft: Draft, body: str, name: str) -> list[str]:
    """Which ropes are made fast at an eye, in words."""
    return [
        f"rope {rope} is made fast there"
        for rope, data in _parts(draft, ROPES).items()
        if any(_is_at(stop, body, name) for stop in _stops(data))
    ]


def pick_removed(draft: Draft, body: str, name: str) -> Draft:
    """One eye fewer; FieldError where a rope is made fast at it."""
    if found := pick_users(draft, body, name):
        raise FieldError(f"{name} is still needed: {'; '.join(found)}", "Make the rope fast elsewhere first, then remove it.")
    held = {each: place for each, place in (draft.at((BODIES, body, "picks")) or {}).items() if each != name}
    own = (BODIES, body, "picks", name)
    return replace(_with_picks(draft, body, held), typed=_moved(draft.typed, lambda path: None if path[:4] == own else path))


def pick_renamed(draft: Draft, body: str, old: str, new: str) -> Draft:
    """An eye under another name, with the ropes that are made fast at it."""
    if new == old:
        return draft
    _check_pick(draft, body, new)
    data = copy.deepcopy(draft.data)
    for rope in data.get(ROPES, {}).values():
        for stop in _stops(rope):
            if _is_at(stop, body, old):
                stop["pick"] = new
    own = (BODIES, body, "picks", old)
    typed = _moved(draft.typed, lambda path: (*own[:3], new, *path[4:]) if path[:4] == own else path)
    held = {new if each == old else each: place for each, place in data[BODIES][body]["picks"].items()}
    return _own(_with_picks(replace(draft, data=data, typed=typed), body, held))


def _own(draft: Draft) -> Draft:
    if draft.arrangement is None:
        return draft
    typed = {path: text for path, text in draft.typed.items() if path[:1] != ("answers",)}
    return replace(draft, origin=OWN, arrangement=None, answers={}, made=None, dropped=(), typed=typed)


def _parts(draft: Draft, section: str) -> dict:
    held = draft.at((section,))
    return held if isinstance(held, dict) else {}


def _of(part, key: str):
    return part.get(key) if isinstance(part, dict) else None


def _stops(rope) -> list[dict]:
    return [stop for stop in (_of(rope, "path") or []) if isinstance(stop, dict)]


def _is_at(stop: dict, body: str, pick: str) -> bool:
    return stop.get("made_fast_to") == body and stop.get("pick") == pick


def _ropes_with(draft: Draft, key: str, name: str) -> list[str]:
    return [rope for rope, data in _parts(draft, ROPES).items() if any(stop.get(key) == name for stop in _stops(data))]


def _held(draft: Draft, ropes: Mapping[str, dict]) -> set[str]:
    """What these ropes hold: where they are made fast, and what carries the sheaves they run over."""
    stops = [stop for rope in ropes.values() for stop in _stops(rope)]
    carriers = {_of(_parts(draft, SHEAVES).get(stop.get("over")), "on") for stop in stops if "over" in stop}
    return {stop.get("made_fast_to") for stop in stops} | carriers


def _check_name(draft: Draft, section: str, name: str) -> None:
    try:
        _NAME.validate_python(name)
    except ValidationError as problem:
        fault = problem.errors()[0].get("ctx", {}).get("error")
        raise (fault if isinstance(fault, FieldError) else FieldError(f"{name!r} is not a name", "Give it a short name.")) from None
    for other in _ONE_SPACE_OF_NAMES if section in _ONE_SPACE_OF_NAMES else (section,):
        if name in _parts(draft, other):
            raise FieldError(f'there is a {KINDS[other]} "{name}" already', f'Another name, such as "{free_name(draft, name)}".')
    if name == DRUM and section != ROPES:
        raise FieldError(f'"{DRUM}" is the drum of the winch', f'Another name, such as "{free_name(draft, name)}".')


def _check_pick(draft: Draft, body: str, name: str) -> None:
    try:
        _NAME.validate_python(name)
    except ValidationError as problem:
        raise problem.errors()[0]["ctx"]["error"] from None
    if name in picks(draft, body):
        raise FieldError(f'{body} has an eye "{name}" already', "Give it a name of its own.")


def _with(draft: Draft, section: str, held: dict) -> Draft:
    return replace(draft, data={**draft.data, section: held})


def _with_picks(draft: Draft, body: str, held: dict) -> Draft:
    return draft.edited((BODIES, body, "picks"), held or None)


def _without_stops(draft: Draft, sheave: str) -> Draft:
    data, typed = copy.deepcopy(draft.data), draft.typed
    for name, rope in data.get(ROPES, {}).items():
        stops = _of(rope, "path") or []
        for index in reversed([k for k, stop in enumerate(stops) if _of(stop, "over") == sheave]):
            del stops[index]
            typed = _moved(typed, lambda path, name=name, index=index: _one_stop_less(path, (ROPES, name, "path"), index))
    return replace(draft, data=data, typed=typed)


def _one_stop_less(path: Path, of_path: Path, gone: int) -> Path | None:
    if path[:3] != of_path or len(path) < 4 or path[3] < gone:
        return path
    return None if path[3] == gone else (*of_path, path[3] - 1, *path[4:])


def _moved(typed: Mapping[Path, str], to: Callable[[Path], Path | None]) -> dict[Path, str]:
    """The typed texts at the places their fields have now; None where the field is gone."""
    return {new: text for path, text in typed.items() if (new := to(path)) is not None}


def _renamed_in(data: dict, section: str, old: str, new: str) -> dict:
    data = copy.deepcopy(data)
    data[section] = {new if name == old else name: part for name, part in data[section].items()}
    if section in (POINTS, BODIES):
        for sheave in data.get(SHEAVES, {}).values():
            if _of(sheave, "on") == old:
                sheave["on"] = new
    if section == BODIES:
        for body in data[BODIES].values():
            if _of(_of(body, "moves"), "by") == old:
                body["moves"]["by"] = new
    if section == POINTS:
        for strut in (each for each in data.get(STRUTS, {}).values() if isinstance(each, dict)):
            strut.update({end: new for end in ENDS if strut.get(end) == old})
    drum = _of(data.get("drive"), "drum")
    if section == STRUTS and _of(drum, "bolted_to") == old:
        drum["bolted_to"] = new
    key = {POINTS: "made_fast_to", BODIES: "made_fast_to", SHEAVES: "over"}.get(section)
    for rope in data.get(ROPES, {}).values() if key else ():
        for stop in _stops(rope):
            if stop.get(key) == old:
                stop[key] = new
    return data
