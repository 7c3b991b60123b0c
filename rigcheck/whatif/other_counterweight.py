"""The same rig with another counterweight: pulls, least pull and limits over a range of its mass, from the working's own lines.

The pose of every body follows from the lengths of the ropes, so the mass changes no geometry: the lines of the working are asked again for other
masses and give what `assess` gives for the changed rig.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy

from rigcheck import units
from rigcheck.checks import best_counterweight
from rigcheck.checks import counterweight as checks
from rigcheck.checks.assessment import Assessment, assess
from rigcheck.checks.best_counterweight import BestCounterweight
from rigcheck.errors import OutOfRangeError, RigcheckError
from rigcheck.formula import Sign, formula
from rigcheck.rig.model import Rig
from rigcheck.statics.solution import Solution
from rigcheck.whatif.changing import Edit, as_typed, with_edits
from rigcheck.working import Line, Working

RAISING, LOWERING, STOPS = "raising", "lowering", "starting down or stopping on the way up"
CHOSEN = "chosen, to be weighed"
LEFT = Sign("T_left", "pull left at the drive", "N")
PULL = Sign("T", "pull at the drive, lowering", "N")
MASS = Sign("m_v", "mass moved, as felt at the drive", "kg", above=0)
STOPPING = Sign("a_stop", "how hard it starts to lower, or stops while raising", "m/s²", low=0)


@formula
def pull_left_stopping(pull: PULL, mass: MASS, acceleration: STOPPING) -> LEFT:
    """Pull left at the drive while the load is started downwards, or stopped on its way up; below zero the rope goes slack.

    Source: second law of motion; zero at the acceleration that the check of starting and stopping gives as its limit.

    >>> pull_left_stopping(pull=400.0, mass=200.0, acceleration=0.5)
    300.0
    """
    return pull - mass * acceleration


@dataclass(frozen=True)
class Curve:
    """Over masses of the counterweight: the greatest pull at the drive, raising and lowering, the least of both ways, in N.

    `is_slack` says where a rope would have to push; there the greatest pulls are NaN, as they are then not known.
    """

    masses_kg: numpy.ndarray
    raising_n: numpy.ndarray
    lowering_n: numpy.ndarray
    least_n: numpy.ndarray
    is_slack: numpy.ndarray


@dataclass(frozen=True)
class Limits:
    """Masses of the counterweight, each None where there is none or it cannot be told.

    `best` is what the checks give as the best weight. With the load entered, above `steady_kg` less than the stated pull is left, above `stopping_kg` the rope goes slack when the load is stopped as hard as is stated, above
    `slack_kg` while it moves steadily, above `runs_away_kg` the load runs up by itself once the drive lets go. `lightest_load_kg` is the load below
    which the rope goes slack with the present counterweight.
    """

    best: BestCounterweight | None
    steady_kg: float | None
    stopping_kg: float | None
    slack_kg: float | None
    runs_away_kg: float | None
    lightest_load_kg: float | None
    margin_n: float | None

    @property
    def best_kg(self) -> float | None:
        return None if self.best is None else self.best.mass_kg


@dataclass(frozen=True)
class TriedCounterweight:
    """What the checks say with another counterweight; the rest is None where the changed rig has a fault."""

    text: str
    mass_kg: float
    assessment: Assessment | None
    fault: str = ""


def counterweights(rig: Rig) -> list[str]:
    return [name for name, body in rig.bodies.items() if body.role == "counterweight"]


def least_pull(assessment: Assessment) -> Line:
    """The line of the least pull left at the drive, along the travel and both ways, that the check of the hoist rope judges."""
    return next(check.capacity for check in assessment.checks if check.id == "taut.hoist")


def curve(assessment: Assessment, name: str, masses_kg: numpy.ndarray) -> Curve:
    """The pulls for every mass of the counterweight."""
    solution, working = assessment.solution, assessment.solution.working
    masses_kg = numpy.asarray(masses_kg, dtype=float)
    pulls = solution.drive_pull
    first_runs = [line for runs in solution.runs.values() for line in (runs[0].raising, runs[0].lowering)]
    weights = list(solution.weights.values())
    wanted = [pulls["raising"], pulls["lowering"], least_pull(assessment), *first_runs, *weights]
    found = working.evaluate({solution.masses[name]: masses_kg[:, None]}, wanted)
    shape = (len(masses_kg), len(solution.travel.heights_m))
    raising, lowering, least = (numpy.broadcast_to(value, (len(masses_kg), value.shape[-1])) for value in found[:3])
    many = len(first_runs)
    largest = numpy.max([numpy.broadcast_to(numpy.abs(w), (len(masses_kg), 1)) for w in found[3 + many :]], axis=0)
    slack = numpy.zeros(shape, dtype=bool)
    for value in found[3 : 3 + many]:
        slack |= numpy.broadcast_to(value < -1e-9 * largest, shape)
    is_slack = slack.any(axis=1)
    greatest = (numpy.where(is_slack, numpy.nan, value.max(axis=1)) for value in (raising, lowering))
    return Curve(masses_kg, *greatest, least[:, 0], is_slack)


def limits(assessment: Assessment, name: str) -> Limits:
    """The masses at which something changes, and the lightest load that keeps the rope taut."""
    solution = assessment.solution
    working = Working(solution.working.heights_m)  # one of its own: the assessment's gets no lines but those of the checks
    working.lines.extend(solution.working.lines)
    mass, load = solution.masses[name], solution.masses[assessment.rig.load_name]
    least = least_pull(assessment)
    margin, stopping = assessment.rig.limits.taut_margin, assessment.rig.limits.stopping
    check = next((check for check in assessment.checks if check.id == "counterweight.stopping" and check.capacity is not None), None)

    # what sinks with the rising load leaves more the lighter it is, what rises the heavier; what does both has no such limit
    sinks, load_rises = (checks.rises(solution, name) <= 0).all(), (checks.rises(solution, assessment.rig.load_name) >= 0).all()

    def gives(of: Line, target: float, by: Line) -> float | None:
        if not (load_rises if by is load else sinks):
            return None
        try:
            return working.what_gives(of, target, by, 0.0, 4 * (mass.number + load.number))
        except OutOfRangeError:
            return None

    return Limits(
        best=best_counterweight.find(solution, assessment.checks, name),
        steady_kg=gives(least, margin.value, mass) if margin is not None else None,
        stopping_kg=gives(check.capacity, stopping.value, mass) if check is not None and stopping is not None else None,
        slack_kg=gives(least, 0.0, mass), runs_away_kg=_runs_away(solution, name, 4 * (mass.number + load.number)), lightest_load_kg=gives(least, 0.0, load),
        margin_n=margin.value if margin is not None else None,
    )  # fmt: skip


def _runs_away(solution: Solution, name: str, most_kg: float) -> float | None:
    """The counterweight above which it draws the load up by itself somewhere along the travel, no friction holding it; None below `most_kg`.

    Without friction the pull at the drive is straight in the mass, so two masses give it at every height.
    """
    mass, free = solution.masses[name], {line: numpy.array([1.0]) for line in solution.efficiencies.values()}
    free |= {taken.row.given.friction: numpy.array([0.0]) for taken in solution.guides["raising"]}
    masses = numpy.array([[mass.number], [2.0 * mass.number]])
    (pull,) = solution.working.evaluate({mass: masses, **free}, [solution.drive_pull["raising"]])
    pull = numpy.broadcast_to(pull, (2, pull.shape[-1]))
    with numpy.errstate(divide="ignore", invalid="ignore"):
        balanced = mass.number * (1 + pull[0] / (pull[0] - pull[1]))
    found = balanced[numpy.isfinite(balanced) & (pull[0] > pull[1])]
    return float(found.min()) if len(found) and 0 < found.min() <= most_kg else None


def heaviest_by_height(assessment: Assessment, name: str) -> numpy.ndarray | None:
    """For every height the counterweight that leaves just the stated pull there, both ways; None without a stated pull, or where it is not straight in the mass."""
    solution, margin = assessment.solution, assessment.rig.limits.taut_margin
    pulls = [solution.drive_pull[case] for case in ("raising", "lowering least")]
    mass = solution.masses[name]
    if margin is None or (checks.rises(solution, name) > 0).any():
        return None
    if not any(line.runs_along for line in pulls):
        steady = limits(assessment, name).steady_kg
        return None if steady is None else numpy.full(solution.travel.heights_m.shape, steady)
    if not all(solution.working.is_linear(line, mass) for line in pulls):
        return None
    with numpy.errstate(divide="ignore", invalid="ignore"):
        found = [mass.number + (margin.value - line.value) / solution.working.derivative(line, mass) for line in pulls]
    heaviest = numpy.broadcast_to(numpy.minimum(*found), solution.travel.heights_m.shape)
    return heaviest if numpy.all(numpy.isfinite(heaviest)) else None


def left_along(assessment: Assessment) -> dict[str, numpy.ndarray]:
    """The pull left in the hoist rope at every height, in N: raising, lowering, and stopping as hard as is stated, where that is known."""
    pulls, working = assessment.solution.drive_pull, assessment.solution.working
    found = {RAISING: pulls["raising"].value, LOWERING: pulls["lowering least"].value}
    limit = next((line for line in working.lines if line.formula is checks.slack_acceleration), None)
    stopping = assessment.rig.limits.stopping
    if limit is not None and stopping is not None and numpy.all(numpy.isfinite(limit.value)):
        found[STOPS] = pull_left_stopping(
            pull=limit.inputs["pull"].value, mass=limit.inputs["mass"].value, acceleration=numpy.array([stopping.value])
        )
    return {words: numpy.broadcast_to(value, assessment.solution.travel.heights_m.shape) for words, value in found.items()}


def slack_limit(assessment: Assessment) -> float | None:
    """How hard the load may be started downwards or stopped on its way up before the hoist rope goes slack, in m/s², at the worst height."""
    limit = next((line for line in assessment.solution.working.lines if line.sign.meaning == checks.LIMIT.meaning), None)
    return float(limit.value.min()) if limit is not None and numpy.all(numpy.isfinite(limit.value)) else None


def places_along(assessment: Assessment, name: str) -> numpy.ndarray:
    """How high the counterweight's reference point stands at every height of the load, in m."""
    return assessment.solution.travel.poses.reference(name)[:, 1]


def edits(rig: Rig, name: str, mass_kg: float, digits: int = 4, towards: str = "nearest") -> tuple[Edit, ...]:
    """What another mass changes in the rig file, written in the unit that the present one was typed in."""
    return edits_to(name, as_typed(rig.bodies[name].mass, mass_kg, digits, towards))


def edits_to(name: str, text: str) -> tuple[Edit, ...]:
    """What a mass, as text, changes in the rig file."""
    path = ("bodies", name)
    return ((*path, "mass"), text), ((*path, "notes", "mass"), CHOSEN)


def try_counterweight(rig: Rig, changed: tuple[Edit, ...]) -> TriedCounterweight:
    """Assess the rig with the edits of another counterweight; a rig that cannot be worked out gives its fault."""
    (_, text), _ = changed
    mass_kg = units.read(text, "mass").value
    try:
        return TriedCounterweight(text, mass_kg, assess(with_edits(rig, changed)))
    except RigcheckError as fault:
        return TriedCounterweight(text, mass_kg, None, " ".join(str(fault).split()))
