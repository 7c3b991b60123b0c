"""Friction: in the direction in which rope flows over a sheave its pull rises by 1/η; every number by hand, W = 980.665 N."""

import numpy
import pytest

from rigcheck.statics import friction
from rigcheck.statics.solution import solve
from tests.rigs import G, counterweighted, lead_sheave, pulls, rig, tackle

W = 100 * G


def test_raising_the_pull_rises_at_every_sheave_towards_the_drum_and_lowering_it_falls():
    solution = solve(rig(lead_sheave(efficiency=0.9, heads=2)))
    assert [pulls(solution, "hoist", k)[0] for k in range(3)] == pytest.approx([W, W / 0.9, W / 0.81])
    assert [pulls(solution, "hoist", k)[1] for k in range(3)] == pytest.approx([W, 0.9 * W, 0.81 * W])


def test_a_running_block_shares_by_the_flow_and_not_by_which_end_is_pulled():
    """Two parts, η = 0.9, from the becket: T, T/η raising; T, η T lowering; together W."""
    solution = solve(rig(tackle(2, efficiency=0.9)))
    raising, lowering = W / (1 + 1 / 0.9), W / 1.9
    assert [pulls(solution, "hoist", k)[0] for k in range(3)] == pytest.approx([raising, raising / 0.9, raising / 0.81])
    assert [pulls(solution, "hoist", k)[1] for k in range(3)] == pytest.approx([lowering, 0.9 * lowering, 0.81 * lowering])


def test_the_lead_pull_of_a_tackle_is_w_over_eta_and_its_powers():
    for parts in (1, 2, 3, 4):
        solution = solve(rig(tackle(parts, efficiency=0.95)))
        assert pulls(solution, "hoist", parts)[0] == pytest.approx(W / sum(0.95**k for k in range(1, parts + 1)))


def test_in_a_counterweight_rope_raising_relieves_the_load_side_and_lowering_burdens_it():
    """Raising, rope flows from the load to the counterweight: the load's side has η M g; lowering it has M g / η."""
    solution = solve(rig(counterweighted(100, 60, 0.9)))
    load_side, weight_side = pulls(solution, "cw rope", 0), pulls(solution, "cw rope", 1)
    assert load_side[:2] == pytest.approx((0.9 * 60 * G, 60 * G / 0.9))
    assert weight_side[:2] == pytest.approx((60 * G, 60 * G))
    assert pulls(solution, "hoist", 0)[:2] == pytest.approx(((100 - 54) * G, (100 - 60 / 0.9) * G))


def test_standing_still_each_sheave_holds_any_ratio_between_eta_and_its_inverse():
    """Two heads of 0.9 in a row: the load's part carries W, the drum's part anything from 0.81 W to W / 0.81."""
    solution = solve(rig(lead_sheave(efficiency=0.9, heads=2)))
    assert pulls(solution, "hoist", 0)[2:] == pytest.approx((W, W))
    assert pulls(solution, "hoist", 2)[2:] == pytest.approx((0.81 * W, W / 0.81))


def test_the_becket_of_a_tackle_at_rest_may_carry_more_than_it_does_raising():
    solution = solve(rig(tackle(2, efficiency=0.9)))
    assert pulls(solution, "hoist", 0)[2:] == pytest.approx((W / (1 + 1 / 0.9), W / 1.9))


def test_the_holding_range_is_at_least_as_wide_as_both_moving_values():
    solution = solve(rig(tackle(4, efficiency=0.9)))
    for k in range(5):
        raising, lowering, least, most = pulls(solution, "hoist", k)
        assert least <= min(raising, lowering) * (1 + 1e-9)
        assert most >= max(raising, lowering) * (1 - 1e-9)


def test_powers_are_counted_outwards_from_the_run_at_the_drum():
    solution = solve(rig(tackle(2, efficiency=0.9)))
    powers = solution.powers["hoist"]
    assert powers.reference == 2
    assert powers.counts[..., 0].tolist() == [[1, 1], [0, 1], [0, 0]]
    assert powers.steady()
    ratios = powers.ratios({"sheave 1": 0.9, "sheave 2": 0.8}, friction.RAISING)
    assert [float(numpy.ravel(r)[0]) for r in ratios] == pytest.approx([0.72, 0.8, 1.0])
    ratios = powers.ratios({"sheave 1": 0.9, "sheave 2": 0.8}, friction.LOWERING)
    assert [float(numpy.ravel(r)[0]) for r in ratios] == pytest.approx([1 / 0.72, 1 / 0.8, 1.0])
