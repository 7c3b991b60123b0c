"""The drawing in words: a text alternative that tells the same as the picture."""

from __future__ import annotations

from collections.abc import Mapping

from rigcheck import units
from rigcheck.report.outlines import outline
from rigcheck.report.svg import clean
from rigcheck.rig.fields import coordinates
from rigcheck.rig.model import Rig
from rigcheck.statics.travel import Travel

UNKNOWN = "cannot tell"
MARKS_OF_WORDS = "\n\u2068\u2069"  # new lines, and what keeps a name from turning the words around it


def describe(
    travel: Travel,
    *,
    at: int = 0,
    labels: Mapping[tuple[str, int], str] | None = None,
    ticks: Mapping[str, int] | None = None,
    ghost: int | None = None,
) -> str:
    """What the drawing with the same arguments shows, one thing a line."""
    rig = travel.rig
    lines = [f"{_named(rig.name)}, drawn with the load {metres(travel.heights_m[at])} above its lowest place; {_travel(rig)}."]
    lines += [_point(rig, name) for name in rig.points]
    lines += [_body(travel, name, at) for name in rig.bodies]
    lines += [_sheave(travel, name, at) for name in rig.sheaves]
    lines += [_rope(rig, name, labels or {}, ticks) for name in rig.ropes]
    lines.append(_drive(rig))
    if ghost is not None:
        lines.append(f"Drawn thin: the same rig with the load {metres(travel.heights_m[ghost])} above its lowest place.")
    return "\n".join(lines)


def _named(name: str) -> str:
    return f"\u2068{clean(name)}\u2069"


def metres(value_m: float) -> str:
    return units.show(round(float(value_m), 6), "m")


def _place(place) -> str:
    across, up, depth = (float(v) for v in place)
    told = f"{metres(across)} across, {metres(up)} up"
    return f"{told}, {metres(depth)} in depth" if abs(depth) > 1e-9 else told


def _travel(rig: Rig) -> str:
    return f"it travels {rig.limits.travel}"


def _point(rig: Rig, name: str) -> str:
    point = rig.points[name]
    fixing = f", fixing: {_named(point.fixing)}" if point.fixing else ""
    return f"Fixed point {_named(name)} at {_place(coordinates(point.at))}{fixing}."


def _body(travel: Travel, name: str, at: int) -> str:
    body = travel.rig.bodies[name]
    role = {"load": "Load", "counterweight": "Counterweight", "block": "Block", "other": "Body"}[body.role]
    tilts = getattr(body.moves, "tilts", False)
    moves = "hanging level" if body.moves.kind == "level" else "guided, free to tilt" if tilts else "guided"
    size = ", size not stated (drawn dashed)" if outline(travel.rig, name).guessed else f", {body.size[0]} wide and {body.size[1]} high"
    return f"{role} {_named(name)}, {body.mass}, {moves}, its underside at {_place(travel.poses.reference(name)[at])}{size}."


def _sheave(travel: Travel, name: str, at: int) -> str:
    sheave = travel.rig.sheaves[name]
    place = travel.poses.on(sheave.on, coordinates(sheave.offset))[at]
    return f"Sheave {_named(name)} on {_named(sheave.on)}, pitch diameter {sheave.pitch_diameter}, axle at {_place(place)}."


def _stop(stop) -> str:
    if hasattr(stop, "over"):
        return f"over {_named(stop.over)} {stop.turns}"
    if hasattr(stop, "wound_on"):
        return f"the drum ({stop.turns})"
    if hasattr(stop, "pulled_by_hand_at"):
        return f"the hand at {_place(coordinates(stop.pulled_by_hand_at))}"
    return _named(stop.made_fast_to) + (f", pick {_named(stop.pick)}" if stop.pick else "")


def _rope(rig: Rig, name: str, labels: Mapping[tuple[str, int], str], ticks: Mapping[str, int] | None) -> str:
    rope = rig.ropes[name]
    first, *middle, last = rope.path
    route = ", ".join([f"from {_stop(first)}", *map(_stop, middle), f"to {_stop(last)}"])
    told = f"{rope.kind.capitalize()} rope {_named(name)}, {rope.diameter}, {route}."
    beside = [f"run {k + 1} {clean(labels[name, k])}" for k in range(len(rope.path) - 1) if (name, k) in labels]
    if beside:
        told += f" Written beside its runs: {', '.join(beside)}."
    if ticks is not None:
        told += f" Whole factors in hand: {ticks.get(name, UNKNOWN)}."
    return told


def _drive(rig: Rig) -> str:
    if rig.drive.kind != "winch":
        return f"Pulled by hand, people at the line: {rig.drive.people}."
    winch = rig.drive
    told = f"Drum of {winch.drum.diameter} at {_place(coordinates(winch.drum.at))}"
    if winch.drum.dead_wraps is not None:
        told += f", {winch.drum.dead_wraps:g} dead wraps"
    if winch.motor is not None:
        gears = f" through {len(winch.gears)} gear stage{'s' if len(winch.gears) != 1 else ''}" if winch.gears else ""
        return f"{told}, turned by a motor{gears}."
    if winch.crank is not None:
        return f"{told}, turned by a crank of {winch.crank.radius}."
    return f"{told}; what turns it is not stated."
