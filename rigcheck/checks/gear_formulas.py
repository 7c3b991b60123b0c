"""Formulas of the gear train: a worm stage driving and driven back, when it locks, stages in a row."""

import math

import sympy

from rigcheck.formula import Sign, formula

LEAD = Sign("λ", "lead angle of the worm", "°", above=0, high=math.radians(45))
PRESSURE = Sign("φ_n", "pressure angle in the normal section", "°", low=0, high=math.radians(30))
FRICTION = Sign("f", "friction between worm and wheel", "", low=0, high=0.5)
EFFICIENCY = Sign("η_gear", "efficiency of a gear stage", "", above=0, high=1)
WORM_EFFICIENCY = Sign("η_worm", "efficiency of the worm stage, the worm driving", "")
BACKWARDS = Sign("η_back", "efficiency of the stage driven back by the load", "")
LOCKING_FRICTION = Sign("f_lock", "friction at which the worm stage locks", "")
RATIO = Sign("i", "ratio of a gear stage", "", above=0)
TRAIN_RATIO = Sign("i_total", "ratio from motor to drum", "", above=0)
TRAIN_EFFICIENCY = Sign("η_total", "efficiency from motor to drum", "", above=0, high=1)
DRUM_TORQUE = Sign("M", "torque on the drum", "N·m")
STAGE_TORQUE = Sign("M_out", "torque at the output of a gear stage", "N·m")


@formula
def worm_efficiency(lead: LEAD, pressure: PRESSURE, friction: FRICTION) -> WORM_EFFICIENCY:
    """Efficiency of the mesh of worm and wheel, the worm driving.

    Range: lead angle up to 45°, normal pressure angle up to 30° (0° is a square thread), friction up to 0.5. Bearings and seals are
    not in it.

    Source: Mechanical Engineer's Data Handbook, 2.10.6; Khurmi and Gupta, Machine Design, Ex. 31.1.

    >>> import math; round(worm_efficiency(lead=math.atan(18 / 50), pressure=math.radians(14.5), friction=0.05), 3)
    0.858
    """
    return sympy.tan(lead) * (sympy.cos(pressure) - friction * sympy.tan(lead)) / (sympy.cos(pressure) * sympy.tan(lead) + friction)


@formula
def worm_efficiency_backwards(lead: LEAD, pressure: PRESSURE, friction: FRICTION) -> BACKWARDS:
    """Efficiency of the mesh when the wheel drives the worm; at or below zero it does not: the stage locks.

    Range: as for the worm driving.

    Source: technical handbook of a gear maker, equations 16-21 and 16-23.

    >>> import math; round(worm_efficiency_backwards(lead=math.atan(18 / 50), pressure=math.radians(14.5), friction=0.05), 3)
    0.841
    """
    return (sympy.cos(pressure) * sympy.tan(lead) - friction) / ((sympy.cos(pressure) + friction * sympy.tan(lead)) * sympy.tan(lead))


@formula
def locking_friction(lead: LEAD, pressure: PRESSURE) -> LOCKING_FRICTION:
    """Least friction at which the wheel cannot drive the worm: the back-driving efficiency is zero there.

    Source: worm_efficiency_backwards set to zero; for a square thread f = tan λ, Shigley, 9th ed., equation 8-3.

    >>> import math; round(locking_friction(lead=math.radians(5), pressure=math.radians(20)), 4)
    0.0822
    """
    return sympy.cos(pressure) * sympy.tan(lead)


@formula
def ratios_in_a_row(one: TRAIN_RATIO, other: RATIO) -> TRAIN_RATIO:
    """Ratio of gear stages in a row.

    Source: definition of the ratio: speeds divide stage by stage.

    >>> ratios_in_a_row(one=30.0, other=4.0)
    120.0
    """
    return one * other


@formula
def efficiencies_in_a_row(one: TRAIN_EFFICIENCY, other: EFFICIENCY) -> TRAIN_EFFICIENCY:
    """Efficiency of gear stages in a row, all driving towards the drum.

    Source: definition of the efficiency: each stage passes on its share of the power.

    >>> round(efficiencies_in_a_row(one=0.85, other=0.75), 4)
    0.6375
    """
    return one * other


@formula
def torque_before(torque: DRUM_TORQUE, ratio: TRAIN_RATIO, efficiency: TRAIN_EFFICIENCY) -> STAGE_TORQUE:
    """Torque at the output of a stage, from the torque on the drum and the stages between them.

    Source: power in = power out / efficiency.

    >>> torque_before(torque=60.0, ratio=4.0, efficiency=0.75)
    20.0
    """
    return torque / (ratio * efficiency)
