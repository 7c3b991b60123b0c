"""A rope's path changed by its sentence: what was typed stays, guesses are right, what is mended is solved, nothing else changes."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from rigcheck.rig import examples
from rigcheck.rig.fields import FieldError
from rigcheck.ui import draft as drafts
from rigcheck.ui import draft_parts, growing, leftovers, mends, places, rope_words, scratch, sentences
from rigcheck.ui.rope_words import sentence, stops
from rigcheck.ui.scratch import ROPE
from rigcheck.ui.trial import hindrance

ON_POINT = (growing.ON_NEW_POINT,)
ROPES = [(name, rope) for name in examples.names() for rope in examples.example(name).ropes]


def example(name: str):
    return drafts.of_rig(examples.example(name), "an example")


def with_lead():
    return sentences.with_stop_added(scratch.beginning(), ROPE, 1, ON_POINT)


def flat(groups):
    return {target: words for choices in groups.values() for target, words in choices.items()}


@pytest.mark.parametrize("name, rope", ROPES)
def test_the_senses_of_every_example_are_what_the_places_suggest(name, rope):
    draft = example(name)
    assert sentence(sentences.sensed(draft, rope), rope) == sentence(draft, rope)


@pytest.mark.parametrize("name, rope", ROPES)
def test_a_sheave_put_in_anywhere_and_taken_out_again_leaves_the_rig_as_it_was(name, rope):
    draft = example(name)
    for after in range(len(stops(draft, rope)) - 1):
        more = sentences.with_stop_added(draft, rope, after, ON_POINT)
        assert len(stops(more, rope)) == len(stops(draft, rope)) + 1
        assert len(more.data["points"]) == len(draft.at(("points",)) or {}) + 1
        back = sentences.without_stop(more, rope, after + 1)
        assert sentence(back, rope) == sentence(draft, rope)
        assert leftovers.came_and_went(draft, back) == ([], [])


@pytest.mark.parametrize("name, rope", ROPES)
def test_a_new_sheave_hangs_clear_of_all_others(name, rope):
    draft = example(name)
    more = sentences.with_stop_added(draft, rope, len(stops(draft, rope)) - 2, ON_POINT)
    new = next(iter(leftovers.came_and_went(draft, more)[0] and set(more.data["sheaves"]) - set(draft.data["sheaves"])))
    spot = places.of_sheave(more, new)
    assert places.is_free(more, spot, places.diameter(more, new), but=new)
    assert not places.is_free(more, spot, places.diameter(more, new))


@pytest.mark.parametrize("name, rope", ROPES)
def test_each_end_and_each_sheave_that_is_offered_can_be_chosen(name, rope):
    draft = example(name)
    for which in (sentences.FIRST, sentences.LAST):
        for target in flat(rope_words.ends_offered(draft, rope, which)):
            changed = sentences.with_end(draft, rope, which, target)
            kind = rope_words.stops_in_words(changed, rope)[which].target[0]
            assert kind == (target[0] if target[0] in (growing.ON_DRUM, growing.BY_HAND) else growing.AT)
            _rig, faults = changed.read()
            assert all(not fault.path or fault.path[:3] == ("ropes", rope, "path") for fault in faults), faults
    for target in flat(rope_words.sheaves_offered(draft, rope)):
        changed = sentences.with_stop_added(draft, rope, 0, target)
        assert changed.read()[1] == []


def test_the_end_that_is_chosen_already_changes_nothing():
    draft = example("loft-lift")
    for rope in draft.data["ropes"]:
        for which in (sentences.FIRST, sentences.LAST):
            target = rope_words.stops_in_words(draft, rope)[which].target
            assert sentences.with_end(draft, rope, which, target).data == draft.data


def test_the_knot_stays_with_the_end_that_is_made_fast_elsewhere():
    draft = scratch.beginning().edited(("ropes", ROPE, "path", 0, "fitting"), "bowline")
    there = sentences.with_end(draft, ROPE, sentences.FIRST, (growing.NEW_POINT,))
    assert stops(there, ROPE)[0]["fitting"] == "bowline"
    assert stops(there, ROPE)[0]["made_fast_to"] == "dead end of hoist rope"


def test_what_was_typed_into_a_stop_moves_with_it():
    draft = scratch.beginning().with_step(("ropes", ROPE, "path", 2, "pulled_by_hand_at"), 0, "0.8 m", "0.8", ["0.7 m", "1.2 m"])
    more = sentences.with_stop_added(draft, ROPE, 1, ON_POINT)
    assert more.shown(("ropes", ROPE, "path", 3, "pulled_by_hand_at", 0)) == "0.8"
    assert sentences.without_stop(more, ROPE, 2).typed == draft.typed


def test_a_sense_that_was_the_guess_follows_the_corner_and_one_that_was_chosen_stays():
    draft = scratch.beginning().edited(("points", "hanger of head sheave", "at"), ["1 m", "3 m"])
    draft = draft.edited(("ropes", ROPE, "path", 2, "pulled_by_hand_at"), ["2 m", "1 m"])
    there = draft_parts.added(draft, "points", "beam", {"at": ["-1 m", "6 m"]})
    there = draft_parts.added(there, "sheaves", "far sheave", {"on": "beam", "pitch_diameter": "120 mm"})
    over = sentences.with_stop_added(there, ROPE, 1, (growing.OVER, "far sheave"))
    assert sentence(over, ROPE).count("(anticlockwise)") == 2, "the rope turns left at the head sheave now, and back down at the far one"
    chosen = sentences.flipped(there, ROPE, 1)
    assert stops(sentences.with_stop_added(chosen, ROPE, 1, (growing.OVER, "far sheave")), ROPE)[1]["turns"] == "anticlockwise"


def test_what_a_person_measured_stays_when_its_stop_is_taken_out_and_is_offered_to_go():
    draft = with_lead().edited(("points", "hanger of lead sheave", "notes"), {"at": "measured with a tape"})
    out = sentences.without_stop(draft, ROPE, 2)
    assert leftovers.unused(out) == [("sheaves", "lead sheave")]
    clearing = mends.clearing(out)
    assert "lead sheave" in clearing.words
    assert clearing.draft.data == scratch.beginning().data
    assert mends.clearing(scratch.beginning()) is None


def test_moving_a_sheave_past_an_end_changes_nothing_and_forth_and_back_is_where_it_was():
    draft = with_lead()
    assert sentences.moved_stop(draft, ROPE, 1, -1) is draft
    assert sentences.moved_stop(draft, ROPE, 2, 1) is draft
    there = sentences.moved_stop(draft, ROPE, 1, 1)
    assert [stop.get("over") for stop in stops(there, ROPE)] == [None, "lead sheave", "head sheave", None]
    assert sentences.moved_stop(there, ROPE, 2, -1).data == draft.data


def test_an_end_is_never_taken_out():
    for index in (0, 2):
        with pytest.raises(FieldError, match="an end of a rope"):
            sentences.without_stop(scratch.beginning(), ROPE, index)


def test_a_drum_takes_the_place_of_the_hand_and_gives_it_back():
    drum = sentences.with_end(scratch.beginning(), ROPE, sentences.LAST, (growing.ON_DRUM,))
    assert drum.at(("drive", "kind")) == "winch"
    assert hindrance(drum) is None
    hand = sentences.with_end(drum, ROPE, sentences.LAST, (growing.BY_HAND,))
    assert hand.at(("drive",)) == {"kind": "hand line"}
    assert hindrance(hand) is None


def test_a_second_rope_on_the_drum_lies_as_the_first_and_none_is_pulled_by_hand_beside_it():
    draft = sentences.with_end(scratch.beginning(), ROPE, sentences.LAST, (growing.ON_DRUM,))
    draft = sentences.flipped(draft, ROPE, 2)
    more = sentences.new_rope(draft, (growing.NEW_EYE, "load"), (growing.ON_DRUM,), [ON_POINT])
    assert [stop["turns"] for rope in (ROPE, "rope 2") for stop in stops(more, rope) if "wound_on" in stop] == ["anticlockwise"] * 2
    assert more.read()[1] == []
    assert (growing.BY_HAND,) not in flat(rope_words.ends_offered(more, ROPE, sentences.LAST))
    with pytest.raises(FieldError, match="wound on the drum"):
        sentences.with_end(more, ROPE, sentences.LAST, (growing.BY_HAND,))


def test_a_rope_taken_away_takes_what_the_form_put_in_for_it():
    draft = scratch.beginning()
    more = sentences.new_rope(draft, (growing.NEW_POINT,), (growing.NEW_COUNTERWEIGHT,), [ON_POINT])
    assert {"counterweight", "lead sheave"} <= set(leftovers.came_and_went(draft, more)[0])
    assert leftovers.came_and_went(draft, sentences.without_rope(more, "rope 2")) == ([], [])


def test_the_kind_and_diameter_of_a_new_rope_are_noted_as_not_measured():
    more = sentences.new_rope(scratch.beginning(), (growing.NEW_EYE, "load"), (growing.NEW_POINT,))
    assert more.at(("ropes", "rope 2", "diameter")) == "12 mm"
    assert set(more.at(("ropes", "rope 2", "notes"))) == {"kind", "diameter"}


def test_a_rope_that_leaves_its_sheave_is_offered_the_other_turn():
    draft = scratch.beginning().edited(("ropes", ROPE, "path", 2, "pulled_by_hand_at"), ["0 m", "5 m"])
    draft = sentences.flipped(draft.edited(("points", "hanger of head sheave", "at"), ["0.5 m", "3 m"]), ROPE, 1, "clockwise")
    fault = hindrance(draft)
    assert "leaves the sheave" in fault.wrong
    assert mends.concerns(draft, ROPE, fault, [])
    offered = mends.offered(draft, ROPE)
    assert offered[0].words == "Turn the other way at head sheave"
    assert hindrance(offered[0].draft) is None


def test_a_load_that_nothing_holds_is_offered_an_end_of_the_rope():
    draft = sentences.with_end(scratch.beginning(), ROPE, sentences.FIRST, (growing.NEW_POINT,))
    _rig, faults = draft.read()
    assert mends.concerns(draft, ROPE, None, faults)
    assert [mend.words for mend in mends.offered(draft, ROPE)] == ["Let its first end go to load · eye"]


def test_a_rope_that_nothing_pulls_is_offered_a_hand_and_a_drum():
    draft = sentences.with_end(scratch.beginning(), ROPE, sentences.LAST, (growing.NEW_POINT,))
    words = [mend.words for mend in mends.offered(draft, ROPE)]
    assert words[0] == "Let its last end go to a hand"
    assert "a winch takes the place" in words[1]


def test_a_load_that_would_tip_over_on_its_rope_is_offered_a_guide():
    draft = scratch.beginning().edited(("bodies", "load", "moves"), {"kind": "guided", "tilts": True})
    draft = draft.edited(("bodies", "load", "picks", "eye"), ["0 m", "0.2 m"])
    draft = draft.edited(("bodies", "load", "centre_of_gravity"), ["0 m", "0.4 m"])
    if (fault := hindrance(draft)) is None:
        pytest.fail("a load held below its centre of gravity stays")
    assert mends.concerns(draft, ROPE, fault, [])
    assert "Run load straight up and down in a guide" in [mend.words for mend in mends.offered(draft, ROPE)]


@pytest.mark.parametrize("name, rope", ROPES)
def test_no_rope_of_the_examples_is_asked_whether_it_goes_the_long_way_round(name, rope):
    draft = example(name)
    assert mends.long_ways(draft, rope) == []
    for index, stop in enumerate(stops(draft, rope)):
        if "over" in stop:
            turned = sentences.flipped(draft, rope, index)
            if (places.wrap(*(places.of_stop(draft, s) for s in stops(draft, rope)[index - 1 : index + 2]), stop["turns"]) or 0) < 2.7:
                assert f"Turn the other way at {stop['over']}" in [mend.words for mend in mends.long_ways(turned, rope)]


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(0, 200), min_size=1, max_size=6))
def test_whatever_is_pressed_in_whatever_order_every_name_leads_somewhere(presses):
    """No press leaves a rope over a sheave, an end at a point or a sheave on a carrier that is not there."""
    draft = scratch.beginning()
    for press in presses:
        ropes = draft_parts.names(draft, "ropes")
        rope = ropes[press % len(ropes)]
        last = len(stops(draft, rope)) - 1
        ends, over = list(flat(rope_words.ends_offered(draft, rope, -(press % 2)))), list(flat(rope_words.sheaves_offered(draft, rope)))
        match press % 5:
            case 0:
                draft = sentences.with_end(draft, rope, -(press % 2), ends[press % len(ends)])
            case 1:
                draft = sentences.with_stop_added(draft, rope, press % last, over[press % len(over)])
            case 2 if last > 1:
                draft = sentences.without_stop(draft, rope, 1 + press % (last - 1))
            case 3 if last > 1:
                draft = sentences.with_sheave(draft, rope, 1 + press % (last - 1), over[press % len(over)])
            case 4:
                draft = sentences.new_rope(
                    draft, ends[press % len(ends)] if ends[press % len(ends)][0] == "at" else ("new point",), ("new counterweight",)
                )
        for fault in draft.read()[1]:
            assert "does not exist" not in fault.wrong
            assert "neither" not in fault.wrong
            assert "missing" not in fault.wrong
