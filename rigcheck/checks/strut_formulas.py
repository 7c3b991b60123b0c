"""Formulas of struts: when one that is pressed bows out."""

import sympy

from rigcheck.formula import Sign, formula
from rigcheck.statics.sections import AREA, SECOND_MOMENT

MODULUS = Sign("E", "elastic modulus", "N/mm²", above=0)
END_FACTOR = Sign("K", "length that bows over the length of the strut", "", above=0)
LENGTH = Sign("L", "length of the strut", "m", above=0)
STRENGTH = Sign("f", "stress at which the material crushes or yields", "N/mm²", above=0)
PUSH = Sign("S", "greatest push of the strut", "N")
BEND = Sign("M", "greatest bending of the strut", "N·m", low=0)
EDGE = Sign("e", "from the middle of the section to its edge", "mm", above=0)
WANTED = Sign("ν_r", "required factor of struts", "", low=1)
BENT = Sign("σ", "stress at the edge of the strut, pressed and bent", "N/mm²")
EULER = Sign("P_E", "Euler's force: a straight strut bows out under it", "N", towards="down")
HALF_CRUSHING = Sign("P_f", "half of the force that crushes the section", "N", towards="down")


@formula
def euler_force(modulus: MODULUS, second_moment: SECOND_MOMENT, end_factor: END_FACTOR, length: LENGTH) -> EULER:
    """Euler's force of a straight slender strut, pressed along its axis.

    K is 1 where both ends can turn. It holds while the strut stays elastic: see `half_crushing_force`.

    Source: Euler's column formula, P = π² E I / (K L)², as in Gere and in Beer, Mechanics of Materials.

    >>> round(euler_force(modulus=210e9, second_moment=11.586e-8, end_factor=1.0, length=2.0))
    60033
    """
    return sympy.pi**2 * modulus * second_moment / (end_factor * length) ** 2


@formula
def half_crushing_force(strength: STRENGTH, area: AREA) -> HALF_CRUSHING:
    """Half of the force that crushes a section: where Euler's force is greater, a strut is too stocky for Euler's formula.

    Johnson's parabola touches Euler's curve at half the strength and rises above it for shorter struts, so that half the strength never says too
    much of a straight one.

    Source: common practice, no source (the point where Johnson's parabola meets Euler's curve).

    >>> half_crushing_force(strength=20e6, area=0.01)
    100000.0
    """
    return strength * area / 2


@formula
def bent_stress(push: PUSH, area: AREA, bend: BEND, edge: EDGE, second_moment: SECOND_MOMENT, wanted: WANTED, euler: EULER) -> BENT:
    """Greatest stress of a strut that is pressed and bent at once: the push makes the bow greater.

    The bow is taken as it would be under the required factor times the forces, so that the strength over this stress may be compared with
    that factor. It holds while ν_r S is below Euler's force; beyond that it is without meaning.

    Source: common practice, no source (bow magnified by 1 / (1 - P/P_E), which the exact solution for a force across the middle stays below:
    1.986 against 2 at half of P_E).

    >>> round(bent_stress(push=1000.0, area=0.00636, bend=75.0, edge=0.045, second_moment=322e-8, wanted=4.0, euler=15630.0) / 1e6, 3)
    1.566
    """
    return push / area + bend * edge / (second_moment * (1 - wanted * push / euler))
