"""What the answer does not cover, where its factors come from, and how its numbers are confirmed."""

from __future__ import annotations

import streamlit

from rigcheck import units
from rigcheck.checks.assessment import Assessment
from rigcheck.parts import basis
from rigcheck.report import contents
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
    streamlit.markdown("#### Not checked for this rig\n" + "\n".join(f"- {escaped(line)}" for line in assessment.not_checked))


def not_checked_folded(assessment: Assessment) -> str:
    """The same, folded, to stand below the verdicts, as HTML."""
    lines = "".join(f"<li>{in_html(line)}</li>" for line in assessment.not_checked)
    return f"<details><summary>Not checked for this rig: {len(assessment.not_checked)} things</summary><ul>{lines}</ul></details>"


def assumed(assessment: Assessment) -> None:
    """What the answer rests on that nobody measured."""
    told = [
        *assessment.guesses,
        *(f"bearing of sheave {name}: not stated, taken as a plain bush" for name in assessment.solution.assumed_bearings),
    ]
    if told:
        streamlit.markdown("#### Guessed or assumed in this rig\n" + "\n".join(f"- {escaped(line)}" for line in told))


def bases() -> None:
    """The published sets of required factors to choose from."""
    streamlit.markdown("#### Required factors to choose from")
    streamlit.caption(
        "A blank is a factor the source does not ask for, never a permission. Which set binds you is for your local rules to say. Change it under Change parts."
    )
    head = "".join(f'<th scope="col"{css}>{words}</th>' for words, css in _HEAD)
    rows = "".join(_row(each) for each in basis.bases())
    streamlit.html(
        f'<div class="rc-scroll" tabindex="0" role="region" aria-label="Table"><table class="rc-table"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table></div>'
    )


_NUMBER = ' class="rc-number"'
_HEAD = (("basis", ""), ("steel rope", _NUMBER), ("fibre rope", _NUMBER), ("chain", _NUMBER), ("what is inside the factor, and source", ""))


def _row(each: basis.Basis) -> str:
    numbers = "".join(
        f'<td class="rc-number">{units.number(f, 4, "up") if f is not None else ""}</td>'
        for f in (each.steel_rope, each.fibre_rope, each.chain)
    )
    return f'<tr><th scope="row">{in_html(each.title)}</th>{numbers}<td>{in_html(each.covers)} <span class="rc-small">{in_html(each.source)}</span></td></tr>'


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
    for check in assessment.checks:
        if check.source:
            found.setdefault(check.source, [])
    rows = "".join(f"<tr><td>{in_html(source)}</td><td>{in_html(_some(what))}</td></tr>" for source, what in found.items())
    streamlit.markdown("#### Sources of this rig's answer")
    head = '<thead><tr><th scope="col">source</th><th scope="col">what was taken from it</th></tr></thead>'
    streamlit.html(
        f'<div class="rc-scroll" tabindex="0" role="region" aria-label="Table"><table class="rc-table">{head}<tbody>{rows}</tbody></table></div>'
    )


def _some(what: list[str]) -> str:
    return "; ".join(what[:3]) + (f"; and {len(what) - 3} more" if len(what) > 3 else "") if what else "a required value of a check"
