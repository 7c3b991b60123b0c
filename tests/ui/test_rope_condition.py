"""The condition of a rope as it is said on the first page: new, used, worn, or a share that was stated."""

from __future__ import annotations

import pytest

from rigcheck.checks.assessment import assess
from rigcheck.checks.check import CANNOT_TELL, HOLDS
from rigcheck.rig import examples
from rigcheck.rig.arrangements.pieces import CONDITIONS, NEW, UNKNOWN, USED, WORN
from rigcheck.ui import draft as drafts
from rigcheck.ui import rope_condition

ROPE = ("ropes", "hoist rope")


def winch():
    return drafts.of_rig(examples.example("found-winch"), "an example")


@pytest.mark.parametrize("said", list(CONDITIONS))
def test_what_was_said_is_what_is_shown_and_the_rig_can_be_read(said):
    draft = rope_condition.said(winch(), ROPE, said)
    assert rope_condition.of(draft, ROPE) == said
    assert draft.read()[1] == []


@pytest.mark.parametrize(
    "said, share, verdict", [(UNKNOWN, None, CANNOT_TELL), (USED, None, CANNOT_TELL), (WORN, None, CANNOT_TELL), (NEW, 1, HOLDS)]
)
def test_only_a_new_rope_has_all_of_its_strength(said, share, verdict):
    draft = rope_condition.said(winch().edited((*ROPE, "remaining_strength"), 0.9), ROPE, said)
    assert draft.at((*ROPE, "remaining_strength")) == share
    (found,) = [check for check in assess(draft.read()[0]).checks if check.id == "rope.hoist rope.condition"]
    assert found.verdict == verdict


def test_a_share_that_was_stated_is_shown_as_it_is_and_notes_of_other_fields_stay():
    draft = winch().edited((*ROPE, "remaining_strength"), 0.6).edited((*ROPE, "notes", "remaining_strength"), "seen")
    assert rope_condition.of(draft, ROPE) == "0.6 of its strength left"
    worn = rope_condition.said(draft, ROPE, WORN)
    assert worn.at((*ROPE, "notes")) == {
        "diameter": "measured with a caliper",
        "remaining_strength": f"{WORN}: how much of its strength is left is not known yet",
    }
    assert rope_condition.said(worn, ROPE, UNKNOWN).at((*ROPE, "notes")) == {"diameter": "measured with a caliper"}
