"""What to do next: fields that stand in the way of a result come first, each by its path, however many there are."""

from __future__ import annotations

from rigcheck.rig import examples
from rigcheck.ui import draft as drafts
from rigcheck.ui import next_steps
from rigcheck.ui.next_steps import Gap

MASS, TRAVEL = ("bodies", "press", "mass"), ("limits", "travel")


def found_winch():
    return drafts.of_rig(examples.example("found-winch"), "an example")


def gaps(draft):
    return next_steps.gaps(draft, draft.read()[1])


def test_nothing_stands_in_the_way_of_a_rig_that_can_be_read():
    assert gaps(found_winch()) == []
    assert gaps(drafts.of_arrangement("straight")) == []


def test_two_required_numbers_that_are_missing_each_lead_to_their_field():
    draft = found_winch().edited(MASS, None).edited(TRAVEL, "")
    assert gaps(draft) == [Gap(True, "press: mass", MASS), Gap(True, "limits: travel", TRAVEL)]


def test_what_is_missing_comes_before_what_cannot_be_used():
    draft = found_winch().edited(MASS, "heavy").edited(TRAVEL, None)
    assert gaps(draft) == [Gap(True, "limits: travel", TRAVEL), Gap(False, "press: mass", MASS)]


def test_two_answers_of_an_arrangement_that_are_missing_are_named_by_letter_and_label():
    draft = drafts.answered(drafts.answered(drafts.of_arrangement("straight"), "travel", ""), "mass", "")
    assert gaps(draft) == [
        Gap(True, "A · Mass of the load", ("answers", "mass")),
        Gap(True, "C · Travel", ("answers", "travel")),
    ]
    assert gaps(drafts.answered(draft, "mass", "12 ton"))[1] == Gap(False, "A · Mass of the load", ("answers", "mass"))


def test_a_choice_that_is_not_known_yet_leads_to_its_field():
    draft = found_winch().edited(("ropes", "hoist rope", "kind"), None).edited(("sheaves", "head sheave", "on"), None)
    assert {gap.path for gap in gaps(draft)} == {("ropes", "hoist rope", "kind"), ("sheaves", "head sheave", "on")}
