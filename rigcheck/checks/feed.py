"""What feeds the motor: supply and cable, as one voltage and one resistance."""

from __future__ import annotations

from dataclasses import dataclass

import numpy

from rigcheck import units
from rigcheck.checks import motor_formulas as formulas
from rigcheck.checks.check import Judge, Wants, within_range
from rigcheck.errors import PartError
from rigcheck.formula import Sign
from rigcheck.parts.conductor import conductor_areas, conductor_resistance, copper_temperature_coefficient
from rigcheck.working import Line

LENGTHS = 1001  # lengths of cable that are tried, evenly from none to the one there is
CLASSES = {"solid or stranded": "1/2", "flexible": "5"}
DROP_LIMIT = 0.03
DROP_SOURCE = (
    "practice in 12 and 24 V boats, several marine pages and a marine supplier's technical page: 3 % for circuits that safety hangs on"
)
CABLE, RESISTANCE = (("drive", "cable", "area"), ("drive", "cable", "conductor")), (("drive", "supply", "resistance"),)
DESCRIBE_SUPPLY = "State the supply's voltage."
DESCRIBE_CABLE = "Describe the cable from supply to motor: area and length one way."
SUPPLY_RESISTANCE = ("The supply's inner resistance is not stated, so the motor may get less than is worked here: take the battery maker's figure, or measure "
                     "the fall in voltage over the rise in current. Write 0 ohm for a supply that holds its voltage.")  # fmt: skip

CABLE_TEMPERATURE = ("How warm the cable gets in use is not stated, and a warm cable has more resistance than is worked here: hold a thermometer to it after an "
                     "hour's work, or state at least the highest temperature of the place it lies in.")  # fmt: skip
WARMTH = (("drive", "cable", "temperature"),)


@dataclass(frozen=True)
class FeedLines:
    """Supply and cable. `unknown` says what is missing altogether, `too_kind` why the resistance may be greater than worked; `wants` in which fields."""

    unknown: str
    too_kind: str
    drop_rule: Line
    wants: Wants
    supply: Line | None = None
    cold: Line | None = None
    cable: Line | None = None
    length: Line | None = None
    loop: Line | None = None

    def next_area(self, judge: Judge, share: Line) -> str:
        """What would keep the voltage: the first listed area that does, with all lines worked again."""
        cable, mass = judge.rig.drive.cable, judge.rig.load.mass
        kind, heaviest = CLASSES[cable.conductor], numpy.array([mass.value + (mass.plus_minus or 0.0)])
        for area in (a for a in conductor_areas(kind) if a > cable.area.value):
            row = conductor_resistance(area, kind)
            (drop,) = judge.working.evaluate({self.cold: numpy.array([row.resistance_ohm_m]), judge.load_mass: heaviest}, [share])
            if drop[..., 0] <= self.drop_rule.number:
                return f"A cable of {_size(row.area_m2)} loses {units.show(float(drop[0]), '%', 3, 'up')}.{judge.with_tolerance}"
        # a shorter cable leaves the motor more voltage, so that it draws more: the length does not follow from the share by the rule of three
        lengths = numpy.linspace(0.0, cable.length.value, LENGTHS)
        (drops,) = judge.working.evaluate({self.length: lengths[:, None], judge.load_mass: heaviest}, [share])
        enough = lengths[drops[:, 0] <= self.drop_rule.number]
        other = "a motor and a supply of a higher voltage"
        if not len(enough) or not enough.max():
            return f"No listed area does: {other}.{judge.with_tolerance}"
        return f"No listed area does; with this one at most {units.show(float(enough.max()), 'm', 2, 'down')} of cable, or {other}.{judge.with_tolerance}"


