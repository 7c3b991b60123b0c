"""The assessment of a rig, kept by the text of its rig file; and which verdicts turned from one rig to the next."""

from __future__ import annotations

from dataclasses import dataclass

import streamlit

from rigcheck import units
from rigcheck.checks.assessment import Assessment, assess
from rigcheck.checks.check import Check
from rigcheck.errors import RigcheckError
from rigcheck.rig import files


@dataclass(frozen=True)
class Answer:
    """An assessment, or the fault that stands in its way."""

    assessment: Assessment | None
    fault: RigcheckError | None


@streamlit.cache_resource(max_entries=32, show_spinner="Working it out …")
def answer(text: str, system: str) -> Answer:
    """Assess the rig of a rig file's text, its sentences in one system of units; nobody changes what is returned."""
    with units.shown_in(system):
        try:
            return Answer(assess(files.loads(text)), None)
        except RigcheckError as fault:
            return Answer(None, fault)


@dataclass(frozen=True)
class Turn:
    """A check whose verdict is another one than before; None where there was, or is, no such check."""

    before: Check | None
    after: Check | None


def turned(before: Assessment, after: Assessment) -> list[Turn]:
    """The checks whose verdict turned, came or went."""
    old, new = ({check.id: check for check in each.checks} for each in (before, after))
    pairs = [Turn(old.get(id), new.get(id)) for id in {**old, **new}]
    return [turn for turn in pairs if turn.before is None or turn.after is None or turn.before.verdict != turn.after.verdict]
