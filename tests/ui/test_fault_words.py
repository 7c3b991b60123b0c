"""Faults in the words of the form: no key, no brace and no quoted word of the rig file reaches the fields."""

from __future__ import annotations

import re

import pytest

from rigcheck.rig import examples
from rigcheck.ui import draft as drafts
from rigcheck.ui import fault_words

OF_THE_FILE = re.compile(r'[{}\[\]]|"\w+":|made_fast_to|wound_on|pulled_by_hand_at|sets_itself|without quotes|double quotes|\bnull\b')


def draft():
    return drafts.of_rig(examples.example("found-winch"), "an example")


SLIPS = {
    "no mass": (("bodies", "press", "mass"), "", ("bodies", "press", "mass")),
    "mass left out": (("bodies", "press", "mass"), None, ("bodies", "press", "mass")),
    "a force for a mass": (("bodies", "press", "mass"), "95 lbf", ("bodies", "press", "mass")),
    "no unit": (("bodies", "press", "mass"), "95", ("bodies", "press", "mass")),
    "no load": (("bodies", "press", "role"), "other", ()),
    "words for a share": (("ropes", "hoist rope", "remaining_strength"), "good", ("ropes", "hoist rope", "remaining_strength")),
    "a share above one": (("ropes", "hoist rope", "remaining_strength"), 2, ("ropes", "hoist rope", "remaining_strength")),
    "no sheave": (("ropes", "hoist rope", "path", 1, "over"), "nowhere", ("ropes", "hoist rope", "path", 1, "over")),
    "no such eye": (("ropes", "hoist rope", "path", 0, "pick"), "hook", ("ropes", "hoist rope", "path", 0, "pick")),
    "no direction": (("bodies", "press", "moves"), {"kind": "guided", "along": [0, 0]}, ("bodies", "press", "moves")),
    "no axle": (("sheaves", "head sheave", "axis"), [0, 0, 0], ("sheaves", "head sheave")),
    "a cable begun": (("drive", "cable"), {}, ("drive", "cable", "area")),
    "the drum without its diameter": (("drive", "drum", "diameter"), None, ("drive", "drum", "diameter")),
    "a hand line with a rope on a drum": (("drive",), {"kind": "hand line"}, ()),
    "neither yes nor no": (("drive", "drum", "grooved"), "perhaps", ("drive", "drum", "grooved")),
    "no name": (("name",), "", ("name",)),
    "half a place": (("points", "hanger of head sheave", "at"), ["0.05 m"], ("points", "hanger of head sheave", "at")),
    "people by halves": (("drive", "crank"), {"radius": "0.3 m", "people": "two"}, ("drive", "crank", "people")),
}


@pytest.mark.parametrize("slip", list(SLIPS))
def test_a_fault_is_told_in_the_words_of_the_form_at_its_field(slip):
    path, value, belongs = SLIPS[slip]
    _, faults = draft().edited(path, value).read()
    assert faults
    assert fault_words.path_of(faults[0])[: len(belongs)] == belongs
    for fault in faults:
        told = " ".join((fault_words.where(fault), fault_words.wrong(fault), fault_words.right(fault)))
        assert not OF_THE_FILE.search(told), told


@pytest.mark.parametrize("slip", ["no mass", "mass left out", "a cable begun", "the drum without its diameter"])
def test_what_was_not_filled_in_is_told_as_not_known(slip):
    path, value, _ = SLIPS[slip]
    _, faults = draft().edited(path, value).read()
    assert fault_words.is_unknown(faults[0])


def test_what_was_filled_in_wrongly_is_not_told_as_not_known():
    _, faults = draft().edited(("bodies", "press", "mass"), "95 lbf").read()
    assert not fault_words.is_unknown(faults[0])
    assert fault_words.where(faults[0]) == "press: mass"
