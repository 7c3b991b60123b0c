"""Bodies on hinges and bodies fixed on others: the swing, the force on the hinge, and what is refused."""

import copy
from math import atan2, cos, pi, radians, sin, sqrt

import numpy
import pytest
from scipy.optimize import brentq
from scipy.spatial.transform import Rotation

from rigcheck.errors import ClashError, GeometryError
from rigcheck.statics.reactions import reactions
from rigcheck.statics.solution import solve
from rigcheck.statics.travel import follow
from tests.hinged_rigs import HINGE_UP_M, hinged, lid_by_hand, lid_by_winch, lid_with_hanging_weight
from tests.rigs import SHEAVE_M, G, place, rig, steel

WAYS = ("raising", "lowering")


def along(solution, line):
    return numpy.broadcast_to(line.value, solution.travel.heights_m.shape)


def test_a_swing_is_counted_by_its_angle_and_its_height_is_that_of_the_reference_point():
    travel = follow(rig(lid_by_winch(swing_deg=80.0)))
    assert travel.angles_rad == pytest.approx(numpy.linspace(0.0, radians(80.0), 101))
    assert travel.heights_m == pytest.approx(numpy.sin(travel.angles_rad))
    assert travel.poses.reference("lid")[:, 0] == pytest.approx(numpy.cos(travel.angles_rad))


def test_a_load_that_rises_is_counted_by_its_height_and_has_no_angle():
    from tests.rigs import lead_sheave

    travel = follow(rig(lead_sheave()))
    assert travel.angles_rad is None
    assert travel.stations.values is travel.heights_m


def test_over_the_top_the_angle_grows_on_while_the_height_falls_again():
    travel = follow(rig(lid_by_winch(swing_deg=110.0)))
    assert numpy.all(numpy.diff(travel.angles_rad) > 0)
    assert travel.heights_m[-1] < travel.heights_m.max()
    assert travel.heights_m[-1] == pytest.approx(sin(radians(110.0)))


def test_a_lid_that_hangs_straight_down_turns_the_way_its_rope_draws_it():
    for side in (1.0, -1.0):
        data = lid_by_hand(place(side * 3.0, 1.0), swing_deg=80.0)
        data["bodies"]["lid"] |= {"at": place(0.0, 0.0), "picks": {"edge": place(0.0, -1.0)}}
        travel = follow(rig(data))
        assert travel.poses.reference("lid")[-1] == pytest.approx([side * sin(radians(80.0)), 1.0 - cos(radians(80.0)), 0.0])


def test_a_counterweight_fixed_on_the_arm_takes_its_moment_off_the_rope():
    with_weight, without = (solve(rig(lid_by_winch(20.0, efficiency=1.0, weight_kg=kg))) for kg in (8.0, None))
    angle = with_weight.travel.angles_rad
    arm = -with_weight.travel.growth["hoist"][:, :, 0].sum(axis=0)
    saved = along(without, without.drive_pull["raising"]) - along(with_weight, with_weight.drive_pull["raising"])
    assert saved == pytest.approx(8.0 * G * 0.5 * numpy.cos(angle) / arm, rel=1e-9)


def test_a_load_fixed_on_an_arm_of_its_own_pulls_as_one_body_of_both_does():
    one = lid_by_winch(20.0)
    parted = copy.deepcopy(one)
    arm = parted["bodies"].pop("lid") | {"role": "other", "mass": "8 kg"}
    load = {"role": "load", "mass": "12 kg", "at": arm["at"], "moves": {"kind": "carried", "by": "arm"}}
    parted["bodies"] = {"arm": arm, "lid": load}
    parted["ropes"]["hoist"]["path"][0]["made_fast_to"] = "arm"
    whole, both = solve(rig(one)), solve(rig(parted))
    for way in WAYS:
        assert along(both, both.drive_pull[way]) == pytest.approx(along(whole, whole.drive_pull[way]), rel=1e-12)
    assert both.masses["lid"].number == 12.0


def test_a_weight_fixed_on_a_guided_load_weighs_as_if_it_were_part_of_it():
    from tests.rigs import lead_sheave

    data = lead_sheave(100.0)
    data["bodies"]["plate"] = {"role": "other", "mass": "7 kg", "at": place(0.2, 0.5), "moves": {"kind": "carried", "by": "load"}}
    solution = solve(rig(data))
    assert solution.drive_pull["raising"].value == pytest.approx(107.0 * G)
    assert {"load", "plate"} <= set(solution.weights)


