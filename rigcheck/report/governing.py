"""What governs an end of the range of loads, in words: one wording for the strip, the sentence, the text and the PDF."""

from __future__ import annotations

import math

from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import COMMON_PRACTICE, FALLS_SHORT, Check
from rigcheck.rig.model import Rig

A_HAIR = 1e-6
"""Relative: a load that just holds may come out a hair above the rated load, which is found by interpolation."""
_ALONE = ("motor", "cable", "crank", "brake", "pawl", "run-back guard", "hand line")


def greatest(assessment: Assessment) -> str:
    """What governs the greatest load on what is known; "" where nothing does."""
    known = assessment.whole.known
    return in_words(assessment, known.governed_by, known.through)


def least(assessment: Assessment) -> str:
    """What governs the least load; "" where nothing does."""
    known = assessment.whole.known
    return in_words(assessment, known.least_governed_by, known.least_through)


def by_load(assessment: Assessment) -> str:
    """What governs the greatest load of the checks on the load, taken alone; "" where nothing does."""
    alone = assessment.whole.by_load
    return in_words(assessment, alone.governed_by, alone.through)


def by_sources(assessment: Assessment) -> str:
    """What governs the greatest load of all checks but the rules of thumb, where one of those governs; "" otherwise."""
    sourced = assessment.whole.sourced
    return "" if sourced is None else in_words(assessment, sourced.governed_by, sourced.through)


def whatever_the_load(assessment: Assessment) -> str:
    """What makes the rig fall short whatever the load, where the rated load is nothing for that reason; "" otherwise."""
    whole = assessment.whole
    short = next((check for check in assessment.checks if check.id == whole.governed_by and check.verdict == FALLS_SHORT), None)
    return in_words(assessment, short.id) if whole.rated_load_kg == 0 and short is not None and not short.on_load else ""


def in_words(assessment: Assessment, id: str | None, through: str | None = None) -> str:
    """The part that a check is about, as one would say it; in a test load the part that has least left there."""
    by_id = {check.id: check for check in assessment.checks}
    if id not in by_id:
        return ""
    if through in by_id:
        return f"{_part(assessment.rig, by_id[through])} in the {id.removeprefix('test.')} test"
    return _part(assessment.rig, by_id[id])


def to_spare_percent(assessment: Assessment) -> int | None:
    """How far the rated load lies above the load entered, in whole per cent, rounded down; None where there is no such figure.

    There is none where a rule of thumb without a source governs: what it leaves is no spare of the rig.
    """
    rated, mass = assessment.whole.rated_load_kg, assessment.rig.load.mass.value
    if rated is None or is_rule_of_thumb(assessment) or not math.isfinite(rated) or rated < mass * (1 - A_HAIR):
        return None
    return max(math.floor(100 * (rated / mass - 1) + 1e-9), 0)


def is_rule_of_thumb(assessment: Assessment) -> bool:
    """Whether what governs the rated load has no other support than common practice."""
    governs = assessment.whole.governed_by
    return any(check.id == governs and check.mark == COMMON_PRACTICE for check in assessment.checks)


def _part(rig: Rig, check: Check) -> str:
    kind, name = check.part
    if kind == "rope" and check.id.startswith(f"rope.{name}."):
        place = check.id.removeprefix(f"rope.{name}.")
        rope = f"the {name}" if "rope" in name.lower().split() else f"rope {name}"
        if place in ("first-end", "last-end"):
            stop = rig.ropes[name].path[0 if place == "first-end" else -1]
            return f"the {_fitting(rig.ropes[name].kind, stop.fitting)} {rope} at {stop.made_fast_to}"
        if place == "drum":
            return f"{rope} on the drum"
        if place.startswith("sheave."):
            return f"{rope} over {place.removeprefix('sheave.')}"
    thumb = ": a rule of thumb, common practice, no source" if check.mark == COMMON_PRACTICE else ""
    alone = kind in _ALONE or check.item in _ALONE or (check.item == name and "rope" in name.lower().split())
    return f"{'the ' * alone}{check.item} ({check.what}{thumb})"


def _fitting(kind: str, fitting: str | None) -> str:
    if fitting is None:
        return "end of"
    if kind == "fibre" and fitting.split()[-1] not in ("splice", "knot"):
        return f"knot ({fitting}) in"
    return f"{fitting} {'in' if kind == 'fibre' else 'of'}"
