"""Sheaves drawn in the same place: which two, how far apart they are and must be; those that stand behind one another are left alone."""

from __future__ import annotations

import pytest

from rigcheck import units
from rigcheck.rig import examples
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.ui import draft as drafts
from rigcheck.ui import drawing_moves, moves, overlaps, scratch
from rigcheck.ui.drawing_moves import Taken

LEAD = ("points", "hanger of lead sheave", "at")


def loft():
    return drafts.of_rig(examples.example("loft-lift"), "an example")


def brought_to_the_head_sheave(across_m: float = 0.05):
    draft = loft()
    (x, y), (from_x, from_y) = (moves.place(draft, "sheave", name) for name in ("head sheave", "lead sheave"))
    return moves.moved(draft, "sheave", "lead sheave", x + across_m - from_x, y - from_y)


@pytest.mark.parametrize("draft", [*(drafts.of_rig(examples.example(name), "an example") for name in examples.names()),
                                   *(drafts.of_arrangement(slug) for slug in ARRANGEMENTS), scratch.beginning()], ids=str)  # fmt: skip
def test_no_rig_of_our_own_has_sheaves_in_one_place(draft):
    assert overlaps.overlapping(draft) == []


def test_two_sheaves_in_one_place_are_told_with_how_far_apart_they_must_be():
    (found,) = overlaps.overlapping(brought_to_the_head_sheave())
    assert {found.one, found.other} == {"head sheave", "lead sheave"}
    assert found.apart_m == pytest.approx(0.05, abs=1e-3)
    assert found.least_m == pytest.approx(0.125)
    assert "at least 125 mm apart" in found.words
    with units.shown_in(units.US):
        assert "at least 4.922 in apart" in found.words


def test_sheaves_that_touch_or_stand_behind_one_another_do_not_overlap():
    assert overlaps.overlapping(brought_to_the_head_sheave(0.1255)) == []
    draft = brought_to_the_head_sheave()
    assert overlaps.overlapping(draft.edited(LEAD, [*draft.at(LEAD)[:2], "60 mm"])) == []
    assert len(overlaps.overlapping(draft.edited(LEAD, [*draft.at(LEAD)[:2], "0 mm"]))) == 1
    assert overlaps.overlapping(draft.edited(("sheaves", "lead sheave", "axis"), [1, 0, 0])) == []


@pytest.mark.parametrize("path, value", [(LEAD, ["here", "4.8 m"]), (("sheaves", "lead sheave", "pitch_diameter"), "wide"), (("sheaves", "lead sheave"), None),
                                         (("sheaves", "lead sheave", "on"), ["x"]), (("points",), None), (LEAD, ["1 m", "4.8 m", "deep"])])  # fmt: skip
def test_what_cannot_be_read_is_no_overlap(path, value):
    assert overlaps.overlapping(brought_to_the_head_sheave().edited(path, value)) == []


def test_the_caution_stands_beside_the_drawing_and_goes_with_the_overlap():
    told = drawing_moves.message(brought_to_the_head_sheave(), examples.example("loft-lift"), Taken())
    assert "head sheave and lead sheave overlap" in told["stale"]
    assert drawing_moves.message(loft(), examples.example("loft-lift"), Taken())["stale"] == ""
    draft = loft()
    for number in range(4):
        draft = draft.edited(("sheaves", f"spare {number}"), {"on": "hanger of head sheave", "pitch_diameter": "0.1 m"})
    assert "And 8 more pairs of sheaves overlap." in drawing_moves.message(draft, examples.example("loft-lift"), Taken())["stale"]