def tangent(point, centre, radius, sense):
    """Where a straight rope from a point touches a circle that it turns about: anticlockwise for sense +1; and the rope's direction."""
    dx, dy = centre[0] - point[0], centre[1] - point[1]
    distance = sqrt(dx * dx + dy * dy)
    heading = atan2(dy, dx) - sense * numpy.arcsin(radius / distance)
    return numpy.array([cos(heading), sin(heading)]), sqrt(distance**2 - radius**2), heading


@pytest.mark.parametrize("degrees", [0.0, 20.0, 50.0])
def test_moments_about_the_hinge_written_down_anew_give_the_pull_with_a_weight_on_its_own_rope(degrees):
    """The witness: where the weight hangs from the length of its rope by a root of scipy's, then moments about the hinge with friction."""
    efficiency, angle, radius = 0.95, radians(degrees), SHEAVE_M / 2
    solution = solve(rig(lid_with_hanging_weight(20.0, 6.0, efficiency)), numpy.array([0.0, angle]))

    def rope_m(turn, weight_eye_up):
        _, length, heading = tangent((cos(turn), 1 + sin(turn)), (3 - radius, 4.5), radius, -1)
        return length + radius * (heading + pi / 2) + 4.5 - weight_eye_up

    hung = brentq(lambda up: rope_m(angle, up) - rope_m(0.0, 2.7), -5.0, 4.4, xtol=1e-13)
    at = solution.travel.poses.on_body("weight", (0.0, 0.3, 0.0))[1]
    assert at == pytest.approx([3.0, hung, 0.0], abs=1e-9)
    sinks = hung < 2.7
    for way, sense in (("raising", 1), ("lowering", -1)):
        # raising: the hoist rope runs to the drum over the head, the weight rope the way the weight goes
        weight_pull = 6.0 * G * (efficiency ** (sense * (1 if sinks else -1)) if degrees else efficiency**sense)
        middle = numpy.array([cos(angle), 1 + sin(angle)])
        up, _, _ = tangent(middle, (3 - radius, 4.5), radius, -1)
        edge = numpy.array([2 * cos(angle), 1 + 2 * sin(angle)])
        hoist, _, _ = tangent(edge, (-1.5, 3.0), radius, 1)

        def moment(place_, force):
            arm = place_ - numpy.array([0.0, HINGE_UP_M])
            return arm[0] * force[1] - arm[1] * force[0]

        left = -20.0 * G * cos(angle) + weight_pull * moment(middle, up)
        pull = -left / moment(edge, hoist)
        assert along(solution, getattr(solution.runs["hoist"][0], way))[1] == pytest.approx(pull, rel=1e-9)


@pytest.mark.parametrize("data", [lid_by_winch(weight_kg=5.0), lid_with_hanging_weight(), lid_by_winch(efficiency=0.9)])
def test_the_force_on_the_hinge_is_what_is_left_of_all_pulls_and_weights(data):
    solution = solve(rig(data))
    travel = solution.travel
    hinge = next(each for each in reactions(solution) if each.name == "hinge of lid")
    together = [name for name in travel.rig.bodies if travel.rig.carrier(name) == "lid"]
    greatest = 0.0
    for way in (*WAYS, "holding_least", "holding_most"):
        force = numpy.tile([0.0, -sum(solution.weights[name].number for name in together), 0.0], (101, 1))
        for rope, path in travel.paths.items():
            pulls = along(solution, getattr(solution.runs[rope][0], way))
            force = force + pulls[:, None] * path.directions[0]
        greatest = max(greatest, numpy.linalg.norm(force, axis=1).max())
    # at rest a mixture of least and greatest pulls may press harder than either alone
    assert greatest * (1 - 1e-12) <= hinge.force.number <= greatest * 1.05
    assert hinge.angle_rad is not None


@pytest.mark.parametrize("axis", [[0.0, 0.0, 1.0], [0.3, -0.2, 1.0], [0.0, 0.0, -2.0]])
def test_a_body_is_turned_about_an_axis_in_space_as_an_independent_rotation_turns_it(axis):
    data = lid_by_winch(swing_deg=60.0)
    data["bodies"]["lid"]["moves"]["axis"] = axis
    travel = follow(rig(data))
    turn = travel.poses.q[:, 0]
    assert numpy.abs(turn) == pytest.approx(travel.angles_rad)
    unit = numpy.array(axis) / numpy.linalg.norm(axis)
    arm = numpy.array([2.0, 0.3, 0.1])
    expected = numpy.add([0.0, HINGE_UP_M, 0.0], Rotation.from_rotvec(turn[:, None] * unit).apply(arm))
    assert travel.poses.on_body("lid", tuple(arm - [1.0, 0.0, 0.0])) == pytest.approx(expected, abs=1e-12)
    assert numpy.all(travel.heights_m >= 0)


