"""A load that hangs free under a ring on two, three or four legs, the ring on one rope over a head sheave to a winch.

The legs meet in the ring, so whatever hangs under it comes to rest with its weight straight below: a load whose weight lies off the
middle tilts until it does. On four legs a stiff load can hang by two of them.
"""

from __future__ import annotations

import math
from dataclasses import replace

from rigcheck.rig.arrangements import pieces as p
from rigcheck.rig.arrangements.inputs import Arrangement, Input, Values

LOAD_HEIGHT_M = 0.4
_SPARE_M = 0.3
_FLATTEST = math.radians(75)  # from the plumb line: a leg flatter than that is hardly meant, and its pull is four times its share

MASS = replace(p.MASS, help="All that hangs under the ring, with the legs. Weigh it.")
LEG = Input(
    "leg_length",
    "Length of a leg",
    "length",
    "0.9 m",
    "From the bearing point in the ring to the eye on the load. All are taken alike.",
    most=20,
)
SPREAD = Input("spread", "Distance between the eyes", "length", "1 m", "From eye to eye on the load.", most=20)
OFF = Input(
    "off_middle", "Weight off the middle", "length", "30 mm",
    "How far the load's centre of gravity lies to the right of the middle between the eyes; 0 mm where it is in the middle. "
    "Balance it on an edge to find out.", least=-10, most=10,
)  # fmt: skip
CIRCLE = Input(
    "circle", "Circle of the eyes", "length", "1 m", "Diameter of the circle on which the three eyes lie, a third of a turn apart.", most=20
)
ACROSS = Input("spread", "Distance between the eyes, across", "length", "1 m", "From eye to eye, seen from the front.", most=20)
DEPTH = Input("depth", "Distance between the eyes, in depth", "length", "0.7 m", "From the front eyes to the back eyes.", most=20)


def eyes_at_corners(across_m: float, depth_m: float) -> dict[str, tuple[float, float]]:
    """The places of four eyes, across and in depth, by their names."""
    return {
        f"{side} {face} eye": (sign * across_m / 2, toward * depth_m / 2)
        for face, toward in (("front", 1), ("back", -1))
        for side, sign in (("left", -1), ("right", 1))
    }


def _two(values: Values) -> dict:
    half = values["spread"] / 2
    return _bridle(values, {"left eye": (-half, 0.0), "right eye": (half, 0.0)}, in_depth=False)


def _three(values: Values) -> dict:
    radius = values["circle"] / 2
    aside = radius * math.sqrt(3) / 2
    return _bridle(values, {"left eye": (-aside, radius / 2), "right eye": (aside, radius / 2), "back eye": (0.0, -radius)})


def _four(values: Values) -> dict:
    return _bridle(values, eyes_at_corners(values["spread"], values["depth"]))


def _bridle(values: Values, eyes: dict[str, tuple[float, float]], in_depth: bool = True) -> dict:
    rig = p.Pieces(values)
    leg, diameter, axis = values["leg_length"], values["sheave_diameter"], rig.drum_axis_m()
    out = max(math.hypot(*eye) for eye in eyes.values())
    if leg * math.sin(_FLATTEST) < out:
        values.refuse("leg_length", "is too short for eyes so far apart: the legs would hang nearly flat",
                      f"Write at least {p.next_millimetre(out / math.sin(_FLATTEST))}.")  # fmt: skip
    above = math.sqrt(max(leg**2 - out**2, 0.0))
    rig.free_load(LOAD_HEIGHT_M, values["off_middle"] if values.asks("off_middle") else 0.0, in_depth)
    for name, (across, depth) in eyes.items():
        rig.bodies[p.LOAD]["picks"][name] = p.place(across, LOAD_HEIGHT_M, depth)
    rig.bodies[p.RING] = rig.ring(0, LOAD_HEIGHT_M + above, in_depth)
    head = max(values["travel"] + LOAD_HEIGHT_M + above + _SPARE_M, axis + rig.winding_radius_m) + p.HEADROOM_M + diameter
    rig.sheave("head sheave", diameter / 2, head, at=f"height above the floor: {p.TYPICAL}")
    rig.winch(max(p.DRUM_DISTANCE_M, out + diameter + rig.winding_radius_m) + out, axis, "place of the winch")
    rig.rope("hoist rope", [
        {"made_fast_to": p.RING},
        {"over": "head sheave", "turns": "clockwise"},
        {"wound_on": "drum", "turns": "clockwise"},
    ])  # fmt: skip
    alike = ("diameter", *(["remaining_strength"] if values.chosen("condition") == p.NEW else []))
    for name in eyes:
        leg_path = [{"made_fast_to": p.LOAD, "pick": name}, {"made_fast_to": p.RING}]
        rig.rope(f"{name.removesuffix(' eye')} leg", leg_path, dict.fromkeys(alike, f"taken to be as of the hoist rope: {p.TYPICAL}"))
    return rig.whole()


_REST = (p.TRAVEL, p.SHEAVE, p.ROPE, p.DRUM)

ARRANGEMENTS = (
    Arrangement(
        "bridle-two", "Load on a two-leg bridle",
        "A load hangs free on two legs under a ring, and the ring on a rope over a head sheave to a winch. It tilts until its weight is under the ring.",
        (MASS, SPREAD, LEG, OFF, *_REST), p.CHOICES, _two,
    ),
    Arrangement(
        "bridle-three", "Load on a three-leg bridle",
        "A load hangs free on three legs under a ring, and the ring on a rope over a head sheave to a winch. It tilts until its weight is under the ring.",
        (MASS, CIRCLE, LEG, OFF, *_REST), p.CHOICES, _three,
    ),
    Arrangement(
        "bridle-four", "Load on a four-leg bridle",
        "A stiff load hangs free on four legs under a ring, and the ring on a rope over a head sheave to a winch. Two of the legs may carry it all.",
        (MASS, ACROSS, DEPTH, LEG, *_REST), p.CHOICES, _four,
    ),
)  # fmt: skip
