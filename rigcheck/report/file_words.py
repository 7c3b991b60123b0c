"""Places in a rig file, as sources and notes name them ("drive, gears, 2, friction"), in the words of the forms ("gear stage 2: friction")."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from pydantic import BaseModel

from rigcheck.report import source_words
from rigcheck.report.path_words import Path, in_words
from rigcheck.rig import faults
from rigcheck.rig.model import Rig

_ROWS = source_words.RULES | {"worm_efficiency_backwards": "efficiency of the worm backwards"}
"""Names of rows and rules of the tables, as people would say them."""


def plain_words(rig: Rig) -> Callable[[str], str]:
    """What turns the places of this rig's file into the words of its forms, wherever they stand in a text.

    >>> from rigcheck.rig import examples
    >>> say = plain_words(examples.example("kiln-shell"))
    >>> say("weighed; bodies, shell, mass"), say("drive, gears, 2, friction lowest: guess"), say("limits, taut_margin")
    ('weighed; shell: mass', 'gear stage 2: friction in the worm, lowest: guess', 'limits: pull to be left in the hoist rope')
    """
    told = {words: in_words(path) for path in _paths(rig) for words in _written(path)} | _ROWS
    every = "|".join(re.escape(phrase) for phrase in sorted(told, key=len, reverse=True))
    phrases = re.compile(rf"(?<![\w-])(?:{every})(?![\w-])")
    return lambda text: phrases.sub(lambda found: told[found[0]], source_words.tables_in_words(text))


def _written(path: Path) -> Iterator[str]:
    """The ways in which sources, notes and messages write a path."""
    yield faults.words(path)
    plain = ", ".join(str(step + 1) if isinstance(step, int) else step for step in path)
    yield plain
    *front, last = path
    if isinstance(last, str):
        yield ", ".join([*(str(step + 1) if isinstance(step, int) else step for step in front), last.replace("_", " ")])


def _paths(part: BaseModel, before: Path = ()) -> Iterator[Path]:
    """The paths of all fields below the parts of a rig, two steps long at least: a single word may mean anything."""
    for name in type(part).model_fields:
        inner, path = getattr(part, name), (*before, name)
        if before and name not in ("notes", "format"):
            yield path
        children = inner.items() if isinstance(inner, dict) else enumerate(inner) if isinstance(inner, tuple) else [(None, inner)]
        for key, child in children:
            if isinstance(child, BaseModel):
                here = path if key is None else (*path, key)
                if key is not None:
                    yield here
                yield from _paths(child, here)
