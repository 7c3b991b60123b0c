"""Every other rope of the catalogue with the factor it would give: filters, order, one press to try a rope and one to put the old one back."""

from __future__ import annotations

from dataclasses import replace

import streamlit

from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import HOLDS, Check
from rigcheck.parts import fibre_rope, wire_rope
from rigcheck.parts.end_fitting import end_fittings
from rigcheck.report.contents import shown
from rigcheck.rig.model import Rope
from rigcheck.ui import rope_offers, rope_table, rope_trial, session, trying
from rigcheck.ui.answers import turned
from rigcheck.ui.plain_text import escaped, in_html
from rigcheck.ui.rope_offers import DIAMETER, FACTOR, MASS, Wanted
from rigcheck.ui.session import Standing
from rigcheck.ui.verdict_words import named, rated
from rigcheck.whatif.catalogue_ropes import FIBRE, STEEL, CatalogueRope, catalogue, like_it
from rigcheck.whatif.other_ropes import OtherRopes, TriedRope

EVERY, LEFT_OPEN = "every one", "left open, to be chosen later"
FIRST_ROWS, MORE_ROWS = 30, 60
_SHOWN = "ropes shown"


def show(standing: Standing, name: str) -> None:
    """The section for one rope of the rig."""
    assessment = standing.assessment
    _way_back(standing)
    names = _places(assessment, name)
    rope = assessment.rig.ropes[name]
    wanted, fitting = _asked(rope)
    if not standing.is_current:
        streamlit.caption("These are tried on the last good result; mend what is told above, then a rope can be put in.")
    tried = _tried(session.good_text(), session.system(), names, fitting, wanted.kind, wanted.near_m, assessment)
    found = rope_offers.listed(tried, replace(wanted, only_holding=_only_holding(any(each.verdict == HOLDS for each in tried))))
    _tell_ruled_out(rope_offers.listed(tried, wanted), wanted)
    many = min(session.remembered(_SHOWN, FIRST_ROWS), len(found))
    others = _others(session.good_text(), session.system(), names, fitting, assessment)  # keeps what it worked out
    rows = [rope_offers.row_of_present(assessment, list(names), _present(rope, name))]
    rows += [rope_offers.row(each, others.turns(each.rope), rope_offers.is_the_same(each.rope, rope)) for each in found[:many]]
    ends = "the ends made as they are" if wanted.kind == rope.kind else f"the ends made with: {fitting}" if fitting else "its ends to be chosen, so they cannot be told"  # fmt: skip
    shown = f", the first {many} are shown, sorted by {wanted.by}" if many < len(found) else f", sorted by {wanted.by}" if found else ""
    caption = f"{len(found)} of {len(tried)} ropes{shown}. Each is counted as new, {ends}."
    ropes = {rope_offers.id_of(each.rope): each.rope for each in found[:many]}
    rope_table.show(rows, caption, f"ropes to try {session.opened()}", lambda id: _put_in(standing, ropes.get(id), names, fitting))
    if many < len(found):
        streamlit.button(f"Show {min(MORE_ROWS, len(found) - many)} more", on_click=lambda: session.remember(_SHOWN, many + MORE_ROWS))
    _sources([each.rope for each in found[:many]])


def _tell_ruled_out(picked: list[TriedRope], wanted: Wanted) -> None:
    """What keeps ropes of those picked from holding; where none holds, also what can be picked instead."""
    reasons = rope_offers.ruled_out(picked)
    told = "".join(f"<li>{in_html(reason)}</li>" for reason in reasons)
    if not picked:
        streamlit.html(f"<p>The catalogue has no such rope. {in_html(ways_on(wanted))}</p>")
    elif any(each.verdict == HOLDS for each in picked):
        if reasons:
            streamlit.html(f"<details><summary>What rules out the others</summary><ul>{told}</ul></details>")
    else:
        streamlit.html(f"<p>No rope of these holds, as the rig stands:</p><ul>{told}</ul><p>{in_html(ways_on(wanted))}</p>")


def ways_on(wanted: Wanted) -> str:
    """What can be picked otherwise where no rope holds.

    >>> ways_on(Wanted(STEEL, grade="1770"))
    'Pick every grade or fibre rope above. What is named for every one, mend first.'
    """
    other = (
        ("every size", wanted.near_m is not None),
        ("every construction" if wanted.kind == STEEL else "every material", wanted.make is not None),
        ("every grade", wanted.grade is not None),
        (f"{FIBRE if wanted.kind == STEEL else STEEL} rope", True),
    )
    *front, last = (words for words, is_narrow in other if is_narrow)
    return f"Pick {', '.join(front)}{' or ' * bool(front)}{last} above. What is named for every one, mend first."


def _way_back(standing: Standing) -> None:
    """After a trial: what it turned, and the one press that takes it back."""
    trial = trying.now_on(rope_trial.WHERE)
    if trial is None:
        trying.tell_ended(rope_trial.WHERE)
        return
    with streamlit.container(border=True):
        streamlit.markdown(escaped(trial.words))
        before = session.before()
        if before is not None and standing.is_current:
            streamlit.html(_turned_words(before, standing.assessment))
        streamlit.button("Put the rope back that was there", on_click=session.undo, disabled=not session.can_undo())


def _turned_words(before: Assessment, after: Assessment) -> str:
    loads = [dict(rated(each))["Rated load"] for each in (before, after)]
    told = f"Rated load before: {loads[0]}; now: {loads[1]}." if loads[0] != loads[1] else f"Rated load as before: {loads[1]}."
    turns = "".join(
        f"<li>{in_html(named(turn.after or turn.before))}: {_was(turn.before)} before, {_was(turn.after)} now</li>"
        for turn in turned(before, after)
    )
    words = f"These verdicts turned:<ul>{turns}</ul>" if turns else "No verdict turned. "
    return f"<p>{words}{in_html(told)}</p>"


