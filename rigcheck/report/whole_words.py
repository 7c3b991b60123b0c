"""The verdict on the whole rig in one or two sentences: what Begin, the text, the PDF and the page of the report say alike.

The spare is told from the rated load, since a single check's factor may grow faster or slower than the load.
"""

from __future__ import annotations

import math

from rigcheck import units
from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT
from rigcheck.report import contents, governing


def sentence(assessment: Assessment) -> str:
    """The verdict on the whole rig with the load entered, how far it reaches, and what governs that."""
    mass, counts = load_entered(assessment), assessment.counts
    if not assessment.checks:
        return f"With {mass} nothing was checked."
    if counts[FALLS_SHORT]:
        return f"With {mass} it falls short; {_furthest(assessment)}.{_but(assessment)}{_also_unknown(counts[CANNOT_TELL])}"
    if counts[CANNOT_TELL]:
        first = next(check for check in contents.worst_first(assessment.checks) if check.verdict == CANNOT_TELL)
        many = counts[CANNOT_TELL]
        whole = f"With {mass} it cannot be told: {_checks(many).lower()} cannot tell, such as {first.item}, {first.what}."
        return f"{whole}{_on_what_is_known(assessment)}"
    return f"{_holds(assessment, mass)}{_no_lighter(assessment)}"


def load_entered(assessment: Assessment) -> str:
    """The load with its tolerance, in the units that the rated load is shown in."""
    mass = assessment.rig.load.mass
    tolerance = f" ± {units.show(mass.plus_minus, 'kg', 4, 'up')}" if mass.plus_minus else ""
    return f"{units.show(mass.value, 'kg', 4, 'up')}{tolerance}"


def _holds(assessment: Assessment, mass: str) -> str:
    whole, spare = assessment.whole, governing.to_spare_percent(assessment)
    if spare is None:
        return f"With {mass} it holds; no load was found at which it would not."
    most = units.show(whole.rated_load_kg, "kg", 4, "down")
    return f"With {mass} it holds, up to {most}, {spare} % to spare; {governing.greatest(assessment)} governs."


def _no_lighter(assessment: Assessment) -> str:
    whole = assessment.whole
    if whole.least_load_kg is None:
        return ""
    return (
        f" The load must not be lighter than {units.show(whole.least_load_kg, 'kg', 4, 'up')}; there {governing.least(assessment)} governs."
    )


def _furthest(assessment: Assessment) -> str:
    short = next(check for check in contents.worst_first(assessment.checks) if check.verdict == FALLS_SHORT)
    told = contents.shown(short)
    how = f": factor {told.factor} where {told.required} is required" if short.factor_value is not None else ""
    return f"furthest from holding is {short.item}, {short.what}{how}"


def _but(assessment: Assessment) -> str:
    """For which loads it would hold, where there are any."""
    whole = assessment.whole
    rated = whole.rated_load_kg
    if rated is None:
        return ""
    if rated == 0:
        return " There is no load at which it would hold as it is."
    if not math.isfinite(rated):
        return _no_lighter(assessment)
    return f" It holds up to {units.show(rated, 'kg', 4, 'down')}; {governing.greatest(assessment)} governs.{_no_lighter(assessment)}"


def _on_what_is_known(assessment: Assessment) -> str:
    """Only that no load would do; how far the rest would reach stands in the report, since beside the verdict it reads as a permission."""
    known = assessment.whole.known
    return " On what is known there is no load at which it would hold." if known.greatest_kg <= 0 and known.governed_by is not None else ""


def _also_unknown(many: int) -> str:
    return f" {_checks(many)} cannot tell." if many else ""


def _checks(many: int) -> str:
    return "One check" if many == 1 else f"{many} checks"
