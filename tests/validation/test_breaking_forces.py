"""Tabulated minimum breaking forces in two publications that share nothing with the factors of EN 12385-4 in our catalogue.

API Spec 9A / ISO 10425, Table C.1: 6x7 fibre core, kN at grades 1770 and 1960. Tolerance half of the last place printed; 338 and 375 kN at
24 mm are three figures, where d² R K gives 338.5 and 374.8.
Bhandari, Design of Machine Elements, Table 23.4: 6x19M with fibre core and steel core, kN. The table is rounded roughly (31 for 30.8, 60 for
60.2, 65 for 65.1): 1.2 %, or half a kilonewton where that is more (39 for 38.5), covers its clean cells; the cells that are misprinted in the stored copy are left out.
"""

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.report.as_json import contract
from tests.rig_builders import straight


def end_capacity_kn(diameter_mm: float, construction: str, grade: int) -> float:
    """What the rope of a rig bears at an end whose fitting takes nothing, in new condition: its breaking force."""
    rope = {"diameter": diameter_mm / 1000, "construction": construction, "grade": f"{grade} N/mm²", "remaining_strength": 1}
    checks = contract(assess(straight(rope=rope).rig()))["checks"]
    return next(c["capacity"] for c in checks if c["id"] == "rope.hoist.first-end") / 1000


@pytest.mark.parametrize(
    ("diameter_mm", "grade", "printed_kn", "half_of_last_place"),
    [
        (6, 1770, 21.2, 0.05), (6, 1960, 23.4, 0.05), (7, 1770, 28.8, 0.05), (7, 1960, 31.9, 0.05), (8, 1770, 37.6, 0.05), (8, 1960, 41.6, 0.051),
        (10, 1770, 58.8, 0.05), (10, 1960, 65.1, 0.05), (12, 1770, 84.6, 0.05), (12, 1960, 93.7, 0.05), (16, 1770, 150, 0.5), (16, 1960, 167, 0.5),
        (24, 1770, 338, 0.5), (24, 1960, 375, 0.5),
    ],
)  # fmt: skip
def test_api_9a_6x7_fibre_core(diameter_mm, grade, printed_kn, half_of_last_place):
    assert end_capacity_kn(diameter_mm, "6x7 FC", grade) == pytest.approx(printed_kn, abs=half_of_last_place)


@pytest.mark.parametrize(
    ("diameter_mm", "core", "grade", "printed_kn"),
    [
        (8, "FC", 1570, 31), (8, "FC", 1770, 35), (8, "FC", 1960, 39), (8, "IWRC", 1770, 37.6), (8, "IWRC", 1960, 41.6),
        (10, "FC", 1570, 48), (10, "FC", 1770, 54), (10, "FC", 1960, 60), (10, "IWRC", 1770, 58.7), (10, "IWRC", 1960, 65),
        (12, "FC", 1770, 78), (12, "FC", 1960, 87), (12, "IWRC", 1770, 84.6), (20, "FC", 1960, 241), (26, "IWRC", 1960, 439),
    ],
)  # fmt: skip
def test_bhandari_6x19m(diameter_mm, core, grade, printed_kn):
    assert end_capacity_kn(diameter_mm, f"6x19M {core}", grade) == pytest.approx(printed_kn, rel=0.012, abs=0.5)
