"""Rigs to draw: every example, every arrangement with its options, and some that are hard on a drawing."""

from __future__ import annotations

from functools import cache

from rigcheck.report.drawing import Picture, compose
from rigcheck.rig import examples
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.rig.model import Rig
from rigcheck.statics.travel import Travel, follow

HOSTILE = '<b a="1">&\'x</b>'
HEBREW = "\u05de\u05e0\u05d5\u05e3 \u05e8\u05d0\u05e9\u05d9"


def in_depth() -> Rig:
    """A line over two sheaves that are not in one plane, pulled by hand."""
    return Rig.model_validate({
        "format": 1, "name": "boat shed",
        "points": {"rear beam": {"at": ["0 m", "2.8 m", "0.6 m"]}, "front beam": {"at": ["1.2 m", "2.8 m", "0 m"]}},
        "bodies": {"outboard motor": {"role": "load", "mass": "60 kg", "at": ["0 m", "0.3 m", "0.6 m"], "size": ["0.35 m", "0.9 m"], "picks": {"eye": ["0 m", "0.95 m"]}}},
        "sheaves": {"rear": {"on": "rear beam", "offset": ["0.05 m", "0 m"], "pitch_diameter": "0.1 m"}, "front": {"on": "front beam", "pitch_diameter": "0.1 m"}},
        "ropes": {"line": {"kind": "fibre", "diameter": "10 mm", "path": [
            {"made_fast_to": "outboard motor", "pick": "eye"}, {"over": "rear", "turns": "clockwise"}, {"over": "front", "turns": "clockwise"},
            {"pulled_by_hand_at": ["1.5 m", "1.1 m", "-0.2 m"]},
        ]}},
        "drive": {"kind": "hand line"}, "limits": {"travel": "1.2 m"},
    })  # fmt: skip


def winch_in_depth() -> Rig:
    """A crate on one line that is led to a drum standing further back, with its width and its dead wraps stated."""
    return Rig.model_validate({
        "format": 1, "name": "barn door",
        "points": {"ridge": {"at": ["0 m", "3 m", "0 m"]}},
        "bodies": {"crate": {"role": "load", "mass": "80 kg", "at": ["0 m", "0 m", "0 m"], "size": ["0.6 m", "0.5 m"], "picks": {"eye": ["0 m", "0.5 m"]}}},
        "sheaves": {"ridge sheave": {"on": "ridge", "offset": ["0.1 m", "0 m"], "pitch_diameter": "0.2 m"}},
        "ropes": {"line": {"kind": "steel", "diameter": "8 mm", "path": [
            {"made_fast_to": "crate", "pick": "eye"}, {"over": "ridge sheave", "turns": "clockwise"}, {"wound_on": "drum", "turns": "clockwise"},
        ]}},
        "drive": {"kind": "winch", "drum": {"at": ["1.8 m", "0.6 m", "-0.8 m"], "diameter": "0.2 m", "width": "0.4 m", "flange_diameter": "0.3 m", "dead_wraps": 2}},
        "limits": {"travel": "1.5 m"},
    })  # fmt: skip


def oddly_named() -> Rig:
    """A straight lift whose names hold markup, quotes, letters that run leftwards, and sixty letters."""
    long = "a head sheave with a name that is as long as a name may be.."
    return Rig.model_validate({
        "format": 1, "name": HOSTILE,
        "points": {HEBREW: {"at": ["0 m", "2.5 m"], "fixing": "]]> <eye> & \"bolt\""}},
        "bodies": {HOSTILE: {"role": "load", "mass": "60 kg", "at": ["0 m", "0 m"], "picks": {"'": ["0 m", "0.5 m"]}}},
        "sheaves": {long: {"on": HEBREW, "offset": ["0.05 m", "0 m"], "pitch_diameter": "0.1 m"}},
        "ropes": {'"': {"kind": "steel", "diameter": "6 mm", "path": [
            {"made_fast_to": HOSTILE, "pick": "'"}, {"over": long, "turns": "clockwise"}, {"wound_on": "drum", "turns": "clockwise"},
        ]}},
        "drive": {"kind": "winch", "drum": {"at": ["1.5 m", "0.4 m"], "diameter": "94 mm"}}, "limits": {"travel": "1.2 m"},
    })  # fmt: skip


