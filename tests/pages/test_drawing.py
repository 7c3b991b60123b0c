"""What the drawing on a page is given, and what becomes of what it sends; moving parts in a browser is tested with a browser."""

from __future__ import annotations

import json
import re

import pytest

from rigcheck import units
from rigcheck.rig import examples
from rigcheck.ui import draft as drafts
from rigcheck.ui import drawing_moves, drawing_photo, drawing_view, moves
from rigcheck.ui import session as sessions
from rigcheck.ui.drawing_moves import Taken

KEY = "drawing"
HEAD = ("points", "hanger of head sheave", "at")


class Sent:
    """A session that a drawing sends to: the draft, how often it was changed, and what is remembered."""

    def __init__(self):
        self.now, self.steps, self.memory, self.message = drafts.of_rig(examples.example("loft-lift"), "an example"), 0, {}, {}

    def draft(self):
        return self.now

    def put(self, new):
        self.now, self.steps = new, self.steps + 1

    def opened(self):
        return 3

    def entered(self, key):
        return self.message

    def remembered(self, name, otherwise=None):
        return self.memory.get(name, otherwise)

    def remember(self, name, value):
        self.memory[name] = value

    def send(self, *told, opened: int = 3, sender: str = "one"):
        kept = ("serial", "part", "name", "across", "up")
        self.message = {"moves": {"sender": sender, "opened": opened, "moves": [dict(zip(kept, each, strict=True)) for each in told]}}
        drawing_moves.take(KEY)
        return drawing_moves.taken(KEY)


@pytest.fixture
def sent(monkeypatch):
    session = Sent()
    monkeypatch.setattr(drawing_moves, "session", session)
    monkeypatch.setattr(drawing_photo, "session", session)
    return session


def given(session) -> dict:
    """What the drawing on the page was given."""
    return json.loads(session.app.get("bidi_component")[0].proto.json)


FIRST, SECOND = (1, "sheave", "head sheave", 0.1, 0.0), (2, "drum", "drum", 0.0, 0.05)


def test_a_move_is_taken_once_however_often_it_is_sent(sent):
    sent.send(FIRST)
    assert sent.send(FIRST, SECOND) == Taken("one", 2, "")
    sent.send(FIRST, SECOND)
    assert (sent.steps, sent.now.at(HEAD), sent.now.at(("drive", "drum", "at"))[1]) == (2, ["0.163 m", "4.8 m"], "0.45 m")


def test_another_drawing_counts_from_one_again(sent):
    sent.send(FIRST)
    sent.send(FIRST, sender="two")
    assert (sent.steps, sent.now.at(HEAD)[0]) == (2, "0.263 m")


def test_what_was_moved_on_another_rig_is_left_alone(sent):
    assert sent.send(FIRST, opened=2) == Taken()
    assert sent.steps == 0


def test_a_move_that_cannot_be_made_is_told_and_the_next_one_is_made(sent):
    sent.now = sent.now.edited(HEAD, ["three", "4.8 m"])
    assert "does not begin with a number" in sent.send(FIRST).refused
    assert sent.steps == 0
    assert sent.send(FIRST, SECOND).refused == ""
    assert sent.steps == 1


@pytest.mark.parametrize("name", examples.names())
def test_every_part_that_can_be_moved_has_its_grip_on_the_drawing_and_the_other_way_round(session, name):
    told = given(session.example(name))
    gripped = set(re.findall(r'<g id="([^"]*)"[^>]*tabindex="0" role="button"', told["svg"]))
    assert {mark for mark in gripped if not mark.startswith("rope:")} == set(told["grips"])
    assert all(grip["field"] in told["carried"] and not grip["fixed"] for grip in told["grips"].values())
    assert (told["away"], told["stale"], told["opens"]) == ([], "", True)


def test_what_was_moved_since_the_drawing_is_told_with_where_it_went():
    draft, rig = drafts.of_rig(examples.example("loft-lift"), "an example"), examples.example("loft-lift")
    told = drawing_moves.message(moves.moved(draft, "sheave", "head sheave", 0.0, -4.5), rig, Taken())
    assert [[round(step, 6) for step in by] for _, *by in told["away"]] == [[0, -4.5]]
    assert told["stale"].endswith("point hanger of head sheave to 0.0625 m across, 0.3 m up.")
    assert told["grips"]["sheave:head sheave"]["up"] == pytest.approx(0.3)
    assert told["carried"][told["away"][0][0]] == ["point:hanger of head sheave", "sheave:head sheave"]


def test_a_place_that_cannot_be_read_holds_its_part_fast():
    draft = drafts.of_rig(examples.example("loft-lift"), "an example").edited(HEAD, ["", "4.8 m"])
    told = drawing_moves.message(draft, examples.example("loft-lift"), Taken())
    assert told["grips"]["sheave:head sheave"]["fixed"] == drawing_moves.FIXED
    assert not told["grips"]["sheave:lead sheave"]["fixed"]


def test_the_steps_follow_the_units(session):
    assert given(session.example("loft-lift"))["step"]["coarse_m"] == 0.01
    told = given(session.choose("Units", units.US))
    assert (told["step"]["coarse_m"], told["step"]["fine_m"]) == (pytest.approx(0.0127), pytest.approx(0.0015875))
    assert "1/2 in a step, with Shift 1/16 in" in told["how"]
    assert " ft across" in told["svg"]
    assert " m across" not in told["svg"]


def test_a_raised_load_is_said_to_be_moved_in_its_lowest_place(session, monkeypatch):
    assert drawing_view.RAISED not in given(session.example("gallery-crate").page("Ropes"))["how"]
    slider = session.app.slider[0]
    slider.set_value(slider.max).run()
    assert drawing_view.RAISED in given(session)["how"]


def test_a_press_calls_what_the_page_asked_for(monkeypatch):
    pressed = []
    monkeypatch.setattr(sessions, "entered", lambda key: {"opened": {"part": "rope", "name": "hoist rope"}})
    drawing_view._open(KEY, lambda part, name: pressed.append((part, name)))
    drawing_view._open(KEY, None)
    assert pressed == [("rope", "hoist rope")]


def test_the_distance_on_the_photograph_is_read_by_the_strict_reader_and_answered_to_who_asked(sent):
    sent.message = {"distance": {"sender": "one", "serial": 4, "text": "5 ft 3 in"}}
    drawing_photo.read_distance(KEY)
    told = drawing_photo.message(sent.draft(), KEY)
    assert told["distance"] == {"sender": "one", "serial": 4, "text": "5 ft 3 in", "metres": pytest.approx(1.6002)}
    assert told["known"][0][1:] == [0.0, 0.0]
    assert ["sheave head sheave", 0.0625, 4.8] in told["known"]
    assert (told["rig"], told["file"]) == ("loft lift", "loft-lift on its photograph.png")


@pytest.mark.parametrize("text", ["", "1,234 m", "-2 m", "4 kg", "2000 m"])
def test_a_distance_that_could_be_wrong_is_refused_in_words(text):
    told = drawing_photo.distance(text)
    assert "metres" not in told
    assert told["wrong"].endswith(".")


def test_a_bare_distance_is_in_the_unit_that_lengths_are_shown_in():
    with units.shown_in(units.US):
        assert drawing_photo.distance("2")["metres"] == pytest.approx(0.6096)
