"""The drum against hand calculation on a straight lift: 100 kg, 6 mm rope, 94 mm core, so that the first layer runs at 50 mm."""

import math

import numpy
import pytest
from hypothesis import given
from hypothesis import strategies as some
from pydantic import ValidationError

from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS
from rigcheck.checks.drum_winding import length_of_turns, turns_and_layer
from tests.checks.winch_lift import ONE_LAYER, G, everything, judged
from tests.rig_builders import Builder, counterweighted, drum, fast, over


def test_torque_on_one_layer_is_weight_times_first_radius():
    found = judged()
    assert found.drum.first_radius.number == pytest.approx(0.05)
    assert found.drum.torque_raising.number == pytest.approx(100 * G * 0.05)
    assert found.drum.torque_holding.number == pytest.approx(100 * G * 0.05)
    assert found.drum.torque_lowering.number == pytest.approx(100 * G * 0.05)
    assert found.drum.open_question == ""


def test_turns_along_the_travel_are_dead_wraps_and_rope_over_the_way_round():
    line = judged().drum.ropes[0].turns
    assert line.value[0] == pytest.approx(3)
    assert line.value[-1] == pytest.approx(3 + 1.0 / (math.pi * 0.1))


def test_the_worst_layer_is_found_in_the_middle_of_the_travel():
    # 30 mm hold 5 turns: 3 dead wraps leave 2 turns, 0.628 m of the first layer at 100 mm, then 1 m - 0.628 m on the second at 112 mm
    found = judged(core=ONE_LAYER | {"width": "30 mm"})
    layers = found.drum.ropes[0].layer.value
    heights = found.judge.solution.travel.heights_m
    assert numpy.all(layers[heights < 0.628] == 1)
    assert numpy.all(layers[heights > 0.629] == 2)
    assert found.drum.ropes[0].turns.value[-1] == pytest.approx(5 + (1.0 - 2 * math.pi * 0.1) / (math.pi * 0.112))
    assert found.drum.torque_raising.number == pytest.approx(100 * G * 0.056)
    assert found.drum.first_radius.number == pytest.approx(0.05)


def test_a_layer_just_full_is_not_yet_the_next_one():
    full = length_of_turns(10, 0.094, 0.006, 10)
    _, layer = turns_and_layer(numpy.array([full, full * 1.0001]), 0.094, 0.006, 10)
    assert layer.tolist() == [1, 2]


@given(some.floats(0.1, 60), some.floats(0.03, 0.5), some.floats(0.002, 0.02), some.integers(1, 40))
def test_turns_and_length_are_each_others_inverse(turns, core, rope, per_layer):
    counted, layer = turns_and_layer(numpy.array([length_of_turns(turns, core, rope, per_layer)]), core, rope, per_layer)
    assert counted[0] == pytest.approx(turns, rel=1e-9)
    assert layer[0] in (math.ceil(turns / per_layer), math.ceil(turns / per_layer * (1 - 1e-9)))


def test_width_over_rope_is_whole_turns_in_spite_of_floating_point():
    for width, rope, turns in (("0.3 m", "6 mm", 50), ("69 mm", "3 mm", 23), ("29.9 mm", "6 mm", 4)):
        found = judged(core=ONE_LAYER | {"width": width}, rope={"diameter": rope})
        assert found.drum.ropes[0].per_layer.number == turns


def test_without_width_or_dead_wraps_the_layer_is_not_known_and_what_rests_on_it_cannot_tell():
    for missing, word in (("width", "width"), ("dead_wraps", "count the turns")):
        core = {k: v for k, v in ONE_LAYER.items() if k != missing}
        found = judged(core=core, pawl={"holds": "500 N·m"})
        assert word in found.drum.open_question
        assert found.drum.torque_raising.number == pytest.approx(100 * G * 0.05)
        assert found.checks["holding.guard"].verdict == CANNOT_TELL
        assert found.checks["drum.hoist.capacity"].verdict == CANNOT_TELL


def test_three_dead_wraps_hold_and_two_fall_short_with_the_rope_that_is_missing():
    assert judged().checks["drum.hoist.dead-wraps"].verdict == HOLDS
    short = judged(core=ONE_LAYER | {"dead_wraps": 2}).checks["drum.hoist.dead-wraps"]
    assert short.verdict == FALLS_SHORT
    assert "0.315 m more rope" in short.remedy  # π · 100 mm, rounded up
    assert "30 CFR" in short.source
    assert "1910.179" in short.reason


def test_unstated_dead_wraps_say_how_to_count_them():
    check = judged(core={"width": "120 mm"}).checks["drum.hoist.dead-wraps"]
    assert check.verdict == CANNOT_TELL
    assert "count the turns" in check.reason


def test_room_counts_only_layers_that_leave_the_flange_its_overhang():
    # (140 - 94) / 2 = 23 mm; less 9 mm leaves 14 mm: two layers of 6 mm
    found = judged()
    capacity = found.checks["drum.hoist.capacity"].capacity.number
    assert capacity == pytest.approx(math.pi * 20 * (0.100 + 0.112))
    assert found.checks["drum.hoist.flange"].capacity.number == pytest.approx(0.017)
    assert found.checks["drum.hoist.flange"].demand.number == pytest.approx(0.009)


