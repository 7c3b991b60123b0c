"""The best counterweight of a lid, by hand: moments about the hinge, load m at 1 m, counterweight M at half a metre, the rope's arm p.

Without friction the drive is left T = g cos θ (m - M / 2) / p, so a pull F is left at M = 2 (m - F p / (g cos θ)), asked of the lightest load.
"""

from math import asin, atan2, cos, hypot, radians, sin

import pytest

from rigcheck import units
from rigcheck.checks.assessment import assess
from rigcheck.checks.check import FALLS_SHORT, HOLDS
from rigcheck.report.as_json import contract
from rigcheck.report.as_text import text
from rigcheck.rig import examples
from rigcheck.rig.model import Rig
from rigcheck.ui import balance_view
from rigcheck.whatif import other_counterweight
from tests.hinged_rigs import HINGE_UP_M, lid_by_winch
from tests.rigs import SHEAVE_M, G, assessed, check_of, place

HEAD, LONG_M = (-1.5, 3.0), 2.0


def lid(weight_kg: float = 10.0, swing_deg: float = 60.0, margin_n: float = 15.0, efficiency: float = 1.0) -> dict:
    data = lid_by_winch(swing_deg=swing_deg, efficiency=efficiency, head=HEAD, weight_kg=weight_kg)
    data["bodies"]["lid"]["mass"] = "20 kg ± 1 kg"
    data["limits"]["taut_margin"] = f"{margin_n!r} N"
    return data


def arm_of_the_rope_m(angle_rad: float) -> float:
    """How far from the hinge the rope passes that leaves the lid's edge and turns anticlockwise over the head sheave."""
    edge = (LONG_M * cos(angle_rad), HINGE_UP_M + LONG_M * sin(angle_rad))
    across, up = HEAD[0] - edge[0], HEAD[1] - edge[1]
    along = atan2(up, across) - asin(SHEAVE_M / 2 / hypot(across, up))
    return edge[0] * sin(along) - (edge[1] - HINGE_UP_M) * cos(along)


def best_by_hand_kg(margin_n: float, swing_deg: float) -> float:
    angles = [radians(swing_deg) * k / 100 for k in range(101)]
    return min(2 * (19 - margin_n * arm_of_the_rope_m(angle) / (G * cos(angle))) for angle in angles)


@pytest.mark.parametrize("margin_n", [0.0, 5.0, 15.0])
@pytest.mark.parametrize("swing_deg", [30.0, 60.0, 80.0])
def test_the_stated_pull_with_the_lightest_lid_decides_it(margin_n, swing_deg):
    found = assessed(lid(margin_n=margin_n, swing_deg=swing_deg))
    assert found.best_counterweight_kg == pytest.approx(best_by_hand_kg(margin_n, swing_deg), rel=1e-6)


def test_friction_makes_it_lighter_since_it_takes_from_the_pull_while_lowering():
    assert assessed(lid(efficiency=0.9)).best_counterweight_kg < assessed(lid()).best_counterweight_kg


def test_it_is_said_that_it_may_be_too_heavy_to_be_stopped():
    assert "Starting and stopping are not worked out where something turns about a hinge" in assessed(lid()).best_counterweight.words


def test_with_the_best_weight_of_the_cellar_hatch_all_holds_and_with_a_heavier_one_its_lightest_load_does_not():
    rig = examples.example("cellar-hatch")
    best = assess(rig).best_counterweight_kg
    for kg, verdict in ((best, HOLDS), (best * 1.001, FALLS_SHORT)):
        data = rig.model_dump(mode="json", exclude_none=True)
        data["bodies"]["weight"]["mass"] = f"{kg!r} kg"
        assert check_of(assess(Rig.model_validate(data)), "load.tolerance.least").verdict == verdict


@pytest.mark.parametrize(("swing_deg", "at", "where"), [(110.0, (-0.5, 0.0), "swung by 90.2°"), (60.0, (0.0, -0.5), "swung by 0.6°")])
def test_none_is_called_the_best_where_the_arm_lifts_it_with_the_lid(swing_deg, at, where):
    data = lid(swing_deg=swing_deg)
    data["bodies"]["weight"]["at"] = place(at[0], HINGE_UP_M + at[1])
    found = assessed(data)
    assert found.best_counterweight_kg is None
    assert contract(found)["best_counterweight_kg"] is None
    assert (
        f"cannot tell. Which weight is best cannot be told: weight is lifted with the load along part of the travel ({where})"
        in " ".join(text(found).split())
    )
    limits = other_counterweight.limits(found, "weight")
    assert (limits.steady_kg, limits.slack_kg, other_counterweight.heaviest_by_height(found, "weight")) == (None, None, None)
    told = " ".join(balance_view.told(found, "weight", limits))
    assert "There is no best weight" not in told
    assert "Which weight is best cannot be told" in told


def test_no_less_counterweight_is_advised_where_it_helps_to_hold_the_lid_back():
    """Beyond the upright the lid runs on by its own weight, and the arm lifts the counterweight."""
    found = assessed(lid(swing_deg=110.0))
    for id in ("swing.over-centre", "taut.hoist"):
        check = check_of(found, id)
        assert check.verdict == FALLS_SHORT
        assert "counterweight" not in check.remedy
        assert "more load" not in check.remedy.lower()
    assert other_counterweight.limits(found, "weight").lightest_load_kg is None


def test_too_heavy_a_counterweight_is_told_the_best_one_beside_the_other_ways():
    found = assessed(lid(weight_kg=41.0))
    best = units.show(found.best_counterweight_kg, "kg", 4, "down")
    remedy = check_of(found, "swing.over-centre").remedy
    assert remedy == f"More load, a second rope that holds it back or less counterweight: at most {best}, the best weight."
