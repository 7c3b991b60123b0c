"""One printer for expressions, with three vocabularies: plain text, LaTeX and Typst.

It prints an expression in the order it was written, so it must be handed an unevaluated one. What stands for
a symbol is decided by the caller through `leaf`: its sign, or its number with the unit.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import sympy

SUM, PRODUCT, POWER, ATOM = 1, 2, 3, 4
GREEK = {
    "α": "alpha", "β": "beta", "γ": "gamma", "δ": "delta", "ε": "epsilon", "η": "eta", "θ": "theta", "λ": "lambda", "μ": "mu",
    "π": "pi", "ρ": "rho", "σ": "sigma", "τ": "tau", "φ": "varphi", "ψ": "psi", "ω": "omega", "Δ": "Delta",
}  # fmt: skip
CLOSE = ("°", "'", '"')  # signs of units that stand close to their number
SUPERSCRIPTS = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")


@dataclass(frozen=True)
class Printed:
    """A piece of print and how tightly it binds."""

    text: str
    binds: int


class Text:
    """Plain text: T[hoist 1] = W / (1 + η + η²)."""

    times, minus, plus, equals, slash = "·", " − ", " + ", " = ", " / "

    def sign(self, base: str, subscript: str) -> str:
        return f"{base}[{subscript}]" if subscript else base

    def number(self, number: str) -> str:
        """A number as `units.number` writes it: "1.2e8" and "unknown" among them."""
        return number

    def quantity(self, number: str, unit: str) -> str:
        return f"{number}{unit}" if unit in CLOSE else f"{number} {unit}" if unit else number

    def group(self, text: str) -> str:
        return f"({text})"

    def fraction(self, top: Printed, bottom: Printed) -> Printed:
        above = self.group(top.text) if top.binds < PRODUCT else top.text
        below = self.group(bottom.text) if bottom.binds <= PRODUCT else bottom.text
        return Printed(f"{above}{self.slash}{below}", PRODUCT)

    @property
    def inside(self) -> Text:
        """The same vocabulary for what stands over or under a bar of a fraction: a second bar there would be too small to read."""
        return self

    def power(self, base: str, exponent: str) -> str:
        return base + exponent.translate(SUPERSCRIPTS) if exponent.isdigit() else f"{base}^({exponent})"

    def call(self, name: str, arguments: list[str]) -> str:
        return f"{name}({', '.join(arguments)})"

    def root(self, text: str) -> str:
        return f"√({text})"

    def constant(self, name: str) -> str:
        return {"pi": "π", "e": "e"}[name]


class Latex(Text):
    """LaTeX as KaTeX reads it."""

    times, minus = r" \cdot ", " - "
    _escapes = {
        "\\": r"\textbackslash ", "_": r"\_", "%": r"\%", "$": r"\$", "#": r"\#", "&": r"\&", "{": r"\{", "}": r"\}",
        "^": r"\textasciicircum ", "~": r"\textasciitilde ",
    }  # fmt: skip

    def words(self, text: str) -> str:
        return r"\text{" + "".join(self._escapes.get(c, c) for c in text) + "}"

    def sign(self, base: str, subscript: str) -> str:
        shown = "\\" + GREEK[base] if base in GREEK else base if len(base) == 1 else self.words(base)
        return f"{shown}_{{{self.words(subscript)}}}" if subscript else shown

    def number(self, number: str) -> str:
        mantissa, _, power = number.partition("e")
        return number if _is_plain(number) else rf"{mantissa} \cdot 10^{{{power}}}" if _is_plain(mantissa) else self.words(number)

    def quantity(self, number: str, unit: str) -> str:
        space = "" if unit in CLOSE else r"\,"
        return f"{self.number(number)}{space}{self.words(unit)}" if unit else self.number(number)

    def group(self, text: str) -> str:
        return rf"\left({text}\right)"

    def fraction(self, top: Printed, bottom: Printed) -> Printed:
        return Printed(rf"\frac{{{top.text}}}{{{bottom.text}}}", PRODUCT)

    @property
    def inside(self) -> Text:
        return _IN_LATEX

    def power(self, base: str, exponent: str) -> str:
        return f"{base}^{{{exponent}}}"

    def call(self, name: str, arguments: list[str]) -> str:
        return rf"\operatorname{{{name}}}\left({', '.join(arguments)}\right)"

    def root(self, text: str) -> str:
        return rf"\sqrt{{{text}}}"

    def constant(self, name: str) -> str:
        return {"pi": r"\pi", "e": "e"}[name]


class Typst(Text):
    """Typst mathematics; words go in as quoted strings, never as markup."""

    times, minus, slash = " dot ", " - ", " slash "

    def words(self, text: str) -> str:
        return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'

    def sign(self, base: str, subscript: str) -> str:
        shown = GREEK[base].replace("varphi", "phi") if base in GREEK else base if len(base) == 1 else self.words(base)
        return f"{shown}_{self.words(subscript)}" if subscript else shown

    def number(self, number: str) -> str:
        mantissa, _, power = number.partition("e")
        return number if _is_plain(number) else f"{mantissa} dot 10^({power})" if _is_plain(mantissa) else self.words(number)

    def quantity(self, number: str, unit: str) -> str:
        space = " " if unit in CLOSE else " thin "
        return f"{self.number(number)}{space}{self.words(unit)}" if unit else self.number(number)

    def fraction(self, top: Printed, bottom: Printed) -> Printed:
        return Printed(f"frac({top.text}, {bottom.text})", PRODUCT)

    @property
    def inside(self) -> Text:
        return _IN_TYPST

    def power(self, base: str, exponent: str) -> str:
        return f"{base}^({exponent})"

    def call(self, name: str, arguments: list[str]) -> str:
        return f"op({self.words(name)})({', '.join(arguments)})"

    def root(self, text: str) -> str:
        return f"sqrt({text})"

    def constant(self, name: str) -> str:
        return {"pi": "pi", "e": "e"}[name]


class _InLatex(Latex):
    """LaTeX over or under the bar of a fraction."""

    fraction = Text.fraction


class _InTypst(Typst):
    """Typst over or under the bar of a fraction."""

    fraction = Text.fraction


TEXT, LATEX, TYPST = Text(), Latex(), Typst()
_IN_LATEX, _IN_TYPST = _InLatex(), _InTypst()
Leaf = Callable[[sympy.Symbol], Printed]


def _is_plain(number: str) -> bool:
    """Whether a number is digits, sign and point alone."""
    return number.lstrip("-").replace(".", "", 1).isdigit()


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
