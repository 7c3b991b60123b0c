"""Whether every rope stays taut, and the counterweight: what is left over to pull, how hard it may start or stop.

Friction is counted high here: while lowering it takes from the pull that keeps the hoist rope taut.
"""

from __future__ import annotations

import numpy

from rigcheck import units
from rigcheck.checks.check import FALLS_SHORT, Check, Judge, Wants, called
from rigcheck.formula import Sign, formula
from rigcheck.rig.model import Rig
from rigcheck.statics.solution import Solution
from rigcheck.working import Line

LEAST_PULL = Sign("T_least", "least pull along the travel, raising and lowering", "N")
MARGIN = Sign("T_margin", "pull that is to be left over", "N", low=0)
DRIVE_PULL = Sign("T", "pull at the drive, lowering", "N")
MOVED_MASS = Sign("m_v", "mass moved, as felt at the drive with the friction of lowering", "kg", above=0)
LIMIT = Sign("a", "acceleration at which the hoist rope goes slack", "m/s²")
ASKED = Sign("a_stop", "how hard it starts to lower, or stops while raising", "m/s²")
SPEED = Sign("v", "speed squared over rise", "")
SLACK_SOURCE = "a rope cannot push: balance of forces"
WHERE = "limits, taut_margin"
LESS = "less counterweight"
A_HAIR = 1e-9
STEPS, SMALL_STEP, NOTHING = 6, 1e-4, 1e-7


@formula
def slack_acceleration(pull: DRIVE_PULL, mass: MOVED_MASS) -> LIMIT:
    """How hard the load may be started downwards, or stopped on its way up, before the hoist rope goes slack.

    Signs: positive downwards. A load m and a counterweight M on a rope over one sheave give g (m - M/η) / (m + M/η): the counterweight's inertia
    comes through the sheave as its weight does.

    Source: second law of motion for load and counterweight together; OpenStax University Physics, m58303 (two masses over a pulley).

    >>> round(slack_acceleration(pull=2.0 * 9.80665, mass=6.0), 2)
    3.27
    """
    return pull / mass


def check(judge: Judge) -> None:
    """Check that the ropes stay taut and, with a counterweight, how near to balance the rig is."""
    rig, solution = judge.rig, judge.solution
    stated = rig.limits.taut_margin
    if stated is not None:
        margin = judge.given(MARGIN, stated.value, WHERE, rig.limits.notes.get("taut_margin", ""))
    else:
        margin = judge.given(MARGIN, 0.0, "a rope cannot push; no margin is stated")
    pulled = pulled_ropes(rig)
    for name, runs in solution.runs.items():
        if pulled == [name] or (name in pulled and name in solution.shared):
            continue
        if name in solution.shared:
            judge.leave_out(f"Whether {name} stays taut: it shares its load with other ropes, so if it is a little long it hangs loose and they carry everything, "
                            "which is how they are judged.")  # fmt: skip
            continue
        nothing = judge.working.given(MARGIN.of(name, f"pull that {name} may fall to"), 0.0, "a rope cannot push")
        least = judge.working.extreme(
            LEAST_PULL.of(name, f"least pull in {name}"), [p for run in runs for p in (run.raising, run.lowering)], most=False
        )
        judge.compare(f"taut.{name}", called("rope", name), "stays taut", ("rope", name), nothing, least, source=SLACK_SOURCE, needs_taut=False,
                      remedy="More weight on this rope.", mends=_weights(judge))  # fmt: skip
    pulls = [solution.drive_pull["raising"], solution.drive_pull["lowering least"]]
    least = judge.working.extreme(LEAST_PULL.of("hoist", "least pull left at the drive"), pulls, most=False)
    counterweights = any(body.role == "counterweight" for body in rig.bodies.values())
    if counterweights and stated is None:
        judge.leave_out("The best counterweight: how much pull is to be left in the hoist rope is not stated (limits, taut margin).")
    sticking = next((c.remedy for c in judge.checks if c.id.startswith("guide.") and c.verdict == FALLS_SHORT), None)
    remedy = sticking or more_left(judge, judge.working.where(least)[1], "a swing that stops sooner")
    judge.compare("taut.hoist", pulled_in_words(rig), "pull left over along the travel, both ways", ("rope", solution.drive_rope), margin, least,
                  source=SLACK_SOURCE, needs_taut=False, remedy=remedy, reason=_together(judge, pulled), mends=_weights(judge))  # fmt: skip
    if any(body.moves.kind == "hinged" for body in rig.bodies.values()):
        judge.leave_out(
            "Starting and stopping, and what a swing does to the pulls: that needs the moments of inertia about the hinge, which are not asked for."
        )
    elif counterweights:
        _check_stopping(judge)


