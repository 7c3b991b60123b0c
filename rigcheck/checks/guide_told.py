"""What is told of guides beside their checks: how hard their shoes are pressed, how far their play lets the body lean, whose friction is in no pull."""

from __future__ import annotations

from itertools import product

import numpy

from rigcheck import units
from rigcheck.checks.check import Judge
from rigcheck.formula import Sign, formula
from rigcheck.rig.fields import coordinates
from rigcheck.statics import guide_formulas as formulas
from rigcheck.statics import guides
from rigcheck.statics.guides import Shoes
from rigcheck.working import GIVEN, Line

EDGE = Sign("e", "from the line of the guide to the far edge of the body", "m", low=0)
LOWER = Sign("δ", "how much lower the far edge may hang", "m", towards="up")
HOW = "half the force aside and the moment over the distance of the shoes, together"
HOW_EDGE = "size of the body and place of its shoes"
SOURCE = "balance of forces and moments on two shoes"


@formula
def edge_hangs(lean: formulas.LEAN, edge: EDGE) -> LOWER:
    """How much lower the far edge of a body hangs that leans by a small angle.

    Source: geometry.

    >>> edge_hangs(lean=0.01, edge=0.6)
    0.006
    """
    return lean * edge


def tell(judge: Judge) -> None:
    """Say of every guide what is not judged about it."""
    known = counted(judge)
    for name, body in judge.rig.bodies.items():
        if body.moves.kind != "guided" or not body.moves.is_described:
            continue
        if name in known:
            greatest = _pressed(judge, known[name])
            if numpy.isfinite(greatest.number):
                judge.leave_out(f"Whether the shoes of the guide of {name}, its rail and what holds it bear what presses them: up to "
                                f"{units.show(greatest.number, 'N', 3, 'up')} on one shoe.")  # fmt: skip
            else:
                judge.leave_out(f"How hard the shoes of the guide of {name} are pressed: where it may jam there is no greatest.")
        _tell_play(judge, name)


def counted(judge: Judge) -> dict[str, Shoes]:
    """The guides whose friction is in the pulls, by body."""
    return {taken.row.given.shoes.body: taken.row.given.shoes for taken in judge.solution.guides["raising"]}


def not_in_pulls(judge: Judge) -> str:
    """That what ropes weigh is in no pull, nor the friction of the guides of which nothing is stated."""
    if not (known := counted(judge)):
        return "The weight of the ropes themselves and the friction of guides: neither is counted in any pull."
    others = [name for name, body in judge.rig.bodies.items() if body.moves.kind == "guided" and name not in known]
    if not others:
        return "The weight of the ropes themselves: it is counted in no pull."
    return f"The weight of the ropes themselves and the friction of the guide of {' and of '.join(others)}: neither is counted in any pull."


def shoes_apart(judge: Judge, name: str) -> Line:
    """The distance of the shoes of a body, that of the balance where its friction is counted there."""
    return _given_once(judge, name, "shoes_apart", formulas.APART)


def friction(judge: Judge, name: str) -> Line:
    """The friction of the guide of a body, that of the balance where it is counted there."""
    return _given_once(judge, name, "friction", formulas.RUBBING)


def _given_once(judge: Judge, name: str, field: str, sign: Sign) -> Line:
    where = f"bodies, {name}, moves, {field}"
    known = next((line for line in judge.working.lines if line.kind == GIVEN and line.source == where), None)
    if known is not None:
        return known
    moves = judge.rig.bodies[name].moves
    value = getattr(moves, field)
    return judge.given(sign.of(name), getattr(value, "value", value), where, moves.notes.get(field, ""))


def _pressed(judge: Judge, shoes: Shoes) -> Line:
    """The greatest force on one shoe: moving, or at rest with every rope at its least or its greatest."""
    solution, found = judge.solution, []
    runs = [(rope, k) for rope, part in shoes.arm.items() for k in range(len(part)) if numpy.any(part[k]) or numpy.any(shoes.side[rope][k])]
    weights = {f"w{i}": solution.weights[name] for i, name in enumerate(shoes.arm_weight)}
    for word, fields in {"raising": ("raising",), "lowering": ("lowering",), "at rest": ("holding_least", "holding_most")}.items():

        def compute(fields=fields, **values: numpy.ndarray) -> numpy.ndarray:
            push = sum(values[f"w{i}"] * share for i, share in enumerate(shoes.side_weight.values()))
            moment = sum(values[f"w{i}"] * arm for i, arm in enumerate(shoes.arm_weight.values()))
            ropes = list(dict.fromkeys(rope for rope, _ in runs))
            tried = []
            for chosen in product(range(len(fields)), repeat=len(ropes)):
                case = dict(zip(ropes, chosen, strict=True))
                pulls = [(rope, k, values[f"t{case[rope]} {i}"]) for i, (rope, k) in enumerate(runs)]
                aside = push + sum((t * shoes.side[rope][k] for rope, k, t in pulls), 0.0)
                over = numpy.abs(moment + sum((t * shoes.arm[rope][k] for rope, k, t in pulls), 0.0))
                over = over + numpy.abs(shoes.friction * shoes.faces_m / 2 * aside)
                tried.append(numpy.abs(aside) / 2 + over / shoes.apart_m)
            return numpy.max(numpy.broadcast_arrays(*tried), axis=0)

        inputs = {f"t{f} {i}": getattr(solution.runs[rope][k], field) for f, field in enumerate(fields) for i, (rope, k) in enumerate(runs)}
        sign = formulas.SHOE.of(f"{shoes.body}, {word}", f"greatest force on one shoe of {shoes.body}, {word}")
        found.append(judge.working.solve_in_numbers(sign, compute, HOW, SOURCE, **inputs, **weights))
    return judge.working.extreme(formulas.SHOE.of(shoes.body, f"greatest force on one shoe of {shoes.body}"), found)


def _tell_play(judge: Judge, name: str) -> None:
    body = judge.rig.bodies[name]
    moves, where = body.moves, f"bodies, {name}, moves"
    if moves.play is None or moves.shoes_apart is None:
        judge.leave_out(
            f"How far {name} leans in its guide: the play between shoes and rail is not stated, or not how far apart the shoes are."
        )
        return
    play = judge.given(formulas.PLAY.of(name), moves.play.value, f"{where}, play", moves.notes.get("play", ""))
    apart = shoes_apart(judge, name)
    lean = judge.working.apply(formulas.lean, name, f"lean that the play of its guide allows {name}", play=play, apart=apart)
    told = f"leans up to {units.show(lean.number, '°', 2, 'up')} either way"
    along, _ = guides.directions(moves)
    if body.size is not None and moves.lower_shoe is not None and along[1] == 1.0:
        far = abs(coordinates(moves.lower_shoe)[0]) + body.size[0].value / 2
        edge = judge.working.geometry(EDGE.of(name), numpy.array([far]), HOW_EDGE)
        lower = judge.working.apply(edge_hangs, name, f"how much lower the far edge of {name} may hang", lean=lean, edge=edge)
        told += f", so that its far edge may hang {units.show(lower.number, 'mm', 2, 'up')} lower"
    judge.leave_out(f"Whether {name} clears what stands beside it as it leans: by the play of its guide it {told}.")
