"""Verdicts in words, with marks that read the same in black and white; the figures and sentences are those of the report."""

from __future__ import annotations

from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, HOLDS, Check
from rigcheck.report import contents, whole_words

MARKS = {HOLDS: "○", FALLS_SHORT: "▲", CANNOT_TELL: "◇"}
PLURALS = {HOLDS: "hold", FALLS_SHORT: "fall short", CANNOT_TELL: "cannot tell"}


def named(check: Check) -> str:
    return f"{check.item}, {check.what}"


def check_of(assessment: Assessment, id: str | None) -> Check | None:
    return next((check for check in assessment.checks if check.id == id), None)


def sentence(assessment: Assessment) -> str:
    """The verdict on the whole rig in one or two sentences, as the report has it."""
    return whole_words.sentence(assessment)


def rated(assessment: Assessment) -> list[tuple[str, str]]:
    """Rated load and what governs it, as the report has it: without the load that was entered, and without what is no more than a part of it."""
    return [(words, told) for words, told in contents.rated_load(assessment)[1:] if words != contents.ON_WHAT_IS_KNOWN]
