"""Witnesses for what hangs free: the place of least energy found by scipy, and a balance of forces written down anew at that place."""

from math import cos, sin

import numpy
import pytest
from hypothesis import assume, event, given, reject, settings
from scipy.optimize import minimize
from scipy.spatial.transform import Rotation

from rigcheck.errors import GeometryError
from rigcheck.statics.swaying import moving
from rigcheck.statics.travel import follow
from tests.properties.hanging import bridles_under_a_ring, legs_in_space, loads_hauled_aside, loads_in_a_bight
from tests.witness.plane_geometry import G, PlaneRig, number, runs

HEIGHTS = numpy.array([0.0, 0.3, 0.8])
KEY = {"up": "y", "across": "x", "tilting": "tilt"}
in_the_plane = loads_in_a_bight() | bridles_under_a_ring() | loads_hauled_aside()


def followed(builder):
    try:
        return follow(builder.rig(), HEIGHTS)
    except GeometryError as error:
        event(f"degenerate: {error}"[:60])
        reject()


def taken_in(travel, rope: str) -> numpy.ndarray:
    """Rope that the drum or the hand has taken in: the one number taken over."""
    share = travel.hung.balance.layout.shares[list(travel.paths).index(rope)]
    return share * travel.hung.unknown[:, len(travel.free)]


def pose(travel, height: int) -> dict:
    return {(free.body, KEY[free.words]): travel.poses.q[height, j] for j, free in enumerate(travel.free)}


def efficiencies(travel) -> dict[str, float]:
    return {name: sheave.efficiency or 0.95 for name, sheave in travel.rig.sheaves.items()}


@settings(max_examples=60)
@given(in_the_plane)
def test_what_hangs_free_is_where_its_energy_is_least(builder):
    travel = followed(builder)
    event(builder.data["name"])
    plane = PlaneRig(builder.data)
    drawn = {rope: runs(plane.circles({}, rope)) for rope in builder.data["ropes"]}
    whole = {
        rope: number(builder.data["ropes"][rope]["length"])
        if "length" in builder.data["ropes"][rope]
        else plane.lengths_up_to_each_sheave({}, rope, drawn[rope])[-1]
        for rope in drawn
    }
    scale = max(G * number(body["mass"]) for body in builder.data["bodies"].values())
    for height in (0, 2):
        ours = pose(travel, height)
        taken = {rope: taken_in(travel, rope)[height] for rope in drawn}

        def spare(x, taken=taken):
            q = dict(zip(plane.free, x, strict=True))
            return [whole[rope] - taken[rope] - plane.lengths_up_to_each_sheave(q, rope, drawn[rope])[-1] for rope in drawn]

        begin = [HEIGHTS[height] if key[1] == "y" else 0.0 for key in plane.free]
        found = minimize(lambda x: plane.energy(dict(zip(plane.free, x, strict=True))) / scale, begin, method="SLSQP",
                         bounds=[(v - 1.5, v + 1.5) for v in begin], constraints={"type": "ineq", "fun": spare}, options={"maxiter": 400, "ftol": 1e-15})  # fmt: skip
        assert min(spare(found.x)) > -1e-6
        assert [ours[key] for key in plane.free] == pytest.approx(found.x, abs=1e-4)


def out_of_balance(plane: PlaneRig, travel, height: int, way: int) -> tuple[float, dict[str, float]]:
    """The greatest force or moment left over on any body, as a share of all weight, and the pulls, from forces at the contact points."""
    q, ropes = pose(travel, height), list(plane.data["ropes"])
    matrix, right = numpy.zeros((len(plane.free), len(ropes))), numpy.zeros(len(plane.free))
    for column, rope in enumerate(ropes):
        circles, carriers = plane.circles(q, rope), plane.carriers(rope)
        names = [stop["over"] for stop in plane.data["ropes"][rope]["path"] if "over" in stop]
        share = [1.0]
        for name, flow in zip(names, travel.motion.flow[rope][:, height], strict=True):
            share.append(share[-1] * efficiencies(travel)[name] ** (-way * numpy.sign(flow)))
        for k, run in enumerate(runs(circles)):
            u = numpy.array([cos(run.alpha), sin(run.alpha)])
            for stop, sign in ((k, 1.0), (k + 1, -1.0)):
                if carriers[stop] is None:
                    continue
                x, y, radius = circles[stop]
                touch = numpy.array([x + radius * sin(run.alpha), y - radius * cos(run.alpha)])
                force = sign * share[k] * u
                for row, (name, how) in enumerate(plane.free):
                    if name == carriers[stop]:
                        arm = touch - numpy.array(plane.carried(q, name))
                        matrix[row, column] += {"x": force[0], "y": force[1], "tilt": arm[0] * force[1] - arm[1] * force[0]}[how]
    for row, (name, how) in enumerate(plane.free):
        body = plane.data["bodies"][name]
        arm = plane.carried(q, name, body.get("centre_of_gravity", ("0 m", "0 m")))[0] - plane.carried(q, name)[0]
        right[row] = G * number(body["mass"]) * {"x": 0.0, "y": 1.0, "tilt": arm}[how]
    pulls = numpy.linalg.lstsq(matrix, right, rcond=None)[0]
    weight = sum(G * number(body["mass"]) for body in plane.data["bodies"].values())
    return numpy.max(numpy.abs(matrix @ pulls - right)) / weight, dict(zip(ropes, pulls / weight, strict=True))


