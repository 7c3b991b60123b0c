"""Sums, products and quotients as the balance writes them: the order is kept, plain 0 and ±1 stay plain, and the value is right."""

import itertools

import pytest
import sympy

from rigcheck.notation import expression
from rigcheck.statics.closed_form import add, over, times
from rigcheck.vocabularies import ATOM, TEXT, Printed

x, y = sympy.symbols("x y", real=True)
PIECES = [sympy.Integer(i) for i in (-1, 0, 1, 5, -3)] + [sympy.Float(0.5), x, y]
PUT_IN = {x: 1.7, y: -2.3}


@pytest.mark.parametrize(("one", "other"), list(itertools.product(PIECES, PIECES)))
def test_a_product_has_the_value_of_its_factors(one, other):
    assert float(times(one, other).subs(PUT_IN)) == pytest.approx(float(one.subs(PUT_IN)) * float(other.subs(PUT_IN)))


@pytest.mark.parametrize(("one", "other"), [pair for pair in itertools.product(PIECES, PIECES) if pair[1] != 0])
def test_a_quotient_has_the_value_of_its_parts(one, other):
    assert float(over(one, other).subs(PUT_IN)) == pytest.approx(float(one.subs(PUT_IN)) / float(other.subs(PUT_IN)))


def test_a_sum_keeps_its_order_and_leaves_out_nothing_but_zeros():
    made = add([sympy.Integer(1), y, sympy.Integer(0), x])
    assert expression(made, TEXT, lambda s: Printed(s.name, ATOM)).text == "1 + y + x"
    assert float(made.subs(PUT_IN)) == pytest.approx(1 - 2.3 + 1.7)
    assert add([]) == 0
