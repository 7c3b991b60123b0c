"""A load straight up over one frictionless head sheave to a drum: the pull on the drum is the weight, so that hand calculation is short."""

from __future__ import annotations

from types import SimpleNamespace

from rigcheck.checks import drive, drum, gears, hand, holding
from rigcheck.checks.check import Judge
from rigcheck.statics.solution import solve
from tests.rig_builders import straight

G = 9.80665
ONE_LAYER = {"width": "120 mm", "dead_wraps": 3, "flange_diameter": "140 mm"}
"""Twenty turns of 6 mm on 94 mm: the rope winds at 50 mm and stays in the first layer for a travel of 1 m."""

WORM = {"kind": "worm", "ratio": 40, "lead_angle": "4 deg", "pressure_angle": "20 deg", "friction": 0.1, "friction_lowest": 0.03}
MOTOR = {
    "voltage": "24 V", "no_load_speed": "3000 rpm", "no_load_current": "2 A", "stall_torque": "11.6 N·m", "stall_current": "152 A",
    "rated_torque": "1.5 N·m",
}  # fmt: skip


def judged(
    mass_kg: float = 100.0, core: dict | None = None, travel: float = 1.0, rope: dict | None = None, sheave: dict | None = None, **winch
) -> SimpleNamespace:
    """The lines of every module and the checks by id."""
    builder = straight(mass_kg, travel=travel, sheave=sheave)
    builder.data["ropes"]["hoist"] |= rope or {}
    builder.data["drive"]["drum"] |= {"diameter": "94 mm"} | (ONE_LAYER if core is None else core)
    builder.data["drive"] |= winch
    return everything(builder.rig())


def everything(rig) -> SimpleNamespace:
    judge = Judge(solve(rig))
    on_drum = drum.check(judge)
    train = gears.check(judge, on_drum)
    found = SimpleNamespace(judge=judge, drum=on_drum, gears=train, drive=drive.check(judge, on_drum, train),
                            holding=holding.check(judge, on_drum, train), hand=hand.check(judge, on_drum, train))  # fmt: skip
    found.checks = {check.id: check for check in judge.checks}
    assert len(found.checks) == len(judge.checks), "two checks share an id"
    return found
