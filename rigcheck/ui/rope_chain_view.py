"""The chain of a rope as a picture: a piece of rope that grows shorter with every link, and beside it the pull laid end to end, on one scale.

How often the pull goes into what is left is the factor; a thick mark stands where the required number of pulls ends.
"""

from __future__ import annotations

import math

import streamlit

from rigcheck import units
from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import CANNOT_TELL
from rigcheck.report import contents
from rigcheck.ui import next_steps, session, tables
from rigcheck.ui.in_sight import PARTS_PAGE
from rigcheck.ui.plain_text import escaped, in_html
from rigcheck.ui.pulls_view import as_it_hangs
from rigcheck.ui.rope_chain import Branch, Chain, Step, chain
from rigcheck.ui.verdict_words import MARKS

MOST_TICKS = 40
_SHEET = """
<style>
.rc-chain { max-width: 60rem; }
.rc-chain p { margin: .1rem 0; line-height: 1.4; overflow-wrap: anywhere; }
.rc-chain section { border-top: 1px solid color-mix(in srgb, currentColor 35%, transparent); margin-top: .9rem; padding-top: .5rem; }
.rc-chain h4 { font-size: 1rem; font-weight: 600; margin: 0 0 .2rem; padding: 0; }
.rc-chain b { font-variant-numeric: tabular-nums; }
.rc-length { display: flex; height: .85rem; margin: .25rem 0 .1rem; }
.rc-length .rc-left, .rc-length .rc-gone { box-sizing: border-box; height: 100%; }
.rc-left { border: 1.5px solid currentColor; border-radius: 2px;
  background: repeating-linear-gradient(112deg, currentColor 0 1.2px, transparent 1.2px 7px); }
.rc-gone { border: 1px dashed currentColor; border-left: 0; opacity: .75; }
.rc-tape { position: relative; height: 1.15rem; margin: 0 0 .15rem; }
.rc-tape .rc-line { position: absolute; left: 0; top: 0; border-top: 1.5px solid currentColor; }
.rc-tape .rc-tick { position: absolute; top: 0; height: .5rem; border-left: 1.2px solid currentColor; }
.rc-tape .rc-asked { position: absolute; top: -.2rem; height: 1.3rem; border-left: 4px solid currentColor; margin-left: -2px; }
</style>
"""


def show(assessment: Assessment, name: str) -> None:
    """The picture, and the same as a table."""
    found = chain(assessment, name)
    streamlit.html(_SHEET)
    streamlit.html(picture(found))
    _to_find_out(assessment, name)
    streamlit.markdown("##### The same as a table")
    streamlit.html(table(found))


def _to_find_out(assessment: Assessment, name: str) -> None:
    """The fields of the rope that its chain waits for, each with the way there."""
    for step in next_steps.steps(assessment):
        if (
            step.check.verdict == CANNOT_TELL
            and step.check.part == ("rope", name)
            and streamlit.button(escaped(step.words), key=f"find {step.path}")
        ):
            session.open_part(step.path)
            streamlit.switch_page(PARTS_PAGE)


def scale_n(found: Chain) -> float:
    """The force that the whole width stands for."""
    forces = [step.left_n for step in (found.force, found.condition) if step is not None and step.left_n]
    asked = [branch.check.required * branch.counted_n for branch in found.branches if branch.counted_n and branch.check.required]
    return max([*forces, *asked], default=1.0)


def picture(found: Chain) -> str:
    """The picture as HTML; every length is to scale, and every number stands in words beside it."""
    scale = scale_n(found)
    trunk = _trunk(found, scale)
    places = "".join(_place(branch, found, scale) for branch in found.branches)
    asked = any(branch.counted_n and branch.check.required for branch in found.branches)
    legend = (
        "All lengths are forces on one scale: the hatched piece is what the rope still bears, dashed is what a link took. "
        "Below it the pull is laid end to end, a tick at the end of each; the thick mark stands where the required number of pulls ends."
        if asked
        else "All lengths are forces on one scale."
    )
    return f'<div class="rc-chain"><p class="rc-small">{legend}</p>{trunk}{places}</div>'


def _trunk(found: Chain, scale: float) -> str:
    if found.force is None:
        start = f"<p>{in_html(_begun(found.rope))}, breaking force: <b>{CANNOT_TELL}</b></p>"
    else:
        start = f"<p>{in_html(_begun(found.rope))}, {found.force.what}: <b>{found.force.number}</b></p>{_length(found.force.left_n, None, scale)}{_small(found.force.source)}"
    if found.condition is None:
        return f"{start}<p>× condition of the rope: <b>{CANNOT_TELL}</b></p>"
    left = found.condition.left_n
    told = (
        f"<p>× {found.condition.number} {in_html(found.condition.what)}"
        + (f" leaves <b>{_force(left)}</b>" if left is not None else "")
        + "</p>"
    )
    before = found.force.left_n if found.force else None
    bar = _length(left, before, scale) if left is not None and left != before else ""
    return f"{start}{told}{bar}{_small(found.condition.source)}"


