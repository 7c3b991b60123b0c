"""Where the parts of a draft are, and where a new one goes until it is measured: across and up in metres, None where that cannot be read.

Nothing here is counted with: a place that is put in carries a note, and a sense of turning is a first guess that one press turns round.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from rigcheck import units
from rigcheck.errors import QuantityError
from rigcheck.ui.draft import Draft

CLOCKWISE, ANTICLOCKWISE = "clockwise", "anticlockwise"
Spot = tuple[float, float]

SHEAVE_M = 0.12
_STEPS = (0.0, -1.5, 1.5, -3.0, 3.0, -6.0, 6.0, -10.0, 10.0)
_APART = 1.25  # centres of sheaves side by side, in diameters
_ASIDE_M = 1.0


def metres(text) -> float | None:
    """A length as it was typed, in metres."""
    try:
        return units.read(text, "length").value
    except QuantityError:
        return None


def text_of(value_m: float) -> str:
    """A length put in by the form, as text.

    >>> text_of(0.6), text_of(3.0), text_of(-0.00001), text_of(0.0375)
    ('0.6 m', '3 m', '0 m', '0.0375 m')
    """
    return f"{round(value_m, 4) + 0.0:g} m"


def of_place(draft: Draft, path: tuple) -> Spot | None:
    """A place of the draft, counted from what it is counted from there."""
    steps = draft.at(path)
    if not isinstance(steps, list) or len(steps) < 2:
        return None
    across, up = metres(steps[0]), metres(steps[1])
    return None if across is None or up is None else (across, up)


def of_carrier(draft: Draft, name: str) -> Spot | None:
    """A point, or the reference point of a body."""
    section = "points" if name in (draft.at(("points",)) or {}) else "bodies"
    return of_place(draft, (section, name, "at"))


def of_sheave(draft: Draft, name: str) -> Spot | None:
    """The axle of a sheave."""
    carrier = of_carrier(draft, draft.at(("sheaves", name, "on")))
    offset = (0.0, 0.0) if draft.at(("sheaves", name, "offset")) is None else of_place(draft, ("sheaves", name, "offset"))
    return None if carrier is None or offset is None else (carrier[0] + offset[0], carrier[1] + offset[1])


def of_stop(draft: Draft, stop: dict) -> Spot | None:
    """The middle of what a stop of a rope is."""
    if "over" in stop:
        return of_sheave(draft, stop["over"])
    if "wound_on" in stop:
        return of_place(draft, ("drive", "drum", "at"))
    if "pulled_by_hand_at" in stop:
        steps = stop["pulled_by_hand_at"]
        across, up = (metres(step) for step in steps[:2]) if isinstance(steps, list) and len(steps) > 1 else (None, None)
        return None if across is None or up is None else (across, up)
    name = stop.get("made_fast_to")
    carrier = of_carrier(draft, name)
    eye = of_place(draft, ("bodies", name, "picks", stop["pick"])) if stop.get("pick") else (0.0, 0.0)
    return None if carrier is None or eye is None else (carrier[0] + eye[0], carrier[1] + eye[1])


def diameter(draft: Draft, sheave: str) -> float:
    """The pitch diameter of a sheave, or an ordinary one where it cannot be read."""
    return metres(draft.at(("sheaves", sheave, "pitch_diameter"))) or SHEAVE_M


def beam(draft: Draft) -> float:
    """How high the highest sheave on a fixed point hangs, or the highest point."""
    points = draft.at(("points",)) or {}
    heights = [of_carrier(draft, name) for name in points]
    return max((spot[1] for spot in heights if spot), default=3.0)


def top(draft: Draft, body: str) -> float:
    """How high the eyes of a body are above its underside; its height, or an ordinary one, where it has none."""
    eyes = [of_place(draft, ("bodies", body, "picks", name)) for name in draft.at(("bodies", body, "picks")) or {}]
    size = draft.at(("bodies", body, "size")) or []
    height = metres(size[1]) if len(size) > 1 else None
    return max((eye[1] for eye in eyes if eye), default=height or 0.3)


def turning(before: Spot | None, here: Spot | None, after: Spot | None) -> str | None:
    """The sense in which a rope turns its corner at a place, None where it runs straight on or a place is not known.

    >>> turning((0, 0), (0.06, 3), (0.7, 1)), turning((0, 3), (0.06, 0), (0.12, 3)), turning((0, 0), (0, 1), (0, 3))
    ('clockwise', 'anticlockwise', None)
    """
    if before is None or here is None or after is None:
        return None
    (ax, ay), (bx, by) = (here[0] - before[0], here[1] - before[1]), (after[0] - here[0], after[1] - here[1])
    cross = ax * by - ay * bx
    if abs(cross) <= 1e-9 * (math.hypot(ax, ay) * math.hypot(bx, by)):
        return None
    return ANTICLOCKWISE if cross > 0 else CLOCKWISE


def wrap(before: Spot | None, here: Spot | None, after: Spot | None, turns: str | None) -> float | None:
    """The angle, in radians, by which a rope that is drawn to the axles turns at a place in a sense; None where a place is not known.

    >>> round(wrap((0, 0), (0, 3), (3, 3), "clockwise"), 3), round(wrap((0, 0), (0, 3), (3, 3), "anticlockwise"), 3)
    (1.571, 4.712)
    """
    if before is None or here is None or after is None or turns not in (CLOCKWISE, ANTICLOCKWISE):
        return None
    into, out = (math.atan2(b[1] - a[1], b[0] - a[0]) for a, b in ((before, here), (here, after)))
    return ((out - into) * (1 if turns == ANTICLOCKWISE else -1)) % (2 * math.pi)


def is_free(draft: Draft, spot: Spot, across_m: float, but: str | None = None) -> bool:
    """Whether a sheave of a diameter would hang clear of all other sheaves, of the drum and of the lowest pose of the bodies."""
    for name in draft.at(("sheaves",)) or {}:
        other = of_sheave(draft, name) if name != but else None
        if other and math.dist(spot, other) < _APART * (across_m + diameter(draft, name)) / 2:
            return False
    drum = of_place(draft, ("drive", "drum", "at"))
    width = metres(draft.at(("drive", "drum", "diameter"))) or SHEAVE_M
    return not drum or math.dist(spot, drum) >= _APART * (across_m + width) / 2


def fixed_spots(draft: Draft, before: Spot | None, after: Spot | None, across_m: float) -> Iterator[Spot]:
    """Places for a sheave overhead between two stops, the likeliest first: above the stop that follows, so that the rope drops to it plumb.

    Where nothing follows yet: above the stop before, or aside from one that is overhead itself.
    """
    known = [spot for spot in (before, after) if spot]
    up = max([beam(draft), *(spot[1] for spot in known)])
    from_x = before[0] if before else after[0] if after else 0.0
    is_below = before is not None and before[1] < up - _ASIDE_M / 2
    to_x = after[0] if after else from_x if is_below else from_x - _ASIDE_M
    inwards = math.copysign(across_m / 2, from_x - to_x) if after and to_x != from_x else 0.0
    for level in (up, up + 2 * across_m):
        for step in _STEPS:
            for x in (to_x + inwards, from_x):
                spot = (round(x + step * across_m, 2), round(level, 2))
                if is_free(draft, spot, across_m):
                    yield spot


def spots_on(draft: Draft, body: str, before: Spot | None, after: Spot | None, across_m: float) -> Iterator[Spot]:
    """Places for a sheave on top of a body, counted from the body: midway between the neighbours first."""
    own = of_carrier(draft, body) or (0.0, 0.0)
    known = [spot[0] for spot in (before, after) if spot]
    middle = sum(known) / len(known) - own[0] if known else 0.0
    up = top(draft, body)
    for level in (up, up + 2 * across_m):
        for step in _STEPS:
            spot = (round(middle + step * across_m, 2), round(level, 2))
            if is_free(draft, (own[0] + spot[0], own[1] + spot[1]), across_m):
                yield spot


def first(spots: Iterable[Spot], otherwise: Spot) -> Spot:
    return next(iter(spots), otherwise)
