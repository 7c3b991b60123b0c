"""The rated load: asked again by putting it into the rig. T = load · g on a straight lift; 23066.64 N · 0.91 / 5 = 4198.1 N = 428.09 kg · g."""

import pytest

from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT
from tests.rigs import BREAKING_FORCE_N, G, assessed, check_of, counterweighted, falls, lead_sheave, straight_lift, tackle

OVER_THE_BEND_KG = BREAKING_FORCE_N * 0.91 / 5 / G


def stopping(data: dict) -> dict:
    data["limits"]["stopping"] = "0.1 m/s²"
    return data


def loaded(data: dict, mass_kg: float) -> dict:
    return data | {"bodies": data["bodies"] | {"load": data["bodies"]["load"] | {"mass": f"{mass_kg!r} kg"}}}


def weak_sheave() -> dict:
    data = lead_sheave()
    data["sheaves"]["head"]["rated_load"] = "500 kg"
    return data


RIGS = {
    "straight lift": straight_lift(), "lead sheave": lead_sheave(efficiency=0.95), "weak sheave": weak_sheave(), "tackle of 4": tackle(4, efficiency=0.96),
    "two falls": falls([-0.5, 0.5], efficiency=0.95), "tilting": falls([-0.5, 0.5], tilts=True, gravity_m=0.1), "counterweight": stopping(counterweighted(100, 60, 0.95)),
    "heavy counterweight": stopping(counterweighted(100, 130, 0.95)),
}  # fmt: skip


@pytest.mark.parametrize("name", RIGS)
def test_just_below_the_rated_load_every_check_holds_and_just_above_the_governing_one_does_not(name):
    known = assessed(RIGS[name]).whole.known
    below = assessed(loaded(RIGS[name], 0.999 * known.greatest_kg))
    assert below.all_hold
    assert below.whole.rated_load_kg == pytest.approx(known.greatest_kg, rel=1e-6)
    above = assessed(loaded(RIGS[name], 1.001 * known.greatest_kg))
    assert check_of(above, known.governed_by).verdict == FALLS_SHORT


@pytest.mark.parametrize("name", ["counterweight", "heavy counterweight"])
def test_a_counterweighted_rig_has_a_least_load_below_which_its_governing_check_turns(name):
    known = assessed(RIGS[name]).whole.known
    assert assessed(loaded(RIGS[name], 1.001 * known.least_kg)).all_hold
    assert check_of(assessed(loaded(RIGS[name], 0.999 * known.least_kg)), known.least_governed_by).verdict == FALLS_SHORT


def test_by_hand_the_bend_over_the_head_governs_a_straight_lift():
    whole = assessed(lead_sheave()).whole
    assert whole.rated_load_kg == pytest.approx(OVER_THE_BEND_KG, rel=1e-9)
    assert whole.rated_load_kg == pytest.approx(428.09, abs=0.005)
    assert whole.governed_by == "rope.hoist.sheave.head"
    assert whole.least_load_kg is None


def test_by_hand_the_pin_governs_where_its_rating_is_low():
    """2 W ≤ 500 kg · g, so 250 kg."""
    whole = assessed(weak_sheave()).whole
    assert whole.rated_load_kg == pytest.approx(250.0, rel=1e-9)
    assert whole.governed_by == "sheave.head.pin.hoist"


def test_by_hand_the_load_that_goes_slack_is_the_counterweight_over_its_efficiency():
    """Lowering, m g - M g / η is left; stopping asks 0.1 m/s²: g (m - M/η) / (m + M/η) = 0.1."""
    felt = 60 / 0.95
    whole = assessed(RIGS["counterweight"]).whole
    assert whole.least_load_kg == pytest.approx(felt * (G + 0.1) / (G - 0.1), rel=1e-6)
    assert whole.known.least_governed_by == "counterweight.stopping"


def test_the_rated_load_does_not_depend_on_the_load_entered():
    answers = [assessed(loaded(RIGS["counterweight"], kg)).whole.known.greatest_kg for kg in (70.0, 100.0, 333.0, 5000.0)]
    assert answers == pytest.approx([answers[0]] * 4, rel=1e-7)


