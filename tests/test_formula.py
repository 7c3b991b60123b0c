"""A formula: numbers and arrays, its range, its derivative, its source."""

import numpy
import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st

from rigcheck.errors import OutOfRangeError
from rigcheck.formula import Sign, formula

LOAD = Sign("W", "weight", "N", low=0)
SHARE = Sign("η", "efficiency of a sheave", "", above=0, high=1)
ANGLE = Sign("θ", "angle between the lines", "°", low=0, below=3.0)
PULL = Sign("T", "pull", "N")


@formula
def two_parts(load: LOAD, efficiency: SHARE) -> PULL:
    """Pull on two parts. It is a formula for tests.

    Source: hand work,
    over two lines.

    >>> two_parts(load=20.0, efficiency=1.0)
    10.0
    """
    return load / (efficiency + efficiency**2)


@formula
def lines_at_an_angle(load: LOAD, angle: ANGLE) -> PULL:
    """Pull in two lines at an angle.

    Source: hand work.
    """
    return load / (2 * sympy.cos(angle / 2))


def test_a_formula_reads_title_and_source_from_its_text():
    assert two_parts.title == "Pull on two parts. It is a formula for tests"
    assert two_parts.source == "hand work, over two lines."
    assert two_parts.name == "two_parts"
    assert list(two_parts.parameters) == ["load", "efficiency"]


def test_numbers_give_a_number_and_arrays_an_array_of_their_shape():
    assert two_parts(load=20.0, efficiency=1.0) == 10.0
    assert isinstance(two_parts(load=20, efficiency=1), float)
    assert two_parts(load=numpy.array([20.0, 40.0]), efficiency=1.0).tolist() == [10.0, 20.0]
    assert two_parts(load=numpy.ones((3, 1)), efficiency=numpy.ones(2)).shape == (3, 2)


@pytest.mark.parametrize(
    ("values", "shown"),
    [({"load": -1.0, "efficiency": 0.9}, "W = -1 N"), ({"load": 1.0, "efficiency": 0.0}, "η = 0"), ({"load": 1.0, "efficiency": 1.01}, "η = 1.01"),
     ({"load": float("nan"), "efficiency": 0.9}, "W = unknown")],
)  # fmt: skip
def test_a_number_outside_the_range_is_refused_with_its_value_and_the_range(values, shown):
    with pytest.raises(OutOfRangeError) as fault:
        two_parts(**values)
    assert fault.value.wrong.startswith(shown)
    assert fault.value.where == two_parts.title
    assert "at least 0 N" in fault.value.right or "above 0, at most 1" in fault.value.right


def test_the_ends_of_a_range_belong_to_it_only_where_they_are_said_to():
    assert two_parts(load=0.0, efficiency=1.0) == 0.0
    assert lines_at_an_angle(load=10.0, angle=0.0) == 5.0
    with pytest.raises(OutOfRangeError, match="172° "):
        lines_at_an_angle(load=10.0, angle=3.0 + 2e-3)


def test_in_an_array_only_the_entries_outside_the_range_are_marked():
    found = two_parts(load=numpy.array([20.0, -1.0, 20.0, numpy.nan]), efficiency=numpy.array([1.0, 1.0, 1.5, 1.0]))
    assert found[0] == 10.0
    assert numpy.isnan(found[1:]).all()


def test_the_expression_is_kept_as_it_was_written():
    assert two_parts.printed() == "W / (η + η²)"
    assert lines_at_an_angle.printed() == "W / (2·cos(θ / 2))"
    assert lines_at_an_angle.printed(signs={"load": LOAD.of("shell")}) == "W[shell] / (2·cos(θ / 2))"


@given(st.floats(1, 1e4), st.floats(0.5, 1.0))
def test_the_derivative_is_the_slope(load, efficiency):
    for name, step in (("load", 1e-3 * load), ("efficiency", 1e-6)):
        values = {"load": load, "efficiency": efficiency}
        ends = [two_parts.compiled(*(values | {name: values[name] + side * step}).values()) for side in (1, -1)]
        assert two_parts.gradient[name](load, efficiency) == pytest.approx((ends[0] - ends[1]) / (2 * step), rel=1e-6)


def test_a_formula_knows_in_what_it_is_straight():
    assert two_parts.is_linear_in({"load"})
    assert not two_parts.is_linear_in({"efficiency"})
    assert not two_parts.is_linear_in({"load", "efficiency"})


def test_a_sign_of_one_part_carries_the_part_below_it_and_keeps_unit_and_range():
    sign = SHARE.of("head sheave", "efficiency of the head sheave")
    assert (sign.letter, sign.meaning, sign.high) == ("η_head sheave", "efficiency of the head sheave", 1)
    assert sign.of("2").letter == "η_head sheave 2"
    assert Sign("x", "any").range_text() == "any value"
