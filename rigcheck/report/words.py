"""The drawing in words: a text alternative that tells the same as the picture."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rigcheck import units, whereabouts
from rigcheck.report.outlines import outline
from rigcheck.report.strut_marks import STRUT
from rigcheck.report.svg import clean
from rigcheck.rig.fields import coordinates
from rigcheck.rig.model import Rig
from rigcheck.statics.travel import Travel

UNKNOWN, FALLS_SHORT = "cannot tell", "falls short"
MOST_STROKES = 9
ROLES = {"load": "Load", "counterweight": "Counterweight", "block": "Block", "other": "Body"}
MARKS_OF_WORDS = "\n\u2068\u2069"  # new lines, and what keeps a name from turning the words around it


@dataclass(frozen=True)
class Dimension:
    """A distance to be measured, with its letter: from one place in the rig, (3,) in metres, to another."""

    letter: str
    start: tuple[float, float, float]
    end: tuple[float, float, float]


@dataclass(frozen=True)
class Callout:
    """A thing to be looked at or weighed, with its letter: at a place in the rig, (3,) in metres."""

    letter: str
    place: tuple[float, float, float]


def describe(
    travel: Travel,
    *,
    at: int = 0,
    labels: Mapping[tuple[str, int], str] | None = None,
    ticks: Mapping[str, int] | None = None,
    ghost: int | None = None,
    notes: Sequence[str] = (),
    dimensions: Sequence[Dimension] = (),
    callouts: Sequence[Callout] = (),
) -> str:
    """What the drawing with the same arguments shows, one thing a line."""
    rig = travel.rig
    lines = [f"{_named(rig.name)}, drawn with the load {_above(travel, at)}; {_travel(rig)}."]
    lines += [_point(rig, name) for name in rig.points]
    lines += [_strut(rig, name, labels or {}) for name in rig.struts]
    lines += [_body(travel, name, at) for name in rig.bodies]
    lines += [_sheave(travel, name, at) for name in rig.sheaves]
    lines += [_rope(rig, name, labels or {}, ticks) for name in rig.ropes]
    lines.append(_drive(rig))
    if ghost is not None:
        lines.append(f"Drawn thin: the same rig with the load {_above(travel, ghost)}.")
    lines += [f"Letter {each.letter}: from {place_words(each.start)} to {place_words(each.end)}." for each in dimensions]
    lines += [f"Letter {each.letter}: at {place_words(each.place)}." for each in callouts]
    lines += [f"{clean(note)}." for note in notes]
    return "\n".join(lines)


def times_words(times: int) -> str:
    """How many whole times over a rope has its required factor, as it is written where it is not drawn.

    >>> times_words(0), times_words(3), times_words(12)
    ('falls short', '3 times', '9+ times')
    """
    if times < 1:
        return FALLS_SHORT
    return f"{times} time{'s' * (times != 1)}" if times <= MOST_STROKES else f"{MOST_STROKES}+ times"


def _named(name: str) -> str:
    return f"\u2068{clean(name)}\u2069"


def metres(value_m: float) -> str:
    return units.show(round(float(value_m), 6), "m")


def place_words(place) -> str:
    """A place, (3,), as the forms say it."""
    across, up, depth = (float(v) for v in place)
    told = f"{metres(across)} across, {metres(up)} up"
    return f"{told}, {metres(depth)} in depth" if abs(depth) > 1e-9 else told


def _above(travel: Travel, at: int) -> str:
    told = f"{metres(travel.heights_m[at])} above its lowest place"
    return told if travel.angles_rad is None else f"{told}, {whereabouts.swung(travel.angle_rad(at))}"


def _travel(rig: Rig) -> str:
    return f"it swings by {rig.limits.swing}" if rig.swings else f"it travels {rig.limits.travel}"


def _point(rig: Rig, name: str) -> str:
    point = rig.points[name]
    fixing = f", fixing: {_named(point.fixing)}" if point.fixing else ""
    if point.held == "struts":
        return f"Joint {_named(name)} at {place_words(coordinates(point.at))}, held by struts{fixing}."
    if point.held == "ground":
        return f"Foot {_named(name)} on the ground at {place_words(coordinates(point.at))}{fixing}."
    return f"Fixed point {_named(name)} at {place_words(coordinates(point.at))}{fixing}."


def _strut(rig: Rig, name: str, labels: Mapping[tuple[str, int], str]) -> str:
    strut = rig.struts[name]
    what = "which can only pull" if strut.pulls_only else "which can push and pull"
    beside = f". Written beside it: {clean(labels[name, STRUT])}" if (name, STRUT) in labels else ""
    return f"Strut {_named(name)} from {_named(strut.one_end)} to {_named(strut.other_end)}, {what}{beside}."


def _body(travel: Travel, name: str, at: int) -> str:
    body = travel.rig.bodies[name]
    role = ROLES[body.role]
    tilts = getattr(body.moves, "tilts", False)
    match body.moves.kind:
        case "level":
            moves = "hanging level"
        case "free":
            moves = "hanging free"
        case "hinged":
            moves = f"turning about a hinge at {place_words(coordinates(body.moves.hinge))}"
        case "carried":
            moves = f"fixed on {_named(body.moves.by)}"
        case _:
            moves = "guided, free to tilt" if tilts else "guided"
    size = ", size not stated (drawn dashed)" if outline(travel.rig, name).guessed else f", {body.size[0]} wide and {body.size[1]} high"
    return f"{role} {_named(name)}, {body.mass}, {moves}, its underside at {place_words(travel.poses.reference(name)[at])}{size}."


def _sheave(travel: Travel, name: str, at: int) -> str:
    sheave = travel.rig.sheaves[name]
    place = travel.poses.on(sheave.on, coordinates(sheave.offset))[at]
    return f"Sheave {_named(name)} on {_named(sheave.on)}, pitch diameter {sheave.pitch_diameter}, axle at {place_words(place)}."


def _stop(stop) -> str:
    if hasattr(stop, "over"):
        return f"over {_named(stop.over)} {stop.turns}"
    if hasattr(stop, "wound_on"):
        return f"the drum ({stop.turns})"
    if hasattr(stop, "pulled_by_hand_at"):
        return f"the hand at {place_words(coordinates(stop.pulled_by_hand_at))}"
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
        told += f" {_factor(ticks.get(name))}"
    return told


def _factor(times: int | None) -> str:
    if times is None:
        return f"Whether it has its required factor: {UNKNOWN}."
    if times < 1:
        return "It falls short: of its required factor, or of what else is asked of a rope."
    often = f"more than {MOST_STROKES} times" if times > MOST_STROKES else "once" if times == 1 else f"{times} times"
    return f"Its required factor is covered {often}, whole times counted."


def _drive(rig: Rig) -> str:
    if rig.drive.kind != "winch":
        return f"Pulled by hand, people at the line: {rig.drive.people}."
    winch = rig.drive
    told = f"Drum of {winch.drum.diameter} at {place_words(coordinates(winch.drum.at))}"
    if winch.drum.bolted_to is not None:
        told += f", bolted to {_named(winch.drum.bolted_to)}"
    if winch.drum.dead_wraps is not None:
        told += f", {winch.drum.dead_wraps:g} dead wraps"
    if winch.motor is not None:
        gears = f" through {len(winch.gears)} gear stage{'s' if len(winch.gears) != 1 else ''}" if winch.gears else ""
        told += f", turned by a motor{gears}"
    elif winch.crank is not None:
        told += f", turned by a crank of {winch.crank.radius}"
    else:
        told += "; what turns it is not stated"
    known = winch.brake is not None and (winch.brake.on, winch.brake.sets_itself, winch.brake.torque) != (None, None, None)
    held = [f"a brake on the {winch.brake.on}" if winch.brake.on else "a brake"] if known else []
    held += ["a pawl on the drum"] if winch.pawl is not None else []
    return f"{told}{'; held by ' if held else ''}{' and '.join(held)}."
