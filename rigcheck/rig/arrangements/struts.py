"""Hoists that stand on struts: a tripod, shear legs with a back guy, a gin pole with three guys, a jib on a wall.

Across 0 is the middle of the feet, or the wall; the load hangs plumb under one side of the head sheave, and the rope comes down on the other. What the
struts are made of is not asked: sections and materials are entered part by part, since a number that nobody measured would judge them.
"""

from __future__ import annotations

import math
from dataclasses import replace

from rigcheck.rig.arrangements import pieces as p
from rigcheck.rig.arrangements.inputs import Arrangement, Choice, Input, Values

HEAD_POINT = "head"
_BLOCK_HANGS = 1.25  # sheave diameters from the joint down to the axle
_WINCH_UP_M = 0.8
_HALF_TURN = math.pi
_GROUND, _ANCHORED = "on the ground", "bolted down or dug in"

HEAD = replace(p.HEAD, label="Height of the head", help="From the ground up to where the struts meet.")
REACH = Input("reach", "Reach of the jib", "length", "1.2 m", "From the wall out to where tie and jib meet.", most=20)
SPREAD = Input(
    "foot_distance",
    "Distance of the feet from the middle",
    "length",
    "1.2 m",
    "Along the ground, from plumb under the head to each foot.",
    most=20,
)
LEAN = Input(
    "lean",
    "How far the head leans out",
    "length",
    "0.8 m",
    "From plumb under the head back to the foot, or to the line between the feet.",
    most=20,
)
FEET = Choice(
    "feet", "The feet stand", (_GROUND, _ANCHORED, f"{p.UNKNOWN}: drawn on the ground"), _GROUND,
    "A foot that only stands on the ground may kick away or lift.",
)  # fmt: skip
APART = Choice(
    "apart", "Feet of the legs stand apart", ("a third of the height", "half of the height", f"{p.UNKNOWN}: drawn at half of the height"),
    "half of the height", "Along the ground, from one foot to the other.",
)  # fmt: skip
GUYS_OUT = Choice(
    "guys", "Anchors of the guys stand out", ("as far as the head is high", "twice as far", f"{p.UNKNOWN}: drawn as far as it is high"),
    "as far as the head is high", "Along the ground, from the foot to each anchor. The farther out, the less the guys pull.",
)  # fmt: skip
TIE = Choice(
    "tie", "The tie rises at", ("30°", "45°", "60°", f"{p.UNKNOWN}: drawn at 45°"), "45°",
    "From the level jib up to the wall. The steeper, the less tie and jib are loaded.",
)  # fmt: skip
WORKED_BY = replace(p.WORKED_BY, default="crank on the drum")


class _Standing(p.Pieces):
    """A rig on struts being put together."""

    def __init__(self, values: Values):
        super().__init__(values)
        self.struts: dict[str, dict] = {}
        self.hangs_m = _BLOCK_HANGS * values["sheave_diameter"]

    def whole(self) -> dict:
        return {"points": self.points, "struts": self.struts, **{k: part for k, part in super().whole().items() if k != "points"}}

    def head(self, across_m: float, load_across_m: float) -> None:
        """The joint at the head with its block hanging in it, and the load under that."""
        self.headroom(self.values["load_height"] + self.hangs_m)
        self.points[HEAD_POINT] = {"at": p.place(across_m, self.values["head_height"]), "held": "struts"}
        self.load(load_across_m)
        self.pick("eye", 0)
        self._sheave(
            "head sheave",
            on=HEAD_POINT,
            offset=p.place(0, -self.hangs_m),
            notes={"offset": f"how far the block hangs down: {p.TYPICAL}"},
        )

    def foot(self, name: str, across_m: float, depth_m: float = 0.0) -> None:
        chosen, is_guess = p.taken(self.values, FEET, _GROUND)
        held = {"held": "ground"} if chosen == _GROUND else {}
        notes = {"notes": {"held": f"drawn on the ground: {p.NOT_LOOKED}"}} if is_guess else {}
        self.points[name] = {"at": p.place(across_m, 0, depth_m), **held, **notes}

    def strut(self, name: str, one_end: str, other_end: str, **more) -> None:
        self.struts[name] = {"one_end": one_end, "other_end": other_end, **more}

    def winch_on(self, strut: str, foot_m: tuple[float, float], head_m: tuple[float, float]) -> None:
        """A hand winch low down on a strut, on the side of the load: the drum's axis one radius and a little beside the strut."""
        up = max(_WINCH_UP_M, self.drum_axis_m())
        self.drum_fits_below(up, self.values["head_height"] - self.hangs_m)
        share = up / max(head_m[1], 1e-9)
        beside = self.winding_radius_m + 0.05
        inwards = -1 if head_m[0] < foot_m[0] else 1
        self.winch(foot_m[0] + share * (head_m[0] - foot_m[0]) + inwards * beside, up, "place of the winch on the strut")
        self.drive["drum"]["bolted_to"] = strut

    def hoist_rope(self, *, turns: str = "clockwise", drum: str = "clockwise", over: tuple[str, ...] = ("head sheave",)) -> None:
        path = [
            {"made_fast_to": p.LOAD, "pick": "eye"},
            *({"over": name, "turns": turns} for name in over),
            {"wound_on": "drum", "turns": drum},
        ]
        self.rope("hoist rope", path)


