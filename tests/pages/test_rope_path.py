"""The sentence of a rope on a page: each press is one step that can be taken back, none is lost and none is done twice."""

from __future__ import annotations

import json

import pytest
from streamlit.testing.v1 import AppTest

from rigcheck.rig import examples
from rigcheck.ui import draft as drafts
from rigcheck.ui import rope_sentence, scratch

ROPE = scratch.ROPE
NEW_ON_POINT = ["new sheave on a new point"]


def page():
    """Takes over what a test asks for as the component does, then shows every sentence."""
    import streamlit

    from rigcheck.ui import rope_path, scratch, session

    session.begin()
    if "began" not in streamlit.session_state:
        streamlit.session_state.began = True
        session.open_draft(streamlit.session_state.begin_with or scratch.beginning())
    if asked := streamlit.session_state.pop("asks", None):
        streamlit.session_state["the sentence"] = {"asked": asked[1]}
        rope_path._take_over("the sentence", asked[0])
    streamlit.button("Undo", on_click=session.undo)
    for rope in session.draft().at(("ropes",)):
        rope_path.show(("ropes", rope), session.standing().faults)
    rope_path.show_another()
    streamlit.session_state.now = session.draft()


def _plain(label: str) -> str:
    """A label as it is read: what stands in it escaped for Markdown is shown as it is."""
    return label.replace("\\", "")


class Sentences:
    def __init__(self, draft=None):
        self.app = AppTest.from_function(page, default_timeout=60)
        self.app.session_state["begin_with"] = draft
        self.app.run()
        assert not self.app.exception
        self.count = 0

    def press(self, rope: str | None = ROPE, **ask) -> Sentences:
        self.count += 1
        return self.send(rope, {**ask, "number": f"press {self.count}"})

    def send(self, rope: str | None, *asks: dict) -> Sentences:
        self.app.session_state["asks"] = (rope, list(asks))
        self.app.run()
        assert not self.app.exception
        return self

    def click(self, label: str) -> Sentences:
        next(button for button in self.app.button if _plain(button.label) == label).click().run()
        assert not self.app.exception
        return self

    @property
    def buttons(self) -> list[str]:
        return [_plain(button.label) for button in self.app.button]

    @property
    def told(self) -> str:
        return "\n".join(element.proto.body for element in self.app.get("html"))

    @property
    def draft(self):
        return self.app.session_state["now"]

    def stop_words(self, rope: str = ROPE) -> list[str]:
        return [f"{stop['word']} {stop['words']}" for stop in rope_sentence.of_rope(self.draft, rope)["stops"]]

    def turns(self, index: int) -> str:
        return self.draft.at(("ropes", ROPE, "path", index, "turns"))


def test_a_lead_sheave_is_put_in_turned_taken_out_and_brought_back():
    page = Sentences().press(do="add", stop="over head sheave", to=NEW_ON_POINT)
    assert page.stop_words() == ["from load · eye", "over head sheave", "over lead sheave", "to a hand"]
    assert "Put in: hanger of lead sheave, lead sheave." in page.told
    assert "lead sheave, hanger of lead sheave" in page.told.split("not measured yet")[1]
    page.press(do="turn", stop="over lead sheave", turns="anticlockwise")
    assert page.turns(2) == "anticlockwise"
    assert "most of the way round" in page.told
    page.click("Turn the other way at lead sheave")
    assert page.turns(2) == "clockwise"
    assert "most of the way round" not in page.told
    page.press(do="out", stop="over lead sheave")
    assert page.stop_words() == ["from load · eye", "over head sheave", "to a hand"]
    assert "Taken out along with it, since nothing else used it: hanger of lead sheave, lead sheave." in page.told
    assert page.draft.data == scratch.beginning().data
    page.click("Undo")
    assert "over lead sheave" in page.stop_words()
    page.click("Undo").click("Undo").click("Undo")
    assert page.draft.data == scratch.beginning().data


def test_two_quick_presses_are_both_done_and_one_that_is_sent_again_is_not():
    add, turn = ({"do": "add", "stop": "over head sheave", "to": NEW_ON_POINT, "number": "a-1"},
                 {"do": "turn", "stop": "over head sheave", "turns": "anticlockwise", "number": "a-2"})  # fmt: skip
    page = Sentences().send(ROPE, add).send(ROPE, add, turn)
    assert page.stop_words() == ["from load · eye", "over head sheave", "over lead sheave", "to a hand"]
    assert page.turns(1) == "anticlockwise"
    page.send(ROPE, add, turn, {"do": "turn", "stop": "over head sheave", "turns": "clockwise", "number": "a-3"})
    assert page.turns(1) == "clockwise"
    page.click("Undo")
    assert page.turns(1) == "anticlockwise"


