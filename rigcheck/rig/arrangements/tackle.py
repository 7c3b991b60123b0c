"""A tackle of two to six parts, rove to disadvantage or to advantage, on a winch or a hand line.

The falls stand side by side, one sheave diameter apart, so that they are exactly parallel; on a real block the sheaves share an axle, which
changes nothing in the pulls. All that the upper block carries, its sheaves and a dead end, hangs from one fixed place, so that what the rig does
to the building is told of the block as a whole. Counted are the parts that carry the moving block: rove to advantage, the hauling part is one of them.
"""

from __future__ import annotations

from dataclasses import replace

from rigcheck.rig.arrangements import pieces as p
from rigcheck.rig.arrangements.inputs import Arrangement, Choice, Values

_DISADVANTAGE, _ADVANTAGE = "the fixed block (rove to disadvantage)", "the moving block (rove to advantage)"
UPPER_BLOCK = "upper block"
_DRAWN_WITH = "4"
_NOT_COUNTED = f"{p.UNKNOWN}: drawn with {_DRAWN_WITH}"
_NOT_LOOKED = f"{p.UNKNOWN}: drawn off the fixed block"
_HAND_AT_M = 1.2
_HAND_ABOVE_M = 1.0
_HAND_DISTANCE_M = 0.6

PARTS = Choice(
    "parts",
    "Parts of line",
    (_NOT_COUNTED, "2", "3", "4", "5", "6"),
    _NOT_COUNTED,
    "Count the lengths of rope that carry the moving block.",
)
ROVE = Choice(
    "rove", "The lead line comes off", (_DISADVANTAGE, _ADVANTAGE, _NOT_LOOKED), _DISADVANTAGE,
    "The lead line is the part of the rope that is pulled; rove means how the rope is led through the blocks. Rove to advantage, the winch or the "
    "people stand above the tackle and pull upwards.",
)  # fmt: skip
PEOPLE = Choice(
    "people", "People at the hand line", (p.UNKNOWN, "1", "2", "3", "4"), p.UNKNOWN, "Who pull at the same time; not known, one is counted."
)
HEIGHT = replace(p.HEIGHT, help="From the underside of the load up to the axles of the lower block.")
HEAD = replace(p.HEAD, label="Height of the upper block", help="From the floor up to the axles of the upper block.")


def _reeve(values: Values) -> tuple[p.Pieces, list[dict], float]:
    """Load, blocks and the hoist rope up to its last sheave; with the place across of the lead line."""
    rig = p.Pieces(values)
    parts, to_advantage = int(p.taken(values, PARTS, _DRAWN_WITH)[0]), _is_to_advantage(values)
    diameter, head = values["sheave_diameter"], values["head_height"]
    counterweighted = values.asks("counterweight")
    middle = (parts - 1) * diameter / 2
    rig.headroom(max(values["load_height"] + diameter / 2, p.FLOOR_CLEARANCE_M + p.COUNTERWEIGHT_HEIGHT_M if counterweighted else 0))
    rig.load(middle, notes={"mass": "with the lower block"})
    dead_end_moves = parts % 2 == 1
    block = diameter / 2 if dead_end_moves else 0.0
    rig.point(UPPER_BLOCK, block, head)
    if dead_end_moves:
        rig.pick("eye of the lower block", -middle)
        path: list[dict] = [{"made_fast_to": p.LOAD, "pick": "eye of the lower block"}]
    else:
        path = [{"made_fast_to": UPPER_BLOCK}]
    for number in range(1, parts + (0 if to_advantage else 1)):
        across = (number - 0.5) * diameter
        if (number % 2 == 1) == dead_end_moves:
            rig.sheave_on_point(name := f"upper sheave {(number + 1) // 2}", UPPER_BLOCK, across - block)
        else:
            rig.moving_sheave(name := f"lower sheave {(number + 1) // 2}", across - middle)
        path.append({"over": name, "turns": "clockwise" if name.startswith("upper") else "anticlockwise"})
    if counterweighted:
        rig.counterweight(-diameter, middle, head)
    return rig, path, (parts - 1 if to_advantage else parts) * diameter


def _is_to_advantage(values: Values) -> bool:
    return p.taken(values, ROVE, _DISADVANTAGE)[0] == _ADVANTAGE


def _hoist_rope(rig: p.Pieces, path: list[dict]) -> None:
    guesses = [f"{_DRAWN_WITH} parts of line: {p.NOT_COUNTED}"] if p.taken(rig.values, PARTS, _DRAWN_WITH)[1] else []
    guesses += [f"the lead line comes off the fixed block: {p.NOT_LOOKED}"] if p.taken(rig.values, ROVE, _DISADVANTAGE)[1] else []
    rig.rope("hoist rope", path, {"path": "; ".join(guesses)} if guesses else None)


def _by_winch(values: Values) -> dict:
    rig, path, lead = _reeve(values)
    head, radius, axis = values["head_height"], rig.winding_radius_m, rig.drum_axis_m()
    if _is_to_advantage(rig.values):
        rig.winch(lead + radius, head + values["sheave_diameter"] / 2 + axis, "height above the upper block")
    else:
        rig.drum_fits_below(axis, head)
        rig.winch(lead + max(p.DRUM_DISTANCE_M, 2 * radius), axis, "place of the winch")
    _hoist_rope(rig, [*path, {"wound_on": "drum", "turns": "clockwise"}])
    return rig.whole()


def _by_hand(values: Values) -> dict:
    rig, path, lead = _reeve(values)
    if _is_to_advantage(rig.values):
        hand = p.place(lead, values["head_height"] + _HAND_ABOVE_M)
    else:
        hand = p.place(lead + _HAND_DISTANCE_M, min(_HAND_AT_M, values["head_height"] / 2))
    _hoist_rope(rig, [*path, {"pulled_by_hand_at": hand, "notes": {"pulled_by_hand_at": p.TYPICAL}}])
    people = values.chosen("people")
    rig.drive = (
        {"kind": "hand line", "people": 1, "notes": {"people": p.NOT_COUNTED}}
        if people == p.UNKNOWN
        else {"kind": "hand line", "people": int(people)}
    )
    return rig.whole()


_ALWAYS = (p.MASS, HEIGHT, p.TRAVEL, HEAD, p.SHEAVE, p.ROPE)

ARRANGEMENTS = (
    Arrangement(
        "tackle", "Tackle on a winch",
        "An upper and a lower block share the weight of the guided load among two to six lengths of rope (parts of line); the lead line, which is pulled, runs to a winch.",
        (*_ALWAYS, p.DRUM), (PARTS, ROVE, *p.CHOICES), _by_winch,
    ),
    Arrangement(
        "tackle-counterweight", "Tackle on a winch with a counterweight",
        "An upper and a lower block share the weight of the guided load among two to six lengths of rope (parts of line); the lead line, which is pulled, runs to a winch."
        " A counterweight on a rope of its own over two sheaves takes part of the weight.",
        (*_ALWAYS, p.DRUM, p.COUNTERWEIGHT), (PARTS, ROVE, *p.CHOICES), _by_winch,
    ),
    Arrangement(
        "tackle-hand", "Tackle on a hand line",
        "An upper and a lower block share the weight of the guided load among two to six lengths of rope (parts of line); the lead line is pulled by hand.",
        _ALWAYS, (PARTS, ROVE, replace(p.ROPE_MADE_OF, default="fibre, polyester"), *p.ROPE_CHOICES[1:], p.BEARING, PEOPLE), _by_hand,
    ),
)  # fmt: skip