def _place(branch: Branch, found: Chain, scale: float) -> str:
    check = branch.check
    governs = ", which governs" if branch.governs else ""
    head = f'<h4>{in_html(_begun(check.what))}{governs} · <span class="rc-mark" aria-hidden="true">{MARKS[check.verdict]}</span> {check.verdict}</h4>'
    told = ""
    if branch.share is not None:
        before = found.condition.left_n if found.condition else None
        told = f"<p>× {branch.share.number} {in_html(branch.share.what)} leaves <b>{_force(branch.share.left_n)}</b></p>"
        told += _length(branch.share.left_n, before, scale)
    tape = _tape(branch, scale) if branch.counted_n else ""
    source = _small(branch.share.source) if branch.share else ""
    why = f"<p>{in_html(check.reason)}</p>" if check.verdict == CANNOT_TELL and check.reason else ""
    return f"<section>{head}{told}{tape}<p>{_pull_words(branch)}</p>{source}{why}</section>"


def _pull_words(branch: Branch) -> str:
    if branch.counted_n is None:
        return f"Pull here: {CANNOT_TELL}."
    told = contents.shown(branch.check)
    hangs = as_it_hangs(branch.pull_n)
    words = f"Greatest pull here <b>{contents.newtons(branch.pull_n)}</b>{hangs and f' ({hangs})'}"
    words += f" × dynamic factor {units.number(branch.dynamic, 4)} = <b>{told.demand}</b> counted."
    if branch.check.factor_value is not None:
        words += f" It goes <b>{told.factor}</b> times into what the rope bears here: that is the factor."
    return words + (f" Required are <b>{told.required}</b> times." if told.required else " The basis asks no factor of such a rope.")


def _length(left_n: float, before_n: float | None, scale: float) -> str:
    gone = f'<span class="rc-gone" style="width:{_wide(before_n - left_n, scale)}"></span>' if before_n and before_n > left_n else ""
    return f'<div class="rc-length" aria-hidden="true"><span class="rc-left" style="width:{_wide(left_n, scale)}"></span>{gone}</div>'


def _tape(branch: Branch, scale: float) -> str:
    """The pull counted, laid end to end along the whole scale."""
    many = int(scale / branch.counted_n * (1 + 1e-9))
    step = next((each * 10**power for power in range(12) for each in (1, 2, 5) if many / (each * 10**power) <= MOST_TICKS), many)
    ticks = "".join(f'<span class="rc-tick" style="left:{_wide(k * branch.counted_n, scale)}"></span>' for k in range(0, many + 1, step))
    end = f'<span class="rc-line" style="width:{_wide(many * branch.counted_n, scale)}"></span>'
    asked = branch.check.required
    mark = f'<span class="rc-asked" style="left:{_wide(asked * branch.counted_n, scale)}"></span>' if asked else ""
    every = f'<p class="rc-small">A tick for every {step} pulls.</p>' if step > 1 else ""
    return f'<div class="rc-tape" aria-hidden="true">{end}{ticks}{mark}</div>{every}'


def _wide(force_n: float, scale: float) -> str:
    return f"{100 * min(max(force_n / scale, 0.0), 1.0):.3f}%"


def table(found: Chain) -> str:
    """The same in rows, one for each place."""
    heads = ("place", "breaking force", "condition", "end or bend", "strength there", "greatest pull", "dynamic factor", "pull counted", "factor", "required", "verdict")  # fmt: skip
    return tables.table(
        heads, [_row(branch, found) for branch in found.branches], numbers=range(1, 10), name="Strength of the rope at each place"
    )


def _row(branch: Branch, found: Chain) -> tuple[str, ...]:
    told = contents.shown(branch.check)
    cells = (
        _number_of(found.force),
        _number_of(found.condition),
        _number_of(branch.share),
        told.capacity or CANNOT_TELL,
        CANNOT_TELL if branch.pull_n is None else contents.newtons(branch.pull_n),
        CANNOT_TELL if branch.dynamic is None else units.number(branch.dynamic, 4),
        told.demand or CANNOT_TELL,
        told.factor or CANNOT_TELL,
        told.required or "none",
    )
    governs = " (governs)" if branch.governs else ""
    mark = f'<span class="rc-mark" aria-hidden="true">{MARKS[branch.check.verdict]}</span> {branch.check.verdict}'
    return (in_html(branch.check.what) + governs, *map(in_html, cells), mark)


def _number_of(step: Step | None) -> str:
    return CANNOT_TELL if step is None else step.number


def _force(force_n: float) -> str:
    return CANNOT_TELL if math.isnan(force_n) else units.show(force_n, "kN", 4, "down")


def _small(text: str) -> str:
    return f'<p class="rc-small">{in_html(text)}</p>' if text else ""


def _begun(words: str) -> str:
    return words[:1].upper() + words[1:]
