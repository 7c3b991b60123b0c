"""A straight lift: one fall over a head sheave, with or without a lead sheave, to a drum at floor level."""

from __future__ import annotations

from rigcheck.rig.arrangements import pieces as p
from rigcheck.rig.arrangements.inputs import Arrangement, Choice, Input, Values

_ASIDE, _UNDER = "aside, at floor level", "straight under the head sheave"
_OVERHEAD, _AT_FOOT = "overhead, the rope drops to the drum", "at floor level, the rope runs on along the floor"

STANDS = Choice(
    "stands",
    "The winch stands",
    (_ASIDE, _UNDER, f"{p.UNKNOWN}: drawn aside"),
    _ASIDE,
    "Straight under: the rope drops plumb from the head sheave; it must pass clear of the load.",
)
LEAD = Choice(
    "lead",
    "The lead sheave is",
    (_OVERHEAD, _AT_FOOT, f"{p.UNKNOWN}: drawn overhead"),
    _OVERHEAD,
    "It leads the rope from the head sheave on to the drum: look where it hangs.",
)
TO_DRUM = Input(
    "distance", "Distance from the load to the winch", "length", "1.5 m", "Across the floor, from under the load's rope to the drum's axis."
)
TO_LEAD = Input(
    "distance",
    "Distance from the load to the lead sheave",
    "length",
    "1.5 m",
    "Across, from the load's rope to the rope beyond the lead sheave.",
)


def _begin(values: Values) -> p.Pieces:
    """Load and head sheave, and the counterweight where there is one."""
    rig = p.Pieces(values)
    diameter, head = values["sheave_diameter"], values["head_height"]
    counterweighted = values.asks("counterweight")
    tallest = max(values["load_height"], p.FLOOR_CLEARANCE_M + p.COUNTERWEIGHT_HEIGHT_M if counterweighted else 0)
    rig.headroom(tallest)
    rig.load(0)
    rig.pick("eye", 0)
    rig.sheave("head sheave", diameter / 2, head)
    if counterweighted:
        rig.counterweight(-diameter, 0, head)
    return rig


def _hoist_rope(rig: p.Pieces, *stops: dict) -> None:
    rig.rope("hoist rope", [{"made_fast_to": p.LOAD, "pick": "eye"}, {"over": "head sheave", "turns": "clockwise"}, *stops])


def _over_one(values: Values) -> dict:
    rig = _begin(values)
    diameter, radius, axis = values["sheave_diameter"], rig.winding_radius_m, rig.drum_axis_m()
    rig.drum_fits_below(axis, values["head_height"])
    stands, is_guess = p.taken(values, STANDS, _ASIDE)
    if stands == _UNDER:
        rig.winch(diameter + radius, axis, "height above the floor")
        _hoist_rope(rig, {"wound_on": "drum", "turns": "anticlockwise"})
        return rig.whole()
    least = diameter + radius + p.FLOOR_CLEARANCE_M
    across = _distance(values, least, max(p.DRUM_DISTANCE_M, least))
    rig.winch(across, axis, "height above the floor" if values.asks("distance") and not is_guess else "place of the winch")
    _hoist_rope(rig, {"wound_on": "drum", "turns": "clockwise"})
    return rig.whole()


def _over_two(values: Values) -> dict:
    rig = _begin(values)
    diameter, head, radius, axis = values["sheave_diameter"], values["head_height"], rig.winding_radius_m, rig.drum_axis_m()
    rig.drum_fits_below(axis, head)
    least = 3 * diameter
    across = _distance(values, least, max(p.DRUM_DISTANCE_M, least))
    hangs, is_guess = p.taken(values, LEAD, _OVERHEAD)
    notes = {"at": f"drawn overhead: {p.NOT_LOOKED}"} if is_guess else {}
    if not values.asks("distance"):
        notes = {"at": f"how far from the load: {p.TYPICAL}" + (f"; {notes['at']}" if notes else "")}
    if hangs == _OVERHEAD:
        rig.sheave("lead sheave", across - diameter / 2, head, **notes)
        rig.winch(across + radius, axis, "height above the floor")
        _hoist_rope(rig, {"over": "lead sheave", "turns": "clockwise"}, {"wound_on": "drum", "turns": "anticlockwise"})
        return rig.whole()
    run_height = axis + radius
    if run_height + 2 * diameter > head:
        values.refuse("sheave_diameter", "leaves no room between the two sheaves", "Measure it again, in the unit written.")
    rig.sheave("lead sheave", across, run_height + diameter / 2, at=f"height above the floor: {p.TYPICAL}")
    rig.winch(across + max(p.DRUM_DISTANCE_M, diameter + 2 * radius), axis, "place of the winch")
    _hoist_rope(rig, {"over": "lead sheave", "turns": "anticlockwise"}, {"wound_on": "drum", "turns": "clockwise"})
    return rig.whole()


def _distance(values: Values, least_m: float, typical_m: float) -> float:
    if not values.asks("distance"):
        return typical_m
    if values["distance"] < least_m - 1e-9:
        values.refuse(
            "distance", "is too near: the parts would touch", f"With these diameters it must be at least {p.next_millimetre(least_m)}."
        )
    return values["distance"]


_ALWAYS = (p.MASS, p.HEIGHT, p.TRAVEL, p.HEAD, p.SHEAVE, p.ROPE, p.DRUM)
_WITH = " A counterweight on a rope of its own over two sheaves takes part of the weight."

ARRANGEMENTS = (
    Arrangement(
        "straight", "Straight lift over one sheave",
        "The rope runs from the guided load up over a head sheave and down to the drum.",
        (*_ALWAYS, TO_DRUM), (STANDS, *p.CHOICES), _over_one,
    ),
    Arrangement(
        "straight-counterweight", "Straight lift with a counterweight",
        "The rope runs from the guided load up over a head sheave and down to the drum." + _WITH,
        (*_ALWAYS, p.COUNTERWEIGHT), (STANDS, *p.CHOICES), _over_one,
    ),
    Arrangement(
        "lead-sheave", "Straight lift with a lead sheave",
        "The rope runs from the guided load up over a head sheave and by a lead sheave to a drum at floor level.",
        (*_ALWAYS, TO_LEAD), (LEAD, *p.CHOICES), _over_two,
    ),
    Arrangement(
        "lead-sheave-counterweight", "Straight lift with a lead sheave and a counterweight",
        "The rope runs from the guided load up over a head sheave and by a lead sheave to a drum at floor level." + _WITH,
        (*_ALWAYS, p.COUNTERWEIGHT), (LEAD, *p.CHOICES), _over_two,
    ),
)  # fmt: skip
