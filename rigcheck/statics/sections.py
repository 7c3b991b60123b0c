"""The section of a strut: its area and its least second moment of area, from what is stated of it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy
import sympy

from rigcheck.formula import Sign, formula
from rigcheck.rig.model import Strut
from rigcheck.working import Line, Working

OUTER = Sign("d", "outer diameter", "mm", above=0)
INNER = Sign("d_i", "inner diameter", "mm", low=0)
WALL = Sign("t", "wall of the tube", "mm", above=0)
BROAD = Sign("h", "broad side", "mm", above=0)
THIN = Sign("b", "thin side", "mm", above=0)
AREA = Sign("A", "area of the section", "mm²", above=0)
SECOND_MOMENT = Sign("I", "least second moment of area", "cm⁴", above=0)


@formula
def inner_diameter(outer: OUTER, wall: WALL) -> INNER:
    """Inner diameter of a tube.

    Source: definition of the wall.

    >>> round(inner_diameter(outer=0.0483, wall=0.0032), 6)
    0.0419
    """
    return outer - 2 * wall


@formula
def round_area(outer: OUTER, inner: INNER) -> AREA:
    """Area of a round section, solid where the inner diameter is 0.

    Source: geometry of the circle.

    >>> round(round_area(outer=0.0483, inner=0.0419) * 1e6, 1)
    453.4
    """
    return sympy.pi * (outer**2 - inner**2) / 4


@formula
def round_second_moment(outer: OUTER, inner: INNER) -> SECOND_MOMENT:
    """Second moment of area of a round section about any diameter.

    Source: geometry of the circle; section tables print 11.6 cm⁴ for a tube of 48.3 × 3.2 mm (EN 10219-2).

    >>> round(round_second_moment(outer=0.0483, inner=0.0419) * 1e8, 3)
    11.586
    """
    return sympy.pi * (outer**4 - inner**4) / 64


@formula
def rectangle_area(broad: BROAD, thin: THIN) -> AREA:
    """Area of a rectangular section.

    Source: geometry of the rectangle.

    >>> round(rectangle_area(broad=0.145, thin=0.045) * 1e4, 2)
    65.25
    """
    return broad * thin


@formula
def rectangle_second_moment(broad: BROAD, thin: THIN) -> SECOND_MOMENT:
    """Least second moment of area of a rectangular section: it bends over its thin side.

    Source: geometry of the rectangle.

    >>> round(rectangle_second_moment(broad=0.1, thin=0.1) * 1e8, 1)
    833.3
    """
    return broad * thin**3 / 12


@dataclass(frozen=True)
class Section:
    """Area and least second moment of area, as lines."""

    area: Line
    second_moment: Line


def section(working: Working, name: str, strut: Strut) -> Section | None:
    """The section of a strut as lines of working; None where it is not stated, or not wholly."""

    def given(sign: Sign, field: str) -> Line:
        return working.given(
            sign.of(name, f"{sign.meaning} of {name}"), getattr(strut, field).value, f"struts, {name}, {field}", strut.notes.get(field, "")
        )

    if strut.diameter is not None:
        outer = given(OUTER, "diameter")
        if strut.wall is None:
            inner = working.given(INNER.of(name, f"inner diameter of {name}"), 0.0, "solid: no wall is stated")
        else:
            inner = working.apply(inner_diameter, name, f"inner diameter of {name}", outer=outer, wall=given(WALL, "wall"))
        return Section(
            working.apply(round_area, name, f"area of the section of {name}", outer=outer, inner=inner),
            working.apply(round_second_moment, name, f"second moment of area of {name}", outer=outer, inner=inner),
        )
    if strut.broad_side is not None and strut.thin_side is not None:
        sides = {"broad": given(BROAD, "broad_side"), "thin": given(THIN, "thin_side")}
        return Section(
            working.apply(rectangle_area, name, f"area of the section of {name}", **sides),
            working.apply(rectangle_second_moment, name, f"least second moment of area of {name}", **sides),
        )
    if strut.second_moment is not None and strut.area is not None:
        return Section(given(AREA, "area"), given(SECOND_MOMENT, "second_moment"))
    return None


def area_m2(strut: Strut) -> float | None:
    """The area of a strut's section, None where it is not stated."""
    found = section(Working(numpy.zeros(1)), "", strut)
    if found is not None:
        return found.area.number
    return None if strut.area is None else strut.area.value
