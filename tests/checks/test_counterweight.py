"""Slack and counterweight, by hand: load m = 100 kg, counterweight M, its rope over one sheave of efficiency η.

Lowering, the load's side of the counterweight rope carries M g / η, so g (m - M / η) is left for the hoist rope; raising it is g (m - η M).
"""

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS
from rigcheck.rig import examples
from rigcheck.statics.solution import solve
from tests.rigs import G, assessed, check_of, counterweighted, falls, fast, lead_sheave, place, rig, steel, tackle

HOIST = "taut.hoist"


def with_limits(data: dict, **limits) -> dict:
    data["limits"] |= limits
    return data


@pytest.mark.parametrize(("efficiency", "left"), [(1.0, 40.0), (0.95, 100 - 60 / 0.95), (0.8, 25.0)])
def test_the_pull_left_over_is_the_least_of_both_ways_and_lowering_governs(efficiency, left):
    check = check_of(assessed(counterweighted(100, 60, efficiency)), HOIST)
    assert check.capacity.number == pytest.approx(left * G)
    assert check.verdict == HOLDS


def test_the_margin_stated_is_what_must_be_left():
    assert check_of(assessed(with_limits(counterweighted(100, 60), taut_margin="390 N")), HOIST).verdict == HOLDS  # 40 kg · g = 392.27 N
    short = check_of(assessed(with_limits(counterweighted(100, 60), taut_margin="395 N")), HOIST)
    assert short.verdict == FALLS_SHORT
    assert short.demand.number == pytest.approx(395.0)


def test_a_counterweight_heavier_than_the_load_falls_short_and_the_pulls_cannot_be_told():
    data = counterweighted(100, 130)
    assert solve(rig(data)).slack().all()
    found = assessed(data)
    assert check_of(found, HOIST).verdict == FALLS_SHORT
    assert check_of(found, HOIST).capacity.number == pytest.approx(-30 * G)
    for check in found.checks:
        if (check.id.startswith("rope.") and check.unit == "N") or ".pin." in check.id or check.id.startswith("test."):
            assert check.verdict == CANNOT_TELL, check.id
            assert "goes slack" in check.reason, check.id
    assert found.whole.rated_load_kg is None
    assert found.whole.least_load_kg == pytest.approx(130.0)


def test_a_rig_that_goes_slack_only_while_lowering_is_slack():
    """η = 0.9, M = 95 kg: raising 100 - 85.5 kg is left, lowering 100 - 105.6 kg."""
    data = counterweighted(100, 95, 0.9)
    assert solve(rig(data)).slack().all()
    assert check_of(assessed(data), HOIST).capacity.number == pytest.approx((100 - 95 / 0.9) * G)


def test_a_rig_that_keeps_a_pull_is_not_slack():
    assert not solve(rig(counterweighted(100, 85, 0.9))).slack().any()


def test_the_counterweight_rope_stays_taut_by_the_counterweight_itself():
    check = check_of(assessed(counterweighted(100, 60, 0.9)), "taut.cw rope")
    assert check.capacity.number == pytest.approx(60 * G * 0.9)  # raising, the load's side: η M g
    assert check.verdict == HOLDS


# -- the best counterweight --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("efficiency", "margin_n"), [(1.0, 0.0), (1.0, 100.0), (0.9, 100.0)])
def test_the_best_counterweight_leaves_just_the_margin_and_a_heavier_one_less(efficiency, margin_n):
    margin = {"taut_margin": f"{margin_n} N"}
    best = assessed(with_limits(counterweighted(100, 60, efficiency), **margin)).best_counterweight_kg
    assert best == pytest.approx(efficiency * (100 - margin_n / G))
    left = [check_of(assessed(with_limits(counterweighted(100, m, efficiency), **margin)), HOIST).capacity.number for m in (best, best + 1)]
    assert left[0] == pytest.approx(margin_n, abs=1e-6)
    assert left[1] == pytest.approx(margin_n - G / efficiency, abs=1e-6)


def test_the_remedy_names_the_best_counterweight_rounded_so_that_it_holds():
    short = check_of(assessed(with_limits(counterweighted(100, 95, 0.9), taut_margin="100 N")), HOIST)
    assert (
        short.remedy == "More load or less counterweight: at most 80.82 kg, the best weight."
    )  # 0.9 (100 - 10.1972) = 80.8226, rounded down
    assert check_of(assessed(with_limits(counterweighted(100, 80.82, 0.9), taut_margin="100 N")), HOIST).verdict == HOLDS


def test_without_a_counterweight_there_is_no_best_one_and_no_stopping_check():
    found = assessed(lead_sheave())
    assert found.best_counterweight_kg is None
    assert "counterweight.stopping" not in [check.id for check in found.checks]


# -- starting and stopping -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("counterweight_kg", [20.0, 60.0, 90.0])
def test_without_friction_the_rope_goes_slack_at_g_m_less_m_over_their_sum(counterweight_kg):
    check = check_of(assessed(with_limits(counterweighted(100, counterweight_kg), stopping="0.1 m/s²")), "counterweight.stopping")
    assert check.capacity.number == pytest.approx(G * (100 - counterweight_kg) / (100 + counterweight_kg))


def test_with_friction_the_counterweights_inertia_comes_through_its_sheave_too():
    """Starting down at a: m g - T = m a on the load, T η - M g = M a on the counterweight, so a = g (m - M/η) / (m + M/η)."""
    check = check_of(assessed(with_limits(counterweighted(100, 60, 0.9), stopping="0.1 m/s²")), "counterweight.stopping")
    felt = 60 / 0.9
    assert check.capacity.number == pytest.approx(G * (100 - felt) / (100 + felt))


