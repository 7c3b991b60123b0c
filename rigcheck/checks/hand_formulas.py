"""Formulas of hand work: the effort at a crank's handle, the share of one person."""

from rigcheck.formula import Sign, formula

DRUM_TORQUE = Sign("M", "torque on the drum", "N·m")
TRAIN_RATIO = Sign("i_total", "ratio from crank to drum", "", above=0)
TRAIN_EFFICIENCY = Sign("η_total", "efficiency from crank to drum", "", above=0, high=1)
HANDLE = Sign("R_handle", "radius of the handle", "mm", above=0)
EFFORT = Sign("E", "effort by hand", "N")
PEOPLE = Sign("n_people", "people at it together", "", low=1)
SHARE = Sign("E_1", "effort of one person", "N")
RADIUS = Sign("r", "radius of the layer", "mm", above=0)
VELOCITY_RATIO = Sign("VR", "way of the handle over rope wound in", "")


@formula
def handle_effort(torque: DRUM_TORQUE, ratio: TRAIN_RATIO, efficiency: TRAIN_EFFICIENCY, handle: HANDLE) -> EFFORT:
    """Effort at the handle of a crank that turns the drum through gears.

    Source: Khurmi, Engineering Mechanics, Ex. 11.9 and 11.13: effort = load / (velocity ratio · efficiency).

    >>> round(handle_effort(torque=90.0, ratio=40.0, efficiency=0.625, handle=0.15), 6)
    24.0
    """
    return torque / (ratio * efficiency * handle)


@formula
def crank_velocity_ratio(handle: HANDLE, ratio: TRAIN_RATIO, radius: RADIUS) -> VELOCITY_RATIO:
    """How far the handle goes for each metre of rope wound in.

    Source: Khurmi, Engineering Mechanics, 11.7 and Ex. 11.13.

    >>> round(crank_velocity_ratio(handle=0.3, ratio=4.0, radius=0.05), 6)
    24.0
    """
    return handle * ratio / radius


@formula
def effort_of_one(effort: EFFORT, people: PEOPLE) -> SHARE:
    """Effort of each person, all pulling alike.

    Source: definition.

    >>> effort_of_one(effort=746.0, people=8)
    93.25
    """
    return effort / people
