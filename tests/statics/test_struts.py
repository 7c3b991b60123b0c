"""Struts by hand: the balance of a joint, guys that only pull, ties between feet, a winch on a leg, and frames that do not hold."""

import math
from fractions import Fraction

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rigcheck.errors import ClashError, NotHeldError
from rigcheck.rig import examples
from rigcheck.statics.feet import feet
from rigcheck.statics.members import members
from rigcheck.statics.solution import solve
from rigcheck.statics.ways import MOST_GROWTH
from tests.rigs import G, place, rig
from tests.strut_rigs import JOINT, framed, on_head_n, pole_with_guys, tripod, wall_jib


def worked(data):
    solution = solve(rig(data))
    return solution, members(solution)


def pushes(data) -> dict[str, float]:
    return {name: float(member.most["raising"].value[0]) for name, member in worked(data)[1].by_name.items()}


def test_three_legs_alike_share_the_force_by_their_slope():
    # S = F l / (3 h), l² = h² + r²: 1.5 m out, 4 m high
    leg = on_head_n() * math.hypot(1.5, 4) / (3 * 4)
    assert pushes(tripod()) == pytest.approx(dict.fromkeys(("leg 0", "leg 1", "leg 2"), leg), rel=1e-12)


def test_a_foot_is_pressed_by_its_share_and_kicks_by_the_slope():
    solution, found = worked(tripod(held="ground"))
    for foot in feet(solution, found):
        assert foot.press.number == pytest.approx(on_head_n() / 3, rel=1e-12)
        assert foot.kick.number == pytest.approx(on_head_n() / 3 * 1.5 / 4, rel=1e-12)
        assert foot.ratio.number == pytest.approx(1.5 / 4, rel=1e-12)
        assert foot.reaction.up_n == pytest.approx(-on_head_n() / 3, rel=1e-12)


def test_a_wall_jib_is_a_triangle_of_forces():
    # reach 4, rise 3, so the tie is 5 long: tie 5/3 of the force, jib 4/3 of it
    force = on_head_n()
    found = pushes(wall_jib())
    assert found["tie"] == pytest.approx(-force * float(Fraction(5, 3)), rel=1e-12)
    assert found["jib"] == pytest.approx(force * float(Fraction(4, 3)), rel=1e-12)
    solution, all_members = worked(wall_jib())
    at_wall = {foot.name: foot.reaction for foot in feet(solution, all_members)}
    assert (at_wall["jib foot"].across_n, at_wall["jib foot"].up_n) == pytest.approx((-force * 4 / 3, 0), abs=1e-9)
    assert (at_wall["anchor"].across_n, at_wall["anchor"].up_n) == pytest.approx((force * 4 / 3, -force), abs=1e-9)


def test_half_of_a_struts_weight_comes_to_either_end():
    data = tripod()
    for strut in data["struts"].values():
        strut["mass"] = "30 kg"
    leg = (on_head_n() + 3 * 15 * G) * math.hypot(1.5, 4) / (3 * 4)
    assert pushes(data)["leg 1"] == pytest.approx(leg, rel=1e-12)
    solution, found = worked(data)
    down = -sum(foot.reaction.up_n for foot in feet(solution, found))
    assert down == pytest.approx(on_head_n() + 90 * G, rel=1e-12)


def test_friction_presses_the_legs_harder_while_raising():
    raised = pushes(tripod(efficiency=0.8))["leg 0"]
    assert raised == pytest.approx(on_head_n(efficiency=0.8) * math.hypot(1.5, 4) / 12, rel=1e-12)
    _, found = worked(tripod(efficiency=0.8))
    leg = found.by_name["leg 0"]
    assert leg.push.number == pytest.approx(raised, rel=1e-12)
    # at rest the second fall may pull with anything from 0.8 to 1 / 0.8 of the weight
    assert leg.least["at rest"].value == pytest.approx(100 * G * 1.8 * math.hypot(1.5, 4) / 12, rel=1e-12)


def test_of_two_guys_the_one_on_the_far_side_pulls_and_the_other_hangs_loose():
    found = pushes(pole_with_guys())
    # moments about the foot of the pole: F · 1 m = guy · its arm, 3 m · 4 / √(4² + 4²)
    guy = on_head_n() * 1 / (3 * 4 / math.hypot(4, 4))
    assert found["back guy"] == pytest.approx(-guy, rel=1e-12)
    assert found["front guy"] == pytest.approx(0, abs=1e-9)
    mirrored = pushes(pole_with_guys(lean_m=-1.0, back_m=1.0, front_m=4.0))
    assert mirrored["back guy"] == pytest.approx(0, abs=1e-9)
    assert mirrored["front guy"] < -1


