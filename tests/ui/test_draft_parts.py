"""The named parts of a draft: names are followed everywhere, nothing typed is lost, and what is still needed is not removed."""

from __future__ import annotations

import pytest

from rigcheck.rig import examples
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.rig.fields import FieldError
from rigcheck.ui import draft as drafts
from rigcheck.ui import draft_parts


def example(name: str):
    return drafts.of_rig(examples.example(name), "an example")


def every_part():
    return [
        (name, section, part)
        for name in examples.names()
        for section in draft_parts.SECTIONS
        for part in draft_parts.names(example(name), section)
    ]


@pytest.mark.parametrize("name, section, part", every_part())
def test_every_part_of_every_example_can_be_renamed_and_named_back(name, section, part):
    draft = example(name)
    there = draft_parts.renamed(draft, section, part, "quite another")
    _rig, faults = there.read()
    assert faults == []
    assert part not in draft_parts.names(there, section)
    assert draft_parts.users(there, section, "quite another") == draft_parts.users(draft, section, part)
    assert draft_parts.renamed(there, section, "quite another", part).data == draft.data


def test_a_sheave_under_two_ropes_is_followed_in_both():
    draft = example("kiln-shell")
    ropes = draft.data["ropes"]
    first, second = list(ropes)[:2]
    sheave = next(stop["over"] for stop in ropes[first]["path"] if "over" in stop)
    steps = ropes[second]["path"]
    draft = draft.edited(("ropes", second, "path"), [steps[0], {"over": sheave, "turns": "clockwise"}, steps[-1]])
    there = draft_parts.renamed(draft, "sheaves", sheave, "shared sheave")
    for rope in (first, second):
        assert "shared sheave" in [stop.get("over") for stop in there.data["ropes"][rope]["path"]]
    assert sheave not in str(there.data["ropes"])


def test_what_was_typed_follows_the_name():
    draft = example("loft-lift")
    load = next(name for name, body in draft.data["bodies"].items() if body["role"] == "load")
    draft = draft.edited(("bodies", load, "mass"), "210 kg", "210")
    draft = draft.with_step(("bodies", load, "at"), 0, "0.1 m", "0.1", draft.at(("bodies", load, "at")))
    there = draft_parts.renamed(draft, "bodies", load, "crate of books")
    assert there.shown(("bodies", "crate of books", "mass")) == "210"
    assert there.typed["bodies", "crate of books", "at", 0] == "0.1"
    assert not [path for path in there.typed if load in path]


def test_a_name_that_is_taken_or_no_name_is_refused_with_another():
    draft = example("found-winch")
    with pytest.raises(FieldError, match="there is a body") as taken:
        draft_parts.renamed(draft, "points", "hanger of head sheave", "press")
    assert '"press 2"' in taken.value.right
    for bad in ("", "  ", " head", "x" * 61, "a\u200bb"):
        with pytest.raises(FieldError):
            draft_parts.renamed(draft, "points", "hanger of head sheave", bad)
    with pytest.raises(FieldError, match="drum of the winch"):
        draft_parts.renamed(draft, "sheaves", "head sheave", "drum")


def test_a_sheave_may_be_called_as_a_point_is_and_a_rope_as_the_drum():
    draft = example("found-winch")
    assert draft_parts.renamed(draft, "sheaves", "head sheave", "hanger of head sheave").read()[1] == []
    assert draft_parts.renamed(draft, "ropes", "hoist rope", "drum").read()[1] == []


def test_a_point_or_body_in_use_is_not_removed_and_its_users_are_named():
    draft = example("found-winch")
    with pytest.raises(FieldError, match="sheave head sheave sits on it"):
        draft_parts.removed(draft, "points", "hanger of head sheave")
    with pytest.raises(FieldError, match="rope hoist rope is made fast to it"):
        draft_parts.removed(draft, "bodies", "press")


def test_a_rope_runs_on_without_a_sheave_that_is_removed_and_what_was_typed_moves_up():
    draft = drafts.of_arrangement("tackle")
    path = ("ropes", "hoist rope", "path")
    before = draft.at(path)
    assert "over" in before[1]
    assert "over" in before[2]
    draft = draft.edited((*path, len(before) - 1, "notes"), {"turns": "seen"})
    draft = draft.with_step((*path, 2, "somewhere"), 0, "1 m", "1", ["0 m", "0 m"])
    there = draft_parts.removed(draft, "sheaves", before[1]["over"])
    assert [stop.get("over") for stop in there.at(path)] == [stop.get("over") for k, stop in enumerate(before) if k != 1]
    assert there.typed[*path, 1, "somewhere", 0] == "1"
    assert before[1]["over"] not in there.data["sheaves"]
    assert draft.at(path)[1] == before[1]


