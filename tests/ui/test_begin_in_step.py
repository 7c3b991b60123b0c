"""The form on Begin in step with its rig: fields take over what they stand for, and the rest is told as a short list."""

from __future__ import annotations

import pytest

from rigcheck import units
from rigcheck.checks.assessment import assess
from rigcheck.rig import examples
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.ui import begin_differs, begin_hand_pull, moves, rope_trial
from rigcheck.ui import draft as drafts
from rigcheck.ui.begin_in_step import in_step
from rigcheck.whatif.catalogue_ropes import catalogue


def tried(slug: str, diameter_m: float = 0.008):
    draft = drafts.of_arrangement(slug)
    rope = next(each for each in catalogue("steel", construction="6x19 FC", grade="1960") if abs(each.diameter_m - diameter_m) < 1e-6)
    return in_step(rope_trial.placed(draft, tuple(draft.data["ropes"]), rope))


@pytest.mark.parametrize("slug", list(ARRANGEMENTS))
def test_a_rope_that_was_tried_stands_in_the_form_and_nothing_else_does(slug):
    draft, began = tried(slug), drafts.of_arrangement(slug)
    assert {key: text for key, text in draft.answers.items() if text != began.answers[key]} == {
        "rope_diameter": "8 mm", "rope": "steel, 6x19 FC", "grade": "1960 N/mm²", "condition": "new, no fault found"}  # fmt: skip
    assert begin_differs.in_html_words(draft) == ""
    assert "Diameter of the rope" not in draft.data["notes"]["name"]


def test_a_diameter_typed_after_a_trial_keeps_construction_and_grade_and_says_no_more_of_a_size_of_the_catalogue():
    draft = in_step(drafts.answered(tried("straight"), "rope_diameter", "10 mm", "10"))
    rope = draft.at(("ropes", "hoist rope"))
    assert (rope["diameter"], rope["construction"], rope["grade"]) == ("10 mm", "6x19 FC", "1960 N/mm²")
    assert "diameter" not in rope["notes"]
    assert begin_differs.in_html_words(draft) == ""


@pytest.mark.parametrize("path, value, key, text", [
    (("bodies", "load", "mass"), "95 kg", "mass", "95 kg"),
    (("limits", "travel"), "1.2 m", "travel", "1.2 m"),
    (("drive", "drum", "diameter"), "150 mm", "drum_diameter", "150 mm"),
    (("drive", "drum", "dead_wraps"), 3, "dead_wraps", "3"),
    (("drive", "gears", 0, "ratio"), 46.8, "ratio", "46.8"),
    (("sheaves", "head sheave", "bearing"), "rolling", "bearing", "rolling bearing"),
    (("ropes", "hoist rope", "grade"), "1770 N/mm²", "grade", "1770 N/mm²"),
    (("points", "hanger of head sheave", "at", 1), "3.1 m", "head_height", "3.1 m"),
    (("bodies", "load", "picks", "eye", 1), "0.7 m", "load_height", "0.7 m"),
    (("drive", "drum", "at", 0), "1.8 m", "distance", "1.8 m"),
])  # fmt: skip
def test_one_value_of_the_rig_stands_in_its_field(path, value, key, text):
    draft = in_step(drafts.of_arrangement("straight").edited(path, value))
    assert draft.answers[key] == text
    assert key in draft.given
    assert begin_differs.differences(draft) == []
    again = drafts.answered(draft, "mass" if key != "mass" else "travel", "1.5 m" if key == "mass" else "90 kg")
    assert again.at(path) == value


def test_a_grade_written_in_another_unit_is_the_choice_that_means_the_same():
    draft = in_step(drafts.of_arrangement("straight").edited(("ropes", "hoist rope", "grade"), "1770 MPa"))
    assert draft.answers["grade"] == "1770 N/mm²"