def test_a_plumb_pole_asks_nothing_of_its_guys():
    found = pushes(pole_with_guys(lean_m=0.0))
    assert found["pole"] == pytest.approx(on_head_n(), rel=1e-12)
    assert found["back guy"] == pytest.approx(0, abs=1e-9)
    assert found["front guy"] == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(("lacks", "told"), [("leg 2", "3 are due|three are due")])
def test_a_joint_with_too_few_struts_is_not_held(lacks, told):
    data = tripod()
    del data["struts"][lacks]
    del data["points"]["foot 2"]
    with pytest.raises(NotHeldError, match=told) as refused:
        worked(data)
    assert refused.value.where == f"points, {JOINT}"


def test_a_joint_whose_struts_lie_in_one_plane_is_not_held_out_of_it():
    data = framed({f"foot {k}": ((x, -4, 0), {}) for k, x in enumerate((-1, 0, 1))}, {f"leg {k}": f"foot {k}" for k in range(3)})
    data["points"]["foot 0"]["at"] = place(-0.94, 0, 0)
    data["ropes"]["hoist"]["path"][-1] = {"wound_on": "drum", "turns": "anticlockwise"}
    data["drive"]["drum"]["at"] = [*data["drive"]["drum"]["at"], "0.5 m"]
    with pytest.raises(NotHeldError, match="not held in depth"):
        worked(data)


@pytest.mark.parametrize("half_angle_deg", [3.0, 0.5, 0.1])
def test_how_near_to_one_line_two_struts_lie_is_told_by_how_forces_grow(half_angle_deg):
    sink = math.tan(math.radians(half_angle_deg)) * 2
    data = framed({"left": ((-2, sink, 0), {}), "right": ((2, sink, 0), {})}, {"left tie": "left", "right tie": "right"})
    _, found = worked(data)
    # a force across comes undiminished along both; one straight down is 1 / (2 sin) times as great in each
    assert found.frame.growth[0] == pytest.approx(
        math.hypot(0.5 / math.cos(math.radians(half_angle_deg)), 0.5 / math.sin(math.radians(half_angle_deg))), rel=1e-9
    )
    assert found.by_name["left tie"].pull.number == pytest.approx(on_head_n() / (2 * math.sin(math.radians(half_angle_deg))), rel=1e-9)


def test_struts_too_near_to_one_line_are_refused_with_how_near_they_are():
    data = framed({"left": ((-2, 0.0005, 0), {}), "right": ((2, 0.0005, 0), {})}, {"left tie": "left", "right tie": "right"})
    with pytest.raises(ClashError, match=r"comes 2000 times as great"):
        worked(data)
    assert MOST_GROWTH == 1000


def chained(**foot) -> dict:
    data = tripod(held="ground", **foot)
    for one, other in ((0, 1), (1, 2), (2, 0)):
        data["struts"][f"chain {one}{other}"] = {"one_end": f"foot {one}", "other_end": f"foot {other}", "pulls_only": True}
    return data


def test_chains_round_the_feet_hold_their_kick():
    solution, found = worked(chained())
    # each foot kicks outwards; two chains at 30° to that line hold it: 2 Z cos 30° = H
    kick = on_head_n() / 3 * 1.5 / 4
    for name in ("chain 01", "chain 12", "chain 20"):
        assert found.by_name[name].pull.number == pytest.approx(kick / (2 * math.cos(math.pi / 6)), rel=1e-9)
    assert [foot.kick.number for foot in feet(solution, found)] == [0.0, 0.0, 0.0]


def test_a_chain_that_would_have_to_push_is_left_out_and_its_feet_stand_on_friction():
    data = framed(
        {"left foot": ((-1, -4, 0), {"held": "ground"}), "right foot": ((-0.5, -4, 0), {"held": "ground"})},
        {"left leg": "left foot", "right leg": "right foot"},
    )
    data["struts"]["chain"] = {"one_end": "left foot", "other_end": "right foot", "pulls_only": True}
    # with the load to the right of both feet the left leg is pulled: it pulls its foot towards the other one
    solution, found = worked(data)
    assert found.frame.slack == ["chain"]
    assert "chain" not in found.by_name
    assert found.by_name["left leg"].pull.number > 0
    assert all(foot.kick.number > 0 for foot in feet(solution, found))


