"""The text of a rig file as plain JSON data, with what JSON allows and a rig file does not refused at its place."""

from __future__ import annotations

import json
import math
from collections import Counter

from rigcheck.errors import RigFileError
from rigcheck.rig import faults

LARGEST_BYTES = 1_000_000
DEEPEST = 20


def fault(name: str, wrong: str, right: str, path: tuple[str | int, ...] = ()) -> RigFileError:
    said = faults.words(path)
    return RigFileError(wrong, where=faults.cut(name, 100) + (f", {said}" if said else ""), right=right)


def too_large(name: str, size: int) -> RigFileError:
    return fault(
        name,
        f"the file has {size:,} bytes".replace(",", " "),
        "A rig file has at most 1 MB; a real one has a few kB. Is it the right file?",
    )


def decoded(text: str | bytes, name: str) -> str:
    size = len(text.encode("utf-8", "surrogatepass")) if isinstance(text, str) else len(text)
    if size > LARGEST_BYTES:
        raise too_large(name, size)
    if isinstance(text, bytes | bytearray):
        try:
            text = bytes(text).decode("utf-8")
        except UnicodeDecodeError as problem:
            right = "Save it as UTF-8 text; if it is not a text file at all, choose another."
            raise fault(name, f"the file is not UTF-8 text: byte {problem.start + 1} cannot be read", right) from None
    text = text.removeprefix("\ufeff")
    if not text.strip():
        raise fault(name, "the file is empty", 'A rig file begins with {"format": 1, "name": ...')
    return text


class _Refused:
    """Stands in the parsed data where something cannot be used, until its place in the file is known."""

    def __init__(self, wrong: str, right: str):
        self.wrong = wrong
        self.right = right


def _whole(digits: str):
    return _long_number(digits) if len(digits) > 20 else int(digits)


def _decimal(digits: str):
    if len(digits) > 40:
        return _long_number(digits)
    value = float(digits)
    return value if math.isfinite(value) else _Refused(f"the number {digits} is beyond all bounds", "Write a number of ordinary size.")


def _long_number(digits: str) -> _Refused:
    return _Refused(f"the number {digits[:12]}… has {len(digits)} characters", "Write a number of ordinary size.")


def _no_number(word: str) -> _Refused:
    return _Refused(f"{word} is not a number a rig can use", "Write a number, or leave the key out if it is not known.")


def _object(pairs: list[tuple[str, object]]):
    seen = dict(pairs)
    if len(seen) == len(pairs):
        return seen
    counted = Counter(key for key, _ in pairs)
    twice = next(key for key in seen if counted[key] > 1)
    return _Refused(
        f'the key "{faults.cut(twice, 60)}" stands here more than once',
        "Keep the one that is meant, or give the others names of their own.",
    )


def parsed(text: str, name: str) -> dict:
    try:
        data = json.loads(text, parse_int=_whole, parse_float=_decimal, parse_constant=_no_number, object_pairs_hook=_object)
    except json.JSONDecodeError as problem:
        where = f"{faults.cut(name, 100)}, line {problem.lineno}, column {problem.colno}"
        right = "In JSON, texts stand in double quotes, entries are parted by commas, and no comma follows the last."
        raise RigFileError(f"the file is not JSON: {_slip(problem.msg)}", where=where, right=right) from None
    except RecursionError:
        raise _too_deep(name) from None
    _check_whole(data, name)
    if not isinstance(data, dict):
        wrong = f"the file holds {faults.shown(data)}, not a rig"
        raise fault(name, wrong, 'A rig file is one object in braces and begins with {"format": 1, "name": ...')
    return data


_SLIPS = {
    "Expecting property name": "a key in double quotes is due",
    "Illegal trailing comma": "a comma stands before the end",
    "Expecting ','": "a comma or the end is due",
    "Expecting ':'": "a colon is due",
    "Expecting value": "a value is due",
    "Extra data": "something follows after its end",
    "Unterminated string": "a text that begins here has no closing quote",
    "Invalid control": "a text holds a line break or an invisible character",
    "Invalid \\": "a backslash is followed by what cannot follow it",
}


def _slip(message: str) -> str:
    return next((ours for start, ours in _SLIPS.items() if message.startswith(start)), "it cannot be read from here on")


def _too_deep(name: str) -> RigFileError:
    return fault(
        name, f"lists and braces stand more than {DEEPEST} deep in one another", "A rig file needs fewer than ten. Is it the right file?"
    )


def _check_whole(data, name: str) -> None:
    """Find, in the order of the file, what JSON allows and a rig file does not."""
    waiting: list[tuple[tuple[str | int, ...], object]] = [((), data)]
    while waiting:
        path, value = waiting.pop()
        if len(path) > DEEPEST:
            raise _too_deep(name)
        if isinstance(value, _Refused):
            raise fault(name, value.wrong, value.right, path)
        if isinstance(value, str):
            _check_text(value, name, path)
        elif isinstance(value, dict):
            for key in value:
                _check_text(key, name, path)
            waiting += reversed([((*path, key), inner) for key, inner in value.items()])
        elif isinstance(value, list):
            waiting += reversed([((*path, index), inner) for index, inner in enumerate(value)])


def _check_text(text: str, name: str, path: tuple[str | int, ...]) -> None:
    bad = next((c for c in text if (c < " " and c not in "\n\t") or c == "\x7f" or "\ud800" <= c <= "\udfff"), None)
    if bad is not None:
        wrong = f'the text "{faults.cut(text, 60)}" holds a character that cannot be shown (U+{ord(bad):04X})'
        raise fault(name, wrong, "Take it out, or type the text anew.", path)
