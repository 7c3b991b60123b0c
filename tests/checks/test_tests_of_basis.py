"""Test loads: the pulls are worked out anew at coefficient × load, and a rope must keep required / coefficient there."""

import pytest

from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS
from tests.rigs import BREAKING_FORCE_N, G, assessed, check_of, counterweighted, lead_sheave

W = 100 * G


def test_on_a_straight_lift_the_test_asks_what_the_factor_asks_already():
    """1.25 W · (5 / 1.25) over 23066.64 · 0.91: the coefficient drops out."""
    for kind in ("static", "dynamic"):
        check = check_of(assessed(lead_sheave()), f"test.{kind}")
        assert check.demand.number == pytest.approx(5 * W / (0.91 * BREAKING_FORCE_N))
        assert check.verdict == HOLDS


def test_with_a_counterweight_the_hoist_pull_grows_faster_than_the_load():
    """100 kg against 60 kg: 40 kg · g in use, 65 kg · g at 1.25 times the load: 1.625 times as much. The share is 65 g · 4 / (0.91 F)."""
    check = check_of(assessed(counterweighted(100, 60)), "test.static")
    assert check.demand.number == pytest.approx(65 * G * 4 / (0.91 * BREAKING_FORCE_N))
    assert check.demand.number > 40 * G * 5 / (0.91 * BREAKING_FORCE_N) * 1.29  # 1.625 / 1.25 = 1.3
    dynamic = check_of(assessed(counterweighted(100, 60)), "test.dynamic")
    assert dynamic.demand.number == pytest.approx(
        max(50 * G * (5 / 1.1) / (0.91 * BREAKING_FORCE_N), 60 * G * (5 / 1.1) / (0.95 * BREAKING_FORCE_N))
    )


def test_the_test_can_fall_short_where_every_rope_holds_in_use():
    """M = 300 kg, m = 700 kg: 400 kg · g in use is below 428 kg · g, 575 kg · g at the test is above 1.25 · 428 kg · g = 535 kg · g."""
    found = assessed(counterweighted(700, 300))
    assert check_of(found, "rope.hoist.sheave.head").verdict == HOLDS
    assert check_of(found, "test.static").verdict == FALLS_SHORT
    assert check_of(found, "test.static").demand.number == pytest.approx(575 * G * 4 / (0.91 * BREAKING_FORCE_N))


def test_a_sheave_may_carry_the_test_coefficient_times_its_rating_and_no_more():
    data = counterweighted(100, 60)
    data["sheaves"]["head"]["rated_load"] = f"{2 * 65 * G / 1.25 * 1.01!r} N"
    assert check_of(assessed(data), "test.static").verdict == HOLDS
    data["sheaves"]["head"]["rated_load"] = f"{2 * 65 * G / 1.25 * 0.99!r} N"
    found = assessed(data)
    assert check_of(found, "sheave.head.pin.hoist").verdict == HOLDS
    assert check_of(found, "test.static").verdict == FALLS_SHORT


@pytest.mark.parametrize(("by_hand", "load"), [(False, "125 kg"), (True, "150 kg")])
def test_work_by_hand_is_tested_at_one_and_a_half_and_power_at_one_and_a_quarter(by_hand, load):
    data = lead_sheave()
    if by_hand:
        data["drive"] = {"kind": "winch", "drum": data["drive"]["drum"], "crank": {"radius": "0.35 m"}}
    assert check_of(assessed(data), "test.static").what == f"static test with {load}"
    assert check_of(assessed(data), "test.dynamic").what == "dynamic test with 110 kg"


def test_a_hand_line_is_work_by_hand():
    data = lead_sheave(20.0)
    data["drive"] = {"kind": "hand line"}
    data["ropes"]["hoist"]["path"][-1] = {"pulled_by_hand_at": ["0.12 m", "1.2 m"]}
    assert check_of(assessed(data), "test.static").what == "static test with 30 kg"


def test_a_basis_without_test_loads_is_named_among_what_was_not_checked():
    found = assessed(lead_sheave() | {"basis": {"factors": "washington-wire-rope"}})
    assert not [check for check in found.checks if check.id.startswith("test.")]
    assert any("Test loads" in text for text in found.not_checked)


def test_the_test_cannot_tell_while_a_strength_is_unknown():
    data = lead_sheave()
    del data["sheaves"]["head"]["rated_load"]
    check = check_of(assessed(data), "test.static")
    assert check.verdict == CANNOT_TELL
    assert "sheave head, force on the pin" in check.reason


def test_the_test_cannot_tell_on_a_fitting_from_memory_and_does_not_count_it():
    data = lead_sheave()
    data["ropes"]["hoist"]["path"][0]["fitting"] = "wedge socket"
    check = check_of(assessed(data), "test.static")
    assert check.verdict == CANNOT_TELL
    assert check.demand.number == pytest.approx(5 * W / (0.91 * BREAKING_FORCE_N)), "0.75 from memory would give a larger share"


def test_what_is_known_to_be_too_weak_falls_short_though_another_strength_is_unknown():
    data = lead_sheave(600.0)
    del data["sheaves"]["head"]["rated_load"]
    assert check_of(assessed(data), "test.static").verdict == FALLS_SHORT


def test_with_no_strength_known_the_test_says_so():
    data = lead_sheave()
    del data["sheaves"]["head"]["rated_load"], data["ropes"]["hoist"]["grade"]
    check = check_of(assessed(data), "test.static")
    assert check.verdict == CANNOT_TELL
    assert "rope hoist, on the drum" in check.reason


