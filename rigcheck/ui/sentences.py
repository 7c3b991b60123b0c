"""Every way to change the path of a rope from its sentence: pure functions from draft to draft.

Senses of turning are guessed from the places of the neighbours; where a change turns a corner the other way, a sense that was the guess
follows, and one that was chosen against it stays.
"""

from __future__ import annotations

import copy
from collections.abc import Iterable
from dataclasses import replace

from rigcheck.rig.fields import FieldError
from rigcheck.ui import draft_parts, growing, places
from rigcheck.ui.draft import Draft
from rigcheck.ui.form_notes import TYPICAL
from rigcheck.ui.growing import AT, BY_HAND, NEW_EYE, ON_DRUM, Target
from rigcheck.ui.leftovers import tidied
from rigcheck.ui.places import ANTICLOCKWISE, CLOCKWISE, Spot
from rigcheck.ui.rope_words import StopWords, stops, stops_in_words
from rigcheck.ui.trial import hindrance

__all__ = [
    "FIRST", "LAST", "StopWords", "flipped", "moved_stop", "new_rope", "sensed", "stops_in_words", "with_end", "with_sheave", "with_stop_added", "without_rope", "without_stop",
]  # fmt: skip

FIRST, LAST = 0, -1
_TRIALS = 6
_KEPT_AT_AN_END = ("fitting", "fitting_share")


def with_stop_added(draft: Draft, rope: str, after: int, target: Target) -> Draft:
    """The rope runs over one more sheave after a stop; a new sheave is put at the first likely place where the rig is solved."""
    path = stops(draft, rope)
    before, beyond = (places.of_stop(draft, path[k]) for k in (after, after + 1))
    return _first_solved(
        _followed(
            draft, _with_path(grown, rope, [*range(after + 1), _over(grown, name, before, beyond), *range(after + 1, len(path))]), rope
        )
        for grown, name in growing.sheaves(draft, target, before, beyond)
    )


def with_sheave(draft: Draft, rope: str, index: int, target: Target) -> Draft:
    """The rope runs over another sheave in place of one."""
    path = stops(draft, rope)
    before, beyond = (places.of_stop(draft, path[k]) for k in (index - 1, index + 1))
    changed = _first_solved(
        _followed(draft, _with_path(grown, rope, [*range(index), _over(grown, name, before, beyond), *range(index + 1, len(path))]), rope)
        for grown, name in growing.sheaves(draft, target, before, beyond)
    )
    return tidied(changed, path[index])


def without_stop(draft: Draft, rope: str, index: int) -> Draft:
    """The rope no longer runs over a sheave; what the form itself had put in for it, and nobody measured, goes with it."""
    path = stops(draft, rope)
    if not 0 < index < len(path) - 1:
        raise FieldError("an end of a rope cannot be taken out", "Let it end elsewhere.", ("ropes", rope, "path", index))
    changed = _followed(draft, _with_path(draft, rope, [k for k in range(len(path)) if k != index]), rope)
    return tidied(changed, path[index])


def without_rope(draft: Draft, rope: str) -> Draft:
    """One rope fewer, with what the form itself had put in for it alone."""
    path, draft = stops(draft, rope), draft_parts.removed(draft, "ropes", rope)
    for stop in path:
        draft = tidied(draft, stop)
    return draft


def moved_stop(draft: Draft, rope: str, index: int, by: int) -> Draft:
    """A sheave earlier (-1) or later (+1) on the path of a rope; the draft as it is where an end would be passed."""
    order = list(range(len(stops(draft, rope))))
    other = index + by
    if not (0 < index < len(order) - 1 and 0 < other < len(order) - 1):
        return draft
    order[index], order[other] = order[other], order[index]
    return _followed(draft, _with_path(draft, rope, order), rope)


def with_end(draft: Draft, rope: str, which: int, target: Target) -> Draft:
    """The first (0) or the last (-1) end of a rope goes elsewhere; FieldError where the drive stands in the way."""
    path = stops(draft, rope)
    index = len(path) - 1 if which else 0
    if stops_in_words(draft, rope)[index].target == target:
        return draft
    near, beyond = _inwards(draft, path, which)
    old = path[index]
    changed, stop = growing.end(draft, rope, target, near, beyond, is_last=bool(which))
    if "made_fast_to" in stop and "made_fast_to" in old:
        notes = {name: text for name, text in (old.get("notes") or {}).items() if name in _KEPT_AT_AN_END}
        stop = {**stop, **{name: old[name] for name in _KEPT_AT_AN_END if name in old}, **({"notes": notes} if notes else {})}
    order: list[int | dict] = list(range(len(path)))
    order[index] = stop
    changed = _with_path(changed, rope, order)
    if "wound_on" in stop:
        changed = flipped(changed, rope, index, _drum_sense(changed, rope))
    return tidied(_followed(draft, changed, rope), old)


def flipped(draft: Draft, rope: str, index: int, turns: str | None = None) -> Draft:
    """The rope turns the other way at a stop, or the way that is told."""
    now = stops(draft, rope)[index].get("turns")
    return draft.edited(("ropes", rope, "path", index, "turns"), turns or (ANTICLOCKWISE if now == CLOCKWISE else CLOCKWISE))


def sensed(draft: Draft, rope: str) -> Draft:
    """Every sense of turning of a rope as the places of its stops suggest it."""
    for index, guess in _guesses(draft, rope).items():
        if guess:
            draft = flipped(draft, rope, index, guess)
    ends = [k for k, stop in enumerate(stops(draft, rope)) if "wound_on" in stop]
    return flipped(draft, rope, ends[0], _drum_sense(draft, rope)) if ends else draft


