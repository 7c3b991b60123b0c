"""A kiln lid on a hinge, with a counterweight on an arm behind it, raised by a rope over a sheave to a winch.

Drawn shut: the lid lies to the right of its hinge and is raised anticlockwise. The counterweight's middle lies on the line of the
hinge while the lid is shut.
"""

from __future__ import annotations

import math
from dataclasses import replace

from rigcheck.rig.arrangements import pieces as p
from rigcheck.rig.arrangements.inputs import Arrangement, Input, Values

_THICK_M = 0.15
_LOWEST_HINGE_M = 0.9
_HEAD_BEHIND, _HEAD_ABOVE_M = 0.4, 0.5  # of the lid's length behind the hinge; above the lid when it stands upright
_WEIGHT_WIDE_M, _WEIGHT_HIGH_M = 0.2, 0.3
_SPARE_RAD = math.radians(5)
_FARTHEST_RAD = math.radians(107)  # a longer swing brings the rope into line with the hinge, however long the lid

MASS = replace(
    p.MASS, label="Mass of the lid", default="60 kg", help="With its frame and lining, without the arm and the counterweight. Weigh it."
)
LENGTH = Input("lid_length", "Length of the lid", "length", "1.2 m", "From the middle of the hinge to the eye at the far edge.", most=20)
SWING = Input("swing", "Swing", "angle", "65 deg", "How far the lid is turned up from where it lies shut.", most=_FARTHEST_RAD)
ARM = Input(
    "arm_length", "Arm of the counterweight", "length", "0.8 m",
    "From the middle of the hinge to the middle of the counterweight. The arm's own weight is not counted; where it matters, add it as a body fixed on the lid.",
    most=20,
)  # fmt: skip
COUNTERWEIGHT = replace(p.COUNTERWEIGHT, default="20 kg", help="With what it is held with, without the arm. Weigh it.")


def _lid(values: Values) -> dict:
    rig = p.Pieces(values)
    long, arm, radius = values["lid_length"], values["arm_length"], rig.winding_radius_m
    hinge = max(_LOWEST_HINGE_M, arm + _WEIGHT_WIDE_M + p.FLOOR_CLEARANCE_M)
    across, up = -_HEAD_BEHIND * long, hinge + long + _HEAD_ABOVE_M
    farthest = math.atan2(up - hinge, across) - _SPARE_RAD
    if values["swing"] > farthest:
        values.refuse("swing", "would bring the rope into line with the hinge", f"Write at most {math.floor(math.degrees(farthest))} deg.")
    typical = {"at": p.TYPICAL}
    rig.bodies[p.LOAD] = {
        "role": "load", "mass": values.text("mass"), "at": p.place(long / 2, hinge), "size": [p.metres(long), p.metres(_THICK_M)],
        "centre_of_gravity": p.place(0, _THICK_M / 2), "picks": {"eye": p.place(long / 2, _THICK_M)},
        "moves": {"kind": "hinged", "hinge": p.place(0, hinge), "notes": {"hinge": f"height above the floor: {p.TYPICAL}"}},
        "notes": {
            "at": f"its underside level with the hinge: {p.TYPICAL}", "size": f"thickness: {p.TYPICAL}", "picks": f"on top of the lid, height: {p.TYPICAL}",
            "centre_of_gravity": f"half of the length, half of the thickness: {p.TYPICAL}",
        },
    }  # fmt: skip
    rig.bodies["counterweight"] = {
        "role": "counterweight", "mass": values.text("counterweight"), "at": p.place(-arm, hinge - _WEIGHT_HIGH_M / 2),
        "size": [p.metres(_WEIGHT_WIDE_M), p.metres(_WEIGHT_HIGH_M)], "centre_of_gravity": p.place(0, _WEIGHT_HIGH_M / 2),
        "moves": {"kind": "carried", "by": p.LOAD},
        "notes": {
            "at": f"its middle level with the hinge while the lid is shut: {p.TYPICAL}", "size": p.TYPICAL, "centre_of_gravity": f"half of its height: {p.TYPICAL}",
        },
    }  # fmt: skip
    rig.sheave("head sheave", across, up, **typical)
    rig.winch(across - radius - p.DRUM_DISTANCE_M, rig.drum_axis_m(), "place of the winch")
    rig.rope("hoist rope", [
        {"made_fast_to": p.LOAD, "pick": "eye"},
        {"over": "head sheave", "turns": "anticlockwise"},
        {"wound_on": "drum", "turns": "anticlockwise"},
    ])  # fmt: skip
    parts = {"points": rig.points, "bodies": rig.bodies, "sheaves": rig.sheaves, "ropes": rig.ropes, "drive": rig.drive}
    return parts | {"limits": {"swing": values.text("swing")}}


ARRANGEMENTS = (
    Arrangement(
        "kiln-lid", "Hinged kiln lid with arm and counterweight",
        "A lid turns up about its hinge, drawn by a rope over a head sheave to a winch. A counterweight on an arm behind the hinge takes part of its weight.",
        (MASS, LENGTH, SWING, COUNTERWEIGHT, ARM, p.SHEAVE, p.ROPE, p.DRUM), p.CHOICES, _lid,
    ),
)  # fmt: skip
