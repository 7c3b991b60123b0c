"""The working of one rig: every line from what was typed to the last factor, in order.

A line is given, looked up, read off the geometry, computed by a formula, solved (a block of the balance of forces)
or an extreme along the travel. Page, PDF, text and JSON print these lines and compute nothing themselves.

Values are arrays whose last axis runs along the heights of the travel; a value that does not depend on the height has
length 1 there. Any axis before it is the caller's: `evaluate` takes a column of loads as easily as one load.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy
import sympy

from rigcheck import units, whereabouts
from rigcheck.errors import OutOfRangeError
from rigcheck.formula import Formula, Sign
from rigcheck.vocabularies import VOCABULARIES

BRACKETING_PARTS, BRACKETING_ROUNDS = 129, 8
GIVEN, LOOKED_UP, GEOMETRY, FORMULA, SOLVED, EXTREME = "given", "looked up", "geometry", "formula", "solved", "extreme"


@dataclass(frozen=True, eq=False)
class Line:
    """One line of working; `inputs` maps the argument names of its formula to the lines they come from."""

    sign: Sign
    kind: str
    value: numpy.ndarray
    inputs: Mapping[str, Line] = field(default_factory=dict)
    formula: Formula | None = None
    compute: Callable[..., numpy.ndarray] | None = None
    how: str = ""
    source: str = ""

    @property
    def number(self) -> float:
        """The value of a line that does not depend on the height."""
        return float(self.value[0]) if self.value.shape == (1,) else float("nan")

    @property
    def runs_along(self) -> bool:
        return self.value.shape[-1] > 1


@dataclass(frozen=True)
class PrintedLine:
    """A line as page, PDF, text and JSON show it; `elsewhere` are its numbers at the other heights at which later lines read it."""

    sign: str
    kind: str
    what: str
    formula: str
    numbers: str
    value: float
    unit: str
    shown: str
    source: str
    height_m: float | None
    angle_rad: float | None = None
    elsewhere: tuple[tuple[str, str], ...] = ()


class Working:
    """The lines of one rig, in the order they were worked out."""

    def __init__(self, heights_m: numpy.ndarray, angles_rad: numpy.ndarray | None = None):
        self.heights_m = numpy.asarray(heights_m, dtype=float)
        self.angles_rad = angles_rad
        self.lines: list[Line] = []
        self._letters: set[str] = set()
        self._ancestors: dict[tuple[Line, ...], frozenset[Line]] = {}
        self._plans: dict[tuple[frozenset[Line], tuple[Line, ...]], list[Line]] = {}

    def _add(self, line: Line) -> Line:
        letter, number = line.sign.letter, 2
        while letter in self._letters:
            letter, number = f"{line.sign.letter}{' ' if '_' in line.sign.letter else '_'}({number})", number + 1
        self._letters.add(letter)
        if letter != line.sign.letter:
            line = replace(line, sign=replace(line.sign, letter=letter))
        self.lines.append(line)
        return line

    def given(self, sign: Sign, value: float, source: str, how: str = "") -> Line:
        """A number that was typed, or that a document states."""
        return self._add(Line(sign, GIVEN, numpy.array([float(value)]), source=source, how=how))

    def looked_up(self, sign: Sign, value: float, row: str, source: str) -> Line:
        """A number from a table: which row, which source."""
        return self._add(Line(sign, LOOKED_UP, numpy.array([float(value)]), how=row, source=source))

    def geometry(self, sign: Sign, along: numpy.ndarray, how: str) -> Line:
        """A number read off the geometry at every height."""
        along = numpy.atleast_1d(numpy.asarray(along, dtype=float))
        if along.shape[-1] > 1 and numpy.ptp(along) <= 1e-12 * max(1.0, float(numpy.max(numpy.abs(along)))):
            along = along[:1]
        return self._add(Line(sign, GEOMETRY, along, how=how, source="geometry of the rig"))

    def apply(self, formula: Formula, of: str = "", what: str | None = None, kind: str = FORMULA, **inputs: Line) -> Line:
        """One formula line; outside the formula's range a single number raises OutOfRangeError, and an unknown one gives an unknown result."""
        sign = formula.result.of(of, what) if of else replace(formula.result, meaning=what or formula.result.meaning)
        values = {n: line.value for n, line in inputs.items()}
        if all(v.shape == (1,) and v[0] == v[0] for v in values.values()):  # what rests on something unknown is unknown, not out of range
            value = numpy.array([formula(**{n: v[0] for n, v in values.items()})])
        else:
            value = formula.marked(**values)
        return self._add(Line(sign, kind, value, inputs, formula, formula.marked, how=formula.title, source=formula.source))

    def solve_in_numbers(self, sign: Sign, compute: Callable[..., numpy.ndarray], how: str, source: str, **inputs: Line) -> Line:
        """A line whose method is a routine, not one expression (a large block, a linear program)."""
        value = compute(**{n: line.value for n, line in inputs.items()})
        return self._add(Line(sign, SOLVED, value, inputs, None, compute, how, source))

    def extreme(self, sign: Sign, of: Sequence[Line], most: bool = True) -> Line:
        """The greatest (or least) of some lines along the whole travel."""
        reduce = numpy.maximum if most else numpy.minimum

        def compute(**values):
            overall = None
            for value in values.values():
                along = (numpy.max if most else numpy.min)(value, axis=-1, keepdims=True)
                overall = along if overall is None else reduce(overall, along)
            return overall

        inputs = {f"line{i}": line for i, line in enumerate(of)}
        how = ("the greatest" if most else "the least") + " along the travel"
        return self._add(Line(sign, EXTREME, compute(**{n: line.value for n, line in inputs.items()}), inputs, None, compute, how))

    # -- asking the working questions ------------------------------------------------------------------------------

    def evaluate(self, changed: Mapping[Line, numpy.ndarray], wanted: Sequence[Line]) -> list[numpy.ndarray]:
        """The wanted lines with some lines changed; arrays broadcast, the last axis being the heights."""
        values: dict[Line, numpy.ndarray] = {line: numpy.asarray(v, dtype=float) for line, v in changed.items()}
        for line in self._to_work_out(frozenset(changed), tuple(wanted)):
            values[line] = line.compute(**{n: values.get(i, i.value) for n, i in line.inputs.items()})
        return [values.get(line, line.value) for line in wanted]

    def _to_work_out(self, changed: frozenset[Line], wanted: tuple[Line, ...]) -> list[Line]:
        """The lines between those changed and those wanted, in order; kept, since the same question is asked for many loads."""
        if (changed, wanted) not in self._plans:
            needed, moving, plan = self.ancestors(wanted), set(changed), []
            for line in self.lines:
                if line in needed and line not in moving and any(i in moving for i in line.inputs.values()):
                    moving.add(line)
                    plan.append(line)
            self._plans[changed, wanted] = plan
        return self._plans[changed, wanted]

    def ancestors(self, lines: Sequence[Line]) -> frozenset[Line]:
        """These lines and all they rest on; kept, since what a line rests on never changes."""
        asked = tuple(lines)
        if asked not in self._ancestors:
            found: set[Line] = set()
            waiting = list(asked)
            while waiting:
                line = waiting.pop()
                if line not in found:
                    found.add(line)
                    waiting.extend(line.inputs.values())
            self._ancestors[asked] = frozenset(found)
        return self._ancestors[asked]

    def derivative(self, of: Line, by: Line) -> numpy.ndarray:
        """d(of)/d(by) by the chain rule through the lines; an extreme is followed where it stands."""
        slopes: dict[Line, numpy.ndarray] = {by: numpy.ones(1)}
        needed = self.ancestors([of])
        for line in self.lines:
            moving = {n: i for n, i in line.inputs.items() if i in slopes}
            if line in slopes or line not in needed or not moving:
                continue
            if line.kind == EXTREME:
                slopes[line] = self._slope_of_extreme(line, slopes)
            else:
                slopes[line] = sum(self._partial(line, n) * slopes[i] for n, i in moving.items())
        return slopes.get(of, numpy.zeros(1))

    def _slope_of_extreme(self, line: Line, slopes: Mapping[Line, numpy.ndarray]) -> numpy.ndarray:
        chosen, index = self.where(line)
        slope = numpy.atleast_1d(slopes.get(chosen, numpy.zeros(1)))
        return slope[min(index, slope.shape[-1] - 1)][None]

    def _partial(self, line: Line, name: str) -> numpy.ndarray:
        values = {n: i.value for n, i in line.inputs.items()}
        if line.formula is not None:
            return numpy.asarray(line.formula.gradient[name](*(values[n] for n in line.formula.parameters)), dtype=float)
        step = 1e-6 * numpy.maximum(numpy.abs(values[name]), 1.0)
        up, down = (line.compute(**(values | {name: values[name] + side * step})) for side in (1, -1))
        return (up - down) / (2 * step)

    def is_linear(self, of: Line, by: Line) -> bool:
        """Whether `of` is of first degree in `by`, as far as formulas alone decide it."""
        moving = {by}
        needed = self.ancestors([of])
        for line in self.lines:
            names = {n for n, i in line.inputs.items() if i in moving}
            if line in needed and line is not by and names:
                if line.formula is None or not line.formula.is_linear_in(names):
                    return False
                moving.add(line)
        return True

    def what_gives(self, of: Line, target: float, by: Line, low: float, high: float) -> float:
        """The value of `by` at which `of` reaches the target: straight where `of` is linear in `by`, by bracketing otherwise.

        Raises OutOfRangeError if nothing between `low` and `high` does.
        """
        if self.is_linear(of, by):
            slope = float(self.derivative(of, by)[0])
            found = by.number + (target - of.number) / slope if slope else float("nan")
        else:
            found = self._bracketed(of, target, by, low, high)
        if not low <= found <= high:
            raise OutOfRangeError(
                f"no {by.sign.meaning} brings {of.sign.meaning} to {units.show(target, of.sign.unit)}", where=by.sign.letter
            )
        return found

    def _bracketed(self, of: Line, target: float, by: Line, low: float, high: float) -> float:
        """Cut the interval ever finer around the crossing nearest to the present value, all parts evaluated at once."""
        for _ in range(BRACKETING_ROUNDS):
            grid = numpy.linspace(low, high, BRACKETING_PARTS)
            short = self.evaluate({by: grid[:, None]}, [of])[0][..., 0] - target
            crossings = numpy.flatnonzero(numpy.sign(short[:-1]) * numpy.sign(short[1:]) <= 0)
            if not len(crossings):
                return float("nan")
            at = min(crossings, key=lambda i: abs(grid[i] - by.number))
            low, high = grid[at], grid[at + 1]
            if high - low <= 1e-14 * max(abs(low), abs(high)):
                break
        step = short[at + 1] - short[at]
        return float(low if step == 0 else low - short[at] * (high - low) / step)

    def where(self, line: Line) -> tuple[Line, int]:
        """Which line an extreme came from, and at which index of the heights."""
        close = 1e-12 * abs(line.value[0])  # a pull that is the same all along differs in its last digit from height to height
        for part in line.inputs.values():
            hits = numpy.flatnonzero(numpy.abs(part.value - line.value[0]) <= close)
            if len(hits):
                return part, int(hits[0])
        return next(iter(line.inputs.values())), 0

    def closed_form(self, line: Line) -> tuple[sympy.Expr, dict[sympy.Symbol, Line]]:
        """One expression for a line in the lines that no formula leads to (given, looked up, geometry), and those lines.

        Raises ValueError where a line on the way is a routine or an extreme, which no expression stands for.
        """
        found: dict[Line, sympy.Expr] = {}
        needed = self.ancestors([line])
        roots = {}
        for part in self.lines:
            if part not in needed:
                continue
            if part.formula is not None:
                swaps = {part.formula.parameters[n].symbol: found[i] for n, i in part.inputs.items()}
                with sympy.evaluate(False):
                    found[part] = part.formula.expression.xreplace(swaps)
            elif part.inputs:
                raise ValueError(f"{part.sign.letter} is no formula")
            else:
                found[part] = part.sign.symbol
                roots[part.sign.symbol] = part
        return found[line], roots

    # -- printing --------------------------------------------------------------------------------------------------

    def shown_at(self) -> dict[Line, int]:
        """For every line that runs along the travel, the index of the height at which it is printed.

        It is printed where the first extreme that rests on it stands, so that its numbers lead to that extreme.
        """
        chosen: dict[Line, int] = {}
        for line in self.lines:
            if line.kind == EXTREME:
                source, index = self.where(line)
                for part in self.ancestors([source]):
                    chosen.setdefault(part, index)
        return chosen

    def printed(self, vocabulary: str = "text") -> list[PrintedLine]:
        """All lines in one vocabulary ("text", "latex" or "typst")."""
        words = VOCABULARIES[vocabulary]
        chosen = self.shown_at()
        others = self._read_elsewhere(chosen)
        return [replace(self._printed(line, chosen, vocabulary, words), elsewhere=others.get(line, ())) for line in self.lines]

    def _read_elsewhere(self, chosen: Mapping[Line, int]) -> dict[Line, tuple[tuple[str, str], ...]]:
        """For a line that later lines read at other heights than its own, those heights and its numbers there, as those lines print them."""
        others: dict[Line, set[int]] = {}
        for line in self.lines:
            if line.kind == EXTREME:
                source, index = self.where(line)
                read = {source: index}
            else:
                index = chosen.get(line, 0)
                read = dict.fromkeys(line.inputs.values(), index) if line.runs_along and line.formula is not None else {}
            for part, at in read.items():
                if part.runs_along and at != chosen.get(part, 0):
                    others.setdefault(part, set()).add(at)
        return {
            line: tuple((self._standing(at), units.show(float(line.value[at]), line.sign.unit, 5)) for at in sorted(indices))
            for line, indices in others.items()
        }

    def _standing(self, index: int) -> str:
        """Where the load stands there, in words."""
        return whereabouts.standing(float(self.heights_m[index]), None if self.angles_rad is None else float(self.angles_rad[index]))

    def _printed(self, line: Line, chosen: Mapping[Line, int], vocabulary: str, words) -> PrintedLine:
        index = chosen.get(line, 0) if line.runs_along else 0
        if line.kind == EXTREME:
            source, index = self.where(line)
            body, numbers = source.sign.printed(words), ""
            height = float(self.heights_m[index]) if source.runs_along else None
        else:
            height = float(self.heights_m[index]) if line.runs_along else None
            body = numbers = ""
            if line.formula is not None:
                signs = {n: i.sign for n, i in line.inputs.items()}
                body = line.formula.printed(vocabulary, signs)
                numbers = line.formula.numbers(
                    {n: i.value[min(index, i.value.shape[-1] - 1)] for n, i in line.inputs.items()}, vocabulary, signs
                )
        value = float(line.value[min(index, line.value.shape[-1] - 1)])
        return PrintedLine(
            sign=line.sign.printed(words), kind=line.kind, what=line.sign.meaning, formula=body, numbers=numbers, value=value,
            unit=line.sign.unit, shown=units.show(value, line.sign.unit, 5, line.sign.towards), source="; ".join(p for p in (line.how, line.source) if p), height_m=height,
            angle_rad=None if height is None or self.angles_rad is None else float(self.angles_rad[index]),
        )  # fmt: skip
