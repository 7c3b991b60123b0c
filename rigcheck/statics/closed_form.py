"""The balance written as lines of working, block by block, in the order a person would solve it.

Each pull of a block becomes one expression in the pulls of the blocks before it. A block of one gives the textbook line,
W / (η + η² + …); a block of two or three is solved by Cramer's rule in named coefficients; a larger one is solved in numbers.
Every closed form is compared with a numeric solution of the whole balance on every run.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import reduce

import numpy
import sympy

from rigcheck.errors import DisagreementError
from rigcheck.formula import Formula, Sign, compiled
from rigcheck.statics import balance
from rigcheck.statics.balance import Block
from rigcheck.working import FORMULA, SOLVED, Line, Working

LARGEST_SYMBOLIC_BLOCK = 3
AGREES_TO = 1e-9
PULL = Sign("T", "pull", "N")
COEFFICIENT = Sign("a", "what a body gets of the pull in a rope", "")


@dataclass(frozen=True)
class Balance:
    """The balance of one direction of motion: entries and weights in symbols, and the lines those symbols stand for.

    `matrix[j][r]` and `weight[j]` are expressions; `lines` maps their symbols to lines; `ropes` names the unknowns. The equations `of_moments`
    are balances of moments, in N·m, their entries being arms; all others are balances of forces, their entries being plain shares.
    """

    matrix: list[list[sympy.Expr]]
    weight: list[sympy.Expr]
    lines: Mapping[sympy.Symbol, Line]
    ropes: list[str]
    equations: list[str]
    of_moments: frozenset[int] = field(default_factory=frozenset)


def derived(working: Working, sign: Sign, expression: sympy.Expr, lines: Mapping[sympy.Symbol, Line], how: str, kind: str = SOLVED) -> Line:
    """Add a line for an expression that the solver made, its symbols being those of earlier lines."""
    symbols = sorted(expression.free_symbols, key=lambda s: working.lines.index(lines[s]))
    parameters = {f"x{i}": lines[s].sign for i, s in enumerate(symbols)}
    made = Formula.of("derived", parameters, sign, expression, how, "balance of forces" if kind == SOLVED else "")
    inputs = {f"x{i}": lines[s] for i, s in enumerate(symbols)}
    if not inputs:
        return working.given(sign, float(expression), how)
    return working.apply(made, what=sign.meaning, kind=kind, **inputs)


def add(terms: list[sympy.Expr]) -> sympy.Expr:
    """A sum in the order given, nothing gathered or cancelled."""
    terms = [t for t in terms if t != 0]
    if not terms:
        return sympy.Integer(0)
    return reduce(lambda one, other: sympy.Add(one, other, evaluate=False), terms)


def times(one: sympy.Expr, other: sympy.Expr) -> sympy.Expr:
    """A product in the order given; 0, 1 and -1 keep it plain."""
    if one == 0 or other == 0:
        return sympy.Integer(0)
    if one == 1 or other == 1:
        return other if one == 1 else one
    if (one == -1 and other.is_number) or (other == -1 and one.is_number):
        return one * other
    return sympy.Mul(other, one, evaluate=False) if other == -1 else sympy.Mul(one, other, evaluate=False)


def over(top: sympy.Expr, bottom: sympy.Expr) -> sympy.Expr:
    if bottom == 1:
        return top
    if bottom == -1:
        return times(sympy.Integer(-1), top)
    if isinstance(bottom, sympy.Pow) and bottom.exp.is_Integer and bottom.exp < 0:
        return times(top, bottom.base if bottom.exp == -1 else sympy.Pow(bottom.base, -bottom.exp))
    return sympy.Mul(top, sympy.Pow(bottom, -1, evaluate=False), evaluate=False)


def solve(working: Working, problem: Balance, order: list[Block], signs: list[Sign], way: str) -> list[Line | None]:
    """One line per pull of the square blocks; the pulls of a block with spare ropes stay None (they are shared)."""
    found: list[Line | None] = [None] * len(problem.ropes)
    lines = dict(problem.lines)
    for block in order:
        if block.spare:
            continue
        known = {j: right_side(problem, block, j, found) for j in block.equations}
        if len(block.ropes) == 1:
            (j,), (r,) = block.equations, block.ropes
            expression = over(known[j], problem.matrix[j][r])
            found[r] = derived(working, signs[r], expression, lines, f"balance of {problem.equations[j]}, {way}")
        elif len(block.ropes) <= LARGEST_SYMBOLIC_BLOCK:
            _solve_together(working, problem, block, known, signs, way, found, lines)
        else:
            _solve_in_numbers(working, problem, block, known, signs, way, found, lines)
        for r in block.ropes:
            lines[found[r].sign.symbol] = found[r]
    return found


def right_side(problem: Balance, block: Block, j: int, found: list[Line | None]) -> sympy.Expr:
    """The weight of one equation less what the pulls already known carry of it."""
    terms = [problem.weight[j]]
    for r, entry in enumerate(problem.matrix[j]):
        if r not in block.ropes and entry != 0:
            terms.append(times(sympy.Integer(-1), times(entry, found[r].sign.symbol)))
    return add(terms)


def _named(working: Working, problem: Balance, block: Block, known, way: str, lines) -> tuple[sympy.Matrix, sympy.Matrix]:
    """The entries of a block as symbols of their own, so that the solution stays readable."""
    matrix, right = sympy.zeros(len(block.ropes)), sympy.zeros(len(block.ropes), 1)
    for row, j in enumerate(block.equations):
        for column, r in enumerate(block.ropes):
            entry = problem.matrix[j][r]
            if entry.is_number or entry.is_Symbol:
                matrix[row, column] = entry
                continue
            sign = replace(COEFFICIENT, unit="m" if j in problem.of_moments else "").of(
                f"{problem.ropes[r]}, {problem.equations[j]}, {way}",
                f"what {problem.equations[j]} gets of the pull in {problem.ropes[r]}",
            )
            line = derived(working, sign, entry, lines, "sum over its runs", FORMULA)
            lines[line.sign.symbol] = line
            matrix[row, column] = line.sign.symbol
        if known[j].is_number or known[j].is_Symbol:
            right[row] = known[j]
        else:
            line = derived(
                working,
                Sign(
                    f"b_{problem.equations[j]}, {way}",
                    f"left for {problem.equations[j]} to balance",
                    "N·m" if j in problem.of_moments else "N",
                ),
                known[j],
                lines,
                "",
                FORMULA,
            )
            lines[line.sign.symbol] = line
            right[row] = line.sign.symbol
    return matrix, right


def _solve_together(working, problem, block, known, signs, way, found, lines) -> None:
    matrix, right = _named(working, problem, block, known, way, lines)
    whole = matrix.det(method="berkowitz")
    for column, r in enumerate(block.ropes):
        replaced = matrix.copy()
        replaced[:, column] = right
        expression = over(replaced.det(method="berkowitz"), whole)
        names = " and ".join(problem.equations[j] for j in block.equations)
        found[r] = derived(working, signs[r], expression, lines, f"balance of {names} together, {way}")


def _solve_in_numbers(working, problem, block, known, signs, way, found, lines) -> None:
    entries = [problem.matrix[j][r] for j in block.equations for r in block.ropes]
    right = [known[j] for j in block.equations]
    symbols = sorted(set().union(*(e.free_symbols for e in entries + right)), key=lambda s: working.lines.index(lines[s]))
    evaluate = compiled(tuple(symbols), (*entries, *right))
    size = len(block.ropes)
    for place, r in enumerate(block.ropes):

        def compute(place=place, **values):
            flat = numpy.broadcast_arrays(*(numpy.asarray(v, dtype=float) for v in evaluate(*values.values())))
            matrix = numpy.stack(flat[: size * size], axis=-1).reshape(*flat[0].shape, size, size)
            return numpy.linalg.solve(matrix, numpy.stack(flat[size * size :], axis=-1)[..., None])[..., place, 0]

        inputs = {f"x{i}": lines[s] for i, s in enumerate(symbols)}
        names = ", ".join(problem.equations[j] for j in block.equations)
        found[r] = working.solve_in_numbers(
            signs[r], compute, f"balance of {names} together, in numbers, {way}", "balance of forces", **inputs
        )


def compare(lines: list[Line | None], numeric: numpy.ndarray, largest: float, known: numpy.ndarray | None = None) -> None:
    """Raise DisagreementError if a closed form and the numeric solution (heights, ropes) differ; anywhere, or where pulls are `known` (heights,)."""
    known = slice(None) if known is None else known
    for r, line in enumerate(lines):
        if line is not None:
            off = numpy.max(numpy.abs(numpy.broadcast_to(line.value, numeric[:, r].shape) - numeric[:, r])[known], initial=0.0)
            if not off <= AGREES_TO * largest:
                raise DisagreementError(f"closed form and numeric solution of {line.sign.meaning} differ by {off:.3g} N", where="statics",
                                        right="This is a fault of rigcheck: please report it with the rig file.")  # fmt: skip


def numeric(matrix: list[list], weight: list, order: list[Block], many: int) -> numpy.ndarray:
    """The pulls of the square blocks from one numeric solution of them all, (heights, ropes); NaN for shared ones."""
    equations = [j for block in order if not block.spare for j in block.equations]
    ropes = [r for block in order if not block.spare for r in block.ropes]
    pulls = numpy.full((many, len(matrix[0])), numpy.nan)
    if ropes:
        full = numpy.array([[numpy.broadcast_to(matrix[j][r], many) for r in ropes] for j in equations], dtype=float)
        right = numpy.array([numpy.broadcast_to(weight[j], many) for j in equations], dtype=float)
        pulls[:, ropes] = numpy.linalg.solve(numpy.moveaxis(full, 2, 0), right.T[..., None])[..., 0]
    return pulls


def check_order(problem: Balance) -> list[Block]:
    """The blocks of a balance, from where its entries are not exactly zero."""
    present = numpy.array([[entry != 0 for entry in row] for row in problem.matrix])
    return balance.blocks(present, problem.equations)
