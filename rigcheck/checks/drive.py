"""The motor: its torque at the worst height, whether it starts, and how fast the load then rises."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy

from rigcheck import units
from rigcheck.checks import motor_formulas as formulas
from rigcheck.checks.check import Judge, Wants, within_range
from rigcheck.checks.drum_winding import SLACK, DrumLines
from rigcheck.checks.feed import CABLE_TEMPERATURE, WARMTH, FeedLines, feed
from rigcheck.checks.gears import GearLines
from rigcheck.formula import Sign
from rigcheck.rig.model import Motor
from rigcheck.working import Line

PART = ("motor", "motor")
FIELDS = {
    "stall_torque": formulas.STALL_TORQUE, "stall_current": formulas.STALL_CURRENT, "no_load_current": formulas.FREE_CURRENT,
    "no_load_speed": formulas.FREE_SPEED, "rated_torque": Sign("M_rated", "rated torque of the motor", "N·m", above=0),
    "voltage": formulas.STATED_VOLTAGE,
}  # fmt: skip
WORDS = {
    "stall_torque": "stall torque",
    "stall_current": "stall current",
    "no_load_current": "no-load current",
    "no_load_speed": "no-load speed",
    "rated_torque": "rated torque",
    "voltage": "nameplate voltage",
}
_OF_THE_CURRENT = ("stall_torque", "stall_current", "no_load_current", "voltage")
STANDS = "The motor cannot turn its load on this supply and cable: the current is the one it draws while it stands."


@dataclass(frozen=True)
class DriveLines:
    """What the motor gives and takes while it raises; each None where it cannot be known.

    `motor_torque` is the greatest along the travel, `starting_needed` that from standing still; `current` the greatest, `voltage` and `speed` the
    least, `time` that of the whole travel; `power_drawn` and `efficiency` belong to the greatest current and to the worst height.
    """

    motor_torque: Line | None = None
    starting_needed: Line | None = None
    starting_torque: Line | None = None
    voltage: Line | None = None
    current: Line | None = None
    speed: Line | None = None
    time: Line | None = None
    power_drawn: Line | None = None
    shaft_power: Line | None = None
    efficiency: Line | None = None
    motor: dict[str, Line] = field(default_factory=dict)


AS_FOR_RUNNING = "What the gears pass on is not known: see the motor's torque while raising."


def check(judge: Judge, drum: DrumLines | None, gears: GearLines | None) -> DriveLines | None:
    """Judge motor, supply and cable; None where no motor turns the drum."""
    drive = judge.rig.drive
    if drum is None or gears is None:
        return None
    if drive.motor is None:
        if drive.crank is None:
            judge.cannot_tell("motor.running", "motor", "torque while raising", PART, "Nothing turns the drum: describe a motor or a crank.", on_load=True,
                              wants=(("drive", "motor"), ("drive", "crank")))  # fmt: skip
        return None
    for what in ("heating of the motor over its duty cycle", "the cable's current against its size, its laying and its fuse", "limit switches and the emergency stop",
                 "the torque it takes to speed up motor, gears and load"):  # fmt: skip
        judge.leave_out(what)
    motor = {name: judge.given(sign, getattr(drive.motor, name).value, f"drive, motor, {name}", drive.motor.notes.get(name, ""))
             for name, sign in FIELDS.items() if getattr(drive.motor, name) is not None}  # fmt: skip
    feeding = feed(judge)
    if gears.efficiency is None or gears.ratio is None:
        rated = () if "rated_torque" in motor else _fields("rated_torque")
        started = _fields(*_missing(drive.motor, "stall_torque", "stall_current", "voltage")) + feeding.wants
        fed = _fields(*_missing(drive.motor, *_OF_THE_CURRENT)) + feeding.wants
        for id, item, what, part, own in (
            ("motor.running", "motor", "torque while raising", PART, rated),
            ("motor.starting", "motor", "starting under full load", PART, started),
            ("cable.drop", "cable", "voltage lost in the cable", ("cable", "cable"), fed),
        ):
            told = gears.unknown if id == "motor.running" else AS_FOR_RUNNING
            judge.cannot_tell(id, item, what, part, told, on_load=True, wants=gears.wants + own)
        return DriveLines(motor=motor)
    along = judge.working.apply(formulas.motor_torque, "raising", "torque on the motor's shaft, raising", torque=drum.raising_along, ratio=gears.ratio,
                                efficiency=gears.efficiency)  # fmt: skip
    still = judge.working.apply(formulas.motor_torque, "start", "torque on the motor's shaft to start from standing still", torque=drum.holding_along,
                                ratio=gears.ratio, efficiency=gears.efficiency)  # fmt: skip
    most = judge.working.extreme(formulas.TORQUE.of("raising most", "greatest torque on the motor's shaft, raising"), [along])
    start = judge.working.extreme(formulas.TORQUE.of("start most", "greatest torque on the motor's shaft to start"), [along, still])
    clash = _contradiction(drive.motor)
    _running(judge, drum, gears, motor, most, clash)
    given = _starting(judge, drum, gears, motor, feeding, start, clash)
    found = {"motor_torque": most, "starting_needed": start, "starting_torque": given, "motor": motor}
    lines, why = within_range(lambda: _running_lines(judge, motor, feeding, along, given))
    stands = given is not None and bool(numpy.any(along.value > given.number))
    wants = _fields(*_missing(drive.motor, *_OF_THE_CURRENT)) or (
        _fields("stall_torque", "stall_current", "no_load_current", "rated_torque") if clash else ()
    )
    _cable_drop(judge, drum, feeding, lines, why or _what_current_needs(drive.motor) or clash, stands, wants)
    if lines and not feeding.too_kind:
        found |= {name: lines[name] for name in ("voltage", "current", "power_drawn")}
        found |= within_range(lambda: _motion(judge, drum, gears, motor, lines, along))[0] or {}
    return DriveLines(**found)


def _fields(*names: str) -> Wants:
    """Fields of the motor."""
    return tuple(("drive", "motor", name) for name in names)


def _missing(motor: Motor, *names: str) -> list[str]:
    return [name for name in names if getattr(motor, name) is None]


def _contradiction(motor: Motor) -> str:
    """Why the motor's figures cannot all be right; empty where they can. A motor draws and gives most while it stands."""
    found = []
    for low, high, may_be_equal in (("no_load_current", "stall_current", False), ("rated_torque", "stall_torque", True)):
        one, other = getattr(motor, low), getattr(motor, high)
        if one is not None and other is not None and (one.value > other.value or (one.value == other.value and not may_be_equal)):
            found.append(f"its {WORDS[low]} of {one.text} is not below its {WORDS[high]} of {other.text}")
    if motor.stall_current is not None and not motor.stall_current.value and not found:
        found.append(f"a {WORDS['stall_current']} of {motor.stall_current.text} gives no torque")
    return f"The motor's figures contradict each other, so check all of them: {' and '.join(found)}." if found else ""


