"""Holding the load: the run-back guard and the brake, two separate things.

A self-locking gear is at most a run-back guard and never the brake. It is judged with its lowest friction, since warm thin oil and vibration
take friction away. Back-driving goes stage by stage from the drum and stops at the first stage that locks.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from rigcheck import units
from rigcheck.checks import gear_formulas, gears
from rigcheck.checks import holding_formulas as formulas
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS, Check, FieldPath, Judge, Wants, within_range
from rigcheck.checks.drum_winding import DrumLines
from rigcheck.checks.gears import GearLines, Stage
from rigcheck.formula import Sign
from rigcheck.parts.drum_rule import drum_rule
from rigcheck.rig.model import Brake
from rigcheck.working import Line

GUARD = ("holding.guard", "run-back guard", "stopping the load from running back")
BRAKE = ("holding.brake", "brake", "catching and holding the load")
GUARD_SOURCE = "DGUV Vorschrift 54, section 12(1), (3) and (4) with DA"
BRAKE_SOURCE = ("DGUV Vorschrift 54, sections 14 and 15; OSHA letter of 15 November 2005 on 29 CFR 1910.179(f)(1): a worm gear is not the holding brake; "
                "torque: Cal. Title 8 section 4898(c)")  # fmt: skip
TORQUE: FieldPath = ("drive", "brake", "torque")
HOLDS_WHAT = "What it must hold is not known before the pull on the drum is."
ON_THE_DRUM = "A pawl on the drum itself, or a brake there that sets itself."
VIBRATION = "Judged with the lowest friction stated. Makers report that shocks and vibration undo it: it is a run-back guard at most, never the brake."
WORM_NEEDS = {
    "lead_angle": "lead angle",
    "pressure_angle": "normal pressure angle",
    "friction_lowest": "lowest friction (warm, thin oil, shaken)",
}


@dataclass(frozen=True)
class BackDriving:
    """How the load drives back through one stage: `locks` is None where that cannot be known, `unknown` then says why."""

    stage: Stage
    locks: bool | None
    unknown: str = ""
    wants: Wants = ()
    needed: Line | None = None
    friction: Line | None = None
    efficiency: Line | None = None


@dataclass(frozen=True)
class HoldingLines:
    """What holds the load. `at_shaft` is the torque on the motor's shaft without any help from the gears' friction, None where their ratio is not known.

    `back` runs from the drum to the first stage that locks; `arrives` is what reaches the motor's shaft, None where a stage locks or is not known.
    """

    at_drum: Line
    at_shaft: Line | None
    back: tuple[BackDriving, ...]
    arrives: Line | None
    guard: Check
    brake: Check


@dataclass(frozen=True)
class _Guard:
    """One thing that may serve as the run-back guard: what its verdict will be, how it is put on record, and the fields it waits for."""

    verdict: str
    record: Callable[[], Check]
    wants: Wants = ()


def check(judge: Judge, drum: DrumLines | None, train: GearLines | None) -> HoldingLines | None:
    """Judge run-back guard and brake; None for a hand line, whose check names what is left to the hands."""
    if drum is None or train is None:
        return None
    at_shaft = None if train.ratio is None else judge.working.apply(formulas.held_at_shaft, torque=drum.torque_holding, ratio=train.ratio)
    back = drive_back(judge, train)
    arrives = _arriving(judge, drum, back) if len(back) == len(train.stages) else None
    judge.leave_out("stopping a lowering load: its swing, and the heat in the brake")
    return HoldingLines(
        drum.torque_holding,
        at_shaft,
        back,
        arrives,
        _run_back_guard(judge, drum, train, back, at_shaft),
        _brake(judge, drum, train, at_shaft),
    )


# -- driving back --------------------------------------------------------------------------------------------------


def drive_back(judge: Judge, train: GearLines) -> tuple[BackDriving, ...]:
    """From the drum towards the motor, up to and with the first stage that locks."""
    found = []
    for stage in reversed(train.stages):
        found.append(_through(judge, stage))
        if found[-1].locks:
            break
    return tuple(found)


def _through(judge: Judge, stage: Stage) -> BackDriving:
    gear, where = stage.gear, f"drive, gears, {stage.number}"
    if gear.efficiency_backwards is not None:
        sign = gear_formulas.BACKWARDS.of(str(stage.number), f"stated efficiency of {stage.name}, driven back")
        return BackDriving(stage, False, efficiency=judge.given(sign, gear.efficiency_backwards, f"{where}, efficiency_backwards"))
    if gear.kind != "worm":
        return BackDriving(stage, False)
    path = ("drive", "gears", stage.number - 1)
    missing = {field: words for field, words in WORM_NEEDS.items() if getattr(gear, field) is None}
    if missing:
        return BackDriving(
            stage, None, f"State the {', '.join(missing.values())} of the worm in {stage.name}.", tuple((*path, field) for field in missing)
        )
    if gear.friction is not None and gear.friction_lowest > gear.friction:
        wants = ((*path, "friction_lowest"), (*path, "friction"))
        return BackDriving(stage, None, f"The lowest friction of {stage.name} is stated above its highest.", wants)
    made, why = within_range(lambda: _worm_driven_back(judge, stage, where))
    return made or BackDriving(stage, None, why, tuple((*path, field) for field in WORM_NEEDS))


def _worm_driven_back(judge: Judge, stage: Stage, where: str) -> BackDriving:
    lead, pressure = gears.angles(judge, stage.number, stage.gear)
    sign = gear_formulas.FRICTION.of(f"{stage.number} low", f"lowest friction in {stage.name}")
    friction = judge.given(sign, stage.gear.friction_lowest, f"{where}, friction_lowest", stage.gear.notes.get("friction_lowest", ""))
    needed = judge.working.apply(
        gear_formulas.locking_friction, str(stage.number), f"friction at which {stage.name} locks", lead=lead, pressure=pressure
    )
    what = f"efficiency of {stage.name} driven back by the load; it locks at or below zero"
    efficiency = judge.working.apply(
        gear_formulas.worm_efficiency_backwards, str(stage.number), what, lead=lead, pressure=pressure, friction=friction
    )
    return BackDriving(stage, friction.number >= needed.number, needed=needed, friction=friction, efficiency=efficiency)


def _arriving(judge: Judge, drum: DrumLines, back: tuple[BackDriving, ...]) -> Line | None:
    """The torque that the load drives through to the motor's shaft; never through a lock, nor through a stage that is not known."""
    torque = drum.torque_holding
    for step in back:
        if step.locks is not False or step.efficiency is None or step.stage.ratio is None:
            return None
        torque = judge.working.apply(formulas.arrives_past_stage, str(step.stage.number), f"torque of the load that arrives past {step.stage.name}",
                                     torque=torque, ratio=step.stage.ratio, efficiency=step.efficiency)  # fmt: skip
    return torque if back else None


