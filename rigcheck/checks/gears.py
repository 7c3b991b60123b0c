"""The gear train: ratio and efficiency from motor or crank to drum, and the torque at each stage's output."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck import units
from rigcheck.checks import gear_formulas as formulas
from rigcheck.checks.check import FieldPath, Judge, Wants, within_range
from rigcheck.checks.drum_winding import DrumLines
from rigcheck.formula import Sign
from rigcheck.parts.gear_stage import gear_kinds, gear_stage, worm_friction
from rigcheck.rig.model import Gear
from rigcheck.working import GIVEN, Line

ONE_PAIR = ("spur", "helical", "bevel")
MOST_OF_ONE_PAIR = 10.0
"""Common practice, no source: it is told, and decides nothing."""
MISSING_WORM = {"lead_angle": "lead angle", "pressure_angle": "normal pressure angle", "friction": "highest friction"}


@dataclass(frozen=True)
class Stage:
    """One stage as described and as worked; `ratio` and `efficiency` are None, with the reason in `unknown`, where they cannot be known.

    `ratio_to_drum` and `efficiency_to_drum` are those of the stages between this one's output and the drum; `wants_to_drum` are the fields
    of those stages that are missing.
    """

    number: int
    gear: Gear
    ratio: Line | None
    efficiency: Line | None
    unknown: str
    ratio_to_drum: Line | None
    efficiency_to_drum: Line | None
    wants_to_drum: Wants

    @property
    def name(self) -> str:
        return f"gear stage {self.number}"


@dataclass(frozen=True)
class GearLines:
    """The whole train, stages from the motor towards the drum; `ratio` or `efficiency` is None where one stage's is not known.

    `unknown` then says what is missing, and `wants` in which fields; `wants_ratio` are those of the ratio alone.
    """

    stages: tuple[Stage, ...]
    ratio: Line | None
    efficiency: Line | None
    unknown: str
    wants: Wants = ()

    @property
    def wants_ratio(self) -> Wants:
        return tuple(ratio_path(stage.number) for stage in self.stages if stage.ratio is None)

    @property
    def unknown_ratio(self) -> str:
        """What to find out before the ratio from motor to drum is known; empty where it is."""
        return " ".join(_ask_ratio(stage.number, stage.gear.kind) for stage in self.stages if stage.ratio is None)

    @property
    def told_of_two(self) -> str:
        """Which of two efficiencies counts, for every worm stage of which one is stated and one can be worked; empty where there is none."""
        return " ".join(filter(None, (_told_of_two(stage) for stage in self.stages)))

    @property
    def stated_worms(self) -> list[Stage]:
        """Worm stages whose efficiency is taken as stated and not worked from their friction."""
        return [
            stage for stage in self.stages if stage.gear.kind == "worm" and stage.efficiency is not None and stage.efficiency.kind == GIVEN
        ]


def _told_of_two(stage: Stage) -> str:
    gear = stage.gear
    if (
        gear.efficiency is None
        or stage.efficiency is None
        or gear.kind != "worm"
        or any(getattr(gear, field) is None for field in MISSING_WORM)
    ):
        return ""
    counts = units.number(stage.efficiency.number, 3, "down")
    if stage.efficiency.kind == GIVEN:
        return f"Of {stage.name} the efficiency stated, {counts}, counts: it is below the one worked from its angles and highest friction."
    return (
        f"Of {stage.name} the efficiency worked from its angles and highest friction, {counts}, counts: it is below the stated "
        f"{units.number(gear.efficiency, 3)}."
    )


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
    ratio: Line | None = working.given(formulas.TRAIN_RATIO.of("0", "ratio at the drum itself"), 1.0, "definition")
    efficiency: Line | None = working.given(formulas.TRAIN_EFFICIENCY.of("0", "efficiency at the drum itself"), 1.0, "definition")
    stages, unknown, wants = [], "", ()
    for number in range(len(gears), 0, -1):
        gear = gears[number - 1]
        own_ratio = _stated_ratio(judge, number, gear)
        own, why, missing = stage_efficiency(judge, number, gear)
        if own_ratio is None:
            why, missing = f"{_ask_ratio(number, gear.kind)} {why}".strip(), (ratio_path(number), *missing)
        stages.append(Stage(number, gear, own_ratio, own, why, ratio, efficiency, wants))
        unknown = " ".join(text for text in (why, unknown) if text)
        wants = (*missing, *wants)
        whole = number == 1
        of, what = ("", None) if whole else (f"from {number}", f"ratio from gear stage {number} to the drum")
        ratio = (
            None if ratio is None or own_ratio is None else working.apply(formulas.ratios_in_a_row, of, what, one=ratio, other=own_ratio)
        )
        if efficiency is None or own is None:
            efficiency = None
            continue
        what = None if whole else f"efficiency from gear stage {number} to the drum"
        efficiency = working.apply(formulas.efficiencies_in_a_row, of, what, one=efficiency, other=own)
    return GearLines(tuple(reversed(stages)), ratio, efficiency, unknown, wants)


def _stated_ratio(judge: Judge, number: int, gear: Gear) -> Line | None:
    if gear.ratio is None:
        return None
    if _takes_several_pairs(gear):
        judge.leave_out(
            f"Whether gear stage {number} ({gear.kind}) is one pair of wheels: a ratio of {units.number(gear.ratio)} is usually had from several pairs in a row (common practice, "
            "no source). An efficiency and a rated torque entered for it are taken as those of the whole gearbox."
        )
    sign = formulas.RATIO.of(str(number), f"ratio of gear stage {number}, {gear.kind}")
    return judge.given(sign, gear.ratio, f"drive, gears, {number}, ratio", gear.notes.get("ratio", ""))


def _takes_several_pairs(gear: Gear) -> bool:
    return gear.kind in ONE_PAIR and gear.ratio is not None and gear.ratio > MOST_OF_ONE_PAIR


def ratio_path(number: int) -> FieldPath:
    """The field of a stage's ratio; stages are numbered from 1."""
    return ("drive", "gears", number - 1, "ratio")