def test_the_mirrored_lid_has_the_same_pulls():
    one = lid_by_hand(place(-1.0, 4.0), swing_deg=70.0)
    other = lid_by_hand(place(1.0, 4.0), swing_deg=70.0)
    other["bodies"]["lid"] |= {"at": place(-1.0, 1.0), "picks": {"edge": place(-1.0, 0.0)}}
    first, second = solve(rig(one)), solve(rig(other))
    assert along(first, first.drive_pull["raising"]) == pytest.approx(along(second, second.drive_pull["raising"]), rel=1e-12)


def test_a_rope_that_comes_into_line_with_the_hinge_is_told_with_the_angle():
    with pytest.raises(ClashError, match=r"no longer turns the load: swung by 5\d(\.\d)?°"):
        follow(rig(lid_by_hand(place(2.0, 4.0), swing_deg=80.0)))


def test_a_rope_that_would_turn_the_lid_down_is_refused():
    with pytest.raises(ClashError, match="does not raise the load"):
        follow(rig(lid_by_hand(place(2.0, -4.0), swing_deg=10.0)))


def test_a_swing_that_ends_below_where_it_began_is_refused_with_the_angle():
    data = lid_by_hand(place(-50.0, 0.0), swing_deg=140.0)
    x, y = cos(radians(30)), sin(radians(30))
    data["bodies"]["lid"] |= {"at": place(x, 1 + y), "picks": {"edge": place(x, y)}}
    with pytest.raises(GeometryError, match="swung by 12"):
        follow(rig(data))


def test_a_rope_in_line_with_the_hinge_of_what_it_is_to_hold_is_refused_since_its_pull_has_no_bound():
    data = lid_by_hand(place(-1.0, 4.0))
    data["bodies"]["other"] = hinged()["bodies"]["lid"] | {"role": "other", "at": place(1.0, 3.0)}
    data["bodies"]["other"]["moves"] = {"kind": "hinged", "hinge": place(0.0, 3.0)}
    data["points"]["beside"] = {"at": place(-5.0, 3.0)}
    data["bodies"]["other"]["picks"] = {"near": place(-1.5, 0.0)}
    data["ropes"]["slip"] = steel([{"made_fast_to": "beside"}, {"made_fast_to": "other", "pick": "near"}])
    with pytest.raises(GeometryError, match="times all the weight: it has next to no arm"):
        follow(rig(data))


def test_a_long_way_is_followed_in_parts_where_one_step_would_lose_it():
    """A load drawn up by an arm through most of a half turn: a straight guess from the drawn pose turns the arm round several times."""
    from tests.rig_builders import Builder, fast

    b = Builder("crank arm", travel=1.9)
    b.body("arm", 5.0, (0.0, 3.0), picks={"end": (0.087, -0.996)}, moves={"kind": "hinged", "hinge": place(0.0, 3.0)})
    b.body("load", 50.0, (0.5, -5.0), "load", picks={"eye": (0.0, 0.2)})
    b.rope("sling", [fast("load", "eye"), fast("arm", "end")])
    b.data["ropes"]["hoist"] = steel([fast("arm", "end"), {"pulled_by_hand_at": place(0.8, 9.0)}])
    b.data["drive"] = {"kind": "hand line"}
    found = follow(b.rig())
    assert numpy.max(numpy.abs(found.mismatch_m)) < 1e-9
    arm = [free.body for free in found.free].index("arm")
    turn = found.poses.q[:, arm]
    assert numpy.all(numpy.diff(turn) > 0)
    assert 2.0 < turn[-1] < pi
    end = found.poses.on_body("arm", (0.087, -0.996, 0.0))
    sling = numpy.linalg.norm(found.poses.on_body("load", (0.0, 0.2, 0.0)) - end, axis=1)
    assert sling == pytest.approx(sling[0], abs=1e-9)
    few = follow(b.rig(), numpy.array([0.0, 1.9]))
    assert few.poses.q[-1] == pytest.approx(found.poses.q[-1], abs=1e-9)