def _was(check: Check | None) -> str:
    if check is None:
        return "not asked"
    factor = shown(check).factor
    return f"{check.verdict}{f' with factor {factor}' if factor else ''}"


def _places(assessment: Assessment, name: str) -> tuple[str, ...]:
    """The ropes that are changed together: the one picked and, if wanted, those that are the same."""
    alike = like_it(assessment.rig, name)
    if alike and streamlit.toggle(escaped(f"Change the ropes that are the same with it: {', '.join(alike)}"), key=f"alike {session.opened()} {name}",
                                  value=session.remembered("ropes alike", True)):  # fmt: skip
        session.remember("ropes alike", True)
        return (name, *alike)
    if alike:
        session.remember("ropes alike", False)
    return (name,)


def _asked(rope: Rope) -> tuple[Wanted, str | None]:
    """What is picked above the table, and the fitting for the ends where the kind of rope is another."""
    with streamlit.container(horizontal=True, gap="medium", vertical_alignment="bottom"):
        kind = _choice("Kind", [STEEL, FIBRE], rope.kind)
        makes = [each.name for each in wire_rope.constructions()] if kind == STEEL else fibre_rope.fibre_materials()
        label = "Construction" if kind == STEEL else "Material"
        made = _select(label, [EVERY, *makes], EVERY, 190)
        grade = _select("Grade", [EVERY, *(each.name for each in wire_rope.grades())], _grade_of(rope), 150) if kind == STEEL else EVERY
        near, every = "half to twice as thick", "every size"
        size = _choice("Size, against the one in use", [near, every], near)
        by = _choice("Sort by", [DIAMETER, FACTOR, MASS], DIAMETER)
    fitting = (
        LEFT_OPEN
        if kind == rope.kind
        else _select(f"How the ends of a {kind} rope would be made", [LEFT_OPEN, *end_fittings(kind)], LEFT_OPEN, 320)
    )
    wanted = Wanted(
        kind, None if made == EVERY else made, None if grade == EVERY else grade, rope.diameter.value if size == near else None, by=by
    )
    return wanted, None if fitting == LEFT_OPEN else fitting


def _grade_of(rope: Rope) -> str:
    """The grade of the catalogue that the rope has, or every one."""
    return next((each.name for each in wire_rope.grades() if rope.grade is not None and each.strength_pa == rope.grade.value), EVERY)


def _only_holding(otherwise: bool) -> bool:
    """Whether ropes that do not hold are left out; at first they are, if any holds."""
    chosen = streamlit.toggle("Only ropes of which every check of their own holds", value=session.remembered("ropes holding", otherwise),
                              key=f"holding {session.opened()}")  # fmt: skip
    if chosen != session.remembered("ropes holding", otherwise):
        session.remember("ropes holding", chosen)
    return chosen


def _choice(label: str, options: list[str], otherwise: str) -> str:
    now = session.remembered(f"ropes {label}", otherwise)
    chosen = streamlit.segmented_control(label, options, required=True, default=now, key=f"{label} {session.opened()}")
    session.remember(f"ropes {label}", chosen)
    return chosen


def _select(label: str, options: list[str], otherwise: str, width_px: int) -> str:
    now = session.remembered(f"ropes {label}", otherwise)
    chosen = streamlit.selectbox(
        label, options, index=options.index(now) if now in options else 0, key=f"{label} {session.opened()}", width=width_px
    )
    session.remember(f"ropes {label}", chosen)
    return chosen


@streamlit.cache_resource(max_entries=2, show_spinner=False)
def _others(text: str, system: str, names: tuple[str, ...], fitting: str | None, _assessment: Assessment) -> OtherRopes:
    return OtherRopes(_assessment, names, fitting)


@streamlit.cache_resource(max_entries=8, show_spinner="Trying the ropes of the catalogue …")
def _tried(
    text: str, system: str, names: tuple[str, ...], fitting: str | None, kind: str, near_m: float | None, _assessment: Assessment
) -> list[TriedRope]:
    """Every rope of the kind and the sizes, tried on the rig of a rig file's text."""
    candidates = [rope for rope in catalogue(kind) if rope_offers.is_near(rope, near_m)]
    return _others(text, system, names, fitting, _assessment).tried(candidates)


def _put_in(standing: Standing, rope: CatalogueRope | None, names: tuple[str, ...], fitting: str | None) -> None:
    if rope is not None and standing.is_current:
        words = f"Put in for trial, as new: {rope_offers.rope_words(rope)}, in place of {' and '.join(names)}."
        rope_trial.put_in(names, rope, words, fitting)


def _present(rope: Rope, name: str) -> str:
    """The rope of the rig in its own words."""
    make = rope.construction or rope.material or ("construction unknown" if rope.kind == STEEL else "material unknown")
    parts = [str(rope.diameter), make, f"grade {rope.grade.text}" if rope.grade else "", f"breaking force {rope.breaking_force}" if rope.breaking_force else ""]  # fmt: skip
    return f"{name}: {', '.join(part for part in parts if part)}"


def _sources(ropes: list[CatalogueRope]) -> None:
    """What the table rests on."""
    sources = dict.fromkeys(f"{each.source} ({each.mark})" for each in ropes)
    if sources:
        streamlit.caption(
            escaped(
                "A rope put in for trial is new from the shop: no wear is counted, and what was known of the old rope (certificate, condition, modulus) goes. "
                "Length and path stay. Sizes of wire rope: the usual series, common practice, no source. Strength and mass: "
                + "; ".join(sources)
                + "."
            )
        )