def _tripod(values: Values) -> dict:
    rig, out, high = _Standing(values), values["foot_distance"], values["head_height"]
    across = values["sheave_diameter"] / 2
    if out < high / 10:
        values.refuse(
            "foot_distance",
            "is too narrow for legs so long: they would stand nearly in one line",
            f"Write at least {p.next_millimetre(high / 10)}.",
        )
    rig.head(across, 0)
    for name, turn in (("winch foot", 0.0), ("front foot", _HALF_TURN * 2 / 3), ("back foot", -_HALF_TURN * 2 / 3)):
        rig.foot(name, across + out * math.cos(turn), out * math.sin(turn))
        rig.strut(name.replace("foot", "leg"), HEAD_POINT, name)
    rig.winch_on("winch leg", (across + out, 0), (across, high))
    rig.hoist_rope()
    return rig.whole()


def _shear_legs(values: Values) -> dict:
    rig, lean, high = _Standing(values), values["lean"], values["head_height"]
    apart, unsure = p.taken(values, APART, "half of the height")
    half = high / 6 if apart.startswith("a third") else high / 4
    rig.head(lean, lean + values["sheave_diameter"] / 2)
    rig.foot("front foot", 0, half)
    rig.foot("back foot", 0, -half)
    rig.strut("front leg", HEAD_POINT, "front foot")
    rig.strut("back leg", HEAD_POINT, "back foot")
    rig.points["guy anchor"] = {"at": p.place(-_guys_out(rig), 0)}
    rig.strut("back guy", HEAD_POINT, "guy anchor", pulls_only=True)
    if unsure:
        rig.points["front foot"].setdefault("notes", {})["at"] = f"how far the feet stand apart: {p.NOT_LOOKED}"
    _tell_guys(rig, "guy anchor")
    axis = rig.drum_axis_m()
    rig.drum_fits_below(axis, high - rig.hangs_m)
    rig.winch(-p.DRUM_AXIS_M, axis, "place of the winch")
    rig.hoist_rope(turns="anticlockwise", drum="anticlockwise")
    return rig.whole()


def _guys_out(rig: _Standing) -> float:
    chosen, _ = p.taken(rig.values, GUYS_OUT, "as far as the head is high")
    return rig.values["head_height"] * (2 if chosen.startswith("twice") else 1)


def _tell_guys(rig: _Standing, *anchors: str) -> None:
    if p.taken(rig.values, GUYS_OUT, "")[1]:
        for name in anchors:
            rig.points[name]["notes"] = {"at": f"how far out: {p.NOT_LOOKED}"}