def rises(solution: Solution, body: str) -> numpy.ndarray:
    """At every height 1 where a body rises with the load, -1 where it sinks, 0 where it keeps its height."""
    rise = solution.travel.rise(body)
    return numpy.where(numpy.abs(rise) <= A_HAIR * max(1.0, float(numpy.max(numpy.abs(rise)))), 0.0, numpy.sign(rise))


def more_left(judge: Judge, index: int, shorter: str = "") -> str:
    """What leaves more for the drive to pull at a height, as a sentence; less counterweight comes last, so that the best weight can stand there."""
    rig, solution = judge.rig, judge.solution
    hung = [name for name, body in rig.bodies.items() if body.role == "counterweight"]
    ways = ["more load"] if rises(solution, rig.load_name)[index] > 0 else []
    if rig.swings:
        ways += [shorter] if shorter and index > 0 else []
        ways.append("a second rope that holds it back")
    ways += [LESS] if any(rises(solution, name)[index] < 0 for name in hung) else []
    told = " or ".join([", ".join(ways[:-1]), ways[-1]] if len(ways) > 1 else ways)
    return f"{told[:1].upper()}{told[1:]}." if told else ""


def pulled_ropes(rig: Rig) -> list[str]:
    """The ropes that the drive takes in: wound on its drum or pulled by hand."""
    return [
        name
        for name, rope in rig.ropes.items()
        if any(hasattr(stop, "wound_on") or hasattr(stop, "pulled_by_hand_at") for stop in rope.path)
    ]


def pulled_in_words(rig: Rig) -> str:
    """The hoist rope by its own name; where the drive takes in several, all of them, since what is left over is their pull together."""
    names = [called("rope", name) for name in pulled_ropes(rig)]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]} together"


def _together(judge: Judge, pulled: list[str]) -> str:
    """Why the pull left over is not the least pull of one rope, where the drive takes in several."""
    if len(pulled) == 1:
        return ""
    told = "Their pull at the drive together, while the load moves."
    if not set(pulled) & set(judge.solution.shared):
        return f"{told} Each has a check of its own that it stays taut."
    return (
        f"{told} They share the load, so each by itself may hang loose where it is a little long, the others carrying everything: that is why the least pull "
        f"of each standing still is {units.show(0.0, 'N')} beside it."
    )


def _weights(judge: Judge) -> Wants:
    """Where the masses of the counterweights are stated, and that of the load."""
    bodies = judge.rig.bodies
    return tuple(("bodies", name, "mass") for role in ("counterweight", "load") for name in bodies if bodies[name].role == role)


def _moved_mass(judge: Judge) -> Line:
    """The pull that one metre per second squared takes off the drive, which is a mass.

    Every body's inertia acts where its weight does, so it is the pull lowering with m v² / v_y in the place of each weight; v is the
    body's speed and v_y its rise for a load rising at one metre a second. Without friction that is Σ m v² over the rope taken in.
    """
    solution, working = judge.solution, judge.working
    inputs, bearings = _inertia(judge)

    def compute(**values: numpy.ndarray) -> numpy.ndarray:
        changed = {line: values[f"m{i}"] * values[f"v{i}"] for i, line in enumerate(solution.weights[name] for name in solution.masses)}
        return working.evaluate(changed | {line: values[f"e{i}"] for i, line in enumerate(bearings)}, [solution.drive_pull["lowering"]])[0]

    how = "the balance of lowering with every body's inertia in the place of its weight"
    return working.solve_in_numbers(MOVED_MASS, compute, how, "second law of motion", **inputs)


