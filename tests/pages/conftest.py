"""A session of the pages without a browser."""

from __future__ import annotations

from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from rigcheck.ui import session as sessions
from rigcheck.ui.draft import FILE, Draft

APP = Path(__file__).resolve().parent.parent.parent / "pages" / "app.py"
PAGES = {
    "Begin": "begin_here.py",
    "Change parts": "change_parts.py",
    "Ropes": "every_rope.py",
    "Drum and motor": "drum_and_motor.py",
    "Balance": "balance_weight.py",
    "Verdicts": "every_verdict.py",
    "Line by line": "line_by_line.py",
    "Report": "take_away.py",
    "Limits and sources": "limits_and_sources.py",
}


class Session:
    """A session: what it shows as text, and how it goes from page to page."""

    def __init__(self, **address: str):
        self._open(**address)

    def _open(self, **address: str) -> Session:
        """Open the address anew, such as `draft="..."` or `begin="loft-lift"`."""
        self.app = AppTest.from_file(str(APP), default_timeout=60)
        for key, value in address.items():
            self.app.query_params[key] = value
        self.app.run()
        return self

    def page(self, title: str) -> Session:
        self.app.switch_page(str(APP.parent / PAGES[title])).run()
        return self

    def example(self, name: str) -> Session:
        return self._open(begin=name)

    def arrangement(self, slug: str) -> Session:
        return self._open(begin=slug)

    def file(self, name: str, content: bytes) -> Session:
        """Choose a rig file on the first page."""
        self.choose("What to do", "Begin with another")
        self.app.file_uploader[0].set_value((name, content, "application/json")).run()
        return self

    def begin_with(self, data: dict) -> Session:
        """Have a draft open that is kept under a name of its own, whatever it holds."""
        sessions._kept()["as given"] = sessions.Kept(Draft(data, FILE), None)
        return self._open(draft="as given")

    def choose(self, group: str, option) -> Session:
        self.by_label("button_group", group).set_value(option).run()
        return self

    def press(self, label: str) -> Session:
        self.by_label("button", label).click().run()
        return self

    def by_label(self, kind: str, label: str):
        """The first element of a kind with a label; the letter that stands before a label is left away."""
        found = [element for element in getattr(self.app, kind) if label in (element.label, element.label.partition(" · ")[2])]
        assert found, f"no {kind} is labelled {label!r}; there are {[e.label for e in getattr(self.app, kind)]}"
        return found[0]

    def type_in(self, label: str, text: str) -> Session:
        self.by_label("text_input", label).set_value(text).run()
        return self

    @property
    def html(self) -> str:
        """What is shown as HTML."""
        return "\n".join(element.proto.body for element in self.app.get("html"))

    @property
    def markdown_text(self) -> str:
        """What is read as Markdown: texts, and the labels of inputs."""
        texts = [
            str(element.value) for kind in ("markdown", "caption", "subheader", "info", "error") for element in getattr(self.app, kind)
        ]
        kinds = ("text_input", "text_area", "selectbox", "radio", "button", "toggle", "button_group", "slider")
        return "\n".join(texts + [element.label for kind in kinds for element in getattr(self.app, kind)])

    @property
    def text(self) -> str:
        """Everything that is told."""
        return f"{self.markdown_text}\n{self.html}"

    @property
    def strip(self) -> str:
        """What is always in sight."""
        return next(
            element.proto.body
            for element in self.app.get("html")
            if "rc-sight" in element.proto.body and "<style>" not in element.proto.body
        )


@pytest.fixture
def session() -> Session:
    return Session()


@pytest.fixture(autouse=True)
def _no_drafts_of_other_tests():
    sessions._kept().clear()
