"""Feet on the ground: whether one lifts, and whether it kicks harder than its friction holds."""

from __future__ import annotations

import math

from rigcheck import units
from rigcheck.checks.check import CANNOT_TELL, HOLDS, Judge, called
from rigcheck.formula import Sign
from rigcheck.statics import feet
from rigcheck.statics.feet import Foot
from rigcheck.statics.members import Members

FRICTION = Sign("μ", "friction of a foot on its ground: kick over press at which it slides", "", low=0, towards="down")


def check(judge: Judge, members: Members | None) -> list[Foot]:
    """Work out what every foot and fixing of the struts bears, and judge those that stand on the ground."""
    if members is None:
        return []
    found = feet.feet(judge.solution, members)
    for foot in found:
        if judge.rig.points[foot.name].held == "ground" and members.frame.ways:
            _check_lift(judge, foot)
            _check_kick(judge, members, foot)
    _open_ties(judge, members, found)
    if any(judge.rig.points[foot.name].held == "ground" for foot in found):
        judge.leave_out("The ground under the feet: whether they sink in, and whether it is level and as firm under all of them.")
    return found


def _open_ties(judge: Judge, members: Members, found: list[Foot]) -> None:
    """Where ties leave some of a kick to the ground, what comes to them depends on how much the ground takes elsewhere: a tie that holds cannot be told."""
    kicking = [foot.name for foot in found if foot.kick is not None and foot.kick.number != 0]
    for tie in members.frame.ties:
        left = [end for end in judge.rig.struts[tie].ends if end in kicking]
        check = next((each for each in judge.checks if each.part == ("strut", tie) and each.verdict == HOLDS), None)
        if left and check is not None:
            told = f"The ties do not hold all of the kick at {' and '.join(left)}: what comes to this one depends on how the ground shares in it. Tie every foot to its neighbours all round, or stake it."
            judge.replace(check, verdict=CANNOT_TELL, reason=told, wants=tuple(("points", end, "held") for end in left))


def _item(foot: Foot) -> tuple[str, tuple[str, str]]:
    return called("foot", foot.name), ("point", foot.name)


def _check_lift(judge: Judge, foot: Foot) -> None:
    item, part = _item(foot)
    press = foot.press.number
    if not math.isfinite(press):
        return  # the struts' own checks say why
    if press < 0:
        judge.falls_short(f"foot.{foot.name}.lift", item, "stays down", part, f"It is lifted with up to {units.show(-press, 'N', 3, 'up')}, and it only stands on the ground.",
                          source="balance of forces", remedy="Hold it down: an anchor, a stake or a weight for that force; then say that it is held by the building.",
                          mends=(("points", foot.name, "held"),))  # fmt: skip
        return
    judge.holds(
        f"foot.{foot.name}.lift",
        item,
        "stays down",
        part,
        f"It is always pressed down, with at least {units.show(press, 'N', 3, 'down')}.",
        source="balance of forces",
    )


def _check_kick(judge: Judge, members: Members, foot: Foot) -> None:
    item, part = _item(foot)
    id, what, point = f"foot.{foot.name}.kick", "kick over press, against friction", judge.rig.points[foot.name]
    if not math.isfinite(foot.kick.number) or foot.press.number < 0:
        return
    if foot.kick.number == 0:
        tied = [tie for tie in members.frame.ties if foot.name in judge.rig.struts[tie].ends]
        why = f"Its kick is held by {' and '.join(tied)}." if tied else "It does not kick."
        judge.holds(id, item, "kick at the foot", part, why, source="balance of forces")
        return
    if not math.isfinite(foot.ratio.number):
        judge.falls_short(id, item, "kick at the foot", part, "It kicks where nothing presses it down.", source="balance of forces",
                          remedy="Stake it, or tie the feet together.", mends=(("points", foot.name, "held"),))  # fmt: skip
        return
    told = f"It kicks with up to {units.show(foot.kick.number, 'N', 3, 'up')} along the ground."
    remedy = f"{told} A tie or chain between the feet, a stake, or a smaller spread."
    if point.friction is None:
        judge.cannot_tell(id, item, what, part, f"{told} The friction of the foot on its ground is not stated. Tie the feet together, stake them, or pull a loaded foot aside with a spring balance: the pull "
                          "at which it slides over what presses it.", on_load=True, wants=(("points", foot.name, "friction"),), demand=foot.ratio)  # fmt: skip
        return
    friction = judge.given(FRICTION.of(foot.name), point.friction, f"points, {foot.name}, friction", point.notes.get("friction", ""))
    judge.compare(id, item, what, part, foot.ratio, friction, source="friction as stated for this foot", remedy=remedy,
                  reason=f"{told} No source at hand says how far the friction must be above that.", mends=(("points", foot.name, "friction"),))  # fmt: skip