def test_a_part_that_was_dragged_off_the_form_is_told_with_its_direction_and_both_values():
    draft = in_step(moves.moved(drafts.of_arrangement("straight"), "drum", "drum", 0.3, 0.02))
    assert draft.answers["distance"] == "1.8 m"
    assert begin_differs.differences(draft) == ["drum: axis of the drum, up: 0.4 m → 0.42 m"]


def test_what_no_field_says_is_told_and_an_empty_entry_never():
    draft = drafts.of_arrangement("straight").edited(("drive", "cable"), {}).edited(("drive", "cable", "area"), "4 mm²")
    assert begin_differs.differences(in_step(draft)) == ["cable: cross-section of a wire: not stated → 4 mm²"]


def test_what_differs_is_told_with_what_it_comes_to_in_the_units_shown():
    draft = drafts.of_arrangement("straight").edited(("sheaves", "head sheave", "groove_diameter"), "8 mm")
    with units.shown_in(units.US):
        assert begin_differs.differences(draft) == ["head sheave: groove diameter: not stated → 8 mm (= 0.315 in)"]


@pytest.mark.parametrize("path, value", [
    (("bodies", "load", "mass"), "heavy"), (("bodies", "load", "mass"), None), (("sheaves", "head sheave", "pitch_diameter"), "4 m"),
    (("ropes", "hoist rope", "remaining_strength"), 0.9), (("ropes", "hoist rope", "grade"), "1800 N/mm²"),
])  # fmt: skip
def test_what_the_form_would_refuse_or_cannot_say_is_told_and_its_fields_stay(path, value):
    draft = drafts.of_arrangement("straight").edited(path, value)
    after = in_step(draft)
    assert after.answers == draft.answers
    assert len(begin_differs.differences(after)) == 1


def test_the_pairs_of_a_gear_that_were_changed_stay_until_the_ratio_is_another_one():
    draft = drafts.answered(drafts.answered(drafts.of_arrangement("straight"), "worked_by", "gear-motor with spur gears"), "ratio", "30")
    draft = in_step(draft.edited(("drive", "gears", 1, "ratio"), 4))
    assert draft.answers["ratio"] == "40"

    def ratios(each):
        return [gear["ratio"] for gear in each.data["drive"]["gears"]]

    assert ratios(drafts.answered(draft, "mass", "90 kg")) == [2.5, 4, 4]
    other = ratios(drafts.answered(draft, "ratio", "46.8"))
    assert len(other) == 3
    assert other[0] * other[1] * other[2] == pytest.approx(46.8)


def test_a_size_that_no_rope_of_the_material_has_is_told_and_the_material_stays():
    draft = drafts.answered(drafts.of_arrangement("tackle-hand"), "rope_diameter", "5.5 mm")
    assert draft.at(("ropes", "hoist rope", "material")) == "polyester"
    assert "strength cannot be told without a certificate" in begin_differs.size_not_listed(draft)
    assert begin_differs.size_not_listed(drafts.answered(draft, "rope_diameter", "8 mm")) == ""


def test_the_pull_of_each_hand_is_told_raising_and_holding():
    one = begin_hand_pull.sentence(assess(examples.example("boat-engine")))
    assert one == (
        "One person pulls with up to 139.3 N (as heavy as 14.2 kg) to raise it. "
        "Holding it takes at least 90.5 N, or it sinks, and up to 139.3 N, depending on friction."
    )
    values = ARRANGEMENTS["tackle-hand"].defaults()
    pulls = assess(ARRANGEMENTS["tackle-hand"].make(values)).solution.drive_pull["raising"].value.max()
    two = begin_hand_pull.sentence(assess(ARRANGEMENTS["tackle-hand"].make({**values, "people": "2"})))
    told = float(two.split("up to ")[1].split(" N")[0])
    assert told == pytest.approx(pulls / 2, rel=1e-3)
    assert "at the crank with up to 70.25 N" in begin_hand_pull.sentence(assess(examples.example("well-crank")))
    assert begin_hand_pull.sentence(assess(examples.example("kiln-shell"))) == ""
