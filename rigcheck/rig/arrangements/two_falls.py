"""Two falls from two overhead sheaves to one drum, the load on a spreader: held level in guides, or free to tilt in its plane.

Drawn in one plane, the left rope passes one sheave diameter above the right head sheave; where ropes cross in the drawing they pass
one another in depth.
"""

from __future__ import annotations

from rigcheck.rig.arrangements import pieces as p
from rigcheck.rig.arrangements.inputs import Arrangement, Choice, Input, Values

_LEVEL, _TILTS = "level in guides", "in guides, free to tilt"
_SPARE_M = 0.5
_LEAD_APART = 1.5
_COUNTERWEIGHT_ABOVE = 3

HELD = Choice(
    "held",
    "The load is held",
    (_LEVEL, _TILTS, f"{p.UNKNOWN}: drawn level in guides"),
    _LEVEL,
    "Level: the guides do not let it turn, and the ropes share by their stiffness.",
)
SPREAD = Input("spread", "Distance between the falls", "length", "1 m", "From eye to eye on the spreader.")


def _two_falls(values: Values) -> dict:
    rig = p.Pieces(values)
    diameter, spread, radius, axis = values["sheave_diameter"], values["spread"], rig.winding_radius_m, rig.drum_axis_m()
    counterweighted = values.asks("counterweight")
    if spread < 2 * diameter - 1e-9:
        values.refuse("spread", "is less than two sheave diameters", f"Write at least {p.next_millimetre(2 * diameter)}.")
    head, notes = _head(rig)
    rig.drum_fits_below(axis, head)
    held, is_guess = p.taken(values, HELD, _LEVEL)
    tilts = held == _TILTS
    middle = p.metres(values["load_height"] / 2)
    more = (
        {"moves": {"kind": "guided", "tilts": True}, "centre_of_gravity": ["0 m", middle], "notes": {"centre_of_gravity": p.TYPICAL}}
        if tilts
        else {"moves": {"kind": "guided"}, "notes": {"moves": f"held level: {p.NOT_LOOKED}"}}
        if is_guess
        else {}
    )
    rig.load(0, **more)
    rig.pick("left eye", -spread / 2)
    rig.pick("right eye", spread / 2)
    right, lead = (spread + diameter) / 2, (spread + diameter) / 2 + _LEAD_APART * diameter
    rig.sheave(
        "left head sheave", (diameter - spread) / 2, head + diameter, at=f"drawn one sheave diameter above the right one: {p.TYPICAL}"
    )
    rig.sheave("left lead sheave", lead, head + diameter, at=p.TYPICAL)
    rig.sheave("right head sheave", right, head, **notes)
    rig.winch(lead + diameter / 2 + radius + p.DRUM_DISTANCE_M, axis, "place of the winch")
    drum = {"wound_on": "drum", "turns": "clockwise"}
    rig.rope("left rope", [
        {"made_fast_to": p.LOAD, "pick": "left eye"},
        {"over": "left head sheave", "turns": "clockwise"},
        {"over": "left lead sheave", "turns": "clockwise"},
        drum,
    ])  # fmt: skip
    rig.rope("right rope", [{"made_fast_to": p.LOAD, "pick": "right eye"}, {"over": "right head sheave", "turns": "clockwise"}, drum])
    if counterweighted:
        rig.counterweight(0, 0, head + _COUNTERWEIGHT_ABOVE * diameter, beside_m=spread / 2)
    return rig.whole()


def _head(rig: p.Pieces) -> tuple[float, dict]:
    """The height of the head sheaves: as given, or what travel and load need, with a note that it is typical."""
    values = rig.values
    if values.asks("head_height"):
        rig.headroom(values["load_height"])
        return values["head_height"], {}
    tallest = max(values["load_height"], p.FLOOR_CLEARANCE_M + p.COUNTERWEIGHT_HEIGHT_M)
    drum = rig.drum_axis_m() + rig.winding_radius_m
    return max(values["travel"] + tallest, drum) + values["sheave_diameter"] + _SPARE_M, {"at": f"height above the floor: {p.TYPICAL}"}


_ALWAYS = (p.MASS, SPREAD, p.HEIGHT, p.TRAVEL)
_CHOICES = (HELD, *p.CHOICES)

ARRANGEMENTS = (
    Arrangement(
        "two-falls", "Two falls to one drum",
        "Two ropes carry the load at two eyes of a spreader and run over overhead sheaves to one drum.",
        (*_ALWAYS, p.HEAD, p.SHEAVE, p.ROPE, p.DRUM), _CHOICES, _two_falls,
    ),
    Arrangement(
        "two-falls-counterweight", "Two falls to one drum with a counterweight",
        "Two ropes carry the load at two eyes of a spreader and run over overhead sheaves to one drum."
        " A counterweight on a rope of its own over two sheaves, made fast between them, takes part of the weight.",
        (*_ALWAYS, p.SHEAVE, p.ROPE, p.DRUM, p.COUNTERWEIGHT), _CHOICES, _two_falls,
    ),
)  # fmt: skip
