"""The line of a rope and how it grows: the exact derivatives against differences."""

from dataclasses import replace

import numpy
import pytest
from hypothesis import given

from rigcheck.statics import paths
from rigcheck.statics.travel import follow
from tests.properties.strategies import any_rigs, plane_rigs, reals, solved

STEP = 1e-5


def _length(rope, chain):
    return paths.trace(rope, chain).length


@given(any_rigs, reals(0.0, 0.9999))
def test_a_stop_that_moves_lengthens_its_rope_along_the_ropes_own_directions(builder, which):
    solution = solved(builder, numpy.array([0.3]))
    for rope, path in solution.travel.paths.items():
        at = int(which * len(path.stops))
        stop = path.stops[at]
        if stop.kind == "drum":
            continue
        before = path.directions[at - 1][0] if at else numpy.zeros(3)
        after = path.directions[at][0] if at < len(path.directions) else numpy.zeros(3)
        for axis in numpy.eye(3):
            moved = []
            for side in (STEP, -STEP):
                chain = list(path.stops)
                chain[at] = replace(stop, centre=stop.centre + side * axis)
                moved.append(_length(rope, chain)[0])
            assert (moved[0] - moved[1]) / (2 * STEP) == pytest.approx((before - after) @ axis, abs=1e-7), (rope, stop.name, axis)


@given(any_rigs)
def test_the_motion_is_the_slope_of_lengths_and_places_along_the_travel(builder):
    step = 1e-4
    heights = numpy.array([0.4 - step, 0.4, 0.4 + step])
    solution = solved(builder, heights)
    travel = follow(solution.rig, heights)
    for rope, path in travel.paths.items():
        slope = (path.length[2] - path.length[0]) / (2 * step)
        assert slope == pytest.approx(travel.growth[rope].sum(axis=0)[1] @ travel.motion.q[1], abs=2e-6)
    assert (travel.poses.q[2] - travel.poses.q[0]) / (2 * step) == pytest.approx(travel.motion.q[1], abs=2e-6)


@given(any_rigs)
def test_every_rope_keeps_its_length_but_for_what_the_drum_takes_in(builder):
    solution = solved(builder)
    assert numpy.max(numpy.abs(solution.travel.mismatch_m)) < 1e-9


@given(any_rigs)
def test_straight_runs_touch_their_sheaves_at_a_right_angle_to_the_radius(builder):
    solution = solved(builder)
    for path in solution.travel.paths.values():
        for k in range(len(path.directions)):
            for stop, touch in ((k, path.starts[k]), (k + 1, path.ends[k])):
                radius = touch - path.stops[stop].centre
                assert numpy.linalg.norm(radius, axis=1) == pytest.approx(path.stops[stop].radius, abs=1e-12)
                assert numpy.einsum("hx,hx->h", radius, path.directions[k]) == pytest.approx(0.0, abs=1e-12)
            assert path.starts[k] + path.straight[k][:, None] * path.directions[k] == pytest.approx(path.ends[k], abs=1e-9)


@given(plane_rigs)
def test_wraps_add_up_to_the_turning_of_the_whole_rope(builder):
    solution = solved(builder)
    for path in solution.travel.paths.values():
        senses = numpy.array([stop.about[2] for stop in path.stops[1:-1]]).reshape(-1, 1)
        angles = numpy.arctan2(path.directions[..., 1], path.directions[..., 0])
        turned = (senses * path.wraps).sum(axis=0) - (angles[-1] - angles[0])
        assert numpy.sin(turned / 2) == pytest.approx(0.0, abs=1e-9)
