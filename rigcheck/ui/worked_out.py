"""Values that follow from something easier to measure: rated torque from power and speed, a diameter from a circumference.

Each asks a few quantities and writes one field, with a note of what it was worked out from. The way of working is told beside it.
A tolerance is carried on where values are added, and refused elsewhere: nothing that was typed is dropped unseen.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from rigcheck import units
from rigcheck.errors import QuantityError
from rigcheck.parts.conductor import conductor_areas


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
    the cautious side to round it to, and whether it is a sum, whose tolerances add up."""

    form: str
    field: str
    title: str
    asked: tuple[Asked, ...]
    how: str
    unit: str
    compute: Callable[..., float]
    towards: str = "nearest"
    adds: bool = False


SHORT_OF_LISTED = 0.03
"""Makers' strands of hairs come up to this much short of the size they are sold as: 50 of 0.25 mm make 2.454 of 2.5 mm² (common practice, no source)."""


def listed_area(hairs: float, thick: float) -> float:
    """The largest listed cross-section that a wire of hairs makes up; 0 where it is below all of them. Diameter in m, area in m².

    >>> [round(listed_area(hairs, thick) * 1e6, 2) for hairs, thick in ((50, 0.25e-3), (40, 0.25e-3), (1, 0.1e-3))]
    [2.5, 1.5, 0.0]
    """
    metal = hairs * math.pi / 4 * thick**2
    return max((area for area in conductor_areas("5") if area * (1 - SHORT_OF_LISTED) <= metal), default=0)


WAYS = (
    WorkedOut(
        "Motor", "rated_torque", "Rated torque from power and speed",
        (Asked("power", "Rated power that the shaft gives", "power", "W"), Asked("speed", "Rated speed of the motor's own shaft", "angular_speed", "rpm")),
        "Torque = power / speed of turning. Some plates name the power drawn, or the speed behind built-in gears: neither will do.", "N·m", lambda power, speed: power / speed, "down",
    ),
    WorkedOut(
        "Motor", "stall_current", "Current at standstill from cold resistance",
        (Asked("voltage", "Nameplate voltage", "voltage", "V"), Asked("resistance", "Cold resistance between its two wires, less that of the tips", "resistance", "ohm")),
        "Current = voltage / resistance, for a brushed DC motor; shaft still, power off, least of several positions, less what the meter shows with its tips touching.", "A",
        lambda voltage, resistance: voltage / resistance, "up",
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
        (Asked("pitch", "From thread to thread, along the shaft", "length", "mm"), Asked("threads", "Number of threads", "ratio", ""),
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
        "Cross-section = number × 3.1416 / 4 × diameter², then the listed size that this makes up, up to 3 % short of it.", "mm²", listed_area, "down",
    ),
    WorkedOut(
        "Limits", "stopping", "Braking from speed and time",
        (Asked("metre", "Time for one metre of lift (3 ft 3 3/8 in)", "time", "s"), Asked("stop", "Time it runs on after the switch is let go", "time", "s")),
        "Speed = 1 m / time; braking = speed / time to stop. That is the mean: a brake that grabs is harder for a moment.", "m/s²", lambda metre, stop: 1 / metre / stop, "up",
    ),
    WorkedOut(
        "Body", "mass", "Mass from two scales",
        (Asked("left", "What the one scale shows", "mass", "kg"), Asked("right", "What the other shows", "mass", "kg")),
        "Mass = the sum of both; what they may be wrong by adds up as well.", "kg", lambda left, right: left + right, "up", adds=True,
    ),
)  # fmt: skip
_DIGITS = 4
_LISTED = ("mm²",)
"""Units of what is bought by a listed size, the same everywhere."""


def ways_of(form: str) -> list[WorkedOut]:
    """What can be worked out for a form."""
    return [way for way in WAYS if way.form == form]


def faults(way: WorkedOut, given: Mapping[str, str]) -> dict[str, QuantityError]:
    """What is wrong with the quantities that were typed, by their keys; those not typed yet are left out."""
    found = {}
    for asked in way.asked:
        if given.get(asked.key, "").strip():
            try:
                read = units.read(given[asked.key], asked.kind)
                if read.value <= 0:
                    raise QuantityError(f'"{given[asked.key]}" is not more than zero', right="Write what was measured.")
                if read.plus_minus is not None and not way.adds:
                    raise QuantityError(
                        f'"{given[asked.key]}" has a tolerance, which is not carried on here',
                        right="Write the value alone, at the end of its tolerance that is the cautious one.",
                    )
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
    read = {asked.key: units.read(given[asked.key], asked.kind) for asked in way.asked}
    value = way.compute(**{key: each.value for key, each in read.items()})
    if not math.isfinite(value) or value <= 0:
        return None
    unit = way.unit if way.unit in _LISTED else units.label(way.unit)
    shown = units.number(units.to_unit(value, unit), _DIGITS, way.towards)
    note = "from " + " and ".join(", ".join(given[asked.key].strip() for asked in way.asked).rsplit(", ", 1))
    if not unit:
        return float(shown), note
    wrong_by = sum(each.plus_minus or 0.0 for each in read.values())
    carried = f" ± {units.number(units.to_unit(wrong_by, unit), _DIGITS, 'up')} {unit}" if wrong_by else ""
    return f"{shown} {unit}{carried}", note
