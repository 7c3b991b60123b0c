"""A formula is written once: one expression, from which come its number, its typeset line and its numbers line.

A formula is a function whose annotated arguments are signs and whose body is the line as a textbook prints it:

    WEIGHT = Sign("W", "weight", "N")

    @formula
    def weight(mass: MASS, gravity: GRAVITY) -> WEIGHT:
        ...
        return mass * gravity

Called with numbers or arrays it returns a number or an array of the same shape. Outside the range that its
source gives it never extrapolates: a single number raises OutOfRangeError, in an array those entries are NaN.
"""

from __future__ import annotations

import functools
import inspect
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

import numpy
import sympy

from rigcheck import notation, units
from rigcheck.errors import OutOfRangeError
from rigcheck.vocabularies import ATOM, POWER, PRODUCT, SUM, TEXT, VOCABULARIES, Printed, Text

LONG_EXPRESSION = 60


@dataclass(frozen=True)
class Sign:
    """A symbol of a formula: what it is called, what it means, the unit it is shown in, the range it may take.

    `letter` may carry a subscript after an underscore. `low` and `high` are in SI and belong to the range; with
    `above` or `below` the bound itself does not. `towards` is how a result is rounded when it is shown: "down" for a factor.

    >>> Sign("η", "efficiency of a sheave", "", above=0, high=1).range_text()
    'above 0, at most 1'
    """

    letter: str
    meaning: str
    unit: str = ""
    low: float | None = None
    high: float | None = None
    above: float | None = None
    below: float | None = None
    towards: str = "nearest"

    @property
    def symbol(self) -> sympy.Symbol:
        return sympy.Symbol(self.letter, real=True)

    def of(self, subscript: str, meaning: str | None = None) -> Sign:
        """The same kind of thing belonging to one part: T of "hoist 1"."""
        base, own = notation.split_sign(self.letter)
        return replace(self, letter=f"{base}_{own + ' ' if own else ''}{subscript}", meaning=meaning or self.meaning)

    @functools.cached_property
    def _bounds(self) -> list[tuple[float, Callable]]:
        bounds = ((self.low, numpy.greater_equal), (self.high, numpy.less_equal), (self.above, numpy.greater), (self.below, numpy.less))
        return [(bound, holds) for bound, holds in bounds if bound is not None]

    def admits(self, value) -> numpy.ndarray | bool:
        """Whether each value lies in the range; NaN does not."""
        inside = value == value
        for bound, holds in self._bounds:
            inside = inside & holds(value, bound)
        return inside

    def range_text(self) -> str:
        """The range in words, in the unit shown."""
        bounds = (("at least", self.low), ("above", self.above), ("at most", self.high), ("below", self.below))
        return ", ".join(f"{word} {units.show(bound, self.unit)}" for word, bound in bounds if bound is not None) or "any value"

    def printed(self, words: Text) -> str:
        return words.sign(*notation.split_sign(self.letter))


