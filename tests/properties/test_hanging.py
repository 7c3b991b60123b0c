"""What hangs free keeps the promises of the statics: other loads are told as if they hung there, mirrored rigs mirror, friction costs work."""

import copy

import numpy
import pytest
from hypothesis import given, reject, settings

from rigcheck.errors import GeometryError
from rigcheck.rig.model import Rig
from rigcheck.statics.solution import Solution, solve
from tests.properties.hanging import bridles_under_a_ring, legs_in_space, loads_hauled_aside, loads_in_a_bight
from tests.rig_builders import LOAD

HEIGHTS = numpy.array([0.0, 0.3, 0.8])
hung = loads_in_a_bight() | bridles_under_a_ring() | loads_hauled_aside() | legs_in_space()


def hanging(data: dict) -> Solution:
    try:
        return solve(Rig.model_validate(data), HEIGHTS)
    except GeometryError:
        reject()


def pulls(solution: Solution) -> list:
    return [
        line for runs in solution.runs.values() for run in runs for line in (run.raising, run.lowering, run.holding_least, run.holding_most)
    ]


@settings(max_examples=40)
@given(hung)
def test_the_pulls_told_for_another_load_are_those_of_the_rig_with_that_load(builder):
    """The rated load is found by asking the same lines for other loads: where something hangs free it must hang elsewhere for them.

    Heights stay counted from where the load as entered hangs at the lowest; the other load's own lowest place is a hair off it.
    """
    solution = hanging(builder.data)
    heavier = solution.masses[LOAD].number * 1.6
    changed = copy.deepcopy(builder.data)
    changed["bodies"][LOAD]["mass"] = f"{heavier!r} kg"
    told = solution.working.evaluate({solution.masses[LOAD]: numpy.array([[heavier]])}, pulls(solution))
    again = hanging(changed)
    whole = sum(line.number for line in again.weights.values())
    for value, line in zip(told, pulls(again), strict=True):
        assert numpy.broadcast_to(value, (1, 3))[0] == pytest.approx(numpy.broadcast_to(line.value, 3), abs=1e-4 * whole), line.sign.meaning


def mirrored(data: dict) -> dict:
    """The rig seen in a mirror: everything across changes its sign, and every sheave turns the other way."""

    def turned(place: list[str]) -> list[str]:
        return [f"{-float(place[0].split()[0])!r} m", *place[1:]]

    other = copy.deepcopy(data)
    for body in other["bodies"].values():
        body["at"] = turned(body["at"])
        body["picks"] = {name: turned(place) for name, place in body.get("picks", {}).items()}
        if "centre_of_gravity" in body:
            body["centre_of_gravity"] = turned(body["centre_of_gravity"])
    for point in other["points"].values():
        point["at"] = turned(point["at"])
    for sheave in other["sheaves"].values():
        if "offset" in sheave:
            sheave["offset"] = turned(sheave["offset"])
    for rope in other["ropes"].values():
        for stop in rope["path"]:
            if "turns" in stop:
                stop["turns"] = {"clockwise": "anticlockwise", "anticlockwise": "clockwise"}[stop["turns"]]
            if "pulled_by_hand_at" in stop:
                stop["pulled_by_hand_at"] = turned(stop["pulled_by_hand_at"])
    if "drum" in other["drive"]:
        other["drive"]["drum"]["at"] = turned(other["drive"]["drum"]["at"])
    return other


@settings(max_examples=40)
@given(hung)
def test_a_mirrored_rig_hangs_mirrored_with_the_same_pulls(builder):
    one, other = hanging(builder.data), hanging(mirrored(builder.data))
    whole = sum(line.number for line in one.weights.values())
    for mine, its in zip(pulls(one), pulls(other), strict=True):
        assert numpy.broadcast_to(mine.value, 3) == pytest.approx(numpy.broadcast_to(its.value, 3), abs=1e-6 * whole), mine.sign.meaning
    for word in one.ways:
        here, there = (solution.ways[word].travel.poses.centre_of_gravity(LOAD) for solution in (one, other))
        assert here * [-1, 1, 1] == pytest.approx(there, abs=1e-6)


@settings(max_examples=30)
@given(hung)
def test_friction_always_costs_work_at_the_drive(builder):
    """Raising takes more at the drive than the weights gain, and lowering gives back less, at every height."""
    solution = hanging(builder.data)
    still, masses = solution.travel, solution.weights
    gain = sum(masses[body].number * (still.poses.moved_by(body, still.poses.centre_of_gravity(body))[:, :, 1] * still.motion.q).sum(axis=1)
               for body in masses)  # fmt: skip
    without = gain / still.motion.take_in
    slack = 1e-6 * without.max()
    assert numpy.all(solution.drive_pull["raising"].value * solution.ways["raising"].travel.motion.take_in >= gain - 1e-3 * abs(gain))
    assert numpy.all(solution.drive_pull["raising"].value >= solution.drive_pull["lowering"].value - slack)
