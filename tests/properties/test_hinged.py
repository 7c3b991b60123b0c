"""Random rigs with hinges: the force told for every hinge leaves each body in balance, and turning the room about changes nothing."""

import numpy
import pytest
from hypothesis import assume, event, given, settings
from hypothesis import strategies as st

from rigcheck.rig.fields import coordinates
from rigcheck.statics.reactions import reactions
from tests.properties.strategies import lids, lids_in_space, lids_with_hanging_weights, loads_on_arms, solved
from tests.properties.test_balance_and_energy import forces_on, place_of, pulls_of

hinged_rigs = st.one_of(lids(), lids_with_hanging_weights(), loads_on_arms(), lids_in_space())


@settings(max_examples=150)
@given(hinged_rigs)
def test_with_the_force_told_for_its_hinge_every_body_is_in_balance_about_the_axis_and_in_every_direction(builder):
    solution = solved(builder)
    assume(not solution.slack().any())
    event(builder.data["name"])
    travel = solution.travel
    told = {each.name: each for each in reactions(solution)}
    for free in travel.free:
        if free.hinge is None:
            continue
        hinge = told[f"hinge of {free.body}"]
        if hinge.case == "at rest":
            continue  # there the worst mixture of pulls is told, which need not be one that balances
        acting = forces_on(solution, free.body, hinge.case)
        at = int(numpy.argmin(numpy.abs(travel.heights_m - hinge.height_m)))
        largest = max(numpy.max(numpy.abs(pulls_of(solution, rope, hinge.case))) for rope in solution.runs)
        pressed = sum(force for _, force in acting)[at]
        assert pressed == pytest.approx([hinge.across_n, hinge.up_n, hinge.depth_n], abs=1e-9 * largest)
        moment = sum(numpy.cross(place - numpy.array(free.hinge), force) for place, force in acting) @ numpy.array(free.direction)
        assert numpy.max(numpy.abs(moment)) <= 1e-9 * largest


@settings(max_examples=100)
@given(hinged_rigs)
def test_what_turns_keeps_its_distance_from_its_hinge_and_its_height_is_told(builder):
    solution = solved(builder)
    travel = solution.travel
    for free in travel.free:
        if free.hinge is not None:
            for name in travel.rig.moving_as_one(free.body):
                arm = travel.poses.reference(name) - numpy.array(free.hinge)
                assert numpy.linalg.norm(arm, axis=1) == pytest.approx(numpy.linalg.norm(arm[0]), abs=1e-9)
                assert place_of(solution, name, (0.1, 0.2, 0.3)) == pytest.approx(travel.poses.on_body(name, (0.1, 0.2, 0.3)), abs=1e-9)
    load = travel.rig.load_name
    drawn = coordinates(travel.rig.bodies[load].at)[1]
    assert travel.poses.reference(load)[:, 1] - drawn == pytest.approx(travel.heights_m, abs=1e-9)
