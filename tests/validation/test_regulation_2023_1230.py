"""Regulation (EU) 2023/1230, Annex III: 4.1.2.4 and 4.1.2.5 (working coefficients), 4.1.2.3 (test coefficients).

Wire rope with its terminations 5, textile rope 7; static test 1.5 where worked by hand and 1.25 otherwise, dynamic test 1.1.
"""

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.report.as_json import contract
from tests.rig_builders import straight

MASS_KG, WEIGHT_N = 100.0, 980.665


def rig_with(kind: str, breaking_force_n: float, hand: bool = False):
    rope = {
        "breaking_force": f"{breaking_force_n!r} N",
        "remaining_strength": 1,
        **({"kind": "fibre", "material": "polyester"} if kind == "fibre" else {}),
    }
    builder = straight(MASS_KG, rope=rope)
    if hand:
        builder.data["drive"] = {"kind": "hand line"}
        builder.data["ropes"]["hoist"]["path"][-1] = {"pulled_by_hand_at": ["1.2 m", "1 m"]}
    return builder.rig()


@pytest.mark.parametrize(("kind", "coefficient"), [("steel", 5.0), ("fibre", 7.0)])
def test_the_verdict_on_a_rope_turns_at_the_coefficient(kind, coefficient):
    for share, verdict in ((1 + 1e-9, "holds"), (1 - 1e-6, "falls short")):
        found = contract(assess(rig_with(kind, coefficient * WEIGHT_N * share)))
        end = next(c for c in found["checks"] if c["id"] == "rope.hoist.first-end")
        assert end["required"] == coefficient
        assert end["factor"] == pytest.approx(coefficient, rel=1e-5)
        assert end["verdict"] == verdict


@pytest.mark.parametrize(
    ("hand", "kind", "coefficient"), [(True, "static", 1.5), (False, "static", 1.25), (False, "dynamic", 1.1), (True, "dynamic", 1.1)]
)
def test_the_rig_is_checked_at_the_test_coefficient(hand, kind, coefficient):
    found = contract(assess(rig_with("steel", 40000.0, hand)))
    check = next(c for c in found["checks"] if c["id"] == f"test.{kind}")
    assert f"{MASS_KG * coefficient:g} kg" in check["what"]
    assert any(line["kind"] == "looked up" and line["value"] == coefficient and "2023/1230" in line["source"] for line in found["working"])
