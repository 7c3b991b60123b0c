"""A session of the pages without a browser."""

from __future__ import annotations

from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from rigcheck.ui import session as sessions

APP = Path(__file__).resolve().parent.parent.parent / "pages" / "app.py"
PAGES = {
    "Begin": "begin_here.py",
    "Change parts": "change_parts.py",
    "Pulls": "every_pull.py",
    "Verdicts": "every_verdict.py",
    "Line by line": "line_by_line.py",
    "Report": "take_away.py",
    "Limits and sources": "limits_and_sources.py",
}


class Session:
    """A session: what it shows as text, and how it goes from page to page."""

    def __init__(self, draft: str | None = None):
        self.app = AppTest.from_file(str(APP), default_timeout=60)
        if draft is not None:
            self.app.query_params["draft"] = draft
        self.app.run()

    def page(self, title: str) -> Session:
        self.app.switch_page(str(APP.parent / PAGES[title])).run()
        return self

    def example(self, name: str) -> Session:
        self.by_label("radio", "Begin with").set_value("an example").run()
        self.by_label("radio", "Which scene?").set_value(name).run()
        return self

    def arrangement(self, slug: str) -> Session:
        self.by_label("radio", "How is it rigged?").set_value(slug).run()
        return self

    def by_label(self, kind: str, label: str):
        found = [element for element in getattr(self.app, kind) if element.label == label]
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
