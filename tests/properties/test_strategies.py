"""The strategies draw what they promise: few degenerate rigs, wraps over 180°, pulls that turn round, and rigs on which a wrong answer shows."""

from collections import Counter

import numpy
import pytest
import sympy
from hypothesis import given, settings

from rigcheck.errors import DisagreementError, GeometryError
from rigcheck.statics import closed_form, friction
from rigcheck.statics.solution import solve
from tests.properties.strategies import HEIGHTS, KINDS
from tests.rig_builders import counterweighted, tackle


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_most_drawn_rigs_have_an_answer_with_every_rope_taut(kind):
    counted = Counter()

    @settings(max_examples=30)
    @given(KINDS[kind]())
    def draw(builder):
        counted["drawn"] += 1
        try:
            solution = solve(builder.rig(), HEIGHTS)
        except GeometryError:
            counted["degenerate"] += 1
            return
        counted["taut"] += not solution.slack().any()
        counted["over 180°"] += any(numpy.max(path.wraps, initial=0.0) > numpy.pi + 1e-6 for path in solution.travel.paths.values())

    draw()
    assert counted["drawn"] >= 30
    assert counted["degenerate"] <= 0.2 * counted["drawn"], counted
    assert counted["taut"] >= 0.6 * counted["drawn"], counted
    assert counted["over 180°"] > 0 or kind != "tackles"


def test_a_closed_form_that_is_wrong_by_a_millionth_is_caught(monkeypatch):
    right = closed_form.over
    monkeypatch.setattr(closed_form, "over", lambda top, bottom: sympy.Mul(right(top, bottom), sympy.Float(1 + 1e-6), evaluate=False))
    with pytest.raises(DisagreementError, match="closed form and numeric solution"):
        solve(tackle(4, sheave={"efficiency": 0.95}).rig(), HEIGHTS)


def test_a_symbolic_friction_that_differs_from_the_numeric_one_is_caught(monkeypatch):
    right = friction.Powers.symbolic
    monkeypatch.setattr(friction.Powers, "symbolic", lambda self, signs, way: right(self, signs, -way))
    with pytest.raises(DisagreementError, match="closed form and numeric solution"):
        solve(tackle(4, sheave={"efficiency": 0.95}).rig(), HEIGHTS)


def test_a_balance_that_motion_does_not_bear_out_is_caught(monkeypatch):
    from rigcheck.statics import coefficients

    right = coefficients.gravity_forces
    monkeypatch.setattr(
        coefficients,
        "gravity_forces",
        lambda travel, weights: [force * (1.0 if j else 1.001) for j, force in enumerate(right(travel, weights))],
    )
    with pytest.raises(DisagreementError):
        solve(counterweighted(100.0, 40.0, [{"efficiency": 0.95}]).rig(), HEIGHTS)


def test_a_motion_that_the_balance_does_not_bear_out_is_caught(monkeypatch):
    from dataclasses import replace

    from rigcheck.statics import solution

    right = solution.follow

    def follow(rig, at):
        travel = right(rig, at)
        return replace(travel, motion=replace(travel.motion, take_in=travel.motion.take_in * 1.001))

    monkeypatch.setattr(solution, "follow", follow)
    with pytest.raises(DisagreementError, match="virtual work"):
        solve(tackle(4, sheave={"efficiency": 0.95}).rig(), HEIGHTS)