def test_a_flange_that_is_too_low_falls_short_and_the_remedy_holds():
    low = judged(core=ONE_LAYER | {"flange_diameter": "120 mm", "width": "30 mm"})
    assert low.checks["drum.hoist.capacity"].verdict == FALLS_SHORT
    assert low.checks["drum.hoist.flange"].verdict == FALLS_SHORT
    assert "136 mm" in low.checks["drum.hoist.flange"].remedy  # 94 + 2 · (2 + 1.5) · 6
    mended = judged(core=ONE_LAYER | {"flange_diameter": "136 mm", "width": "30 mm"})
    assert mended.checks["drum.hoist.capacity"].verdict == HOLDS
    assert mended.checks["drum.hoist.flange"].verdict == HOLDS


def test_a_drum_that_is_too_narrow_names_the_width_that_would_hold():
    # one layer below the flange; 1.942 m of rope over π · 100 mm is 6.18 turns, so seven of 6 mm
    one_layer = ONE_LAYER | {"flange_diameter": "124.1 mm"}
    narrow = judged(core=one_layer | {"width": "30 mm"}).checks["drum.hoist.capacity"]
    assert narrow.verdict == FALLS_SHORT
    assert "at least 42 mm wide" in narrow.remedy
    assert judged(core=one_layer | {"width": "42 mm"}).checks["drum.hoist.capacity"].verdict == HOLDS


def test_steel_rope_asks_eighteen_rope_diameters_and_names_the_least_drum():
    check = judged().checks["drum.hoist.diameter"]
    assert check.verdict == FALLS_SHORT
    assert check.capacity.number == pytest.approx(94 / 6)
    assert "108 mm" in check.remedy
    assert judged(core=ONE_LAYER | {"diameter": "108 mm"}).checks["drum.hoist.diameter"].verdict == HOLDS


def test_fibre_rope_gets_no_verdict_on_the_drum_from_memory():
    found = judged(rope={"kind": "fibre", "diameter": "6 mm"})
    assert "drum.hoist.diameter" not in found.checks
    assert any("from memory" in text for text in found.judge.not_checked)


def test_fleet_angle_is_half_the_width_over_the_run():
    found = judged(core=ONE_LAYER | {"width": "300 mm"})
    check = found.checks["drum.hoist.fleet-angle"]
    run = found.judge.solution.travel.paths["hoist"].straight[-1].min()
    assert check.demand.number == pytest.approx(math.atan(0.15 / run))
    assert check.verdict == HOLDS
    assert check.capacity.number == pytest.approx(math.radians(4))


def test_too_wide_a_drum_falls_short_in_fleet_angle_and_the_distance_named_would_hold():
    check = judged(core=ONE_LAYER | {"width": "800 mm"}).checks["drum.hoist.fleet-angle"]
    assert check.verdict == FALLS_SHORT
    assert "5.73 m" in check.remedy  # 0.4 / tan 4° = 5.7203 m, rounded up
    assert "1.5°" in check.reason


def two_ropes(second_mm: str = "6 mm", depth: float = 0.0, **core):
    """A load held level by two ropes that both wind on the drum, each over its own head sheave."""
    b = Builder("two ropes", 1.0)
    b.body(
        "load",
        100.0,
        (0.0, 0.0),
        "load",
        picks={"left": (0.0, 0.3, -depth), "right": (0.3, 0.3, depth)},
        moves={"kind": "guided", "tilts": True},
    )
    b.sheave("one", (0.05, 4.0, -depth))
    b.sheave("two", (0.35, 4.0, depth))
    for name in ("one", "two"):
        b.data["sheaves"][name]["efficiency"] = 1.0
    b.winch((1.6, 0.5), 0.094)
    b.data["drive"]["drum"] |= {"width": "120 mm", "dead_wraps": 3, "flange_diameter": "140 mm"} | core
    b.rope("first", [fast("load", "left", fitting_share=1.0), over("one", True), drum()])
    b.rope("second", [fast("load", "right", fitting_share=1.0), over("two", True), drum()])
    b.data["ropes"]["second"]["diameter"] = second_mm
    b.data["bodies"]["load"]["centre_of_gravity"] = ["0.15 m", "0.1 m"]
    return everything(b.rig())


def test_two_ropes_share_the_width_and_both_pull_on_the_drum():
    found = two_ropes()
    assert [r.per_layer.number for r in found.drum.ropes] == [10, 10]
    assert found.drum.torque_raising.number == pytest.approx(100 * G * 0.05, rel=1e-6)


def test_each_of_two_ropes_runs_to_its_own_side_of_the_drum():
    found = two_ropes(depth=0.03)  # opposite the middles of the two halves, 30 mm from the drum's middle
    facing = [found.checks[f"drum.{name}.fleet-angle"].demand.number for name in ("first", "second")]
    run = found.judge.solution.travel.paths["first"].straight[-1].min()
    assert facing[0] == pytest.approx(math.atan(0.03 / run), rel=1e-4)
    together = two_ropes()  # both sheaves opposite the drum's middle: the far end of either half is 60 mm away
    assert together.checks["drum.first.fleet-angle"].demand.number == pytest.approx(math.atan(0.06 / run), rel=1e-3)


