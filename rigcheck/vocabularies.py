"""Three vocabularies in which an expression is printed: plain text, LaTeX and Typst, the last two also in a form that may break into rows."""

from __future__ import annotations

import textwrap
from dataclasses import dataclass

SUM, PRODUCT, POWER, ATOM = 1, 2, 3, 4
GREEK = {
    "α": "alpha", "β": "beta", "γ": "gamma", "δ": "delta", "ε": "epsilon", "η": "eta", "θ": "theta", "λ": "lambda", "μ": "mu",
    "π": "pi", "ρ": "rho", "σ": "sigma", "τ": "tau", "φ": "varphi", "ψ": "psi", "ω": "omega", "Δ": "Delta",
}  # fmt: skip
CLOSE = ("°", "'", '"')  # signs of units that stand close to their number
LONGEST_SUBSCRIPT = 26  # signs in a row
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
        return f"{shown}_{{{self._below(subscript)}}}" if subscript else shown

    def _below(self, subscript: str) -> str:
        """A subscript, a long one in several rows: what cannot break must be no wider than a telephone."""
        rows = [self.words(row) for row in textwrap.wrap(subscript, LONGEST_SUBSCRIPT)] or [self.words(subscript)]
        return rows[0] if len(rows) == 1 else r"\begin{subarray}{l}" + r"\\".join(rows) + r"\end{subarray}"

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

    times, minus, slash = " dot ", " - ", ' class("binary", slash) '

    def words(self, text: str) -> str:
        return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'

    def sign(self, base: str, subscript: str) -> str:
        shown = GREEK[base].replace("varphi", "phi") if base in GREEK else base if len(base) == 1 else self.words(base)
        return f"{shown}_{self.words(subscript)}" if subscript else shown

    def number(self, number: str) -> str:
        mantissa, _, power = number.partition("e")
        return number if _is_plain(number) else f"{mantissa} dot 10^({power})" if _is_plain(mantissa) else self.words(number)

    def quantity(self, number: str, unit: str) -> str:
        space = "" if unit in CLOSE else " thin "
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


class _InRows:
    """Mathematics that may break at every sign: no bar of a fraction or a root, and no bracket that grows, holds its parts together."""

    fraction, inside = Text.fraction, Text.inside


class LatexInRows(_InRows, Latex):
    """LaTeX that may break."""

    slash = r" \mathbin{/} "

    def group(self, text: str) -> str:
        return f"({text})"

    def call(self, name: str, arguments: list[str]) -> str:
        return rf"\operatorname{{{name}}}({', '.join(arguments)})"

    def root(self, text: str) -> str:
        return rf"\surd({text})"


class TypstInRows(_InRows, Typst):
    """Typst mathematics that may break; an escaped bracket looks for no partner."""

    def group(self, text: str) -> str:
        return rf"\({text}\)"

    def call(self, name: str, arguments: list[str]) -> str:
        return rf"op({self.words(name)})\({', '.join(arguments)}\)"

    def root(self, text: str) -> str:
        return rf'"√"\({text}\)'


TEXT, LATEX, TYPST = Text(), Latex(), Typst()
LATEX_IN_ROWS, TYPST_IN_ROWS = LatexInRows(), TypstInRows()
_IN_LATEX, _IN_TYPST = _InLatex(), _InTypst()
VOCABULARIES = {"text": TEXT, "latex": LATEX, "typst": TYPST, "latex in rows": LATEX_IN_ROWS, "typst in rows": TYPST_IN_ROWS}


def _is_plain(number: str) -> bool:
    """Whether a number is digits, sign and point alone."""
    return number.lstrip("-").replace(".", "", 1).isdigit()