def test_a_winch_on_a_leg_takes_its_pull_out_of_the_feet():
    """Whatever goes on between head and winch, the feet bear the weights and nothing aside."""
    solution = solve(examples.example("well-tripod"))
    found = members(solution)
    for word in ("raising", "lowering"):
        whole = numpy.zeros(3)
        for foot in found.frame.feet:
            row = numpy.zeros((3, len(found.frame.nodes), 3))
            for axis in range(3):
                row[axis, found.frame.nodes.index(foot), axis] = 1.0
            for index, name in enumerate(found.frame.all_members):
                if foot in found.frame.rig.struts[name].ends:
                    row -= found.frame.direction(name, foot)[:, None, None] * found.frame.ways[0].map[index]
            values = {key: line.value for key, line in found.loads[word].inputs.items()}
            whole += [float(found.loads[word].extremes(values, each)[0][0]) for each in row]
        weight = (40 + 3 * 12 + 3 * 2) * G
        assert whole == pytest.approx([0, -weight, 0], abs=1e-6 * weight)


def test_more_struts_than_needed_share_by_stiffness_where_it_is_known():
    data = framed({f"foot {k}": ((x, -4, 0), {}) for k, x in enumerate((-1.5, 0.0, 1.5))}, {f"leg {k}": f"foot {k}" for k in range(3)})
    assert worked(data)[1].frame.ways == []
    for strut in data["struts"].values():
        strut |= {"diameter": "80 mm", "modulus": "9000 N/mm²"}
    found = pushes(data)
    # the head sinks by d: a leg of slope cos = h / l is shortened by d cos and pushes with E A / l · d cos
    long = math.hypot(1.5, 4)
    cos = 4 / long
    parts = {"leg 0": cos / long, "leg 1": 1 / 4, "leg 2": cos / long}
    sink = on_head_n() / (2 * cos**2 / long + 1 / 4)
    assert found == pytest.approx({name: part * sink for name, part in parts.items()}, rel=1e-9)


def test_every_mixture_of_pulls_at_rest_lies_within_the_extremes_told():
    _, found = worked(tripod(efficiency=0.85))
    loads = found.loads["at rest"]
    values = {key: line.value for key, line in loads.inputs.items()}
    shares = loads.shares(values)
    for index, name in enumerate(found.frame.all_members):
        row = found.frame.ways[0].map[index]
        tried = [float(loads.following(shares, mixed, row[None])[0][0]) for mixed in loads.mixtures(values)]
        assert len(tried) == 4
        assert min(tried) == pytest.approx(float(found.by_name[name].least["at rest"].value[0]), rel=1e-12)
        assert max(tried) == pytest.approx(float(found.by_name[name].most["at rest"].value[0]), rel=1e-12)


places = st.floats(0.3, 3.0)


@settings(max_examples=40, deadline=None)
@given(
    out=st.tuples(places, places, places),
    turn=st.tuples(*[st.floats(-0.4, 0.4)] * 3),
    deep=st.tuples(*[st.floats(1.5, 5.0)] * 3),
    efficiency=st.floats(0.7, 1.0),
)
def test_at_any_tripod_forces_and_moments_on_head_and_feet_come_to_nothing(out, turn, deep, efficiency):
    points = {}
    for k in range(3):
        angle = 2 * math.pi / 3 * k + turn[k]
        points[f"foot {k}"] = ((out[k] * math.cos(angle), -deep[k], out[k] * math.sin(angle)), {})
    solution, found = worked(framed(points, {f"leg {k}": f"foot {k}" for k in range(3)}, efficiency=efficiency))
    for word in ("raising", "lowering"):
        total, moment = numpy.zeros(3), numpy.zeros(3)
        for k in range(3):
            at = numpy.array(points[f"foot {k}"][0])
            onto = float(found.by_name[f"leg {k}"].most[word].value[0]) * at / numpy.linalg.norm(at)
            total, moment = total + onto, moment + numpy.cross(at, onto)
        falls = sum(float(getattr(run, word).value[0]) for run in solution.runs["hoist"])
        assert total == pytest.approx([0, -falls, 0], abs=1e-9 * falls)
        assert moment == pytest.approx([0, 0, 0], abs=1e-9 * falls)
