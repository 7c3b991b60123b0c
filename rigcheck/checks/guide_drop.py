"""A body that sticks in its guide while the drive pays out: how far it falls when it lets go, and how hard its rope is pulled then.

The rope that has run off lies slack; the body falls through it and stretches the rope. No friction is counted on to soften that.
"""

from __future__ import annotations

import math

import numpy
import sympy

from rigcheck import units
from rigcheck.checks.check import Check, Judge
from rigcheck.formula import Sign, formula
from rigcheck.rig.model import Rig
from rigcheck.statics import paths
from rigcheck.statics.sharing import tensile_stiffness
from rigcheck.working import Line

SLACK = Sign("s", "rope that may run off before it is noticed", "m", low=0)
REACH = Sign("i", "way of the body for each metre of rope", "", low=0)
FALL = Sign("z", "height of the fall", "m", towards="up")
WEIGHT = Sign("W_d", "weight along the guide", "N", above=0)
HANGING = Sign("S", "pull of the body's whole weight in the rope", "N", above=0)
STRETCHY = Sign("E_A", "modulus times metal area of the rope", "N", above=0)
LENGTH = Sign("l", "free length of the rope, at its shortest", "m", above=0)
PEAK = Sign("T_peak", "greatest pull as the body falls into its rope", "N", towards="up")
SOURCE = "conservation of energy: what the weight gives up, falling and stretching the rope, is in the stretched rope"


@formula
def fall(slack: SLACK, reach: REACH) -> FALL:
    """How far a body falls along its guide through rope that has run off.

    Source: motion of the rig: a rope over several parts lets the body down by its share.

    >>> fall(slack=0.4, reach=0.5)
    0.2
    """
    return slack * reach


@formula
def hanging_pull(weight: WEIGHT, reach: REACH) -> HANGING:
    """Pull in the rope while the body hangs still in it, no friction and no other rope helping.

    Source: virtual work.

    >>> hanging_pull(weight=1000.0, reach=0.5)
    500.0
    """
    return weight * reach


@formula
def peak_pull(hanging: HANGING, slack: SLACK, stretchy: STRETCHY, length: LENGTH) -> PEAK:
    """Greatest pull in a rope into which a body falls through so much slack.

    With no slack it is twice the pull of the body hanging still. The winch and what the rope hangs on are taken as stiff and the fall as free: the true pull is less.

    Source: conservation of energy, S (s + x) = T x/2 with x = T l/(E A).

    >>> round(peak_pull(hanging=1000.0, slack=0.0, stretchy=1e6, length=4.0), 6)
    2000.0
    >>> round(peak_pull(hanging=1000.0, slack=0.05, stretchy=1e6, length=4.0), 1)
    6099.0
    """
    return hanging * (1 + sympy.sqrt(1 + 2 * slack * stretchy / (length * hanging)))


def driven_ropes(rig: Rig) -> list[str]:
    """The ropes that the drive takes in."""
    return [n for n, rope in rig.ropes.items() if any(hasattr(s, "wound_on") or hasattr(s, "pulled_by_hand_at") for s in rope.path)]


