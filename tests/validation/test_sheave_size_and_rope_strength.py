"""A block maker's table "sheave size and wire rope strength": share of strength left at a bend, and its printed example.

Cross-checks from other publications: Wire Rope Technical Board, D/d 1 leaves 50 % and D/d 40 loses up to 5 %; a sheave maker, D/d 16 leaves 90 %.
"""

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.report.as_json import contract
from tests.rig_builders import straight

FORCE_N = 40000.0


def share_over_head_sheave(rope_m: float, ratio: float) -> float:
    rope = {"diameter": rope_m, "breaking_force": f"{FORCE_N!r} N", "remaining_strength": 1}
    builder = straight(rope=rope)
    builder.data["sheaves"]["head"]["pitch_diameter"] = f"{rope_m * ratio!r} m"
    checks = contract(assess(builder.rig()))["checks"]
    return next(c["capacity"] for c in checks if c["id"] == "rope.hoist.sheave.head") / FORCE_N


@pytest.mark.parametrize(
    ("ratio", "printed"),
    [(1, 0.50), (2, 0.65), (4, 0.75), (6, 0.79), (8, 0.83), (10, 0.86), (15, 0.89), (20, 0.91), (30, 0.93), (40, 0.95)],
)
def test_share_of_strength_at_a_bend(ratio, printed):
    assert share_over_head_sheave(0.01, ratio * (1 + 1e-12)) == pytest.approx(printed, abs=1e-9)


def test_printed_example_of_a_half_inch_rope_on_a_ten_inch_sheave():
    assert share_over_head_sheave(0.0127, 20) == pytest.approx(0.91, abs=0.005)


def test_a_sheave_makers_ninety_per_cent_at_sixteen():
    # a different publication; the table, read off a straight line, gives 89.4 %
    assert share_over_head_sheave(0.01, 16) == pytest.approx(0.90, abs=0.01)
