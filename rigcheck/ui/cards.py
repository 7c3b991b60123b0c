"""What stands on the cards of the gallery; made once in a process, without anything of the pages, so that it can be made before they are up."""

from __future__ import annotations

from functools import cache

from rigcheck.checks.assessment import assess
from rigcheck.report.thumbnail import thumbnail
from rigcheck.rig import examples
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.rig.model import Rig
from rigcheck.statics.travel import follow, heights

ARRANGEMENTS_TITLE, EXAMPLES_TITLE = "Rigged like this, with your numbers", "Scenes that are worked out already"
FIRST_EXAMPLE = "loft-lift"


@cache
def cards() -> list[dict]:
    """Every group with its cards: slug, title, words and small drawing; made once in a process."""
    return [
        {"title": ARRANGEMENTS_TITLE, "kind": "arrangement",
         "cards": [{"slug": slug, "title": each.title, "about": each.about, "svg": _small(each.make(each.defaults()))} for slug, each in ARRANGEMENTS.items()]},
        {"title": EXAMPLES_TITLE, "kind": "example",
         "cards": [{"slug": name, "title": examples.example(name).name, "about": examples.about(name), "svg": _small(examples.example(name))} for name in examples.names()]},
    ]  # fmt: skip


def _small(rig: Rig) -> str:
    return thumbnail(follow(rig, heights(rig, 2)))


def make_ready() -> None:
    """Make the cards and work out the example that a session begins with, so that the first visitor need not wait for it."""
    cards()
    assess(examples.example(FIRST_EXAMPLE))
