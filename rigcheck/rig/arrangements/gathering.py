"""Four ropes from the corners of a load over four head sheaves, gathered in one ring, and the ring on one rope to a winch.

Drawn with the ring to the right of the load. The ropes from the near and from the far corners run to the ring at different slants, so
they take in a little less or more as it moves, and the load tilts by the difference.
"""

from __future__ import annotations

import math
from dataclasses import replace

from rigcheck.rig.arrangements import pieces as p
from rigcheck.rig.arrangements.bridle import ACROSS, DEPTH, eyes_at_corners
from rigcheck.rig.arrangements.inputs import Arrangement, Input, Values

_LOAD_HEIGHT_M, _SPARE_M, _CLEAR_M = 0.6, 0.3, 0.3

MASS = replace(p.MASS, help="All that hangs on the four ropes. Weigh it.")
TO_RING = Input(
    "to_ring", "Distance to the ring", "length", "2 m",
    "Across, from the middle of the load to the ring, with the load at its lowest. The farther, the less the load tilts.",
)  # fmt: skip


def _gathered(values: Values) -> dict:
    rig = p.Pieces(values)
    travel, diameter, radius, axis = values["travel"], values["sheave_diameter"], rig.winding_radius_m, rig.drum_axis_m()
    corners, to_ring = eyes_at_corners(values["spread"], values["depth"]), values["to_ring"]
    least = values["spread"] / 2 + diameter + _CLEAR_M
    if to_ring < least - 1e-9:
        values.refuse("to_ring", "is too near the sheaves over the load", f"Write at least {p.next_millimetre(least)}.")
    head = max(travel + _LOAD_HEIGHT_M + _SPARE_M, axis + radius) + p.HEADROOM_M + diameter
    rig.free_load(_LOAD_HEIGHT_M, 0.0, in_depth=True)
    rig.bodies[p.RING] = rig.ring(to_ring, head + diameter / 2, in_depth=True)
    for eye, (across, depth) in corners.items():
        rig.bodies[p.LOAD]["picks"][eye] = p.place(across, _LOAD_HEIGHT_M, depth)
        corner = eye.removesuffix(" eye")
        slant = math.atan2(-depth, to_ring - across)
        aside = diameter / 2
        rig.sheave(
            f"{corner} sheave", across + aside * math.cos(slant), head, at=f"plumb over its eye, height above the floor: {p.TYPICAL}"
        )
        rig.points[f"hanger of {corner} sheave"]["at"] = p.place(across + aside * math.cos(slant), head, depth + aside * math.sin(slant))
        rig.rope(f"{corner} rope", [
            {"made_fast_to": p.LOAD, "pick": eye},
            {"over": f"{corner} sheave", "turns": "clockwise"},
            {"made_fast_to": p.RING},
        ])  # fmt: skip
    lead = to_ring + travel + _CLEAR_M + diameter
    rig.sheave("lead sheave", lead, head, at=f"beyond the ring's way: {p.TYPICAL}")
    rig.winch(lead + diameter / 2 + radius, axis, "height above the floor")
    rig.rope("hoist rope", [
        {"made_fast_to": p.RING},
        {"over": "lead sheave", "turns": "clockwise"},
        {"wound_on": "drum", "turns": "anticlockwise"},
    ])  # fmt: skip
    return rig.whole()


ARRANGEMENTS = (
    Arrangement(
        "ring-gathering-four", "Four ropes gathered in one ring",
        "Four ropes run from the corners of the load over four head sheaves to one ring, and one rope draws the ring to a winch.",
        (MASS, ACROSS, DEPTH, TO_RING, p.TRAVEL, p.SHEAVE, p.ROPE, p.DRUM),
        p.CHOICES, _gathered,
    ),
)  # fmt: skip
