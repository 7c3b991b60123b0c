"""The answer as one JSON object: SI, unrounded, null where a number is unknown, never NaN or Infinity. Its keys are relied upon."""

from __future__ import annotations

import json
import math

import numpy

from rigcheck import MODEL_VERSION, units
from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import Check
from rigcheck.report.pulls import RunOfRope, runs_of
from rigcheck.statics.drift import Band
from rigcheck.statics.reactions import Reaction
from rigcheck.working import PrintedLine


def contract(assessment: Assessment) -> dict:
    """Everything known about a rig as plain data. Where the load turns about a hinge, the angle of its swing stands beside every height.

    Pulls and rated loads are None where they are not known; `unit` beside a number is the SI unit that the number is in. Lines of working are
    written in metric units whatever is shown; sentences stand as they were made, so the assessment is to be one that was made in metric.
    """
    with units.shown_in(units.METRIC):
        working = [_line(line) for line in assessment.solution.working.printed("text")]
    runs = runs_of(assessment.solution)
    whole = assessment.whole
    return {
        "rig": assessment.rig.name,
        "model_version": MODEL_VERSION,
        "basis": assessment.basis.slug,
        "tensions": [_tension(run) for run in runs],
        "heights": _heights(assessment, runs),
        "velocity_ratio": known(assessment.velocity_ratio),
        "drum_torque_nm": known(assessment.drum_torque_nm),
        "motor_torque_nm": known(assessment.motor_torque_nm),
        "best_counterweight_kg": known(assessment.best_counterweight_kg),
        "checks": [_check(check) for check in assessment.checks],
        "what_ifs": [],
        "working": working,
        "rated_load_kg": known(whole.rated_load_kg),
        "governed_by": whole.governed_by,
        "least_load_kg": known(whole.least_load_kg),
        "rated_load_on_what_is_known_kg": known(whole.rated_load_on_what_is_known_kg),
        "not_checked": list(assessment.not_checked),
        "members": _members(assessment),
        "drift": [_band(band, assessment) for band in assessment.drift],
        "reactions": [_reaction(reaction, bool(assessment.solution.slack().any())) for reaction in assessment.reactions],
    }


def _band(band: Band, assessment: Assessment) -> dict:
    """How far a load that hangs free goes aside, in m, or tilts, in rad: both ends of the band, and each way of moving at every height."""
    many = len(assessment.solution.travel.heights_m)
    along = {word.replace("at rest", "holding"): line.value for word, line in band.along.items()}
    return {
        "body": band.body,
        "what": band.what,
        "unit": si_unit(band.most.sign.unit),
        "least": known(band.least.number),
        "greatest": known(band.most.number),
        "heights": {word: [known(float(v)) for v in numpy.broadcast_to(value, many)] for word, value in along.items()},
    }


def _members(assessment: Assessment) -> list[dict]:
    """The force in every strut, a push positive and a pull negative; None where a rope goes slack or it is not known. Empty without struts."""
    if assessment.members is None:
        return []
    slack, found = bool(assessment.solution.slack().any()), []
    for name, member in assessment.members.by_name.items():
        told = {"greatest_push_n": member.push.number, "greatest_pull_n": member.pull.number}
        for word in member.most:
            key = word.replace("at rest", "holding")
            told |= {f"{key}_max_n": float(member.most[word].value.max()), f"{key}_min_n": float(member.least[word].value.min())}
        ends = assessment.rig.struts[name].ends
        found.append({"strut": name, "ends": list(ends)} | {key: None if slack else known(value) for key, value in told.items()})
    return found


def _reaction(reaction: Reaction, slack: bool) -> dict:
    """A force on a fixed point or the winch; every number None where a rope goes slack."""
    told = {
        "force_n": reaction.force.number,
        "across_n": reaction.across_n,
        "up_n": reaction.up_n,
        "depth_n": reaction.depth_n,
        "moment_nm": reaction.moment.number if reaction.moment else None,
        "at_m": reaction.height_m,
    } | _angles(at_rad=reaction.angle_rad)
    return {"point": reaction.name, "case": reaction.case} | {key: None if slack else known(value) for key, value in told.items()}


def dumps(assessment: Assessment) -> str:
    """The object as text in plain ASCII, so that no console or file can garble it."""
    return json.dumps(contract(assessment), allow_nan=False, indent=1)


def known(value: float | None) -> float | None:
    """A number, or None for one that is missing, not a number or without bound.

    >>> known(2.0), known(float("inf")), known(None)
    (2.0, None, None)
    """
    return float(value) if value is not None and math.isfinite(value) else None


def si_unit(unit: str) -> str:
    """The SI unit of the numbers that are shown in a unit.

    >>> si_unit("mm"), si_unit("°"), si_unit("N"), si_unit("")
    ('m', 'rad', 'N', '')
    """
    kinds = units.kind_of_unit(unit)
    return units.KINDS[kinds[0]].si if kinds else unit


def _tension(run: RunOfRope) -> dict:
    told = {
        "rope": run.rope,
        "segment": run.number,
        "from": run.start,
        "to": run.end,
        "raising_n": run.raising.pull_n,
        "raising_at_m": run.raising.at_m,
        "holding_min_n": run.holding_least.pull_n,
        "holding_max_n": run.holding_most.pull_n,
        "holding_at_m": run.holding_most.at_m,
        "lowering_n": run.lowering.pull_n,
        "lowering_at_m": run.lowering.at_m,
    } | _angles(raising_at_rad=run.raising.at_rad, holding_at_rad=run.holding_most.at_rad, lowering_at_rad=run.lowering.at_rad)
    return told | {"likely_raising_n": run.likely_raising_n} if run.shares_load else told


def _angles(**angles_rad: float | None) -> dict[str, float]:
    """Those of the angles that there are: none but for a swing."""
    return {key: value for key, value in angles_rad.items() if value is not None}


def _heights(assessment: Assessment, runs: list[RunOfRope]) -> list[dict]:
    ropes: dict[str, list[RunOfRope]] = {}
    for run in runs:
        ropes.setdefault(run.rope, []).append(run)
    return [
        {
            "height_m": float(height),
            **_angles(angle_rad=assessment.solution.travel.angle_rad(i)),
            "ropes": {
                name: [{"raising_n": run.raising_along_n[i], "lowering_n": run.lowering_along_n[i]} for run in own]
                for name, own in ropes.items()
            },
        }
        for i, height in enumerate(assessment.solution.travel.heights_m)
    ]


def _check(check: Check) -> dict:
    return {
        "id": check.id,
        "item": check.item,
        "what": check.what,
        "demand": known(check.demand.number) if check.demand else None,
        "capacity": known(check.capacity.number) if check.capacity else None,
        "unit": si_unit(check.unit),
        "factor": known(check.factor_value),
        "required": known(check.required),
        "verdict": check.verdict,
        "source": check.source,
        "reason": check.reason,
        "remedy": check.remedy,
        "part": list(check.part),
        "depends_on_load": check.on_load,
    }


def _line(line: PrintedLine) -> dict:
    return {
        "sign": line.sign,
        "kind": line.kind,
        "what": line.what,
        "formula": line.formula,
        "numbers": line.numbers,
        "value": known(line.value),
        "unit": si_unit(line.unit),
        "source": line.source,
        "at_m": known(line.height_m),
    } | _angles(at_rad=line.angle_rad)
