"""A tackle of two to six parts, rove to disadvantage or to advantage, on a winch or a hand line.

The falls stand side by side, one sheave diameter apart, so that they are exactly parallel; on a real block the sheaves share an axle, which
changes nothing in the pulls. Counted are the parts that carry the moving block: rove to advantage, the hauling part is one of them.
"""

from __future__ import annotations

from dataclasses import replace

from rigcheck.rig.arrangements import pieces as p
from rigcheck.rig.arrangements.inputs import Arrangement, Choice, Values

_DISADVANTAGE, _ADVANTAGE = (
    "to disadvantage, the lead line comes off the fixed block",
    "to advantage, the lead line comes off the moving block",
)
_HAND_AT_M = 1.2
_HAND_ABOVE_M = 1.0
_HAND_DISTANCE_M = 0.6

PARTS = Choice("parts", "Parts of line", ("2", "3", "4", "5", "6"), "4", "Count the ropes that carry the moving block.")
ROVE = Choice("rove", "Rove", (_DISADVANTAGE, _ADVANTAGE), _DISADVANTAGE, "To advantage, the winch or the people stand above the tackle.")
PEOPLE = Choice("people", "People at the hand line", ("1", "2", "3", "4"), "1")
HEIGHT = replace(p.HEIGHT, help="From the underside of the load up to the axles of the lower block.")
HEAD = replace(p.HEAD, label="Height of the upper block", help="From the floor up to the axles of the upper block.")


def _reeve(values: Values) -> tuple[p.Pieces, list[dict], float]:
    """Load, blocks and the hoist rope up to its last sheave; with the place across of the lead line."""
    rig = p.Pieces(values)
    parts, to_advantage = int(values.chosen("parts")), values.chosen("rove") == _ADVANTAGE
    diameter, head = values["sheave_diameter"], values["head_height"]
    counterweighted = values.asks("counterweight")
    middle = (parts - 1) * diameter / 2
    rig.headroom(max(values["load_height"] + diameter / 2, p.FLOOR_CLEARANCE_M + p.COUNTERWEIGHT_HEIGHT_M if counterweighted else 0))
    rig.load(middle, notes={"mass": "with the lower block"})
    dead_end_moves = parts % 2 == 1
    if dead_end_moves:
        rig.pick("becket", -middle)
        path: list[dict] = [{"made_fast_to": p.LOAD, "pick": "becket"}]
    else:
        rig.point("becket of the upper block", 0, head)
        path = [{"made_fast_to": "becket of the upper block"}]
    for number in range(1, parts + (0 if to_advantage else 1)):
        across = (number - 0.5) * diameter
        if (number % 2 == 1) == dead_end_moves:
            rig.sheave(name := f"upper sheave {(number + 1) // 2}", across, head)
        else:
            rig.moving_sheave(name := f"lower sheave {(number + 1) // 2}", across - middle)
        path.append({"over": name, "turns": "clockwise" if name.startswith("upper") else "anticlockwise"})
    if counterweighted:
        rig.counterweight(-diameter, middle, head)
    return rig, path, (parts - 1 if to_advantage else parts) * diameter


def _by_winch(values: Values) -> dict:
    rig, path, lead = _reeve(values)
    head, radius, axis = values["head_height"], rig.winding_radius_m, rig.drum_axis_m()
    if values.chosen("rove") == _ADVANTAGE:
        rig.winch(lead + radius, head + values["sheave_diameter"] / 2 + axis, "height above the upper block")
    else:
        rig.drum_fits_below(axis, head)
        rig.winch(lead + max(p.DRUM_DISTANCE_M, 2 * radius), axis, "place of the winch")
    rig.rope("hoist rope", [*path, {"wound_on": "drum", "turns": "clockwise"}])
    return rig.whole()


def _by_hand(values: Values) -> dict:
    rig, path, lead = _reeve(values)
    if values.chosen("rove") == _ADVANTAGE:
        hand = p.place(lead, values["head_height"] + _HAND_ABOVE_M)
    else:
        hand = p.place(lead + _HAND_DISTANCE_M, min(_HAND_AT_M, values["head_height"] / 2))
    rig.rope("hoist rope", [*path, {"pulled_by_hand_at": hand, "notes": {"pulled_by_hand_at": p.TYPICAL}}])
    rig.drive = {"kind": "hand line", "people": int(values.chosen("people"))}
    return rig.whole()


_ALWAYS = (p.MASS, HEIGHT, p.TRAVEL, HEAD, p.SHEAVE, p.ROPE)

ARRANGEMENTS = (
    Arrangement(
        "tackle", "Tackle on a winch",
        "An upper and a lower block share the weight of the guided load among two to six parts of line; the lead line runs to a winch.",
        (*_ALWAYS, p.DRUM), (PARTS, ROVE, *p.ROPE_CHOICES, p.BEARING, *p.WINCH_CHOICES, p.DEAD_WRAPS), _by_winch,
    ),
    Arrangement(
        "tackle-counterweight", "Tackle on a winch with a counterweight",
        "An upper and a lower block share the weight of the guided load among two to six parts of line; the lead line runs to a winch."
        " A counterweight on a rope of its own over two sheaves takes part of the weight.",
        (*_ALWAYS, p.DRUM, p.COUNTERWEIGHT), (PARTS, ROVE, *p.ROPE_CHOICES, p.BEARING, *p.WINCH_CHOICES, p.DEAD_WRAPS), _by_winch,
    ),
    Arrangement(
        "tackle-hand", "Tackle on a hand line",
        "An upper and a lower block share the weight of the guided load among two to six parts of line; the lead line is pulled by hand.",
        _ALWAYS, (PARTS, ROVE, replace(p.ROPE_MADE_OF, default="fibre, polyester"), *p.ROPE_CHOICES[1:], p.BEARING, PEOPLE), _by_hand,
    ),
)  # fmt: skip
