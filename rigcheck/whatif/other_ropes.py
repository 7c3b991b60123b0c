"""The same rig with another rope of the catalogue in it, and the verdicts it then gets.

Pulls, drum, gears and drive know of a rope its kind and its diameter alone. So the rig is assessed once for each of these, and
the strength at the rope's places is then asked again, from the same lines of working, for every construction, grade and material.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import inf, isfinite, isnan

import numpy

from rigcheck.checks import rope_strength, ropes, tests_of_basis, tolerance, whole
from rigcheck.checks.assessment import Assessment, assess
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, FROM_MEMORY, HOLDS, Check, Judge
from rigcheck.checks.rope_formulas import DIAMETER
from rigcheck.errors import RigcheckError
from rigcheck.rig import files
from rigcheck.rig.model import Rig, Rope
from rigcheck.whatif.catalogue_ropes import CatalogueRope, catalogue, described, with_rope
from rigcheck.working import Working

_WORST_FIRST = (FALLS_SHORT, CANNOT_TELL, HOLDS)


@dataclass(frozen=True)
class Turn:
    """A check of the rig, other than the rope's own, whose verdict would be another; None where there is no such check before or after."""

    before: Check | None
    after: Check | None


@dataclass(frozen=True)
class OwnVerdict:
    """The verdict of one of the rope's own checks: the part it is about, and what is checked."""

    id: str
    item: str
    what: str
    verdict: str


@dataclass(frozen=True)
class TriedRope:
    """What the rig would say of a rope.

    `factor` and `required` are those of the place with the least in hand, which `where` names; None where no place can be told.
    `fault` tells why the rig cannot be worked out with the rope; everything else is then unknown.
    """

    rope: CatalogueRope
    factor: float | None = None
    required: float | None = None
    where: str = ""
    own: tuple[OwnVerdict, ...] = ()
    fault: str = ""

    @property
    def verdict(self) -> str:
        """The worst verdict of the rope's own checks."""
        return min((each.verdict for each in self.own), key=_WORST_FIRST.index, default=CANNOT_TELL)


class OtherRopes:
    """Ropes of the catalogue in place of those named, tried on one rig; what was worked out for a diameter is kept.

    Factors and verdicts are those that `assess` gives for the rig with that rope put in.
    """

    def __init__(self, assessment: Assessment, names: Sequence[str], fitting: str | None = None):
        self.assessment, self.names, self.fitting = assessment, tuple(names), fitting
        self._data = json.loads(files.dumps(assessment.rig))
        self._worked_out: dict[tuple[str, float], Assessment | str] = {}
        self._turns: dict[CatalogueRope, tuple[Turn, ...]] = {}

    def tried(self, candidates: Iterable[CatalogueRope]) -> list[TriedRope]:
        """What the rope's own checks would say of each rope, in the order given."""
        candidates = list(candidates)
        alike: dict[tuple[str, float], list[CatalogueRope]] = {}
        for rope in candidates:
            alike.setdefault((rope.kind, rope.diameter_m), []).append(rope)
        found = {}
        for group in alike.values():
            found |= {tried.rope: tried for tried in self._tried_alike(group)}
        return [found[rope] for rope in candidates]

    def turns(self, rope: CatalogueRope) -> tuple[Turn, ...]:
        """The checks of the rig, other than the rope's own, whose verdict would be another with the rope."""
        if rope not in self._turns:
            worked_out = self._with_alike(rope)
            self._turns[rope] = () if isinstance(worked_out, str) else self._turned(self._asked_again(worked_out, rope))
        return self._turns[rope]

    def _asked_again(self, worked_out: Assessment, rope: CatalogueRope) -> list[Check]:
        """Every check, those asked again that ask what a rope bears; the rope differs from the one worked out in strength alone."""
        solution = worked_out.solution
        placed = {name: Rope.model_validate(described(rope, self._data["ropes"][name], self.fitting)) for name in self.names}
        working = Working(solution.working.heights_m)
        working.lines.extend(solution.working.lines)
        judge = Judge(replace(solution, rig=worked_out.rig.model_copy(update={"ropes": placed}), working=working))
        ropes.check(judge)
        again = {check.id: check for check in judge.checks}
        judge.checks = [again.get(check.id, check) for check in worked_out.checks if not check.id.startswith(("test.", "load."))]
        tolerance.check(judge, whole.rate(judge, tests_of_basis.check(judge)))  # the only other checks that ask what a rope bears
        return judge.checks

    def _tried_alike(self, group: list[CatalogueRope]) -> list[TriedRope]:
        """Ropes of one kind and diameter: the places of one that was worked out are asked again for the others."""
        worked_out = self._with_alike(group[0])
        if isinstance(worked_out, str):
            return [TriedRope(rope, fault=worked_out) for rope in group]
        own = [check for check in worked_out.checks if self._is_own(check)]
        places = [check for check in own if check.capacity is not None and any(is_place(check, name) for name in self.names)]
        strengths = [self._strength(worked_out, rope) for rope in group]
        changed = {check.capacity.inputs["force"]: numpy.array([force_n for force_n, _ in strengths])[:, None] for check in places}
        bears = worked_out.solution.working.evaluate(changed, [check.capacity for check in places])
        return [
            _tried(rope, own, {check.id: (check, value[k, 0]) for check, value in zip(places, bears, strict=True)}, strengths[k][1])
            for k, rope in enumerate(group)
        ]

    def _with_alike(self, rope: CatalogueRope) -> Assessment | str:
        """The rig worked out with a rope of the same kind and diameter, one whose strength was read; or why it cannot be worked out."""
        key = rope.kind, rope.diameter_m
        if key not in self._worked_out:
            same = (each for each in catalogue(rope.kind) if each.diameter_m == rope.diameter_m and each.mark != FROM_MEMORY)
            placed = with_rope(self._data, self.names, next(same, rope), self.fitting)
            try:
                self._worked_out[key] = assess(Rig.model_validate(placed))
            except RigcheckError as fault:
                self._worked_out[key] = " ".join(str(fault).split())
        return self._worked_out[key]

    def _strength(self, worked_out: Assessment, rope: CatalogueRope) -> tuple[float, str]:
        """The breaking force of a rope and its mark, as the checks find them."""
        aside = Working(worked_out.solution.working.heights_m)
        judge = Judge(replace(worked_out.solution, working=aside))
        placed = Rope.model_validate(described(rope, self._data["ropes"][self.names[0]], self.fitting))
        diameter = aside.given(DIAMETER, placed.diameter.value, "catalogue")
        found = rope_strength.strength(judge, "rope", placed, diameter)
        return (float("nan"), FROM_MEMORY) if found.force is None else (found.force.number, found.mark)

    def _is_own(self, check: Check) -> bool:
        return any(is_of_rope(check, name) for name in self.names)

    def _turned(self, checks: Iterable[Check]) -> tuple[Turn, ...]:
        old, new = ({c.id: c for c in each if not self._is_own(c)} for each in (self.assessment.checks, checks))
        pairs = (Turn(old.get(id), new.get(id)) for id in {**old, **new})
        return tuple(turn for turn in pairs if _verdict(turn.before) != _verdict(turn.after))