@settings(max_examples=60)
@given(in_the_plane)
def test_forces_and_moments_balance_where_it_hangs_raising_and_lowering(builder):
    travel = followed(builder)
    plane = PlaneRig(builder.data)
    for way in (1, -1):
        try:
            found, _ = moving(travel, efficiencies(travel), way)
        except GeometryError:
            reject()
        for height in range(len(HEIGHTS)):
            left, pulls = out_of_balance(plane, found, height, way)
            assert left < 1e-8
            ours = found.hung.unknown[height, len(found.free) + 1 :]
            references = {rope: pulls[rope] for rope in pulls}
            sheaved = [rope for rope in pulls if not any("wound_on" in stop for stop in builder.data["ropes"][rope]["path"])]
            for rope in sheaved:
                assert ours[list(pulls).index(rope)] == pytest.approx(references[rope], abs=1e-6)


@settings(max_examples=40)
@given(legs_in_space())
def test_a_stiff_load_in_space_hangs_with_its_weight_under_the_hook(builder):
    """Energy least over place and turn of the load, the turn as scipy's own rotations; every leg and the line may only be too long."""
    travel = followed(builder)
    data = builder.data
    load, ring = data["bodies"]["load"], data["bodies"]["ring"]
    point = {name: numpy.array([number(t) for t in (*where, "0 m")[:3]]) for name, where in load["picks"].items()}
    gravity = numpy.array([number(t) for t in load["centre_of_gravity"]])
    at_load, at_ring = (numpy.array([number(t) for t in (*body["at"], "0 m")[:3]]) for body in (load, ring))
    hand = numpy.array([0.2, 6.0, 0.1])
    legs = {name: numpy.linalg.norm(at_ring - at_load - where) for name, where in point.items()}
    height = 2
    line = numpy.linalg.norm(hand - at_ring) - taken_in(travel, "line")[height]
    masses = number(load["mass"]), number(ring["mass"])

    def places(x):
        turned = Rotation.from_rotvec(x[3:6])
        return at_load + x[:3], turned, at_ring + x[6:]

    def energy(x):
        where, turned, hook = places(x)
        return (masses[0] * (where + turned.apply(gravity))[1] + masses[1] * hook[1]) / sum(masses)

    def spare(x):
        where, turned, hook = places(x)
        return [legs[n] - numpy.linalg.norm(hook - where - turned.apply(p)) for n, p in point.items()] + [
            line - numpy.linalg.norm(hand - hook)
        ]

    begin = numpy.zeros(9)
    begin[[1, 7]] = HEIGHTS[height]
    found = minimize(energy, begin, method="SLSQP", constraints={"type": "ineq", "fun": spare}, options={"maxiter": 500, "ftol": 1e-15})
    assume(min(spare(found.x)) > -1e-6)
    where, turned, hook = places(found.x)
    poses = travel.poses
    assert poses.reference("ring")[height] == pytest.approx(hook, abs=1e-4)
    assert poses.centre_of_gravity("load")[height] == pytest.approx(where + turned.apply(gravity), abs=2e-4)
    # all may spin about the plumb line through the hook: what leans does so alike
    upright = numpy.stack([poses.turned("load", unit)[height] for unit in numpy.eye(3)])[:, 1]
    assert upright == pytest.approx([turned.apply(unit)[1] for unit in numpy.eye(3)], abs=2e-4)


@settings(max_examples=40)
@given(in_the_plane | legs_in_space())
def test_how_the_balance_changes_with_the_pose_is_as_by_differences(builder):
    """What Newton's method follows, and by which a place is told to be one of rest, written down once more as plain differences."""
    travel = followed(builder)
    balance, unknown, at = travel.hung.balance, travel.hung.unknown, travel.stations.values
    n = balance.coordinates
    written, by_differences = balance.at(unknown, at)[3][:, :n, :n], balance._stiffness_by_differences(unknown, at)
    assert written == pytest.approx(by_differences, abs=1e-8 * numpy.abs(by_differences).max())
