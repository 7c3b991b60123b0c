"""What an assessment says of its drive: the lines that the checks of drum, gears, motor and hand worked out, gathered for one picture.

Nothing is worked out here but by the checks' own lines and formulas. What a check cannot tell is None here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy

from rigcheck.checks import drum_formulas, hand_formulas, holding_formulas, motor_formulas
from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import CANNOT_TELL, Check
from rigcheck.checks.drive import STANDS, WORDS
from rigcheck.formula import Formula
from rigcheck.rig.model import Rig
from rigcheck.working import EXTREME, Line, Working

RAISING, LOWERING, HOLDING = "raising", "lowering", "standing still, most"
_OF_THE_DRIVE = ("drum", "motor", "cable", "gears", "crank", "brake", "supply")
_DOUBTS = ("motor.voltage", "motor.figures")


@dataclass(frozen=True)
class DriveFigures:
    """Lines of the working, along the travel unless said otherwise; None, or no entry, where it cannot be told.

    `drum_torque` is by raising, lowering, standing still. Of the whole travel: `held` is the torque that holds the load at the motor's shaft without
    help from the friction of the gears, `most_torque` and `start_needed` are asked there,
    `start_given`, `rated`, `least_voltage`, `most_current`, `power_drawn`, `shaft_power`, `least_efficiency`, `least_speed`, `time`.
    """

    drum_torque: Mapping[str, Line] = field(default_factory=dict)
    held: Line | None = None
    motor_torque: Line | None = None
    most_torque: Line | None = None
    start_needed: Line | None = None
    start_given: Line | None = None
    rated: Line | None = None
    voltage: Line | None = None
    current: Line | None = None
    least_voltage: Line | None = None
    most_current: Line | None = None
    power_drawn: Line | None = None
    motor_speed: Line | None = None
    load_speed: Line | None = None
    least_speed: Line | None = None
    shaft_power: Line | None = None
    least_efficiency: Line | None = None
    time: Line | None = None
    stands: bool = False


@dataclass(frozen=True)
class MotorLine:
    """The motor's straight line from no load to standing: torques in N·m, speeds in rad/s, on this supply and cable, and as stated."""

    torques_nm: numpy.ndarray
    speeds_rad_s: numpy.ndarray
    stated_torques_nm: numpy.ndarray
    stated_speeds_rad_s: numpy.ndarray


@dataclass(frozen=True)
class Effort:
    """What one person gives along the travel, in N, by what is done; `customary_n` is the rule of thumb, with its source."""

    of_one_n: Mapping[str, numpy.ndarray]
    people: int
    most_n: float
    customary_n: float
    source: str


def line_of(working: Working, formula: Formula, meaning: str | None = None) -> Line | None:
    """The first line that a formula worked out, of those with a meaning."""
    return next((line for line in working.lines if line.formula is formula and meaning in (None, line.sign.meaning)), None)


def extreme_of(working: Working, *of: Line | None) -> Line | None:
    """The line that is the greatest or least of these lines and no others."""
    wanted = set(of)
    return next((line for line in working.lines if line.kind == EXTREME and set(line.inputs.values()) == wanted), None)


def drive_figures(assessment: Assessment) -> DriveFigures:
    """The figures of a winch; all unknown for a line pulled by hand, whose figures `effort` has."""
    working, rig = assessment.solution.working, assessment.rig
    if rig.drive.kind != "winch" or assessment.drum_torque_nm is None:
        return DriveFigures()
    words = {RAISING: "raising", LOWERING: "lowering", HOLDING: "holding"}
    drum = {said: line_of(working, drum_formulas.drum_torque, f"torque on the drum, {word}") for said, word in words.items()}
    found = {
        "drum_torque": {said: line for said, line in drum.items() if line is not None},
        "held": line_of(working, holding_formulas.held_at_shaft),
    }
    along = line_of(working, motor_formulas.motor_torque, "torque on the motor's shaft, raising")
    if along is None:
        return DriveFigures(**found)
    still = line_of(working, motor_formulas.motor_torque, "torque on the motor's shaft to start from standing still")
    checks = {check.id: check for check in assessment.checks}
    found |= {"motor_torque": along, "most_torque": extreme_of(working, along), "start_needed": extreme_of(working, along, still),
              "rated": _capacity(checks.get("motor.running"))}  # fmt: skip
    if not _runs_as_told(assessment, checks):
        return DriveFigures(**found)
    amps, volts = (line_of(working, each) for each in (motor_formulas.motor_current, motor_formulas.voltage_at_motor))
    found |= {"start_given": _capacity(checks.get("motor.starting")), "stands": STANDS in checks["cable.drop"].reason, "voltage": volts, "current": amps,
              "least_voltage": extreme_of(working, volts), "most_current": extreme_of(working, amps),
              "power_drawn": line_of(working, motor_formulas.power_drawn)}  # fmt: skip
    return DriveFigures(**found, **_motion(working))


