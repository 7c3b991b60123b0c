"""The tolerance of the load: whether the rig still holds if the load is as heavy, or as light, as it may be.

Every other check judges the middle value. These come after the rated load and never enter it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy

from rigcheck import units
from rigcheck.checks.best_counterweight import BestCounterweight
from rigcheck.checks.check import CANNOT_TELL, COMMON_PRACTICE, Check, FieldPath, Judge
from rigcheck.checks.whole import Whole
from rigcheck.formula import Sign, formula
from rigcheck.units import Quantity
from rigcheck.working import Line

LOAD = Sign("m", "mass of the load", "kg", above=0)
TOLERANCE = Sign("Δm", "tolerance of the load", "kg", low=0)
HEAVIEST = Sign("m_heaviest", "the load at the upper end of its tolerance", "kg", towards="up")
LIGHTEST = Sign("m_lightest", "the load at the lower end of its tolerance", "kg", towards="down")
GREATEST = Sign("m_rated", "greatest load at which every check on the load holds", "kg", towards="down")
LEAST = Sign("m_least", "least load at which every check on the load holds", "kg", towards="up")
SOURCE = "the tolerance stated with the load, against the loads at which every other check holds"
NO_LEAVE = "that is no leave to lift it while checks on the load cannot tell"
WHAT = "at the upper end of its tolerance"
WHAT_LEAST = "at the lower end of its tolerance"


@formula
def heaviest_load(mass: LOAD, tolerance: TOLERANCE) -> HEAVIEST:
    """The most that the load may weigh.

    Source: meaning of a tolerance.

    >>> heaviest_load(mass=120.0, tolerance=5.0)
    125.0
    """
    return mass + tolerance


@formula
def lightest_load(mass: LOAD, tolerance: TOLERANCE) -> LIGHTEST:
    """The least that the load may weigh.

    Source: meaning of a tolerance.

    >>> lightest_load(mass=120.0, tolerance=5.0)
    115.0
    """
    return mass - tolerance


def check(judge: Judge, whole: Whole, best: BestCounterweight | None = None) -> None:
    """Judge both ends of the load's tolerance against the loads at which the checks on the load hold; name the tolerances that do not count."""
    mass, path = judge.rig.load.mass, ("bodies", judge.rig.load_name, "mass")
    others = [words for where, words in _with_tolerance(judge.rig, ()) if where != path]
    if others:
        judge.leave_out(f"The tolerances of everything but the load: verdicts count the middle value of {'; '.join(others)}.")
    if not mass.plus_minus:
        return
    tolerance = judge.given(TOLERANCE, mass.plus_minus, f"bodies, {judge.rig.load_name}, mass", judge.rig.load.notes.get("mass", ""))
    _upper(judge, whole, tolerance)
    if whole.by_load.least_kg is not None:
        _lower(judge, whole, tolerance, best)


def _upper(judge: Judge, whole: Whole, tolerance: Line) -> None:
    most = judge.working.apply(heaviest_load, mass=judge.load_mass, tolerance=tolerance)
    greatest = whole.by_load.greatest_kg
    beside = ("load.tolerance", judge.rig.load_name, WHAT, ("body", judge.rig.load_name))
    if not math.isfinite(greatest):
        if _on_the_load(judge):
            judge.cannot_tell(*beside, _open_question(), on_load=True, wants=judge.wanted(_on_the_load(judge)), source=SOURCE, demand=most)
        else:
            judge.holds(*beside, f"No limit was found, so not at {units.show(most.number, 'kg', 4, 'up')} either.", source=SOURCE)
        return
    reach = units.show(max(greatest, 0.0), "kg", 4, "down")
    remedy = f"Lift no more than {reach} even if it is heavier than thought, or weigh it more closely."
    if _on_the_load(judge):
        remedy = f"Lift less, or weigh it more closely. What is known reaches to {reach}; {NO_LEAVE}."
    if greatest <= 0:
        remedy = "See the other checks first: no load was found at which they hold."
    _compare(judge, whole, beside, most, _range_line(judge, GREATEST, greatest), remedy)


