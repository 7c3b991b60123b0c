"""The balance written as lines: the textbook's expression, its number, and the refusal to go on where numbers disagree."""

from fractions import Fraction

import numpy
import pytest
import sympy

from rigcheck.errors import DisagreementError
from rigcheck.formula import Sign
from rigcheck.statics import closed_form
from rigcheck.statics.solution import solve
from rigcheck.working import FORMULA, SOLVED, Working
from tests.rigs import G, counterweighted, falls, lead_sheave, pulls, rig, tackle

W = 100 * G
a, b = sympy.symbols("a b", real=True)


def lead_line(data: dict):
    solution = solve(rig(data))
    runs = solution.runs["hoist"]
    return solution, runs[-1].raising


@pytest.mark.parametrize("parts", [1, 2, 3, 4, 5])
def test_the_lead_pull_of_a_tackle_is_w_over_eta_plus_its_powers(parts):
    solution, line = lead_line(tackle(parts, efficiency=0.96))
    weight, eta = solution.weights["load"].sign.symbol, solution.efficiencies["sheave 1"].sign.symbol
    assert sympy.simplify(line.formula.expression.doit() - weight / sum(eta**k for k in range(1, parts + 1))) == 0
    exact = 1 / sum(Fraction(96, 100) ** k for k in range(1, parts + 1))
    assert line.value[0] == pytest.approx(float(exact) * W, rel=1e-12)


def test_a_tackle_is_printed_as_a_textbook_writes_it():
    _, line = lead_line(tackle(3, efficiency=0.96))
    assert line.kind == SOLVED
    assert line.formula.printed() == "W[load] / (η + η² + η³)"


def test_a_counterweighted_lift_is_solved_counterweight_first():
    """M g = T_cw first; then m g - η T_cw is left for the hoist."""
    solution = solve(rig(counterweighted(100, 60, 0.9)))
    assert [[solution.travel.free[j].body for j in block.equations] for block in solution.order] == [["counterweight"], ["load"]]
    assert pulls(solution, "hoist", 0)[0] == pytest.approx((100 - 0.9 * 60) * G)


def test_two_falls_of_a_tilting_load_are_one_block_solved_by_its_determinants():
    """Falls at ±0.5 m, centre of gravity 0.13 m right, η 0.9: at the drum 0.37 W / 0.9 and 0.63 W / 0.9."""
    solution = solve(rig(falls([-0.5, 0.5], efficiency=0.9, tilts=True, gravity_m=0.13)))
    assert [len(block.ropes) for block in solution.order] == [2]
    assert [pulls(solution, f"fall {n}", 1)[0] for n in (1, 2)] == pytest.approx([0.37 * W / 0.9, 0.63 * W / 0.9])
    assert solution.runs["fall 1"][1].raising.formula is not None


def test_the_pull_beyond_a_sheave_is_a_line_of_its_own():
    solution = solve(rig(lead_sheave(efficiency=0.9)))
    assert solution.runs["hoist"][0].raising.kind == FORMULA
    assert solution.runs["hoist"][0].raising.value[0] == pytest.approx(W)


# -- its parts ---------------------------------------------------------------------------------------------------------


def test_sums_keep_the_order_given_and_drop_what_is_exactly_zero():
    assert closed_form.add([]) == 0
    assert closed_form.add([sympy.Integer(0), b]) == b
    assert closed_form.add([b, a]).args == (b, a)


def test_products_with_zero_and_one_stay_plain():
    one, nought = sympy.Integer(1), sympy.Integer(0)
    assert closed_form.times(nought, a) == 0
    assert closed_form.times(one, a) == a == closed_form.times(a, one)
    assert closed_form.times(-one, sympy.Integer(5)) == -5
    assert closed_form.times(a, b).doit() == a * b
    assert closed_form.times(a, -one).doit() == -a


@pytest.mark.parametrize(
    ("bottom", "value"), [(sympy.Integer(1), a), (sympy.Integer(-1), -a), (b, a / b), (b**-1, a * b), (b**-2, a * b**2)]
)
def test_quotients(bottom, value):
    assert sympy.simplify(closed_form.over(a, bottom).doit() - value) == 0


def test_a_derived_line_without_symbols_is_a_given_number():
    working = Working(numpy.zeros(1))
    line = closed_form.derived(working, Sign("x", "a number", "N"), sympy.Integer(7), {}, "by hand")
    assert line.number == 7.0


@pytest.mark.parametrize(("off", "refused"), [(0.0, False), (1e-8, False), (1e-5, True), (float("nan"), True)])
def test_a_closed_form_that_differs_from_the_numbers_is_an_error(off, refused):
    """Allowed are 1e-9 of the greatest weight, here 980.665 N: 9.8e-7 N."""
    working = Working(numpy.linspace(0, 1, 3))
    line = working.given(Sign("T", "pull", "N"), 490.0, "by hand")
    numeric = numpy.full((3, 1), 490.0)
    numeric[1] += off
    if refused:
        with pytest.raises(DisagreementError, match="closed form and numeric solution of pull differ"):
            closed_form.compare([line], numeric, W)
    else:
        closed_form.compare([line], numeric, W)


def test_a_shared_pull_has_no_closed_form_to_compare():
    closed_form.compare([None], numpy.full((3, 1), numpy.nan), W)
