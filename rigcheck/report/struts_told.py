"""What is told of struts: the push or pull of each, where it is greatest, and what it bears; in words and rounded figures."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy

from rigcheck import units, whereabouts
from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import Check
from rigcheck.report.contents import shown
from rigcheck.report.strut_marks import STRUT
from rigcheck.rig.fields import coordinates
from rigcheck.working import Line

UNKNOWN = "unknown"
LEAST_TOLD_N = 0.05
_WORDS = {"holding": "at rest"}


@dataclass(frozen=True)
class ShownStrut:
    """One strut: the points it runs between, its length and lean from plumb, greatest push and pull with when, and what it bears."""

    name: str
    between: str
    length: str
    lean: str
    push: str
    push_when: str
    pull: str
    pull_when: str
    bears: str


def shown_struts(assessment: Assessment) -> list[ShownStrut]:
    """Every strut in the order of the rig; forces unknown where a rope goes slack."""
    members = assessment.members
    if members is None:
        return []
    rig, found = assessment.rig, []
    for name, strut in rig.struts.items():
        one, other = (numpy.array(coordinates(rig.points[end].at)) for end in strut.ends)
        step = other - one
        long = float(numpy.linalg.norm(step))
        lean = units.show(math.acos(min(abs(step[1]) / long, 1.0)), "deg", 3)
        member = members.by_name.get(name)
        if member is None:
            push = pull = ("", "")
            bears = "slack, not counted"
        else:
            push, pull = _force(assessment, member.push, +1), _force(assessment, member.pull, -1)
            bears = "; ".join(_borne(check) for check in assessment.checks if check.part == ("strut", name))
        found.append(ShownStrut(name, f"{strut.one_end} – {strut.other_end}", units.show(long, "m", 3), lean, *push, *pull, bears))
    return found


def _borne(check: Check) -> str:
    told = shown(check)
    needs = f", needs {told.required}" if told.required else ""
    return f"{check.verdict}: {check.what}" + (f", factor {told.factor}{needs}" if told.factor and told.factor != UNKNOWN else "")


def _force(assessment: Assessment, greatest: Line, sense: int) -> tuple[str, str]:
    """A greatest push or pull and when it stands; empty where there is none."""
    if bool(assessment.solution.slack().any()) or not math.isfinite(greatest.number):
        return UNKNOWN, ""
    if greatest.number < LEAST_TOLD_N:
        return "", ""
    working, line = assessment.solution.working, greatest if sense > 0 else next(iter(greatest.inputs.values()))
    source, index = working.where(line)
    word = source.sign.meaning.split(", ")[-1].removesuffix(" greatest").removesuffix(" least")
    travel = assessment.solution.travel
    where = whereabouts.standing(round(float(travel.heights_m[index]), 4), travel.angle_rad(index)) if _varies(source) else ""
    return units.show(greatest.number, "N", 4, "up"), f"{word}, {where}" if where else word


def _varies(line: Line) -> bool:
    return line.runs_along and float(numpy.ptp(line.value)) > 1e-6 * float(numpy.max(numpy.abs(line.value)))


def labels(assessment: Assessment, index: int, word: str | None = None) -> dict[tuple[str, int], str]:
    """What stands beside each strut in a drawing of one height: what it pushes or pulls, raising and lowering, or in one way of moving."""
    found = {}
    if assessment.members is None or bool(assessment.solution.slack().any()):
        return found
    for name, member in assessment.members.by_name.items():
        words = [_WORDS.get(word, word)] if word else ["raising", "lowering"]
        ends = [_worse(_at(member.most[each], index), _at(member.least[each], index)) for each in words]
        found[name, STRUT] = _said(ends)
    return found


def _at(line: Line, index: int) -> float:
    return float(line.value[min(index, line.value.shape[-1] - 1)])


def _worse(most: float, least: float) -> float:
    return most if abs(most) >= abs(least) else least


def _said(forces: list[float]) -> str:
    if not all(math.isfinite(force) for force in forces):
        return UNKNOWN
    if all(abs(force) < LEAST_TOLD_N for force in forces):
        return "carries nothing"
    told = [units.number(units.in_shown(abs(force), "N"), 4, "up") for force in forces]
    words = ["pushes" if force >= LEAST_TOLD_N else "pulls" for force in forces]
    if len(set(words)) > 1:
        return f"{words[0]} {told[0]}, {words[1]} {told[1]} {units.label('N')}"
    return f"{words[0]} {' / '.join(dict.fromkeys(told))} {units.label('N')}"
