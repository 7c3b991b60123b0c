"""What the answer does not cover, where its factors come from, and how its numbers are confirmed."""

from __future__ import annotations

import streamlit

from rigcheck import units
from rigcheck.checks.assessment import Assessment
from rigcheck.parts import basis
from rigcheck.report import contents, file_words
from rigcheck.report.words_explained import WORDS_EXPLAINED
from rigcheck.ui import tables
from rigcheck.ui.plain_text import escaped, in_html
from rigcheck.working import LOOKED_UP

_CONFIRMED = (
    "Every formula is written once. The number, the formula line and its numbers line all come from that one expression.",
    "The balance of forces is solved twice at every run, once as formulas and once in plain numbers along the whole travel; a difference is an error, and nothing is shown.",
    "The work of the drive is compared with the rise of all weights, which uses the motion and not the balance of forces.",
    "Formulas carry a worked example each, checked by the tests; published examples are checked in the units and to the digits in which they were printed.",
    "A formula is never used beyond the range its source gives: the check then says cannot tell.",
    "A value recalled from memory alone never decides a limit.",
)


def cautions() -> None:
    streamlit.markdown("#### How to use the answer\n" + "\n".join(f"- {line}" for line in contents.CAUTIONS))


def not_checked(assessment: Assessment) -> None:
    """What was left out for this rig."""
    plain = file_words.plain_words(assessment.rig)
    streamlit.markdown("#### Not checked for this rig\n" + "\n".join(f"- {escaped(plain(line))}" for line in assessment.not_checked))


def not_checked_folded(assessment: Assessment) -> str:
    """The same, folded, to stand below the verdicts, as HTML."""
    plain = file_words.plain_words(assessment.rig)
    lines = "".join(f"<li>{in_html(plain(line))}</li>" for line in assessment.not_checked)
    return f"<details><summary>Not checked for this rig: {len(assessment.not_checked)} things</summary><ul>{lines}</ul></details>"


def assumed(assessment: Assessment) -> None:
    """What the answer rests on that nobody measured."""
    told = [
        *map(file_words.plain_words(assessment.rig), assessment.guesses),
        *(f"bearing of sheave {name}: not stated, taken as a plain bush" for name in assessment.solution.assumed_bearings),
    ]
    if told:
        streamlit.markdown("#### Guessed or assumed in this rig\n" + "\n".join(f"- {escaped(line)}" for line in told))


def bases() -> None:
    """The published sets of required factors to choose from."""
    streamlit.markdown("#### Required factors to choose from")
    streamlit.caption(
        "None asked: the source asks for no factor, which is never a permission. Which set binds you is for your local rules to say. Change it under Change parts."
    )
    streamlit.html(tables.table(_HEADS, [_row(each) for each in basis.bases()], numbers=(1, 2, 3), name="Required factors"))


_HEADS = ("basis", "steel rope", "fibre rope", "chain", "what is inside the factor, and source")


def _row(each: basis.Basis) -> tuple[str, ...]:
    numbers = (units.number(f, 4, "up") if f is not None else "none asked" for f in (each.steel_rope, each.fibre_rope, each.chain))
    return in_html(each.title), *numbers, f'{in_html(each.covers)} <span class="rc-small">{in_html(each.source)}</span>'


def words() -> None:
    """What words of the trade and of the working mean here."""
    streamlit.markdown("#### Words")
    streamlit.html(
        tables.table(("word", "what it means here"), [tuple(map(in_html, each)) for each in WORDS_EXPLAINED], name="Words", css="rc-plain")
    )


def confirmed() -> None:
    streamlit.markdown("#### How the numbers are confirmed\n" + "\n".join(f"- {line}" for line in _CONFIRMED))


def sources(assessment: Assessment) -> None:
    """Every source this rig's answer draws on, with what was taken from it."""
    found: dict[str, list[str]] = {}
    for line in assessment.solution.working.lines:
        if line.source and (line.kind == LOOKED_UP or line.formula is not None):
            found.setdefault(line.source, [])
            if line.sign.meaning not in found[line.source]:
                found[line.source].append(line.sign.meaning)
    only_judged: dict[str, list[str]] = {}  # nothing was taken from these but what a check asks
    for check in assessment.checks:
        if check.source and check.source not in found:
            only_judged.setdefault(check.source, []).append(f"{check.item}, {check.what}")
    found |= {source: [f"what is asked of {told[0]}", *told[1:]] for source, told in only_judged.items()}
    plain = file_words.plain_words(assessment.rig)
    rows = [(in_html(plain(source)), in_html(_some(what))) for source, what in found.items()]
    streamlit.markdown("#### Sources of this rig's answer")
    streamlit.html(tables.table(("source", "what was taken from it"), rows, name="Sources", css="rc-plain"))


def _some(what: list[str]) -> str:
    return "; ".join(what[:3]) + (f"; and {len(what) - 3} more" if len(what) > 3 else "")
