"""Assess a rig: solve it, judge everything, rate the whole. What page, report and command line all show."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rigcheck import units
from rigcheck.checks import (
    best_counterweight,
    counterweight,
    drive,
    drum,
    feet,
    gears,
    guide_told,
    guides,
    hand,
    holding,
    legs,
    rope_length,
    ropes,
    sheaves,
    struts,
    swing,
    tests_of_basis,
    tolerance,
    uneven_falls,
    whole,
)
from rigcheck.checks.best_counterweight import BestCounterweight
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS, Check, Judge
from rigcheck.checks.rope_length import RopeLength
from rigcheck.checks.whole import Whole
from rigcheck.parts.basis import Basis
from rigcheck.rig.model import Rig
from rigcheck.statics.drift import Band, bands
from rigcheck.statics.feet import Foot
from rigcheck.statics.members import Members
from rigcheck.statics.reactions import Reaction, reactions
from rigcheck.statics.second_opinion import seamanship_pull
from rigcheck.statics.solution import Solution, solve
from rigcheck.working import Line

NEVER_CHECKED = (
    "What the ropes hang on: beams, posts, eye bolts, screws and other fixings.",
    "Heat: how warm the ropes, timber and people nearby get.",
    "What happens when something goes wrong: power failure, a snag, a parted rope.",
    "Whether the load lands clear of what stands below it.",
)


@dataclass(frozen=True)
class Assessment:
    """Everything known about a rig. Numbers are None where they do not apply or cannot be told."""

    rig: Rig
    solution: Solution
    basis: Basis
    checks: list[Check]
    not_checked: list[str]
    whole: Whole
    velocity_ratio: float | None
    drum_torque_nm: float | None
    motor_torque_nm: float | None
    best_counterweight: BestCounterweight | None
    reactions: list[Reaction]
    members: Members | None
    feet: list[Foot]
    drift: list[Band]
    rope_lengths: tuple[RopeLength, ...]
    second_opinion: Line | None
    guesses: list[str]

    @property
    def best_counterweight_kg(self) -> float | None:
        return None if self.best_counterweight is None else self.best_counterweight.mass_kg

    @property
    def counts(self) -> dict[str, int]:
        """How many checks hold, fall short, cannot tell."""
        return {verdict: sum(c.verdict == verdict for c in self.checks) for verdict in (HOLDS, FALLS_SHORT, CANNOT_TELL)}

    @property
    def all_hold(self) -> bool:
        return all(c.verdict == HOLDS for c in self.checks)


def assess(rig: Rig) -> Assessment:
    """Solve and judge a rig.

    Raises StaticsError where the rig has no answer and PartError where it names a part that no catalogue has.
    """
    judge = Judge(solve(rig))
    ropes.check(judge)
    legs.check(judge)
    sheaves.check(judge)
    guides.check(judge)
    counterweight.check(judge)
    swing.check(judge)
    framed = struts.check(judge)
    standing = feet.check(judge, framed)
    on_drum = drum.check(judge)
    train = gears.check(judge, on_drum)
    driven = drive.check(judge, on_drum, train)
    drifting = bands(judge.solution)
    _tell_drift(judge, drifting)
    holding.check(judge, on_drum, train)
    hand.check(judge, on_drum, train)
    rated = whole.rate(judge, tests_of_basis.check(judge))
    best = best_counterweight.check(judge)
    tolerance.check(judge, rated, best)
    pressed = [*reactions(judge.solution), *(foot.reaction for foot in standing)]
    counted = guide_told.counted(judge)
    for reaction in pressed:
        if reaction.name.startswith("guide of ") and reaction.name.removeprefix("guide of ") not in counted:
            judge.leave_out(f"The {reaction.name} is pressed with up to {units.show(reaction.force.number, 'N', 3, 'up')}: what holds it, and its friction, "
                            "which adds to the pull of raising and may hold the load up while lowering.")  # fmt: skip
    guide_told.tell(judge)
    uneven_falls.tell(judge)
    for text in (*NEVER_CHECKED, guide_told.not_in_pulls(judge)):
        judge.leave_out(text)
    turning = on_drum is not None and not on_drum.open_question and not judge.is_slack  # a drum cannot push its rope
    return Assessment(
        rig=rig,
        solution=judge.solution,
        basis=judge.basis,
        checks=judge.checks,
        not_checked=judge.not_checked,
        whole=rated,
        velocity_ratio=None if rig.swings else float(judge.solution.travel.motion.take_in.mean()),
        drum_torque_nm=_number(on_drum.torque_raising) if turning else None,
        motor_torque_nm=_number(driven.motor_torque) if driven and turning else None,
        best_counterweight=best,
        reactions=pressed,
        members=framed,
        feet=standing,
        drift=drifting,
        rope_lengths=rope_length.lengths(judge, on_drum),
        second_opinion=seamanship_pull(judge.solution),
        guesses=guesses(rig),
    )


def _number(line: Line | None) -> float | None:
    return line.number if line is not None and math.isfinite(line.number) else None


def guesses(rig: Rig) -> list[str]:
    """Every value whose note says that it is a guess."""
    found = []

    def walk(part, where: str) -> None:
        for name, note in getattr(part, "notes", {}).items():
            if "guess" in note.lower():
                found.append(f"{where}, {name.replace('_', ' ')}: {note}" if where else f"{name}: {note}")
        for name in type(part).model_fields:
            inner = getattr(part, name)
            children = inner.items() if isinstance(inner, dict) else enumerate(inner, 1) if isinstance(inner, tuple) else [("", inner)]
            for key, child in children:
                if hasattr(type(child), "model_fields"):
                    walk(child, ", ".join(p for p in (where, name, str(key)) if p))

    walk(rig, "")
    return found


def _tell_drift(judge: Judge, drifting: list[Band]) -> None:
    """What hangs free goes aside and tilts: by how much, and that nothing here judges whether there is room for it."""
    told = []
    for band in drifting:
        unit = "mm" if band.least.sign.unit == "m" else band.least.sign.unit
        ends = [units.show(line.number, unit, 3) for line in (band.least, band.most)]
        if not band.is_none:
            told.append(f"{'tilts' if band.what == 'tilt' else f'goes {band.what}'} by {ends[0]} to {ends[1]}")
    if told:
        judge.leave_out(
            f"Whether {drifting[0].body} clears what stands beside it: it hangs free, and along its travel, raising, lowering and at rest, it "
            f"{' and '.join(told)} from where it hangs at rest at the lowest."
        )
