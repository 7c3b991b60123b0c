"""SVG as text: every name and every label passes through the one escaping helper here.

An element is built from plain values; text among its children is escaped, markup made here is not escaped again.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from functools import lru_cache

import numpy

# U+202A..U+202E and U+2066..U+2069 could turn the text around them; a label is isolated by its own element instead
_TURNING = {*range(0x202A, 0x202F), *range(0x2066, 0x206A), 0x200E, 0x200F, 0x061C}
_NUMBERS = (int, float, numpy.floating)
_SHORT = 60
_ENTITIES = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;"})


class Markup(str):
    """Text that is SVG already."""

    __slots__ = ()


def clean(text: str, keep: str = "") -> str:
    """Text without signs that turn its surroundings and with unprintable ones made visible, but for the signs to keep.

    >>> clean("a\\u202eb\\x00c")
    'ab\\ufffdc'
    """
    text = str(text)
    return text if text.isprintable() else text.translate(_clean_signs(keep))


class _CleanSigns(dict):
    """What each sign is printed as, found when it is first met."""

    def __init__(self, keep: str):
        super().__init__({ord(sign): ord(sign) for sign in keep})

    def __missing__(self, code: int) -> int | None:
        unprintable = unicodedata.category(chr(code)) in ("Cc", "Cs") or code & 0xFFFE == 0xFFFE
        self[code] = None if code in _TURNING else 0xFFFD if unprintable else code
        return self[code]


@lru_cache(maxsize=16)
def _clean_signs(keep: str) -> _CleanSigns:
    return _CleanSigns(keep)


def escape(text: str, keep: str = "") -> str:
    """Text for element content or an attribute in either kind of quotes.

    >>> escape('<rope "A" & co>')
    '&lt;rope &quot;A&quot; &amp; co&gt;'
    """
    text = str(text)
    return _escaped(text) if not keep and len(text) <= _SHORT else clean(text, keep).translate(_ENTITIES)


@lru_cache(maxsize=4096)
def _escaped(text: str) -> str:
    """The same, kept for the short texts that a drawing repeats hundreds of times."""
    return clean(text).translate(_ENTITIES)


def runs_leftwards(text: str) -> bool:
    """Whether the first letter with a direction is one of a script written from right to left."""
    directions = (unicodedata.bidirectional(sign) for sign in text)
    return next((d in ("R", "AL") for d in directions if d in ("L", "R", "AL")), False)


def number(value: float) -> str:
    """A coordinate to a hundredth of a pixel.

    >>> number(1.5), number(-0.001), number(12.3456)
    ('1.5', '0', '12.35')
    """
    told = f"{float(value):.2f}"
    told = told[:-3] if told.endswith(".00") else told[:-1] if told.endswith("0") else told
    return "0" if told == "-0" else told


@lru_cache(maxsize=256)
def _attribute(key: str) -> str:
    return key.rstrip("_").replace("_", "-")


def element(tag: str, *children: str, **attributes) -> Markup:
    """One element; `class_` and `data_part` stand for class and data-part, attributes that are None are left out.

    >>> element("g", "a < b", class_="name", data_part=None)
    '<g class="name">a &lt; b</g>'
    """
    told = []
    for key, value in attributes.items():
        if value is None:
            continue
        shown = number(value) if isinstance(value, _NUMBERS) else escape(value)
        told.append(f' {_attribute(key)}="{shown}"')
    inside = "".join(child if isinstance(child, Markup) else escape(child) for child in children)
    return Markup(f"<{tag}{''.join(told)}>{inside}</{tag}>" if inside else f"<{tag}{''.join(told)}/>")


def group(part: str, name: str, children: Iterable[Markup], *, before: str = "", **attributes) -> Markup:
    """The marks of one part, under its id, with its name as a tooltip."""
    inside = [element("title", name), *children]
    return element("g", *inside, id=f"{before}{part}:{name}", data_part=part, data_name=name, **attributes)


def points(places: numpy.ndarray) -> str:
    return " ".join(f"{number(x)},{number(y)}" for x, y in numpy.asarray(places).tolist())


def moved(place, right: float, down: float) -> numpy.ndarray:
    return numpy.asarray(place, dtype=float) + numpy.array([right, down])


def line(start, end, **attributes) -> Markup:
    return element("line", x1=start[0], y1=start[1], x2=end[0], y2=end[1], **attributes)


def circle(centre, radius: float, **attributes) -> Markup:
    return element("circle", cx=centre[0], cy=centre[1], r=radius, **attributes)


def polygon(places: numpy.ndarray, **attributes) -> Markup:
    return element("polygon", points=points(places), **attributes)


def text(words: str, place, *, angle_deg: float = 0.0, leans: int = 0, **attributes) -> Markup:
    """One line of text: about a place, or to its right (leans -1) or left (leans 1), whichever way it is written."""
    turned = f"rotate({number(angle_deg)} {number(place[0])} {number(place[1])})" if angle_deg else None
    leftwards = runs_leftwards(words)
    anchor = {0: None, -1: "end" if leftwards else "start", 1: "start" if leftwards else "end"}[leans]
    return element(
        "text", words, x=place[0], y=place[1], transform=turned, direction="rtl" if leftwards else None, text_anchor=anchor, **attributes
    )