def _running(judge: Judge, drum: DrumLines, gears: GearLines, motor: dict[str, Line], most: Line, clash: str) -> None:
    id, item, what, source = "motor.running", "motor", "torque while raising", "rated torque as stated"
    rated = motor.get("rated_torque")
    if rated is None:
        ask = "The motor's rated torque is not stated: read it from the nameplate, or take rated power over rated speed."
        judge.cannot_tell(id, item, what, PART, ask, on_load=True, wants=_fields("rated_torque"), source=source, demand=most)
        return
    greatest = judge.for_all_loads(most)
    ratio = gears.ratio.number * greatest / rated.number
    remedy = (f"A total ratio of at least 1:{units.number(ratio, 4, 'up')} at the same efficiency (the load then rises more slowly), "
              f"or a motor rated for at least {units.show(greatest, 'N·m', 4, 'up')}.{judge.with_tolerance}")  # fmt: skip
    drum.compare(
        judge,
        id,
        item,
        what,
        PART,
        most,
        rated,
        source=source,
        remedy=remedy,
        reason=f"On the worst layer, worm stages at their highest stated friction. {gears.told_of_two}".strip(),
        too_kind=clash,
        wants=_fields("rated_torque", "stall_torque", "stall_current", "no_load_current"),
        mends=_fields("rated_torque"),
    )