def test_the_anchor_is_relieved_by_the_dead_wraps():
    core = ONE_LAYER | {"anchor_holds": "160 N", "rope_friction": 0.1}
    check = judged(core=core).checks["drum.hoist.anchor"]
    assert check.demand.number == pytest.approx(100 * G * math.exp(-2 * math.pi * 0.1 * 3))
    assert check.verdict == HOLDS
    short = judged(core=core | {"anchor_holds": "100 N"}).checks["drum.hoist.anchor"]
    assert short.verdict == FALLS_SHORT
    assert "3.64 dead wraps" in short.remedy  # ln(980.665 / 100) / (2 π 0.1) = 3.6337, rounded up


def test_an_anchor_of_unknown_friction_holds_only_if_it_needs_no_help():
    core = ONE_LAYER | {"anchor_holds": "160 N"}
    assert judged(core=core).checks["drum.hoist.anchor"].verdict == CANNOT_TELL
    assert judged(core=core | {"anchor_holds": "1 kN"}).checks["drum.hoist.anchor"].verdict == HOLDS
    assert any("anchor" in text for text in judged().judge.not_checked)


@given(some.floats(60, 400), some.floats(1.0, 2.0))
def test_a_bigger_drum_never_lowers_the_torque(core_mm, grown):
    small, big = (judged(core=ONE_LAYER | {"diameter": f"{d} mm"}).drum.first_radius.number for d in (core_mm, core_mm * grown))
    assert big >= small


def test_the_torque_grows_with_the_core_on_a_rig():
    torques = [judged(core=ONE_LAYER | {"diameter": d}).drum.torque_raising.number for d in ("60 mm", "94 mm", "150 mm")]
    assert torques == sorted(torques)


def test_a_flange_of_just_the_diameter_asked_for_holds_whatever_floating_point_makes_of_it():
    for core in (91.3, 94.0, 98.7, 103.1, 107.9):
        low = judged(core=ONE_LAYER | {"diameter": f"{core} mm", "flange_diameter": f"{core + 1} mm"}).checks["drum.hoist.flange"]
        assert low.verdict == FALLS_SHORT
        just = f"{round(core + 2 * 2.5 * 6, 1):g} mm"
        assert just in low.remedy
        assert judged(core=ONE_LAYER | {"diameter": f"{core} mm", "flange_diameter": just}).checks["drum.hoist.flange"].verdict == HOLDS


def test_dead_wraps_not_counted_ask_no_factor():
    check = judged(core={"width": "120 mm"}).checks["drum.hoist.dead-wraps"]
    assert check.verdict == CANNOT_TELL
    assert check.required is None


def _wound(first: dict, second: dict, second_begins_on_the_drum: bool) -> Builder:
    b = Builder("two ropes", 1.0)
    b.body("load", 100.0, (0.0, 0.0), "load", picks={"left": (0.0, 0.3), "right": (0.3, 0.3)})
    b.sheave("one", (0.05, 4.0), efficiency=1.0)
    b.sheave("two", (0.35, 4.0), efficiency=1.0)
    b.winch((1.6, 0.5), 0.094)
    b.rope("first", [fast("load", "left", fitting_share=1.0), over("one", True), first])
    path = [fast("load", "right", fitting_share=1.0), over("two", not second_begins_on_the_drum), second]
    b.rope("second", path[::-1] if second_begins_on_the_drum else path)
    return b


@pytest.mark.parametrize("begins", [False, True])
def test_ropes_that_lie_round_the_drum_in_opposite_senses_are_refused(begins):
    """Wound in together, a path that ends on the drum and one that begins there turn in opposite senses round it."""
    with pytest.raises(ValidationError, match='winds in "first" it pays out "second"'):
        _wound(drum(True), drum(begins), begins).rig()
    together = _wound(drum(True), drum(not begins), begins).rig()
    assert everything(together).drum.torque_raising.number == pytest.approx(100 * G * 0.05)


def test_ropes_of_unequal_diameter_that_climb_unalike_leave_the_tilt_open():
    words = "how far the load tilts once ropes of unequal diameter lie in different layers on the drum"
    assert words in two_ropes("8 mm", width="72 mm").judge.not_checked  # six of 6 mm and four of 8 mm in a layer
    assert words not in two_ropes().judge.not_checked


def test_the_anchor_of_a_slack_rope_is_told_no_number():
    b = counterweighted(50, 80, [{"efficiency": 0.96}])
    b.data["drive"]["drum"] |= ONE_LAYER | {"anchor_holds": "160 N"}
    check = everything(b.rig()).checks["drum.hoist.anchor"]
    assert check.verdict == CANNOT_TELL
    assert "slack" in check.reason
    assert "unknown" not in check.reason
