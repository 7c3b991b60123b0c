"""More ropes than needed: the worst share each can get, which is judged, and the likely share, which is shown."""

from __future__ import annotations

import numpy
import sympy

from rigcheck.formula import Sign, compiled
from rigcheck.parts import wire_rope
from rigcheck.rig.model import Rope
from rigcheck.statics import balance, closed_form
from rigcheck.statics.balance import Block
from rigcheck.statics.closed_form import Balance
from rigcheck.statics.travel import Travel
from rigcheck.working import Line, Working


def worst_share(working: Working, problem: Balance, block: Block, found: list[Line | None], rope: int, sign: Sign, way: str) -> Line:
    """The greatest pull a rope can get if the lengths are a little wrong: no rope pushing, the balance kept.

    With one equation that is the pull it would have alone. Where ropes can be set against each other there is no greatest
    pull, and the line is unknown.
    """
    matrix, right, lines = _named(problem, block, found)
    at = block.ropes.index(rope)
    if _can_be_tightened(matrix, lines):
        return _unbounded(working, sign)
    meaning = f"{sign.meaning}, worst share: as if the others were a little too long"
    sign = Sign(sign.letter, meaning, sign.unit)
    if len(block.equations) == 1:
        return closed_form.derived(
            working, sign, closed_form.over(right[0], matrix[0][at]), lines, f"balance of {problem.equations[block.equations[0]]}, {way}"
        )
    return _in_numbers(
        working, sign, matrix, right, lines, lambda a, b: numpy.fmax.reduce(balance.sharings(a, b))[:, at], "corners of the linear program"
    )


def total_share(
    working: Working, problem: Balance, block: Block, found: list[Line | None], weights: dict[int, float], sign: Sign, most: bool
) -> Line:
    """The greatest or least of a weighted sum of the pulls in a block with spare ropes: like one pull, it lies at a corner.

    `weights` by rope. The worst shares of several ropes do not come together, so their sum says too much.
    """
    matrix, right, lines = _named(problem, block, found)
    if _can_be_tightened(matrix, lines):
        return _unbounded(working, sign)
    factors = numpy.array([weights.get(r, 0.0) for r in block.ropes])
    extreme = numpy.fmax if most else numpy.fmin  # these leave out the corners that would push; where all would, the pull is unknown
    how = f"{'greatest' if most else 'least'} of the corners of the linear program"
    return _in_numbers(working, sign, matrix, right, lines, lambda a, b: extreme.reduce(balance.sharings(a, b) @ factors), how)


def likely_share(
    travel: Travel, working: Working, problem: Balance, block: Block, found: list[Line | None], rope: int, sign: Sign
) -> Line | None:
    """The share by stiffness EA / l; None where no modulus is known and the ropes differ."""
    names = [problem.ropes[r] for r in block.ropes]
    stiffness = _stiffness(travel, names)
    if stiffness is None:
        return None
    matrix, right, lines = _named(problem, block, found)
    at = block.ropes.index(rope)
    sign = Sign(f"{sign.letter} likely", f"{sign.meaning}, likely share by stiffness", sign.unit)

    def compute(a: numpy.ndarray, b: numpy.ndarray) -> numpy.ndarray:
        many = len(a) // len(stiffness)
        return balance.likely_sharing(a, b, numpy.tile(stiffness, (many, 1)))[:, at]

    return _in_numbers(working, sign, matrix, right, lines, compute, "least energy of stretch")


def _named(problem: Balance, block: Block, found: list[Line | None]):
    lines = dict(problem.lines)
    for line in found:
        if line is not None:
            lines[line.sign.symbol] = line
    matrix = [[problem.matrix[j][r] for r in block.ropes] for j in block.equations]
    right = [closed_form.right_side(problem, block, j, found) for j in block.equations]
    return matrix, right, lines


def _can_be_tightened(matrix, lines) -> bool:
    """Whether ropes can be set against each other lowest, half-way or highest."""
    along = [[_value(entry, lines) for entry in row] for row in matrix]
    poses = [numpy.array([[value[int(where * (len(value) - 1))] for value in row] for row in along]) for where in (0.0, 0.5, 1.0)]
    return any(balance.can_be_tightened(pose) for pose in poses)


def _unbounded(working: Working, sign: Sign) -> Line:
    how = "depends on how tight the ropes are set against each other"
    return working.solve_in_numbers(sign, lambda **_: numpy.full(1, numpy.nan), how, "balance of forces")


def _value(entry: sympy.Expr, lines) -> numpy.ndarray:
    symbols = list(entry.free_symbols)
    return numpy.atleast_1d(compiled(tuple(symbols), entry)(*(lines[s].value for s in symbols)))


def _in_numbers(working: Working, sign: Sign, matrix, right, lines, method, how: str) -> Line:
    entries = [entry for row in matrix for entry in row]
    symbols = sorted(set().union(*(e.free_symbols for e in entries + right)), key=lambda s: working.lines.index(lines[s]))
    evaluate = compiled(tuple(symbols), (*entries, *right))
    rows, columns, heights = len(matrix), len(matrix[0]), len(working.heights_m)

    def compute(**values) -> numpy.ndarray:
        flat = [numpy.asarray(v, dtype=float) for v in evaluate(*values.values())]
        shape = numpy.broadcast_shapes(*(f.shape for f in flat))
        shape = (*shape[:-1], heights)
        flat = [numpy.broadcast_to(f, shape).ravel() for f in flat]
        a = numpy.stack(flat[: rows * columns], axis=-1).reshape(-1, rows, columns)
        return method(a, numpy.stack(flat[rows * columns :], axis=-1)).reshape(shape)

    return working.solve_in_numbers(sign, compute, how, "balance of forces", **{f"x{i}": lines[s] for i, s in enumerate(symbols)})


def _stiffness(travel: Travel, names: list[str]) -> numpy.ndarray | None:
    """Stiffness of each rope along the travel, (heights, ropes); on a common scale if the ropes are alike but their modulus is unknown."""
    ropes = [travel.rig.ropes[n] for n in names]
    lengths = numpy.array([travel.paths[n].straight.sum(axis=0) for n in names]).T
    tensile = [tensile_stiffness(rope) for rope in ropes]
    if all(t is not None for t in tensile):
        return numpy.array(tensile) / lengths
    alike = {(r.kind, r.diameter.value, r.construction, r.material, r.grade and r.grade.value) for r in ropes}
    return 1 / lengths if len(alike) == 1 else None


def tensile_stiffness(rope: Rope) -> float | None:
    if rope.modulus is None:
        return None
    if rope.metal_area is not None:
        return rope.modulus.value * rope.metal_area.value
    if rope.kind == "steel" and rope.construction is not None:
        factor = wire_rope.wire_rope_class(rope.construction).c_factor
        return rope.modulus.value * factor * rope.diameter.value**2 if factor is not None else None
    return None