@pytest.mark.parametrize("ask", [
    {"do": "out", "stop": "over a sheave that went"}, {"do": "end", "stop": "first", "to": ["at", "nowhere", ""]}, {"do": "turn", "stop": "over head sheave", "turns": "up"},
    {"do": "move", "stop": "over head sheave", "by": 7}, {"do": "add", "stop": "first", "to": ["over", "head sheave"]}, {"do": "remove"}, {"do": "anything"}, {},
])  # fmt: skip
def test_what_is_not_offered_is_not_done(ask):
    assert Sentences().press(**ask).draft.data == scratch.beginning().data


def test_what_was_typed_and_a_press_at_once_are_both_kept():
    page = Sentences()
    field = next(each for each in page.app.text_input if "across" in each.label)
    field.set_value("0.9")
    page.press(do="add", stop="over head sheave", to=NEW_ON_POINT)
    assert page.draft.at(("ropes", ROPE, "path", 3, "pulled_by_hand_at", 0)) == "0.9 m"
    assert "over lead sheave" in page.stop_words()


def test_another_rope_is_begun_and_taken_away_by_its_sentence():
    page = Sentences().press(None, do="begin", first=["new eye", "load"], over=NEW_ON_POINT, last=["new counterweight"])
    assert page.stop_words("rope 2") == ["from load · eye 2", "over lead sheave", "to counterweight · eye"]
    assert "Put in:" in page.told
    page.press("rope 2", do="remove")
    assert list(page.draft.data["ropes"]) == [ROPE]
    page.press(None, do="begin", first=["hand"], over=None, last=["new counterweight"])
    assert list(page.draft.data["ropes"]) == [ROPE]


def test_a_load_let_go_is_told_beside_the_sentence_and_mended_by_one_press():
    page = Sentences().press(do="end", stop="first", to=["new point"])
    assert "nothing holds the body" in page.told
    page.click(next(each for each in page.buttons if each.startswith("Let its first end go to load")))
    assert page.stop_words()[0] == "from load · eye"
    assert "nothing holds" not in page.told


def test_a_rope_that_leaves_its_sheave_is_told_and_turned_by_one_press():
    draft = scratch.beginning().edited(("ropes", ROPE, "path", 2, "pulled_by_hand_at"), ["0 m", "5 m"])
    page = Sentences(draft.edited(("points", "hanger of head sheave", "at"), ["0.5 m", "3 m"]))
    assert "it leaves the sheave" in page.told
    page.click("Turn the other way at head sheave")
    assert "it leaves the sheave" not in page.told


def test_a_sheave_that_was_measured_stays_and_its_removal_is_one_press():
    draft = scratch.beginning().edited(("points", "hanger of head sheave", "notes"), None)
    page = Sentences(draft).press(do="out", stop="over head sheave")
    assert "head sheave" in page.draft.data["sheaves"]
    page.click("Remove what no rope uses: hanger of head sheave, head sheave")
    assert page.draft.data["sheaves"] == {}
    assert page.draft.at(("points",)) == {}


@pytest.mark.parametrize("name", examples.names())
def test_the_sentence_of_every_example_is_data_with_a_picture_for_each_sense(name):
    draft = drafts.of_rig(examples.example(name), "an example")
    for rope in draft.data["ropes"]:
        told = json.loads(json.dumps(rope_sentence.of_rope(draft, rope)))
        assert [stop["word"] for stop in told["stops"]] == ["from", *["over"] * (len(told["stops"]) - 2), "to"]
        for stop in told["stops"]:
            pictures = [sense["svg"] for sense in stop["senses"]]
            assert len(pictures) == len(set(pictures)) == (2 if stop["turning"] and stop["senses"] else 0)
            assert [sense["is_now"] for sense in stop["senses"]].count(True) == (1 if pictures else 0)
    page = Sentences(draft)
    assert not any(_plain(button.label).startswith(("Turn the other way", "Remove")) for button in page.app.button)


def test_a_fault_of_the_rig_is_told_beside_the_rope_that_is_pulled_and_nowhere_else():
    page = Sentences().press(None, do="begin", first=["new eye", "load"], over=NEW_ON_POINT, last=["new counterweight"])
    page.press(do="end", stop="first", to=["new point"])
    assert page.told.count("taking rope in does not raise the load") == 1
    assert "Let its first end go to load · eye" in page.buttons


def test_a_rope_that_runs_over_nothing_is_offered_the_sheave_that_hangs_there():
    draft = scratch.beginning().edited(("points", "hanger of head sheave", "notes"), None)
    page = Sentences(draft).press(do="out", stop="over head sheave")
    assert "does not raise the load" in page.told
    page.click("Run it over head sheave")
    assert page.draft.data == draft.data


def test_a_name_that_looks_like_markup_stays_text():
    draft = scratch.beginning()
    data = json.loads(json.dumps(draft.data).replace("head sheave", "<b>*sheave*"))
    page = Sentences(drafts.Draft(data, scratch.SCRATCH))
    assert "<b>*" not in page.told
    assert "&lt;b&gt;*sheave*" in page.told
