"""Whatever the rig: forces balance on every body, no energy appears from nowhere, and friction works the way friction does."""

import copy

import numpy
import pytest
from hypothesis import assume, event, given
from scipy.spatial.transform import Rotation

from rigcheck.rig.fields import coordinates
from rigcheck.rig.model import Rig
from rigcheck.statics.friction import reference_run
from rigcheck.statics.layout import driven_end
from rigcheck.statics.solution import solve
from tests.properties.strategies import HEIGHTS, any_rigs, counterweights, masses, reals, sloping_guides, solved, tackles
from tests.rig_builders import LOAD, Builder, drum, fast, over, tackle

G = 9.80665
FRONT = numpy.array([0.0, 0.0, 1.0])


def pulls_of(solution, rope, way):
    many = len(solution.travel.heights_m)
    return numpy.array([numpy.broadcast_to(getattr(run, way).value, many) for run in solution.runs[rope]])


def place_of(solution, body, offset):
    """Reference point or any carried point of a body, from the coordinates alone, (heights, 3)."""
    rig, q = solution.rig, solution.travel.poses.q
    moves = rig.bodies[body].moves
    if moves.kind == "carried":
        return place_of(solution, moves.by, numpy.add(coordinates(rig.bodies[body].at), offset) - coordinates(rig.bodies[moves.by].at))
    if moves.kind == "hinged":
        j = next(j for j, free in enumerate(solution.travel.free) if free.body == body)
        hinge = numpy.array(coordinates(moves.hinge))
        arm = numpy.add(coordinates(rig.bodies[body].at), offset) - hinge
        axis = numpy.array(moves.axis) / numpy.linalg.norm(moves.axis)
        return hinge + Rotation.from_rotvec(q[:, [j]] * axis).apply(arm)
    at = numpy.tile(coordinates(rig.bodies[body].at), (len(q), 1))
    turn = numpy.zeros(len(q))
    for j, free in enumerate(solution.travel.free):
        if free.body == body and free.tilts:
            turn = q[:, j]
        elif free.body == body:
            at = at + q[:, [j]] * free.direction
    x, y, z = offset
    return at + numpy.stack([x * numpy.cos(turn) - y * numpy.sin(turn), x * numpy.sin(turn) + y * numpy.cos(turn), z + 0 * turn], axis=1)


def one_with(rig, body):
    """The body that a body is fixed on in the end, or itself."""
    moves = rig.bodies[body].moves
    return one_with(rig, moves.by) if moves.kind == "carried" else body


def forces_on(solution, body, way):
    """Every force on a body with the place where it acts: pulls of the runs that begin or end on it, and its weight."""
    many, acting = len(solution.travel.heights_m), []
    together = [name for name in solution.rig.bodies if one_with(solution.rig, name) == body]
    for part in together:
        centre = place_of(solution, part, coordinates(solution.rig.bodies[part].centre_of_gravity))
        acting.append((centre, numpy.tile([0.0, -G * solution.rig.bodies[part].mass.value, 0.0], (many, 1))))
    for rope, path in solution.travel.paths.items():
        for k, pull in enumerate(pulls_of(solution, rope, way)):
            if path.stops[k].carrier in together:
                acting.append((path.starts[k], pull[:, None] * path.directions[k]))
            if path.stops[k + 1].carrier in together:
                acting.append((path.ends[k], -pull[:, None] * path.directions[k]))
    return acting


@given(any_rigs)
def test_along_every_freedom_the_forces_on_a_body_sum_to_nothing_so_that_only_the_guide_gives_the_rest(builder):
    solution = solved(builder)
    event(builder.data["name"].rstrip("0123456789 "))
    for way in ("raising", "lowering"):
        largest = max(numpy.max(numpy.abs(pulls_of(solution, rope, way))) for rope in solution.runs)
        for free in solution.travel.free:
            acting = forces_on(solution, free.body, way)
            if free.tilts:
                about = place_of(solution, free.body, (0.0, 0.0, 0.0)) if free.hinge is None else free.hinge
                left = sum(numpy.cross(at - about, force) for at, force in acting) @ numpy.array(free.direction)
            else:
                left = sum(force for _, force in acting) @ numpy.array(free.direction)
            assert numpy.max(numpy.abs(left)) <= 1e-9 * largest, (way, free)


@given(any_rigs)
def test_what_the_drive_gives_is_the_rise_of_the_weights_and_what_the_sheaves_turn_to_heat_and_no_sheave_gives_back(builder):
    solution = solved(builder)
    assume(not solution.slack().any())
    travel = solution.travel
    speed = numpy.zeros(len(HEIGHTS))
    for body, part in solution.rig.bodies.items():
        moved = travel.poses.moved_by(body, travel.poses.centre_of_gravity(body))
        speed = speed + G * part.mass.value * numpy.einsum("hj,hj->h", moved[:, :, 1], travel.motion.q)
    radii = {rope: solution.rig.drive.drum.diameter.value + part.diameter.value for rope, part in solution.rig.ropes.items()}
    for way, sense in (("raising", 1), ("lowering", -1)):
        given_, lost = 0.0, 0.0
        for rope in solution.runs:
            pulls = pulls_of(solution, rope, way)
            if driven_end(solution.rig, rope) is not None:
                given_ = given_ + pulls[reference_run(travel, rope)] * travel.motion.take_in * radii[rope] / radii[solution.drive_rope]
            heat = sense * numpy.diff(pulls, axis=0) * travel.motion.flow[rope]
            assert numpy.all(heat >= -1e-9 * numpy.max(numpy.abs(pulls))), "a sheave gave energy"
            lost = lost + heat.sum(axis=0)
        assert sense * given_ == pytest.approx(sense * speed + lost, rel=1e-9, abs=1e-9 * speed.max())


