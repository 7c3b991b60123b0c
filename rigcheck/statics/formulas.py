"""Formulas of the statics that do not come out of the solver."""

import sympy

from rigcheck.formula import Sign, formula

MASS = Sign("m", "mass", "kg", low=0)
GRAVITY = Sign("g", "acceleration of free fall", "m/s²", above=0)
WEIGHT = Sign("W", "weight", "N")
PULL_IN = Sign("T_in", "pull of the rope before the sheave", "N")
PULL_OUT = Sign("T_out", "pull of the rope after the sheave", "N")
WRAP = Sign("β", "wrap of the rope on the sheave", "°", low=0)
PIN = Sign("F_pin", "force on the pin of the sheave", "N")
PARTS = Sign("P", "parts of rope at the moving block, hauling part among them", "", low=1)
SHEAVES = Sign("n", "sheaves the rope runs over", "", low=0)
HAUL = Sign("S", "pull on the hauling part by the seamanship rule", "N")

GRAVITY_M_S2 = 9.80665


@formula
def weight(mass: MASS, gravity: GRAVITY) -> WEIGHT:
    """Weight of a mass.

    Source: definition; g = 9.80665 m/s² is the conventional value, 3rd CGPM (1901).

    >>> weight(mass=100.0, gravity=9.80665)
    980.665
    """
    return mass * gravity


@formula
def pin_force(pull_in: PULL_IN, pull_out: PULL_OUT, wrap: WRAP) -> PIN:
    """Force on the pin of a sheave from the two pulls and the angle through which the rope turns.

    With equal pulls it is 2 T sin(β/2): twice the pull for a rope that turns right round.

    Source: resultant of two forces by the law of cosines.

    >>> round(pin_force(pull_in=100.0, pull_out=100.0, wrap=3.141592653589793 / 2), 2)
    141.42
    """
    return sympy.sqrt(pull_in**2 + pull_out**2 - 2 * pull_in * pull_out * sympy.cos(wrap))


@formula
def seamanship_haul(weight: WEIGHT, sheaves: SHEAVES, parts: PARTS) -> HAUL:
    """Pull on the hauling part of a plain tackle: a tenth of the weight is added for every sheave.

    Source: Nicholls's Seamanship and Nautical Knowledge, p. 68 (S = W (1 + n/10) / P).

    >>> round(seamanship_haul(weight=4.0, sheaves=2, parts=2), 3)
    2.4
    """
    return weight * (1 + sheaves / 10) / parts
