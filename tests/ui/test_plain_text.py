"""Text that people typed is never read as markup."""

from __future__ import annotations

import html

from hypothesis import given
from hypothesis import strategies as st

from rigcheck.ui.plain_text import escaped, in_html


@given(st.text())
def test_html_shows_the_words_and_no_element(text):
    shown = in_html(text)
    assert "<" not in shown
    assert '"' not in shown
    assert html.unescape(shown) == " ".join(text.split())


@given(st.text())
def test_every_sign_of_markdown_is_taken_as_a_sign(text):
    shown = escaped(text)
    bare = [sign for before, sign in zip(" " + shown, shown, strict=False) if sign in "*_[]()<>`$!#|:~&" and before != "\\"]
    assert bare == []
    assert "\n" not in shown
