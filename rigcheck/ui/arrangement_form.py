"""The form of an arrangement: its few numbers, then what is known of its parts, each with its letter and its fault beside it."""

from __future__ import annotations

import streamlit

from rigcheck import units
from rigcheck.errors import RigcheckError
from rigcheck.report.field_words import with_unit_in_label
from rigcheck.rig.arrangements import ARRANGEMENTS, Choice, Input
from rigcheck.rig.arrangements.inputs import UNKNOWN
from rigcheck.ui import begin_differs, faults_view, field_input, finding_out, letters, measuring_sheet_view, session
from rigcheck.ui import draft as drafts
from rigcheck.ui.draft import answer_path, label_unit
from rigcheck.ui.plain_text import escaped
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
        if item.key == "drum_diameter":
            _tell_width()
        elif item.key == "rope_diameter":
            _tell_size()


def _tell_width() -> None:
    """A form that asks for no width of the drum says where that is typed, and what waits for it."""
    if session.draft().at(("drive", "drum", "width")) is None:
        streamlit.caption("Whether the rope fits on the drum cannot be told until its width is typed: Change parts, drum.")


def _tell_size() -> None:
    """Beside the diameter: where the catalogue lists no rope of that material in it; what is known of the rope stays."""
    if told := begin_differs.size_not_listed(session.draft()):
        streamlit.caption(escaped(told))


def _choice(item: Choice, letter: str, chosen: str, fault: RigcheckError | None) -> None:
    key, options = _key(item.key), item.options if chosen in item.options else (*item.options, chosen)
    streamlit.selectbox(f"{letter} · {item.label}", options, index=options.index(chosen), key=key, help=item.help or None,
                        accept_new_options=item.most is not None, on_change=_choose, args=(item.key, key))  # fmt: skip
    if fault is not None:
        faults_view.beside(fault.wrong, fault.right)


def _key(answer: str) -> str:
    """A field is made anew when its answer was changed elsewhere, so that it never shows what stood there before."""
    return f"answer {session.opened()} {session.system()} {session.taken_over(answer)} {answer}"


def _answer(answer: str, key: str, shown: str, unit: str) -> None:
    typed = session.entered(key)
    if typed is not None and typed.strip() != shown:
        session.give_answer(answer, with_unit(typed.strip(), unit), typed.strip())


def _choose(answer: str, key: str) -> None:
    session.give_answer(answer, session.entered(key))


def _told_by_hand() -> None:
    """What of the rig no field of this form says, and which numbers are not those of this rig yet."""
    draft = session.draft()
    if told := begin_differs.in_html_words(draft):
        streamlit.html(told)
    if unconfirmed := drafts.not_given(draft):
        streamlit.caption(escaped(f"Not yours yet: {_all_or(unconfirmed)} as the form began. Type or choose your own, or the same again."))
        streamlit.button("They are all right as they stand", key="confirm", type="tertiary", on_click=session.confirm_answers,
                         help="Takes them as stated by you; till then they are listed as guesses.")  # fmt: skip


def _all_or(labels: list[str]) -> str:
    return f"{', '.join(labels)} stand" if session.draft().given else "everything stands"
