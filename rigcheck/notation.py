"""One printer for expressions, whatever the vocabulary: plain text, LaTeX or Typst.

It prints an expression in the order it was written, so it must be handed an unevaluated one. What stands for
a symbol is decided by the caller through `leaf`: its sign, or its number with the unit.
"""

from __future__ import annotations

from collections.abc import Callable

import sympy

from rigcheck.vocabularies import ATOM, POWER, PRODUCT, SUM, Printed, Text

Leaf = Callable[[sympy.Symbol], Printed]


def split_sign(name: str) -> tuple[str, str]:
    """Base and subscript of a sign: "T_hoist 1" is T with "hoist 1" below it."""
    base, _, subscript = name.partition("_")
    return base, subscript


def expression(node: sympy.Expr, words: Text, leaf: Leaf) -> Printed:
    """Print one node of an expression."""
    if isinstance(node, sympy.Symbol):
        return leaf(node)
    if isinstance(node, sympy.Add):
        return _sum(node, words, leaf)
    if isinstance(node, sympy.Mul):
        return _product(node, words, leaf)
    if isinstance(node, sympy.Pow):
        return _power(node, words, leaf)
    if node is sympy.pi:
        return Printed(words.constant("pi"), ATOM)
    if isinstance(node, sympy.Rational) and not isinstance(node, sympy.Integer):
        return words.fraction(Printed(str(node.p), ATOM), Printed(str(node.q), ATOM))
    if node.is_number and not node.args:
        text = f"{float(node):.10g}"
        return Printed(words.number(text), SUM if text.startswith("-") else PRODUCT if "e" in text else ATOM)
    if isinstance(node, sympy.exp):
        return Printed(words.power(words.constant("e"), expression(node.args[0], words, leaf).text), POWER)
    name = {"Max": "max", "Min": "min", "Abs": "abs", "atan": "arctan", "acos": "arccos", "log": "ln"}.get(
        node.func.__name__, node.func.__name__
    )
    return Printed(words.call(name, [expression(a, words, leaf).text for a in node.args]), ATOM)


def _flat(node: sympy.Expr, kind: type) -> list[sympy.Expr]:
    return [leaf for part in node.args for leaf in _flat(part, kind)] if isinstance(node, kind) else [node]


def _sum(node, words, leaf) -> Printed:
    text = ""
    for term in _flat(node, sympy.Add):
        negative, positive = _without_sign(term)
        printed = expression(positive, words, leaf)
        shown = words.group(printed.text) if printed.binds <= SUM and negative else printed.text
        if not text:
            text = ("-" if negative else "") + shown
        else:
            text += (words.minus if negative else words.plus) + shown
    return Printed(text, SUM)


def _without_sign(term: sympy.Expr) -> tuple[bool, sympy.Expr]:
    factors = _flat(term, sympy.Mul)
    if factors[0].is_number and factors[0].is_negative:
        rest = factors[1:] if factors[0] == -1 and len(factors) > 1 else [-factors[0], *factors[1:]]
        return True, sympy.Mul(*rest, evaluate=False) if len(rest) > 1 else rest[0]
    return False, term


def _is_reciprocal(node: sympy.Expr) -> bool:
    return isinstance(node, sympy.Pow) and node.exp.is_number and bool(node.exp.is_negative)


def _turned_over(factor: sympy.Pow) -> tuple[list[sympy.Expr], list[sympy.Expr]]:
    """What a factor that divides puts over and under the bar: W / (c / η) is W·η / c, one bar and not two."""
    if factor.exp != -1:
        return [], [sympy.Pow(factor.base, -factor.exp, evaluate=False)]
    parts = _flat(factor.base, sympy.Mul)
    divided = [part for part in parts if _is_reciprocal(part)]
    if not divided or any(part.is_number and part.is_negative for part in parts):
        return [], [factor.base]
    over = [part.base if part.exp == -1 else sympy.Pow(part.base, -part.exp, evaluate=False) for part in divided]
    return over, [part for part in parts if part not in divided and part != 1]


def _product(node, words, leaf) -> Printed:
    negative, positive = _without_sign(node)
    top, bottom = [], []
    for factor in _flat(positive, sympy.Mul):
        if _is_reciprocal(factor):
            over, under = _turned_over(factor)
            top += over
            bottom += under
        else:
            top.append(factor)
    top = [f for f in top if f != 1] or [sympy.Integer(1)]
    printed = words.fraction(_row(top, words.inside, leaf), _row(bottom, words.inside, leaf)) if bottom else _row(top, words, leaf)
    if not negative:
        return printed
    return Printed("-" + (words.group(printed.text) if printed.binds <= SUM else printed.text), SUM)


def _row(factors: list[sympy.Expr], words, leaf) -> Printed:
    if len(factors) == 1:
        return expression(factors[0], words, leaf)
    printed = [expression(f, words, leaf) for f in factors]
    return Printed(words.times.join(words.group(p.text) if p.binds < PRODUCT else p.text for p in printed), PRODUCT)


def _power(node, words, leaf) -> Printed:
    if node.exp == sympy.Rational(1, 2):
        return Printed(words.root(expression(node.base, words, leaf).text), ATOM)
    if _is_reciprocal(node):
        return _product(sympy.Mul(sympy.Integer(1), node, evaluate=False), words, leaf)
    base = expression(node.base, words, leaf)
    shown = words.group(base.text) if base.binds < ATOM else base.text
    return Printed(words.power(shown, expression(node.exp, words, leaf).text), POWER)