def test_the_part_with_least_left_is_named():
    """The drum is as small a bend as the head and both carry one pull: the first of them is named; a weak pin or motor takes its place."""
    data = lead_sheave()
    for kind in ("static", "dynamic"):
        assert check_of(assessed(data), f"test.{kind}").reason.startswith("Rope hoist, over head governs")
    data["sheaves"]["head"]["rated_load"] = f"{2 * W * 1.01!r} N"
    assert check_of(assessed(data), "test.static").reason.startswith("Sheave head, force on the pin governs")


def test_a_motor_that_barely_starts_the_test_load_is_named_in_the_dynamic_test_alone():
    """110 kg · g on 63 mm is 67.96 N·m of 70 N·m: 0.97 of the whole, the rope 0.23."""
    data = lead_sheave()
    data["drive"]["motor"] |= {"stall_torque": "70 N·m", "rated_torque": "65 N·m"}
    data["drive"]["cable"] = {"area": "16 mm²", "length": "1 mm", "temperature": "20 °C"}
    found = assessed(data)
    dynamic = check_of(found, "test.dynamic")
    assert dynamic.demand.number == pytest.approx(1.1 * W * 0.063 / 70, rel=1e-3)
    assert dynamic.reason.startswith("Motor, starting under full load governs")
    assert check_of(found, "test.static").reason.startswith("Rope hoist")


def test_where_a_test_governs_the_rated_load_the_part_behind_it_is_known():
    found = assessed(counterweighted(700, 300))
    assert found.whole.known.governed_by == "test.static"
    assert found.whole.known.through == "rope.hoist.sheave.head"


def test_what_the_tests_do_not_look_at_is_said():
    told = [text for text in assessed(lead_sheave()).not_checked if text.startswith("What the test loads ask of")]
    assert len(told) == 1
    assert all(word in told[0] for word in ("gears", "brake", "run-back guard", "dynamic one", "motor starts"))
    by_hand = lead_sheave(20.0)
    by_hand["drive"] = {"kind": "hand line"}
    by_hand["ropes"]["hoist"]["path"][-1] = {"pulled_by_hand_at": ["0.12 m", "1.2 m"]}
    assert any("hand line: the tests look at ropes and sheaves only." in text for text in assessed(by_hand).not_checked)


def test_the_test_names_the_part_with_least_left_and_leads_to_it_where_it_falls_short():
    data = lead_sheave()
    data["sheaves"]["head"]["rated_load"] = "2.1 kN"  # 2 · 100 kg · g = 1.96 kN: the pin is nearer to its limit than the rope
    assert check_of(assessed(data), "test.static").reason.startswith("Sheave head, force on the pin governs")
    assert check_of(assessed(lead_sheave()), "test.static").reason.startswith("Rope hoist, over head governs")
    short = check_of(assessed(counterweighted(700, 300)), "test.static")
    assert short.remedy.startswith("Rope hoist, ")
    assert short.wants == (("ropes", "hoist", "diameter"),)


def test_the_lines_of_the_part_with_least_left_are_written_out_for_the_test_load():
    """125 kg · g = 1225.83 N over the head of η 0.9 is 1362.04 N; 5 · 1362.04 / (1.25 · 0.91 · 23066.64) = 0.25955, its inverse the factor."""
    found = assessed(lead_sheave(efficiency=0.9))
    check = check_of(found, "test.static")
    lines = found.solution.working.ancestors([check.factor])
    told = {line.sign.meaning: line for line in lines}
    load, weight = told["the load in the static test"], told["weight of load, static test"]
    pull = told["greatest pull in hoist, over head, static test"]
    assert (load.number, weight.number) == (pytest.approx(125), pytest.approx(125 * G))
    assert pull.number == pytest.approx(125 * G / 0.9)
    share = next(line for line in lines if line.sign.meaning.startswith("used share of what the static test leaves: rope hoist, over head"))
    assert share.number == pytest.approx(5 * (125 * G / 0.9) / (1.25 * 0.91 * BREAKING_FORCE_N))
    assert check.factor.number == pytest.approx(1 / share.number)
    assert check.demand.number == pytest.approx(share.number, rel=1e-12)
    routines = [line for line in lines if line.kind == "solved" and line.formula is None and "standing still" not in line.sign.meaning]
    assert routines == [], "every step down to the factor is a formula, a given or an extreme"


@pytest.mark.parametrize("data", [lead_sheave(), counterweighted(100, 60, 0.9), counterweighted(700, 300)])
def test_the_written_share_is_the_greatest_of_all_shares(data):
    found = assessed(data)
    for kind in ("static", "dynamic"):
        check = check_of(found, f"test.{kind}")
        assert check.factor.inputs["demand"].number == pytest.approx(check.demand.number, rel=1e-12)


def test_a_strength_that_is_unknown_leaves_the_followed_factor_of_what_is_known():
    data = lead_sheave()
    del data["sheaves"]["head"]["rated_load"]
    check = check_of(assessed(data), "test.static")
    assert check.verdict == CANNOT_TELL
    assert "of that rope hoist, over head has least left" in check.reason.lower()
    assert check.factor.inputs["demand"].sign.letter == "u_static test"


def test_asking_for_the_rated_load_does_not_go_through_the_written_lines():
    found = assessed(lead_sheave())
    check = check_of(found, "test.static")
    assert "weight of load, static test" not in {line.sign.meaning for line in found.solution.working.ancestors([check.demand])}