@dataclass(frozen=True, eq=False)
class Formula:
    """One expression with its signs and its source; made by `formula`, or derived by the solver."""

    name: str
    parameters: Mapping[str, Sign]
    result: Sign
    build: Callable[..., sympy.Expr]
    title: str = ""
    source: str = ""
    __wrapped__: Callable | None = field(default=None)
    __doc__: str | None = field(default=None)

    @classmethod
    def of(cls, name: str, parameters: Mapping[str, Sign], result: Sign, expression: sympy.Expr, title: str, source: str) -> Formula:
        """A formula around an expression that stands already, such as one that the solver derived."""
        made = cls(name, parameters, result, lambda **_: expression, title, source)
        made.__dict__["expression"] = expression
        return made

    @functools.cached_property
    def expression(self) -> sympy.Expr:
        """The expression exactly as written: nothing is sorted, multiplied out or cancelled."""
        with sympy.evaluate(False):
            return sympy.sympify(self.build(**{name: sign.symbol for name, sign in self.parameters.items()}))

    @functools.cached_property
    def compiled(self) -> Callable:
        return compiled(tuple(s.symbol for s in self.parameters.values()), self.expression)

    @functools.cached_property
    def gradient(self) -> dict[str, Callable]:
        """The derivative with respect to each argument, compiled."""
        symbols = [s.symbol for s in self.parameters.values()]
        return {n: sympy.lambdify(symbols, sympy.diff(self.expression.doit(), s.symbol), "numpy") for n, s in self.parameters.items()}

    def is_linear_in(self, names: set[str]) -> bool:
        """Whether the expression is of first degree in these arguments together."""
        return _is_linear(self.expression, frozenset(self.parameters[n].symbol for n in names))

    def __call__(self, **values):
        scalar = all(numpy.ndim(v) == 0 for v in values.values())
        if scalar:
            for name, sign in self.parameters.items():
                if not sign.admits(values[name]):
                    shown = f"{sign.printed(TEXT)} = {units.show(float(values[name]), sign.unit)}"
                    raise OutOfRangeError(f"{shown} ({sign.meaning}) is outside the range of this formula", where=self.title or self.name,
                                          right=f"{sign.printed(TEXT)}: {sign.range_text()}.")  # fmt: skip
            return float(self.compiled(*(float(values[n]) for n in self.parameters)))
        return self.marked(**values)

    def marked(self, **values) -> numpy.ndarray:
        """The result for arrays; entries outside the range are NaN."""
        arrays = [numpy.asarray(values[name], dtype=float) for name in self.parameters]
        with numpy.errstate(all="ignore"):
            result = self.compiled(*arrays)
        shape = numpy.broadcast_shapes(*(a.shape for a in arrays))
        # a sign without bounds needs no look: what is not a number stays so through the expression
        bounded = [(sign, array) for sign, array in zip(self.parameters.values(), arrays, strict=True) if sign._bounds]
        outside = [~inside for sign, array in bounded if not (inside := sign.admits(array)).all()]
        if outside:
            return numpy.where(functools.reduce(numpy.logical_or, outside), numpy.nan, numpy.broadcast_to(result, shape))
        return result if numpy.shape(result) == shape else numpy.broadcast_to(result, shape)

    def printed(self, vocabulary: str = "text", signs: Mapping[str, Sign] | None = None) -> str:
        """The right-hand side in one vocabulary; `signs` renames arguments ("W" becomes "W of the shell")."""
        words = VOCABULARIES[vocabulary]
        shown = {s.symbol: (signs or {}).get(n, s) for n, s in self.parameters.items()}
        return notation.expression(self.expression, words, lambda symbol: Printed(shown[symbol].printed(words), ATOM)).text

    def numbers(self, values: Mapping[str, float], vocabulary: str = "text", signs: Mapping[str, Sign] | None = None) -> str:
        """The right-hand side with each argument's number put in, rounded and with the unit as its sign (or the one that stands for it) is shown."""
        words = VOCABULARIES[vocabulary]
        shown = {s.symbol: (float(values[n]), (signs or {}).get(n, s)) for n, s in self.parameters.items()}

        def leaf(symbol: sympy.Symbol) -> Printed:
            value, sign = shown[symbol]
            number, unit = units.number(units.in_shown(value, sign.unit), 5, sign.towards), units.label(sign.unit)
            return Printed(words.quantity(number, unit), SUM if value < 0 else PRODUCT if "e" in number else POWER if unit else ATOM)

        return notation.expression(self.expression, words, leaf).text


@functools.lru_cache(maxsize=4096)
def compiled(symbols: tuple[sympy.Symbol, ...], expression: sympy.Expr | tuple[sympy.Expr, ...]) -> Callable:
    """A NumPy function of the symbols, kept by the shape of the expression: a rig with other numbers costs no new compilation."""
    # looking for common parts takes several times as long as compiling, so only long expressions are searched for them
    long = sum(e.count_ops() for e in (expression if isinstance(expression, tuple) else (expression,))) > LONG_EXPRESSION
    return sympy.lambdify(symbols, expression, "numpy", cse=long)


@functools.lru_cache(maxsize=4096)
def _is_linear(expression: sympy.Expr, symbols: frozenset[sympy.Symbol]) -> bool:
    plain = expression.doit()
    return all(sympy.simplify(sympy.diff(plain, a, b)) == 0 for a in symbols for b in symbols)


def formula(function: Callable) -> Formula:
    """Turn a function into a Formula: see the module's text."""
    annotations = inspect.get_annotations(function, eval_str=True)
    result = annotations.pop("return")
    text = inspect.cleandoc(function.__doc__ or "")
    found = re.search(r"^Source: (.*?)(?:\n\n|\Z)", text, re.S | re.M)
    made = Formula(
        name=function.__name__,
        parameters=annotations,
        result=result,
        build=function,
        title=text.split("\n")[0].rstrip("."),
        source=" ".join(found.group(1).split()) if found else "",
    )
    for name, value in (
        ("__wrapped__", function),
        ("__doc__", function.__doc__),
        ("__module__", function.__module__),
        ("__qualname__", function.__qualname__),
    ):
        object.__setattr__(made, name, value)
    return made
