"""What a report says, before it is laid out: sentences, checks with the worst first, pulls, cautions. Text, PDF and pages say the same.

Demands are rounded up, capacities and factors down.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from rigcheck import units, whereabouts
from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import A_HAIR, CANNOT_TELL, FALLS_SHORT, HOLDS, Check, called
from rigcheck.report import governing
from rigcheck.report.inputs import as_typed
from rigcheck.report.pulls import Extreme, RunOfRope
from rigcheck.working import PrintedLine

WORST_FIRST = (FALLS_SHORT, CANNOT_TELL, HOLDS)
CAUTIONS = (
    "This helps a builder think. It does not replace local codes, or the judgement of a competent, licensed person.",
    "Never lift people with it.",
    "Nobody under the load, at any time.",
    "Prop the load before anyone works below it.",
)
_A_LENGTH = {"m": "metre", "ft": "foot"}
SLACK_NOTE = "A rope goes slack along the travel: there the pulls are not known, so no greatest pull is given."
SHARED_NOTE = "Where ropes share a load, each carries here what falls to it if the others are a little too long, and may itself hang loose while standing still; the greatest share by stiffness stands beside it where it is known, with its own height."
ON_WHAT_IS_KNOWN = "On what is known (no leave to lift)"
SHARED_IN_A_DRAWING = "falls that share the load: each with the worst share that may come to it"


@dataclass(frozen=True)
class ShownCheck:
    """A check in words and rounded figures; a figure that is not known is "unknown", one that does not apply is empty."""

    item: str
    what: str
    verdict: str
    demand: str
    capacity: str
    factor: str
    required: str
    source: str
    reason: str
    remedy: str


def shown(check: Check) -> ShownCheck:
    """A check as people read it."""
    demand = units.show(check.demand.number, check.unit, 4, "up") if check.demand else ""
    capacity = units.show(check.capacity.number, check.unit, 4, "down") if check.capacity else "unknown" if check.demand else ""
    factor = None if check.verdict == CANNOT_TELL else check.factor_value  # a factor beside it would read as a verdict
    told = units.number(factor, 3, "down") if factor is not None else "unknown" if check.demand and check.demand.number != 0 else ""
    required = units.number(check.required, 4) if check.required is not None and check.demand else ""
    return ShownCheck(check.item, check.what, check.verdict, demand, capacity, told, required, check.source, check.reason, check.remedy)


def badness(check: Check) -> tuple[int, bool, float]:
    """For sorting: the verdict, then how much of what is required is in hand; among those that hold, what a heavier load would use up comes first."""
    factor = check.factor_value
    in_hand = factor / (check.required or 1.0) if factor is not None else float("inf")
    return WORST_FIRST.index(check.verdict), check.verdict == HOLDS and not check.on_load, in_hand


def worst_first(checks: list[Check]) -> list[Check]:
    return sorted(checks, key=badness)


def by_item(checks: list[Check]) -> dict[str, list[Check]]:
    """Checks grouped by the thing checked: the group with the worst check first, and the worst first in each."""
    groups: dict[str, list[Check]] = {}
    for check in worst_first(checks):
        groups.setdefault(check.item, []).append(check)
    return groups


def verdict_sentence(assessment: Assessment) -> str:
    """One sentence: what came out, with the counts."""
    counts, all_ = assessment.counts, len(assessment.checks)
    short, unknown, good = counts[FALLS_SHORT], counts[CANNOT_TELL], counts[HOLDS]
    if not all_:
        return "Nothing was checked."
    if not short and not unknown:
        return f"All {all_} checks that were made hold." if all_ > 1 else "The one check that was made holds."
    parts = [
        f"{short} of {all_} checks {'falls' if short == 1 else 'fall'} short" if short else "",
        f"{unknown} cannot tell" if unknown else "",
        f"{good} hold{'s' * (good == 1)}",
    ]
    if not short:
        parts[1] = f"{unknown} of {all_} checks cannot tell"
    words = [part for part in parts if part]
    return f"{', '.join(words[:-1])}{' and ' if len(words) > 1 else ''}{words[-1]}."


def _named(assessment: Assessment, id: str | None) -> str:
    check = next((c for c in assessment.checks if c.id == id), None)
    return f"{check.item}, {check.what}" if check else ""


def rated_load(assessment: Assessment) -> list[tuple[str, str]]:
    """Lines of what and how much: the load entered, the rated load with what governs it, the least load."""
    whole, known = assessment.whole, assessment.whole.known
    governed = _named(assessment, whole.governed_by)
    lines = [("Load entered", as_typed(assessment.rig.load.mass))]
    if whole.rated_load_kg is None:
        lines.append(("Rated load", f"cannot tell, because of: {governed}" if governed else "cannot tell"))
        least = units.show(known.greatest_kg, "kg", 4, "down")
        at_most = (
            "no limit can be told from what is known" if least == "infinite" else f"{least}, limited by: {governing.greatest(assessment)}"
        )
        lines.append((ON_WHAT_IS_KNOWN, at_most))
    elif whole.rated_load_kg == 0:
        nothing = units.show(0.0, "kg")
        lines.append(("Rated load", f"{nothing}: whatever the load, this does not hold: {governed}" if governed else nothing))
    else:
        shown_load = units.show(whole.rated_load_kg, "kg", 4, "down")
        spare = governing.to_spare_percent(assessment)
        left = "" if spare is None else f"{spare} % to spare, "
        told = f"{shown_load}, {left}governed by: {governing.greatest(assessment)}"
        lines.append(("Rated load", "no limit was found" if shown_load == "infinite" else told))
    if whole.least_load_kg is not None:
        lines.append(("Least load", f"{units.show(whole.least_load_kg, 'kg', 4, 'up')}, governed by: {governing.least(assessment)}"))
    return lines


def figures(assessment: Assessment) -> list[tuple[str, str]]:
    """The figures of the whole rig that apply to it."""
    found = [_motion(assessment)]
    for words, value, unit, towards in (
        ("Greatest torque on the drum", assessment.drum_torque_nm, "N·m", "up"),
        ("Torque asked of the motor", assessment.motor_torque_nm, "N·m", "up"),
    ):
        if value is not None:
            found.append((words, units.show(value, unit, 4, towards)))
    best = assessment.best_counterweight
    if best is not None:
        found.append(("Best counterweight", best.in_words))
    found += [(f"Least length of {called('rope', each.name)} to buy", each.words) for each in assessment.rope_lengths]
    if assessment.second_opinion is not None:
        opinion = (
            f"{newtons(assessment.second_opinion.number)} on the hauling part by the seamanship rule, a tenth of the load for every sheave"
        )
        found.append(("Second opinion", opinion))
    return found


def _motion(assessment: Assessment) -> tuple[str, str]:
    """How much rope the drive takes in: over the rise or, for a swing, over the whole of it."""
    travel = assessment.solution.travel
    if assessment.velocity_ratio is None:
        length = travel.paths[assessment.solution.drive_rope].length
        return (
            "Rope taken in",
            f"{units.show(float(length[0] - length[-1]), 'm', 4)} over the whole swing of {whereabouts.angle(travel.angle_rad(-1))}",
        )
    take_in = travel.motion.take_in
    over = "" if take_in.max() - take_in.min() <= 1e-6 * take_in.max() else ", on average along the travel"
    per = f"rope taken in by the drive, per {_A_LENGTH[units.label('m')]} of rise{over}"
    return "Velocity ratio", f"{units.number(assessment.velocity_ratio, 4)} ({per})"


@dataclass(frozen=True)
class ShownForce:
    """What the ropes do to one fixed point, or to the winch, in words and rounded figures."""

    name: str
    force: str
    when: str
    direction: str
    moment: str


def forces_on_the_building(assessment: Assessment) -> list[ShownForce]:
    """The greatest force on every fixed point and on the winch; unknown where a rope goes slack."""
    slack = bool(assessment.solution.slack().any())
    found = []
    for reaction in assessment.reactions:
        if slack or not math.isfinite(reaction.force.number):
            found.append(ShownForce(called_in_force(assessment, reaction.name), "unknown", "", "", "unknown" if reaction.moment else ""))
            continue
        parts = [
            f"{newtons(abs(value))} {plus if value > 0 else minus}"
            for value, plus, minus in (
                (reaction.across_n, "right", "left"),
                (reaction.up_n, "up", "down"),
                (reaction.depth_n, "to the front", "to the back"),
            )
            if abs(value) > 0.005 * reaction.force.number
        ]
        moment = (
            ""
            if reaction.moment is None
            else f"{units.show(reaction.moment.number, 'N·m', 4, 'up')} about {reaction.moment.sign.meaning.split(' about ')[-1]}"
        )
        up = f"{units.show(round(reaction.height_m, 4), 'm', 3)} up"
        when = f"{reaction.case}, {up if reaction.angle_rad is None else f'{up}, {whereabouts.swung(reaction.angle_rad)}'}"
        found.append(ShownForce(called_in_force(assessment, reaction.name), newtons(reaction.force.number), when, ", ".join(parts), moment))
    return found


def called_in_force(assessment: Assessment, name: str) -> str:
    """A place as the table of forces calls it: of a joint, it is what the ropes alone do to it, and the struts hold that."""
    point = assessment.rig.points.get(name)
    return f"{name} (joint: held by struts)" if point is not None and point.held == "struts" else name


def pull_text(pull: Extreme, towards: str = "up") -> str:
    return "unknown" if pull.pull_n is None else units.show(max(pull.pull_n, 0.0), "N", 4, towards)


def height_text(pull: Extreme) -> str:
    return "" if pull.at_m is None else whereabouts.standing(pull.at_m, pull.at_rad)


def pull_notes(assessment: Assessment, runs: list[RunOfRope]) -> list[str]:
    notes = [SLACK_NOTE] if bool(assessment.solution.slack().any()) else []
    return notes + ([SHARED_NOTE] if any(run.shares_load for run in runs) else [])


def labels(runs: list[RunOfRope], index: int) -> dict[tuple[str, int], str]:
    """What stands beside each run in the drawing: its pull at one height, raising and lowering."""
    found = {}
    for run in runs:
        up, down = run.raising_along_n[index], run.lowering_along_n[index]
        found[run.rope, run.number] = (
            "unknown" if up is None or down is None else f"{_bare_pull(up)} / {_bare_pull(down)} {units.label('N')}"
        )
    return found


def _bare_pull(pull_n: float) -> str:
    return units.number(units.in_shown(pull_n, "N"), 4, "up")


def factors_in_hand(assessment: Assessment) -> dict[str, int]:
    """How many whole times over each rope has its required factor, at its weakest place; 0 if anything about it falls short.

    A rope with a place that cannot be told, or without a place whose strength was judged, is left out.
    """
    found = {}
    for name in assessment.rig.ropes:
        own = [c for c in assessment.checks if c.part == ("rope", name) and c.id.startswith(f"rope.{name}.")]
        strengths = [c.factor_value / c.required for c in own if c.unit == "N" and c.factor_value is not None and c.required]
        if any(c.verdict == FALLS_SHORT for c in own):
            found[name] = 0
        elif strengths and not any(c.verdict == CANNOT_TELL for c in own):
            # a factor just as great as the required one may come out a hair below it
            found[name] = max(int(min(strengths) * (1 + A_HAIR)), 1)
    return found


def newtons(pull_n: float) -> str:
    return units.show(pull_n, "N", 4, "up")


def heights_told(line: PrintedLine) -> str:
    """At which height a line of working is read, and what it is at other heights at which later lines read it; empty where no height matters."""
    if line.height_m is None:
        return ""
    others = [f"at {where} it is {shown}" for where, shown in line.elsewhere]
    return "; ".join([f"at {whereabouts.standing(line.height_m, line.angle_rad)}", *others])


def metres(height_m: float) -> str:
    return units.show(height_m, "m", 3)
