"""Values that follow from something easier to measure: rated torque from power and speed, a diameter from a circumference.

Each asks a few quantities and writes one field, with a note of what it was worked out from. The way of working is told beside it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from rigcheck import units
from rigcheck.errors import QuantityError


@dataclass(frozen=True)
class Asked:
    """One quantity that is asked: key, label, kind and the unit of the label."""

    key: str
    label: str
    kind: str
    unit: str


@dataclass(frozen=True)
class WorkedOut:
    """A field that can be worked out: of which form, from what, how (in words), the unit it is written in ("" for a plain number),
    and the cautious side to round it to."""

    form: str
    field: str
    title: str
    asked: tuple[Asked, ...]
    how: str
    unit: str
    compute: Callable[..., float]
    towards: str = "nearest"


WAYS = (
    WorkedOut(
        "Motor", "rated_torque", "Rated torque from power and speed",
        (Asked("power", "Rated power on the plate", "power", "W"), Asked("speed", "Rated speed on the plate", "angular_speed", "rpm")),
        "Torque = power / speed of turning.", "N·m", lambda power, speed: power / speed, "down",
    ),
    WorkedOut(
        "Motor", "stall_current", "Current at standstill from cold resistance",
        (Asked("voltage", "Nameplate voltage", "voltage", "V"), Asked("resistance", "Cold resistance between its two wires", "resistance", "ohm")),
        "Current = voltage / resistance, for a brushed DC motor; shaft still, power off, least of several positions.", "A",
        lambda voltage, resistance: voltage / resistance,
    ),
    WorkedOut(
        "Drum", "diameter", "Diameter from a tape round the drum", (Asked("around", "Once round the bare drum", "length", "mm"),),
        "Diameter = circumference / 3.1416.", "mm", lambda around: around / math.pi,
    ),
    WorkedOut(
        "Sheave", "pitch_diameter", "Pitch diameter from a string round the groove",
        (Asked("around", "Once round the bottom of the groove", "length", "mm"), Asked("rope", "Diameter of the rope", "length", "mm")),
        "Pitch diameter = circumference / 3.1416 + one rope diameter.", "mm", lambda around, rope: around / math.pi + rope,
    ),
    WorkedOut(
        "Sheave", "rated_load", "Rated load from the stamp on the block",
        (Asked("stamp", "Stamped on the block", "mass", "kg"), Asked("parts", "Parts of rope at the block", "ratio", "")),
        "Two of the block's parts of rope run on this sheave: stamp × 2 / parts. An end made fast to the block "
        "counts one and a half, since friction can make it the hardest pulled.", "kg",
        lambda stamp, parts: stamp * min(2 / parts, 1), "down",
    ),
    WorkedOut(
        "Gear", "ratio", "Ratio from counted teeth",
        (Asked("driven", "Teeth of the driven wheel", "ratio", ""), Asked("driving", "Teeth of the driving wheel, or threads of the worm", "ratio", "")),
        "Ratio = teeth driven / teeth driving.", "", lambda driven, driving: driven / driving,
    ),
    WorkedOut(
        "Gear", "lead_angle", "Lead angle from pitch and circumference",
        (Asked("pitch", "From thread to thread", "length", "mm"), Asked("threads", "Number of threads", "ratio", ""),
         Asked("around", "Once round the worm, half-way up the thread", "length", "mm")),
        "The angle whose tangent is threads × pitch / circumference.", "deg", lambda pitch, threads, around: math.atan(threads * pitch / around),
    ),
    WorkedOut(
        "Supply", "resistance", "Resistance from a fall in voltage",
        (Asked("idle", "Voltage with nothing running", "voltage", "V"), Asked("loaded", "Voltage while something runs", "voltage", "V"),
         Asked("current", "Current it then draws", "current", "A")),
        "Resistance = fall in voltage / current.", "ohm", lambda idle, loaded, current: (idle - loaded) / current, "up",
    ),
    WorkedOut(
        "Cable", "area", "Cross-section from its hairs",
        (Asked("hairs", "Hairs in one wire", "ratio", ""), Asked("thick", "Diameter of one hair", "length", "mm")),
        "Cross-section = number × 3.1416 / 4 × diameter².", "mm²", lambda hairs, thick: hairs * math.pi / 4 * thick**2,
    ),
    WorkedOut(
        "Limits", "stopping", "Braking from speed and time",
        (Asked("metre", "Time for one metre of lift", "time", "s"), Asked("stop", "Time it runs on after the switch is let go", "time", "s")),
        "Speed = 1 m / time; braking = speed / time to stop.", "m/s²", lambda metre, stop: 1 / metre / stop, "up",
    ),
    WorkedOut(
        "Body", "mass", "Mass from two scales",
        (Asked("left", "What the one scale shows", "mass", "kg"), Asked("right", "What the other shows", "mass", "kg")),
        "Mass = the sum of both.", "kg", lambda left, right: left + right, "up",
    ),
)  # fmt: skip
_DIGITS = 4


def ways_of(form: str) -> list[WorkedOut]:
    """What can be worked out for a form."""
    return [way for way in WAYS if way.form == form]


def faults(way: WorkedOut, given: Mapping[str, str]) -> dict[str, QuantityError]:
    """What is wrong with the quantities that were typed, by their keys; those not typed yet are left out."""
    found = {}
    for asked in way.asked:
        if given.get(asked.key, "").strip():
            try:
                if units.read(given[asked.key], asked.kind).value <= 0:
                    raise QuantityError(f'"{given[asked.key]}" is not more than zero', right="Write what was measured.")
            except QuantityError as fault:
                found[asked.key] = fault
    return found


def result(way: WorkedOut, given: Mapping[str, str]) -> tuple[str | float, str] | None:
    """What stands in the field then, and the note beside it; None until everything is given and leads to a value above zero.

    >>> motor = ways_of("Motor")[0]
    >>> result(motor, {"power": "90 W", "speed": "1400 rpm"})
    ('0.6138 N·m', 'from 90 W and 1400 rpm')
    >>> result(motor, {"power": "90 W"}) is None
    True
    """
    if any(not given.get(asked.key, "").strip() for asked in way.asked) or faults(way, given):
        return None
    value = way.compute(**{asked.key: units.read(given[asked.key], asked.kind).value for asked in way.asked})
    if not math.isfinite(value) or value <= 0:
        return None
    shown = units.number(units.to_unit(value, way.unit), _DIGITS, way.towards)
    note = "from " + " and ".join(", ".join(given[asked.key].strip() for asked in way.asked).rsplit(", ", 1))
    return (f"{shown} {way.unit}" if way.unit else float(shown)), note
