"""How hard one pulls: the pull of each hand on a line, or at a crank, in a sentence beside the verdict of a rig that is worked by hand."""

from __future__ import annotations

import math

import numpy

from rigcheck import units
from rigcheck.checks import hand_formulas
from rigcheck.checks.assessment import Assessment
from rigcheck.statics.formulas import GRAVITY_M_S2
from rigcheck.working import Line


def sentence(assessment: Assessment) -> str:
    """The pull raising, and what holding takes; "" where no hand works it or the pull cannot be told."""
    drive = assessment.rig.drive
    if drive.kind == "hand line":
        pulls = assessment.solution.drive_pull
        raising, still, sinking = (_most(pulls[case]) / drive.people for case in ("raising", "holding most", "lowering"))
        if not math.isfinite(raising + still + sinking) or raising <= 0:
            return ""
        least = f"at least {_shown(sinking)}, or it sinks, and" if sinking > 0 else "at times nothing, where friction holds it, and"
        held = f"Holding it takes {least} up to {_shown(still)}, depending on friction."
        return f"{_who(drive.people, 'pulls')} with up to {_shown(raising)}{_as_weight(raising)} to raise it. {held}"
    if getattr(drive, "crank", None) is None:
        return ""
    raising, start = (_effort(assessment, case) for case in ("raising", "start"))
    if raising is None or start is None or not math.isfinite(raising + start) or raising <= 0:
        return ""
    people = drive.crank.people
    return (
        f"{_who(people, 'pushes')} at the crank with up to {_shown(raising / people)}{_as_weight(raising / people)} to raise it, and up to "
        f"{_shown(start / people)} to start it from standing still; what holds it then is not the hand but what the checks of holding judge."
    )


def _who(people: int, does: str) -> str:
    return f"One person {does}" if people == 1 else f"Each of {people} people {does}"


def _most(line: Line) -> float:
    return float(numpy.max(line.value))


def _effort(assessment: Assessment, case: str) -> float | None:
    """The greatest effort at the handle along the travel, in N, None where the train is not known."""
    letter = hand_formulas.EFFORT.of(case).letter
    line = next((line for line in assessment.solution.working.lines if line.sign.letter == letter), None)
    return None if line is None else _most(line)


def _shown(force_n: float) -> str:
    return units.show(force_n, "N", 4, "up")


def _as_weight(force_n: float) -> str:
    """What would weigh as much, where that is not the same number in the units shown."""
    return f" (as heavy as {units.show(force_n / GRAVITY_M_S2, 'kg', 3, 'up')})" if units.label("N") == "N" else ""
