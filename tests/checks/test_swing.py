"""Whether a lid comes back by itself: judged by the moment of all weights, told with the angle at which it would run on."""

from math import atan, degrees, floor, radians, sin

import pytest

from rigcheck.checks.check import FALLS_SHORT, HOLDS
from rigcheck.report.as_json import contract
from rigcheck.rig import examples
from tests.hinged_rigs import lid_by_winch, lid_with_hanging_weight
from tests.rigs import G, assessed, check_of, lead_sheave, place


def test_a_lid_short_of_the_upright_comes_back_by_itself():
    check = check_of(assessed(lid_by_winch(20.0, swing_deg=80.0)), "swing.over-centre")
    assert check.verdict == HOLDS
    assert check.capacity.number == pytest.approx(20.0 * G * sin(radians(10.0)), rel=1e-6)
    assert "least when swung by 80°" in check.reason


def test_a_lid_beyond_the_upright_runs_on_and_the_angle_is_told():
    check = check_of(assessed(lid_by_winch(20.0, swing_deg=110.0)), "swing.over-centre")
    assert check.verdict == FALLS_SHORT
    assert "Once it has swung by 90° the weights turn it on by themselves" in check.reason
    assert check.remedy == "A swing that stops short of 90° or a second rope that holds it back."
    assert check.wants[0] == ("limits", "swing")


def test_where_the_swing_is_to_stop_is_told_for_the_lightest_that_the_lid_may_be():
    """With 19 kg at 1 m along the lid and 0.2 m above it, and 10 kg half a metre behind: tan θ = (19 · 1 - 10 · 0.5) / (19 · 0.2)."""
    data = lid_by_winch(20.0, swing_deg=85.0, weight_kg=10.0)
    data["bodies"]["lid"] |= {"mass": "20 kg ± 1 kg", "centre_of_gravity": place(0.0, 0.2)}
    check = check_of(assessed(data), "swing.over-centre")
    assert check.verdict == FALLS_SHORT
    assert f"swung by {degrees(atan((20 - 5) / (20 * 0.2))):.1f}°" in check.reason
    angle = degrees(atan((19 - 5) / (19 * 0.2)))
    assert f"a swing that stops short of {floor(angle * 10) / 10}°" in check.remedy
    assert "worse end of its tolerance" in check.remedy


def test_a_lid_that_ends_just_upright_has_nothing_left_that_brings_it_back():
    assert check_of(assessed(lid_by_winch(20.0, swing_deg=90.0)), "swing.over-centre").verdict == FALLS_SHORT


def test_a_thick_lid_runs_on_where_its_weight_stands_over_the_hinge():
    data = lid_by_winch(20.0, swing_deg=85.0)
    data["bodies"]["lid"]["centre_of_gravity"] = place(0.0, 0.2)
    found = check_of(assessed(data), "swing.over-centre")
    assert found.verdict == FALLS_SHORT
    assert f"swung by {degrees(atan(1.0 / 0.2)):.1f}°" in found.reason


def test_a_counterweight_as_heavy_as_the_lid_runs_on_from_the_start():
    check = check_of(assessed(lid_by_winch(20.0, swing_deg=40.0, weight_kg=41.0)), "swing.over-centre")
    assert check.verdict == FALLS_SHORT
    assert "From the drawn pose on" in check.reason
    assert ("bodies", "weight", "mass") in check.wants


def test_the_least_load_is_that_at_which_the_counterweight_still_lets_it_come_back():
    found = assessed(lid_by_winch(20.0, swing_deg=60.0, weight_kg=10.0))
    assert found.whole.least_load_kg == pytest.approx(10.0 * 0.5 / 1.0, rel=1e-6)


def test_a_load_that_rises_has_no_such_check_and_a_swing_no_velocity_ratio():
    assert not [check for check in assessed(lead_sheave()).checks if check.id.startswith("swing.")]
    assert assessed(lid_by_winch()).velocity_ratio is None


def test_what_is_not_worked_out_about_hinges_is_said():
    told = " ".join(assessed(lid_with_hanging_weight()).not_checked)
    assert "The hinge of lid: what it is fixed with" in told
    assert "moments of inertia about the hinge" in told
    assert not [check for check in assessed(lid_with_hanging_weight()).checks if check.id == "counterweight.stopping"]


def test_the_time_of_a_swing_is_its_angle_over_the_speed_of_turning():
    data = lid_by_winch(20.0, swing_deg=60.0, efficiency=1.0)
    data["drive"]["gears"] = [{"kind": "spur", "ratio": 4, "efficiency": 1}]
    found = assessed(data)
    line = next(line for line in found.solution.working.lines if line.sign.letter.startswith("t_travel"))
    take_in = found.solution.travel.paths["hoist"].length
    mean_speed = (take_in[0] - take_in[-1]) / line.number
    assert mean_speed == pytest.approx(30 * 2 * 3.14159265 / 60 / 4 * 0.063, rel=0.01)


def test_the_contract_has_the_angle_beside_every_height_of_a_swing_and_of_no_other_rig():
    told = contract(assessed(lid_by_winch(swing_deg=60.0)))
    assert told["velocity_ratio"] is None
    assert told["heights"][-1]["angle_rad"] == pytest.approx(radians(60.0))
    assert told["heights"][-1]["height_m"] == pytest.approx(sin(radians(60.0)))
    assert all({"raising_at_rad", "holding_at_rad", "lowering_at_rad"} <= set(run) for run in told["tensions"])
    assert all("at_rad" in reaction for reaction in told["reactions"])
    assert "hinge of lid" in [reaction["point"] for reaction in told["reactions"]]
    other = contract(assessed(lead_sheave()))
    assert "_rad" not in " ".join(key for entry in (*other["heights"], *other["tensions"], *other["reactions"]) for key in entry)


def test_the_cellar_hatch_holds_with_its_weight_and_falls_short_with_a_heavier_one():
    from rigcheck.checks.assessment import assess
    from rigcheck.rig.model import Rig

    rig = examples.example("cellar-hatch")
    assert assess(rig).all_hold
    data = rig.model_dump(mode="json", exclude_none=True)
    data["bodies"]["weight"]["mass"] = "21 kg"
    found = assess(Rig.model_validate(data))
    check = check_of(found, "swing.over-centre")
    assert check.verdict == FALLS_SHORT
    assert "or less counterweight: at most 14.03 kg, the best weight." in check.remedy