def test_friction_on_the_hoist_ropes_own_sheave_does_not_move_the_limit():
    check = check_of(
        assessed(with_limits(counterweighted(100, 60, 1.0, head_efficiency=0.8), stopping="0.1 m/s²")), "counterweight.stopping"
    )
    assert check.capacity.number == pytest.approx(G * 40 / 160)


@pytest.mark.parametrize(("stopping", "verdict"), [("2.4 m/s²", HOLDS), ("2.5 m/s²", FALLS_SHORT)])  # limit g / 4 = 2.4517
def test_stopping_is_judged_against_the_limit(stopping, verdict):
    assert check_of(assessed(with_limits(counterweighted(100, 60), stopping=stopping)), "counterweight.stopping").verdict == verdict


def test_a_stopping_that_is_not_stated_cannot_be_told_and_the_limit_is_named():
    check = check_of(assessed(counterweighted(100, 60)), "counterweight.stopping")
    assert check.verdict == CANNOT_TELL
    assert "2.45 m/s²" in check.reason
    assert "Time how long the load runs on" in check.reason


def test_a_tackle_leaves_the_hoist_rope_its_share_of_the_load():
    assert check_of(assessed(tackle(2)), HOIST).capacity.number == pytest.approx(50 * G)


# -- ropes that share ----------------------------------------------------------------------------------------------------


def test_the_least_pull_of_four_falls_to_a_tilting_load_is_the_load_and_not_the_sum_of_worst_shares():
    """Falls at -0.6, -0.2, 0.2, 0.6 m: whichever carry it, together they pull W. The worst shares add up to 2.5 W."""
    check = check_of(assessed(falls([-0.6, -0.2, 0.2, 0.6], tilts=True)), HOIST)
    assert check.capacity.number == pytest.approx(100 * G)


def test_a_rope_that_shares_its_load_is_not_said_to_stay_taut():
    """Two ropes to one counterweight: either may hang loose if it is a little long."""
    data = counterweighted(100, 60)
    data["bodies"]["load"]["picks"]["third eye"] = place(-0.1, 0.5)
    data["points"]["hanger of twin sheave"] = {"at": place(-0.3, 4)}
    data["sheaves"]["twin sheave"] = data["sheaves"]["cw sheave"] | {"on": "hanger of twin sheave"}
    path = [fast("load", "third eye"), {"over": "twin sheave", "turns": "anticlockwise"}, fast("counterweight", "eye")]
    data["ropes"]["twin"] = steel(path)
    found = assessed(data)
    assert not {"taut.cw rope", "taut.twin"} & {check.id for check in found.checks}
    assert any("Whether twin stays taut" in text for text in found.not_checked)
    assert check_of(found, "rope.twin.first-end").demand.number == pytest.approx(60 * G), "each is judged as if it carried everything"
    assert check_of(found, HOIST).capacity.number == pytest.approx(40 * G)


# -- several ropes on one drum ---------------------------------------------------------------------------------------------


def test_the_hoist_rope_goes_by_its_own_name_and_several_by_all_of_theirs():
    assert check_of(assessed(counterweighted(100, 60)), HOIST).item == "rope hoist"
    data = counterweighted(100, 60)
    data["ropes"]["hoist rope"] = data["ropes"].pop("hoist")
    assert check_of(assessed(data), HOIST).item == "hoist rope"
    assert check_of(assessed(falls([-0.5, 0.5])), HOIST).item == "rope fall 1 and rope fall 2 together"


def test_the_kiln_tells_why_each_rope_may_be_loose_while_a_pull_is_left_at_the_drive():
    """Each alone may hang loose standing still; together, lowering, η² (140 - 105 / η⁻²) g: (140 - 105 · 1.0816) g / 1.0816 = 239.65 N."""
    found = assess(examples.example("kiln-shell"))
    check, squared = check_of(found, HOIST), 1.04**2
    assert check.item == "left rope and right rope together"
    assert check.capacity.number == pytest.approx((140 - 105 * squared) * G / squared)
    assert [float(found.solution.runs[name][-1].holding_least.value.min()) for name in ("left rope", "right rope")] == pytest.approx(
        [0, 0], abs=1e-6
    )
    assert "each by itself may hang loose" in check.reason
    assert "while the load moves" in check.reason
    assert check_of(found, "counterweight.stopping").item == "left rope and right rope together"


def test_a_hoist_rope_that_would_have_to_push_beside_another_falls_short_itself():
    """Falls at ±0.5 m, the centre of gravity at 0.7 m: fall 1 would carry W (0.5 - 0.7) / 1 = -0.2 W, though together they pull W."""
    found = assessed(falls([-0.5, 0.5], tilts=True, gravity_m=0.7))
    loose, tight = check_of(found, "taut.fall 1"), check_of(found, "taut.fall 2")
    assert (loose.verdict, tight.verdict) == (FALLS_SHORT, HOLDS)
    assert loose.capacity.number == pytest.approx(-0.2 * 100 * G)
    assert tight.capacity.number == pytest.approx(1.2 * 100 * G)


def test_no_factor_stands_beside_a_pull_that_is_not_known_because_a_rope_goes_slack():
    found = assessed(counterweighted(100, 130))
    lost = [check for check in found.checks if check.verdict == CANNOT_TELL and "goes slack along the travel" in check.reason]
    assert len(lost) > 5
    assert {(check.factor, check.factor_value) for check in lost} == {(None, None)}
