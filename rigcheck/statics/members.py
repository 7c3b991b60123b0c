"""The force in every strut, raising, lowering and at rest: the balance of each joint written out where it can be, in numbers elsewhere.

Signs: a push is positive, a pull negative.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial

import numpy

from rigcheck.formula import Sign, formula
from rigcheck.statics.carrying import carrying, is_held, slack_below
from rigcheck.statics.frame import Frame, frame, without_ties
from rigcheck.statics.joint_balance import PUSH, closed_forms, own_weights
from rigcheck.statics.joint_loads import Loads, acting_on, loads_of
from rigcheck.statics.readings import Entries
from rigcheck.statics.solution import Solution
from rigcheck.working import Line

LEAST_PUSH = Sign("S_min", "least push of a strut, a pull where it is negative", "N")
PULLED = Sign("Z", "greatest pull in a strut", "N")
HOW_RANGE = "balance of every joint, each run of rope at the end of its range that makes it worst"
UNKNOWN = "there are more struts than the balance needs, and what falls to each depends on how they fit"
_A_HAIR = 1e-9


@formula
def greatest_pull(least: LEAST_PUSH) -> PULLED:
    """Greatest pull in a strut, from its least push; below zero where it is pushed all the way.

    Source: definition of the sign.

    >>> greatest_pull(least=-250.0)
    250.0
    """
    return -least


@dataclass(frozen=True)
class Member:
    """The push of one strut: the greatest and the least in each way of moving, the greatest of all, and the greatest pull."""

    name: str
    most: Mapping[str, Line]
    least: Mapping[str, Line]
    push: Line
    pull: Line


@dataclass(frozen=True)
class Members:
    """All struts of a solved rig."""

    frame: Frame
    loads: Mapping[str, Loads]
    by_name: Mapping[str, Member]
    lines: frozenset[Line]

    @property
    def is_held(self) -> bool:
        """Whether the joints are held at every height; a push that is unknown all the same depends on how stiff the members are."""
        return all(is_held(self.frame, loads, {key: line.value for key, line in loads.inputs.items()}) for loads in self.loads.values())

    def is_pushed(self, member: str) -> bool:
        return self.by_name[member].push.number > self._small

    def is_pulled(self, member: str) -> bool:
        return self.by_name[member].pull.number > self._small

    @property
    def _small(self) -> float:
        """A force that is nothing but rounding beside those that act."""
        acting = [numpy.max(numpy.abs(line.value)) for loads in self.loads.values() for key, line in loads.inputs.items() if key[0] in "ml"]
        return _A_HAIR * float(max([*acting, float(numpy.max(numpy.abs(next(iter(self.loads.values())).own), initial=0.0))], default=0.0))


def members(solution: Solution) -> Members | None:
    """The forces in all struts, None where there are none. Raises NotHeldError or ClashError for a joint that its struts do not hold."""
    found = frame(solution.rig, _pulled_in_depth(solution)) if solution.rig.struts else None
    if found is None:
        return None
    first = len(solution.working.lines)
    loads = loads_of(solution, found)
    found = _without_slack_ties(found, loads)
    cosines, shares, own = Entries(solution.ways["at rest"]), Entries(solution.ways["at rest"]), own_weights(solution, found)
    forces = {word: _moving(solution, found, loads[word], cosines, shares, own) for word in ("raising", "lowering")}
    by_name = {}
    for index, name in enumerate(found.all_members):
        most = {word: forces[word][index][0] for word in forces}
        least = {word: forces[word][index][1] for word in forces}
        most["at rest"], least["at rest"] = _in_numbers(solution, found, loads["at rest"], index)
        push = solution.working.extreme(PUSH.of(f"{name} max", f"greatest push of {name}"), list(most.values()))
        lowest = solution.working.extreme(
            LEAST_PUSH.of(name, f"least push of {name}, a pull where it is negative"), list(least.values()), most=False
        )
        pull = solution.working.apply(greatest_pull, name, f"greatest pull in {name}", least=lowest)
        by_name[name] = Member(name, most, least, push, pull)
    return Members(found, loads, by_name, frozenset(solution.working.lines[first:]))


def _pulled_in_depth(solution: Solution) -> set[str]:
    joints = {name for name, point in solution.rig.points.items() if point.held == "struts"}
    touches = acting_on(solution.rig, solution.travel)
    return {name for name in joints for acts in touches.get(name, []) if numpy.max(numpy.abs(acts.along[:, 2])) > 1e-9}


def _without_slack_ties(found: Frame, loads: Mapping[str, Loads]) -> Frame:
    """A chain between feet that would have to push anywhere along the travel is left out, and what it would have held is left to the ground."""
    while True:
        slack = set()
        for each in loads.values():
            values = {key: line.value for key, line in each.inputs.items()}
            small = slack_below(values)
            for index, name in enumerate(found.all_members):
                if name in found.ties and found.rig.struts[name].pulls_only:
                    push = _push(found, each, index, True, **values)
                    if numpy.any(push > small):
                        slack.add(name)
        if not slack:
            return found
        found = without_ties(found, slack)


def _moving(
    solution: Solution, found: Frame, loads: Loads, cosines: Entries, shares: Entries, own: Mapping[str, Line]
) -> list[tuple[Line, Line]]:
    """The greatest and the least push of every member in one way of moving: one closed form for both where just one balance is possible."""
    shared = any(pull.rope in solution.shared for pull in loads.pulls)
    if not found.is_plain or shared or not found.members:
        return [_in_numbers(solution, found, loads, index) for index in range(len(found.all_members))]
    pushes = closed_forms(solution, found, loads, cosines, shares, own)
    ties = [_in_numbers(solution, found, loads, index) for index in range(len(found.members), len(found.all_members))]
    return [*((line, line) for line in pushes), *ties]


def _in_numbers(solution: Solution, found: Frame, loads: Loads, index: int) -> tuple[Line, Line]:
    """The greatest and the least push of one member, over every way in which just enough members can carry."""
    name, lines = found.all_members[index], []
    if found.is_plain and not loads.is_range and not any(pull.rope in solution.shared for pull in loads.pulls):
        sign = PUSH.of(f"{name}, {loads.word}", f"push of {name}, {loads.word}")
        compute = partial(_push, found, loads, index, True)
        line = solution.working.solve_in_numbers(sign, compute, "balance of every joint and foot", "sum of forces", **loads.inputs)
        return line, line
    for word, is_most in (("greatest", True), ("least", False)):
        sign = PUSH.of(f"{name}, {loads.word} {word}", f"{word} push of {name}, {loads.word}")
        compute = partial(_push, found, loads, index, is_most)
        lines.append(
            solution.working.solve_in_numbers(sign, compute, HOW_RANGE if found.ways else UNKNOWN, "sum of forces", **loads.inputs)
        )
    return lines[0], lines[1]


def _push(found: Frame, loads: Loads, index: int, is_most: bool, **values: numpy.ndarray) -> numpy.ndarray:
    worst = None
    for way, counts in zip(found.ways, carrying(found, loads, values), strict=True):
        push = numpy.where(counts, loads.extremes(values, way.map[index])[int(is_most)], numpy.nan)
        worst = push if worst is None else (numpy.fmax if is_most else numpy.fmin)(worst, push)
    many = len(loads.solution.working.heights_m)
    return numpy.full(many, numpy.nan) if worst is None else worst + numpy.zeros(many)
