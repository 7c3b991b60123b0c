"""From one rope and one sheave, by sentences alone, to every arrangement: the same pulls when the places are set alike."""

from __future__ import annotations

import json

import pytest

from rigcheck.checks.assessment import assess, guesses
from rigcheck.rig import files
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.rig.model import Rig
from rigcheck.ui import draft_parts, growing, leftovers, moves, scratch, sentences
from rigcheck.ui.draft import SCRATCH, Draft
from rigcheck.ui.form_notes import BY_EYE, PLACED, TYPICAL, is_by_the_form, stated, waiting
from rigcheck.ui.rope_words import sentence, stops
from rigcheck.ui.scratch import ROPE

ON_DRUM = (growing.ON_DRUM,)
ON_POINT = (growing.ON_NEW_POINT,)
NEW_POINT = (growing.NEW_POINT,)
ON_LOAD = (growing.ON, "load")


def read(draft: Draft) -> Rig:
    rig, faults = draft.read()
    assert faults == []
    return rig


def begun_on_a_drum() -> Draft:
    return sentences.with_end(scratch.beginning(), ROPE, sentences.LAST, ON_DRUM)


def with_sheave(draft: Draft, target=ON_POINT, rope: str = ROPE) -> Draft:
    """One sheave more before the last end."""
    return sentences.with_stop_added(draft, rope, len(stops(draft, rope)) - 2, target)