# -- the run-back guard --------------------------------------------------------------------------------------------


def _run_back_guard(judge: Judge, drum: DrumLines, train: GearLines, back: tuple[BackDriving, ...], at_shaft: Line | None) -> Check:
    """The first thing that surely serves is judged; else the first that may."""
    pawl = [_pawl(judge, drum)] if judge.rig.drive.pawl is not None else []
    brake = [_brake_as_guard(judge, drum, train, at_shaft)] if judge.rig.drive.brake is not None else []
    locked = [guard for guard in (_locking(judge, train, step) for step in back) if guard is not None]
    guards = [*pawl, *brake, *locked]
    for wanted in (HOLDS, CANNOT_TELL, FALLS_SHORT):
        for guard in guards:
            if guard.verdict == wanted:
                found = guard.record()
                return _waiting_for_all(judge, found, guards) if found.verdict == CANNOT_TELL else found
    reason = "Nothing keeps the load from running back: no pawl on the drum, no brake that sets itself, no gear that locks."
    return judge.falls_short(
        *GUARD, ("drum", "drum"), reason, source=GUARD_SOURCE, remedy=_pawl_wanted(judge, drum), mends=_another_guard(judge)
    )


def _waiting_for_all(judge: Judge, found: Check, guards: list[_Guard]) -> Check:
    """With several guards that may serve, what any of them waits for would let it tell."""
    wants = (*found.wants, *(path for guard in guards if guard.verdict == CANNOT_TELL for path in guard.wants))
    judge.replace(found, wants=tuple(dict.fromkeys(wants)))
    return judge.checks[-1]


