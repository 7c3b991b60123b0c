"""What is told of a load that hangs free: how far it goes aside and tilts along its travel, and where it hangs at its lowest."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck import units, whereabouts
from rigcheck.checks.assessment import Assessment
from rigcheck.rig.fields import coordinates
from rigcheck.statics.drift import ASIDE, Band
from rigcheck.working import Line

LEAST_TOLD_M, LEAST_TOLD_RAD = 5e-5, 2e-4
COUNTED = "Counted from where it hangs at rest at the lowest; raising, lowering and at rest. Whether there is room for it is not judged."
_SIDES = {"across": ("to the right", "to the left"), "upwards": ("higher", "lower"), "in depth": ("to the front", "to the back")}


@dataclass(frozen=True)
class ShownBand:
    """A drift or a tilt: of what, and both its ends with the way of moving and the place where each stands."""

    what: str
    least: str
    least_when: str
    most: str
    most_when: str


def shown_bands(assessment: Assessment) -> list[ShownBand]:
    """The bands of the load in words; none where nothing hangs free or it stays where it hangs."""
    found = []
    for band in assessment.drift:
        if band.is_none:
            continue
        ends = [(amount(line.number, band.what), _when(assessment, line)) for line in (band.least, band.most)]
        found.append(ShownBand(named(band), *ends[0], *ends[1]))
    return found


def named(band: Band) -> str:
    return f"{band.body}, {'tilt' if band.what == 'tilt' else f'drift {band.what}'}"


def unit(what: str) -> str:
    return "°" if what == "tilt" else "mm"


def amount(value: float, what: str) -> str:
    """A drift or a tilt as it is said.

    >>> amount(-0.0305, "across"), amount(0.0, "in depth"), amount(0.0316, "tilt")
    ('30.5 mm to the left', '0 mm', '1.82°')
    """
    if what == "tilt":
        return units.show(value if value >= LEAST_TOLD_RAD else 0.0, "°", 3, "up")
    shown = units.show(abs(value), "mm", 3, "up")
    return f"{shown} {_SIDES[what][int(value < 0)]}" if abs(value) >= LEAST_TOLD_M else units.show(0.0, "mm")


def where_it_hangs(assessment: Assessment) -> str:
    """How it hangs at rest at the lowest, against where it is drawn; empty where nothing hangs free."""
    if not assessment.drift:
        return ""
    place = assessment.solution.travel.poses.reference(assessment.rig.load_name)[0]
    drawn = coordinates(assessment.rig.load.at)
    off = {what: place[axis] - drawn[axis] for what, axis in (*ASIDE.items(), ("upwards", 1))}
    aside = [amount(value, what) for what, value in off.items() if abs(value) >= LEAST_TOLD_M]
    tilt = next((line.along["at rest"].value[..., 0].item() for line in assessment.drift if line.what == "tilt"), 0.0)
    told = [*aside, *([f"tilted by {amount(tilt, 'tilt')}"] if tilt >= LEAST_TOLD_RAD else [])]
    return f"At rest at its lowest the load hangs {' and '.join(told) if told else 'as it is drawn'}" + (
        ", counted from where it is drawn." if told else "."
    )


def _when(assessment: Assessment, end: Line) -> str:
    source, index = assessment.solution.working.where(end)
    word = source.sign.meaning.split(", ")[-1]
    travel = assessment.solution.travel
    return f"{word}, {whereabouts.standing(round(float(travel.heights_m[index]), 4), travel.angle_rad(index))}"
