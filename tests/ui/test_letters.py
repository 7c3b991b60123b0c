"""Letters of fields: one for each field, in order, and they stay while the rig keeps its shape."""

from __future__ import annotations

import pytest

from rigcheck.rig import examples
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.ui import draft as drafts
from rigcheck.ui import draft_parts, letters


def example(name: str):
    return drafts.of_rig(examples.example(name), "an example")


@pytest.mark.parametrize("slug", list(ARRANGEMENTS))
def test_what_an_arrangement_asks_is_lettered_in_the_order_of_its_form(slug):
    lettered = letters.of_inputs(ARRANGEMENTS[slug])
    asked = [item.key for item in (*ARRANGEMENTS[slug].inputs, *ARRANGEMENTS[slug].choices)]
    assert list(lettered) == asked
    assert list(lettered.values()) == list(letters.ALPHABET[: len(asked)])


@pytest.mark.parametrize("name", examples.names())
def test_every_field_has_a_letter_and_a_number_of_its_own(name):
    lettered = letters.of_fields(example(name))
    assert len(set(lettered.values())) == len(lettered)
    draft = example(name)
    for section in draft_parts.SECTIONS:
        for part in draft_parts.names(draft, section):
            own = [mark for path, mark in lettered.items() if path[:2] == (section, part)]
            letter = letters.of_parts(draft)[section, part]
            numbers = [int(mark.removeprefix(letter)) for mark in own]
            assert numbers == sorted(set(numbers))
            assert numbers[0] == 1


def test_no_letter_is_skipped_from_the_first_part_to_the_last():
    draft = example("found-winch")
    assert list(letters.of_parts(draft).values()) == [letters.letter(index) for index in range(len(letters.lettered_parts(draft)))]


@pytest.mark.parametrize("slug", list(ARRANGEMENTS))
def test_no_letter_of_a_part_is_one_of_the_form_it_began_as_and_they_follow_on(slug):
    draft = drafts.of_arrangement(slug)
    form, parts = list(letters.of_inputs(ARRANGEMENTS[slug]).values()), list(letters.of_parts(draft).values())
    assert [*form, *parts] == [letters.letter(index) for index in range(len(form) + len(parts))]


def test_letters_stay_while_values_change_and_names_change():
    draft = example("loft-lift")
    before = letters.of_fields(draft)
    load = next(name for name, body in draft.data["bodies"].items() if body["role"] == "load")
    changed = draft.edited(("bodies", load, "mass"), None).edited(("ropes", "hoist rope", "grade"), None)
    assert letters.of_fields(changed) == before
    renamed = draft_parts.renamed(draft, "bodies", load, "books")
    assert list(letters.of_fields(renamed).values()) == list(before.values())
    assert letters.of_fields(renamed)["bodies", "books", "mass"] == before["bodies", load, "mass"]


def test_a_hand_line_has_a_letter_and_a_winch_one_for_each_part_of_it():
    assert ("drive",) in letters.of_parts(drafts.of_arrangement("tackle-hand"))
    parts = letters.of_parts(example("found-winch"))
    assert [path for path in parts if path[0] == "drive"] == [
        ("drive", "drum"),
        ("drive", "gears", 0),
        ("drive", "motor"),
        ("drive", "supply"),
        ("drive", "brake"),
    ]


@pytest.mark.parametrize("name", examples.names())
def test_what_the_sentence_of_a_rope_tells_has_no_letter_and_its_ends_have(name):
    draft = example(name)
    lettered = letters.of_fields(draft)
    for rope in draft_parts.names(draft, "ropes"):
        for index, stop in enumerate(draft.at(("ropes", rope, "path"))):
            own = {path[-1] for path in lettered if path[:4] == ("ropes", rope, "path", index)}
            if "made_fast_to" in stop:
                assert own == {"fitting", "fitting_share"} | ({"pick"} if stop["made_fast_to"] in draft.data["bodies"] else set())
            else:
                assert own == ({"pulled_by_hand_at"} if "pulled_by_hand_at" in stop else set())
    assert not any(path[-1] in ("turns", "over", "tilts") for path in lettered)


def test_a_field_of_another_kind_of_rope_or_gear_has_no_letter_and_its_number_is_kept_for_it():
    draft = example("found-winch")
    steel = letters.of_fields(draft)
    fibre = letters.of_fields(draft.edited(("ropes", "hoist rope", "kind"), "fibre"))
    own = ("ropes", "hoist rope")
    assert ((*own, "material") in steel, (*own, "material") in fibre) == (False, True)
    assert ((*own, "grade") in steel, (*own, "grade") in fibre) == (True, False)
    assert {path: mark for path, mark in steel.items() if path in fibre} == {path: mark for path, mark in fibre.items() if path in steel}
    spur = letters.of_fields(draft.edited(("drive", "gears", 0, "kind"), "spur"))
    assert ("drive", "gears", 0, "lead_angle") in steel
    assert ("drive", "gears", 0, "lead_angle") not in spur


def test_a_draft_that_cannot_be_read_is_lettered_all_the_same():
    draft = example("found-winch").edited(("ropes", "hoist rope", "path"), [{}, "no stop"]).edited(("drive", "kind"), "engine")
    assert letters.of_fields(draft)["points", "hanger of head sheave", "at"] == "A4"