@given(tackles())
def test_without_friction_a_drum_pulls_the_load_over_the_velocity_ratio(builder):
    for sheave in builder.data["sheaves"].values():
        sheave.pop("bearing", None)
        sheave["efficiency"] = 1.0
    solution = solved(builder)
    weight = G * solution.rig.load.mass.value
    for way in ("raising", "lowering"):
        assert numpy.broadcast_to(solution.drive_pull[way].value, HEIGHTS.shape) == pytest.approx(
            weight / solution.travel.motion.take_in, rel=1e-9
        )


@pytest.mark.parametrize("parts", range(1, 9))
@pytest.mark.parametrize("advantage", [False, True])
def test_without_friction_a_tackle_with_parallel_falls_gives_exactly_its_parts(parts, advantage):
    if advantage and parts == 1:
        parts = 9
    solution = solve(tackle(parts, advantage=advantage, leads=2, mass_kg=50.0).rig(), HEIGHTS)
    first = solution.runs["hoist"][0].raising.value
    assert 50.0 * G / first[0] == pytest.approx(parts, rel=2e-3 if advantage else 1e-12)


@given(builder=counterweights() | tackles() | sloping_guides(), less=reals(0.8, 0.99), which=reals(0.0, 0.9999))
def test_more_friction_in_any_sheave_never_eases_raising_nor_hardens_lowering(builder, less, which):
    before = solved(builder)
    assume(not before.slack().any())
    data = copy.deepcopy(builder.data)
    names = list(data["sheaves"])
    name = names[int(which * len(names))]
    efficiency = before.efficiencies[name].number
    data["sheaves"][name] = {k: v for k, v in data["sheaves"][name].items() if k != "bearing"} | {"efficiency": efficiency * less}
    after = solve(Rig.model_validate(data), HEIGHTS)
    assume(not after.slack().any())
    small = 1e-12 * before.weights[LOAD].number
    assert numpy.all(after.drive_pull["raising"].value >= before.drive_pull["raising"].value - small)
    assert numpy.all(after.drive_pull["lowering"].value <= before.drive_pull["lowering"].value + small)


@given(any_rigs)
def test_raising_takes_at_least_what_lowering_gives(builder):
    solution = solved(builder)
    assume(not solution.slack().any())
    assert numpy.all(solution.drive_pull["raising"].value >= solution.drive_pull["lowering"].value * (1 - 1e-12))


@given(any_rigs, masses)
def test_pulls_grow_in_step_when_every_mass_does(builder, more):
    before = solved(builder)
    factor = more / 100.0
    data = copy.deepcopy(builder.data)
    for body in data["bodies"].values():
        body["mass"] = f"{float(body['mass'].split()[0]) * factor!r} kg"
    after = solve(Rig.model_validate(data), HEIGHTS)
    for rope in before.runs:
        for way in ("raising", "lowering"):
            pulls = pulls_of(before, rope, way) * factor
            assert pulls_of(after, rope, way) == pytest.approx(pulls, rel=1e-9, abs=1e-9 * numpy.max(numpy.abs(pulls)))


@pytest.mark.parametrize("out_of_plumb_m", [0.0, 0.002, 0.01])
def test_two_falls_that_part_by_less_than_a_millimetre_share_a_level_load_and_each_may_carry_all_of_it(out_of_plumb_m):
    b = Builder("two falls", 0.5)
    b.body(LOAD, 100.0, (0.0, 0.0), "load", picks={"left": (-0.5, 0.3), "right": (0.5, 0.3)})
    for name, at in (("left head", (-0.45 + out_of_plumb_m, 4.2)), ("left lead", (0.9, 4.2)), ("right head", (0.55, 4.0))):
        b.sheave(name, at, efficiency=0.95)
    b.winch((1.6, 0.5))
    b.rope("left", [fast(LOAD, "left"), over("left head", True), over("left lead", True), drum()])
    b.rope("right", [fast(LOAD, "right"), over("right head", True), drum()])
    solution = solve(b.rig(), HEIGHTS * 0.5)
    for rope, sheaves in (("left", 2), ("right", 1)):
        assert pulls_of(solution, rope, "raising")[0] == pytest.approx(100.0 * G, rel=1e-5)
        assert pulls_of(solution, rope, "raising")[-1] == pytest.approx(100.0 * G / 0.95**sheaves, rel=1e-5)
