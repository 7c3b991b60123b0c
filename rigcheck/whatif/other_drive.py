"""The same rig with another gear ratio or another drum, put through the same checks.

Only what is named changes: a stage keeps its stated efficiency, a worm its angles and frictions, the drum its axis, its width and its dead wraps.
The flanges of another drum stand out as far as those of the present one.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from rigcheck import units
from rigcheck.checks.assessment import Assessment, assess
from rigcheck.checks.check import FALLS_SHORT, Check
from rigcheck.errors import RigcheckError
from rigcheck.rig.model import Rig
from rigcheck.whatif.changing import Edit, as_typed, unit_typed, with_edits
from rigcheck.whatif.drive_figures import drive_figures, effort

TENTHS = (1.0, 1.25, 1.6, 2.0, 2.5, 3.15, 4.0, 5.0, 6.3, 8.0)
TWENTIETHS = (1.0, 1.12, 1.25, 1.4, 1.6, 1.8, 2.0, 2.24, 2.5, 2.8, 3.15, 3.55, 4.0, 4.5, 5.0, 5.6, 6.3, 7.1, 8.0, 9.0)
STEPS_SOURCE = "preferred numbers, ISO 3, from memory"
EACH_SIDE = 3
NEAR = 0.02
CHOSEN = "chosen, not measured"
_ON_THE_RATIO = ("motor.running", "motor.starting", "crank.effort")


@dataclass(frozen=True)
class Change:
    """One thing changed: how it is called, and what is edited in the rig file; the present rig has no edits."""

    words: str
    edits: tuple[Edit, ...]

    @property
    def is_present(self) -> bool:
        return not self.edits


@dataclass(frozen=True)
class Bend:
    """The check of drum diameter to rope diameter of one rope: what the ratio is and what it must be, None where nothing read says so."""

    rope: str
    verdict: str
    ratio: float | None
    least: float | None


@dataclass(frozen=True)
class TriedDrive:
    """What the checks say of a changed rig, in SI; None where it cannot be told."""

    change: Change
    ratio: float | None = None
    motor_torque_nm: float | None = None
    speed_m_s: float | None = None
    swing_rad_s: float | None = None
    current_a: float | None = None
    time_s: float | None = None
    stands: bool = False
    effort_of_one_n: float | None = None
    bends: tuple[Bend, ...] = ()
    counts: dict[str, int] | None = None
    rated_load_kg: float | None = None
    fault: str = ""


def preferred(present: float, steps: Sequence[float], each_side: int = EACH_SIDE) -> list[float]:
    """The present value among the nearest preferred numbers below and above it.

    >>> preferred(60.0, TENTHS), preferred(12.0, TENTHS, 1)
    ([31.5, 40.0, 50.0, 60.0, 63.0, 80.0, 100.0], [10.0, 12.0, 12.5])
    """
    return _around(present, _near(present, steps), each_side)


def _near(value: float, steps: Sequence[float]) -> list[float]:
    """The preferred numbers from a tenth of a value to ten times it."""
    power = math.floor(math.log10(value))
    return [float(f"{step * 10.0**p:.6g}") for p in (power - 1, power, power + 1) for step in steps]


def _around(present: float, every: Sequence[float], each_side: int) -> list[float]:
    below = [value for value in every if value < present * (1 - NEAR)][-each_side:]
    above = [value for value in every if value > present * (1 + NEAR)][:each_side]
    return [*below, present, *above]


def other_ratios(found: Assessment, stage: int) -> list[Change]:
    """The present ratio of a gear stage, counted from 0, among its neighbours, and the next step that would give torque enough.

    None at all where the present ratio is not stated.
    """
    present = found.rig.drive.gears[stage].ratio
    if present is None:
        return []
    values = preferred(present, TENTHS)
    enough = present * _short_of_torque(found)
    if enough > values[-1]:
        values.append(next(value for value in _near(enough, TENTHS) if value >= enough))
    return [_other_ratio(stage, present, value) for value in values]


def _short_of_torque(found: Assessment) -> float:
    """How many times as much torque, or effort, is asked as may be; 1 where it is enough or cannot be told. The torque asked falls as the ratio grows."""
    factors = [check.factor_value for check in found.checks if check.id in _ON_THE_RATIO and check.verdict == FALLS_SHORT]
    return 1.0 / min((factor for factor in factors if factor), default=1.0)


def _other_ratio(stage: int, present: float, value: float) -> Change:
    path = ("drive", "gears", stage)
    typed = int(value) if float(value).is_integer() else value
    edits = () if value == present else (((*path, "ratio"), typed), ((*path, "notes", "ratio"), CHOSEN))
    return Change(f"1:{units.number(value)}", edits)


def other_drums(rig: Rig) -> list[Change]:
    """The present core diameter of the drum among its neighbours, in the unit it was typed in."""
    drum = rig.drive.drum
    unit = unit_typed(drum.diameter)
    present = units.to_unit(drum.diameter.value, unit)
    values = _around(present, _inches(present), EACH_SIDE) if unit in ("in", '"') else preferred(present, TWENTIETHS)
    return [Change(drum.diameter.text, ()) if value == present else _other_drum(rig, units.from_unit(value, unit)) for value in values]


def _inches(present: float) -> list[float]:
    """Whole inches, and halves where the drum is small."""
    step = 1.0 if present >= 8 else 0.5
    return [step * many for many in range(1, math.ceil(present / step) + EACH_SIDE + 1)]


def _other_drum(rig: Rig, diameter_m: float) -> Change:
    drum = rig.drive.drum
    path = ("drive", "drum")
    text = as_typed(drum.diameter, diameter_m)
    edits: list[Edit] = [((*path, "diameter"), text), ((*path, "notes", "diameter"), CHOSEN)]
    if drum.flange_diameter is not None:
        flange_m = drum.flange_diameter.value + units.read(text, "length").value - drum.diameter.value
        if flange_m > 0:
            edits += [
                ((*path, "flange_diameter"), as_typed(drum.flange_diameter, flange_m, 6)),
                ((*path, "notes", "flange_diameter"), CHOSEN),
            ]
    return Change(text, tuple(edits))


def try_drive(rig: Rig, change: Change) -> TriedDrive:
    """Assess the changed rig; a rig that cannot be worked out gives its fault and nothing else."""
    try:
        return of_assessment(assess(with_edits(rig, change.edits)), change)
    except RigcheckError as fault:
        return TriedDrive(change, fault=" ".join(str(fault).split()))


def of_assessment(found: Assessment, change: Change) -> TriedDrive:
    """The figures of an assessment."""
    figures, by_hand = drive_figures(found), effort(found)
    gears = found.rig.drive.gears
    return TriedDrive(
        change=change, ratio=_whole_ratio([gear.ratio for gear in gears]), motor_torque_nm=found.motor_torque_nm,
        **_speed(found.rig, _number(figures.least_speed)), current_a=_number(figures.most_current), time_s=_number(figures.time), stands=figures.stands,
        effort_of_one_n=by_hand.most_n if by_hand else None,
        bends=tuple(_bend(check) for check in found.checks if check.id.startswith("drum.") and check.id.endswith(".diameter")),
        counts=found.counts, rated_load_kg=found.whole.rated_load_kg,
    )  # fmt: skip


def _speed(rig: Rig, slowest: float | None) -> dict[str, float | None]:
    """Its slowest speed as that of a load that rises or of one that turns about a hinge."""
    return {"swing_rad_s": slowest} if rig.swings else {"speed_m_s": slowest}


def _whole_ratio(ratios: list[float | None]) -> float | None:
    return math.prod(ratios) if ratios and None not in ratios else None


def _bend(check: Check) -> Bend:
    return Bend(check.item.removeprefix("drum, "), check.verdict, _number(check.capacity), _number(check.demand))


def _number(line) -> float | None:
    return None if line is None or not math.isfinite(line.number) else line.number
