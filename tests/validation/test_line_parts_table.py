"""A rigger's handbook, "how to figure line parts": ratio of load to single line pull, lead line coming off the fixed block.

Read in two public copies. Bearings: bronze bush (tension ratio 1.045 a sheave) and anti-friction (1.02). The table prints two decimals
up to 9.79 and one at 10.6; its cells are off by up to one in the last place (5.90 where the sum gives 5.893), so that is the tolerance.
The same handbook family prints overhaul (lowering) factors for one to five parts (secondary copy of a crane handbook).
"""

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.report.as_json import contract
from tests.rig_builders import tackle

POUND_KG, G = 0.45359237, 9.80665
LOAD_LB = 1000.0


def line_pull_lbf(parts: int, way: str, **sheave) -> float:
    rig = tackle(parts, mass_kg=LOAD_LB * POUND_KG, sheave=sheave, basis={"sheave_rule": "line-parts-table"}).rig()
    return contract(assess(rig))["tensions"][-1][f"{way}_n"] / (POUND_KG * G)


@pytest.mark.parametrize(
    ("parts", "bearing", "printed", "last_place"),
    [
        (1, "plain", 0.96, 0.01), (2, "plain", 1.87, 0.01), (3, "plain", 2.75, 0.01), (4, "plain", 3.59, 0.01), (5, "plain", 4.39, 0.01),
        (7, "plain", 5.90, 0.01), (9, "plain", 7.27, 0.01), (12, "plain", 9.11, 0.01),
        (1, "rolling", 0.98, 0.01), (2, "rolling", 1.94, 0.01), (3, "rolling", 2.88, 0.01), (4, "rolling", 3.81, 0.01), (6, "rolling", 5.60, 0.01),
        (8, "rolling", 7.32, 0.01), (12, "rolling", 10.6, 0.05),
    ],
)  # fmt: skip
def test_load_over_line_pull(parts, bearing, printed, last_place):
    assert LOAD_LB / line_pull_lbf(parts, "raising", bearing=bearing) == pytest.approx(printed, abs=last_place)


def test_printed_sample_of_72480_lb_on_an_8000_lb_line_needs_twelve_parts_on_bronze_and_eleven_on_anti_friction():
    needed = 9.06  # printed: 72,480 lb over 8,000 lb
    assert LOAD_LB / line_pull_lbf(12, "raising", bearing="plain") > needed > LOAD_LB / line_pull_lbf(11, "raising", bearing="plain")
    assert LOAD_LB / line_pull_lbf(11, "raising", bearing="rolling") > needed > LOAD_LB / line_pull_lbf(10, "raising", bearing="rolling")


@pytest.mark.parametrize(
    ("parts", "ratio", "printed"),
    # bronze: 1.045 a sheave. Two parts are printed as 2.15 and come to 2.137, four as 4.48 and come to 4.471: the table seems to have been
    # worked with factors rounded on the way. Roller: 1.025 a sheave fits all five rows within 0.7 %; the copy does not print its ratio.
    [(1, 1.045, 1.05), (2, 1.045, 2.15), (3, 1.045, 3.28), (4, 1.045, 4.48), (5, 1.045, 5.72),
     (1, 1.025, 1.03), (2, 1.025, 2.07), (3, 1.025, 3.15), (4, 1.025, 4.25), (5, 1.025, 5.38)],
)  # fmt: skip
def test_overhaul_factor_is_load_over_line_pull_while_lowering(parts, ratio, printed):
    assert LOAD_LB / line_pull_lbf(parts, "lowering", efficiency=1 / ratio) == pytest.approx(printed, rel=0.007)
