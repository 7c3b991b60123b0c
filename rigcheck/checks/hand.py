"""Work by hand: the pull on a hand line, the effort at a crank, for each person."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rigcheck import units
from rigcheck.checks import hand_formulas as formulas
from rigcheck.checks.check import COMMON_PRACTICE, Judge
from rigcheck.checks.drum_winding import DrumLines
from rigcheck.checks.gears import GearLines
from rigcheck.working import Line

ON_A_LINE_N = 250.0
ON_A_CRANK_N = 150.0
SOURCE = COMMON_PRACTICE
BELAY = "Nothing but the hands holds the load until the line is belayed: keep it belayed whenever nobody hauls."
THUMB = "A rule of thumb that no source supports: it says what is customary, not what a person can do."


@dataclass(frozen=True)
class HandLines:
    """The greatest effort altogether, and of each person; None where it cannot be known."""

    effort: Line | None
    of_one: Line | None


def check(judge: Judge, drum: DrumLines | None, gears: GearLines | None) -> HandLines | None:
    """Judge the work by hand; None where a motor does it."""
    if judge.rig.drive.kind == "hand line":
        return _hand_line(judge)
    if judge.rig.drive.crank is None or drum is None or gears is None:
        return None
    return _crank(judge, drum, gears)


def _allowed(judge: Judge, value: float, where: str) -> Line:
    return judge.working.looked_up(formulas.SHARE.of("allowed", f"customary effort of one person {where}"), value, where, SOURCE)


def _lower(words: str) -> str:
    return f"{words[:1].lower()}{words[1:]}"


def _people_for(judge: Judge, effort: Line, allowed: Line) -> str:
    many = judge.for_all_loads(effort) / allowed.number
    return str(math.ceil(many)) if math.isfinite(many) else "an unknown number of"


def _hand_line(judge: Judge) -> HandLines:
    drive, pulls, working = judge.rig.drive, judge.solution.drive_pull, judge.working
    most = working.extreme(
        formulas.EFFORT.of("most", "greatest pull in the hand line"), [pulls[c] for c in ("raising", "holding most", "lowering")]
    )
    people = judge.given(formulas.PEOPLE, drive.people, "drive, people", drive.notes.get("people", ""))
    each = working.apply(formulas.effort_of_one, effort=most, people=people)
    allowed = _allowed(judge, ON_A_LINE_N, "on a hand line")
    remedy, mends = (
        f"At least {_people_for(judge, most, allowed)} people on the line, or more parts of rope.{judge.with_tolerance}",
        (("drive", "people"),),
    )
    judge.compare("hand.pull", "hand line", "pull of one person", ("rope", judge.solution.drive_rope), each, allowed, source=SOURCE, remedy=remedy, mends=mends,
                  mark=COMMON_PRACTICE, reason=f"{BELAY} No more than {units.show(ON_A_LINE_N, 'N')} for each person, standing and pulling down hand over hand: {_lower(THUMB)}")  # fmt: skip
    judge.leave_out("how the hand line is made fast, and whether the cleat or pin that it is belayed to bears it")
    judge.leave_out("footing, gloves and grip of those who pull")
    return HandLines(most, each)


def _crank(judge: Judge, drum: DrumLines, gears: GearLines) -> HandLines:
    crank, working, part = judge.rig.drive.crank, judge.working, ("crank", "crank")
    judge.leave_out("the crank flying round when it is let go: see the run-back guard and the brake")
    if gears.efficiency is None or gears.ratio is None:
        judge.cannot_tell(
            "crank.effort", "crank", "effort of one person", part, gears.unknown, on_load=True, wants=gears.wants, source=SOURCE
        )
        return HandLines(None, None)
    handle = judge.given(formulas.HANDLE, crank.radius.value, "drive, crank, radius", crank.notes.get("radius", ""))
    working.apply(formulas.crank_velocity_ratio, handle=handle, ratio=gears.ratio, radius=drum.radius)
    worst = {"ratio": gears.ratio, "efficiency": gears.efficiency, "handle": handle}
    raising = working.apply(formulas.handle_effort, "raising", "effort at the handle, raising", torque=drum.raising_along, **worst)
    starting = working.apply(
        formulas.handle_effort, "start", "effort at the handle to start from standing still", torque=drum.holding_along, **worst
    )
    most = working.extreme(formulas.EFFORT.of("most", "greatest effort at the handle"), [raising, starting])
    people = judge.given(formulas.PEOPLE, crank.people, "drive, crank, people", crank.notes.get("people", ""))
    each = working.apply(formulas.effort_of_one, effort=most, people=people)
    allowed = _allowed(judge, ON_A_CRANK_N, "on a crank")
    over = judge.for_all_loads(each) / allowed.number
    remedy = (f"At least {_people_for(judge, most, allowed)} people on the crank, a handle of at least {units.show(over * crank.radius.value, 'mm', 3, 'up')}, "
              f"or a total ratio of at least 1:{units.number(over * gears.ratio.number, 4, 'up')} at the same efficiency.{judge.with_tolerance}")  # fmt: skip
    drum.compare(judge, "crank.effort", "crank", "effort of one person", part, each, allowed, source=SOURCE, remedy=remedy, mends=(("drive", "crank", "people"), ("drive", "crank", "radius")),
                 mark=COMMON_PRACTICE, reason=f"{units.show(ON_A_CRANK_N, 'N')} for each person, turning a handle at a steady pace: {_lower(THUMB)} {gears.told_of_two}".strip())  # fmt: skip
    return HandLines(most, each)
