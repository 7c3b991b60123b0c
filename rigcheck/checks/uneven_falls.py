"""Falls that are not as long as they are drawn: how far they tilt a body that is free to tilt in its guide, and what the stretch of its ropes adds.

To first order a body tilts with the length of one fall as the inverse of its motion says; for two falls the width between them is what counts.
"""

from __future__ import annotations

import numpy
import sympy

from rigcheck import units
from rigcheck.checks.check import Judge
from rigcheck.formula import Sign, formula
from rigcheck.statics.sharing import tensile_stiffness
from rigcheck.working import Line

AN_EXAMPLE_M = 0.01
LONGER = Sign("Δl", "by how much one fall is longer than drawn", "m")
SPAN = Sign("b", "width over which a fall tilts the body", "m", above=0)
TILT = Sign("θ", "tilt", "°")
PULL = Sign("T", "pull in the rope", "N")
LENGTH = Sign("l", "free length of the rope", "m", above=0)
STRETCHY = Sign("E_A", "modulus times metal area of the rope", "N", above=0)
STRETCH = Sign("Δl", "stretch of the rope", "m")


@formula
def tilt_of_falls(longer: LONGER, span: SPAN) -> TILT:
    """Tilt of a body on falls so far apart, one of them longer than the other.

    Source: geometry.

    >>> round(tilt_of_falls(longer=0.01, span=0.5), 5)
    0.02
    """
    return sympy.atan(longer / span)


@formula
def stretch(pull: PULL, length: LENGTH, stretchy: STRETCHY) -> STRETCH:
    """How much longer a rope gets under its pull.

    Source: Hooke's law.

    >>> stretch(pull=1000.0, length=4.0, stretchy=1e6)
    0.004
    """
    return pull * length / stretchy


def tell(judge: Judge) -> None:
    """Say of every body that is free to tilt in its guide how unequal falls tilt it."""
    travel = judge.solution.travel
    if travel.hung is not None or len(travel.growth) < len(travel.free):
        return
    turns = _tilt_by_length(judge)
    for j, free in enumerate(travel.free):
        if not free.tilts or free.hinge is not None:
            continue
        told = []
        for r, rope in enumerate(travel.growth):
            steepest = float(numpy.max(numpy.abs(turns[:, j, r])))
            if steepest < 1e-9:
                continue
            span = judge.working.geometry(
                SPAN.of(f"{free.body}, {rope}"), numpy.array([1 / steepest]), "motion of the rig, where it is least"
            )
            longer = judge.working.given(
                LONGER.of(f"{free.body}, {rope}", f"example of how much {rope} is longer than drawn"), AN_EXAMPLE_M, "taken as an example"
            )
            tilt = judge.working.apply(
                tilt_of_falls, f"{free.body}, {rope}", f"tilt of {free.body} where {rope} is that much longer", longer=longer, span=span
            )
            told.append(
                f"by {units.show(tilt.number, '°', 2, 'up')} for every {units.show(AN_EXAMPLE_M, 'mm')} that {rope} is too long or too short"
            )
        if told:
            judge.leave_out(f"Whether {free.body} hangs level: it tilts {', '.join(told)}.{_by_stretch(judge, free.body, turns[:, j])}")


def _tilt_by_length(judge: Judge) -> numpy.ndarray:
    """How every coordinate changes with the length of every rope, the others keeping theirs, (heights, coordinates, ropes)."""
    travel = judge.solution.travel
    return numpy.linalg.pinv(numpy.stack([growth.sum(axis=0) for growth in travel.growth.values()], axis=1))


def _by_stretch(judge: Judge, body: str, turns: numpy.ndarray) -> str:
    """The tilt that the ropes' own stretch gives as they take up the load, where it is known how they stretch."""
    solution, travel = judge.solution, judge.solution.travel
    acting = [(r, rope) for r, rope in enumerate(travel.growth) if numpy.any(numpy.abs(turns[:, r]) > 1e-9)]
    stiff = {rope: tensile_stiffness(judge.rig.ropes[rope]) for _, rope in acting}
    unknown = [rope for rope, each in stiff.items() if each is None]
    if unknown:
        return f" What the stretch of {' and '.join(unknown)} adds is not known: that needs the modulus and the metal area."
    lines: dict[str, Line] = {}
    for r, rope in acting:
        length = judge.working.geometry(LENGTH.of(f"{rope}, free"), travel.paths[rope].straight.sum(axis=0), "straight runs of the rope")
        elastic = judge.given(STRETCHY.of(f"{rope}, stretch"), stiff[rope], f"ropes, {rope}, modulus and metal area")
        pull = solution.runs[rope][solution.powers[rope].reference].raising
        lines[f"x{r}"] = judge.working.apply(
            stretch, f"{rope}, stretch", f"stretch of {rope}, raising", pull=pull, length=length, stretchy=elastic
        )

    def compute(**values: numpy.ndarray) -> numpy.ndarray:
        return numpy.abs(sum(values[f"x{r}"] * turns[:, r] for r, _ in acting))

    along = judge.working.solve_in_numbers(TILT.of(f"{body}, stretch", f"tilt of {body} by the stretch of its ropes"), compute,
                                           "each rope's stretch as it tilts the body", "geometry", **lines)  # fmt: skip
    most = judge.working.extreme(TILT.of(f"{body}, stretch most", f"greatest tilt of {body} by the stretch of its ropes"), [along])
    return f" The stretch of its ropes tilts it by up to {units.show(most.number, '°', 2, 'up')} as they take up the load."
