"""A running sheave that friction holds still, against lengths and forces written down anew by angles."""

import json

import numpy
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from rigcheck.errors import GeometryError
from rigcheck.rig import files
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.statics.swaying import moving
from rigcheck.statics.travel import follow
from tests.properties.strategies import reals
from tests.witness.plane_geometry import G, PlaneRig, number, runs

BETWEEN = ARRANGEMENTS["between-posts"]


@st.composite
def nearly_flat(draw):
    """A load raised between posts until its rope is so flat that friction draws it far aside."""
    head, span, block = draw(reals(2.5, 4.0)), draw(reals(3.0, 7.0)), draw(reals(0.3, 0.6))
    travel = head - 2 * block - draw(reals(0.35, 0.6))
    typed = {"head_height": f"{head!r} m", "span": f"{span!r} m", "load_height": f"{block!r} m", "travel": f"{travel!r} m"}
    typed |= {"sheave_diameter": "0.12 m", "drum_diameter": "0.12 m", "rope_diameter": "0.006 m"}
    assume(not BETWEEN.faults(BETWEEN.defaults() | typed))
    return BETWEEN.make(BETWEEN.defaults() | typed), draw(reals(0.85, 0.97))


def pose(travel, station: int) -> dict:
    key = {"up": "y", "across": "x", "tilting": "tilt"}
    return {(free.body, key[free.words]): travel.poses.q[station, j] for j, free in enumerate(travel.free)}


def test_friction_holds_the_running_sheave_of_the_arrangement_with_plain_bushes_near_the_top():
    found, powers = moving(follow(BETWEEN.make(BETWEEN.defaults())), {"running sheave": 0.9, "head sheave": 0.9}, 1)
    held = numpy.abs(powers["hoist rope"].counts[0, 0]) < 1
    assert held.sum() == 14
    assert held[-14:].all()
    assert numpy.all(numpy.diff(found.poses.q[-14:, 0]) > 0)  # on an arc about the left post


@settings(max_examples=8)
@given(nearly_flat())
def test_no_rope_runs_over_a_sheave_that_is_held_and_the_load_is_in_balance_there(drawn):
    rig, efficiency = drawn
    try:
        found, powers = moving(follow(rig), {"running sheave": efficiency, "head sheave": efficiency}, 1)
    except GeometryError:
        assume(False)
    plane = PlaneRig(json.loads(files.dumps(rig)))
    drawn_runs = runs(plane.circles({}, "hoist rope"))
    radius = number(plane.data["sheaves"]["running sheave"]["pitch_diameter"]) / 2
    shares = powers["hoist rope"].counts[0, 0]  # how often 1/η stands between the two falls
    weight = G * number(plane.data["bodies"]["load"]["mass"])
    up_to_the_sheave = []
    for station in range(0, len(shares), 4):
        q = pose(found, station)
        left, right = (run.alpha for run in runs(plane.circles(q, "hoist rope"))[:2])
        ratio = efficiency ** -shares[station]
        pull = weight / (numpy.sin(right) * ratio - numpy.sin(left))
        assert abs(pull * (ratio * numpy.cos(right) - numpy.cos(left))) < 1e-6 * weight
        assert abs(shares[station]) <= 1
        if abs(shares[station]) < 1:
            up_to_the_sheave.append(plane.lengths_up_to_each_sheave(q, "hoist rope", drawn_runs)[0] + radius * q["load", "tilt"])
    assert up_to_the_sheave == pytest.approx(up_to_the_sheave[:1] * len(up_to_the_sheave), abs=2e-5)
