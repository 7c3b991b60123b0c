"""The tolerance of the load: its ends are compared with the loads at which everything else holds, and never enter those.

The straight lift of `tests.rigs` holds up to 428.09 kg; with a counterweight of 60 kg it holds from 64.46 kg on (both worked by hand in test_whole).
"""

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.checks.check import CANNOT_TELL, COMMON_PRACTICE, FALLS_SHORT, HOLDS
from rigcheck.rig import examples
from tests.rigs import assessed, check_of, counterweighted, lead_sheave

RATED_KG = 428.09


def lifted(mass: str, data: dict | None = None) -> dict:
    data = lead_sheave() if data is None else data
    data["bodies"]["load"]["mass"] = mass
    return data


@pytest.mark.parametrize(("tolerance_kg", "verdict"), [(8, HOLDS), (9, FALLS_SHORT)])
def test_the_heaviest_load_is_compared_with_the_rated_load(tolerance_kg, verdict):
    found = assessed(lifted(f"420 kg ± {tolerance_kg} kg"))
    check = check_of(found, "load.tolerance")
    assert check.demand.number == pytest.approx(420 + tolerance_kg)
    assert check.capacity.number == pytest.approx(RATED_KG, abs=0.005)
    assert check.verdict == verdict
    assert found.all_hold == (verdict == HOLDS)


def test_it_does_not_feed_back_into_the_rated_load():
    plain, wide = assessed(lifted("420 kg")).whole, assessed(lifted("420 kg ± 50 kg")).whole
    assert wide.rated_load_kg == pytest.approx(plain.rated_load_kg, rel=1e-9)
    assert wide.governed_by == plain.governed_by == "rope.hoist.sheave.head"


def test_where_it_falls_short_it_says_how_many_kg_hold():
    check = check_of(assessed(lifted("420 kg ± 9 kg")), "load.tolerance")
    assert "428 kg" in check.remedy
    assert check.wants == (("bodies", "load", "mass"),)


def test_a_load_without_a_tolerance_has_no_such_check():
    assert not [check for check in assessed(lifted("420 kg")).checks if check.id.startswith("load.")]


def test_while_the_rated_load_is_unknown_what_is_known_to_hold_cannot_be_told():
    data = lifted("400 kg ± 9 kg")
    del data["sheaves"]["head"]["rated_load"]
    check = check_of(assessed(data), "load.tolerance")
    assert check.verdict == CANNOT_TELL
    assert ("sheaves", "head", "rated_load") in check.wants


def test_what_is_too_heavy_on_what_is_known_falls_short_though_something_is_unknown():
    data = lifted("420 kg ± 9 kg")
    del data["sheaves"]["head"]["rated_load"]
    assert check_of(assessed(data), "load.tolerance").verdict == FALLS_SHORT


@pytest.mark.parametrize(("tolerance_kg", "verdict"), [(5, HOLDS), (6, FALLS_SHORT)])
def test_the_lightest_load_is_compared_with_the_least_load(tolerance_kg, verdict):
    data = counterweighted(100, 60, 0.95)
    data["limits"]["stopping"] = "0.1 m/s²"
    found = assessed(lifted(f"70 kg ± {tolerance_kg} kg", data))
    check = check_of(found, "load.tolerance.least")
    assert check.demand.number == pytest.approx(found.whole.least_load_kg, rel=1e-9)
    assert check.demand.number == pytest.approx(64.46, abs=0.01)
    assert check.capacity.number == pytest.approx(70 - tolerance_kg)
    assert check.verdict == verdict
    assert check_of(found, "load.tolerance").verdict == HOLDS


def test_a_rig_without_a_least_load_is_not_asked_for_the_lightest():
    assert "load.tolerance.least" not in {check.id for check in assessed(lifted("420 kg ± 8 kg")).checks}


def test_a_rig_that_holds_at_no_load_is_told_what_the_comparison_rests_on():
    data = lifted("400 kg ± 9 kg")
    data["ropes"]["hoist"]["remaining_strength"] = 0.84
    found = assessed(data)
    assert found.whole.rated_load_kg == 0
    assert check_of(found, "load.tolerance").capacity.number == pytest.approx(0.84 * RATED_KG, abs=0.01)
    assert "whatever the load, the rig falls short because of rope hoist, condition" in check_of(found, "load.tolerance").reason


def test_the_loft_lift_still_holds_with_its_five_kilograms():
    found = assess(examples.example("loft-lift"))
    check = check_of(found, "load.tolerance")
    assert check.demand.number == pytest.approx(205)
    assert check.capacity.number == pytest.approx(found.whole.rated_load_kg)
    assert found.all_hold


def test_without_a_brake_a_sheave_of_unknown_rating_leaves_the_tolerance_untold():
    """What the checks on the load allow is not known either, so it may not be said to hold."""
    data = lifted("400 kg ± 9 kg")
    data["ropes"]["hoist"]["remaining_strength"] = 0.84  # falls short whatever the load
    data["bodies"]["load"]["mass"] = "300 kg ± 9 kg"
    assert check_of(assessed(data), "load.tolerance").verdict == HOLDS
    del data["sheaves"]["head"]["rated_load"]
    found = assessed(data)
    assert found.whole.rated_load_kg == 0
    assert check_of(found, "load.tolerance").verdict == CANNOT_TELL


def test_a_limit_that_is_a_rule_of_thumb_alone_is_called_one_beside_the_tolerance():
    """One person on a line of four parts: 250 N of 139.25 N with 46 kg is 82.59 kg, all else holds up to 436.3 kg."""
    found = assess(examples.example("boat-engine"))
    check = check_of(found, "load.tolerance")
    assert check.mark == COMMON_PRACTICE
    assert "a rule of thumb without a source, hand line, pull of one person; all others hold up to 436.2 kg" in check.reason
    assert check_of(assess(examples.example("loft-lift")), "load.tolerance").mark == "read"
