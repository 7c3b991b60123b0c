"""The whole rig: the range of loads over which every check still holds, what governs each end, and the test loads of the basis.

Every demand and capacity is a line of working, so the same lines are asked again for other loads. A demand is the greatest of
pulls that are straight in the load, so each check holds over one stretch of loads; those stretches are cut with one another.
"""

from __future__ import annotations

import copy
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

import numpy

from rigcheck.checks.check import CANNOT_TELL, COMMON_PRACTICE, FALLS_SHORT, FROM_MEMORY, Check, Judge
from rigcheck.working import Line

DOUBLINGS = numpy.arange(-12, 13)
FINE_DOUBLINGS = numpy.arange(-12 * 16, 12 * 16 + 1) / 16  # where a check holds nowhere on the coarse ones: finds a range 5 % wide
# what hangs free must be settled anew for every load, and under a load far lighter than the blocks above it may hang nowhere at all
HUNG_DOUBLINGS = numpy.arange(-4, 13, 2)
HUNG_FINE_DOUBLINGS = numpy.arange(-4 * 4, 12 * 4 + 1) / 4  # finds a range 19 % wide
LIGHTEST_ASKED = "A load lighter than a sixteenth of that entered: where the rig would hang with it was not looked for."
PARTS = 9
ROUNDS = 12
CLOSE_ENOUGH = 1e-9


@dataclass(frozen=True)
class Range:
    """Loads in kg between which all known checks hold, and the id of the check that governs each end.

    Where a test load governs, `through` and `least_through` are the ids of the checks that have least left in that test.
    """

    greatest_kg: float
    governed_by: str | None
    least_kg: float | None
    least_governed_by: str | None
    through: str | None = None
    least_through: str | None = None


@dataclass(frozen=True)
class Whole:
    """The rated load as the contract states it, and the range on what is known.

    `by_load` is the range over which all known checks on the load hold, whatever the checks say that do not depend on it. Where a rule of thumb without
    a source governs an end of it, `sourced` is the range over which all others hold, so that no such rule is all that is told of a limit.
    """

    rated_load_kg: float | None
    governed_by: str | None
    least_load_kg: float | None
    rated_load_on_what_is_known_kg: float
    known: Range
    by_load: Range
    sourced: Range | None = None


def rate(judge: Judge, tests: Mapping[str, Callable[[float], Check]] | None = None) -> Whole:
    """The rated load: unknown if a check on the load cannot tell, 0 if one that does not depend on the load falls short.

    `tests` gives, by the id of a test load's check, the function that names what has least left there.
    """
    if judge.solution.travel.hung:
        judge.leave_out(LIGHTEST_ASKED)
    known = _with_tests(load_range(judge), tests or {})
    sourced = _sourced(judge, known, tests or {})
    short = next((c for c in judge.checks if c.verdict == FALLS_SHORT and not c.on_load), None)
    if short is not None:
        return Whole(0.0, short.id, None, 0.0, Range(0.0, short.id, None, None), known, sourced)
    unknown = next((c for c in judge.checks if c.verdict == CANNOT_TELL and c.on_load), None)
    if unknown is not None:
        return Whole(None, unknown.id, known.least_kg, known.greatest_kg, known, known, sourced)
    return Whole(known.greatest_kg, known.governed_by, known.least_kg, known.greatest_kg, known, known, sourced)


def _sourced(judge: Judge, known: Range, tests: Mapping[str, Callable[[float], Check]]) -> Range | None:
    """The range without the rules of thumb, where one of them governs; None where none does."""
    by_thumb = {check.id for check in judge.checks if check.mark == COMMON_PRACTICE}
    if not by_thumb & {known.governed_by, known.least_governed_by}:
        return None
    others = copy.copy(judge)
    others.checks = [check for check in judge.checks if check.id not in by_thumb]
    return _with_tests(load_range(others), tests)


def _with_tests(found: Range, tests: Mapping[str, Callable[[float], Check]]) -> Range:
    """The range with what decides in a test load that governs an end of it."""

    def through(id: str | None, load_kg: float | None) -> str | None:
        return tests[id](load_kg).id if id in tests and load_kg else None

    return replace(
        found,
        through=through(found.governed_by, found.greatest_kg),
        least_through=through(found.least_governed_by, found.least_kg),
    )