def _tried(rope: CatalogueRope, own: list[Check], places: Mapping[str, tuple[Check, float]], mark: str) -> TriedRope:
    verdicts = {check.id: check.verdict for check in own}
    governing, factor, least = None, None, inf
    for check, force_n in places.values():
        demand_n = check.demand.number
        if check.verdict != CANNOT_TELL:  # what cannot be told of a rope whose strength was read can be told of no other
            holds = check.margin(numpy.float64(demand_n), force_n) >= 0
            verdicts[check.id] = CANNOT_TELL if mark == FROM_MEMORY or isnan(force_n) else HOLDS if holds else FALLS_SHORT
        if demand_n > 0 and isfinite(demand_n) and force_n / demand_n / check.required < least:
            governing, factor, least = check, float(force_n / demand_n), force_n / demand_n / check.required
    told = tuple(OwnVerdict(check.id, check.item, check.what, verdicts[check.id]) for check in own)
    return TriedRope(rope, factor, governing and governing.required, governing.what if governing else "", told)


def governing(checks: Iterable[Check], names: Iterable[str]) -> Check | None:
    """The place of the ropes named with the least factor over its required one."""
    places = [check for check in checks for name in names if is_place(check, name) and check.factor_value is not None]
    return min(places, key=lambda check: check.factor_value / check.required, default=None)


def is_place(check: Check, name: str) -> bool:
    """Whether a check judges the strength at one place of a rope."""
    return check.part == ("rope", name) and check.id.startswith(f"rope.{name}.") and check.unit == "N"


def is_of_rope(check: Check, name: str) -> bool:
    """Whether a check is the rope's own: its places and condition, its bends, grooves and senses at the sheaves, its part of the drum."""
    kind, part = check.part
    if kind == "sheave":
        return check.id in (f"sheave.{part}.{what}.{name}" for what in ("ratio", "groove", "sense"))
    if kind == "drum":
        return check.item == f"drum, {name}"
    return check.part == ("rope", name) and check.id.startswith(f"rope.{name}.")


def is_worse(turn: Turn) -> bool:
    """Whether a verdict fell; a check that is not asked stands in nobody's way."""
    before, after = (_WORST_FIRST.index(HOLDS if check is None else check.verdict) for check in (turn.before, turn.after))
    return after < before


def _verdict(check: Check | None) -> str | None:
    return None if check is None else check.verdict
