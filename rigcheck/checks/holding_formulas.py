"""Formulas of holding a load that wants to run back, and of stopping one that runs down."""

from rigcheck.formula import Sign, formula

DRUM_TORQUE = Sign("M", "torque on the drum", "N·m")
TRAIN_RATIO = Sign("i_total", "ratio from motor to drum", "", above=0)
BACK_RATIO = Sign("i_back", "ratio of the stages between the drum and this one", "", above=0)
BACK_EFFICIENCY = Sign("η_back", "efficiency of the stages between, driven back", "", above=0, high=1)
HELD = Sign("M_shaft", "torque on the motor's shaft that holds the load", "N·m")
ARRIVING = Sign("M_arrives", "torque of the load that arrives past the stage", "N·m")
FACTOR = Sign("k_brake", "least brake torque over the torque of the full load", "", above=0)
NEEDED = Sign("M_brake", "least torque of a brake", "N·m")


@formula
def held_at_shaft(torque: DRUM_TORQUE, ratio: TRAIN_RATIO) -> HELD:
    """Torque on the motor's shaft that holds the drum, the friction of the gears giving no help.

    Source: equilibrium of the train at efficiency 1, which friction can only improve and which is all that vibration leaves.

    >>> held_at_shaft(torque=60.0, ratio=30.0)
    2.0
    """
    return torque / ratio


@formula
def arrives_past_stage(torque: DRUM_TORQUE, ratio: BACK_RATIO, efficiency: BACK_EFFICIENCY) -> ARRIVING:
    """Torque of the load once a stage that does not lock has passed it on, towards the motor.

    Source: power out = power in · efficiency; Chakrabarti, Ex. 1.20, multiplies in this sense while the load runs down.

    >>> arrives_past_stage(torque=60.0, ratio=30.0, efficiency=0.5)
    1.0
    """
    return torque * efficiency / ratio


@formula
def least_brake_torque(torque: HELD, factor: FACTOR) -> NEEDED:
    """Least torque of a brake at its place.

    Source: Cal. Title 8, section 4898(c): 125 % of the full-load hoisting torque at the place of the brake.

    >>> least_brake_torque(torque=2.0, factor=1.25)
    2.5
    """
    return torque * factor
