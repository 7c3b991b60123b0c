"""Another weight of the counterweight to try: the slider, what the rig would say beside what it says now, and the buttons that take it."""

from __future__ import annotations

import math

import streamlit

from rigcheck import units
from rigcheck.checks.assessment import Assessment
from rigcheck.checks.check import CANNOT_TELL, FALLS_SHORT, Check
from rigcheck.ui import session, tables, trying
from rigcheck.ui.answers import turned
from rigcheck.ui.plain_text import escaped, in_html
from rigcheck.ui.session import Standing
from rigcheck.ui.verdict_words import MARKS, PLURALS, named
from rigcheck.whatif import other_counterweight
from rigcheck.whatif.other_counterweight import Limits, TriedCounterweight
from rigcheck.whatif.other_drive import Change

STEPS = 200


def show(standing: Standing, name: str, found: Limits) -> float | None:
    """The slider, what the weight on it would do, and the buttons that take it; the mass in kg that is tried, None for the present one."""
    assessment, rig = standing.assessment, standing.assessment.rig
    unit, present = units.label("kg"), rig.bodies[name].mass.value
    top, step = scale(max(present, rig.load.mass.value, found.runs_away_kg or 0.0), unit)
    now = min(max(round(units.in_shown(present, "kg") / step) * step, step), top)
    value = streamlit.slider(f"Weight to try, in {unit}", step, top, value=now, step=step, format="%g",
                             key=f"weight {name} {session.opened()} {unit} {top}", disabled=not standing.is_current)  # fmt: skip
    tried = None
    if abs(value - units.in_shown(present, "kg")) > step / 2 and standing.is_current:
        tried = _tried(
            session.good_text(), session.system(), other_counterweight.edits(rig, name, units.from_unit(value, unit)), assessment
        )
    streamlit.html(comparison(assessment, tried))
    with streamlit.container(horizontal=True, gap="small"):
        if tried is not None and tried.assessment is not None:
            short = _falls_short(tried.assessment)
            if short is None:
                streamlit.button(
                    escaped(f"Take this weight: {tried.text}"), key="take-weight", on_click=_take, args=(rig, name, tried.text)
                )
            else:
                streamlit.caption(escaped(f"Not offered: with {tried.text} this falls short: {named(short)}."))
        _take_best(standing, name, found)
    if tried is not None:
        streamlit.html(turns_told(assessment, tried))
    return None if tried is None else tried.mass_kg


def _falls_short(assessment: Assessment) -> Check | None:
    """The first check of the counterweight, of a rope staying taut or of the load's tolerance that falls short."""
    of_weight = ("taut.", "counterweight.", "load.tolerance")
    return next((check for check in assessment.checks if check.verdict == FALLS_SHORT and check.id.startswith(of_weight)), None)


def scale(greatest_kg: float, unit: str) -> tuple[float, float]:
    """Where a slider ends and its step, both round in the unit shown.

    >>> scale(140.0, "kg"), scale(3.1, "kg")
    ((150.0, 1.0), (3.4, 0.02))
    """
    most = units.to_unit(greatest_kg, unit) * 1.05
    rough = most / STEPS
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(s * power for s in (1.0, 2.0, 5.0, 10.0) if s * power >= rough)
    return float(f"{math.ceil(most / (step * 10)) * step * 10:.6g}"), float(f"{step:.6g}")


@streamlit.cache_resource(max_entries=64, show_spinner=False)
def _tried(text: str, system: str, changed, _assessment: Assessment) -> TriedCounterweight:
    return other_counterweight.try_counterweight(_assessment.rig, changed)


def _take(rig, name: str, text: str) -> None:
    edits = other_counterweight.edits_to(name, text)
    trying.put_change(Change(text, edits), "weight", f"weight of {name}")


def _take_best(standing: Standing, name: str, found: Limits) -> None:
    """The best weight, rounded down; nothing where there is none or it hangs there already."""
    rig = standing.assessment.rig
    text = "" if found.best_kg is None else other_counterweight.edits(rig, name, found.best_kg, towards="down")[0][1]
    if text and text != rig.bodies[name].mass.text and standing.is_current:
        streamlit.button(escaped(f"Take the best weight: {text}"), key="take-best", on_click=_take, args=(rig, name, text))


def comparison(assessment: Assessment, tried: TriedCounterweight | None) -> str:
    """The rig as it is beside the rig with the weight on the slider, as HTML."""
    columns = [_figures(assessment)]
    if tried is not None and tried.assessment is not None:
        columns.append(_figures(tried.assessment))
    heads = ("counterweight", "now", *([tried.text] if len(columns) > 1 else []))
    rows = [(words, *(column[words] for column in columns)) for words in columns[0]]
    return tables.table(heads, rows, numbers=(1, 2), name="The counterweight now and the one tried")


def turns_told(assessment: Assessment, tried: TriedCounterweight) -> str:
    """The verdicts that would turn, as HTML; those that could no longer tell are counted, since there are many once a rope goes slack."""
    if tried.assessment is None:
        return f"<p>With {in_html(tried.text)} it cannot be worked out: {in_html(tried.fault)}</p>"
    turns = [turn.after for turn in turned(assessment, tried.assessment) if turn.after is not None]
    listed = "".join(
        f"<li>{MARKS[check.verdict]} {in_html(named(check))}: {check.verdict}</li>" for check in turns if check.verdict != CANNOT_TELL
    )
    lost = [check for check in turns if check.verdict == CANNOT_TELL]
    if lost:
        listed += (
            f"<li>{MARKS[CANNOT_TELL]} {in_html(named(lost[0]))}{f' and {len(lost) - 1} more' if len(lost) > 1 else ''}: {CANNOT_TELL}</li>"
        )
    return f"<p>Verdicts that would turn:</p><ul>{listed}</ul>" if listed else "<p>No verdict would turn.</p>"


def _figures(assessment: Assessment) -> dict[str, str]:
    """What is compared, in words; demands are rounded up, what is left down."""
    pulls, whole = assessment.solution.drive_pull, assessment.whole
    slack = bool(assessment.solution.slack().any())
    greatest = {way: "unknown" if slack else units.show(float(pulls[way].value.max()), "N", 4, "up") for way in ("raising", "lowering")}
    counts, least = assessment.counts, other_counterweight.least_pull(assessment).number
    limit = other_counterweight.slack_limit(assessment)
    return {
        "greatest pull, raising": greatest["raising"],
        "greatest pull, lowering": greatest["lowering"],
        "least pull left": "none: it goes slack" if least < 0 else units.show(least, "N", 4, "down"),
        "slack when stopped harder than": "unknown"
        if limit is None
        else "slack as it is"
        if limit <= 0
        else units.show(limit, "m/s²", 3, "down"),
        "verdicts": " ".join(f'<span title="{PLURALS[verdict]}">{MARKS[verdict]}&nbsp;{many}</span>' for verdict, many in counts.items()),
        "least load": _load(whole.least_load_kg, "none found", "up"),
        "rated load": _load(whole.rated_load_kg, "cannot tell", "down"),
    }


def _load(value_kg: float | None, otherwise: str, towards: str) -> str:
    return otherwise if value_kg is None else units.show(value_kg, "kg", 4, towards)
