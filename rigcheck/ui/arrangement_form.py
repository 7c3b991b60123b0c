"""The form of an arrangement: its few numbers, then what is known of its parts, each with its letter and its fault beside it."""

from __future__ import annotations

import streamlit

from rigcheck import units
from rigcheck.errors import RigcheckError
from rigcheck.rig.arrangements import ARRANGEMENTS, Choice, Input
from rigcheck.rig.arrangements.inputs import UNKNOWN
from rigcheck.ui import draft as drafts
from rigcheck.ui import faults_view, field_input, finding_out, letters, measuring_sheet_view, session
from rigcheck.ui.draft import answer_path, label_unit
from rigcheck.ui.field_words import with_unit_in_label
from rigcheck.ui.path_words import in_words
from rigcheck.ui.plain_text import escaped, in_html
from rigcheck.ui.typed import in_field, with_unit


def show() -> None:
    """Every number and choice of the arrangement that the open rig began as."""
    draft = session.draft()
    arrangement, found = ARRANGEMENTS[draft.arrangement], session.standing().answer_faults
    lettered = letters.of_inputs(arrangement)
    with streamlit.container():  # always there, so that nothing below it changes its place
        _told_by_hand()
    for half, column in zip(_halves(arrangement.inputs), streamlit.columns(2), strict=True):
        with column:
            for item in half:
                _input(item, lettered[item.key], draft.answers[item.key], found.get(item.key))
    streamlit.markdown("**What is known of its parts**")
    for half, column in zip(_halves(arrangement.asked(draft.answers)), streamlit.columns(2), strict=True):
        with column:
            for item in half:
                _choice(item, lettered[item.key], draft.answers[item.key], found.get(item.key))
    with streamlit.container():
        if "" in found:
            faults_view.error(found[""])
    measuring_sheet_view.save("sheet-begin")


def _halves(items: tuple) -> tuple[tuple, tuple]:
    """The items of each of two columns, read downwards as their letters run; a page of few columns is a quick one."""
    middle = (len(items) + 1) // 2
    return items[:middle], items[middle:]


def _input(item: Input, letter: str, text: str, fault: RigcheckError | None) -> None:
    key, unit = _key(item.key), units.label(label_unit(item.default))
    shown = in_field(text, session.draft().typed.get(answer_path(item.key)), unit)
    streamlit.text_input(with_unit_in_label(f"{letter} · {item.label}", unit), shown, key=key, help=item.help or None, placeholder=UNKNOWN,
                         on_change=_answer, args=(item.key, key, shown, unit))  # fmt: skip
    if not text.strip():
        faults_view.beside("not known yet, and nothing can be worked out without it", finding_out.of_input(item.key) or item.help)
    elif fault is not None:
        faults_view.beside(fault.wrong, fault.right)
    else:
        field_input.in_units_shown(text, item.kind)


def _choice(item: Choice, letter: str, chosen: str, fault: RigcheckError | None) -> None:
    key = _key(item.key)
    index = item.options.index(chosen)
    streamlit.selectbox(
        f"{letter} · {item.label}", item.options, index=index, key=key, help=item.help or None, on_change=_choose, args=(item.key, key)
    )
    if fault is not None:
        faults_view.beside(fault.wrong, fault.right)


def _key(answer: str) -> str:
    return f"answer {session.opened()} {session.system()} {answer}"


def _answer(answer: str, key: str, shown: str, unit: str) -> None:
    typed = session.entered(key)
    if typed is not None and typed.strip() != shown:
        session.give_answer(answer, with_unit(typed.strip(), unit), typed.strip())


def _choose(answer: str, key: str) -> None:
    session.give_answer(answer, session.entered(key))


def _told_by_hand() -> None:
    """Where the rig is another one than the numbers of this form say, and which numbers are not those of this rig yet."""
    draft = session.draft()
    told = []
    if by_hand := [path for path in draft.changed_by_hand() if path[:1] != ("notes",) and "notes" not in path]:
        shown = "; ".join(f"{in_words(path)} {_value(draft.at(path))}" for path in by_hand)
        told.append(f"Changed elsewhere since, and it counts instead of what stands here: {shown}.")
    if draft.dropped:
        told.append(f"Gave way to what was typed here last: {'; '.join(in_words(path) for path in draft.dropped)}.")
    if told:
        streamlit.html("".join(f'<p class="rc-stale">{in_html(words)}</p>' for words in told))
    if unconfirmed := drafts.not_given(draft):
        streamlit.caption(escaped(f"Not yours yet: {_all_or(unconfirmed)} as the form began. Type or choose your own, or the same again."))
        streamlit.button("They are all right as they stand", key="confirm", type="tertiary", on_click=session.confirm_answers,
                         help="Takes them as stated by you; till then they are listed as guesses.")  # fmt: skip


def _all_or(labels: list[str]) -> str:
    return f"{', '.join(labels)} stand" if session.draft().given else "everything stands"


def _value(value) -> str:
    if value is None:
        return "not stated"
    if isinstance(value, dict | list):
        return ""
    told = field_input.comes_to(value)
    return f"{value} ({told})" if told else str(value)
