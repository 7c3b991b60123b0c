"""The chain from a rope's breaking force to its factor, place by place, read off the lines of working; nothing is computed anew."""

from __future__ import annotations

from dataclasses import dataclass

import numpy

from rigcheck import units
from rigcheck.checks import rope_formulas as formulas
from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import Check
from rigcheck.report import contents
from rigcheck.whatif.other_ropes import governing, is_place
from rigcheck.working import GIVEN, LOOKED_UP, Line


@dataclass(frozen=True)
class Step:
    """One link: what it is, the number in words, where it comes from, and the force in N that is left after it."""

    what: str
    number: str
    source: str
    left_n: float | None


@dataclass(frozen=True)
class Branch:
    """One place of the rope: what end or bend leaves there against the pull counted there; None where a link is not known."""

    check: Check
    share: Step | None
    pull_n: float | None
    dynamic: float | None
    counted_n: float | None
    governs: bool


@dataclass(frozen=True)
class Chain:
    """All that leads from the breaking force of a rope to its factors; the place with the least in hand comes first."""

    rope: str
    force: Step | None
    condition: Step | None
    branches: tuple[Branch, ...]


def chain(assessment: Assessment, name: str) -> Chain:
    """The chain of one rope."""
    least = governing(assessment.checks, [name])
    places = [check for check in assessment.checks if is_place(check, name) or (_is_unknown_place(check, name))]
    branches = tuple(_branch(check, check is least) for check in contents.worst_first(places))
    force, condition = _line(assessment, formulas.BREAKING_FORCE, name), _line(assessment, formulas.REMAINING, name)
    known = next((branch.check.capacity for branch in branches if branch.check.capacity is not None), None)
    left_n = _left_by_condition(assessment, known) if known is not None else None
    return Chain(
        name,
        None if force is None else Step(_force_words(force), units.show(force.number, "kN", 4, "down"), _source(force), force.number),
        None if condition is None else Step("condition of the rope", units.number(condition.number, 4), _source(condition), left_n),
        tuple(sorted(branches, key=lambda branch: not branch.governs)),
    )


def _is_unknown_place(check: Check, name: str) -> bool:
    """A place of which not even the pull could be asked has no unit to be known by."""
    return check.part == ("rope", name) and check.id.startswith(f"rope.{name}.") and check.on_load and check.unit == ""


def _line(assessment: Assessment, sign, name: str) -> Line | None:
    letter = sign.of(name).letter
    return next((line for line in assessment.solution.working.lines if line.sign.letter == letter), None)


def _left_by_condition(assessment: Assessment, bears: Line) -> float:
    """What the line of a place gives if end or bend took nothing: the working is asked, with 1 for their share."""
    share = bears.inputs.get("end") or bears.inputs["bend"]
    return float(assessment.solution.working.evaluate({share: numpy.ones(1)}, [bears])[0][0])


def _branch(check: Check, governs: bool) -> Branch:
    share = None
    if check.capacity is not None:
        line = check.capacity.inputs.get("end") or check.capacity.inputs["bend"]
        what = "end" if "end" in check.capacity.inputs else "bend"
        share = Step(f"{what}: {line.how}" if line.how else what, units.number(line.number, 4), line.source, check.capacity.number)
    if check.demand is None:
        return Branch(check, share, None, None, None, governs)
    pull, dynamic = check.demand.inputs["pull"], check.demand.inputs["dynamic"]
    return Branch(check, share, _known(pull), _known(dynamic), _known(check.demand), governs)


def _known(line: Line) -> float | None:
    return line.number if numpy.isfinite(line.number) else None


def _force_words(force: Line) -> str:
    return "breaking force as stated for this rope" if force.kind == GIVEN else "minimum breaking force by the catalogue"


def _source(line: Line) -> str:
    """Where a line comes from; of a formula its numbers as well, each with its own source."""
    if line.kind == GIVEN:
        return line.how or f"as entered: {line.source}"
    if line.kind == LOOKED_UP:
        return "; ".join(part for part in (line.how, line.source) if part)
    parts = [f"{each.sign.meaning} {units.show(each.number, each.sign.unit, 4)} ({_source(each)})" for each in line.inputs.values()]
    return f"{line.source} {'; '.join(parts)}"
