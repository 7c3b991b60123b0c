"""The gear train: ratio and efficiency from motor or crank to drum, and the torque at each stage's output."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck import units
from rigcheck.checks import gear_formulas as formulas
from rigcheck.checks.check import Judge, within_range
from rigcheck.checks.drum_winding import DrumLines
from rigcheck.formula import Sign
from rigcheck.parts.gear_stage import gear_kinds, gear_stage, worm_friction
from rigcheck.rig.model import Gear
from rigcheck.working import GIVEN, Line

MISSING_WORM = {"lead_angle": "lead angle", "pressure_angle": "normal pressure angle", "friction": "highest friction"}


@dataclass(frozen=True)
class Stage:
    """One stage as described and as worked; `efficiency` is None, with the reason in `unknown`, where it cannot be known.

    `ratio_to_drum` and `efficiency_to_drum` are those of the stages between this one's output and the drum.
    """

    number: int
    gear: Gear
    ratio: Line
    efficiency: Line | None
    unknown: str
    ratio_to_drum: Line
    efficiency_to_drum: Line | None

    @property
    def name(self) -> str:
        return f"gear stage {self.number}"


@dataclass(frozen=True)
class GearLines:
    """The whole train, stages from the motor towards the drum; `efficiency` is None, with the reason in `unknown`, where one stage's is not known."""

    stages: tuple[Stage, ...]
    ratio: Line
    efficiency: Line | None
    unknown: str

    @property
    def stated_worms(self) -> list[str]:
        """Worm stages whose efficiency is taken as stated and not worked from their friction."""
        return [
            stage.name
            for stage in self.stages
            if stage.gear.kind == "worm" and stage.efficiency is not None and stage.efficiency.kind == GIVEN
        ]


def check(judge: Judge, drum: DrumLines | None) -> GearLines | None:
    """Work out the gear train and judge each stage's output torque; None where a line is pulled by hand."""
    if drum is None:
        return None
    lines = _train(judge)
    rated = [stage for stage in lines.stages if stage.gear.output_torque_rating is not None]
    if rated:
        sign = Sign("M_drum most", "greatest torque on the drum, raising or standing still", "N·m")
        most = judge.working.extreme(sign, [drum.raising_along, drum.holding_along])
        for stage in rated:
            _output_torque(judge, drum, stage, most)
    for stage in lines.stages:
        if stage.gear.output_torque_rating is None:
            judge.leave_out(f"the strength of {stage.name} ({stage.gear.kind}): no rated output torque is stated")
    return lines


def _train(judge: Judge) -> GearLines:
    """From the drum back to the motor, so that what lies between each stage and the drum is known when the stage is reached."""
    working, gears = judge.working, judge.rig.drive.gears
    ratio = working.given(formulas.TRAIN_RATIO.of("0", "ratio at the drum itself"), 1.0, "definition")
    efficiency: Line | None = working.given(formulas.TRAIN_EFFICIENCY.of("0", "efficiency at the drum itself"), 1.0, "definition")
    stages, unknown = [], ""
    for number in range(len(gears), 0, -1):
        gear = gears[number - 1]
        own_ratio = judge.given(formulas.RATIO.of(str(number), f"ratio of gear stage {number}, {gear.kind}"), gear.ratio, f"drive, gears, {number}, ratio",
                                gear.notes.get("ratio", ""))  # fmt: skip
        own, why = stage_efficiency(judge, number, gear)
        stages.append(Stage(number, gear, own_ratio, own, why, ratio, efficiency))
        unknown = " ".join(text for text in (why, unknown) if text)
        whole = number == 1
        of, what = ("", None) if whole else (f"from {number}", f"ratio from gear stage {number} to the drum")
        ratio = working.apply(formulas.ratios_in_a_row, of, what, one=ratio, other=own_ratio)
        if efficiency is None or own is None:
            efficiency = None
            continue
        what = None if whole else f"efficiency from gear stage {number} to the drum"
        efficiency = working.apply(formulas.efficiencies_in_a_row, of, what, one=efficiency, other=own)
    return GearLines(tuple(reversed(stages)), ratio, efficiency, unknown)


