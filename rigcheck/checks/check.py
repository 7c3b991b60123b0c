"""A check: demand against capacity, the factor between them, and the verdict.

A verdict is "holds", "falls short" or "cannot tell". A check that lacks something says what is missing and how to find it
out. Demand and capacity are lines of working, so a check can be asked again for other loads.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

import numpy

from rigcheck.errors import OutOfRangeError
from rigcheck.formula import Sign, formula
from rigcheck.parts.basis import Basis, basis
from rigcheck.rig.model import Rig
from rigcheck.statics.solution import Solution
from rigcheck.statics.standing import HOW_RUBBING
from rigcheck.working import Line, Working

HOLDS, FALLS_SHORT, CANNOT_TELL = "holds", "falls short", "cannot tell"
FROM_MEMORY = "from memory"
COMMON_PRACTICE = "common practice, no source"
FieldPath = tuple[str | int, ...]
Wants = tuple[FieldPath, ...]
"""Fields of the rig file, such as ("ropes", "hoist rope", "grade"): the one to look at first comes first."""
A_HAIR = 1e-12
"""Relative, as it is taken up where a factor is shown: 0.999999999999 is 1."""

DEMAND = Sign("D", "demand", "")
CAPACITY = Sign("C", "capacity", "")
FACTOR = Sign("ν", "factor: capacity over demand", "", towards="down")


@formula
def factor_in_hand(capacity: CAPACITY, demand: DEMAND) -> FACTOR:
    """Factor between what a part can bear and what is asked of it.

    Source: definition of the working coefficient, Regulation (EU) 2023/1230, Annex III.

    >>> factor_in_hand(capacity=21.0, demand=3.0)
    7.0
    """
    return capacity / demand


@dataclass(frozen=True)
class Check:
    """One verdict with all that led to it.

    `part` is the kind and name of the part on the drawing, such as ("rope", "hoist"). `reason` says why it cannot tell, or
    what the verdict rests on; `remedy` what would make it hold. `on_load` says whether it depends on the load; `mark` is
    "from memory" where nothing that was read supports its capacity, "common practice, no source" where it is a rule of thumb. `wants` are the fields that would let it tell or, where it
    falls short, the fields that its remedy changes.
    """

    id: str
    item: str
    what: str
    verdict: str
    part: tuple[str, str]
    demand: Line | None = None
    capacity: Line | None = None
    factor: Line | None = None
    required: float | None = None
    source: str = ""
    reason: str = ""
    remedy: str = ""
    on_load: bool = False
    mark: str = "read"
    wants: Wants = ()

    @property
    def unit(self) -> str:
        line = self.demand or self.capacity
        return line.sign.unit if line else ""

    @property
    def factor_value(self) -> float | None:
        """Capacity over demand, None where there is no demand or something is unknown."""
        if self.factor is None or self.demand is None or self.capacity is None:
            return None
        return self.capacity.number / self.demand.number

    def margin(self, demand: numpy.ndarray, capacity: numpy.ndarray) -> numpy.ndarray:
        """Positive or zero where it holds: the capacity beyond required times demand, in the unit of the check.

        A flange of just the diameter that is asked for must not fall short by a hair of floating point.
        """
        beyond = capacity - (self.required or 1.0) * demand
        return numpy.where(numpy.abs(beyond) <= A_HAIR * numpy.abs(capacity), 0.0, beyond)


class Judge:
    """Gathers the checks of one solved rig; every check module is handed one."""

    def __init__(self, solution: Solution):
        self.solution = solution
        self.rig: Rig = solution.rig
        self.working: Working = solution.working
        self.basis: Basis = basis(self.rig.basis.factors)
        self.load_mass: Line = solution.masses[self.rig.load_name]
        self.checks: list[Check] = []
        self.not_checked: list[str] = []
        self.is_slack = bool(numpy.any(solution.slack()))

    def compare(self, id: str, item: str, what: str, part: tuple[str, str], demand: Line, capacity: Line, required: float = 1.0, *,
                source: str, reason: str = "", remedy: str = "", mark: str = "read", needs_taut: bool = True, wants: Wants = (), mends: Wants = (), followed: Line | None = None) -> Check:  # fmt: skip
        """Judge demand against capacity: it holds if capacity ≥ required × demand.

        A capacity or a limit whose only support is memory (`mark`) gives "cannot tell", as does anything that is not a number.
        `needs_taut`: whether the demand is only right while no rope goes slack. `wants` are the fields that would let it tell where it cannot,
        `mends` those that the remedy changes. `followed` is a line as great as the demand, by which a reader comes to the factor where the demand itself is a routine.
        """
        factor = None
        known = math.isfinite(demand.number) and math.isfinite(capacity.number)
        on_load = self.depends_on_load(demand, capacity)
        is_lost = needs_taut and on_load and self.is_slack  # its lines stay, to be asked for other loads
        if known and demand.number > 0 and not is_lost:
            factor = self.working.apply(
                factor_in_hand, f"{part[1]}, {what}", f"factor: {item}, {what}", capacity=capacity, demand=followed or demand
            )
        check = Check(id, item, what, HOLDS, part, demand, capacity, factor, required, source, reason, remedy, on_load, mark)
        if is_lost:
            verdict, reason = CANNOT_TELL, "A rope goes slack along the travel, so this pull is not known: see the check of the slack rope."
            wants = self.wants_if_slack()
        elif not known:
            verdict, reason = CANNOT_TELL, f"{self._why_unknown(demand, capacity)} {reason}".strip()
        elif mark == FROM_MEMORY:
            verdict = CANNOT_TELL
            reason = f"The only value at hand is from memory and may not judge: find a published one or a certificate. {reason}".strip()
        else:
            verdict = HOLDS if check.margin(numpy.float64(demand.number), numpy.float64(capacity.number)) >= 0 else FALLS_SHORT
        fields = {HOLDS: (), FALLS_SHORT: mends, CANNOT_TELL: wants}[verdict]
        check = replace(check, verdict=verdict, reason=reason, remedy=remedy if verdict == FALLS_SHORT else "", wants=fields)
        self.checks.append(check)
        return check

    def wants_if_slack(self) -> Wants:
        """A rope may go slack only because a bearing that is not stated was taken to be stiff; otherwise nothing is missing."""
        return tuple(("sheaves", name, "bearing") for name in self.solution.assumed_bearings)

    def _why_unknown(self, *lines: Line) -> str:
        """What the first line says that is unknown by itself, such as a pull that depends on how tight ropes are set."""
        needed = self.working.ancestors(list(lines))
        if any(line.how == HOW_RUBBING and not numpy.all(numpy.isfinite(line.value)) for line in needed) or any(
            not numpy.all(numpy.isfinite(taken.over.value))
            for each in self.solution.guides.values()
            for taken in each
            if taken.over in needed
        ):
            return "A guide may jam, so that however hard something pulls nothing moves: see the checks of the guides."
        for line in self.working.lines:
            if line in needed and not line.inputs and not numpy.all(numpy.isfinite(line.value)):
                return f"Not known: {line.sign.meaning} {line.how}."
        return "Its demand or its capacity lies outside what the sources cover."

    def cannot_tell(self, id: str, item: str, what: str, part: tuple[str, str], reason: str, *, on_load: bool, wants: Wants, source: str = "",
                    demand: Line | None = None, required: float | None = None) -> Check:  # fmt: skip
        """Something is missing: `reason` names it and says how to find it out, `wants` are the fields where it belongs."""
        check = Check(id, item, what, CANNOT_TELL, part, demand=demand, required=required, source=source, reason=reason, on_load=on_load,
                      wants=tuple(dict.fromkeys(wants)))  # fmt: skip
        self.checks.append(check)
        return check

    def falls_short(
        self, id: str, item: str, what: str, part: tuple[str, str], reason: str, *, source: str, remedy: str, mends: Wants = ()
    ) -> Check:
        """Something that must be there is not: nothing to compute; `mends` are the fields that the remedy changes."""
        check = Check(id, item, what, FALLS_SHORT, part, source=source, reason=reason, remedy=remedy, wants=mends)
        self.checks.append(check)
        return check

    def holds(self, id: str, item: str, what: str, part: tuple[str, str], reason: str, *, source: str) -> Check:
        """Something that must be there is there: nothing to compute."""
        check = Check(id, item, what, HOLDS, part, source=source, reason=reason)
        self.checks.append(check)
        return check

    def replace(self, check: Check, **changes) -> None:
        """Put a changed check in the place of one that was given."""
        self.checks[self.checks.index(check)] = replace(check, **changes)

    def wanted(self, checks: Iterable[Check]) -> Wants:
        """What those of the checks that cannot tell wait for, each field once."""
        return tuple(dict.fromkeys(path for check in checks if check.verdict == CANNOT_TELL for path in check.wants))

    def leave_out(self, text: str) -> None:
        """Name something that was not checked."""
        if text not in self.not_checked:
            self.not_checked.append(text)

    def for_all_loads(self, line: Line) -> float:
        """The greatest that a line comes to between both ends of the load's tolerance: what a remedy must be enough for."""
        mass = self.rig.load.mass
        if not mass.plus_minus or not self.depends_on_load(line):
            return line.number
        ends = numpy.array([[mass.value - mass.plus_minus], [mass.value], [mass.value + mass.plus_minus]])
        (found,) = self.working.evaluate({self.load_mass: ends}, [line])
        return float(numpy.nanmax(found)) if numpy.isfinite(found).any() else line.number

    @property
    def with_tolerance(self) -> str:
        """To follow a remedy that was worked out with `for_all_loads`: why its figure is not simply the demand."""
        return f" That counts {self.rig.load_name} at the worse end of its tolerance." if self.rig.load.mass.plus_minus else ""

    def depends_on_load(self, *lines: Line) -> bool:
        return self.load_mass in self.working.ancestors(list(lines))

    def given(self, sign: Sign, value: float, where: str, note: str = "") -> Line:
        return self.working.given(sign, value, where, note)


def called(kind: str, name: str) -> str:
    """A part as people read it: the kind goes before its name unless the name says it already.

    >>> called("rope", "hoist"), called("rope", "hoist rope")
    ('rope hoist', 'hoist rope')
    """
    return name if kind in name.lower().split() else f"{kind} {name}"


def within_range(compute):
    """Run a computation; None with the reason if a formula was asked beyond its range."""
    try:
        return compute(), ""
    except OutOfRangeError as fault:
        return None, " ".join(str(fault).split("\n"))