def _another_guard(judge: Judge) -> Wants:
    """A guard that is not described: with one of them it could be told whatever the others leave open."""
    return tuple(("drive", part) for part in ("pawl", "brake", "gears") if not getattr(judge.rig.drive, part))


def _pawl_wanted(judge: Judge, drum: DrumLines) -> str:
    if not _pull_is_known(judge, drum):
        return f"A pawl on the drum that drops in by itself, or a brake that sets itself. {HOLDS_WHAT}"
    least = "more than " if drum.open_question else ""
    return f"A pawl on the drum that drops in by itself and holds {least}{units.show(judge.for_all_loads(drum.torque_holding), 'N·m', 4, 'up')}, or a brake that sets itself.{judge.with_tolerance}"


def _pull_is_known(judge: Judge, drum: DrumLines) -> bool:
    return math.isfinite(drum.torque_holding.number) and not judge.is_slack


def _torque_verdict(judge: Judge, drum: DrumLines, demand: Line, capacity: Line) -> str:
    if drum.open_question or judge.is_slack or not math.isfinite(demand.number):
        return CANNOT_TELL
    return HOLDS if capacity.number >= demand.number else FALLS_SHORT


def _pawl(judge: Judge, drum: DrumLines) -> _Guard:
    pawl, part = judge.rig.drive.pawl, ("pawl", "pawl")
    if pawl.holds is None:
        needs = f"it needs {units.show(drum.torque_holding.number, 'N·m', 4, 'up')} or more."
        needs = needs if _pull_is_known(judge, drum) else f"find it out. {HOLDS_WHAT}"
        ask = f"A pawl on the drum is a run-back guard, but what it holds is not stated: {needs}"
        wants = (("drive", "pawl", "holds"), *drum.wants, *_another_guard(judge))
        return _Guard(CANNOT_TELL, partial(judge.cannot_tell, *GUARD, part, ask, on_load=True, wants=wants, source=GUARD_SOURCE, demand=drum.torque_holding,
                                           required=1.0), wants)  # fmt: skip
    holds = judge.given(
        Sign("M_pawl", "torque that the pawl holds on the drum", "N·m"), pawl.holds.value, "drive, pawl, holds", pawl.notes.get("holds", "")
    )
    record = partial(drum.compare, judge, *GUARD, part, drum.torque_holding, holds, source=GUARD_SOURCE, reason="A pawl on the drum.",
                     remedy=_pawl_wanted(judge, drum), mends=(("drive", "pawl", "holds"),))  # fmt: skip
    return _Guard(_torque_verdict(judge, drum, drum.torque_holding, holds), record)


def _belt_between(train: GearLines, number: int) -> Stage | None:
    """A belt between the drum and the given stage's output."""
    return next((stage for stage in train.stages if stage.number > number and stage.gear.kind == "belt"), None)


def _brake_is_open(brake: Brake) -> tuple[str, Wants]:
    """What is not stated of a brake before anything can be said of it, and where; empty where it can."""
    if brake.on is None and brake.sets_itself is None and brake.torque is None:
        ask = "Whether there is a brake is not stated: look on the motor's shaft, the gears and the drum for a disc, drum or band with a spring."
    elif brake.sets_itself is None:
        ask = "Whether the brake sets itself is not stated: with no load on, switch off and see whether it holds at once."
    elif brake.sets_itself and brake.on is None:
        ask = "On which shaft the brake sits is not stated: look."
    else:
        return "", ()
    return ask, tuple(("drive", "brake", field) for field in ("on", "sets_itself", "torque") if getattr(brake, field) is None)


def _read_with_losses(drum: DrumLines, train: GearLines, brake: Brake, share: float) -> str:
    """The same share of the torque that raises the full load, all losses in it: another reading of the same clause, told beside ours."""
    raising = drum.torque_raising.number
    if brake.on == "motor shaft":
        if train.efficiency is None:
            return ""
        raising /= train.ratio.number * train.efficiency.number
    return (
        f" Read as a share of the torque that raises the load, all friction in it, the clause asks {units.show(share * raising, 'N·m', 4, 'up')}: "
        "friction helps a brake to hold, so less does it; which reading binds you is for your local rules to say."
    )


