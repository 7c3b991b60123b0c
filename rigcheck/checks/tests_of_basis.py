"""The test loads of the basis, and the rig checked at them.

At a test load the pulls are worked out anew (with a counterweight they grow faster than the load). A rope or a sheave must
then still keep what its required factor leaves after the test coefficient, and the drive must still move the dynamic one. Each test
names the part that has least left, and the lines of that part are written out for the test load.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy

from rigcheck import units
from rigcheck.checks.anew import anew
from rigcheck.checks.check import CANNOT_TELL, FROM_MEMORY, HOLDS, Check, Judge, Wants, within_range
from rigcheck.formula import Sign, formula
from rigcheck.working import Line

COEFFICIENT = Sign("k_test", "test load over rated load", "", low=1)
USE = Sign("u", "most used share of what the test leaves", "%", towards="up")
WHOLE = Sign("u_max", "the whole of it", "%")
MASS = Sign("m", "mass of the load", "kg", low=0)
TEST_MASS = Sign("m_test", "the load in the test", "kg")
DEMAND = Sign("D", "demand in the test", "")
CAPACITY = Sign("C", "capacity", "", above=0)
REQUIRED = Sign("ν_required", "factor required in use", "", above=0)
SHARE = Sign("u", "used share of what the test leaves", "%", towards="up")


LEFT_OUT = "What the test loads ask of {parts}: the tests look at ropes and sheaves only{motor}."


@formula
def load_in_test(mass: MASS, coefficient: COEFFICIENT) -> TEST_MASS:
    """The load of a test.

    Source: meaning of a test coefficient, Regulation (EU) 2023/1230, Annex III, 4.1.2.3.

    >>> load_in_test(mass=100.0, coefficient=1.25)
    125.0
    """
    return mass * coefficient


@formula
def share_of_strength(required: REQUIRED, demand: DEMAND, coefficient: COEFFICIENT, capacity: CAPACITY) -> SHARE:
    """How much of what its required factor leaves in a test a rope or a sheave uses: the factor is asked of the rated load, which the test exceeds.

    Source: definition; the test coefficient is part of the factor required in use.

    >>> share_of_strength(required=5.0, demand=1000.0, coefficient=1.25, capacity=20000.0)
    0.2
    """
    return required * demand / (coefficient * capacity)


@formula
def share_of_drive(demand: DEMAND, capacity: CAPACITY) -> SHARE:
    """How much of its capacity the drive uses in a test: it must simply move the load.

    Source: definition.

    >>> share_of_drive(demand=30.0, capacity=120.0)
    0.25
    """
    return demand / capacity


def check(judge: Judge) -> dict[str, Callable[[float], Check]]:
    """Check ropes and sheaves at the static test load, and ropes and drive at the dynamic one.

    Returns for each test, by its id, the function that names the check with least left at the test of a load in kg.
    """
    drive = judge.rig.drive
    by_hand = drive.kind == "hand line" or drive.crank is not None
    static = judge.basis.static_test_manual if by_hand else judge.basis.static_test_powered
    strength = [c for c in judge.checks if c.id.startswith(("rope.", "sheave.")) and c.on_load]
    moving = [c for c in judge.checks if c.id == "motor.starting"]
    if static is None:
        judge.leave_out(f"Test loads: {judge.basis.title} gives none.")
        return {}
    parts = (
        "the hands on the hand line"
        if drive.kind == "hand line"
        else "drum, gears, run-back guard and brake" + ", and of the crank" * by_hand
    )
    motor = ", the dynamic one at whether the motor starts as well" if moving and judge.basis.dynamic_test is not None else ""
    judge.leave_out(LEFT_OUT.format(parts=f"{parts}, and of struts and their feet" if judge.rig.struts else parts, motor=motor))
    found = {"test.static": _check_at(judge, "static", static, strength)}
    if judge.basis.dynamic_test is not None:
        found["test.dynamic"] = _check_at(judge, "dynamic", judge.basis.dynamic_test, strength + moving)
    return {id: deciding for id, deciding in found.items() if deciding is not None}


def _check_at(judge: Judge, kind: str, coefficient: float, checks: list[Check]) -> Callable[[float], Check] | None:
    known = [c for c in checks if c.demand is not None and c.capacity is not None and c.mark != FROM_MEMORY]
    open_ones = [c for c in checks if c not in known]
    unknown = [f"{c.item}, {c.what}" for c in open_ones]
    load = judge.load_mass.number * coefficient
    what = f"{kind} test with {units.show(load, 'kg', 4)}"
    id, part = f"test.{kind}", ("body", judge.rig.load_name)
    why = f"Not known, see the checks of: {'; '.join(unknown)}."
    wants = judge.wanted(checks)
    if not known:
        why = why if unknown else "No rope, sheave or motor has a strength to be tested."
        judge.cannot_tell(id, "whole rig", what, part, why, on_load=True, wants=wants, source=judge.basis.source)
        return None
    factor = judge.working.looked_up(COEFFICIENT.of(kind), coefficient, f"{kind} test", judge.basis.source)
    lines: list[Line] = [line for c in known for line in (c.demand, c.capacity)]

    def shares(mass: numpy.ndarray, coefficient: numpy.ndarray) -> list[numpy.ndarray]:
        values = judge.working.evaluate({judge.load_mass: mass * coefficient}, lines)
        # a rope's required factor leaves required / coefficient at the test; a drive must simply move it
        left = [check.required / coefficient if check.unit == "N" else 1.0 for check in known]
        return [values[2 * i] * left[i] / values[2 * i + 1] for i in range(len(known))]

    def compute(mass: numpy.ndarray, coefficient: numpy.ndarray) -> numpy.ndarray:
        used = None
        for share in shares(mass, coefficient):
            used = share if used is None else numpy.maximum(used, share)
        return used

    def deciding(load_kg: float) -> Check:
        used = numpy.nan_to_num([float(numpy.max(share)) for share in shares(numpy.array([load_kg]), factor.value)], nan=-numpy.inf)
        # of parts that have equally little left the first is named
        return known[int(numpy.flatnonzero(used >= used.max() - 1e-9 * abs(used.max()))[0])]

    least = deciding(judge.load_mass.number)
    written, _ = (None, "") if judge.is_slack else within_range(lambda: _written_out(judge, kind, least, factor))
    how = (
        f"the greatest of the shares of {len(known)} parts, each worked out anew at the test load, here that of {least.item}, {least.what}"
    )
    used = judge.working.solve_in_numbers(USE.of(kind, f"{what}: most used share of what is left"), compute, how, judge.basis.source,
                                          mass=judge.load_mass, coefficient=factor)  # fmt: skip
    one = judge.working.given(WHOLE.of(kind), 1.0, "definition")
    named = f"{least.item}, {least.what}"
    found = judge.compare(id, "whole rig", what, part, used, one, source=judge.basis.source, reason=_why(least, named, factor.number, used.number),
                          remedy=f"{named[:1].upper()}{named[1:]} has too little left for the test.", wants=wants, mends=_to_change(least), followed=written)  # fmt: skip
    if unknown and found.verdict == HOLDS:
        judge.replace(found, verdict=CANNOT_TELL, reason=f"What is known holds, and of that {named} has least left. {why}", wants=wants)
    return deciding


def _why(least: Check, named: str, coefficient: float, used: float) -> str:
    """What governs, and its own factor in the test, which the share that it uses does not show by itself."""
    told = f"{named[:1].upper()}{named[1:]} governs: it has least left at this load."
    if least.unit != "N" or not math.isfinite(used) or used <= 0:
        return told
    left = least.required / coefficient
    return (
        f"{told} Its factor is {units.number(left / used, 3, 'down')} here; the factor of {units.number(least.required, 3)} asked in use leaves "
        f"{units.number(left, 3, 'up')} at {units.number(coefficient, 3)} times the load."
    )


def _written_out(judge: Judge, kind: str, least: Check, coefficient: Line) -> Line:
    """The lines of the part with least left, for the test load, down to the share that it uses."""
    working, of = judge.working, f"{kind} test"
    load = working.apply(load_in_test, kind, f"the load in the {of}", mass=judge.load_mass, coefficient=coefficient)
    demand, capacity = (anew(working, line, judge.load_mass, load, of) for line in (least.demand, least.capacity))
    what = f"used share of what the {of} leaves: {least.item}, {least.what}"
    if least.unit != "N":
        return working.apply(share_of_drive, of, what, demand=demand, capacity=capacity)
    required = working.given(REQUIRED.of(of, f"factor required of {least.item}, {least.what}"), least.required, least.source)
    return working.apply(share_of_strength, of, what, required=required, demand=demand, coefficient=coefficient, capacity=capacity)


def _to_change(check: Check) -> Wants:
    """The field of a part that more strength would change."""
    kind, name = check.part
    return {"rope": (("ropes", name, "diameter"),), "sheave": (("sheaves", name, "rated_load"),)}.get(
        kind, (("drive", "motor", "stall_torque"),)
    )