def _inertia(judge: Judge) -> tuple[dict[str, Line], list[Line]]:
    """Masses, speeds squared over rise and bearings as inputs of a line; and the bearings."""
    solution, travel = judge.solution, judge.solution.travel
    inputs: dict[str, Line] = {}
    for i, name in enumerate(solution.masses):
        moved = travel.poses.moved_by(name, travel.poses.centre_of_gravity(name))
        speed = numpy.einsum("hjx,hj->hx", moved, travel.motion.q)
        square = numpy.sum(speed**2, axis=1)
        felt = numpy.divide(square, speed[:, 1], out=numpy.where(square > 0, numpy.nan, 0.0), where=speed[:, 1] != 0)
        line = judge.working.geometry(SPEED.of(name, f"speed squared over rise of {name}"), felt, "motion of the rig")
        inputs |= {f"m{i}": solution.masses[name], f"v{i}": line}
    bearings = list(dict.fromkeys(solution.efficiencies.values()))
    return inputs | {f"e{i}": line for i, line in enumerate(bearings)}, bearings


def _slack_against_guides(judge: Judge) -> Line:
    """The acceleration at which the pull comes to nothing where guides rub, which are pressed otherwise with every acceleration.

    Every weight stands less its mass times v²/v_y times the acceleration; the pull is straight from bend to bend, so a few straight steps find where it is nothing.
    """
    solution, working = judge.solution, judge.working
    inputs, bearings = _inertia(judge)
    pull, gravity = solution.drive_pull["lowering least"], solution.gravity.number

    def compute(**values: numpy.ndarray) -> numpy.ndarray:
        rubbing = {line: values[f"e{i}"] for i, line in enumerate(bearings)}

        def left(at: numpy.ndarray) -> numpy.ndarray:
            changed = {solution.weights[name]: values[f"m{i}"] * (gravity - at * values[f"v{i}"]) for i, name in enumerate(solution.masses)}
            return working.evaluate(changed | rubbing, [pull])[0]

        found = numpy.zeros(numpy.broadcast_shapes(*(value.shape for value in values.values()), working.heights_m.shape))
        for _ in range(STEPS):
            here = left(found)
            slope = (left(found + SMALL_STEP) - here) / SMALL_STEP
            found = found - here / slope
        whole = sum(values[f"m{i}"] for i in range(len(solution.masses))) * gravity
        return numpy.where(numpy.abs(left(found)) <= NOTHING * whole, found, numpy.nan)

    how = "where the pull of lowering comes to nothing, every body's inertia against its weight"
    return working.solve_in_numbers(LIMIT, compute, how, slack_acceleration.source, **inputs)


def _check_stopping(judge: Judge) -> Check:
    rig, solution = judge.rig, judge.solution
    if solution.guides["lowering"]:
        along = _slack_against_guides(judge)
    else:
        along = judge.working.apply(slack_acceleration, pull=solution.drive_pull["lowering least"], mass=_moved_mass(judge))
    limit = judge.working.extreme(LIMIT.of("least", "least acceleration at which the hoist rope goes slack"), [along], most=False)
    id, what, part = "counterweight.stopping", "slack when starting down or stopping on the way up", ("rope", solution.drive_rope)
    if rig.limits.stopping is None:
        beyond = (
            f"The rope goes slack beyond {units.show(limit.number, 'm/s²', 3, 'down')}."
            if limit.number > 0
            else "The rope is slack as it is."
        )
        return judge.cannot_tell(id, pulled_in_words(rig), what, part, "How hard it stops is not stated. Time how long the load runs on after the switch is let go: speed "
                                 f"over that time. {beyond}", on_load=True, wants=(("limits", "stopping"),),
                                 source=slack_acceleration.source)  # fmt: skip
    asked = judge.given(ASKED, rig.limits.stopping.value, "limits, stopping", rig.limits.notes.get("stopping", ""))
    return judge.compare(id, pulled_in_words(rig), what, part, asked, limit, source=slack_acceleration.source, needs_taut=False,
                         remedy="Start and stop more gently, or hang less counterweight.", mends=(("limits", "stopping"), *_weights(judge)))  # fmt: skip