def _place_of_brake(drum: DrumLines, train: GearLines, brake: Brake, at_shaft: Line | None) -> tuple[Line | None, str, Wants]:
    """The torque at the brake's own shaft; None, with what is missing and where, if the ratio between it and the drum is not known."""
    if brake.on == "drum":
        return drum.torque_holding, "", ()
    if at_shaft is None:
        return None, f"What the brake must hold on its shaft is not known. {train.unknown_ratio}", train.wants_ratio
    return at_shaft, "", ()


def _brake_as_guard(judge: Judge, drum: DrumLines, train: GearLines, at_shaft: Line | None) -> _Guard:
    brake, part = judge.rig.drive.brake, ("brake", "brake")
    on_drum = brake.on == "drum"
    belt = None if on_drum else _belt_between(train, 0)

    def short(reason: str, remedy: str) -> _Guard:
        return _Guard(
            FALLS_SHORT, partial(judge.falls_short, *GUARD, part, reason, source=GUARD_SOURCE, remedy=remedy, mends=_another_guard(judge))
        )

    def open_question(reason: str, wants: Wants, demand: Line | None = None) -> _Guard:
        wants = (*wants, *(drum.wants if drum.open_question else ()), *_another_guard(judge))
        required = None if demand is None else 1.0
        return _Guard(CANNOT_TELL, partial(judge.cannot_tell, *GUARD, part, reason, on_load=True, wants=wants, source=GUARD_SOURCE, demand=demand,
                                           required=required), wants)  # fmt: skip

    ask, wants = _brake_is_open(brake)
    if ask:
        return open_question(f"A brake that sets itself would serve as run-back guard. {ask}", wants)
    if not brake.sets_itself:
        return short("The brake does not set itself, so it is no run-back guard, and nothing else is.", _pawl_wanted(judge, drum))
    if belt is not None:
        return short(
            f"The brake acts on the drum through the belt of {belt.name}: section 12(3) allows no run-back guard through a belt.",
            ON_THE_DRUM,
        )
    demand, ask, wants = _place_of_brake(drum, train, brake, at_shaft)
    if brake.torque is None:
        ask, wants = f"What the brake holds is not stated: it is on its plate or data sheet. {ask}".strip(), (TORQUE, *wants)
    if ask:
        return open_question(f"A brake that sets itself serves as run-back guard. {ask}", wants, demand)
    holds = brake_torque(judge)
    told = "A brake that sets itself serves as run-back guard as well."
    record = partial(drum.compare, judge, *GUARD, part, demand, holds, source=GUARD_SOURCE, reason=told, remedy=_pawl_wanted(judge, drum),
                     mends=(TORQUE, *_another_guard(judge)))  # fmt: skip
    return _Guard(_torque_verdict(judge, drum, demand, holds), record)


def _locking(judge: Judge, train: GearLines, step: BackDriving) -> _Guard | None:
    """A worm stage as run-back guard; None for a stage that is not even meant to lock."""
    part = ("gears", step.stage.name)
    belt = _belt_between(train, step.stage.number)
    if belt is not None and step.locks is not False:
        reason = f"{step.stage.name.capitalize()} holds the drum through the belt of {belt.name}: section 12(3) allows no run-back guard through a belt."
        return _Guard(
            FALLS_SHORT,
            partial(judge.falls_short, *GUARD, part, reason, source=GUARD_SOURCE, remedy=ON_THE_DRUM, mends=_another_guard(judge)),
        )
    if step.locks is None:
        ask, wants = f"Whether the worm locks is not known. {step.unknown}", (*step.wants, *_another_guard(judge))
        return _Guard(CANNOT_TELL, partial(judge.cannot_tell, *GUARD, part, ask, on_load=False, wants=wants, source=GUARD_SOURCE), wants)
    if step.friction is None:
        return None
    mend = f"a pawl on the drum or a brake that sets itself, or a worm of a lead angle {_angle_that_locks(step)}."
    remedy = f"The load drives the worm back at this friction: {mend if belt is None else ON_THE_DRUM.lower()}"
    record = partial(judge.compare, *GUARD, part, step.needed, step.friction, source=GUARD_SOURCE, reason=VIBRATION, remedy=remedy,
                     mends=_another_guard(judge))  # fmt: skip
    return _Guard(HOLDS if step.locks else FALLS_SHORT, record)