def _capacity(check: Check | None) -> Line | None:
    return None if check is None or check.verdict == CANNOT_TELL else check.capacity


def _runs_as_told(assessment: Assessment, checks: Mapping[str, Check]) -> bool:
    """Whether the checks could follow the motor's line while it runs: the cable is judged by its current, and nothing contradicts its figures.

    Starting may be open all the same, as with a worm of which only the running efficiency is stated. Where a resistance is not stated, or not how
    warm the cable gets, less voltage is left than is worked, and every figure would be told too kindly.
    """
    drive = assessment.rig.drive
    if drive.supply is None or drive.cable is None or drive.supply.resistance is None or drive.cable.temperature is None:
        return False
    told = "cable.drop" in checks and checks["cable.drop"].verdict != CANNOT_TELL
    return told and not any(id in checks and checks[id].verdict == CANNOT_TELL for id in _DOUBTS) and assessment.motor_torque_nm is not None


def _motion(working: Working) -> dict[str, Line | None]:
    """Speeds, power and time; nothing where the motor stands somewhere along the travel."""
    turning, shaft, share = (
        line_of(working, each) for each in (motor_formulas.motor_speed, motor_formulas.shaft_power, motor_formulas.motor_efficiency)
    )
    rising = line_of(working, motor_formulas.load_speed) or line_of(working, motor_formulas.swing_speed)
    if rising is None:
        return {"motor_speed": turning}
    time = next(line for line in working.lines if list(line.inputs.values()) == [rising] and line.sign.unit == "s")
    return {"motor_speed": turning, "load_speed": rising, "least_speed": extreme_of(working, rising), "shaft_power": extreme_of(working, shaft),
            "least_efficiency": extreme_of(working, share), "time": time}  # fmt: skip


def motor_line(assessment: Assessment, figures: DriveFigures) -> MotorLine | None:
    """The motor's line on this supply and cable, by asking the working's own lines at no load and at the torque where it stands."""
    if figures.motor_speed is None or figures.start_given is None:
        return None
    working = assessment.solution.working
    torques = numpy.array([0.0, figures.start_given.number])
    (speeds,) = working.evaluate({figures.motor_torque: torques}, [figures.motor_speed])
    stated = figures.motor_speed.inputs
    return MotorLine(
        torques,
        numpy.maximum(speeds, 0.0),
        numpy.array([0.0, stated["stall_torque"].number]),
        numpy.array([stated["free_speed"].number, 0.0]),
    )


def missing_for_motor_line(rig: Rig) -> list[str]:
    """What is to be found out before the motor's line can be drawn; none if everything is stated."""
    drive = rig.drive
    wanted = [f"the motor's {words}" for name, words in WORDS.items() if name != "rated_torque" and getattr(drive.motor, name) is None]
    wanted += (
        ["the supply's voltage"] if drive.supply is None else ["the supply's inner resistance"] if drive.supply.resistance is None else []
    )
    wanted += ["the cable's area and length"] if drive.cable is None else []
    wanted += [f"the ratio of gear stage {n}" for n, gear in enumerate(drive.gears, 1) if gear.ratio is None]
    return wanted + [f"the efficiency of gear stage {n}" for n, gear in enumerate(drive.gears, 1) if _efficiency_is_open(gear)]


def _efficiency_is_open(gear) -> bool:
    if gear.efficiency is not None:
        return False
    return gear.kind != "worm" or None in (gear.lead_angle, gear.pressure_angle, gear.friction)


def effort(assessment: Assessment) -> Effort | None:
    """What each person gives at the crank or on the hand line; None where a motor does it or where it cannot be told."""
    check = next((c for c in assessment.checks if c.id in ("crank.effort", "hand.pull")), None)
    if check is None or check.verdict == CANNOT_TELL:
        return None
    working, pulls = assessment.solution.working, assessment.solution.drive_pull
    each = line_of(working, hand_formulas.effort_of_one)
    people = each.inputs["people"]
    if check.id == "crank.effort":
        lines = {RAISING: line_of(working, hand_formulas.handle_effort, "effort at the handle, raising"),
                 "starting": line_of(working, hand_formulas.handle_effort, "effort at the handle to start from standing still")}  # fmt: skip
    else:
        lines = {RAISING: pulls["raising"], LOWERING: pulls["lowering"], HOLDING: pulls["holding most"]}
    shares = {word: hand_formulas.effort_of_one(effort=line.value, people=people.value) for word, line in lines.items()}
    return Effort(shares, int(people.number), each.number, check.capacity.number, check.source)


def open_questions(assessment: Assessment) -> list[Check]:
    """The checks of the drive that cannot tell."""
    return [check for check in assessment.checks if check.verdict == CANNOT_TELL and check.part[0] in _OF_THE_DRIVE]
