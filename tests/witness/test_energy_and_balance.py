"""A witness for the statics in the plane: the pose of least energy found by scipy, and a balance of forces written down anew."""

from math import cos, sin

import numpy
import pytest
from hypothesis import assume, event, given, settings
from scipy.optimize import minimize

from tests.properties.strategies import (
    counterweights,
    level_bodies,
    lids,
    lids_with_hanging_weights,
    loads_on_arms,
    running_counterweights,
    sloping_guides,
    solved,
    tackles,
    tilting_spreaders,
)
from tests.witness.plane_geometry import G, PlaneRig, number, runs

HEIGHTS = numpy.array([0.0, 0.3, 0.8])
KEY = {"up": "y", "across": "x", "along its guide": "along", "tilting": "tilt", "turning about its hinge": "turn"}
hinged = lids() | lids_with_hanging_weights() | loads_on_arms()
rigs = tackles() | counterweights() | tilting_spreaders() | sloping_guides() | level_bodies() | running_counterweights() | hinged


def key_of(plane: PlaneRig, free) -> tuple[str, str]:
    key = KEY[free.words]
    return free.body, key if (free.body, key) in plane.free else "along"


def pose(plane: PlaneRig, solution, height: int) -> dict:
    return {key_of(plane, free): solution.travel.poses.q[height, j] for j, free in enumerate(solution.travel.free)}


@settings(max_examples=40)
@given(rigs)
def test_the_pose_is_the_one_of_least_energy_that_the_lengths_of_the_ropes_allow(builder):
    solution = solved(builder, HEIGHTS)
    assume(not solution.slack().any())
    event(builder.data["name"].rstrip("0123456789 "))
    plane = PlaneRig(builder.data)
    drawn = {rope: runs(plane.circles({}, rope)) for rope in builder.data["ropes"]}
    whole = {rope: plane.lengths_up_to_each_sheave({}, rope, drawn[rope])[-1] for rope in drawn}
    scale = max(G * number(body["mass"]) for body in builder.data["bodies"].values())
    for height in (1, 2):
        ours = pose(plane, solution, height)
        # the only number taken over: how much rope the drum has taken in by then
        taken = {rope: solution.travel.paths[rope].length[0] - solution.travel.paths[rope].length[height] for rope in drawn}

        def spare(x, taken=taken):
            q = dict(zip(plane.free, x, strict=True))
            return [whole[rope] - taken[rope] - plane.lengths_up_to_each_sheave(q, rope, drawn[rope])[-1] for rope in drawn]

        load = next(name for name, body in builder.data["bodies"].items() if body["role"] == "load")
        start = [
            HEIGHTS[height] * numpy.sign(ours[key]) * 0.9
            if key[1] == "turn"
            else HEIGHTS[height]
            if key in ((load, "along"), (load, "y"))
            else -HEIGHTS[height]
            if key[1] == "along"
            else 0.0
            for key in plane.free
        ]
        found = minimize(lambda x: plane.energy(dict(zip(plane.free, x, strict=True))) / scale, start, method="SLSQP",
                         constraints={"type": "ineq", "fun": spare}, options={"maxiter": 300, "ftol": 1e-14})  # fmt: skip
        assert min(spare(found.x)) > -1e-6
        assert found.x == pytest.approx([ours[key] for key in plane.free], abs=1e-4)


def flows(plane: PlaneRig, solution, rope: str, drawn, height: int) -> list[float]:
    """Rope that runs over each sheave towards the last end while the load rises, from lengths a little below and above."""
    step = 1e-6
    q = pose(plane, solution, height)
    speeds = {key_of(plane, free): solution.travel.motion.q[height, j] for j, free in enumerate(solution.travel.free)}
    below, above = ({key: value + side * step * speeds[key] for key, value in q.items()} for side in (-1, 1))
    ends = [plane.lengths_up_to_each_sheave(at, rope, drawn)[:-1] for at in (below, above)]
    found = [(low - high) / (2 * step) for low, high in zip(*ends, strict=True)]
    return [0.0 if abs(flow) < 1e-7 else flow for flow in found]


