"""The verdict on the whole rig in one or two sentences: what Begin, the text, the PDF and the page of the report say alike.

The spare is told from the rated load, since a single check's factor may grow faster or slower than the load.
"""

from __future__ import annotations

import math

from rigcheck import units
from rigcheck.checks import hand
from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT
from rigcheck.report import contents, governing


def sentence(assessment: Assessment) -> str:
    """The verdict on the whole rig with the load entered, how far it reaches, and what governs that."""
    mass, counts = load_entered(assessment), assessment.counts
    if not assessment.checks:
        return f"With {mass} nothing was checked."
    if counts[FALLS_SHORT]:
        return f"With {mass} it falls short; {_furthest(assessment)}.{_but(assessment)}{_also_unknown(counts[CANNOT_TELL])}{_by_hand(assessment)}"
    if counts[CANNOT_TELL]:
        first = next(check for check in contents.worst_first(assessment.checks) if check.verdict == CANNOT_TELL)
        many = counts[CANNOT_TELL]
        whole = f"With {mass} it cannot be told: {_checks(many).lower()} cannot tell, such as {first.item}, {first.what}."
        return f"{whole}{_on_what_is_known(assessment)}{_by_hand(assessment)}"
    return f"{_holds(assessment, mass)}{_no_lighter(assessment)}{_by_hand(assessment)}"


def load_entered(assessment: Assessment) -> str:
    """The load with its tolerance, in the units that the rated load is shown in."""
    mass = assessment.rig.load.mass
    tolerance = f" ± {units.show(mass.plus_minus, 'kg', 4, 'up')}" if mass.plus_minus else ""
    return f"{units.show(mass.value, 'kg', 4, 'up')}{tolerance}"


def _holds(assessment: Assessment, mass: str) -> str:
    whole, spare = assessment.whole, governing.to_spare_percent(assessment)
    if governing.is_rule_of_thumb(assessment):
        most = units.show(whole.rated_load_kg, "kg", 4, "down")
        return f"With {mass} it holds, up to {most}; {governing.greatest(assessment)} governs.{_by_sources(assessment)}"
    if spare is None:
        return f"With {mass} it holds; no load was found at which it would not."
    most = units.show(whole.rated_load_kg, "kg", 4, "down")
    return f"With {mass} it holds, up to {most}, {spare} % to spare; {governing.greatest(assessment)} governs."


def _by_sources(assessment: Assessment) -> str:
    """How far the checks reach that rest on more than a rule of thumb."""
    sourced = assessment.whole.sourced
    if sourced is None:
        return ""
    if not math.isfinite(sourced.greatest_kg):
        return " No other check sets a limit."
    return f" All other checks hold up to {units.show(sourced.greatest_kg, 'kg', 4, 'down')}; there {governing.by_sources(assessment)} governs."


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
        return _whatever_the_load(assessment) or " There is no load at which it would hold as it is."
    if not math.isfinite(rated):
        return _no_lighter(assessment)
    return f" It holds up to {units.show(rated, 'kg', 4, 'down')}; {governing.greatest(assessment)} governs.{_by_sources(assessment)}{_no_lighter(assessment)}"


def _whatever_the_load(assessment: Assessment) -> str:
    """What no load mends, and how far the checks on the load would reach by themselves; "" where the load alone decides.

    While a check on the load cannot tell, no load is named: beside the verdict it would read as a permission.
    """
    why, alone = governing.whatever_the_load(assessment), assessment.whole.by_load
    if not why:
        return ""
    told = f" Whatever it lifts, it falls short because of {why}."
    if any(check.on_load and check.verdict == CANNOT_TELL for check in assessment.checks):
        return told
    if alone.greatest_kg <= 0:
        return f"{told} Nor is there a load at which the checks on the load all hold."
    if not math.isfinite(alone.greatest_kg):
        return told
    most = units.show(alone.greatest_kg, "kg", 4, "down")
    return f"{told} The checks on the load, taken alone, hold up to {most}; {governing.by_load(assessment)} governs."


def _on_what_is_known(assessment: Assessment) -> str:
    """Only that no load would do; how far the rest would reach stands in the report, since beside the verdict it reads as a permission."""
    known = assessment.whole.known
    return " On what is known there is no load at which it would hold." if known.greatest_kg <= 0 and known.governed_by is not None else ""


def _also_unknown(many: int) -> str:
    return f" {_checks(many)} cannot tell." if many else ""


def _by_hand(assessment: Assessment) -> str:
    return f" {hand.BELAY}" if assessment.rig.drive.kind == "hand line" else ""


def _checks(many: int) -> str:
    return "One check" if many == 1 else f"{many} checks"
