"""Verdicts in words, with marks that read the same in black and white; the figures are those of the report."""

from __future__ import annotations

import math

from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS, Check
from rigcheck.report import contents

MARKS = {HOLDS: "○", FALLS_SHORT: "▲", CANNOT_TELL: "◇"}
PLURALS = {HOLDS: "hold", FALLS_SHORT: "fall short", CANNOT_TELL: "cannot tell"}


def named(check: Check) -> str:
    return f"{check.item}, {check.what}"


def check_of(assessment: Assessment, id: str | None) -> Check | None:
    return next((check for check in assessment.checks if check.id == id), None)


def in_hand(check: Check) -> float | None:
    """The factor over the required one: 1 where it just holds; None where it is not known."""
    return None if check.factor_value is None or not check.required else check.factor_value / check.required


def nearest(assessment: Assessment) -> Check | None:
    """The check on the load that comes nearest to its limit, of those that could be judged."""
    known = [check for check in assessment.checks if check.on_load and check.verdict != CANNOT_TELL and in_hand(check) is not None]
    return min(known, key=in_hand, default=None)


def to_spare_percent(check: Check) -> int:
    """How far the factor lies above the required one, in whole per cent, rounded down: a factor of 5.7 where 5 is required leaves 14 %."""
    return math.floor(100 * (in_hand(check) - 1) + 1e-9)


def sentence(assessment: Assessment) -> str:
    """The verdict on the whole rig in one or two sentences."""
    mass = assessment.rig.load.mass.text
    counts, worst = assessment.counts, nearest(assessment)
    if counts[FALLS_SHORT]:
        short = next(check for check in contents.worst_first(assessment.checks) if check.verdict == FALLS_SHORT)
        told = contents.shown(short)
        how = f": factor {told.factor} where {told.required} is required" if short.factor_value is not None else ""
        unknown = f" {_checks(counts[CANNOT_TELL])} cannot tell." if counts[CANNOT_TELL] else ""
        return f"With {mass} it falls short; furthest from holding is {named(short)}{how}.{unknown}"
    if counts[CANNOT_TELL]:
        first = next(check for check in contents.worst_first(assessment.checks) if check.verdict == CANNOT_TELL)
        return f"With {mass} it cannot be told: {_checks(counts[CANNOT_TELL]).lower()} cannot tell, such as {named(first)}."
    if worst is None:
        return f"With {mass} every check holds, but none of them depends on the load."
    return f"With {mass} it holds, with {to_spare_percent(worst)} % to spare; what governs: {named(worst)}."


def _checks(many: int) -> str:
    return "One check" if many == 1 else f"{many} checks"


def rated(assessment: Assessment) -> list[tuple[str, str]]:
    """Rated load and what governs it, as the report has it, without the load that was entered."""
    return contents.rated_load(assessment)[1:]
