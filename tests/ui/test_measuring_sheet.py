"""The measuring sheet: every letter of the form stands in its table, and those that have a place stand on its drawing too."""

from __future__ import annotations

import io

import pytest
from pypdf import PdfReader

from rigcheck.rig import examples
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.ui import draft as drafts
from rigcheck.ui import lettered_places, letters, measuring_sheet_view


def words_of(pdf: bytes) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)


@pytest.mark.parametrize("slug", list(ARRANGEMENTS))
def test_the_sheet_of_an_arrangement_carries_the_letters_of_its_form(slug):
    draft = drafts.of_arrangement(slug)
    told = words_of(measuring_sheet_view.of(draft, None))
    arrangement = ARRANGEMENTS[slug]
    lettered = letters.of_inputs(arrangement)
    for item in (*arrangement.inputs, *arrangement.asked(draft.answers)):
        assert f"{lettered[item.key]} {item.label.split()[0]}" in " ".join(told.split())
    assert "Nobody under the load" in told


@pytest.mark.parametrize("slug", list(ARRANGEMENTS))
def test_every_number_to_measure_has_a_place_on_the_drawing(slug):
    arrangement = ARRANGEMENTS[slug]
    rig = arrangement.make(arrangement.defaults())
    lettered = letters.of_inputs(arrangement)
    dimensions, callouts = lettered_places.marks(rig, lettered)
    assert {mark.letter for mark in (*dimensions, *callouts)} == {lettered[item.key] for item in arrangement.inputs}


@pytest.mark.parametrize("slug, key, length_m", [("straight", "travel", 1.6), ("straight", "head_height", 3.0), ("straight", "load_height", 0.6),
                                                 ("straight", "distance", 1.5), ("two-falls", "spread", 1.0), ("tackle", "head_height", 3.0)])  # fmt: skip
def test_a_lettered_line_is_as_long_as_the_number_it_stands_for(slug, key, length_m):
    arrangement = ARRANGEMENTS[slug]
    dimensions, _ = lettered_places.marks(arrangement.make(arrangement.defaults()), letters.of_inputs(arrangement))
    line = next(each for each in dimensions if each.letter == letters.of_inputs(arrangement)[key])
    assert sum((a - b) ** 2 for a, b in zip(line.start, line.end, strict=True)) ** 0.5 == pytest.approx(length_m)


@pytest.mark.parametrize("name", examples.names())
def test_the_sheet_of_another_rig_has_a_row_for_every_letter_of_its_form_and_for_no_other(name):
    draft = drafts.of_rig(examples.example(name), drafts.EXAMPLE)
    rows = [row.letter for group in measuring_sheet_view._of_parts(draft) for row in group.rows]
    assert rows == list(letters.of_fields(draft).values())


def test_the_ends_and_the_eyes_on_the_sheet_say_which_they_are():
    draft = drafts.of_rig(examples.example("tired-hoist"), drafts.EXAMPLE)
    rows = {row.what: row.now for group in measuring_sheet_view._of_parts(draft) for row in group.rows}
    assert rows["first end: fitting or knot"] == "clove hitch"
    assert rows["eye or hook eye: its place"] == "0 m, 0.5 m"


def test_the_sheet_of_another_rig_has_every_part_with_what_stands_in_the_form():
    told = words_of(measuring_sheet_view.of(drafts.of_rig(examples.example("kiln-shell"), drafts.EXAMPLE), None))
    for words in ("in the form now: 6 mm", "Diameter", "how to find it out"):
        assert words in told
