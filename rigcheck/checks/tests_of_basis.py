"""The test loads of the basis, and the rig checked at them.

At a test load the pulls are worked out anew (with a counterweight they grow faster than the load). A rope or a sheave must
then still keep what its required factor leaves after the test coefficient, and the drive must still move the dynamic one.
"""

from __future__ import annotations

import numpy

from rigcheck import units
from rigcheck.checks.check import CANNOT_TELL, FROM_MEMORY, HOLDS, Check, Judge
from rigcheck.formula import Sign
from rigcheck.working import Line

COEFFICIENT = Sign("k_test", "test load over rated load", "", low=1)
USE = Sign("u", "most used share of what the test leaves", "")
WHOLE = Sign("u_max", "the whole of it", "")


def check(judge: Judge) -> None:
    """Check ropes and sheaves at the static test load, and ropes and drive at the dynamic one."""
    by_hand = judge.rig.drive.kind == "hand line" or judge.rig.drive.crank is not None
    static = judge.basis.static_test_manual if by_hand else judge.basis.static_test_powered
    strength = [c for c in judge.checks if c.id.startswith(("rope.", "sheave.")) and c.on_load]
    moving = [c for c in judge.checks if c.id == "motor.starting"]
    if static is None:
        judge.leave_out(f"Test loads: {judge.basis.title} gives none.")
        return
    _check_at(judge, "static", static, strength)
    if judge.basis.dynamic_test is not None:
        _check_at(judge, "dynamic", judge.basis.dynamic_test, strength + moving)


def _check_at(judge: Judge, kind: str, coefficient: float, checks: list[Check]) -> None:
    known = [c for c in checks if c.demand is not None and c.capacity is not None and c.mark != FROM_MEMORY]
    unknown = [f"{c.item}, {c.what}" for c in checks if c not in known]
    load = judge.load_mass.number * coefficient
    what = f"{kind} test with {units.show(load, 'kg', 4)}"
    id, part = f"test.{kind}", ("body", judge.rig.load_name)
    why = f"Not known, see the checks of: {'; '.join(unknown)}."
    if not known:
        judge.cannot_tell(
            id,
            "whole rig",
            what,
            part,
            why if unknown else "No rope, sheave or motor has a strength to be tested.",
            on_load=True,
            source=judge.basis.source,
        )
        return
    factor = judge.working.looked_up(COEFFICIENT.of(kind), coefficient, f"{kind} test", judge.basis.source)
    lines: list[Line] = [line for c in known for line in (c.demand, c.capacity)]

    def compute(mass: numpy.ndarray, coefficient: numpy.ndarray) -> numpy.ndarray:
        values = judge.working.evaluate({judge.load_mass: mass * coefficient}, lines)
        used = None
        for i, check in enumerate(known):
            # a rope's required factor leaves required / coefficient at the test; a drive must simply move it
            left = check.required / coefficient if check.unit == "N" else 1.0
            share = values[2 * i] * left / values[2 * i + 1]
            used = share if used is None else numpy.maximum(used, share)
        return used

    used = judge.working.solve_in_numbers(USE.of(kind, f"{what}: most used share of what is left"), compute, "all pulls worked out anew at the test load",
                                          judge.basis.source, mass=judge.load_mass, coefficient=factor)  # fmt: skip
    one = judge.working.given(WHOLE.of(kind), 1.0, "definition")
    found = judge.compare(id, "whole rig", what, part, used, one, source=judge.basis.source,
                          remedy="See the ropes, sheaves and drive: something has too little left for the test.")  # fmt: skip
    if unknown and found.verdict == HOLDS:
        judge.replace(found, verdict=CANNOT_TELL, reason=f"What is known holds. {why}")