def feed(judge: Judge) -> FeedLines:
    """The lines of supply and cable as far as they are described."""
    drive = judge.rig.drive
    limit = judge.working.looked_up(
        Sign("u_limit", "share of voltage that may be lost in the cable", "%"), DROP_LIMIT, "circuits that safety hangs on", DROP_SOURCE
    )
    if drive.supply is None or drive.cable is None:
        asked = (("supply", DESCRIBE_SUPPLY), ("cable", DESCRIBE_CABLE))
        ask = {part: text for part, text in asked if getattr(drive, part) is None}
        return FeedLines(" ".join(ask.values()), "", limit, tuple(("drive", part) for part in ask))
    supply = judge.given(
        formulas.SUPPLY_VOLTAGE, drive.supply.voltage.value, "drive, supply, voltage", drive.supply.notes.get("voltage", "")
    )
    made, why = within_range(lambda: _cable(judge))
    if isinstance(made, str) or made is None:
        return FeedLines(made or why, "", limit, CABLE if isinstance(made, str) else WARMTH, supply)
    cold, cable, length = made
    stated = drive.supply.resistance
    how = drive.supply.notes.get("resistance", "") if stated else "not stated: only the cable's resistance is counted"
    inner = judge.given(formulas.SUPPLY_RESISTANCE, stated.value if stated else 0.0, "drive, supply, resistance", how)
    loop = judge.working.apply(formulas.loop_resistance, supply=inner, cable=cable)
    if drive.motor.voltage is not None and drive.motor.voltage.value < drive.supply.voltage.value:
        reason = (
            f"The supply gives {drive.supply.voltage.text} and the motor's figures are stated at {drive.motor.voltage.text}. Whether it bears more is not known: "
            "ask its maker, and enter its figures at the supply's voltage."
        )
        judge.cannot_tell("motor.voltage", "motor", "supply above its stated voltage", ("motor", "motor"), reason, on_load=True, source="stated voltages",
                          wants=(("drive", "motor", "voltage"), ("drive", "supply", "voltage")))  # fmt: skip
    kind = [] if stated else [(SUPPLY_RESISTANCE, RESISTANCE)]
    kind += [] if drive.cable.temperature is not None else [(CABLE_TEMPERATURE, WARMTH)]
    too_kind, wants = " ".join(text for text, _ in kind), tuple(path for _, paths in kind for path in paths)
    return FeedLines("", too_kind, limit, wants, supply, cold, cable, length, loop)


def _size(area_m2: float) -> str:
    """The size by which a cable of the table is bought: its nominal area in mm², whatever is shown."""
    return f"{units.number(units.to_unit(area_m2, 'mm²'))} mm²"


def _cable(judge: Judge) -> tuple[Line, Line, Line] | str:
    """Cold resistance per length, resistance of the cable and its length, or the reason why they are not known."""
    cable, working = judge.rig.drive.cable, judge.working
    try:
        row = conductor_resistance(cable.area.value, CLASSES[cable.conductor])
    except PartError as fault:
        return f"The cable's resistance is not known: {fault.wrong}; {fault.right}."
    area = _size(row.area_m2)
    cold = working.looked_up(formulas.COLD, row.resistance_ohm_m, f"class {row.cable_class}, {area}", row.source)
    per_length, base = cold, formulas.TEMPERATURE.low
    if cable.temperature is not None and cable.temperature.value <= base:
        judge.leave_out(f"the warming of the cable: its resistance is taken at {units.show(base, '°C')}, and a warm cable has more")
    if cable.temperature is not None and cable.temperature.value > base:
        growth = copper_temperature_coefficient()
        rise = working.looked_up(formulas.GROWTH, growth.per_k, growth.name, growth.source)
        warm = judge.given(formulas.TEMPERATURE, cable.temperature.value, "drive, cable, temperature", cable.notes.get("temperature", ""))
        table = working.given(formulas.BASE_TEMPERATURE, base, row.source)
        per_length = working.apply(formulas.warm_resistance, cold=cold, growth=rise, temperature=warm, base=table)
    length = judge.given(formulas.CABLE_LENGTH, cable.length.value, "drive, cable, length", cable.notes.get("length", ""))
    return cold, working.apply(formulas.cable_resistance, length=length, per_length=per_length), length