def new_rope(draft: Draft, first: Target, last: Target, over: Iterable[Target] = (), wish: str = "") -> Draft:
    """One rope more, of the kind and diameter of the first one until it is measured."""
    ropes = draft.at(("ropes",)) or {}
    name = draft_parts.free_name(draft, wish or next(f"rope {k}" for k in range(len(ropes) + 1, 99) if f"rope {k}" not in ropes))
    like = next((rope for rope in ropes.values() if isinstance(rope, dict)), {})
    notes = dict.fromkeys(("kind", "diameter"), TYPICAL)
    data = {"kind": like.get("kind", "steel"), "diameter": like.get("diameter", "6 mm"), "path": [], "notes": notes}
    draft = draft_parts.added(draft, "ropes", name, data)
    draft, begun = growing.end(draft, name, first, None, None, is_last=False)
    path, is_there = [begun], last[0] in (AT, ON_DRUM, BY_HAND)
    if is_there:
        draft, ended = growing.end(draft, name, last, None, None, is_last=True)
    for target in over:
        goal = places.of_stop(draft, ended) if is_there else None
        draft, sheave = next(growing.sheaves(draft, target, places.of_stop(draft, path[-1]), goal))
        path.append({"over": sheave, "turns": CLOCKWISE})
    if not is_there:
        draft, ended = growing.end(draft, name, last, *_inwards(draft, [*path, {}], LAST), is_last=True)
    draft = sensed(draft.edited(("ropes", name, "path"), [*path, ended]), name)
    return sensed(_eye_below(draft, name), name) if first[0] == NEW_EYE else draft


def _eye_below(draft: Draft, rope: str) -> Draft:
    """The new eye at the first end of a rope moved plumb below the side of the sheave where the rope goes up, so that a guided body can rise."""
    eye, first = stops(draft, rope)[:2]
    sheave, body = places.of_stop(draft, first), places.of_carrier(draft, eye["made_fast_to"])
    if "over" not in first or sheave is None or body is None:
        return draft
    side = -1 if first["turns"] == CLOCKWISE else 1
    across = sheave[0] + side * places.diameter(draft, first["over"]) / 2 - body[0]
    body_path = ("bodies", eye["made_fast_to"])
    path, notes = (*body_path, "picks", eye["pick"]), draft.at((*body_path, "notes"))
    return draft.edited(path, [places.text_of(across), *draft.at(path)[1:]]).edited((*body_path, "notes"), notes)


def _first_solved(drafts: Iterable[Draft]) -> Draft:
    tried = []
    for draft in drafts:
        if hindrance(draft) is None:
            return draft
        tried.append(draft)
        if len(tried) == _TRIALS:
            break
    if not tried:
        raise FieldError("no free place was found for the sheave", "Add it among the sheaves, with its place.")
    return tried[0]


def _over(draft: Draft, sheave: str, before: Spot | None, beyond: Spot | None) -> dict:
    return {"over": sheave, "turns": places.turning(before, places.of_sheave(draft, sheave), beyond) or CLOCKWISE}


def _inwards(draft: Draft, path: list[dict], which: int) -> tuple[Spot | None, Spot | None]:
    """The places of the stop next to an end and of the one after that."""
    inner = path[-2::-1] if which else path[1:]
    spots = [places.of_stop(draft, stop) for stop in inner[:2]]
    return (*spots, None, None)[:2]


def _guesses(draft: Draft, rope: str) -> dict[int, str | None]:
    path = stops(draft, rope)
    spots = [places.of_stop(draft, stop) for stop in path]
    return {k: places.turning(*spots[k - 1 : k + 2]) for k in range(1, len(path) - 1)}


def _drum_sense(draft: Draft, rope: str) -> str:
    """As other ropes lie on the drum, or as the rope turns at the sheave before it."""
    own = stops(draft, rope)
    index = next(k for k, stop in enumerate(own) if "wound_on" in stop)
    for name in draft.at(("ropes",)) or {}:
        path = stops(draft, name)
        for k, stop in enumerate(path):
            if name != rope and "wound_on" in stop:
                return CLOCKWISE if ((stop.get("turns") == CLOCKWISE) == (k > 0)) == (index > 0) else ANTICLOCKWISE
    near = own[index - 1] if index else own[1]
    return near.get("turns") or CLOCKWISE


def _followed(old: Draft, new: Draft, rope: str) -> Draft:
    """The new draft, where a sense that was the guess is the guess again."""
    path = stops(old, rope)
    before = {path[index].get("over"): (guess, path[index].get("turns")) for index, guess in _guesses(old, rope).items()}
    for index, guess in _guesses(new, rope).items():
        sheave = stops(new, rope)[index].get("over")
        was, turns = before.get(sheave, (None, None))
        if guess and was and guess != was and turns == was:
            new = flipped(new, rope, index, guess)
    return new


def _with_path(draft: Draft, rope: str, order: list[int | dict]) -> Draft:
    """The stops of a rope in another order, new ones among them; what was typed stays with its stop."""
    base = ("ropes", rope, "path")
    old = draft.at(base) or []
    now = {was: index for index, was in enumerate(order) if isinstance(was, int)}
    typed = {}
    for path, text in draft.typed.items():
        if path[:3] != base or len(path) < 4:
            typed[path] = text
        elif path[3] in now:
            typed[(*base, now[path[3]], *path[4:])] = text
    whole = [copy.deepcopy(old[each]) if isinstance(each, int) else each for each in order]
    return replace(draft.edited(base, whole), typed=typed)
