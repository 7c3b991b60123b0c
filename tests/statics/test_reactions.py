"""What the rig does to the building: resultants by hand, and the whole rig in balance with its weights. W = 980.665 N."""

import math

import numpy
import pytest

from rigcheck.checks.assessment import assess
from rigcheck.rig import examples
from rigcheck.statics.reactions import reactions, touches_of
from rigcheck.statics.solution import solve
from tests.rigs import DRUM_RADIUS_M, SHEAVE_M, G, counterweighted, falls, lead_sheave, place, rig, straight_lift, tackle

W = 100 * G


def by_name(data: dict) -> dict:
    return {reaction.name: reaction for reaction in reactions(solve(rig(data)))}


def test_a_head_sheave_that_the_rope_turns_right_round_hangs_on_twice_the_pull():
    head = by_name(lead_sheave())["hanger of head"]
    assert head.force.number == pytest.approx(2 * W)
    assert (head.across_n, head.up_n, head.depth_n) == pytest.approx((0, -2 * W, 0), abs=1e-6)


def test_with_friction_raising_pulls_hardest_at_the_head():
    head = by_name(lead_sheave(efficiency=0.9))["hanger of head"]
    assert head.case in ("raising", "at rest")
    assert head.force.number == pytest.approx(W + W / 0.9)


def test_the_winch_is_pulled_up_by_its_rope_and_over_about_its_axis():
    """The lead leaves the drum upwards at 63 mm left of its axis: the moment is 63 mm · W, and no base is stated."""
    winch = by_name(lead_sheave())["winch"]
    assert (winch.across_n, winch.up_n) == pytest.approx((0, W), abs=1e-6)
    assert winch.moment.number == pytest.approx(DRUM_RADIUS_M * W)
    assert "the place of the base is not stated" in winch.moment.sign.meaning


def test_the_moment_on_a_stated_base_is_the_pull_times_its_arm():
    """Base 0.4 m right of the axis: the rope runs up 0.463 m left of it."""
    data = lead_sheave()
    data["drive"]["drum"]["base"] = place(SHEAVE_M + DRUM_RADIUS_M + 0.4, 0.1)
    winch = by_name(data)["winch"]
    assert winch.moment.number == pytest.approx((0.4 + DRUM_RADIUS_M) * W)
    assert winch.moment.sign.unit == "N·m"
    assert "its base" in winch.moment.sign.meaning


def test_the_moment_of_a_level_lead_is_the_pull_times_its_height_above_the_base():
    """The rope comes to the drum level at 4.06 m (wrap of a quarter turn), the base lies at 3.5 m: arm 0.56 m."""
    data = lead_sheave()
    data["drive"]["drum"] |= {"at": place(2, 4 + SHEAVE_M / 2 - DRUM_RADIUS_M), "base": place(2, 3.5)}
    data["ropes"]["hoist"]["path"][-1]["turns"] = "clockwise"
    found = by_name(data)
    assert found["winch"].moment.number == pytest.approx(0.56 * W)
    assert (found["winch"].across_n, found["winch"].up_n) == pytest.approx((-W, 0), abs=1e-6)
    assert found["hanger of head"].force.number == pytest.approx(2**0.5 * W)


def test_a_tackle_hangs_on_its_becket_and_its_head():
    found = by_name(tackle(2))
    assert found["becket"].force.number == pytest.approx(W / 2)
    assert found["becket"].up_n == pytest.approx(-W / 2)
    assert found["hanger of sheave 2"].force.number == pytest.approx(W)


def test_of_falls_that_share_each_head_is_counted_with_everything_and_the_winch_with_it_once():
    """Two plumb falls over heads; the lead of each slants to the drum, so a head carries less than 2 W and the winch exactly W."""
    found = by_name(falls([-0.5, 0.5]))
    assert found["winch"].force.number == pytest.approx(W)
    solution = solve(rig(falls([-0.5, 0.5])))
    lead = solution.travel.paths["fall 1"].directions[1, 0]
    assert found["hanger of head 1"].force.number == pytest.approx(W * numpy.linalg.norm(lead - numpy.array([0, 1, 0])))


def test_where_several_sharing_ropes_carry_at_once_the_winch_is_not_counted_with_one_alone():
    """Four falls to a tilting load: they pull W together, never only the 0.75 W that one of them can get."""
    winch = by_name(falls([-0.6, -0.2, 0.2, 0.6], tilts=True))["winch"]
    assert W <= winch.force.number <= 2.5 * W * (1 + 1e-9)


