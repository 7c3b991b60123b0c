"""Every page with nothing, with an example, with a rig that cannot be told, and with names made to mislead."""

from __future__ import annotations

import json

import pytest

from rigcheck.rig import examples, files
from tests.pages.conftest import PAGES

TITLES = tuple(PAGES)
MISLEADING = "<b>x</b> ![p](http://a.b/c.png) $y$ **z**"


def fine(session) -> bool:
    return not session.app.exception and "could not be shown" not in session.text


@pytest.mark.parametrize("title", TITLES)
def test_a_rig_that_never_could_be_worked_out_is_told_on_every_page(session, title):
    session.begin_with(
        {"format": 1, "name": "torn", "bodies": {}, "ropes": {}, "drive": {"kind": "hand line"}, "limits": {"travel": "1 m"}}
    )
    session.page(title)
    assert fine(session)
    assert "no result yet" in session.strip


@pytest.mark.parametrize("name", ["kiln-shell", "found-winch"])
def test_every_page_shows_an_example(session, name):
    session.example(name)
    assert fine(session)
    for title in TITLES:
        session.page(title)
        assert fine(session), title
        assert examples.example(name).name in session.strip
        assert "hold" in session.strip
        assert "Rated load" in session.strip


def test_every_example_can_be_begun_with(session):
    for name in examples.names():
        session.example(name)
        assert fine(session)
        assert examples.example(name).name in session.strip


def test_names_made_to_mislead_are_shown_as_typed_and_never_as_markup(session):
    data = json.loads(files.dumps(examples.example("loft-lift")))
    text = json.dumps(data).replace("hoist rope", MISLEADING.replace('"', ""))
    data = json.loads(text)
    data["name"] = MISLEADING
    data["about"] = MISLEADING
    session.file("odd.rig.json", json.dumps(data).encode())
    for title in TITLES:
        session.page(title)
        assert fine(session), title
        assert "&lt;b&gt;x&lt;/b&gt;" in session.strip
        assert "<b>x</b>" not in session.html
        assert "![p]" not in session.markdown_text
        assert "$y$" not in session.markdown_text


def test_a_fault_of_the_engine_is_told_as_text(session, monkeypatch):
    session.example("loft-lift")
    from rigcheck.ui import pulls_view

    def fails(*_):
        raise ZeroDivisionError("by chance")

    monkeypatch.setattr(pulls_view, "runs", fails)
    session.page("Ropes")
    assert not session.app.exception
    assert "this page could not be shown: ZeroDivisionError: by chance" in session.text
    assert "Nothing that was typed is lost" in session.text
    assert "loft lift" in session.strip
