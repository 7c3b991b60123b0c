"""The example rigs: scenes of our own with complete numbers, one rig file each in the folder `examples` beside this module."""

from __future__ import annotations

import difflib
from functools import cache
from pathlib import Path

from rigcheck.errors import RigFileError
from rigcheck.rig import files
from rigcheck.rig.model import Rig

FOLDER = Path(__file__).with_name("examples")
ENDING = ".rig.json"


def names() -> tuple[str, ...]:
    """The names of the examples, in alphabetical order.

    >>> "loft-lift" in names()
    True
    """
    return tuple(sorted(path.name.removesuffix(ENDING) for path in FOLDER.glob(f"*{ENDING}")))


@cache
def example(name: str) -> Rig:
    """An example rig by its name; RigFileError with the nearest name if there is none.

    >>> example("loft-lift").load.mass.text
    '200 kg ± 5 kg'
    """
    if name not in names():
        near = difflib.get_close_matches(name, names(), 1)
        meant = f'Perhaps "{near[0]}" is meant. ' if near else ""
        raise RigFileError(f'there is no example "{name[:60]}"', where="examples", right=f"{meant}There are: {', '.join(names())}.")
    return files.load(FOLDER / f"{name}{ENDING}")


def about(name: str) -> str:
    """What an example shows, in a few sentences; RigFileError if there is none of that name."""
    return example(name).about
