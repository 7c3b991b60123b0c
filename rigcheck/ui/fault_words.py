"""Faults in the words of the form: the model tells them in those of the rig file, where keys, quotes and braces are what one sees."""

from __future__ import annotations

import re

from rigcheck.errors import RigcheckError
from rigcheck.report.path_words import in_words
from rigcheck.rig.faults import Fault

NOT_KNOWN = "not known yet, and nothing can be worked out without it"

_TOLD: tuple[tuple[str, str], ...] = (
    (r'Give exactly one body "role": "load"\.', "Under Load and bodies, say of exactly one body that it is the load."),
    (r'Wind it on the drum, or make the drive a "hand line"\.', "Wind it on the drum, or change the drive to a hand line."),
    (r'End the hoist rope with \{"wound_on".*', "Under Ropes and ends, let the hoist rope end on the drum."),
    (r'Make the drive a "winch" with its drum\.', "Change the drive to a winch, or let the rope end at a hand."),
    (r'End exactly one rope with \{"pulled_by_hand_at".*', "Under Ropes and ends, let exactly one rope end at a hand."),
    (r'Leave "pick" out\.', "Leave it at: I don't know."),
    (r'Write "?true"? or "?false"?, without quotes\.', "Choose yes or no."),
    (r"Write a number without unit and without quotes, such as (.*)", r"Write a number without a unit, such as \1"),
    (
        r"Write across, up and, where it matters, depth, such as .*",
        "Write across and up, each with its unit or as a number in the unit of its label; depth, towards you, may stay empty.",
    ),
    (r"Write a direction such as \[0, 1\] for straight up\.", "Write 0 across and 1 up for straight up."),
    (r"Write \[0, 0, 1\] for a sheave seen face on\.", "Write 0, 0 and 1 for a sheave seen face on."),
    (r"Write it such as \[(.*)\]\.", r"Write it such as \1."),
    (r'Add "(?P<key>\w+)": .*', "Fill it in."),
    (r'Add "kind".*', "Choose its kind."),
    (r"Write it in double quotes\.", "Write it as text."),
    (r"Write a list in square brackets.*", "Fill in all of its fields."),
    (r"Write them in braces.*", "Fill in all of its fields."),
    (r"Look up this field in the description of the rig file\.", "Write it as the help of the field says."),
    (r"A stop is one of .*", "A stop is an end made fast, a sheave, the drum or a hand."),
    (r'write it (?:with its unit|as text), such as "(.*)"', r"write it with its unit, such as \1"),
)
_WRONG: tuple[tuple[str, str], ...] = (
    (r'"" is empty', NOT_KNOWN),
    (r"'' is not a name", "it has no name"),
    (r'"\w+" is missing', NOT_KNOWN),
    (r"null is no value", NOT_KNOWN),
    (r"[\[(].* is not a (place|direction)", "across and up are both needed"),
    (r"the list has \d+ entr(y|ies)", "not all of its fields are filled in"),
    (r"'(.*)' is not a (plain number|whole number.*)", r'"\1" is not a \2'),
    (r'"(.*)" is neither true nor false', r"it is neither yes nor no"),
)
_MISSING = re.compile(r'"(\w+)" is missing')


def is_unknown(fault: Fault) -> bool:
    """Whether the fault is no more than that nothing was filled in."""
    return wrong(fault) == NOT_KNOWN


def path_of(fault: Fault) -> tuple[str | int, ...]:
    """The field a fault belongs to: what is missing from a part is the part's own field."""
    missing = _MISSING.fullmatch(fault.wrong)
    return (*fault.path, missing[1]) if missing and fault.path[-1:] != (missing[1],) else fault.path


def where(fault: Fault) -> str:
    """The part and the field as the form names them; "" for what belongs to the rig as a whole."""
    path = path_of(fault)
    return in_words(path) if path else ""


def wrong(fault: Fault) -> str:
    """What is wrong with which value."""
    return _in_words_of_the_form(fault.wrong, _WRONG)


def right(fault: Fault) -> str:
    """What would be right."""
    return _in_words_of_the_form(fault.right, _TOLD)


def told(fault: Fault) -> tuple[str, str, str]:
    """What is wrong, what would be right, and where: as it is told away from the field."""
    return wrong(fault), right(fault), where(fault)


def of_error(fault: RigcheckError) -> tuple[str, str, str]:
    """Where, what is wrong and what would be right, of an error of the engine."""
    return fault.where, fault.wrong, _in_words_of_the_form(fault.right, _TOLD)


def _in_words_of_the_form(text: str, table: tuple[tuple[str, str], ...]) -> str:
    for pattern, words in table:
        if re.fullmatch(pattern, text, re.DOTALL):
            return re.sub(pattern, words, text, count=1, flags=re.DOTALL)
    return text