def load_range(judge: Judge) -> Range:
    """The stretch of loads around the load entered (or the nearest one) over which all known checks hold."""
    checks = [c for c in judge.checks if c.on_load and c.demand is not None and c.capacity is not None and c.required is not None]
    checks = [c for c in checks if c.mark != FROM_MEMORY]
    coarse, fine = (HUNG_DOUBLINGS, HUNG_FINE_DOUBLINGS) if judge.solution.travel.hung else (DOUBLINGS, FINE_DOUBLINGS)
    loads = judge.load_mass.number * 2.0**coarse
    margins = _margins(judge, checks, loads)
    # a check that cannot tell because a rope goes slack at this load is still asked for other loads; one unknown at all of them is left out
    known = [i for i in range(len(checks)) if numpy.any(margins[i] > -numpy.inf)]
    checks, margins = [checks[i] for i in known], margins[known]
    if not checks:
        return Range(float("inf"), None, None, None)
    if numpy.any(_last_holding(margins) < 0):
        loads = judge.load_mass.number * 2.0**fine
        margins = _margins(judge, checks, loads)
    upper = _end(judge, checks, loads, margins)
    lower = _end(judge, checks, loads[::-1], margins[:, ::-1])
    if upper is None or lower is None or (lower[1] and upper[1] and lower[0] > upper[0]):
        governs = min(range(len(checks)), key=lambda i: numpy.max(margins[i]))
        return Range(0.0, (upper and upper[1]) or checks[governs].id, None, lower and lower[1])
    return Range(upper[0] if upper[1] else float("inf"), upper[1], lower[0] if lower[1] else None, lower[1])


def _end(judge: Judge, checks: list[Check], loads: numpy.ndarray, margins: numpy.ndarray) -> tuple[float, str | None] | None:
    """Going along the loads, where the first check stops holding for good, and its id; None if one never holds.

    The bracket is cut in parts until the margins of the checks that fail in it are straight, where interpolation is exact.
    """
    last = _last_holding(margins)
    if (last < 0).any():
        return None
    if (last == len(loads) - 1).all():
        return float(loads[-1]), None
    at = int(last.min())
    good, bad = loads[at], loads[at + 1]
    failing = [i for i in range(len(checks)) if last[i] == at]
    checks, inside = [checks[i] for i in failing], margins[failing][:, at : at + 2]
    for _ in range(ROUNDS):
        edge, first = _interpolate(good, bad, inside)
        cut = numpy.unique(numpy.concatenate([numpy.linspace(good, bad, PARTS), [edge]]))
        cut = cut if bad > good else cut[::-1]
        inner = _margins(judge, checks, cut)
        scale = max(abs(checks[first].capacity.number), abs(checks[first].demand.number), 1e-12)
        if abs(inner[first, list(cut).index(edge)]) <= CLOSE_ENOUGH * scale:
            return float(edge), checks[first].id
        last = _last_holding(inner)
        at = int(last.min())
        if at < 0 or at == len(cut) - 1:
            break
        good, bad, inside = cut[at], cut[at + 1], inner[:, at : at + 2]
        keep = [i for i in range(len(checks)) if last[i] == at]
        checks, inside = [checks[i] for i in keep], inside[keep]
    return float(good), checks[0].id


def _last_holding(margins: numpy.ndarray) -> numpy.ndarray:
    """For each check the last index at which it holds, -1 if none."""
    holds = margins >= 0
    return numpy.where(holds.any(axis=1), holds.shape[1] - 1 - numpy.argmax(holds[:, ::-1], axis=1), -1)


def _interpolate(good: float, bad: float, margins: numpy.ndarray) -> tuple[float, int]:
    """The nearest load at which a margin crosses zero on a straight line, and which check's that is."""
    with numpy.errstate(all="ignore"):
        share = numpy.where(numpy.isfinite(margins[:, 1]), margins[:, 0] / (margins[:, 0] - margins[:, 1]), 0.5)
    # of checks that end together the first is named
    first = int(numpy.flatnonzero(share <= share.min() * (1 + 1e-9))[0])
    return float(good + (bad - good) * share[first]), first


def _margins(judge: Judge, checks: list[Check], loads: numpy.ndarray) -> numpy.ndarray:
    """Margins (checks, loads); what is not a number counts as not holding."""
    lines: list[Line] = [line for c in checks for line in (c.demand, c.capacity)]
    values = judge.working.evaluate({judge.load_mass: numpy.asarray(loads)[:, None]}, lines)
    flat = [numpy.broadcast_to(v, (len(loads), v.shape[-1]))[:, 0] for v in values]
    margins = numpy.array([c.margin(flat[2 * i], flat[2 * i + 1]) for i, c in enumerate(checks)]).reshape(len(checks), len(loads))
    return numpy.where(numpy.isnan(margins), -numpy.inf, margins)
