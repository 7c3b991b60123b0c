"""Bend strength, bending life and least diameters against figures retyped from their sources."""

import math

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcheck.errors import OutOfRangeError, PartError
from rigcheck.parts.bend_strength import BEND_MARK, BEND_SOURCE, bend_strength, bending_life
from rigcheck.parts.diameter_ratio import all_ratios, least_ratio

# block maker's table: D/d: strength left
BENDS = {1: 0.50, 2: 0.65, 4: 0.75, 6: 0.79, 8: 0.83, 10: 0.86, 15: 0.89, 20: 0.91, 30: 0.93, 40: 0.95}


@pytest.mark.parametrize("ratio", BENDS)
def test_a_printed_bend_keeps_its_printed_strength(ratio):
    assert bend_strength(ratio) == pytest.approx(BENDS[ratio], rel=1e-15)


def test_between_rows_strength_lies_on_a_straight_line():
    assert bend_strength(16) == pytest.approx(0.894)
    assert bend_strength(16) == pytest.approx(0.90, abs=0.01)  # a sheave maker prints 90 % at 16


def test_beyond_the_last_row_strength_is_held_and_not_extrapolated():
    assert bend_strength(1000) == bend_strength(math.inf) == 0.95


@pytest.mark.parametrize("ratio", [0.99, 0, -5, math.nan])
def test_below_the_first_row_a_number_is_out_of_range(ratio):
    with pytest.raises(OutOfRangeError, match="at least 1"):
        bend_strength(ratio)


def test_in_an_array_only_the_entries_out_of_range_are_marked():
    found = bend_strength(numpy.array([[0.5, 1.0], [math.nan, 40.0]]))
    assert found.shape == (2, 2)
    assert numpy.isnan(found).tolist() == [[True, False], [True, False]]
    assert (found[0, 1], found[1, 1]) == (0.5, 0.95)


def test_a_number_gives_a_plain_number():
    assert type(bend_strength(12)) is type(bend_strength(numpy.float64(12))) is float


@given(st.floats(1, 500), st.floats(0, 100))
def test_a_wider_bend_never_keeps_less(ratio, wider_by):
    assert 0.5 <= bend_strength(ratio) <= bend_strength(ratio + wider_by) <= 0.95


def test_the_bend_table_has_a_source_that_was_read():
    assert "block maker" in BEND_SOURCE
    assert BEND_MARK == "read"


# block maker's table: D/d: relative life
@pytest.mark.parametrize(("ratio", "life"), [(12, 1.1), (14, 1.5), (16, 2.1), (18, 2.9), (20, 3.8), (25, 6.6), (30, 10.0)])
def test_a_printed_bending_life_is_given(ratio, life):
    assert bending_life(ratio) == pytest.approx(life)


@pytest.mark.parametrize("ratio", [11.9, 30.1])
def test_bending_life_is_not_extrapolated_either_way(ratio):
    with pytest.raises(OutOfRangeError, match="12 to 30"):
        bending_life(ratio)
    assert numpy.isnan(bending_life(numpy.array([ratio, 20.0]))).tolist() == [True, False]


@pytest.mark.parametrize(
    ("item", "rope_kind", "value", "mark"),
    [
        ("sheave", "steel", 16, "read"),  # ASME B30.5, load-hoist sheave
        ("drum", "steel", 18, "read"),  # Mich. Admin. Code R 408.42925(2)(d)(ii)
        ("sheave", "fibre", 8, "from memory"),
        ("drum", "fibre", 8, "from memory"),
    ],
)
def test_the_least_ratio_is_the_published_one(item, rope_kind, value, mark):
    found = least_ratio(item, rope_kind)
    assert (found.value, found.mark, found.use) == (value, mark, "limit")


def test_there_is_one_limit_for_each_item_and_kind_of_rope():
    for item in ("sheave", "drum"):
        for rope_kind in ("steel", "fibre"):
            assert [found.use for found in all_ratios(item, rope_kind)].count("limit") == 1


def test_other_published_ratios_stand_beside_the_limit():
    read = {found.applies: found.value for found in all_ratios("sheave", "steel") if found.mark == "read"}
    assert read == {"load hoist": 16, "6x37 running": 24}  # ASME B30.5; CMAA 70


def test_an_unknown_item_lists_what_exists():
    with pytest.raises(PartError, match=r'"capstan under steel rope".*\n.*sheave under steel rope'):
        least_ratio("capstan", "steel")
    with pytest.raises(PartError, match="under wet rope"):
        all_ratios("drum", "wet")