def check(judge: Judge, body: str, along: Line) -> None:
    """How far a body that sticks falls, and what that does to the rope of the drive."""
    rig, solution = judge.rig, judge.solution
    id, item, what, part = f"guide.{body}.drop", f"guide of {body}", "falls into its rope when it lets go", ("body", body)
    moves, rope = rig.bodies[body].moves, solution.drive_rope
    travel = solution.travel
    equation = next(j for j, f in enumerate(travel.free) if f.body == body)
    taken = numpy.abs(travel.motion.take_in)
    reach = judge.working.geometry(
        REACH.of(body), numpy.max(numpy.abs(travel.motion.q[:, equation]) / taken), "motion of the rig, where it is greatest"
    )
    told = _per_turn(rig, rope, reach)
    if moves.runs_off is None:
        judge.cannot_tell(id, item, what, part, f"How much rope may run off before somebody sees it hang slack, or before a slack-rope switch stops the drive, is not "
                          f"stated. {told}", on_load=True, wants=(("bodies", body, "moves", "runs_off"),), source=SOURCE)  # fmt: skip
        return
    slack = judge.given(SLACK.of(body), moves.runs_off.value, f"bodies, {body}, moves, runs_off", moves.notes.get("runs_off", ""))
    height = judge.working.apply(fall, body, f"fall of {body} when it lets go", slack=slack, reach=reach)
    told = f"It falls {units.show(height.number, 'm', 3, 'up')} when it lets go. {told}"
    if not _hangs_in_the_drive(judge, body):
        judge.cannot_tell(id, item, what, part, f"It does not hang in a rope of the drive, so what its fall does to its own rope is not worked out. {told}", on_load=True,
                          wants=(), source=SOURCE, demand=height)  # fmt: skip
        return
    stretchy = tensile_stiffness(rig.ropes[rope])
    weakest = _weakest(judge, rope)
    if stretchy is None or weakest is None:
        lacking = (
            f"How far {rope} stretches is not known: its modulus and metal area are needed"
            if stretchy is None
            else f"What {rope} bears is not known: see its checks"
        )
        fields = ("modulus", "metal_area") if stretchy is None else ()
        wants = tuple(("ropes", rope, field) for field in fields if getattr(rig.ropes[rope], field) is None) or judge.wanted(judge.checks)
        judge.cannot_tell(id, item, what, part, f"{lacking}. {told}", on_load=True, wants=wants, source=SOURCE, demand=height)
        return
    length = judge.working.geometry(LENGTH.of(rope), numpy.min(travel.paths[rope].straight.sum(axis=0)), "straight runs of the rope")
    elastic = judge.given(STRETCHY.of(rope), stretchy, f"ropes, {rope}, modulus and metal area")
    hanging = judge.working.apply(hanging_pull, body, f"pull of {body} hanging in {rope}", weight=along, reach=reach)
    peak = judge.working.apply(
        peak_pull, body, f"greatest pull in {rope} as {body} falls into it", hanging=hanging, slack=slack, stretchy=elastic, length=length
    )
    judge.compare(id, item, what, part, peak, weakest.capacity, weakest.required or 1.0, source=SOURCE, needs_taut=False,
                  reason=f"{told} The factor asked is that of the rope's weakest place.", remedy="See that it does not stick, or stop the drive as soon as the rope hangs slack.",
                  mends=(("bodies", body, "moves", "shoes_apart"), ("bodies", body, "moves", "runs_off")))  # fmt: skip


def _hangs_in_the_drive(judge: Judge, body: str) -> bool:
    """Whether one of the drive's ropes acts on a body."""
    together = set(judge.rig.moving_as_one(body))
    return any(stop.carrier in together for name in driven_ropes(judge.rig) for stop in judge.solution.travel.paths[name].stops)


def _per_turn(rig: Rig, rope: str, reach: Line) -> str:
    if rig.drive.kind != "winch":
        return f"For every metre of rope let out it falls {units.show(reach.number, 'm', 3, 'up')}."
    turn = 2 * math.pi * paths.drum_radius(rig, rope) * reach.number
    return f"For every turn of the drum that is paid out while it sticks it falls {units.show(turn, 'm', 3, 'up')}."


def _weakest(judge: Judge, rope: str) -> Check | None:
    """The check of the rope whose capacity, over the factor asked, is least; None where one of them has none."""
    own = [
        c
        for c in judge.checks
        if c.id.startswith(f"rope.{rope}.") and c.what != "condition" and c.demand is not None and c.demand.sign.unit == "N"
    ]
    if not own or any(c.capacity is None or not math.isfinite(c.capacity.number) for c in own):
        return None
    return min(own, key=lambda c: c.capacity.number / (c.required or 1.0))