def _starting(
    judge: Judge, drum: DrumLines, gears: GearLines, motor: dict[str, Line], feeding: FeedLines, needed: Line, clash: str
) -> Line | None:
    id, item, what = "motor.starting", "motor", "starting under full load"
    source = "straight motor line, Guru and Hiziroglu, Ex. 12.1; stall current through supply and cable, OpenStax University Physics m58453"
    missing = [name for name in ("stall_torque", "stall_current", "voltage") if name not in motor]
    ask = f"State the motor's {' and '.join(WORDS[name] for name in missing)}." if missing else ""
    why = " ".join(text for text in (ask, feeding.unknown, clash) if text)
    figures = _fields("stall_torque", "stall_current", "no_load_current", "rated_torque") if clash else ()
    if why:
        judge.cannot_tell(
            id, item, what, PART, why, on_load=True, wants=_fields(*missing) + feeding.wants + figures, source=source, demand=needed
        )
        return None
    left = judge.working.apply(
        formulas.stall_voltage, supply=feeding.supply, loop=feeding.loop, stall_current=motor["stall_current"], stated=motor["voltage"]
    )
    given = judge.working.apply(formulas.starting_torque, stall_torque=motor["stall_torque"], voltage=left, stated=motor["voltage"])
    greatest = judge.for_all_loads(needed)
    stall = motor["stall_torque"].number * greatest / given.number
    ratio = gears.ratio.number * greatest / given.number
    remedy = (f"On this supply and cable a stall torque of at least {units.show(stall, 'N·m', 4, 'up')} at the stated voltage and the same stall current, "
              f"or a total ratio of at least 1:{units.number(ratio, 4, 'up')} at the same efficiency.{judge.with_tolerance}")  # fmt: skip
    told = f"The motor gets {units.show(left.number, 'V')} while it stands under full current. Many like twice the torque needed (common practice, no source)."
    at_rest, friction = _at_rest(gears)
    drum.compare(judge, id, item, what, PART, needed, given, source=source, remedy=remedy, reason=told, mends=_fields("stall_torque"),
                 too_kind=" ".join(text for text in (feeding.too_kind, at_rest) if text), wants=feeding.wants + friction)  # fmt: skip
    return given


def _at_rest(gears: GearLines) -> tuple[str, Wants]:
    """Why a worm whose efficiency is only stated may take more to start than is worked, and the fields that would tell; empty where there is none."""
    if not (worms := gears.stated_worms):
        return "", ()
    names = " and ".join(stage.name for stage in worms)
    told = (
        f"The stated efficiency of {names} is one of running; from standing still it is lower, how much is not known. "
        f"Leave it out and state lead angle, normal pressure angle and highest friction: then it is worked from the friction."
    )
    return told, tuple(("drive", "gears", stage.number - 1, name) for stage in worms for name in ("efficiency", "friction"))


def _what_current_needs(motor: Motor) -> str:
    missing = [WORDS[name] for name in _missing(motor, *_OF_THE_CURRENT)]
    return f"The motor's current is not known: state its {', '.join(missing)}." if missing else ""


def _running_lines(judge: Judge, motor: dict[str, Line], feeding: FeedLines, along: Line, given: Line | None) -> dict[str, Line] | None:
    """Voltage, current and power drawn while raising; None while something they need is missing.

    Beyond the torque `given` that it can start with, the motor stands: its line ends there, with the current of standing.
    """
    needs = {name: motor.get(name) for name in ("stall_torque", "stall_current")}
    needs |= {"free_current": motor.get("no_load_current"), "stated": motor.get("voltage")}
    if given is None or None in needs.values():
        return None
    sign = formulas.TORQUE.of("turning", "torque on the motor's shaft, raising, at most that at which it stands")
    turning = judge.working.solve_in_numbers(sign, lambda needed, most: numpy.minimum(needed, most), "the smaller of the two", "straight motor line",
                                             needed=along, most=given)  # fmt: skip
    apply, needs = judge.working.apply, needs | {"torque": turning}
    volts = apply(formulas.voltage_at_motor, supply=feeding.supply, loop=feeding.loop, **needs)
    amps = apply(formulas.motor_current, voltage=volts, **needs)
    least = judge.working.extreme(formulas.VOLTAGE.of("least", "least voltage at the motor, raising"), [volts])
    most = judge.working.extreme(formulas.CURRENT.of("most", "greatest current, raising"), [amps])
    return {
        "volts": volts,
        "amps": amps,
        "voltage": least,
        "current": most,
        "power_drawn": apply(formulas.power_drawn, voltage=feeding.supply, current=most),
    }


