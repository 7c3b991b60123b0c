"""How wide a typeset line stands on a page, near enough to tell whether a telephone has room for it: widths of signs, in em of the line."""

from __future__ import annotations

import re

TELEPHONE_EM = 20.0
"""What a page 390 pixels wide leaves for a formula, at the size that formulas have there."""

_PIECE = re.compile(r"\\begin\{subarray\}\{l\}|\\end\{subarray\}|\\text(?:backslash|asciicircum) |\\[a-zA-Z]+|\\.|.", re.S)
_LETTER_EM, _BINARY_EM, _SMALL = 0.5, 1.2, 0.7
_BINARY = ("+", "-", "=", r"\cdot")
_NOTHING = (r"\left", r"\right", r"\displaystyle", "&", " ")


def width_em(latex: str) -> float:
    """The width of a line without its breaks; a fraction is as wide as the wider of what stands over and under its bar.

    >>> width_em("a + b"), width_em(r"\\frac{a + b}{c}") > width_em(r"\\frac{a}{b}"), round(width_em(r"T_{\\text{hoist rope}}"), 2)
    (2.2, True, 3.76)
    """
    return _row(_PIECE.findall(latex), "")


def _row(pieces: list[str], end: str) -> float:
    """The width of what stands before the end, which is taken off with it; of several rows the widest counts."""
    widest = width = 0.0
    while pieces:
        piece = pieces.pop(0)
        if piece == end:
            break
        if piece == r"\\":
            widest, width = max(widest, width), 0.0
        elif piece == r"\frac":
            width += max(_group(pieces), _group(pieces)) + 0.24
        elif piece == r"\sqrt":
            width += _group(pieces) + 0.9
        elif piece in (r"\text", r"\operatorname"):
            width += _text(pieces)
        elif piece in ("_", "^"):
            width += _SMALL * _group(pieces)
        elif piece == "{":
            pieces.insert(0, piece)
            width += _group(pieces)
        elif piece == r"\begin{subarray}{l}":
            width += _row(pieces, r"\end{subarray}")
        elif piece not in _NOTHING:
            width += _BINARY_EM if piece in _BINARY else 0.17 if piece == r"\," else _LETTER_EM
    return max(widest, width)


def _group(pieces: list[str]) -> float:
    if not pieces or pieces[0] != "{":
        return _LETTER_EM
    del pieces[0]
    return _row(pieces, "}")


def _text(pieces: list[str]) -> float:
    """Words up to the bracket that closes them, every sign counted, spaces too."""
    del pieces[0]
    width, deep = 0.0, 1
    while pieces:
        piece = pieces.pop(0)
        deep += (piece == "{") - (piece == "}")
        if not deep:
            break
        width += 0.33 if piece in " ,.ilj()[]" else 0.78 if piece in "mwMW" else _LETTER_EM
    return width
