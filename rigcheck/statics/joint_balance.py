"""The balance of the joints written out: the cosines of every strut, the forces of ropes and own weight, and each push as a line in these."""

from __future__ import annotations

from collections.abc import Mapping

import numpy
import sympy

from rigcheck import units
from rigcheck.formula import Sign
from rigcheck.statics import closed_form, formulas
from rigcheck.statics.closed_form import Balance
from rigcheck.statics.frame import AXES, Frame
from rigcheck.statics.joint_loads import Loads, acting_on
from rigcheck.statics.readings import Entries
from rigcheck.statics.solution import Solution
from rigcheck.working import FORMULA, Line

PUSH = Sign("S", "push of a strut, its pull counted negative", "N")
ADDED = Sign("a", "push that a force of 1 N adds", "")
SHARE = Sign("c", "share of a strut's push along an axis", "")
FORCE = Sign("F", "force on a joint along an axis", "N")
LARGEST_WRITTEN_OUT, MOST_TOLD = 2, 6  # balances solved together in letters; struts whose directions are told in one sentence
UPWARDS = 1  # of the axes


def own_weights(solution: Solution, found: Frame) -> dict[str, Line]:
    """The weight of every member whose mass is stated, as a line."""
    working, made = solution.working, {}
    for name in found.all_members:
        strut = found.rig.struts[name]
        if strut.mass is not None:
            mass = working.given(
                formulas.MASS.of(name, f"mass of {name}"), strut.mass.value, f"struts, {name}, mass", strut.notes.get("mass", "")
            )
            made[name] = working.apply(formulas.weight, name, f"weight of {name}", mass=mass, gravity=solution.gravity)
    return made


def closed_forms(solution: Solution, found: Frame, loads: Loads, cosines: Entries, shares: Entries, own: Mapping[str, Line]) -> list[Line]:
    """The balance of the joints solved block by block, compared with the same in numbers."""
    working, word = solution.working, loads.word
    lines = {line.sign.symbol: line for line in [*loads.inputs.values(), *own.values()]}
    matrix, weight, names = [], [], []
    for joint in found.joints:
        for axis in found.axes:
            row = []
            for member in found.members:
                if joint not in found.rig.struts[member].ends:
                    row.append(sympy.Integer(0))
                    continue
                sign = SHARE.of(f"{member}, {joint} {AXES[axis]}", f"share of the push of {member} that {joint} gets {AXES[axis]}")
                along = numpy.full(len(working.heights_m), -found.direction(member, joint)[axis])
                row.append(cosines.of(lambda _, along=along: along, sign, f"from {joint} along {member}"))
            matrix.append(row)
            weight.append(_force_on(solution, found, loads, joint, axis, lines, own))
            names.append(f"{joint} {AXES[axis]}")
    lines |= cosines.lines
    # the struts' pushes and the ropes' pulls on a joint together come to nothing
    against = [closed_form.times(sympy.Integer(-1), force) for force, _ in weight]
    problem = Balance(matrix, against, lines, found.members, names)
    order = closed_form.check_order(problem)
    signs = [PUSH.of(f"{m}, {word}", f"push of {m}, {word}") for m in found.members]
    if max(len(block.equations) for block in order) > LARGEST_WRITTEN_OUT:
        pushes = _from_shares(solution, found, [force for force, _ in weight], lines, shares, signs)
    else:
        pushes = closed_form.solve(working, problem, order, signs, word)
    numeric = _numeric(found, [numbers for _, numbers in weight], len(working.heights_m))
    largest = max(float(numpy.max(numpy.abs(numbers))) for _, numbers in weight) * max(found.growth[0], 1.0)
    closed_form.compare(pushes, numeric, max(largest, 1e-300))
    return pushes


def _from_shares(solution: Solution, found: Frame, forces: list, lines: dict, shares: Entries, signs: list[Sign]) -> list[Line]:
    """Each push as a sum over the forces on the joints, each with what a force of 1 N there adds to it: three members at a joint and more."""
    names = [f"{joint} {AXES[axis]}" for joint in found.joints for axis in found.axes]
    whole, pushes = numpy.linalg.inv(found.matrix), []
    whole = numpy.where(numpy.abs(whole) < 1e-12 * numpy.max(numpy.abs(whole)), 0.0, whole)
    for row, member in enumerate(found.members):
        terms = []
        for column, force in enumerate(forces):
            if force != 0:
                sign = ADDED.of(f"{member}, {names[column]}", f"push that a force of 1 N on {names[column]} adds to {member}")
                along = numpy.full(len(solution.working.heights_m), whole[row, column])
                share = shares.of(lambda _, along=along: along, sign, _balances_solved(found))
                terms.append(closed_form.times(share, force))
        lines |= shares.lines
        how = f"balance of {' and '.join(found.joints)}, in proportion to the forces there"
        pushes.append(closed_form.derived(solution.working, signs[row], closed_form.add(terms), lines, how))
    return pushes


def _balances_solved(found: Frame) -> str:
    """The directions that the balances were solved with, in words."""
    told = []
    for joint in found.joints:
        for member in found.members:
            if joint in found.rig.struts[member].ends:
                steps = ", ".join(units.number(float(step), 4) for step in found.direction(member, joint))
                told.append(f"{member} ({steps})")
    return (
        f"from the directions across, up and in depth: {'; '.join(told)}" if len(told) <= MOST_TOLD else "from the directions of all struts"
    )


def _numeric(found: Frame, forces: list[numpy.ndarray], many: int) -> numpy.ndarray:
    right = numpy.array([numpy.broadcast_to(force, many) for force in forces])
    return numpy.linalg.solve(found.matrix, right).T


def _force_on(solution: Solution, found: Frame, loads: Loads, joint: str, axis: int, lines: dict, weights: Mapping[str, Line]):
    """The force of ropes and own weight on a joint along an axis: as an expression in lines, and in numbers straight from the ropes' directions."""
    working, node = solution.working, found.nodes.index(joint)
    terms = []
    for pull in loads.pulls:
        if pull.node == node and pull.shares[axis] != 0:
            line = loads.inputs[f"most{pull.of}"]
            lines[line.sign.symbol] = line
            terms.append(closed_form.times(line.sign.symbol, pull.shares[axis]))
    own = float(loads.own[node, axis])
    if axis == UPWARDS:
        terms += [sympy.Rational(-1, 2) * line.sign.symbol for name, line in weights.items() if joint in found.rig.struts[name].ends]
    whole = closed_form.add(terms)
    acting = acting_on(solution.rig, solution.ways[loads.word].travel).get(joint, [])
    pulls = (getattr(solution.runs[acts.rope][acts.run], loads.word).value * acts.along[:, axis] for acts in acting)
    numbers = sum(pulls, numpy.zeros(len(working.heights_m)) + own)
    if whole.is_number or whole.is_Symbol:
        return whole, numbers
    sign = FORCE.of(f"{joint} {AXES[axis]}, {loads.word}", f"force of ropes and own weight on {joint} {AXES[axis]}, {loads.word}")
    line = closed_form.derived(working, sign, whole, lines, "sum of the pulls", FORMULA)
    lines[line.sign.symbol] = line
    return line.sign.symbol, numbers
