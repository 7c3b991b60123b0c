"""Wire Rope Users Manual, 4th ed., p. 88 (reproduced in a crane manual): lead-line factors, plain bearings 1.09 a sheave.

Four parts over four sheaves: .309; with two more lead sheaves .309 × 1.09² = .367; a load of 6,000 lb then pulls 2,202 lb.
"""

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.report.as_json import contract
from tests.rig_builders import tackle

LOAD_LB, POUND_KG, G = 6000.0, 0.45359237, 9.80665


def lead_line_lbf(leads: int, bearing: str = "plain", parts: int = 4) -> float:
    rig = tackle(
        parts, leads=leads, mass_kg=LOAD_LB * POUND_KG, sheave={"bearing": bearing}, basis={"sheave_rule": "wire-rope-board"}
    ).rig()
    return contract(assess(rig))["tensions"][-1]["raising_n"] / (POUND_KG * G)


def test_lead_line_factor_of_four_parts_on_plain_bearings():
    assert lead_line_lbf(0) / LOAD_LB == pytest.approx(0.309, abs=0.0005)


def test_lead_line_factor_with_two_more_lead_sheaves():
    assert lead_line_lbf(2) / LOAD_LB == pytest.approx(0.367, abs=0.0005)


def test_lead_line_pull_of_the_example():
    # the book multiplies by the factor rounded to .367 and prints 2,202 lb; unrounded it is 2,200.4 lb
    assert lead_line_lbf(2) == pytest.approx(2202, abs=0.0005 * LOAD_LB)
    assert lead_line_lbf(2) == pytest.approx(2200.4, abs=0.1)


@pytest.mark.parametrize(("parts", "factor"), [(2, 0.530), (3, 0.360), (6, 0.191)])
def test_anti_friction_factors_computed_from_the_printed_ratio(parts, factor):
    # computed from the printed 1.04 by f = K^S (K - 1) / (K^N - 1) with S = N; these cells were not read
    assert lead_line_lbf(0, "rolling", parts) / LOAD_LB == pytest.approx(factor, abs=0.0005)
