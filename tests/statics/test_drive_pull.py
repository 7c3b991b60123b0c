"""What the drum feels: the ropes on it together, each at what it can carry at the same time. W = 980.665 N."""

import pytest

from rigcheck.statics.solution import solve
from tests.rigs import G, counterweighted, falls, lead_sheave, rig, tackle

W = 100 * G


def drum(data: dict) -> dict[str, float]:
    solution = solve(rig(data))
    return {case: float(line.value[0]) for case, line in solution.drive_pull.items()}


def test_one_rope_on_the_drum_is_all_there_is():
    assert drum(lead_sheave(efficiency=0.9)) == pytest.approx(
        {"raising": W / 0.9, "lowering": 0.9 * W, "lowering least": 0.9 * W, "holding most": W / 0.9}
    )


def test_a_tackle_pulls_with_its_lead_line_alone():
    assert drum(tackle(4))["raising"] == pytest.approx(W / 4)


def test_two_falls_that_share_pull_as_much_as_one_alone_and_not_twice():
    assert drum(falls([-0.5, 0.5])) == pytest.approx(dict.fromkeys(("raising", "lowering", "lowering least", "holding most"), W))


def test_two_falls_of_different_friction_pull_between_one_and_the_other():
    data = falls([-0.5, 0.5])
    data["sheaves"]["head 1"]["efficiency"], data["sheaves"]["head 2"]["efficiency"] = 0.8, 0.9
    found = drum(data)
    assert (found["raising"], found["lowering"], found["lowering least"]) == pytest.approx((W / 0.8, 0.9 * W, 0.8 * W))


def test_two_falls_that_do_not_share_add_up():
    assert drum(falls([-0.5, 0.5], tilts=True, gravity_m=0.1)) == pytest.approx(
        dict.fromkeys(("raising", "lowering", "lowering least", "holding most"), W)
    )
    assert drum(falls([-0.5, 0.5], efficiency=0.9, tilts=True, gravity_m=0.1))["raising"] == pytest.approx(W / 0.9)


def test_four_falls_to_a_tilting_load_pull_w_though_their_worst_shares_add_up_to_two_and_a_half():
    """Shares W/2, 3W/4, 3W/4, W/2 do not come together: whichever pair carries, the pulls add up to W."""
    found = drum(falls([-0.6, -0.2, 0.2, 0.6], tilts=True))
    assert (found["raising"], found["lowering"], found["lowering least"]) == pytest.approx((W, W, W))
    assert found["holding most"] >= W


def test_four_falls_to_a_tilting_load_with_one_rough_sheave_pull_between_the_extremes_of_their_pairs():
    """Only head 2 (at -0.2 m) has η = 0.8. Carried by it and the one at 0.6 m it bears 3W/4: raising 3W/4 / 0.8 + W/4, lowering 3W/4 · 0.8 + W/4."""
    data = falls([-0.6, -0.2, 0.2, 0.6], tilts=True)
    data["sheaves"]["head 2"]["efficiency"] = 0.8
    found = drum(data)
    assert found["raising"] == pytest.approx(0.75 * W / 0.8 + 0.25 * W)
    assert found["lowering"] == pytest.approx(W)
    assert found["lowering least"] == pytest.approx(0.75 * W * 0.8 + 0.25 * W)


def test_a_counterweight_takes_its_weight_off_the_drum():
    assert drum(counterweighted(100, 60))["raising"] == pytest.approx(40 * G)