def _cable_drop(
    judge: Judge, drum: DrumLines, feeding: FeedLines, lines: dict[str, Line] | None, why: str, stands: bool, wants: Wants
) -> None:
    id, item, what, part = "cable.drop", "cable", "voltage lost in the cable", ("cable", "cable")
    rule = feeding.drop_rule
    if lines is None or feeding.unknown or not numpy.isfinite(lines["current"].number):
        told = SLACK if judge.is_slack and not feeding.unknown else " ".join(t for t in (feeding.unknown, why) if t)
        slack = judge.wants_if_slack() if judge.is_slack else ()
        judge.cannot_tell(id, item, what, part, told or "The current lies outside the motor's line.", on_load=True, wants=wants + feeding.wants + slack,
                          source=rule.source)  # fmt: skip
        return
    share = judge.working.apply(formulas.drop_in_cable, current=lines["current"], cable=feeding.cable, supply=feeding.supply)
    remedy = feeding.next_area(judge, share) if share.number > rule.number else ""
    told = "The cautious one of two customary limits is taken: 3 % where safety hangs on it, 10 % elsewhere."
    told = f"{STANDS} {told}" if stands else told
    holds_cold = judge.rig.drive.cable.temperature is None and share.number <= rule.number
    drum.compare(judge, id, item, what, part, share, rule, source=rule.source, remedy=remedy, reason=told, mends=(("drive", "cable", "area"),),
                 too_kind=CABLE_TEMPERATURE if holds_cold else "", wants=WARMTH)  # fmt: skip


def _motion(
    judge: Judge, drum: DrumLines, gears: GearLines, motor: dict[str, Line], lines: dict[str, Line], along: Line
) -> dict[str, Line]:
    """Speed of motor and load along the travel, and the time; nothing where the motor would stand or its speed is not stated."""
    working, travel = judge.working, judge.solution.travel
    if "no_load_speed" not in motor or drum.open_question:
        return {}
    turning = working.apply(formulas.motor_speed, torque=along, stall_torque=motor["stall_torque"], free_speed=motor["no_load_speed"], voltage=lines["volts"],
                            stated=motor["voltage"])  # fmt: skip
    if not numpy.all(turning.value > 0):
        return {}
    sign, speed_of = (
        (formulas.TAKE_IN_OF_SWING, formulas.swing_speed) if travel.stations.are_angles else (formulas.TAKE_IN, formulas.load_speed)
    )
    take_in = working.geometry(sign, travel.motion.take_in, "motion of the rig")
    rising = working.apply(speed_of, speed=turning, radius=drum.radius, ratio=gears.ratio, take_in=take_in)
    stations = travel.stations.values

    def spent(value: numpy.ndarray) -> numpy.ndarray:
        shape = numpy.broadcast_shapes(value.shape, stations.shape)
        return numpy.trapezoid(1 / numpy.broadcast_to(value, shape), stations, axis=-1)[..., None]

    time = working.solve_in_numbers(
        Sign("t_travel", "time for the whole travel", "s"), spent, "sum of way over speed along the travel", "geometry", value=rising
    )
    shaft = working.apply(formulas.shaft_power, torque=along, speed=turning)
    share = working.apply(formulas.motor_efficiency, torque=along, speed=turning, voltage=lines["volts"], current=lines["amps"])
    greatest = float(numpy.max(share.value))
    if greatest > 1:
        why = f"By its own figures the motor would give {units.show(greatest, '%', 3)} of the power it takes: they contradict each other, so check all of them."
        judge.cannot_tell(
            "motor.figures",
            "motor",
            "whether its figures agree",
            PART,
            why,
            on_load=True,
            wants=_fields(*FIELDS),
            source="conservation of energy",
        )
        return {}
    return {
        "speed": working.extreme(rising.sign.of("least", "least speed of the load, raising"), [rising], most=False),
        "time": time,
        "shaft_power": working.extreme(formulas.POWER.of("most", "greatest power on the motor's shaft"), [shaft]),
        "efficiency": working.extreme(formulas.MOTOR_EFFICIENCY.of("least", "least efficiency of the motor, raising"), [share], most=False),
    }