def _lower(judge: Judge, whole: Whole, tolerance: Line, best: BestCounterweight | None) -> None:
    least = judge.working.apply(lightest_load, mass=judge.load_mass, tolerance=tolerance)
    asked = whole.by_load.least_kg
    reach = units.show(asked, "kg", 4, "up")
    remedy = f"Lift no less than {reach}, or weigh it more closely."
    if _on_the_load(judge):
        remedy = f"Lift more, or weigh it more closely. What is known begins at {reach}; {NO_LEAVE}."
    if best is not None and best.can_be_told and (best.mass_kg is None or best.mass_kg < judge.solution.masses[best.name].number):
        remedy = f"{remedy} Or hang {best.remedy}"
    beside = ("load.tolerance.least", judge.rig.load_name, WHAT_LEAST, ("body", judge.rig.load_name))
    _compare(judge, whole, beside, _range_line(judge, LEAST, asked), least, remedy)


def _range_line(judge: Judge, sign: Sign, load_kg: float) -> Line:
    return judge.working.solve_in_numbers(
        sign, lambda: numpy.array([load_kg]), "every check asked again for other loads", "the checks on the load"
    )


def _compare(judge: Judge, whole: Whole, beside: tuple[str, str, str, tuple[str, str]], demand: Line, capacity: Line, remedy: str) -> None:
    """What already falls short on what is known does so whatever the rest may say; what holds on what is known cannot be told yet."""
    path: FieldPath = ("bodies", judge.rig.load_name, "mass")
    thumb = _by_thumb(judge, whole) if beside[2] == WHAT else ""
    reason = f"All other checks judge the middle value.{thumb}{_alone(judge, whole)}"
    if _on_the_load(judge) and capacity.number >= demand.number:
        judge.cannot_tell(
            *beside, _open_question(), on_load=True, wants=judge.wanted(_on_the_load(judge)), source=SOURCE, demand=demand, required=1.0
        )
        return
    found = judge.compare(*beside, demand, capacity, source=SOURCE, reason=reason, remedy=remedy, needs_taut=False, mends=(path,),
                          mark=COMMON_PRACTICE if thumb else "read")  # fmt: skip
    if not found.on_load:
        judge.replace(found, on_load=True)


def _by_thumb(judge: Judge, whole: Whole) -> str:
    """That what governs the loads compared with is a rule of thumb, and how far everything else reaches; "" where it is not."""
    governs = next((check for check in judge.checks if check.id == whole.by_load.governed_by), None)
    if governs is None or governs.mark != COMMON_PRACTICE or whole.sourced is None:
        return ""
    others = whole.sourced.greatest_kg
    reach = f"all others hold up to {units.show(others, 'kg', 4, 'down')}" if math.isfinite(others) else "no other sets a limit"
    return f" What governs there is a rule of thumb without a source, {governs.item}, {governs.what}; {reach}."


def _alone(judge: Judge, whole: Whole) -> str:
    """That the rig falls short for a reason that no load mends, whatever this comparison says."""
    if whole.rated_load_kg != 0 or whole.by_load.greatest_kg <= 0:
        return ""
    why = next(check for check in judge.checks if check.id == whole.governed_by)
    return (
        " This compares only with the loads at which the checks on the load hold, taken alone: whatever the load, the rig falls short because of "
        f"{why.item}, {why.what}."
    )


def _on_the_load(judge: Judge) -> list[Check]:
    return [check for check in judge.checks if check.on_load and check.verdict == CANNOT_TELL]


def _open_question() -> str:
    return "The rated load is not known: see the checks on the load that cannot tell."


def _with_tolerance(part, path: FieldPath) -> Iterator[tuple[FieldPath, str]]:
    """Every quantity of a part, and of the parts in it, that carries a tolerance: its path, and its name with what was typed."""
    if isinstance(part, Quantity):
        if part.plus_minus:
            yield path, f"{', '.join(str(step).replace('_', ' ') for step in path if not isinstance(step, int))} ({part})"
        return
    if isinstance(part, dict):
        children = part.items()
    elif isinstance(part, tuple):
        children = enumerate(part)
    elif hasattr(type(part), "model_fields"):
        children = [(name, getattr(part, name)) for name in type(part).model_fields]
    else:
        return
    for step, child in children:
        yield from _with_tolerance(child, (*path, step))
