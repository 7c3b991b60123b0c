"""The verdict on the whole rig in words: what it rests on, and that its sentences do not contradict the checks."""

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.report import governing, whole_words
from rigcheck.report.contents import rated_load
from rigcheck.rig import examples
from tests.rigs import assessed, check_of, counterweighted, falls, lead_sheave


def without_a_brake() -> dict:
    """The straight lift, which holds up to 428.09 kg, with nothing to brake it."""
    data = lead_sheave()
    del data["drive"]["brake"]
    data["bodies"]["load"]["mass"] = "100 kg ± 5 kg"
    return data


def test_without_a_brake_it_says_what_no_load_mends_and_how_far_the_checks_on_the_load_reach_alone():
    found = assessed(without_a_brake())
    said = whole_words.sentence(found)
    assert "Whatever it lifts, it falls short because of the brake (catching and holding the load)." in said
    assert "The checks on the load, taken alone, hold up to 428 kg; rope hoist over head governs." in said
    assert "no load at which it would hold" not in said
    check = check_of(found, "load.tolerance")
    assert f"{check.capacity.number:.1f}" == "428.1"
    assert "whatever the load, the rig falls short because of brake, catching and holding the load" in check.reason


def test_while_a_check_on_the_load_cannot_tell_no_load_is_named():
    data = without_a_brake()
    del data["sheaves"]["head"]["rated_load"]
    said = whole_words.sentence(assessed(data))
    assert "Whatever it lifts, it falls short because of the brake" in said
    assert "taken alone" not in said


def test_where_no_load_does_either_it_says_so():
    said = whole_words.sentence(assess(examples.example("tired-hoist")))
    assert "Nor is there a load at which the checks on the load all hold." in said


def test_a_rule_of_thumb_that_governs_is_called_one_and_leaves_no_spare():
    for name, words in (("boat-engine", "hand line (pull of one person"), ("well-crank", "crank (effort of one person")):
        found = assess(examples.example(name))
        said = whole_words.sentence(found)
        assert f"; the {words}: a rule of thumb, common practice, no source) governs." in said
        assert "% to spare" not in said
        assert governing.to_spare_percent(found) is None
        assert any("a rule of thumb, common practice, no source" in words for _, words in rated_load(found))


def test_beside_a_rule_of_thumb_stands_how_far_all_other_checks_reach():
    """The pin of upper sheave 2 carries 263.58 N with 46 kg and is rated 2500 N, so it bears 46 · 2500 / 263.58 = 436.3 kg."""
    found = assess(examples.example("boat-engine"))
    pin = check_of(found, "sheave.upper sheave 2.pin.hoist rope")
    assert found.whole.sourced.greatest_kg == pytest.approx(46 * 2500 / pin.demand.number, rel=1e-6)
    assert "All other checks hold up to 436.2 kg; there upper sheave 2 (force on the pin) governs." in whole_words.sentence(found)
    assert assessed(lead_sheave()).whole.sourced is None


def test_what_has_a_source_keeps_its_spare():
    assert governing.to_spare_percent(assessed(lead_sheave())) == 328  # 428.09 kg over 100 kg


def test_a_hand_line_is_told_to_be_belayed_beside_the_verdict():
    assert "until the line is belayed" in whole_words.sentence(assess(examples.example("boat-engine")))
    assert "belayed" not in whole_words.sentence(assess(examples.example("well-crank")))


def test_what_governs_the_least_load_names_the_ropes_there_are():
    data = counterweighted(100, 60)
    data["limits"]["stopping"] = "0.1 m/s²"
    assert governing.least(assessed(data)) == "rope hoist (slack when starting down or stopping on the way up)"
    kiln = assess(examples.example("kiln-shell"))
    assert governing.in_words(kiln, "taut.hoist") == "left rope and right rope together (pull left over along the travel, both ways)"
    assert governing.in_words(assessed(falls([-0.5, 0.5])), "taut.hoist").startswith("rope fall 1 and rope fall 2 together (")
