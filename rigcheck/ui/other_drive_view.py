"""What another gear ratio or another drum would do: a table of neighbours, each put through the same checks, one press to try one and one to go back."""

from __future__ import annotations

import streamlit

from rigcheck import units
from rigcheck.checks.assessment import Assessment
from rigcheck.ui import session, tables, trying
from rigcheck.ui.field_input import comes_to
from rigcheck.ui.plain_text import escaped, in_html
from rigcheck.ui.verdict_words import MARKS, PLURALS
from rigcheck.whatif import other_drive
from rigcheck.whatif.other_drive import Bend, Change, TriedDrive

NOTHING, RATIO, DRUM = "not now", "another gear ratio", "another drum"
TOLD = {
    RATIO: "Only the ratio of the stage changes. Its efficiency stays as stated, and so do a worm's angles and frictions: the data sheet of a stage of another ratio may say other values.",
    DRUM: "The drum's axis, its width and its dead wraps stay; its flanges stand out as far as now.",
}
_STEPS = "The steps are preferred numbers (ISO 3, from memory); inches go by whole and half ones. They decide nothing."


def show(assessment: Assessment, is_current: bool) -> None:
    """The choice of what to change, and what it would do; nothing is worked out before it is asked for."""
    drive = assessment.rig.drive
    streamlit.markdown("#### Another gear ratio, another drum")
    trying.tell("drive")
    options = [NOTHING, *([RATIO] if drive.gears and all(gear.ratio is not None for gear in drive.gears) else []), DRUM]
    asked = streamlit.segmented_control("Work out", options, default=_remembered("drive asked", options), required=True, key="drive-asked")
    session.remember("drive asked", asked)
    if asked == NOTHING:
        return
    if not is_current:
        streamlit.markdown("This can be tried once what was typed can be used.")
        return
    stage = _stage(assessment) if asked == RATIO and len(drive.gears) > 1 else 0
    tried = _tried(session.good_text(), session.system(), asked, stage, assessment)
    streamlit.html(table(tried, asked))
    streamlit.caption(f"{TOLD[asked]} {_STEPS} {_legend()}")
    _buttons([each.change for each in tried if not each.change.is_present and not each.fault], asked)


def _remembered(name: str, options: list) -> str:
    kept = session.remembered(name, options[0])
    return kept if kept in options else options[0]


def _legend() -> str:
    return ", ".join(f"{MARKS[verdict]} {words}" for verdict, words in PLURALS.items()) + "."


def _stage(assessment: Assessment) -> int:
    """Which stage changes; the first one offered is one that is no worm, which is changed more easily."""
    gears = assessment.rig.drive.gears
    first = next((i for i, gear in enumerate(gears) if gear.kind != "worm"), 0)
    kept = session.remembered("drive stage", first)
    stage = streamlit.selectbox("Stage, counted from the motor", range(len(gears)), index=kept if kept < len(gears) else first,
                                format_func=lambda i: f"{i + 1}: {gears[i].kind}, 1:{units.number(gears[i].ratio)}", key=f"drive-stage {session.opened()}")  # fmt: skip
    session.remember("drive stage", stage)
    return stage


@streamlit.cache_data(max_entries=32, show_spinner="Working it out …")
def _tried(text: str, system: str, asked: str, stage: int, _assessment: Assessment) -> list[TriedDrive]:
    changes = other_drive.other_ratios(_assessment, stage) if asked == RATIO else other_drive.other_drums(_assessment.rig)
    return [
        other_drive.of_assessment(_assessment, change) if change.is_present else other_drive.try_drive(_assessment.rig, change)
        for change in changes
    ]


def table(tried: list[TriedDrive], asked: str) -> str:
    """One row for each, the present one marked, as HTML; what is asked is rounded up, what is given down."""
    by_motor = any(each.motor_torque_nm is not None or each.current_a is not None for each in tried)
    by_hand = any(each.effort_of_one_n is not None for each in tried)
    first = "ratio of the stage" if asked == RATIO else "drum"
    heads = [first, *(["whole ratio"] if asked == RATIO else []), *(["drum to rope diameter"] if asked == DRUM else []),
             *(["torque asked of the motor", "speed of the load", "current", "one lift"] if by_motor else []), *(["effort of one person"] if by_hand else []),
             "verdicts", "rated load"]  # fmt: skip
    rows = [_row(each, asked, by_motor, by_hand, len(heads) - 1) for each in tried]
    return tables.table(heads, rows, numbers=range(1, len(heads)), name=f"Another {'gear ratio' if asked == RATIO else 'drum'}")


def _row(each: TriedDrive, asked: str, by_motor: bool, by_hand: bool, columns: int) -> list:
    name = f"{in_html(each.change.words)}{' (now)' if each.change.is_present else ''}"
    if asked == DRUM and (told := comes_to(each.change.words, "length")):
        name += f'<br><span class="rc-small">{in_html(told)}</span>'
    if each.fault:
        return [name, tables.wide_cell(f"cannot be worked out: {in_html(each.fault)}", columns)]
    cells = [name, f"1:{units.number(each.ratio)}"] if asked == RATIO else [name]
    if asked == DRUM:
        cells.append("<br>".join(dict.fromkeys(map(_bend, each.bends))) or "not judged")
    if by_motor:
        still = "stands" if each.stands else "unknown"
        cells += [units.show(each.motor_torque_nm, "N·m", 3, "up"), _speed(each, still), _known(each.current_a, "A", "up", "unknown"),
                  _known(each.time_s, "s", "up", still)]  # fmt: skip
    if by_hand:
        cells.append(units.show(each.effort_of_one_n, "N", 3, "up"))
    cells.append(
        "&ensp;".join(f'<span title="{PLURALS[verdict]}">{MARKS[verdict]} {count}</span>' for verdict, count in each.counts.items())
    )
    cells.append("cannot tell" if each.rated_load_kg is None else units.show(each.rated_load_kg, "kg", 4, "down"))
    return cells


def _speed(each: TriedDrive, otherwise: str) -> str:
    if each.swing_rad_s is not None:
        return _known(each.swing_rad_s, "rpm", "down", otherwise)
    return _known(each.speed_m_s, "m/min", "down", otherwise)


def _known(value: float | None, unit: str, towards: str, otherwise: str) -> str:
    return otherwise if value is None else units.show(value, unit, 3, towards)


def _bend(bend: Bend) -> str:
    told = "cannot tell" if bend.ratio is None else f"{units.number(bend.ratio, 3, 'down')} where {units.number(bend.least, 3)} is asked"
    return f'<span title="{bend.verdict}">{MARKS[bend.verdict]}</span> {told}'


def _buttons(changes: list[Change], asked: str) -> None:
    words = [change.words for change in changes]
    key = f"try-drive {asked} {session.generation()}"

    def take() -> None:
        chosen = session.entered(key)
        if chosen in words:
            trying.put_change(changes[words.index(chosen)], "drive", asked)

    streamlit.pills("Try one: the whole rig is then worked out with it", words, key=key, on_change=take, format_func=escaped)