def _angle_that_locks(step: BackDriving) -> str:
    pressure = step.stage.gear.pressure_angle.value
    return f"not above {units.show(math.atan(step.friction.number / math.cos(pressure)), '°', 3, 'down')}"


# -- the brake -----------------------------------------------------------------------------------------------------


def brake_torque(judge: Judge) -> Line:
    """The brake's torque as stated, one line however often it is asked for."""
    sign = Sign("M_brake stated", "torque of the brake", "N·m")
    brake = judge.rig.drive.brake
    made = next((line for line in judge.working.lines if line.sign == sign), None)
    return made or judge.given(sign, brake.torque.value, "drive, brake, torque", brake.notes.get("torque", ""))


def _brake(judge: Judge, drum: DrumLines, train: GearLines, at_shaft: Line | None) -> Check:
    drive, rule, strict = judge.rig.drive, drum_rule("brake-torque"), drum_rule("brake-torque-hoisting-engine")
    factor = judge.working.looked_up(formulas.FACTOR, rule.value, rule.name, rule.source)
    on_shaft = (
        None
        if at_shaft is None
        else judge.working.apply(formulas.least_brake_torque, "on the motor's shaft", torque=at_shaft, factor=factor)
    )
    on_drum = judge.working.apply(formulas.least_brake_torque, "on the drum", torque=drum.torque_holding, factor=factor)
    least = "more than" if drum.open_question else "at least"
    shaft = "crank's" if drive.crank is not None else "motor's"
    there = "" if on_shaft is None else f"{units.show(judge.for_all_loads(on_shaft), 'N·m', 4, 'up')} on the {shaft} shaft or "
    wanted = (f"A brake that sets itself, of {least} {there}{units.show(judge.for_all_loads(on_drum), 'N·m', 4, 'up')} "
              f"on the drum: {units.show(rule.value, '%')} of the torque of the full load, the friction of the gears giving no help.{judge.with_tolerance}")  # fmt: skip
    if not _pull_is_known(judge, drum):
        wanted = f"A brake that sets itself. {HOLDS_WHAT}"
    if drive.brake is None:
        reason = "There is no brake. A gear that locks is a run-back guard at most, and so is a pawl: neither catches and lowers the load."
        return judge.falls_short(*BRAKE, ("brake", "brake"), reason, source=BRAKE_SOURCE, remedy=wanted, mends=(("drive", "brake"),))
    of_the_drum = drum.wants if drum.open_question else ()
    ask, wants = _brake_is_open(drive.brake)
    if ask:
        told = f"{ask} What it takes: {wanted[:1].lower()}{wanted[1:]}"
        return judge.cannot_tell(*BRAKE, ("brake", "brake"), told, on_load=True, wants=(*wants, *of_the_drum), source=BRAKE_SOURCE)
    if not drive.brake.sets_itself:
        reason = "The brake does not set itself when the control is let go or the power fails."
        return judge.falls_short(
            *BRAKE, ("brake", "brake"), reason, source=BRAKE_SOURCE, remedy=wanted, mends=(("drive", "brake", "sets_itself"),)
        )
    place, ask, wants = _place_of_brake(drum, train, drive.brake, at_shaft)
    if drive.brake.torque is None:
        ask = f"What the brake holds is not stated: it is on its plate or data sheet. {ask or f'What it takes: {wanted[:1].lower()}{wanted[1:]}'}"
        wants = (TORQUE, *wants)
    if ask:
        return judge.cannot_tell(*BRAKE, ("brake", "brake"), ask, on_load=True, wants=(*wants, *of_the_drum), source=BRAKE_SOURCE, demand=place,
                                 required=None if place is None else rule.value)  # fmt: skip
    stricter = units.show(place.number * strict.value, "N·m", 4, "up")
    told = f"No help from the gears' friction is counted. {strict.source.split(':')[0]} asks {units.show(strict.value, '%')}: {stricter}."
    told += _read_with_losses(drum, train, drive.brake, rule.value)
    belt = None if drive.brake.on == "drum" else _belt_between(train, 0)
    if belt is not None:
        told += f" It holds the drum through the belt of {belt.name}: if that slips or parts, nothing does."
    return drum.compare(judge, *BRAKE, ("brake", "brake"), place, brake_torque(judge), rule.value, source=BRAKE_SOURCE, reason=told, remedy=wanted,
                        mends=(TORQUE,))  # fmt: skip
