"""Printed lines say what the expression says: order kept, brackets where they are needed, three vocabularies."""

import math
import re

import hypothesis.strategies as st
import pytest
import sympy
from hypothesis import assume, given

from rigcheck.formula import Formula, Sign, formula
from rigcheck.notation import expression
from rigcheck.vocabularies import ATOM, LATEX, LATEX_IN_ROWS, TEXT, TYPST, TYPST_IN_ROWS, Printed

A, B, C = Sign("a", "one"), Sign("b", "two"), Sign("c", "three")
W, ETA, T = Sign("W", "weight", "N"), Sign("η", "efficiency"), Sign("T_hoist", "pull", "N")
a, b, c = (s.symbol for s in (A, B, C))


@formula
def three_parts(weight: W, efficiency: ETA) -> T:
    """Pull of a tackle of three parts.

    Source: balance of forces.

    >>> three_parts(weight=300.0, efficiency=1.0)
    100.0
    """
    return weight / (1 + efficiency + efficiency**2)


def text(node) -> str:
    return expression(node, TEXT, lambda s: Printed(s.name, ATOM)).text


def test_a_textbook_line_is_not_turned_round():
    assert three_parts.printed() == "W / (1 + η + η²)"
    assert three_parts.printed("latex") == r"\frac{W}{1 + \eta + \eta^{2}}"
    assert three_parts.printed("typst") == "frac(W, 1 + eta + eta^(2))"


def test_the_numbers_line_carries_a_unit_with_every_number_that_has_one():
    values = {"weight": 980.665, "efficiency": 0.96}
    assert three_parts.numbers(values) == "980.67 N / (1 + 0.96 + 0.96²)"
    assert three_parts.numbers(values, "latex") == r"\frac{980.67\,\text{N}}{1 + 0.96 + 0.96^{2}}"
    assert three_parts.numbers(values, "typst") == 'frac(980.67 thin "N", 1 + 0.96 + 0.96^(2))'


def test_a_fraction_under_a_bar_is_turned_over_and_one_in_a_sum_there_is_printed_with_a_slash():
    with sympy.evaluate(False):
        turned, summed = a / (b / c), a / (1 + b / c)
    printed = [
        [expression(node, words, lambda s: Printed(s.name, ATOM)).text for words in (TEXT, LATEX, TYPST)] for node in (turned, summed)
    ]
    assert printed[0] == ["a·c / b", r"\frac{a \cdot c}{b}", "frac(a dot c, b)"]
    assert printed[1] == ["a / (1 + b / c)", r"\frac{a}{1 + b / c}", 'frac(a, 1 + b class("binary", slash) c)']


def test_in_rows_nothing_holds_the_parts_together_and_the_order_is_kept():
    with sympy.evaluate(False):
        node = (a + b) / (b * c) - sympy.sqrt(a**2 + b**2) * sympy.cos(c)
    latex, typst = (expression(node, words, lambda s: Printed(s.name, ATOM)).text for words in (LATEX_IN_ROWS, TYPST_IN_ROWS))
    assert latex == r"(a + b) \mathbin{/} (b \cdot c) - \surd(a^{2} + b^{2}) \cdot \operatorname{cos}(c)"
    assert typst == r'\(a + b\) class("binary", slash) \(b dot c\) - "√"\(a^(2) + b^(2)\) dot op("cos")\(c\)'


def test_a_long_subscript_stands_in_rows_in_latex():
    sign = LATEX.sign("F", "hoist rope, end at lighting frame (counterweight eye)")
    rows = re.findall(r"\\text\{([^}]*)\}", sign)
    assert " ".join(rows) == "hoist rope, end at lighting frame (counterweight eye)"
    assert len(rows) == 3
    assert max(map(len, rows)) <= 26
    assert LATEX.sign("F", "hoist rope") == r"F_{\text{hoist rope}}"


def test_what_divides_by_a_reciprocal_alone_leaves_no_empty_place_under_the_bar():
    with sympy.evaluate(False):
        node = a / (1 / b)
    assert text(node) == "a·b"


def test_a_sign_keeps_its_subscript_in_every_vocabulary():
    assert [Sign("T_hoist 1", "pull").printed(v) for v in (TEXT, LATEX, TYPST)] == ["T[hoist 1]", r"T_{\text{hoist 1}}", 'T_"hoist 1"']


def test_names_that_hold_markup_are_escaped():
    name = Sign('T_50% "a" $x_1$ #1 \\ {y}', "pull")
    assert name.printed(LATEX) == r'T_{\text{50\% "a" \$x\_1\$ \#1 \textbackslash  \{y\}}}'
    assert name.printed(TYPST) == r'T_"50% \"a\" $x_1$ #1 \\ {y}"'


def test_a_number_with_a_unit_is_bracketed_before_it_is_raised_to_a_power():
    made = Formula("squared", {"x": W}, W, lambda x: x**2)
    assert made.numbers({"x": 3.0}) == "(3 N)²"


def test_a_negative_number_is_bracketed_in_a_product_a_difference_and_a_power():
    with sympy.evaluate(False):
        made = Formula("mixed", {"x": A, "y": B}, C, lambda x, y: x * y - y + y**2)
    assert made.numbers({"x": 2.0, "y": -3.0}) == "2·(-3) − (-3) + (-3)²"


