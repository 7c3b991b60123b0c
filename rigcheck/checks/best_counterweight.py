"""The best counterweight: the heaviest with which all holds that a heavier one would undo, at both ends of the load's tolerance.

The heavier it is, the less is left for the drive to lift, so the heaviest that may be hung asks least. What a heavier one undoes first is the pull that
keeps the hoist rope taut, moving steadily or being stopped, or the strength of what the counterweight hangs on: the very lines of the checks are asked
again for other masses. One on an arm may come to be lifted with the load, past its lowest place; a heavier one then asks more, and none is called the best.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy

from rigcheck import units
from rigcheck.checks.check import FALLS_SHORT, FROM_MEMORY, Check, Judge
from rigcheck.checks.counterweight import LESS, rises
from rigcheck.formula import Sign
from rigcheck.rig.model import Rig
from rigcheck.statics.solution import Solution

TAUT, STOPPING, OVER_CENTRE = "taut.hoist", "counterweight.stopping", "swing.over-centre"
BEST = Sign("M_best", "best counterweight: the heaviest with which all holds that a heavier one would undo", "kg", towards="down")
TIMES_BOTH = 4.0
"""Masses are looked for up to so many times load and counterweight together."""
PARTS, ROUNDS, CLOSE_ENOUGH = 9, 16, 1e-12
A_TRIFLE = 1e-9
"""The lightest counterweight asked for, relative to the heaviest: a mass of nothing is outside what the formula of weight admits."""
DIGITS = 4


@dataclass(frozen=True)
class BestCounterweight:
    """The best mass of a counterweight, in kg, None where there is none; `words` say what it rests on, or why there is none.

    Where it cannot be told which is best there is none either, and `can_be_told` is False.
    `governs` is the check that a heavier one would make fall short, at a load of `load_kg`; `short` are those that fall short with it all the same.
    """

    name: str
    mass_kg: float | None
    words: str
    governs: Check | None = None
    load_kg: float | None = None
    short: tuple[Check, ...] = ()
    can_be_told: bool = True

    @property
    def in_words(self) -> str:
        """The mass, or that there is none or none can be told, and what that rests on."""
        if self.mass_kg is None:
            return f"{'none' if self.can_be_told else 'cannot tell'}. {self.words}"
        return f"{units.show(self.mass_kg, 'kg', DIGITS, 'down')}. {self.words}"

    @property
    def remedy(self) -> str:
        """What to do about a counterweight that is too heavy; begins in the middle of a sentence."""
        if self.mass_kg is None:
            return f"less counterweight, though there is no best one. {self.words}"
        short = f" {_falls_short_too(self.short)}" if self.short else ""
        return f"less counterweight: at most {units.show(self.mass_kg, 'kg', DIGITS, 'down')}, the best weight.{short}"


def check(judge: Judge) -> BestCounterweight | None:
    """Find the best counterweight once all else is judged, and name it where the present one is too heavy.

    None where no pull to be left is stated, or where it is not one counterweight alone.
    """
    names = [name for name, body in judge.rig.bodies.items() if body.role == "counterweight"]
    if len(names) > 1:
        judge.leave_out(f"The best counterweight: there are several ({', '.join(names)}), and what is best for one depends on the others.")
    if len(names) != 1:
        return None
    found = find(judge.solution, judge.checks, names[0])
    if found is None or not found.can_be_told:
        return found
    if found.mass_kg is not None:
        how = "the checks asked again for other counterweights, at both ends of the load's tolerance"
        judge.working.solve_in_numbers(BEST, lambda: numpy.array([found.mass_kg]), how, "the checks on the counterweight")
    for short in [c for c in judge.checks if c.id in (TAUT, STOPPING, OVER_CENTRE) and c.verdict == FALLS_SHORT]:
        otherwise, less, more = f"{short.remedy[:1].lower()}{short.remedy[1:]}".partition(LESS)
        if less:
            remedy = f"{otherwise}{found.remedy}{more.removeprefix('.')}"
            judge.replace(short, remedy=f"{remedy[:1].upper()}{remedy[1:]}")
    return found


def loads_of(rig: Rig) -> tuple[float, ...]:
    """The loads that a counterweight must do for, in kg: the load entered and, with a tolerance, both its ends."""
    mass = rig.load.mass
    return (mass.value,) if not mass.plus_minus else (mass.value - mass.plus_minus, mass.value, mass.value + mass.plus_minus)


def find(solution: Solution, checks: Iterable[Check], name: str) -> BestCounterweight | None:
    """The best mass of one counterweight; None where the pull that is to be left in the hoist rope is not stated."""
    rig, mass, checks = solution.rig, solution.masses[name], list(checks)
    if rig.limits.taut_margin is None:
        return None
    lifted = numpy.flatnonzero(rises(solution, name) > 0)
    if len(lifted):
        return BestCounterweight(name, None, _lifted(solution, name, int(lifted[0])), can_be_told=False)
    asked = _that_rest_on(solution, checks, name)
    taut = [check for check in asked if check.id in (TAUT, STOPPING)]
    most_kg = TIMES_BOTH * (mass.number + solution.masses[rig.load_name].number)
    margins = _margins(solution, taut, name, numpy.array([A_TRIFLE * most_kg]))
    for check, margin in zip(taut, margins, strict=True):
        if margin.min() < 0:
            load = loads_of(rig)[int(margin[:, 0].argmin())]
            return BestCounterweight(name, None, _none(rig, check, load), check, load)
    best, governs = _heaviest(solution, taut, name, most_kg)
    falling = [check for check in _short(solution, asked, name, best) if check not in taut]
    bounded = [_heaviest(solution, [check], name, best) for check in falling]
    bounded = [(kg, check) for kg, check in bounded if check is not None]
    if bounded:  # what the counterweight hangs on gives way before the rope goes slack
        best, governs = min(bounded, key=lambda one: one[0])
    if governs is None:
        return BestCounterweight(name, None, "No counterweight was found that would be too heavy, so none is the best.")
    short = _short(solution, asked, name, best)
    load = loads_of(rig)[int(_margins(solution, [governs], name, numpy.array([best]))[0, :, 0].argmin())]
    return BestCounterweight(name, best, _rests_on(rig, checks, governs, load, short), governs, load, short)


def _that_rest_on(solution: Solution, checks: list[Check], name: str) -> list[Check]:
    """The checks that another mass of the counterweight can turn; a value from memory decides nothing."""
    asked = [c for c in checks if c.demand is not None and c.capacity is not None and c.required is not None and c.mark != FROM_MEMORY]
    return [c for c in asked if solution.masses[name] in solution.working.ancestors([c.demand, c.capacity])]


def _short(solution: Solution, checks: list[Check], name: str, mass_kg: float) -> tuple[Check, ...]:
    """The checks that fall short with a mass of the counterweight; what is not known does neither."""
    margins = _margins(solution, checks, name, numpy.array([mass_kg])).min(axis=(1, 2))
    return tuple(check for check, margin in zip(checks, margins, strict=True) if -numpy.inf < margin < 0)


def _heaviest(solution: Solution, checks: list[Check], name: str, most_kg: float) -> tuple[float, Check | None]:
    """The heaviest mass up to which all these checks hold, and which falls short beyond it; None where they hold to the end, or one never does.

    The bracket is cut at where straight lines through its ends cross zero, and in parts, until it is as narrow as numbers are.
    """
    cut = numpy.linspace(0.0, most_kg, PARTS)
    cut[0] = A_TRIFLE * most_kg
    for _ in range(ROUNDS):
        margins = _margins(solution, checks, name, cut).min(axis=1)
        holds = margins >= 0
        last = [int(numpy.flatnonzero(row)[-1]) if row.any() else -1 for row in holds]
        at = min(last)
        if at < 0 or at == len(cut) - 1:
            return float(cut[at]), None
        first = last.index(at)
        good, bad, (left, right) = float(cut[at]), float(cut[at + 1]), margins[first, at : at + 2]
        if bad - good <= CLOSE_ENOUGH * bad:
            break
        edge = good + (bad - good) * (left / (left - right) if numpy.isfinite(right) else 0.5)
        beside = edge * (1 + 0.4 * CLOSE_ENOUGH * numpy.array([-1.0, 1.0]))
        cut = numpy.unique(numpy.clip(numpy.concatenate([numpy.linspace(good, bad, PARTS), beside]), good, bad))
    return good, checks[first]


def _margins(solution: Solution, checks: list[Check], name: str, masses_kg: numpy.ndarray) -> numpy.ndarray:
    """Margins (checks, loads, masses); what is not a number counts as not holding."""
    loads = numpy.array(loads_of(solution.rig))
    changed = {
        solution.masses[name]: numpy.tile(masses_kg, len(loads))[:, None],
        solution.masses[solution.rig.load_name]: numpy.repeat(loads, len(masses_kg))[:, None],
    }
    values = solution.working.evaluate(changed, [line for c in checks for line in (c.demand, c.capacity)])
    flat = [numpy.broadcast_to(value, (len(loads) * len(masses_kg), value.shape[-1]))[:, 0] for value in values]
    found = [c.margin(flat[2 * i], flat[2 * i + 1]) for i, c in enumerate(checks)]
    found = numpy.array(found).reshape(len(checks), len(loads), len(masses_kg))
    return numpy.where(numpy.isnan(found), -numpy.inf, found)


# -- in words --------------------------------------------------------------------------------------------------------------


def _at_load(rig: Rig, load_kg: float) -> str:
    return f" with a load of {units.show(load_kg, 'kg', DIGITS)}" if rig.load.mass.plus_minus else ""


def _none(rig: Rig, check: Check, load_kg: float) -> str:
    return f"However light it is, this falls short{_at_load(rig, load_kg)}: {check.item}, {check.what}."


def _lifted(solution: Solution, name: str, index: int) -> str:
    return (
        f"Which weight is best cannot be told: {name} is lifted with the load along part of the travel ({solution.travel.stations.words(index)}), so that a "
        "heavier one asks more of the drive there and less elsewhere."
    )


def _rests_on(rig: Rig, checks: Iterable[Check], governs: Check, load_kg: float, short: tuple[Check, ...]) -> str:
    said = [f"A heavier one would make this fall short{_at_load(rig, load_kg)}: {governs.item}, {governs.what}."]
    if any(check.id == STOPPING and check.capacity is None for check in checks):
        said.append("How hard it stops is not stated, so it may be too heavy to be stopped.")
    if any(body.moves.kind == "hinged" for body in rig.bodies.values()):
        said.append("Starting and stopping are not worked out where something turns about a hinge, so it may be too heavy to be stopped.")
    if short:
        said.append(_falls_short_too(short))
    return " ".join(said)


def _falls_short_too(short: tuple[Check, ...]) -> str:
    more = f" and {len(short) - 1} more" if len(short) > 1 else ""
    return f"With it this falls short all the same: {short[0].item}, {short[0].what}{more}."