def _ask_ratio(number: int, kind: str) -> str:
    return f"State the ratio of gear stage {number} ({kind}): on its plate, or turn the input by hand and count its turns for one turn of the output."


def stage_efficiency(judge: Judge, number: int, gear: Gear) -> tuple[Line | None, str, Wants]:
    """The efficiency of one stage driving towards the drum, or the reason why it is not known and the fields that would tell.

    A worm stage is worked from its angles and its highest friction; where an efficiency is stated as well, the lower one counts.
    """
    where = f"drive, gears, {number}"
    stated = None
    if gear.efficiency is not None:
        sign = formulas.EFFICIENCY.of(str(number), f"stated efficiency of gear stage {number}")
        stated = judge.given(sign, gear.efficiency, f"{where}, efficiency", gear.notes.get("efficiency", ""))
    stage = ("drive", "gears", number - 1)
    if stated is not None and (gear.kind != "worm" or any(getattr(gear, field) is None for field in MISSING_WORM)):
        return stated, "", ()
    if gear.kind != "worm":
        return None, f"State the efficiency of gear stage {number} ({gear.kind}).{_printed_range(gear)}", ((*stage, "efficiency"),)
    missing = {field: words for field, words in MISSING_WORM.items() if getattr(gear, field) is None}
    if missing:
        ask = f"State the {', '.join(missing.values())} of the worm in gear stage {number}, or the efficiency on its data sheet.{_printed_range(gear)}"
        return None, f"{ask} Textbook friction is {_friction_range()}.", tuple((*stage, field) for field in ("efficiency", *missing))
    worm, why = within_range(lambda: worked_worm(judge, number, gear))
    if worm is None:
        return None, why, tuple((*stage, field) for field in MISSING_WORM)
    return (stated if stated is not None and stated.number < worm.number else worm), "", ()


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


def _printed_range(gear: Gear) -> str:
    if gear.kind not in gear_kinds():
        return ""
    row = gear_stage(gear.kind)
    more = f" A ratio of {units.number(gear.ratio)} takes several pairs, whose efficiencies multiply." if _takes_several_pairs(gear) else ""
    return f" A {row.source} prints {units.number(row.low)} to {units.number(row.high)} for such a stage: {row.note}.{more}"


def _friction_range() -> str:
    row = worm_friction()
    return f"{units.number(row.low)} to {units.number(row.high)} ({row.source})"


def _output_torque(judge: Judge, drum: DrumLines, stage: Stage, most: Line) -> None:
    id, what, source = f"gears.{stage.number}.torque", "output torque", "rated output torque as stated"
    part = ("gears", stage.name)
    sign = formulas.STAGE_TORQUE.of(f"{stage.number} rated", f"rated output torque of {stage.name}")
    rating = judge.given(sign, stage.gear.output_torque_rating.value, f"drive, gears, {stage.number}, output_torque_rating",
                         stage.gear.notes.get("output_torque_rating", ""))  # fmt: skip
    if stage.efficiency_to_drum is None or stage.ratio_to_drum is None:
        why = "The ratio or the efficiency of a stage between it and the drum is not known."
        judge.cannot_tell(id, stage.name, what, part, why, on_load=True, wants=stage.wants_to_drum, source=source)
        return
    torque = judge.working.apply(formulas.torque_before, str(stage.number), f"torque at the output of {stage.name}", torque=most, ratio=stage.ratio_to_drum,
                                 efficiency=stage.efficiency_to_drum)  # fmt: skip
    remedy = f"A stage rated for at least {units.show(judge.for_all_loads(torque), 'N·m', 4, 'up')} at its output, or a smaller drum.{judge.with_tolerance}"
    drum.compare(judge, id, stage.name, what, part, torque, rating, source=source, remedy=remedy,
                 mends=(("drive", "gears", stage.number - 1, "output_torque_rating"),),
                 reason="Starting, stopping and knocks are not in it: the maker's service factor comes on top.")  # fmt: skip