def balance(plane: PlaneRig, solution, height: int, way: int) -> dict[str, list[float]]:
    """Pulls of all runs from a balance of forces on every body, friction raising the pull in the direction of flow."""
    q = pose(plane, solution, height)
    ropes = list(plane.data["ropes"])
    matrix, right = numpy.zeros((len(plane.free), len(ropes))), numpy.zeros(len(plane.free))
    shares = {}
    for column, rope in enumerate(ropes):
        circles, carriers = plane.circles(q, rope), plane.carriers(rope)
        laid = runs(circles)
        share = [1.0]
        names = [stop["over"] for stop in plane.data["ropes"][rope]["path"] if "over" in stop]
        for name, flow in zip(names, flows(plane, solution, rope, runs(plane.circles({}, rope)), height), strict=True):
            share.append(share[-1] * solution.efficiencies[name].number ** (-way * numpy.sign(flow)))
        shares[rope] = share
        for k, run in enumerate(laid):
            u = numpy.array([cos(run.alpha), sin(run.alpha)])
            for stop, sign in ((k, 1.0), (k + 1, -1.0)):
                body = carriers[stop]
                if body is None:
                    continue
                x, y, radius = circles[stop]
                touch = numpy.array([x + radius * sin(run.alpha), y - radius * cos(run.alpha)])
                force = sign * share[k] * u
                for row, (name, how) in enumerate(plane.free):
                    if name == body:
                        about = plane.hinge(name) if how == "turn" else plane.carried(q, name)
                        arm = touch - numpy.array(about)
                        along = {"x": (1.0, 0.0), "y": (0.0, 1.0), "along": plane.direction(name)}
                        matrix[row, column] += (
                            arm[0] * force[1] - arm[1] * force[0] if how in ("tilt", "turn") else force @ numpy.array(along[how])
                        )
    for row, (name, how) in enumerate(plane.free):
        about = plane.hinge(name) if how == "turn" else plane.carried(q, name)
        for part, body in plane.data["bodies"].items():
            if plane.one_with(part) == name:
                arm = plane.carried(q, part, body.get("centre_of_gravity", ("0 m", "0 m")))[0] - about[0]
                share = {"x": 0.0, "y": 1.0, "along": plane.direction(name)[1], "tilt": arm, "turn": arm}[how]
                right[row] += G * number(body["mass"]) * share
    pulls = numpy.linalg.solve(matrix, right)
    return {rope: [pull * s for s in shares[rope]] for rope, pull in zip(ropes, pulls, strict=True)}


@settings(max_examples=60)
@given(rigs)
def test_an_independent_balance_of_forces_gives_the_same_pulls(builder):
    solution = solved(builder, HEIGHTS)
    plane = PlaneRig(builder.data)
    for height in range(len(HEIGHTS)):
        for way, word in ((1, "raising"), (-1, "lowering")):
            for rope, pulls in balance(plane, solution, height, way).items():
                ours = [numpy.broadcast_to(getattr(run, word).value, HEIGHTS.shape)[height] for run in solution.runs[rope]]
                assert ours == pytest.approx(pulls, rel=1e-6), (rope, word, height)


@settings(max_examples=40)
@given(rigs)
def test_an_independent_laying_of_the_rope_gives_the_same_length(builder):
    solution = solved(builder, HEIGHTS)
    plane = PlaneRig(builder.data)
    for rope, path in solution.travel.paths.items():
        drawn = runs(plane.circles({}, rope))
        lengths = [plane.lengths_up_to_each_sheave(pose(plane, solution, h), rope, drawn)[-1] for h in range(len(HEIGHTS))]
        assert numpy.diff(lengths) == pytest.approx(numpy.diff(path.length), abs=1e-9)
        for h in range(len(HEIGHTS)):
            laid = runs(plane.circles(pose(plane, solution, h), rope))
            assert [run.straight for run in laid] == pytest.approx(path.straight[:, h], abs=1e-9)
            assert numpy.array([(cos(run.alpha), sin(run.alpha)) for run in laid]) == pytest.approx(path.directions[:, h, :2], abs=1e-9)
