"""What must hold of guide friction whatever the rig: it never helps, it looks the same from behind, and without it nothing changes."""

import copy

import numpy
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from rigcheck.statics.solution import solve
from tests import guided_rigs, rigs
from tests.properties.strategies import reals

STATIONS = numpy.linspace(0.0, 1.0, 3)
DRAWN = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
WORDS = ("raising", "lowering", "holding_least", "holding_most")
SIDES = st.sampled_from(["around a rail", "between rails"])


def pulls(data: dict) -> dict[str, numpy.ndarray]:
    """The pull at the drive, by word."""
    found = solve(rigs.rig(data), STATIONS)
    return {word: numpy.broadcast_to(getattr(found.runs["hoist"][-1], word).value, STATIONS.shape) for word in WORDS}


def without_shoes(data: dict) -> dict:
    plain = copy.deepcopy(data)
    for body in plain["bodies"].values():
        body["moves"] = {"kind": "guided", "along": body["moves"].get("along", [0, 1])}
    return plain


@DRAWN
@given(gravity=reals(-0.6, 0.6), foot=reals(-1.2, 1.2), friction=reals(0.02, 0.5), kind=SIDES, wide=reals(0.02, 0.6))
def test_a_guide_takes_work_both_ways_and_never_gives_any(gravity, foot, friction, kind, wide):
    data = guided_rigs.slanting(gravity, foot, friction, kind, wide)
    rubbing, plain = pulls(data), pulls(without_shoes(data))
    raising, lowering = rubbing["raising"], rubbing["lowering"]
    assert numpy.all(numpy.isnan(raising) | (raising >= plain["raising"] * (1 - 1e-9)))
    assert numpy.all(numpy.isnan(lowering) | (lowering <= plain["lowering"] * (1 + 1e-9)))


@DRAWN
@given(gravity=reals(-0.6, 0.6), guide=reals(-0.6, 0.6), friction=reals(0.02, 0.5), more=reals(0.0, 0.2))
def test_more_friction_never_makes_raising_easier_nor_the_held_range_narrower(gravity, guide, friction, more):
    less, rubbing = (pulls(guided_rigs.pulled_off(gravity, guide, friction=mu)) for mu in (friction, friction + more))
    assume(
        all(numpy.isfinite(value).all() for value in (less["raising"], rubbing["raising"], less["holding_most"], rubbing["holding_most"]))
    )
    assert numpy.all(rubbing["raising"] >= less["raising"] * (1 - 1e-9))
    assert numpy.all(rubbing["holding_most"] >= less["holding_most"] * (1 - 1e-9))
    assert numpy.all(rubbing["holding_least"] <= less["holding_least"] * (1 + 1e-9) + 1e-6)


@DRAWN
@given(gravity=reals(-0.5, 0.5), foot=reals(-1.0, 1.0), friction=reals(0.05, 0.4), kind=SIDES, lean=reals(-0.3, 0.3))
def test_the_mirror_image_of_a_guided_rig_has_the_same_pulls(gravity, foot, friction, kind, lean):
    data = guided_rigs.slanting(gravity, foot, friction, kind, along=(lean, 1.0))
    here, there = pulls(data), pulls(guided_rigs.mirrored(data))
    for word in WORDS:
        numpy.testing.assert_allclose(there[word], here[word], rtol=1e-9, atol=1e-6)


@DRAWN
@given(load=reals(-0.4, 0.4), guide=reals(-0.4, 0.4), weight=reals(-0.4, 0.4))
def test_as_friction_comes_to_nothing_the_pulls_come_to_those_without(load, guide, weight):
    data = guided_rigs.counterweighted(load, guide, weight, friction=1e-9)
    rubbing, plain = pulls(data), pulls(without_shoes(data))
    for word in WORDS:
        numpy.testing.assert_allclose(rubbing[word], plain[word], rtol=1e-6)


@DRAWN
@given(gravity=reals(-0.5, 0.5), guide=reals(-0.5, 0.5), friction=reals(0.05, 0.5))
def test_moving_pulls_lie_within_what_can_be_held(gravity, guide, friction):
    found = pulls(guided_rigs.pulled_off(gravity, guide, efficiency=0.95, friction=friction))
    assume(all(numpy.isfinite(value).all() for value in found.values()))
    assert numpy.all(found["holding_least"] <= numpy.maximum(found["lowering"], 0.0) + 1e-6)
    assert numpy.all(found["raising"] <= found["holding_most"] + 1e-6)
