"""What the rig does to the building: the force on each fixed point, guide and hinge, and the force and moment on the base of the winch.

Signs: a force is what the ropes do to the point, across positive to the right, up positive upwards; a moment is positive
anticlockwise seen from the front. At an end a rope pulls its point along the run; on a sheave it leaves -T_in u_in + T_out u_out.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from itertools import product

import numpy

from rigcheck.formula import Sign
from rigcheck.rig.fields import coordinates
from rigcheck.rig.model import Rig
from rigcheck.statics.solution import Solution
from rigcheck.statics.travel import Travel
from rigcheck.statics.vectors import cross
from rigcheck.working import Line

CASES = {"raising": ("raising",), "lowering": ("lowering",), "at rest": ("holding_most", "holding_least")}
MOST_MIXED = 8  # runs at one place of which every mixture of least and greatest is tried
ROUNDING = 1e-9  # of all pulls and weights that meet: what is left of them there is no force
HOW = "resultant of the rope pulls that meet here"
HOW_GUIDE = "pulls and weight, less their part along the guide"
HOW_HINGE = "pulls and weights on what turns about it"
UP = numpy.array([0.0, 1.0, 0.0])
PRESSED = 1e-3  # a guide pressed with less than a thousandth of the weight is not worth a line


@dataclass(frozen=True)
class Reaction:
    """The greatest force on one point and, for the winch, the greatest moment on its base.

    `across_n`, `up_n`, `depth_n` are the components where the force is greatest.
    """

    name: str
    force: Line
    case: str
    height_m: float
    across_n: float
    up_n: float
    depth_n: float
    moment: Line | None = None
    angle_rad: float | None = None


@dataclass(frozen=True)
class Touch:
    """One run acting on a point: its rope, its index, the direction of its pull and where it acts, along the travel."""

    rope: str
    run: int
    along: numpy.ndarray
    at: numpy.ndarray


Touches = dict[str, list[Touch]]
"""What pulls at one place, by the case: what hangs free hangs a little differently in each."""


def touches_of(rig: Rig, travel: Travel) -> dict[str, list[Touch]]:
    """What pulls at each point, at the winch and at each body with all that is fixed on it."""
    found: dict[str, list[Touch]] = {name: [] for name in [*rig.points, *rig.bodies]}
    found["winch"] = []
    for rope, path in travel.paths.items():
        last = len(path.directions) - 1
        for k, stop in enumerate(rig.ropes[rope].path):
            if hasattr(stop, "over"):
                on, touching = rig.sheaves[stop.over].on, [(k - 1, -1.0), (k, 1.0)]
            elif hasattr(stop, "wound_on") or hasattr(stop, "made_fast_to"):
                on = "winch" if hasattr(stop, "wound_on") else stop.made_fast_to
                touching = [(0, 1.0)] if k == 0 else [(last, -1.0)]
            else:
                continue
            on = rig.carrier(on) if on in rig.bodies else on
            if on in found:
                for run, sense in touching:
                    found[on].append(Touch(rope, run, sense * path.directions[run], path.ends[run] if sense < 0 else path.starts[run]))
    return {name: touches for name, touches in found.items() if touches}


def reactions(solution: Solution) -> list[Reaction]:
    """The force on every fixed point that a rope reaches, on the winch, on every hinge, and on every guide that is pressed."""
    by_case = {word: touches_of(solution.rig, readings.travel) for word, readings in solution.ways.items()}
    touches = {name: {word: by_case[word][name] for word in by_case} for name in by_case["at rest"]}
    # what the feet of struts bear is told with the struts; of a joint that they hold, what the ropes do to it
    feet = {end for strut in solution.rig.struts.values() for end in strut.ends if solution.rig.points[end].held != "struts"}
    fixed = [
        _reaction(solution, name, touching) for name, touching in touches.items() if name not in solution.rig.bodies and name not in feet
    ]
    guides = [
        _guide(solution, name, touching)
        for name, touching in touches.items()
        if name in solution.rig.bodies and solution.rig.bodies[name].moves.kind == "guided"
    ]
    hinges = [
        _hinge(solution, name, touching)
        for name, touching in touches.items()
        if name in solution.rig.bodies and solution.rig.bodies[name].moves.kind == "hinged"
    ]
    pressed = [guide for guide in guides if guide.force.number > PRESSED * solution.weights[guide.name.removeprefix("guide of ")].number]
    return fixed + hinges + pressed


def _guide(solution: Solution, body: str, touches: Touches) -> Reaction:
    """What presses a body against its guide: the pulls and the weight, less their part along the guide."""
    direction = next(numpy.array(f.direction) for f in solution.travel.free if f.body == body and not f.tilts)
    own = _weights(solution, body)
    across = {
        word: [replace(t, along=t.along - (t.along @ direction)[:, None] * direction) for t in touching]
        for word, touching in touches.items()
    }
    down = -UP + (UP @ direction) * direction

    def pressing(word: str, values: list[numpy.ndarray]) -> list[numpy.ndarray]:
        pulls, weight = values[: -len(own)], sum(values[-len(own) :])
        return [force + weight[..., None] * down for force in _resultants(solution, across[word], pulls)]

    def compute(word: str, **values) -> numpy.ndarray:
        if carry_at_once(solution):
            *pulls, weight = [*list(values.values())[: -len(own)], sum(list(values.values())[-len(own) :])]
            return _magnitude(solution, across[word])(**{f"t{i}": p for i, p in enumerate(pulls)}) + weight * numpy.linalg.norm(down)
        found = numpy.max([numpy.linalg.norm(f, axis=-1) for f in pressing(word, list(values.values()))], axis=0)
        return numpy.where(found < ROUNDING * sum(numpy.abs(value) for value in values.values()), 0.0, found)

    name, forces = f"guide of {body}", {}
    for word in ("raising", "lowering"):
        inputs = {f"t{i}": getattr(solution.runs[t.rope][t.run], word) for i, t in enumerate(touches[word])} | own
        sign = Sign(f"R_{name}, {word}", f"force on the {name}, {word}", "N")
        forces[word] = solution.working.solve_in_numbers(sign, partial(compute, word), HOW_GUIDE, "sum of forces", **inputs)
    return _greatest(solution, name, forces, pressing)


def _weights(solution: Solution, body: str) -> dict[str, Line]:
    """The weights of a body and of all that is fixed on it, as inputs of a line."""
    return {f"w{i}": solution.weights[name] for i, name in enumerate(solution.rig.moving_as_one(body))}


def _hinge(solution: Solution, body: str, touches: Touches) -> Reaction:
    """The force on a hinge: all pulls and weights on what turns about it, since the hinge holds in every direction.

    At rest every rope may pull with its least or its greatest: the worst mixture of them counts, which says rather too much.
    """
    name, forces, own = f"hinge of {body}", {}, _weights(solution, body)
    ropes = list(dict.fromkeys(t.rope for t in touches["at rest"]))

    def pressing(word: str, values: list[numpy.ndarray]) -> list[numpy.ndarray]:
        pulls, weight, touching = values[: -len(own)], sum(values[-len(own) :]), touches[word]
        cases = len(pulls) // len(touching)  # one way to pull while moving; the least and the greatest of each run at rest
        found = []
        for chosen in product(range(cases), repeat=len(ropes)):
            case = dict(zip(ropes, chosen, strict=True))
            mixed = [pulls[case[t.rope] * len(touching) + i] for i, t in enumerate(touching)]
            found += [force - weight[..., None] * UP for force in _resultants(solution, touching, mixed)]
        return found

    def compute(word: str, **values: numpy.ndarray) -> numpy.ndarray:
        return numpy.max([numpy.linalg.norm(force, axis=-1) for force in pressing(word, list(values.values()))], axis=0)

    for word, fields in {"raising": ("raising",), "lowering": ("lowering",), "at rest": ("holding_least", "holding_most")}.items():
        inputs = {
            f"{field} {i}": getattr(solution.runs[t.rope][t.run], field) for field in fields for i, t in enumerate(touches[word])
        } | own
        sign = Sign(f"R_{name}, {word}", f"force on the {name}, {word}", "N")
        forces[word] = solution.working.solve_in_numbers(sign, partial(compute, word), HOW_HINGE, "sum of forces", **inputs)
    return _greatest(solution, name, forces, pressing)


def _resultants(solution: Solution, touches: list[Touch], pulls: list[numpy.ndarray]) -> list[numpy.ndarray]:
    """The resultant for every way in which ropes that share one load may carry it: each of them alone, (heights, 3) each.

    Where they share more than one balance, several carry at once, and all are counted at their worst share.
    """
    shared = [rope for rope in solution.shared if any(t.rope == rope for t in touches)]
    if carry_at_once(solution):
        return [sum(p[..., None] * t.along for t, p in zip(touches, pulls, strict=True))]
    found = []
    for alone in shared or [None]:
        acting = [(t, p) for t, p in zip(touches, pulls, strict=True) if t.rope not in solution.shared or t.rope == alone]
        found.append(sum(p[..., None] * t.along for t, p in acting))
    return found


def _magnitude(solution: Solution, touches: list[Touch]):
    def compute(**values) -> numpy.ndarray:
        found = _resultants(solution, touches, list(values.values()))
        if carry_at_once(solution):
            # ropes that pull apart must not take from each other when they do not reach their worst shares together
            by_rope = {t.rope if t.rope in solution.shared else "": 0.0 for t in touches}
            for t, p in zip(touches, values.values(), strict=True):
                by_rope[t.rope if t.rope in solution.shared else ""] += p[..., None] * t.along
            return sum(numpy.linalg.norm(f, axis=-1) for f in by_rope.values())
        return numpy.max([numpy.linalg.norm(f, axis=-1) for f in found], axis=0)

    return compute


def carry_at_once(solution: Solution) -> bool:
    return bool(solution.shared) and len(solution.order[-1].equations) > 1


def _moment(solution: Solution, touches: list[Touch], base: numpy.ndarray):
    def compute(**values) -> numpy.ndarray:
        arms = [cross(t.at - base, t.along)[..., 2] for t in touches]
        if carry_at_once(solution):
            return sum(numpy.abs(p * a) for a, p in zip(arms, values.values(), strict=True))
        shared = [rope for rope in solution.shared if any(t.rope == rope for t in touches)]
        found = []
        for alone in shared or [None]:
            acting = [
                (a, p) for a, t, p in zip(arms, touches, values.values(), strict=True) if t.rope not in solution.shared or t.rope == alone
            ]
            found.append(numpy.abs(sum(p * a for a, p in acting)))
        return numpy.max(found, axis=0)

    return compute


def _reaction(solution: Solution, name: str, touches: Touches) -> Reaction:
    """The force on a fixed place. At rest every run may pull with its least or its greatest: the worst mixture counts, which says rather too much."""
    working = solution.working
    forces: dict[str, Line] = {}

    def vectors(word: str, values: list[numpy.ndarray]) -> list[numpy.ndarray]:
        return [force for pulls in _mixtures(touches[word], values) for force in _resultants(solution, touches[word], pulls)]

    def compute(word: str, **values: numpy.ndarray) -> numpy.ndarray:
        magnitude = _magnitude(solution, touches[word])
        return numpy.max(
            [magnitude(**{f"t{i}": p for i, p in enumerate(pulls)}) for pulls in _mixtures(touches[word], list(values.values()))], axis=0
        )

    for word, fields in CASES.items():
        inputs = {f"{field} {i}": getattr(solution.runs[t.rope][t.run], field) for field in fields for i, t in enumerate(touches[word])}
        sign = Sign(f"R_{name}, {word}", f"force on {name}, {word}", "N")
        forces[word] = working.solve_in_numbers(sign, partial(compute, word), HOW, "sum of forces", **inputs)
    moment = _base_moment(solution, touches) if name == "winch" else None
    return _greatest(solution, name, forces, vectors, moment)


def _mixtures(touches: list[Touch], pulls: list[numpy.ndarray]) -> list[list[numpy.ndarray]]:
    """Every way to mix least and greatest pulls of the runs that meet; while moving, the one way there is.

    Runs that pull the way of all together are at their greatest in the worst mixture, so only those that pull against it are also tried at their
    least where they are many.
    """
    many = len(touches)
    most, least = pulls[:many], pulls[many:]
    if not least:
        return [most]
    along = [t.along.mean(axis=0) for t in touches]
    whole = sum(along)
    mixed = [i for i in range(many) if many <= MOST_MIXED or along[i] @ whole < 0][:MOST_MIXED]
    found = []
    for chosen in product((False, True), repeat=len(mixed)):
        low = {i for i, is_low in zip(mixed, chosen, strict=True) if is_low}
        found.append([least[i] if i in low else most[i] for i in range(many)])
    return found


def _greatest(solution: Solution, name: str, forces: dict[str, Line], vectors, moment: Line | None = None) -> Reaction:
    """The greatest of the cases, with its direction there."""
    greatest = solution.working.extreme(Sign(f"R_{name}", f"greatest force on {name}", "N"), list(forces.values()))
    source, index = solution.working.where(greatest)
    word = next(w for w, line in forces.items() if line is source)
    values = [numpy.broadcast_to(line.value, solution.travel.heights_m.shape) for line in source.inputs.values()]
    at_worst = max((f[index] for f in vectors(word, values)), key=numpy.linalg.norm)
    height, angle = float(solution.travel.heights_m[index]), solution.travel.angle_rad(index)
    return Reaction(name, greatest, word, height, *(float(c) for c in at_worst), moment, angle)


def _base_moment(solution: Solution, touches: Touches) -> Line:
    """The moment about the middle of the winch's base, or about the drum's axis where the base is not stated."""
    drum = solution.rig.drive.drum
    base = numpy.array(coordinates(drum.base or drum.at))
    about = "its base" if drum.base else "the drum's axis (the place of the base is not stated)"
    lines = []
    for word, (field, *_) in CASES.items():
        inputs = {f"t{i}": getattr(solution.runs[t.rope][t.run], field) for i, t in enumerate(touches[word])}
        sign = Sign(f"M_winch, {word}", f"moment on the winch about {about}, {word}", "N·m")
        lines.append(
            solution.working.solve_in_numbers(
                sign, _moment(solution, touches[word], base), "moments of the rope pulls", "sum of moments", **inputs
            )
        )
    return solution.working.extreme(Sign("M_winch", f"greatest moment on the winch about {about}", "N·m"), lines)
