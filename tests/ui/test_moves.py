"""Parts moved on the drawing: the field that holds the place changes by as much as was asked, in the unit it was written in, and nothing else."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcheck import units
from rigcheck.checks.assessment import guesses
from rigcheck.errors import InputError
from rigcheck.rig import examples
from rigcheck.ui import draft as drafts
from rigcheck.ui import form_notes, moves


def example(name: str) -> drafts.Draft:
    return drafts.of_rig(examples.example(name), "an example")


EVERY_PART = [(name, *mark) for name in examples.names() for mark in moves.holds(example(name))]
HALF_A_MM, HALF_A_SIXTEENTH_M = 0.00051, 0.0254 / 32 + 1e-9
HEAD = ("points", "hanger of head sheave", "at")


@pytest.mark.parametrize("name, part, called", EVERY_PART)
def test_every_part_of_every_example_goes_where_it_is_moved_and_back(name, part, called):
    draft = example(name)
    across, up = moves.place(draft, part, called)
    there = moves.moved(draft, part, called, 0.03, -0.02)
    assert moves.place(there, part, called) == pytest.approx((across + 0.03, up - 0.02), abs=HALF_A_MM)
    assert list(moves.displaced(there, draft.read()[0])) == [moves.holds(draft)[part, called].field]
    back = moves.moved(there, part, called, -0.03, 0.02)
    assert moves.place(back, part, called) == pytest.approx((across, up), abs=2 * HALF_A_MM)


def test_a_sheave_alone_on_its_point_takes_the_point_along():
    there = moves.moved(example("loft-lift"), "sheave", "head sheave", 0.01, -0.02)
    assert there.at(HEAD) == ["0.073 m", "4.78 m"]
    assert there.at(("sheaves", "head sheave", "offset")) == example("loft-lift").at(("sheaves", "head sheave", "offset"))


def test_a_sheave_beside_another_on_its_point_moves_by_its_offset():
    draft = example("loft-lift").edited(("sheaves", "lead sheave", "on"), "hanger of head sheave")
    there = moves.moved(draft, "sheave", "head sheave", 0.01, 0)
    assert there.at(HEAD) == draft.at(HEAD)
    assert there.at(("sheaves", "head sheave", "offset")) == ["0.01 m", "0 m"]


def test_a_sheave_on_a_point_where_a_rope_ends_moves_by_its_offset():
    draft = example("loft-lift")
    path = [{"made_fast_to": "hanger of head sheave"}, *draft.at(("ropes", "hoist rope", "path"))[1:]]
    there = moves.moved(draft.edited(("ropes", "hoist rope", "path"), path), "sheave", "head sheave", 0, 0.05)
    assert there.at(HEAD) == draft.at(HEAD)
    assert there.at(("sheaves", "head sheave", "offset")) == ["0 m", "0.05 m"]


def test_a_sheave_on_a_body_moves_by_its_offset_and_with_its_body():
    draft = example("boat-engine")
    there = moves.moved(draft, "sheave", "lower sheave 1", 0.02, 0)
    assert there.at(("bodies",)) == draft.at(("bodies",))
    assert ("sheave", "lower sheave 1") in moves.holds(draft)["body", "outboard motor"].carried
    along = moves.moved(draft, "body", "outboard motor", 0.02, 0)
    assert moves.place(along, "sheave", "lower sheave 2")[0] == pytest.approx(moves.place(draft, "sheave", "lower sheave 2")[0] + 0.02)


def test_the_base_of_the_drum_goes_with_the_drum():
    draft = example("loft-lift").edited(("drive", "drum", "base"), ["1.6 m", "100 mm"])
    there = moves.moved(draft, "drum", "drum", 0.1, 0.05)
    assert (there.at(("drive", "drum", "at")), there.at(("drive", "drum", "base"))) == (["1.766 m", "0.45 m"], ["1.7 m", "150 mm"])


def test_the_hand_moves_in_the_path_of_its_rope_and_the_rest_of_the_path_stays():
    draft = example("boat-engine")
    path, there = draft.at(("ropes", "hoist rope", "path")), moves.moved(draft, "hand", "hoist rope", 0.1, 0)
    moved_path = there.at(("ropes", "hoist rope", "path"))
    assert [a == b for a, b in zip(path, moved_path, strict=True)] == ["pulled_by_hand_at" not in stop for stop in path]
    assert moves.place(there, "hand", "hoist rope") == pytest.approx((1.18, 1.2))


def test_depth_and_the_side_that_was_not_moved_stay_to_the_letter():
    draft = example("loft-lift").edited(HEAD, ["62 mm ± 2 mm", "15 ft 9", "1 1/4 in"])
    there = moves.moved(draft, "point", "hanger of head sheave", 0.01, 0)
    assert there.at(HEAD) == ["72 mm ± 2 mm", "15 ft 9", "1 1/4 in"]


def test_what_was_typed_goes_and_the_notes_of_other_fields_stay():
    draft = example("loft-lift").edited(("points", "hanger of head sheave", "notes"), {"at": form_notes.PLACED, "fixing": "seen"})
    draft = draft.with_step(HEAD, 0, "0.06 m", "0.06", draft.at(HEAD)).edited(("bodies", "platform", "mass"), "210 kg", "210")
    there = moves.moved(draft, "sheave", "head sheave", 0.01, 0.01)
    assert there.shown((*HEAD, 0)) == "0.07 m"
    assert there.typed == {("bodies", "platform", "mass"): "210"}
    assert there.at(("points", "hanger of head sheave", "notes")) == {"at": form_notes.BY_EYE, "fixing": "seen"}
    assert draft.at(("points", "hanger of head sheave", "notes")) == {"fixing": "seen"}


@pytest.mark.parametrize("name, part, called", EVERY_PART)
def test_a_place_that_was_moved_is_noted_as_placed_by_eye_until_it_is_stated_again(name, part, called):
    draft = example(name)
    field = moves.holds(draft)[part, called].field
    note = (*field[:-1], "notes", field[-1])
    there = moves.moved(draft.edited(note, "measured with a tape"), part, called, 0.05, 0)
    assert there.at(note) == form_notes.BY_EYE
    assert any(form_notes.BY_EYE in line for line in guesses(there.read()[0]))
    stated = there.with_step(field, 0, "1 m", "1 m", there.at(field))
    assert stated.at(note) is None
    same = moves.moved(draft.edited(note, "measured with a tape"), part, called, 0.00001, 1e-9)
    assert same.at(note) in ("measured with a tape", form_notes.BY_EYE)
    assert (same.at(note) == form_notes.BY_EYE) == (same.at(field) != draft.at(field))


def test_steps_there_and_back_leave_a_coordinate_finer_than_a_millimetre_to_the_letter():
    draft = example("loft-lift").edited(HEAD, ["0.06251 m", "4.80037 m"])
    draft = draft.with_step(HEAD, 1, "4.80037 m", "4.80037", draft.at(HEAD))
    up = sum([0.01] * 3) - 0.01 - 0.01 - 0.01
    assert up != 0
    there = moves.moved(draft, "point", "hanger of head sheave", 0.01, up)
    assert there.at(HEAD) == ["0.073 m", "4.80037 m"]
    assert there.shown((*HEAD, 1)) == "4.80037"
    assert moves.moved(draft, "point", "hanger of head sheave", up, up).data == draft.data


@pytest.mark.parametrize(
    "text, by_m, expected",
    [
        ("1200 mm", 0.01, "1210 mm"),
        ("1200 mm", 0.0015875, "1202 mm"),
        ("1.2 m ± 5 mm", 0.01, "1.21 m ± 5 mm"),
        ("2 m ± 1 %", 0.5, "2.5 m ± 20 mm"),
        ("1,5 m", 0.012, "1.512 m"),
        ("\u22123 cm", 0.01, "-2 cm"),
        ("0.0625 m", 0.01, "0.073 m"),
        ("4 ft", 0.0127, "4 ft 1/2 in"),
        ("4 ft ± 0.1", 0.0127, "4 ft 1/2 in ± 0.1 ft"),
        ("1 1/4 in", 0.0254 / 16, "1 5/16 in"),
        ("1.25 in", 0.0254 / 16, "1.3125 in"),
        ("5 ft 11 1/2 in", 0.0127, "6 ft"),
        ("4' 6\"", 0.0127, "4 ft 6 1/2 in"),
        ("-1 ft 6 in +/- 1 in", 0.0127, "-1 ft 5 1/2 in ± 1 in"),
        ("1/2 in", -0.0254, "-1/2 in"),
        ("2 yd", 0.3048, "2.333333 yd"),
        ("0.01 m", -0.01, "0 m"),
    ],
)
def test_a_coordinate_keeps_its_unit_and_its_tolerance(text, by_m, expected):
    written = moves.rewritten(text, by_m)
    assert written == expected
    assert units.read(written, "length").plus_minus == pytest.approx(units.read(text, "length").plus_minus)


@given(
    st.integers(-90_000, 90_000),
    st.sampled_from(["mm", "cm", "m", "in", "ft"]),
    st.integers(-400, 400),
    st.sampled_from([0.01, 0.001, 0.0127, 0.0015875]),
)
def test_what_is_written_is_as_near_to_what_was_asked_as_its_grid_allows(hundredths, unit, count, step_m):
    text = f"{hundredths / 100:.2f} {unit}"
    written = units.read(moves.rewritten(text, count * step_m), "length").value
    within = HALF_A_SIXTEENTH_M if unit in ("in", "ft") else HALF_A_MM
    assert written == pytest.approx(units.read(text, "length").value + count * step_m, abs=within)


@pytest.mark.parametrize("across", ["", "three", "0.06", None])
def test_a_place_that_cannot_be_read_is_told_in_words_and_nothing_changes(across):
    draft = example("loft-lift").edited(HEAD, [across, "4.8 m"])
    before = draft.data
    with pytest.raises(InputError, match="cannot be read") as told:
        moves.moved(draft, "sheave", "head sheave", 0.01, 0)
    assert (draft.data, told.value.right) == (before, "Mend the coordinate in its form, then it can be moved.")
    assert moves.place(draft, "sheave", "head sheave") is None


def test_a_place_that_is_not_stated_a_part_that_is_gone_and_a_move_without_measure_are_told():
    draft = example("loft-lift")
    with pytest.raises(InputError, match="coordinate is missing"):
        moves.moved(draft.edited(HEAD, None), "point", "hanger of head sheave", 0.01, 0)
    for part, name in (("sheave", "none"), ("rope", "hoist rope"), ("hand", "hoist rope"), ("motor", "motor")):
        with pytest.raises(InputError, match="no longer part of the rig"):
            moves.moved(draft, part, name, 0.01, 0)
    with pytest.raises(InputError, match="too far"):
        moves.moved(draft, "drum", "drum", float("nan"), 0)


@pytest.mark.parametrize("path, value", [(("points",), None), (("sheaves",), []), (("ropes", "hoist rope", "path"), "none"), (("drive",), {"kind": "winch"}),
                                         (("sheaves", "head sheave", "on"), ["x"]), (("points", "hanger of head sheave"), "here")])  # fmt: skip
def test_a_draft_that_is_no_rig_can_still_be_asked(path, value):
    draft = example("loft-lift").edited(path, value)
    for mark in moves.holds(draft):
        moves.place(draft, *mark)
    assert isinstance(moves.displaced(draft, examples.example("loft-lift")), dict)