def down_to_the_floor() -> Rig:
    """A fibre rope over a big sheave and under a small one at the floor, turned the other way, and a bare point."""
    return Rig.model_validate({
        "format": 1, "name": "loop",
        "points": {"bare": {"at": ["2 m", "1.95 m"]}, "beam": {"at": ["0.3 m", "2.5 m"]}, "floor eye": {"at": ["0.8 m", "0.1 m"]}},
        "bodies": {"crate": {
            "role": "load", "mass": "40 kg", "at": ["0 m", "0.1 m"], "centre_of_gravity": ["0 m", "0.2 m"], "picks": {"eye": ["0 m", "0.5 m"]},
        }},
        "sheaves": {"big": {"on": "beam", "pitch_diameter": "0.6 m"}, "small": {"on": "floor eye", "pitch_diameter": "0.1 m"}},
        "ropes": {"line": {"kind": "fibre", "diameter": "12 mm", "path": [
            {"made_fast_to": "crate", "pick": "eye"}, {"over": "big", "turns": "clockwise"}, {"over": "small", "turns": "anticlockwise"},
            {"pulled_by_hand_at": ["2.2 m", "0.9 m"]},
        ]}},
        "drive": {"kind": "hand line"}, "limits": {"travel": "1 m"},
    })  # fmt: skip


def up_a_slope() -> Rig:
    """A cart on a slope, drawn up by a travelling block, the winch at the top; its rope is made fast to a wall and runs level."""
    along = {"kind": "guided", "along": [1.0, 0.5]}
    return Rig.model_validate({
        "format": 1, "name": "slipway",
        "points": {"wall": {"at": ["4 m", "2.05 m"]}},
        "bodies": {
            "cart": {"role": "load", "mass": "300 kg", "at": ["0 m", "0 m"], "size": ["0.8 m", "0.4 m"], "picks": {"bow": ["0.4 m", "0.3 m"]}, "moves": along},
            "block": {"role": "block", "mass": "5 kg", "at": ["1.4 m", "0.8 m"], "picks": {"becket": ["-0.1 m", "-0.05 m"]}, "moves": along},
        },
        "sheaves": {"running sheave": {"on": "block", "pitch_diameter": "0.15 m"}},
        "ropes": {
            "hoist rope": {"kind": "steel", "diameter": "8 mm", "path": [
                {"made_fast_to": "wall"}, {"over": "running sheave", "turns": "anticlockwise"}, {"wound_on": "drum", "turns": "clockwise"},
            ]},
            "strop": {"kind": "fibre", "diameter": "16 mm", "path": [{"made_fast_to": "block", "pick": "becket"}, {"made_fast_to": "cart", "pick": "bow"}]},
        },
        "drive": {"kind": "winch", "drum": {"at": ["4 m", "1.5 m"], "diameter": "0.2 m", "width": "0.3 m", "flange_diameter": "0.3 m"}, "crank": {"radius": "0.35 m"}},
        "limits": {"travel": "0.8 m"},
    })  # fmt: skip


def arranged() -> dict[str, Rig]:
    """Every arrangement as it begins, and once more for each option it offers."""
    found = {}
    for slug, each in ARRANGEMENTS.items():
        found[slug] = each.make(each.defaults())
        for choice in each.choices:
            for option in choice.options:
                if option != choice.default and choice.key not in (
                    "bearing",
                    "dead_wraps",
                    "people",
                    "worked_by",
                    "grade",
                    "condition",
                    "ends",
                ):
                    found[f"{slug}, {choice.key} {option}"] = each.make(each.defaults() | {choice.key: option})
    return found


@cache
def drawn() -> dict[str, Rig]:
    """All of them by name; those that only differ in what a rope is made of are left out."""
    own = {
        "in depth": in_depth(),
        "winch in depth": winch_in_depth(),
        "oddly named": oddly_named(),
        "down to the floor": down_to_the_floor(),
        "up a slope": up_a_slope(),
    }
    given = {f"example {name}": examples.example(name) for name in examples.names()}
    return own | given | {name: rig for name, rig in arranged().items() if ", rope " not in name or name.startswith("tackle-hand")}


@cache
def picture_of(name: str, theme: str = "page") -> Picture:
    """A rig with everything that can be asked for: pulls beside all runs, ticks on its first rope only, and the raised load."""
    travel = travel_of(name)
    return compose(travel, labels=pulls_of(travel), ticks=dict.fromkeys(list(travel.rig.ropes)[:1], 7), ghost=-1, theme=theme)


def station(travel, percent: int) -> int:
    """The station so far along the travel."""
    return percent * (len(travel.stations.values) - 1) // 100


@cache
def travel_of(name: str) -> Travel:
    return follow(drawn()[name])


def pulls_of(travel: Travel) -> dict[tuple[str, int], str]:
    """A text of usual length beside every run."""
    return {(rope, k): f"{1177 + 13 * k} N" for rope, path in travel.paths.items() for k in range(len(path.directions))}


def both_pulls_of(travel: Travel, unit: str) -> dict[tuple[str, int], str]:
    """The pulls raising and lowering beside every run, as the pages write them, in N or with the longer figures of lbf."""
    up, down = {"N": ("{} N", "{:.0f}"), "lbf": ("{} lbf", "{:,.1f}")}[unit]
    return {
        (rope, k): up.format(f"{down.format(1290.4 + 13 * k)} / {down.format(1080.2 + 7 * k)}")
        for rope, path in travel.paths.items()
        for k in range(len(path.directions))
    }
