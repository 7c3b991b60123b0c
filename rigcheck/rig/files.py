"""Rig files: JSON text in, a Rig out, and back again; every fault in a file is told with its place and its remedy."""

from __future__ import annotations

import hashlib
import json
import stat
from pathlib import Path

from pydantic import BaseModel, ValidationError

from rigcheck.rig import faults
from rigcheck.rig.faults import Fault
from rigcheck.rig.model import Rig
from rigcheck.rig.parsing import LARGEST_BYTES, decoded, fault, parsed, too_large
from rigcheck.units import Quantity

FORMAT = 1
LINE = 120


def load(path: str | Path) -> Rig:
    """Read a rig file from disk; RigFileError for anything that cannot be used, whatever the reason."""
    path = Path(path)
    name = path.name or str(path)
    try:
        about = path.stat()
        if stat.S_ISDIR(about.st_mode):
            raise fault(name, "this is a folder, not a rig file", "Name a file in it, such as kiln.rig.json.")
        if not stat.S_ISREG(about.st_mode):
            raise fault(name, "this is not a plain file", "Name a file that holds a rig, such as kiln.rig.json.")
        if about.st_size > LARGEST_BYTES:
            raise too_large(name, about.st_size)
        with path.open("rb") as file:
            content = file.read(LARGEST_BYTES + 1)
    except FileNotFoundError:
        raise fault(
            name, "there is no such file", f'Nothing was found at "{faults.cut(str(path), 200)}": check folder and spelling.'
        ) from None
    except PermissionError:
        raise fault(name, "the file may not be read", "Ask for the right to read it, or copy it to a place of your own.") from None
    except (OSError, ValueError) as problem:
        reason = getattr(problem, "strerror", None) or "its path cannot be used"
        raise fault(
            name, f"the file cannot be opened: {reason.lower()}", "Check the path, or copy the file to a place of your own."
        ) from None
    return loads(content, name)


def loads(text: str | bytes, name: str = "rig file") -> Rig:
    """Read a rig from the text of a rig file; `name` stands in messages.

    Errors: RigFileError for the first fault, with where (file and field), wrong (what is wrong with which value) and right (the remedy).
    """
    data = parsed(decoded(text, name), name)
    return read(data, name)


def read(data: dict, name: str) -> Rig:
    """Read a rig from parsed JSON, as `loads` does."""
    _check_format(data, name)
    try:
        return Rig.model_validate(data)
    except ValidationError as problem:
        first, *others = faults.found(problem, data)
    more = f"\n{_count(len(others))} found after this one." if others else ""
    raise fault(name, first.wrong, first.right + more, first.path)


def faults_in(text: str | bytes, name: str = "rig file") -> list[Fault]:
    """Every fault of the rig that a rig file's text states, in the order of the model; none if it can be used.

    RigFileError where the text states no rig at all: no JSON, or another format.
    """
    data = parsed(decoded(text, name), name)
    _check_format(data, name)
    try:
        Rig.model_validate(data)
    except ValidationError as problem:
        return faults.found(problem, data)
    return []


def dumps(rig: Rig) -> str:
    """The text of a rig file: keys in the order of the model, what is left out or at its default not written, a line feed at the end."""
    return _written({"format": FORMAT, **_plain(rig)}, 0) + "\n"


def digest(rig: Rig) -> str:
    """SHA-256 of the rig's file text, in hexadecimal: two rigs with the same digest are the same file."""
    return hashlib.sha256(dumps(rig).encode()).hexdigest()


def _count(faults_left: int) -> str:
    return "One more fault was" if faults_left == 1 else f"{faults_left} more faults were"


def _check_format(data: dict, name: str) -> None:
    if "format" not in data:
        raise fault(name, '"format" is missing', f'Begin the file with "format": {FORMAT}.', ("format",))
    found = data["format"]
    if type(found) is int and found > FORMAT:
        right = f'This rigcheck reads "format": {FORMAT}. Open the file with the newer one, or save it there in the older format.'
        raise fault(name, f"format {found} was made by a newer rigcheck", right, ("format",))
    if type(found) is not int or found != FORMAT:
        raise fault(name, f"{faults.shown(found)} is not a format number that exists", f'Write "format": {FORMAT}.', ("format",))


def _plain(value):
    """A part of a rig as plain JSON data, without what is None or at its default; `kind` is always written: it tells the forms apart."""
    if isinstance(value, Quantity):
        return value.text
    if isinstance(value, BaseModel):
        fields = type(value).model_fields
        plain = {name: _plain(getattr(value, name)) for name in sorted(fields, key="notes".__eq__)}
        return {
            name: field for name, field in plain.items() if field is not None and (name == "kind" or not _is_default(fields[name], field))
        }
    if isinstance(value, dict):
        return {name: _plain(inner) for name, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(inner) for inner in value]
    return int(value) if isinstance(value, float) and value.is_integer() else value


def _is_default(field, plain) -> bool:
    return not field.is_required() and plain == _plain(field.get_default())


def _written(value, indent: int) -> str:
    """JSON with an indent of two; what fits on one line and holds no further braces stays on one line."""
    line = json.dumps(value, ensure_ascii=False)
    if not isinstance(value, dict | list) or not value:
        return line
    inner = list(value.values()) if isinstance(value, dict) else value
    if indent and indent + len(line) <= LINE and not any(isinstance(entry, dict) for entry in inner):
        return line
    margin = " " * (indent + 2)
    if isinstance(value, dict):
        entries = [f"{json.dumps(key, ensure_ascii=False)}: {_written(entry, indent + 2)}" for key, entry in value.items()]
        opening, closing = "{", "}"
    else:
        entries = [_written(entry, indent + 2) for entry in value]
        opening, closing = "[", "]"
    return f"{opening}\n{margin}" + f",\n{margin}".join(entries) + f"\n{' ' * indent}{closing}"
