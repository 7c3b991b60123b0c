"""Formulas of rope strength."""

from rigcheck.formula import Sign, formula

DIAMETER = Sign("d", "diameter of the rope", "mm", above=0)
GRADE = Sign("R", "rope grade", "N/mm²", above=0)
BREAKING_FACTOR = Sign("K", "breaking force factor of the construction", "", above=0)
BREAKING_FORCE = Sign("F_min", "minimum breaking force of the rope", "N", above=0)
TESTED_DIAMETER = Sign("d_t", "diameter that the table's strength belongs to", "mm", above=0)
TABLE_FORCE = Sign("F_t", "breaking force printed in the table", "N", above=0)
REMAINING = Sign("k_c", "share of strength left in this condition", "", above=0, high=1)
END_SHARE = Sign("k_e", "share of strength left by the end fitting", "", above=0, high=1)
BEND_SHARE = Sign("k_b", "share of strength left over the bend", "", above=0, high=1)
PLACE_FORCE = Sign("F", "breaking force at this place", "N")
PULL = Sign("T", "greatest pull at this place", "N")
DYNAMIC = Sign("ψ", "dynamic factor", "", low=1)
DEMAND = Sign("S", "pull counted against the rope", "N")
SHEAVE_DIAMETER = Sign("D", "diameter of sheave or drum", "mm", above=0)
DIAMETER_RATIO = Sign("D/d", "diameter of the bend over that of the rope", "")


@formula
def wire_breaking_force(diameter: DIAMETER, grade: GRADE, factor: BREAKING_FACTOR) -> BREAKING_FORCE:
    """Minimum breaking force of a steel wire rope.

    Source: EN 12385-4 and ISO 2408 (as reproduced in a rope maker's technical note): F = d² R K.

    >>> round(wire_breaking_force(diameter=0.010, grade=1770e6, factor=0.332))
    58764
    """
    return diameter**2 * grade * factor


@formula
def scaled_breaking_force(force: TABLE_FORCE, diameter: DIAMETER, tested: TESTED_DIAMETER) -> BREAKING_FORCE:
    """Breaking force of a fibre rope a little thinner than the size its table was made for: by cross-section.

    Source: common practice, no source.

    >>> round(scaled_breaking_force(force=10000.0, diameter=0.012, tested=0.0127))
    8928
    """
    return force * diameter**2 / tested**2


@formula
def force_at_end(force: BREAKING_FORCE, end: END_SHARE, condition: REMAINING) -> PLACE_FORCE:
    """What the rope bears at an end: its breaking force less what fitting and condition take.

    Source: definition of the shares.

    >>> force_at_end(force=20000.0, end=0.8, condition=1.0)
    16000.0
    """
    return force * end * condition


@formula
def force_at_bend(force: BREAKING_FORCE, bend: BEND_SHARE, condition: REMAINING) -> PLACE_FORCE:
    """What the rope bears over a sheave or drum: its breaking force less what bend and condition take.

    Source: definition of the shares.

    >>> force_at_bend(force=20000.0, bend=0.9, condition=1.0)
    18000.0
    """
    return force * bend * condition


@formula
def counted_pull(pull: PULL, dynamic: DYNAMIC) -> DEMAND:
    """The pull that is counted against the rope.

    Source: definition of the dynamic factor; what a required factor covers already is not counted here again.

    >>> counted_pull(pull=1000.0, dynamic=1.1)
    1100.0
    """
    return pull * dynamic


@formula
def diameter_ratio(bend: SHEAVE_DIAMETER, rope: DIAMETER) -> DIAMETER_RATIO:
    """Ratio of diameters D/d of a bend.

    Source: definition.

    >>> diameter_ratio(bend=0.12, rope=0.006)
    20.0
    """
    return bend / rope