@pytest.mark.parametrize(
    "data",
    [straight_lift(), lead_sheave(efficiency=0.9), lead_sheave(efficiency=0.93, heads=3), tackle(2, efficiency=0.9), tackle(5, efficiency=0.92),
     falls([-0.5, 0.5], efficiency=0.9, tilts=True, gravity_m=0.13), counterweighted(100, 60, 0.9, 0.95)],
    ids=lambda data: data["name"],
)  # fmt: skip
@pytest.mark.parametrize("way", ["raising", "lowering"])
def test_all_points_the_winch_and_the_weights_balance(data, way):
    """Plumb falls leave the guides nothing across, so points and winch together carry exactly the weights, friction or not."""
    solution = solve(rig(data))
    down = 0.0
    for name, touches in touches_of(solution.rig, solution.travel).items():
        for touch in touches if name not in solution.rig.bodies else ():
            down = down + getattr(solution.runs[touch.rope][touch.run], way).value[..., None] * touch.along
    weight = sum(line.number for line in solution.weights.values())
    assert numpy.allclose(down[:, 1], -weight, rtol=0, atol=1e-9 * weight)
    assert numpy.allclose(down[:, [0, 2]], 0, rtol=0, atol=1e-9 * weight)


def test_every_point_that_a_rope_reaches_is_told_in_every_example():
    for name in examples.names():
        found = assess(examples.example(name))
        reached = {s.made_fast_to for r in found.rig.ropes.values() for s in r.path if hasattr(s, "made_fast_to")}
        reached |= {found.rig.sheaves[s.over].on for r in found.rig.ropes.values() for s in r.path if hasattr(s, "over")}
        expected = {point for point in found.rig.points if point in reached} | ({"winch"} if found.rig.drive.kind == "winch" else set())
        expected |= {end for strut in found.rig.struts.values() for end in strut.ends if found.rig.points[end].held != "struts"}
        expected |= {f"hinge of {body}" for body, part in found.rig.bodies.items() if part.moves.kind == "hinged"}
        assert {reaction.name for reaction in found.reactions if not reaction.name.startswith("guide of ")} == expected


def test_a_guide_is_pressed_by_what_an_askew_fall_pulls_across():
    # Straight up is 0.9 m to 4.2 m - 2.2 m; the fall leans towards the head sheave at 0.7 m: W tan(lean) presses the guide.
    solution = solve(examples.example("gallery-crate"))
    guide = next(r for r in reactions(solution) if r.name == "guide of crate")
    weight = 110 * 9.80665
    fall = solution.runs["hoist rope"][0].raising.value[-1]
    assert guide.force.number == pytest.approx(math.sqrt(fall**2 - weight**2), rel=1e-9)
    assert guide.height_m == pytest.approx(2.2)
    assert guide.across_n == pytest.approx(guide.force.number, rel=1e-9)
    assert guide.up_n == pytest.approx(0, abs=1e-9)


def test_a_guide_that_nothing_presses_is_not_told():
    assert not [r for r in reactions(solve(examples.example("loft-lift"))) if r.name.startswith("guide")]


def test_on_a_slope_the_weight_presses_the_guide():
    # A cradle of 100 kg on a slope of 30°, its rope along the slope: the guide bears W cos 30°.
    data = {
        "format": 1,
        "name": "slope",
        "bodies": {
            "cradle": {"role": "load", "mass": "100 kg", "at": ["0 m", "0 m"], "moves": {"kind": "guided", "along": [math.sqrt(3), 1]}}
        },
        "ropes": {
            "haul": {
                "kind": "steel",
                "diameter": "6 mm",
                "path": [{"made_fast_to": "cradle"}, {"pulled_by_hand_at": [f"{5 * math.cos(math.pi / 6):.12f} m", "2.5 m"]}],
            }
        },
        "drive": {"kind": "hand line"},
        "limits": {"travel": "1 m"},
    }
    (guide,) = [r for r in reactions(solve(rig(data))) if r.name == "guide of cradle"]
    assert guide.force.number == pytest.approx(100 * 9.80665 * math.cos(math.pi / 6), rel=1e-9)
    assert (guide.across_n, guide.up_n) == pytest.approx((guide.force.number * 0.5, -guide.force.number * math.cos(math.pi / 6)), rel=1e-9)


@pytest.mark.parametrize("name", examples.names())
def test_what_hangs_one_sheave_is_pulled_as_hard_as_its_pin(name):
    """One force told twice, as the pin's rating is asked and as the building feels it: raising, lowering, and at rest with either side slacker."""
    found = assess(examples.example(name))
    told = {reaction.name: reaction.force.number for reaction in found.reactions}
    for check in found.checks:
        if check.id.startswith("sheave.") and ".pin." in check.id and check.demand is not None:
            on = found.rig.sheaves[check.id.split(".")[1]].on
            alone = sum(sheave.on == on for sheave in found.rig.sheaves.values()) == 1 and not any(
                getattr(stop, "made_fast_to", None) == on for rope in found.rig.ropes.values() for stop in rope.path
            )
            if on in found.rig.points and alone:
                assert told[on] == pytest.approx(check.demand.number, rel=2e-3), check.id


def test_a_guide_that_nothing_presses_is_told_with_no_force_rather_than_with_rounding():
    solution = solve(examples.example("loft-lift"))
    reactions(solution)
    pressed = [line for line in solution.working.lines if line.sign.letter.startswith("R_guide")]
    assert pressed
    assert all(numpy.all((line.value == 0) | (line.value > 1e-6)) for line in pressed)