def test_one_check_that_cannot_tell_leaves_no_rated_load_but_one_on_what_is_known():
    data = lead_sheave()
    del data["sheaves"]["head"]["rated_load"]
    whole = assessed(data).whole
    assert whole.rated_load_kg is None
    assert whole.governed_by == "sheave.head.pin.hoist"
    assert whole.rated_load_on_what_is_known_kg == pytest.approx(OVER_THE_BEND_KG)


def test_a_value_from_memory_does_not_decide_the_load_on_what_is_known():
    """A hand-tucked eye is 0.80 from memory, less than the bend's 0.91: it may not bring 428 kg down to 376 kg."""
    data = lead_sheave()
    data["ropes"]["hoist"]["path"][0]["fitting"] = "hand-tucked eye"
    whole = assessed(data).whole
    assert whole.rated_load_kg is None
    assert whole.rated_load_on_what_is_known_kg == pytest.approx(OVER_THE_BEND_KG)


@pytest.mark.parametrize("worn", [0.84, 0.2])
def test_a_check_that_falls_short_whatever_the_load_leaves_nothing(worn):
    data = lead_sheave()
    data["ropes"]["hoist"]["remaining_strength"] = worn
    whole = assessed(data).whole
    assert (whole.rated_load_kg, whole.rated_load_on_what_is_known_kg, whole.governed_by) == (0.0, 0.0, "rope.hoist.condition")


def test_falling_short_whatever_the_load_comes_before_what_cannot_be_told():
    data = lead_sheave()
    data["ropes"]["hoist"]["remaining_strength"] = 0.5
    del data["sheaves"]["head"]["rated_load"]
    assert assessed(data).whole.rated_load_kg == 0.0


def test_a_slack_rig_is_still_asked_for_other_loads():
    """130 kg against 100 kg is slack as entered; loads from about 140 kg on are not."""
    found = assessed(RIGS["heavy counterweight"])
    assert check_of(found, "taut.hoist").verdict == FALLS_SHORT
    assert check_of(found, "rope.hoist.sheave.head").verdict == CANNOT_TELL
    felt = 130 / 0.95
    assert found.whole.least_load_kg == pytest.approx(felt * (G + 0.1) / (G - 0.1), rel=1e-6)
    assert found.whole.known.governed_by == "test.static"


def test_where_a_test_load_governs_the_part_with_least_left_there_is_named():
    """300 kg of counterweight: at 1.25 times the load the hoist rope over the head has least left; the drum bends it as the head does."""
    known = assessed(stopping(counterweighted(700, 300))).whole.known
    assert known.governed_by == "test.static"
    assert known.through in ("rope.hoist.sheave.head", "rope.hoist.drum")
    assert assessed(lead_sheave()).whole.known.through is None


def test_a_narrow_range_between_the_loads_first_tried_is_found():
    """Counterweight 130 kg; the margin of 100 N sets the least load at 140.2 kg. A counterweight sheave rated 4 kN holds 2 · 130 kg · g = 2.55 kN.

    The head's pin carries 2 (m - 130 kg) g ≤ 0.4 kN up to 150.4 kg: a range of 7 %, while loads are first tried by doublings of 100 kg.
    (The basis is one without test loads: at 1.25 times the load nothing would be left of the range.)
    """
    data = stopping(counterweighted(100, 130)) | {"basis": {"factors": "washington-wire-rope"}}
    data["limits"]["taut_margin"] = "100 N"
    data["limits"]["stopping"] = "0.01 m/s²"
    data["sheaves"]["head"]["rated_load"] = "0.4 kN"
    known = assessed(data).whole.known
    assert known.least_kg == pytest.approx(130 + 100 / G, rel=1e-6)
    assert known.greatest_kg == pytest.approx(130 + 200 / G, rel=1e-6)
    assert known.governed_by == "sheave.head.pin.hoist"


def test_where_no_load_satisfies_all_checks_the_range_is_empty():
    """A margin of 300 N asks 130 kg + 30.6 kg, the pin allows 130 kg + 20.4 kg."""
    data = stopping(counterweighted(100, 130))
    data["limits"]["taut_margin"] = "300 N"
    data["sheaves"]["head"]["rated_load"] = "0.4 kN"
    assert assessed(data).whole.known.greatest_kg == 0.0