def _gin_pole(values: Values) -> dict:
    rig, lean, high = _Standing(values), values["lean"], values["head_height"]
    rig.head(lean, lean + values["sheave_diameter"] / 2)
    rig.foot("pole foot", 0)
    rig.strut("pole", HEAD_POINT, "pole foot")
    out = _guys_out(rig)
    anchors = {"load side anchor": 0.0, "front anchor": _HALF_TURN * 2 / 3, "back anchor": -_HALF_TURN * 2 / 3}
    for name, turn in anchors.items():
        rig.points[name] = {"at": p.place(out * math.cos(turn), 0, out * math.sin(turn))}
        rig.strut(name.replace("anchor", "guy"), HEAD_POINT, name, pulls_only=True)
    _tell_guys(rig, *anchors)
    if lean > out / 2:
        values.refuse(
            "lean",
            "leans out farther than half-way to the anchors of the guys",
            f"Write at most {p.metres(math.floor(out / 2 * 1000) / 1000)}.",
        )
    rig.winch_on("pole", (0, 0), (lean, high))
    rig.hoist_rope(turns="anticlockwise", drum="anticlockwise")
    return rig.whole()


def _wall_jib(values: Values) -> dict:
    rig, reach, high, diameter = _Standing(values), values["reach"], values["head_height"], values["sheave_diameter"]
    rig.hangs_m = 0.0
    rises, unsure = p.taken(values, TIE, "45°")
    lead = diameter / 2 + p.FLOOR_CLEARANCE_M
    if reach < lead + 2 * diameter:
        values.refuse(
            "reach",
            "is too short: the sheaves would touch",
            f"With these diameters it must be at least {p.next_millimetre(lead + 2 * diameter)}.",
        )
    rig.headroom(values["load_height"])
    rig.points[HEAD_POINT] = {"at": p.place(reach, high), "held": "struts"}
    rig.points["jib foot"] = {"at": p.place(0, high)}
    rig.points["tie anchor"] = {"at": p.place(0, high + reach * math.tan(math.radians(float(rises.rstrip("°")))))}
    if unsure:
        rig.points["tie anchor"]["notes"] = {"at": f"how steep the tie is: {p.NOT_LOOKED}"}
    rig.strut("jib", HEAD_POINT, "jib foot")
    rig.strut("tie", HEAD_POINT, "tie anchor")
    rig.load(reach + diameter / 2)
    rig.pick("eye", 0)
    rig._sheave("head sheave", on=HEAD_POINT)
    rig.sheave("lead sheave", lead, high, at=f"how far from the wall: {p.TYPICAL}")
    axis = rig.drum_axis_m()
    rig.drum_fits_below(axis, high)
    rig.winch(lead - diameter / 2 + rig.winding_radius_m, axis, "height above the floor")
    rig.hoist_rope(turns="anticlockwise", drum="anticlockwise", over=("head sheave", "lead sheave"))
    return rig.whole()


_BEGIN = (p.MASS, p.HEIGHT, p.TRAVEL, HEAD)
_END = (p.SHEAVE, p.ROPE, p.DRUM)
_CHOICES = (*p.ROPE_CHOICES, p.BEARING, WORKED_BY, *p.WINCH_CHOICES[1:], p.DEAD_WRAPS)

ARRANGEMENTS = (
    Arrangement(
        "tripod", "Tripod with a hand winch",
        "Three legs meet over the load; the rope runs over a head sheave that hangs between them and down to a winch on one of the legs.",
        (*_BEGIN, SPREAD, *_END), (FEET, *_CHOICES), _tripod,
    ),
    Arrangement(
        "shear-legs", "Shear legs with a back guy",
        "Two legs lean out over the load, held back by one guy; the rope runs over a head sheave that hangs between them and down to a winch at their feet.",
        (*_BEGIN, LEAN, *_END), (FEET, APART, GUYS_OUT, *_CHOICES), _shear_legs,
    ),
    Arrangement(
        "gin-pole", "Gin pole with three guys",
        "One pole leans out over the load, held by guys on three sides; the rope runs over a head sheave that hangs from it and down to a winch on the pole.",
        (*_BEGIN, LEAN, *_END), (FEET, GUYS_OUT, *_CHOICES), _gin_pole,
    ),
    Arrangement(
        "wall-jib", "Jib on a wall",
        "A level jib is pushed against the wall and held up by a slanting tie; the rope runs over a head sheave at its end and a lead sheave at the wall down to a winch.",
        (*_BEGIN, REACH, *_END), (TIE, *_CHOICES), _wall_jib,
    ),
)  # fmt: skip
