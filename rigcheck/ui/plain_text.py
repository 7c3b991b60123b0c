"""Text that people typed, made fit for places that would read it as markup."""

from __future__ import annotations

import html
import re

_MARKS = re.compile(r"([\\`*_{}\[\]()#+\-.!|<>~$&:/])")


def escaped(text: str) -> str:
    """Text that Markdown shows as it was typed: no emphasis, no formula, no picture, no link, no line of its own.

    >>> escaped("a*b* $c$ ![x](http://y)")
    'a\\\\*b\\\\* \\\\$c\\\\$ \\\\!\\\\[x\\\\]\\\\(http\\\\:\\\\/\\\\/y\\\\)'
    """
    return _MARKS.sub(r"\\\1", " ".join(str(text).split()))


def in_html(text: str) -> str:
    """Text for the content or an attribute of an HTML element."""
    return html.escape(" ".join(str(text).split()), quote=True)