@pytest.mark.parametrize(
    ("build", "shown"),
    [
        (lambda: a - (b - c), "a − (b − c)"), (lambda: a - (b + c), "a − (b + c)"), (lambda: a / (b * c), "a / (b·c)"), (lambda: (a + b) * c, "(a + b)·c"),
        (lambda: (a + b) / c, "(a + b) / c"), (lambda: (a / b) ** 2, "(a / b)²"), (lambda: -a * b, "-a·b"), (lambda: -(a + b), "-(a + b)"), (lambda: -(a - b) / c, "-(a − b) / c"), (lambda: a ** (b + c), "a^(b + c)"),
        (lambda: sympy.sqrt(a + b), "√(a + b)"), (lambda: a / sympy.sqrt(b), "a / √(b)"), (lambda: a / b**2, "a / b²"), (lambda: 1 / a, "1 / a"),
        (lambda: sympy.exp(a) ** 2, "(e^(a))²"), (lambda: a * sympy.Rational(1, 2), "a·1 / 2"), (lambda: sympy.pi * a**2 / 4, "π·a² / 4"),
    ],
)  # fmt: skip
def test_brackets_stand_where_they_are_needed(build, shown):
    with sympy.evaluate(False):
        assert text(build()) == shown


# -- a printed line, read back, gives the value --------------------------------------------------------------------

leaves = (
    st.sampled_from([a, b, c])
    | st.integers(-5, 9).map(sympy.Integer)
    | st.sampled_from([sympy.Rational(1, 2), sympy.Rational(-2, 3), sympy.pi])
)


def _combine(kind: str, one, other):
    with sympy.evaluate(False):
        return {"+": lambda: sympy.Add(one, other), "-": lambda: sympy.Add(one, sympy.Mul(-1, other)), "*": lambda: sympy.Mul(one, other),
                "/": lambda: sympy.Mul(one, sympy.Pow(other, -1)), "neg": lambda: sympy.Mul(-1, one), "square": lambda: sympy.Pow(one, 2), "cube": lambda: sympy.Pow(one, 3),
                "inverse square": lambda: sympy.Pow(one, -2), "root": lambda: sympy.sqrt(sympy.Pow(one, 2)), "cos": lambda: sympy.cos(one)}[kind]()  # fmt: skip


KINDS = st.sampled_from(["+", "-", "*", "/", "neg", "square", "cube", "inverse square", "root", "cos"])
expressions = st.recursive(leaves, lambda inner: st.builds(_combine, KINDS, inner, inner), max_leaves=9)


def read_back(line: str, values: dict[str, float]) -> float:
    """Evaluate a text line as Python: signs replaced, nothing else added, so that missing brackets show."""
    line = re.sub(r"\^\(", "**(", line).replace("·", "*").replace("−", "-").replace("√", "sqrt").replace("π", "pi")
    line = line.replace("²", "**2").replace("³", "**3")
    return eval(line, {"sqrt": math.sqrt, "cos": math.cos, "pi": math.pi, "__builtins__": {}}, values)


@given(expressions, st.tuples(*[st.integers(-40, 40).filter(bool).map(lambda i: i / 8)] * 3))
def test_a_printed_line_read_back_gives_the_value_of_the_expression(node, numbers):
    values = dict(zip("abc", numbers, strict=True))
    with_numbers = {s: sympy.Float(v) for s, v in zip((a, b, c), numbers, strict=True)}
    try:
        expected = complex(sympy.N(node.xreplace(with_numbers).doit()))
        shown = read_back(text(node), values)
    except (ZeroDivisionError, OverflowError, TypeError, ValueError):
        assume(False)
    assume(abs(expected) < 1e8 and not math.isnan(abs(expected)))
    assert shown == pytest.approx(expected.real, rel=1e-6, abs=1e-6), text(node)


@given(expressions, st.tuples(*[st.integers(-40, 40).filter(bool).map(lambda i: i / 8)] * 3))
def test_a_numbers_line_read_back_gives_the_value_of_the_formula(node, numbers):
    made = Formula("random", {"a": A, "b": B, "c": C}, Sign("x", "result"), lambda **_: node)
    values = dict(zip("abc", numbers, strict=True))
    try:
        expected = complex(sympy.N(node.xreplace({s: sympy.Float(v) for s, v in zip((a, b, c), numbers, strict=True)}).doit()))
        shown = read_back(made.numbers(values), {})
    except (ZeroDivisionError, OverflowError, TypeError, ValueError):
        assume(False)
    assume(abs(expected) < 1e8 and not math.isnan(abs(expected)))
    assert shown == pytest.approx(expected.real, rel=1e-3, abs=1e-3), made.numbers(values)


@given(expressions)
def test_latex_and_typst_close_every_bracket_they_open(node):
    for words in (LATEX, TYPST):
        line = expression(node, words, lambda s: Printed(s.name, ATOM)).text
        for opening, closing in ("()", "{}"):
            assert line.count(opening) == line.count(closing)
        assert line.count(r"\left") == line.count(r"\right")
