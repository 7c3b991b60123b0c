"""Sheave rules and printed tackle tables against figures retyped from their sources."""

import pytest

from rigcheck.errors import OutOfRangeError, PartError
from rigcheck.parts.sheave_rule import BEARINGS, DEFAULT_RULE, seamanship_rule, sheave_efficiency, sheave_rules
from rigcheck.parts.tackle_table import line_parts_ratio, measured_tackle, overhaul_factor

# rigger's handbook, ratio table of line parts: bronze bushed, anti-friction
LINE_PARTS = {
    1: (0.96, 0.98),
    2: (1.87, 1.94),
    3: (2.75, 2.88),
    4: (3.59, 3.81),
    5: (4.39, 4.71),
    6: (5.16, 5.60),
    7: (5.90, 6.47),
    8: (6.60, 7.32),
    9: (7.27, 8.16),
    10: (7.91, 8.98),
    11: (8.52, 9.79),
    12: (9.11, 10.6),
}


@pytest.mark.parametrize(
    ("rule", "bearing", "efficiency", "mark"),
    [
        ("line-parts-table", "plain", 1 / 1.045, "read"),
        ("line-parts-table", "rolling", 1 / 1.02, "read"),
        ("wire-rope-board", "plain", 1 / 1.09, "read"),  # Wire Rope Users Manual, 4th ed., p. 88
        ("wire-rope-board", "rolling", 1 / 1.04, "read"),
        ("din-15020", "plain", 0.96, "from memory"),
        ("din-15020", "rolling", 0.98, "read"),
    ],
)
def test_a_rule_gives_its_published_efficiency(rule, bearing, efficiency, mark):
    found = sheave_efficiency(rule, bearing)
    assert found.efficiency == pytest.approx(efficiency, rel=1e-15)
    assert (found.rule, found.bearing, found.mark) == (rule, bearing, mark)


@pytest.mark.parametrize("bearing", BEARINGS)
def test_the_default_rule_has_the_most_friction_of_those_read(bearing):
    read = [found.efficiency for rule in sheave_rules() if (found := sheave_efficiency(rule, bearing)).mark == "read"]
    assert sheave_efficiency(DEFAULT_RULE, bearing).efficiency == min(read)


@pytest.mark.parametrize("parts", LINE_PARTS)
def test_the_worked_back_ratio_reproduces_the_table_it_came_from(parts):
    for bearing, printed in zip(BEARINGS, LINE_PARTS[parts], strict=True):
        assert line_parts_ratio(parts, bearing).value == printed
        efficiency = sheave_efficiency("line-parts-table", bearing).efficiency
        made = sum(efficiency**place for place in range(1, parts + 1))
        assert made == pytest.approx(printed, rel=0.005)  # two figures printed at one part, three above


def test_the_board_rule_reproduces_its_printed_lead_line_factors():
    # Wire Rope Users Manual, p. 88: 4 parts, plain bearings .309; with two more lead sheaves .367, 6000 lb gives 2202 lb
    ratio = 1 / sheave_efficiency("wire-rope-board", "plain").efficiency
    factor = ratio**4 * (ratio - 1) / (ratio**4 - 1)
    assert factor == pytest.approx(0.309, abs=5e-4)
    assert 6000 * factor * ratio**2 == pytest.approx(2202, abs=3)  # the book multiplies the rounded .367


def test_the_seamanship_rule_is_a_tenth_of_the_load_and_no_efficiency():
    assert seamanship_rule().load_share == 0.1  # Nicholls's Seamanship, pp. 68-72
    with pytest.raises(PartError, match=r'"seamanship-tenth".*\n.*line-parts-table, wire-rope-board, din-15020'):
        sheave_efficiency("seamanship-tenth", "plain")


def test_an_unknown_bearing_is_refused_and_no_bearing_is_assumed():
    with pytest.raises(PartError, match=r'"magnetic".*\n.*plain, rolling'):
        sheave_efficiency(DEFAULT_RULE, "magnetic")
    with pytest.raises(PartError, match='"any"'):
        line_parts_ratio(3, "any")


# crane handbook, overhaul factors: parts: roller, bronze
@pytest.mark.parametrize(
    ("parts", "roller", "bronze"), [(1, 1.03, 1.05), (2, 2.07, 2.15), (3, 3.15, 3.28), (4, 4.25, 4.48), (5, 5.38, 5.72)]
)
def test_overhaul_factors_are_those_printed(parts, roller, bronze):
    assert overhaul_factor(parts, "rolling").value == roller
    assert overhaul_factor(parts, "plain").value == bronze


# Workshop Receipts 5, white-rope falls: power: useful share, pull over load
@pytest.mark.parametrize(
    ("parts", "efficiency", "pull"), [(1, 0.90, 1.1), (2, 0.81, 0.62), (3, 0.75, 0.45), (4, 0.68, 0.37), (5, 0.615, 0.32), (6, 0.59, 0.28)]
)
def test_measured_tackles_are_those_printed_and_agree_with_themselves(parts, efficiency, pull):
    tackle = measured_tackle(parts)
    assert (tackle.efficiency, tackle.pull_share) == (efficiency, pull)
    assert tackle.pull_share == pytest.approx(1 / (parts * efficiency), abs=0.013)  # pull printed to two figures


@pytest.mark.parametrize("parts", [0, 13, 2.5, -1])
def test_parts_outside_a_table_are_out_of_range_and_the_limit_is_named(parts):
    with pytest.raises(OutOfRangeError, match="from 1 to 12"):
        line_parts_ratio(parts, "plain")
    with pytest.raises(OutOfRangeError, match="from 1 to 6"):
        measured_tackle(parts)
    with pytest.raises(OutOfRangeError, match="from 1 to 5"):
        overhaul_factor(parts, "plain")
