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
            assert own == [f"{letters.of_parts(draft)[section, part]}{number}" for number in range(1, len(own) + 1)]


def test_no_letter_is_skipped_from_the_first_part_to_the_last():
    draft = drafts.of_arrangement("tackle")
    assert list(letters.of_parts(draft).values()) == [letters.letter(index) for index in range(len(letters.lettered_parts(draft)))]


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
    ]


def test_a_draft_that_cannot_be_read_is_lettered_all_the_same():
    draft = example("found-winch").edited(("ropes", "hoist rope", "path"), [{}, "no stop"]).edited(("drive", "kind"), "engine")
    assert letters.of_fields(draft)["points", "hanger of head sheave", "at"] == "A2"
