"""New parts that a sentence calls for: sheaves, fixed points, eyes, bodies, a drum; each put somewhere likely, with a note to measure it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from rigcheck import units
from rigcheck.errors import QuantityError
from rigcheck.rig.fields import FieldError
from rigcheck.ui import draft_parts, drive_change, places
from rigcheck.ui.draft import Draft
from rigcheck.ui.form_notes import PLACED, TYPICAL
from rigcheck.ui.places import Spot

Target = tuple[str, ...]

OVER, ON_NEW_POINT, ON, ON_NEW_BLOCK = "over", "new sheave on a new point", "new sheave on", "new sheave on a new block"
AT, NEW_POINT, NEW_EYE, NEW_COUNTERWEIGHT, NEW_BLOCK, ON_DRUM, BY_HAND = (
    "at", "new point", "new eye", "new counterweight", "new block", "drum", "hand",
)  # fmt: skip

_LONGEST = 40
_FLOOR_M, _EYE_M, _ASIDE_M, _HAND_M, _DRUM_M = 0.1, 0.3, 1.5, 1.2, 0.4
_APART = 3  # a dead end beside a sheave, in its diameters
_BLOCK_KG = 5


def sheaves(draft: Draft, target: Target, before: Spot | None, after: Spot | None) -> Iterator[tuple[Draft, str]]:
    """The draft with the new sheave, and its name, at one likely place after the other; a sheave there already as it is."""
    if target[0] == OVER:
        yield draft, target[1]
        return
    diameter, width = _usual_diameter(draft)
    sheave = {"pitch_diameter": diameter, "notes": {"pitch_diameter": TYPICAL}}
    if target[0] == ON_NEW_POINT:
        name = draft_parts.free_name(draft, "lead sheave")
        hanger = draft_parts.free_name(draft, f"hanger of {name}")
        for spot in places.fixed_spots(draft, before, after, width):
            pointed = draft_parts.added(draft, "points", hanger, _point(spot))
            yield draft_parts.added(pointed, "sheaves", name, {"on": hanger, **sheave}), name
        return
    carrier, name = target[-1], draft_parts.free_name(draft, "travelling sheave")
    if target[0] == ON_NEW_BLOCK:
        draft, carrier = _body(draft, "block", _between(draft, before, after), eye=None)
    elif carrier in (draft.at(("points",)) or {}):
        name = draft_parts.free_name(draft, "lead sheave")
        yield draft_parts.added(draft, "sheaves", name, {"on": carrier, **sheave}), name
        return
    for spot in places.spots_on(draft, carrier, before, after, width):
        notes = {**sheave["notes"], "offset": PLACED}
        data = {"on": carrier, "offset": [places.text_of(step) for step in spot], **sheave, "notes": notes}
        yield draft_parts.added(draft, "sheaves", name, data), name


def end(draft: Draft, rope: str, target: Target, near: Spot | None, beyond: Spot | None, is_last: bool) -> tuple[Draft, dict]:
    """The draft with what the end of a rope needs, and the end itself; `near` is the stop next to it, `beyond` the one after that.

    FieldError where the drive cannot be changed to what the end asks for.
    """
    kind = target[0]
    if kind == AT:
        return draft, {"made_fast_to": target[1], **({"pick": target[2]} if len(target) > 2 and target[2] else {})}
    if kind == NEW_POINT:
        name = draft_parts.free_name(draft, f"dead end of {rope}"[:_LONGEST])
        return draft_parts.added(draft, "points", name, _point(_dead_end(draft, near, beyond))), {"made_fast_to": name}
    if kind == NEW_EYE:
        return _new_eye(draft, target[1], near)
    if kind == NEW_COUNTERWEIGHT:
        lowest = (places.metres(draft.at(("limits", "travel"))) or 1.0) + _FLOOR_M
        draft, name = _body(draft, "counterweight", (_under(near, beyond), lowest), eye=_EYE_M)
        return draft, {"made_fast_to": name, "pick": "eye"}
    if kind == NEW_BLOCK:
        draft, name = _body(draft, "block", (_under(near, beyond), round((near[1] if near else 2.0) / 2, 2)), eye=_FLOOR_M)
        return draft, {"made_fast_to": name, "pick": "eye"}
    if kind == ON_DRUM:
        return _on_drum(draft, near, beyond), {"wound_on": "drum", "turns": places.CLOCKWISE}
    return _by_hand(draft, rope, near, beyond, is_last)


def _point(spot: Spot) -> dict:
    return {"at": [places.text_of(step) for step in spot], "notes": {"at": PLACED}}


def _usual_diameter(draft: Draft) -> tuple[str, float]:
    """That of the first sheave whose diameter can be read, as text and in metres."""
    for name in draft.at(("sheaves",)) or {}:
        text = draft.at(("sheaves", name, "pitch_diameter"))
        if found := places.metres(text):
            return text, found
    return f"{places.SHEAVE_M * 1000:g} mm", places.SHEAVE_M


def _between(draft: Draft, before: Spot | None, after: Spot | None) -> Spot:
    known = [spot for spot in (before, after) if spot] or [(0.0, 0.0)]
    return round(sum(spot[0] for spot in known) / len(known), 2), round(places.beam(draft) / 2, 2)


def _body(draft: Draft, role: str, spot: Spot, eye: float | None) -> tuple[Draft, str]:
    name = draft_parts.free_name(draft, role)
    mass = _half_of_the_load(draft) if role == "counterweight" else f"{_BLOCK_KG} kg"
    data = {
        "role": role,
        "mass": mass,
        "at": [places.text_of(step) for step in spot],
        "notes": {"mass": f"{TYPICAL}, weigh it", "at": PLACED},
    }
    if eye is not None:
        data["picks"] = {"eye": ["0 m", places.text_of(eye)]}
        data["notes"]["picks"] = PLACED
    return draft_parts.added(draft, "bodies", name, data), name


def _half_of_the_load(draft: Draft) -> str:
    for body in (draft.at(("bodies",)) or {}).values():
        if body.get("role") == "load":
            try:
                return f"{units.read(body.get('mass'), 'mass').value / 2:.3g} kg"
            except QuantityError:
                break
    return "10 kg"


def _under(near: Spot | None, beyond: Spot | None) -> float:
    """The place across of a body that hangs from a sheave, on the side where the rope comes down."""
    if near is None:
        return -_ASIDE_M
    away = near[0] - beyond[0] if beyond else -1.0
    return round(near[0] + math.copysign(places.SHEAVE_M / 2, away), 2)


def _dead_end(draft: Draft, near: Spot | None, beyond: Spot | None) -> Spot:
    if near is None:
        return 0.0, round(places.beam(draft), 2)
    away = near[0] - beyond[0] if beyond else -1.0
    return round(near[0] + math.copysign(_APART * places.SHEAVE_M, away), 2), round(places.beam(draft), 2)


def _new_eye(draft: Draft, body: str, near: Spot | None) -> tuple[Draft, dict]:
    eyes = draft_parts.picks(draft, body)
    name = "eye" if "eye" not in eyes else next(each for k in range(2, 100) if (each := f"eye {k}") not in eyes)
    own = places.of_carrier(draft, body) or (0.0, 0.0)
    across = round(near[0] - own[0], 2) if near else 0.1 * len(eyes)
    up = places.top(draft, body)
    notes = {**(draft.at(("bodies", body, "notes")) or {})}
    notes.setdefault("picks", f"{name}: {PLACED}")
    draft = draft_parts.pick_added(draft, body, name)
    draft = draft.edited(("bodies", body, "picks", name), [places.text_of(across), places.text_of(up)])
    return draft.edited(("bodies", body, "notes"), notes), {"made_fast_to": body, "pick": name}


def _aside(near: Spot | None, beyond: Spot | None, by_m: float) -> float:
    if near is None:
        return by_m
    return round(near[0] + math.copysign(by_m, near[0] - beyond[0] if beyond and beyond[0] != near[0] else 1.0), 2)


def _on_drum(draft: Draft, near: Spot | None, beyond: Spot | None) -> Draft:
    if not drive_change.is_hand_line(draft):
        return draft
    at = [places.text_of(_aside(near, beyond, _ASIDE_M)), places.text_of(_DRUM_M)]
    drum = {"at": at, "diameter": f"{places.SHEAVE_M * 1000:g} mm", "notes": {"at": PLACED, "diameter": TYPICAL}}
    return drive_change.to_winch(draft, drum, places.CLOCKWISE)


def _by_hand(draft: Draft, rope: str, near: Spot | None, beyond: Spot | None, is_last: bool) -> tuple[Draft, dict]:
    up = min(_HAND_M, near[1] / 2) if near else _HAND_M
    stop = {
        "pulled_by_hand_at": [places.text_of(_aside(near, beyond, _ASIDE_M / 2)), places.text_of(up)],
        "notes": {"pulled_by_hand_at": PLACED},
    }
    if drive_change.is_hand_line(draft):
        return draft, stop
    wound = [name for name, data in (draft.at(("ropes",)) or {}).items() for each in data.get("path") or () if "wound_on" in each]
    if wound == [rope]:
        path = drive_change.to_hand_line(draft).at(("ropes", rope, "path"))
        own = path[-1 if is_last else 0]
        if "pulled_by_hand_at" in own:
            stop = own
    elif wound:
        raise FieldError(
            f"ropes are wound on the drum: {', '.join(wound)}", "Let them end elsewhere first, then one rope can be pulled by hand."
        )
    typed = {path: text for path, text in draft.typed.items() if path[:1] != ("drive",)}
    return replace(draft.edited(("drive",), {"kind": "hand line"}), typed=typed), stop
