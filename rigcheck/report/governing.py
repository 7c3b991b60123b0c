"""What governs an end of the range of loads, in words: one wording for the strip, the sentence, the text and the PDF."""

from __future__ import annotations

import math

from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import Check
from rigcheck.rig.model import Rig

A_HAIR = 1e-6
"""Relative: a load that just holds may come out a hair above the rated load, which is found by interpolation."""
_ALONE = ("motor", "cable", "crank", "brake", "pawl", "run-back guard", "hand line", "hoist rope")


def greatest(assessment: Assessment) -> str:
    """What governs the greatest load on what is known; "" where nothing does."""
    known = assessment.whole.known
    return in_words(assessment, known.governed_by, known.through)


def least(assessment: Assessment) -> str:
    """What governs the least load; "" where nothing does."""
    known = assessment.whole.known
    return in_words(assessment, known.least_governed_by, known.least_through)


def in_words(assessment: Assessment, id: str | None, through: str | None = None) -> str:
    """The part that a check is about, as one would say it; in a test load the part that has least left there."""
    by_id = {check.id: check for check in assessment.checks}
    if id not in by_id:
        return ""
    if through in by_id:
        return f"{_part(assessment.rig, by_id[through])} in the {id.removeprefix('test.')} test"
    return _part(assessment.rig, by_id[id])


def to_spare_percent(assessment: Assessment) -> int | None:
    """How far the rated load lies above the load entered, in whole per cent, rounded down; None where there is no such figure."""
    rated, mass = assessment.whole.rated_load_kg, assessment.rig.load.mass.value
    if rated is None or not math.isfinite(rated) or rated < mass * (1 - A_HAIR):
        return None
    return max(math.floor(100 * (rated / mass - 1) + 1e-9), 0)


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
    return f"the {check.item} ({check.what})" if kind in _ALONE or check.item in _ALONE else f"{check.item} ({check.what})"


def _fitting(kind: str, fitting: str | None) -> str:
    if fitting is None:
        return "end of"
    if kind == "fibre" and fitting.split()[-1] not in ("splice", "knot"):
        return f"knot ({fitting}) in"
    return f"{fitting} {'in' if kind == 'fibre' else 'of'}"
