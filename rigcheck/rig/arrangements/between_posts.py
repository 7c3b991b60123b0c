"""A load under a running block in the bight of a rope between two posts: one end made fast, the other over a head sheave to a winch.

The load is raised between the posts where nothing stands above it. The flatter the rope runs, the harder it pulls; friction at the
running block draws the load aside, one way while it rises and the other while it sinks.
"""

from __future__ import annotations

from dataclasses import replace

from rigcheck.rig.arrangements import pieces as p
from rigcheck.rig.arrangements.inputs import Arrangement, Input, Values

_CLEAR_M = 0.3

MASS = replace(p.MASS, help="All that hangs on the rope: the load with its slings and the running block. Weigh it.")
SPAN = Input(
    "span", "Distance between the posts", "length", "4 m", "From where the rope is made fast to the axle of the head sheave, across."
)
HEAD = replace(
    p.HEAD,
    label="Height of the rope at the posts",
    help="From the floor up to the axle of the head sheave; the rope is made fast at the same height.",
)
HEIGHT = replace(p.HEIGHT, label="Height of the running block", help="From the underside of the load up to the axle of the running block.")


def _between(values: Values) -> dict:
    rig = p.Pieces(values)
    span, diameter, head, axis = values["span"], values["sheave_diameter"], values["head_height"], rig.drum_axis_m()
    least = 4 * diameter + _CLEAR_M
    if span < least - 1e-9:
        values.refuse("span", "leaves no room for the load between the posts", f"Write at least {p.next_millimetre(least)}.")
    rig.headroom(values["load_height"] + diameter / 2)
    rig.drum_fits_below(axis, head)
    rig.free_load(values["load_height"], 0.0, in_depth=False)
    del rig.bodies[p.LOAD]["notes"]["picks"]
    rig.moving_sheave("running sheave", 0)
    rig.point("left post", -span / 2, head)
    rig.sheave("head sheave", span / 2, head)
    rig.winch(span / 2 + diameter / 2 + rig.winding_radius_m, axis, "height above the floor")
    rig.rope("hoist rope", [
        {"made_fast_to": "left post"},
        {"over": "running sheave", "turns": "anticlockwise"},
        {"over": "head sheave", "turns": "clockwise"},
        {"wound_on": "drum", "turns": "anticlockwise"},
    ])  # fmt: skip
    return rig.whole()


ARRANGEMENTS = (
    Arrangement(
        "between-posts", "Load between two posts",
        "A rope made fast at one post runs down under a running block on the load and up over a head sheave at the other post to a winch.",
        (MASS, SPAN, HEAD, HEIGHT, p.TRAVEL, p.SHEAVE, p.ROPE, p.DRUM),
        p.CHOICES, _between,
    ),
)  # fmt: skip
