"""The lines of working in chapters: first the statics, then one thing checked after the other, all in the order they were worked out."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import Check
from rigcheck.working import SOLVED, Line, PrintedLine

WEIGHTS = "Weights and efficiencies"
MOVING = "Pulls while raising and lowering: balance of every body"
STILL = "Pulls while standing still: the range that friction allows"
STRUTS = "Struts: balance of every joint"
FEET = "Feet and fixings of the struts"
RUNS = "Pulls from run to run, and at the drive"
DRIFT = "How far the load goes aside and tilts"
FURTHER = "Further lines"


@dataclass(frozen=True)
class Entry:
    """One line typeset as a textbook has it, typeset so that it may break into rows, and in plain text; and the checks that are decided with it."""

    typeset: PrintedLine
    in_rows: PrintedLine
    plain: PrintedLine
    decides: list[Check]


@dataclass(frozen=True)
class Chapter:
    """Lines under one heading."""

    title: str
    entries: list[Entry]


def chapters(assessment: Assessment, vocabulary: str = "typst") -> list[Chapter]:
    """All lines, each once, in their order."""
    working = assessment.solution.working
    typeset, in_rows, plain = (working.printed(form) for form in (vocabulary, f"{vocabulary} in rows", "text"))
    owners, decided = _owners(assessment), _decided(assessment)
    found: list[Chapter] = []
    for line, *printed in zip(working.lines, typeset, in_rows, plain, strict=True):
        if not found or found[-1].title != owners[line]:
            found.append(Chapter(owners[line], []))
        found[-1].entries.append(Entry(*printed, decided.get(line, [])))
    return found


def _decided(assessment: Assessment) -> dict[Line, list[Check]]:
    """The last line of every check that has lines."""
    place = {line: number for number, line in enumerate(assessment.solution.working.lines)}
    found: dict[Line, list[Check]] = {}
    for check in assessment.checks:
        own = [line for line in (check.demand, check.capacity, check.factor) if line is not None]
        if own:
            found.setdefault(max(own, key=place.__getitem__), []).append(check)
    return found


def _owners(assessment: Assessment) -> dict[Line, str]:
    """For every line its chapter: its place in the statics, or the first thing checked that rests on it."""
    lines, solution = assessment.solution.working.lines, assessment.solution
    owners: dict[Line, str] = {}
    runs = [run for own in solution.runs.values() for run in own]
    still = {line for run in runs for line in (run.holding_least, run.holding_most)}
    statics_end = max(
        lines.index(line) for line in [*still, *solution.drive_pull.values(), *(r.raising for r in runs), *(r.lowering for r in runs)]
    )
    stage = WEIGHTS
    for line in lines[: statics_end + 1]:
        if line in still:
            stage = STILL
        elif stage == STILL:
            stage = RUNS
        elif stage == WEIGHTS and line.kind == SOLVED:
            stage = MOVING
        owners[line] = stage
    if assessment.members is not None:
        owners |= dict.fromkeys(assessment.members.lines, STRUTS)
        told = [line for foot in assessment.feet for line in (foot.reaction.force, foot.press, foot.kick, foot.ratio) if line is not None]
        for line in assessment.solution.working.ancestors(told):
            owners.setdefault(line, FEET)
    for band in assessment.drift:
        owners |= dict.fromkeys((*band.along.values(), band.least, band.most), DRIFT)
    for check in assessment.checks:
        ends = [line for line in (check.demand, check.capacity, check.factor) if line is not None]
        for line in assessment.solution.working.ancestors(ends):
            owners.setdefault(line, check.item)
    following = FURTHER
    for line in reversed(lines):
        following = owners.setdefault(line, following)
    return owners
