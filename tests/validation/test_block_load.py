"""Load on a lead block from the angle between its two lines, as printed in most rigging handbooks: 2 T cos(θ/2).

The printed factors are 2.00, 1.93, 1.85, 1.73, 1.41, 1.00 and 0.52 (here recomputed from that formula as well as read from the tables).
"""

from math import cos, radians, sin

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.report.as_json import contract
from tests.rig_builders import straight

MASS_KG, WEIGHT_N = 100.0, 980.665
SHEAVE_M, WINDING_M = 0.05, 0.053


@pytest.mark.parametrize(("angle_deg", "printed"), [(0, 2.00), (30, 1.93), (45, 1.85), (60, 1.73), (90, 1.41), (120, 1.00), (150, 0.52)])
def test_block_load_over_line_pull(angle_deg, printed):
    along = sin(radians(angle_deg)), -cos(radians(angle_deg))  # the direction in which the line leaves
    across = -along[1], along[0]
    builder = straight(MASS_KG)
    builder.winch(tuple(c + (SHEAVE_M - WINDING_M) * n + 2.0 * u for c, n, u in zip((0.05, 4.0), across, along, strict=True)))
    checks = contract(assess(builder.rig()))["checks"]
    demand = next(c["demand"] for c in checks if c["id"] == "sheave.head.pin.hoist")
    assert demand / WEIGHT_N == pytest.approx(printed, abs=0.005)
    assert demand / WEIGHT_N == pytest.approx(2 * cos(radians(angle_deg) / 2), rel=1e-9)