def stage_efficiency(judge: Judge, number: int, gear: Gear) -> tuple[Line | None, str]:
    """The efficiency of one stage driving towards the drum, or the reason why it is not known.

    A worm stage is worked from its angles and its highest friction; where an efficiency is stated as well, the lower one counts.
    """
    where = f"drive, gears, {number}"
    stated = None
    if gear.efficiency is not None:
        sign = formulas.EFFICIENCY.of(str(number), f"stated efficiency of gear stage {number}")
        stated = judge.given(sign, gear.efficiency, f"{where}, efficiency", gear.notes.get("efficiency", ""))
    if gear.kind != "worm":
        return stated, "" if stated else f"State the efficiency of gear stage {number} ({gear.kind}).{_printed_range(gear.kind)}"
    missing = [words for field, words in MISSING_WORM.items() if getattr(gear, field) is None]
    if missing:
        ask = f"State the {', '.join(missing)} of the worm in gear stage {number}, or the efficiency on its data sheet.{_printed_range('worm')}"
        return stated, "" if stated else f"{ask} Textbook friction is {_friction_range()}."
    worm, why = within_range(lambda: worked_worm(judge, number, gear))
    if worm is None:
        return None, why
    return (stated if stated is not None and stated.number < worm.number else worm), ""


def worked_worm(judge: Judge, number: int, gear: Gear) -> Line:
    """The efficiency of a worm stage from its angles and its highest friction; OutOfRangeError beyond the formula's range."""
    lead, pressure = angles(judge, number, gear)
    sign = formulas.FRICTION.of(f"{number} high", f"highest friction in gear stage {number}")
    friction = judge.given(sign, gear.friction, f"drive, gears, {number}, friction", gear.notes.get("friction", ""))
    what = f"efficiency of gear stage {number}, the worm driving"
    return judge.working.apply(formulas.worm_efficiency, str(number), what, lead=lead, pressure=pressure, friction=friction)


def angles(judge: Judge, number: int, gear: Gear) -> tuple[Line, Line]:
    """The lines of a worm's angles, made on first use."""
    found = []
    for sign, field in ((formulas.LEAD, "lead_angle"), (formulas.PRESSURE, "pressure_angle")):
        named = sign.of(str(number), f"{sign.meaning}, gear stage {number}")
        made = next((line for line in judge.working.lines if line.sign == named), None)
        found.append(made or judge.given(named, getattr(gear, field).value, f"drive, gears, {number}, {field}", gear.notes.get(field, "")))
    return found[0], found[1]


def _printed_range(kind: str) -> str:
    if kind not in gear_kinds():
        return ""
    row = gear_stage(kind)
    return f" A {row.source} prints {units.number(row.low)} to {units.number(row.high)} for such a stage: {row.note}."


def _friction_range() -> str:
    row = worm_friction()
    return f"{units.number(row.low)} to {units.number(row.high)} ({row.source})"


def _output_torque(judge: Judge, drum: DrumLines, stage: Stage, most: Line) -> None:
    id, what, source = f"gears.{stage.number}.torque", "output torque", "rated output torque as stated"
    part = ("gears", stage.name)
    sign = formulas.STAGE_TORQUE.of(f"{stage.number} rated", f"rated output torque of {stage.name}")
    rating = judge.given(sign, stage.gear.output_torque_rating.value, f"drive, gears, {stage.number}, output_torque_rating",
                         stage.gear.notes.get("output_torque_rating", ""))  # fmt: skip
    if stage.efficiency_to_drum is None:
        judge.cannot_tell(
            id, stage.name, what, part, "The efficiency of a stage between it and the drum is not known.", on_load=True, source=source
        )
        return
    torque = judge.working.apply(formulas.torque_before, str(stage.number), f"torque at the output of {stage.name}", torque=most, ratio=stage.ratio_to_drum,
                                 efficiency=stage.efficiency_to_drum)  # fmt: skip
    remedy = f"A stage rated for at least {units.show(torque.number, 'N·m', 4, 'up')} at its output, or a smaller drum."
    drum.compare(judge, id, stage.name, what, part, torque, rating, source=source, remedy=remedy,
                 reason="Starting, stopping and knocks are not in it: the maker's service factor comes on top.")  # fmt: skip
