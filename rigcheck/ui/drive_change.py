"""The drive changed from winch to hand line and back, its gears put in another order: what the rope ends on follows."""

from __future__ import annotations

import copy
from collections.abc import Callable
from dataclasses import replace

from rigcheck.rig.fields import FieldError
from rigcheck.ui.draft import Draft, Path

GEARS: Path = ("drive", "gears")
WHERE_THE_DRUM_WAS = "where the drum was: measure where the hands are"


def is_hand_line(draft: Draft) -> bool:
    return draft.at(("drive", "kind")) == "hand line"


def to_hand_line(draft: Draft) -> Draft:
    """A hand line in place of the winch, pulled where the drum was; FieldError unless one rope is wound on the drum."""
    ends = _ends(draft, "wound_on")
    if len(ends) != 1:
        told = (
            "no rope is wound on the drum" if not ends else f"{len(ends)} ropes are wound on the drum: {', '.join(end[1] for end in ends)}"
        )
        raise FieldError(told, "A hand line is the one end of one rope: let exactly one rope end on the drum, then change the drive.")
    place = draft.at(("drive", "drum", "at")) or ["0 m", "1 m"]
    stop = {"pulled_by_hand_at": list(place), "notes": {"pulled_by_hand_at": WHERE_THE_DRUM_WAS}}
    return _without_typed(_with(draft, {"kind": "hand line"}, {ends[0]: stop}), ("drive",))


def to_winch(draft: Draft, drum: dict, turns: str) -> Draft:
    """A winch with this drum in place of the hand line; what was pulled by hand is wound on it, turning as told."""
    stop = {"wound_on": "drum", "turns": turns}
    changed = _with(draft, {"kind": "winch", "drum": drum}, {end: dict(stop) for end in _ends(draft, "pulled_by_hand_at")})
    return _without_typed(changed, ("drive",))


def gear_moved(draft: Draft, index: int, by: int) -> Draft:
    """A gear stage moved towards the motor (-1) or the drum (+1)."""
    order = list(range(len(draft.at(GEARS) or ())))
    other = index + by
    if not 0 <= other < len(order):
        return draft
    order[index], order[other] = order[other], order[index]
    return _in_order(draft, order)


def gear_removed(draft: Draft, index: int) -> Draft:
    """One stage fewer."""
    return _in_order(draft, [k for k in range(len(draft.at(GEARS) or ())) if k != index])


def gear_added(draft: Draft, data: dict) -> Draft:
    """One more stage, at the drum."""
    return draft.edited(GEARS, [*(draft.at(GEARS) or []), data])


def _in_order(draft: Draft, order: list[int]) -> Draft:
    gears = draft.at(GEARS) or []
    places = {old: new for new, old in enumerate(order)}
    typed = {}
    for path, text in draft.typed.items():
        if path[:2] != GEARS or len(path) < 3:
            typed[path] = text
        elif path[2] in places:
            typed[(*GEARS, places[path[2]], *path[3:])] = text
    return replace(draft.edited(GEARS, [gears[k] for k in order] or None), typed=typed)


def _ends(draft: Draft, key: str) -> list[Path]:
    return [
        ("ropes", name, "path", index)
        for name, rope in (draft.at(("ropes",)) or {}).items()
        for index, stop in enumerate(rope.get("path") or ())
        if isinstance(stop, dict) and key in stop
    ]


def _with(draft: Draft, drive: dict, stops: dict[Path, dict]) -> Draft:
    data = copy.deepcopy(draft.data)
    data["drive"] = drive
    for (section, name, path, index), stop in stops.items():
        data[section][name][path][index] = stop
    changed = replace(draft, data=data)
    for end in stops:
        changed = _without_typed(changed, end)
    return changed


def _without_typed(draft: Draft, within: Path) -> Draft:
    keep: Callable[[Path], bool] = lambda path: path[: len(within)] != within
    return replace(draft, typed={path: text for path, text in draft.typed.items() if keep(path)})
