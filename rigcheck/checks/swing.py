"""A load that turns about a hinge: whether the weights hold it back along its whole swing, or would run on by themselves (over-centre).

Counted without friction: what little there is in sheaves must not be relied on to hold a lid back.
"""

from __future__ import annotations

import numpy

from rigcheck import whereabouts
from rigcheck.checks import counterweight
from rigcheck.checks.check import Judge, Wants
from rigcheck.formula import Sign
from rigcheck.statics import closed_form
from rigcheck.working import FORMULA, Line

RISE = Sign("a", "rise over the angle of the swing", "m")
MOMENT = Sign("M_W", "moment of all weights against the swing", "N·m")
LEAST = Sign("M_W least", "least moment of all weights against the swing", "N·m")
NONE_LEFT = Sign("M_none", "moment that may be left at least", "N·m")
SOURCE = "virtual work: every weight by its rise over the angle of the swing; a rope pulls and cannot hold back"
COUNTS_AS_NONE = 1e-9  # of the greatest moment: a lid that ends just over its hinge has none left


def check(judge: Judge) -> None:
    """Judge the swing; name what is not worked out about hinges."""
    hinged = [name for name, body in judge.rig.bodies.items() if body.moves.kind == "hinged"]
    for name in hinged:
        judge.leave_out(f"The hinge of {name}: what it is fixed with, how several hinges on one axis share its force, and its friction.")
    if judge.rig.swings:
        _check_over_centre(judge)


def _check_over_centre(judge: Judge) -> None:
    working, load = judge.working, judge.rig.load_name
    along = _moment(judge)
    how = "the least along the swing; a billionth of the greatest counts as none"
    least = working.solve_in_numbers(LEAST, _least, how, SOURCE, along=along)
    none = judge.given(NONE_LEFT, 0.0, "a rope cannot push")
    over = _over_centre(judge, along.value)
    if over is None:
        index = int(numpy.argmin(numpy.broadcast_to(along.value, judge.solution.travel.heights_m.shape)))
        reason = f"The moment of the weights is least when {judge.solution.travel.stations.words(index)}. Friction is not counted on."
        remedy = ""
    elif over <= 0:
        reason = "From the drawn pose on the weights turn it by themselves."
        remedy = counterweight.more_left(judge, 0)
    else:
        reason = f"Once it has {whereabouts.swung(over)} the weights turn it on by themselves, and the rope goes slack."
        soonest = _soonest(judge, along)
        stop = f"a swing that stops short of {whereabouts.up_to(soonest)}" if soonest > 0 else ""
        at = int(numpy.searchsorted(judge.solution.travel.angles_rad, over))
        remedy = f"{counterweight.more_left(judge, at, stop)}{judge.with_tolerance if stop else ''}"
    judge.compare("swing.over-centre", load, "comes back by itself, does not run on", ("body", load), none, least, source=SOURCE, reason=reason,
                  remedy=remedy, needs_taut=False, mends=_mends(judge))  # fmt: skip


def _least(along: numpy.ndarray) -> numpy.ndarray:
    greatest = numpy.max(numpy.abs(along), axis=-1, keepdims=True)
    return numpy.min(along, axis=-1, keepdims=True) - COUNTS_AS_NONE * greatest


def _moment(judge: Judge) -> Line:
    """Σ W a: the moment of all weights, bodies that do not rise left out."""
    solution, travel, working = judge.solution, judge.solution.travel, judge.working
    lines, terms = {}, []
    for name, weight in solution.weights.items():
        rise = travel.rise(name)
        if numpy.max(numpy.abs(rise)) < 1e-12:
            continue
        arm = working.geometry(RISE.of(name, f"rise of {name} over the angle of the swing"), rise, "centre of gravity")
        lines |= {weight.sign.symbol: weight, arm.sign.symbol: arm}
        terms.append(closed_form.times(weight.sign.symbol, arm.sign.symbol))
    return closed_form.derived(working, MOMENT, closed_form.add(terms), lines, "all weights together", FORMULA)


def _soonest(judge: Judge, along: Line) -> float:
    """The least angle at which the moment comes to nothing, of all loads within the tolerance."""
    mass = judge.rig.load.mass
    ends = numpy.array([[mass.value - (mass.plus_minus or 0.0)], [mass.value], [mass.value + (mass.plus_minus or 0.0)]])
    (found,) = judge.working.evaluate({judge.load_mass: ends}, [along])
    return min(angle for angle in (_over_centre(judge, each) for each in found) if angle is not None)


def _over_centre(judge: Judge, along: numpy.ndarray) -> float | None:
    """The angle at which the moment first comes to nothing, between two stations on a straight line; None where it never does."""
    angles = judge.solution.travel.angles_rad
    along = numpy.broadcast_to(along, angles.shape)
    along = along - COUNTS_AS_NONE * numpy.max(numpy.abs(along))
    gone = numpy.flatnonzero(along < 0)
    if not len(gone):
        return None
    k = int(gone[0])
    if k == 0:
        return 0.0
    return float(angles[k - 1] + (angles[k] - angles[k - 1]) * along[k - 1] / (along[k - 1] - along[k]))


def _mends(judge: Judge) -> Wants:
    weights = [("bodies", name, "mass") for name, body in judge.rig.bodies.items() if body.role == "counterweight"]
    return (("limits", "swing"), *weights)