def tackle(parts: int) -> Draft:
    """The rope from a fixed point down to the load and up again, once for every two parts."""
    draft = sentences.with_end(begun_on_a_drum(), ROPE, sentences.FIRST, NEW_POINT)
    draft = sentences.with_stop_added(draft, ROPE, 0, ON_LOAD)
    for _ in range(parts // 2 - 1):
        draft = with_sheave(with_sheave(draft, ON_LOAD))
    return draft


def two_falls() -> Draft:
    draft = with_sheave(begun_on_a_drum())
    return sentences.new_rope(draft, (growing.NEW_EYE, "load"), ON_DRUM, [ON_POINT], "right rope")


def with_counterweight() -> Draft:
    return sentences.new_rope(begun_on_a_drum(), (growing.NEW_EYE, "load"), (growing.NEW_COUNTERWEIGHT,), [ON_POINT, ON_POINT])


def set_alike(draft: Draft, rig: Rig) -> Draft:
    """The draft with the quantities and places of a rig whose ropes take the same paths, and the senses of the draft as they are."""
    like = Draft(_plain(rig), "an arrangement")
    for section in ("limits", "drive"):
        draft = draft.edited((section,), like.at((section,)))
    bodies = dict(zip(_by_role(draft), _by_role(like), strict=True))
    for own, other in bodies.items():
        for field in ("mass", "at"):
            draft = draft.edited(("bodies", own, field), like.at(("bodies", other, field)))
    for own, other in zip(_hoist_first(draft), _hoist_first(like), strict=True):
        for field in ("kind", "diameter"):
            draft = draft.edited(("ropes", own, field), like.at(("ropes", other, field)))
        for mine, theirs in zip(stops(draft, own), stops(like, other), strict=True):
            draft = _stop_alike(draft, like, mine, theirs)
    return draft


def _plain(rig: Rig) -> dict:
    return json.loads(files.dumps(rig))


def _by_role(draft: Draft) -> list[str]:
    return sorted(draft_parts.names(draft, "bodies"), key=lambda name: draft.at(("bodies", name, "role")) != "load")


def _hoist_first(draft: Draft) -> list[str]:
    """Ropes in an order that both agree on: those on the drum first, by the number of their stops."""
    return sorted(draft_parts.names(draft, "ropes"), key=lambda name: ("wound_on" not in stops(draft, name)[-1], -len(stops(draft, name))))


def _stop_alike(draft: Draft, like: Draft, mine: dict, theirs: dict) -> Draft:
    if "over" in mine:
        own, other = ("sheaves", mine["over"]), ("sheaves", theirs["over"])
        draft = draft.edited((*own, "pitch_diameter"), like.at((*other, "pitch_diameter")))
        draft = draft.edited((*own, "offset"), like.at((*other, "offset")))
        on, other_on = draft.at((*own, "on")), like.at((*other, "on"))
        assert (on in draft.data["points"]) == (other_on in like.data["points"])
        if on in draft.data["points"]:
            draft = draft.edited(("points", on, "at"), like.at(("points", other_on, "at")))
    elif "pick" in mine or mine.get("made_fast_to") in draft.data["bodies"]:
        eye = like.at(("bodies", theirs["made_fast_to"], "picks", theirs["pick"]))
        draft = draft.edited(("bodies", mine["made_fast_to"], "picks", mine["pick"]), eye)
    elif "made_fast_to" in mine:
        draft = draft.edited(("points", mine["made_fast_to"], "at"), like.at(("points", theirs["made_fast_to"], "at")))
    return draft


def pulls(rig: Rig, order: list[str]) -> list[list[float]]:
    """The pulls of each run raising, lowering and standing still, at the lowest, middle and highest place."""
    runs = assess(rig).solution.runs
    return [[float(value) for line in run.all for value in (line.value if getattr(line.value, "ndim", 0) else [line.value])[::50]]
            for rope in order for run in runs[rope]]  # fmt: skip


REBUILT = {
    "straight": ("straight", {}, begun_on_a_drum),
    "lead sheave": ("lead-sheave", {}, lambda: with_sheave(begun_on_a_drum())),
    "tackle of 2 parts": ("tackle", {"parts": "2"}, lambda: tackle(2)),
    "tackle of 4 parts": ("tackle", {"parts": "4"}, lambda: tackle(4)),
    "two falls": ("two-falls", {}, two_falls),
    "straight with a counterweight": ("straight-counterweight", {}, with_counterweight),
}


@pytest.mark.parametrize("slug, answers, built", REBUILT.values(), ids=REBUILT)
def test_an_arrangement_rebuilt_by_sentences_has_its_pulls_where_the_places_are_set_alike(slug, answers, built):
    arrangement = ARRANGEMENTS[slug]
    wanted = arrangement.make(arrangement.defaults() | answers)
    draft = set_alike(built(), wanted)
    for rope in draft_parts.names(draft, "ropes"):
        draft = sentences.sensed(draft, rope)
    theirs = Draft(_plain(wanted), "")
    for own, other in zip(_hoist_first(draft), _hoist_first(theirs), strict=True):
        last = theirs.at(("ropes", other, "path"))[-1]
        if "wound_on" in last:
            draft = sentences.flipped(draft, own, len(stops(draft, own)) - 1, last["turns"])
        assert [s.get("turns") for s in stops(draft, own)] == [s.get("turns") for s in stops(theirs, other)], "every sense is guessed right"
    found, expected = pulls(read(draft), _hoist_first(draft)), pulls(wanted, _hoist_first(theirs))
    assert len(found) == len(expected)
    for mine, other in zip(found, expected, strict=True):
        assert mine == pytest.approx(other, rel=1e-9)


@pytest.mark.parametrize("built", [built for *_, built in REBUILT.values()], ids=REBUILT)
def test_each_of_them_is_solved_as_the_form_places_it(built):
    assert assess(read(built())).solution.runs


def test_it_begins_solved_with_one_rope_and_one_sheave():
    draft = scratch.beginning()
    rig = read(draft)
    assert draft.origin == SCRATCH
    assert (len(rig.ropes), len(rig.sheaves), len(rig.points), len(rig.bodies)) == (1, 1, 1, 1)
    assert assess(rig).solution.runs[ROPE]


def test_every_number_it_begins_with_says_that_nobody_measured_it():
    """But for the place of the load, which is where everything is counted from."""
    draft = scratch.beginning()

    def unnoted(part, path=()):
        if isinstance(part, dict):
            notes = part.get("notes", {})
            for key, value in part.items():
                if key != "notes" and key not in notes:
                    yield from unnoted(value, (*path, key))
        elif isinstance(part, list):
            for index, value in enumerate(part):
                yield from unnoted(value, (*path, index))
        elif any(sign.isdigit() for sign in str(part)):
            yield path

    found = set(unnoted(draft.data))
    assert found == {("format",), ("bodies", "load", "at", 0), ("bodies", "load", "at", 1)}


def test_what_the_form_put_in_is_told_until_it_is_measured():
    draft = with_sheave(begun_on_a_drum())
    assert leftovers.to_measure(draft, ROPE) == [
        "load",
        "head sheave",
        "hanger of head sheave",
        "lead sheave",
        "hanger of lead sheave",
        "drum",
    ]
    measured = draft.edited(("points", "hanger of lead sheave", "notes"), {"at": "measured with a tape"})
    assert "hanger of lead sheave" not in leftovers.to_measure(measured, ROPE)
    assert "lead sheave" in leftovers.to_measure(measured, ROPE)


@pytest.mark.parametrize(
    "note, by_the_form",
    [
        (TYPICAL, True),
        (f"{TYPICAL}, weigh it", True),
        (f"eye 2: {PLACED}", True),
        (PLACED, True),
        (BY_EYE, True),
        ("weighed", False),
        ("", False),
        (None, False),
    ],
)
def test_a_note_says_whether_the_form_put_the_value_in(note, by_the_form):
    assert is_by_the_form(note) is by_the_form


def test_the_sentence_reads_as_one():
    draft = with_sheave(begun_on_a_drum())
    assert sentence(draft, ROPE) == "hoist rope from load · eye over head sheave (clockwise) over lead sheave (clockwise) to the drum"


def test_the_note_of_the_form_goes_when_the_value_is_stated_and_a_note_of_ones_own_stays():
    data = scratch.beginning().data
    data["ropes"][ROPE]["notes"]["diameter"] = "caliper"
    stated(data, ("ropes", ROPE, "diameter"))
    stated(data, ("ropes", ROPE, "kind"))
    stated(data, ("ropes", ROPE, "path", 2, "pulled_by_hand_at"))
    stated(data, ("bodies", "load", "picks", "eye"))
    stated(data, ("drive", "no such", "part"))
    assert data["ropes"][ROPE]["notes"] == {"diameter": "caliper"}
    assert "notes" not in data["ropes"][ROPE]["path"][2]
    assert list(data["bodies"]["load"]["notes"]) == ["mass"]


def test_every_value_of_the_form_is_a_guess_and_none_is_left_out_of_the_list():
    draft = scratch.beginning()
    rig = draft.read()[0]
    assert len(guesses(rig)) == len(waiting(draft.data)) > 5
    measured = draft.edited(("bodies", "load", "mass"), "80 kg")
    assert [path for path in waiting(draft.data) if path not in waiting(measured.data)] == [("bodies", "load", "mass")]


def test_what_somebody_moved_by_eye_is_not_taken_out_with_the_stop_that_used_it():
    draft = with_sheave(begun_on_a_drum())
    mark = ("sheave", "lead sheave")
    kept = sentences.without_stop(moves.moved(draft, *mark, 0.1, 0), ROPE, 2)
    gone = sentences.without_stop(draft, ROPE, 2)
    assert ("lead sheave" in kept.data["sheaves"], "lead sheave" in gone.data["sheaves"]) == (True, False)