def test_a_rope_says_which_body_hangs_on_it_alone():
    draft = example("found-winch")
    assert draft_parts.users(draft, "ropes", "hoist rope") == ["body press hangs on this rope alone"]
    two = draft_parts.added(draft, "ropes", "second rope", draft.at(("ropes", "hoist rope")))
    assert draft_parts.users(two, "ropes", "hoist rope") == []


def test_a_part_that_is_added_and_removed_leaves_the_draft_as_it_was():
    draft = example("loft-lift")
    name = draft_parts.free_name(draft, "hanger")
    there = draft_parts.added(draft, "points", name, {"at": ["1 m", "2 m"]})
    assert there.read()[0].points[name].at[0].value == 1
    assert draft_parts.removed(there, "points", name).data == draft.data


def test_a_free_name_is_free_in_every_section():
    draft = example("found-winch")
    assert draft_parts.free_name(draft, "hook") == "hook"
    assert draft_parts.free_name(draft, "press") == "press 2"
    assert draft_parts.free_name(draft, "drum") == "drum 2"
    assert draft_parts.free_name(draft_parts.added(draft, "points", "press 2", {"at": ["0 m", "0 m"]}), "press") == "press 3"


def test_no_more_parts_are_added_than_can_be_handled():
    draft = example("found-winch")
    body = draft.at(("bodies", "press"))
    for number in range(draft_parts.MOST["bodies"] - 1):
        draft = draft_parts.added(draft, "bodies", f"body {number}", body)
    with pytest.raises(FieldError, match="the rig has 20 bodies"):
        draft_parts.added(draft, "bodies", "one too many", body)


def test_an_eye_is_followed_by_the_ropes_that_are_made_fast_at_it():
    draft = draft_parts.pick_renamed(example("found-winch"), "press", "eye", "lifting eye")
    assert draft.at(("ropes", "hoist rope", "path", 0, "pick")) == "lifting eye"
    assert draft.read()[1] == []
    with pytest.raises(FieldError, match="rope hoist rope is made fast there"):
        draft_parts.pick_removed(draft, "press", "lifting eye")
    more = draft_parts.pick_added(draft, "press", "second eye")
    assert draft_parts.picks(more, "press") == ["lifting eye", "second eye"]
    assert draft_parts.pick_removed(more, "press", "second eye").data == draft.data
    with pytest.raises(FieldError, match="already"):
        draft_parts.pick_renamed(more, "press", "second eye", "lifting eye")


@pytest.mark.parametrize("slug", list(ARRANGEMENTS))
def test_a_renamed_arrangement_is_a_rig_of_its_own_so_that_no_answer_is_left_without_effect(slug):
    draft = draft_parts.renamed(drafts.of_arrangement(slug), "bodies", "load", "kiln shell")
    assert draft.arrangement is None
    assert draft.origin == draft_parts.OWN
    assert draft.read()[0].load_name == "kiln shell"


def test_a_point_under_another_name_takes_its_struts_along_and_a_strut_the_winch_that_is_bolted_to_it():
    draft = drafts.of_rig(examples.example("well-tripod"), "an example")
    renamed = draft_parts.renamed(draft_parts.renamed(draft, "points", "head", "apex"), "struts", "winch leg", "first leg")
    rig, faults = renamed.read()
    assert faults == []
    assert rig.struts["first leg"].one_end == "apex"
    assert rig.drive.drum.bolted_to == "first leg"


def test_a_point_that_struts_end_at_and_a_strut_with_the_winch_on_it_are_still_needed():
    draft = drafts.of_rig(examples.example("well-tripod"), "an example")
    with pytest.raises(FieldError, match="strut front leg ends at it"):
        draft_parts.removed(draft, "points", "head")
    with pytest.raises(FieldError, match="the winch is bolted to it"):
        draft_parts.removed(draft, "struts", "winch leg")
    assert "far chain" not in draft_parts.removed(draft, "struts", "far chain").data["struts"]
