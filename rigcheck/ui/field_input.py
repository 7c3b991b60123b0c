"""One input for one field: label with letter and unit, what was typed, help, and beneath it what is wrong, not known or unusual.

A field keeps what was typed into it, and that counts; where it is in other units than are shown, what it comes to stands beneath it.

Whatever may come and go has a container of its own: an input that changes its place in the page is made anew and loses what is being typed.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import streamlit
from pydantic import BaseModel

from rigcheck import units
from rigcheck.errors import QuantityError
from rigcheck.report import model_fields as kinds
from rigcheck.report.field_words import Words, often, remark, title_of, with_unit_in_label, words_for
from rigcheck.report.model_fields import ModelField
from rigcheck.rig.arrangements.inputs import UNKNOWN
from rigcheck.rig.faults import Fault
from rigcheck.ui import fault_words, faults_view, finding_out, letters, session
from rigcheck.ui.draft import Draft, Path
from rigcheck.ui.offers import offers
from rigcheck.ui.plain_text import escaped, in_html
from rigcheck.ui.typed import in_field, plain_number, unit_of, with_unit

NOT_KNOWN_MARK = "◇"
_TRUTHS = {"yes": True, "no": False}


@dataclass(frozen=True)
class Form:
    """The part whose fields are shown: its form, where it stands in the draft, the faults of the draft, and the letters of the fields."""

    model: type[BaseModel]
    path: Path
    faults: list[Fault]
    of_what: str = ""
    lettered: dict[Path, str] = field(default_factory=lambda: letters.of_fields(session.draft()))

    @property
    def name(self) -> str:
        return self.model.__name__

    def words(self, one: ModelField) -> Words:
        return words_for(self.name, one)

    def label(self, path: Path, words: str, unit: str = "") -> str:
        """The label of an input: its letter, what it is, of which part where that is not plain, and the unit a bare number takes."""
        letter = self.lettered.get(path)
        named = with_unit_in_label(f"{words}, {escaped(self.of_what)}" if self.of_what else words, unit)
        return f"{letter} · {named}" if letter else named

    def help(self, one: ModelField) -> str | None:
        """What it is, how large it often is, and how to find it out."""
        kind = session.draft().at((*self.path, "kind"))
        usual, way = often(self.name, one.name, str(kind)), finding_out.way(self.name, one.name)
        sentences = [self.words(one).help, f"{usual[:1].upper()}{usual[1:]}." if usual else "", f"How to find out: {way}" if way else ""]
        return " ".join(sentence for sentence in sentences if sentence) or None


def key_of(path: Path) -> str:
    """The key of the input of a field."""
    return f"{session.generation()}: {' / '.join(map(str, path))}"


def show(form: Form, one: ModelField) -> None:
    """The input of a field, a choice or a text, and what is beneath it."""
    with streamlit.container():
        offered = offers(session.draft(), form.name, form.path, one)
        if offered is not None:
            _select(form, one, offered)
        elif one.kind == kinds.TRUTH:
            _select(form, one, list(_TRUTHS))
        else:
            _text(form, one)
        beneath(form, one)


def beneath(form: Form, one: ModelField) -> None:
    """What is wrong with the field; otherwise what it comes to in other units, what is not known without it, or what is unusual about it."""
    own = (*form.path, one.name)
    found = [fault for fault in form.faults if fault_words.path_of(fault)[: len(own)] == own]
    for fault in found:
        if fault_words.is_unknown(fault):
            faults_view.beside(fault_words.NOT_KNOWN, finding_out.way(form.name, one.name) or fault_words.right(fault))
        else:
            faults_view.beside(fault_words.wrong(fault), fault_words.right(fault))
    if found:
        return
    if one.kind == kinds.QUANTITY:
        in_units_shown(session.draft().at(own), one.quantity_kind)
    if lacks := finding_out.without(session.draft(), form.name, form.path, one.name):
        streamlit.html(_not_known(lacks, finding_out.way(form.name, one.name)))
    elif said := remark(form.name, one.name, session.draft().at(form.path) or {}):
        streamlit.html(f'<p class="rc-small">{in_html(said)}</p>')


def in_units_shown(text: object, kind: str) -> None:
    """Beneath a field that was typed in other units than are shown now: what it comes to. The field keeps what was typed, and that counts."""
    if told := comes_to(text, kind):
        streamlit.html(f'<p class="rc-small" style="margin:-.7rem 0 0">{in_html(told)}</p>')


def comes_to(text: object, *kinds_due: str) -> str:
    """What a text comes to in the units that are shown; "" where it is in these, cannot be read, or is nothing, which is nothing in every unit.

    >>> with units.shown_in(units.US):
    ...     comes_to("120 kg", "mass"), comes_to("250 lb", "mass"), comes_to("0 m", "length"), comes_to("some", "mass")
    ('= 264.6 lb', '', '', '')
    """
    for each in dict.fromkeys((*kinds_due, *units.kind_of_unit(unit_of(text)))) if isinstance(text, str) else ():
        try:
            quantity = units.read(text, each)
        except QuantityError:
            continue
        told = str(quantity)
        is_nothing = quantity.value == 0 and not quantity.plus_minus
        return "" if told == quantity.text or is_nothing else f"= {told}"
    return ""


def _not_known(lacks: str, way: str) -> str:
    head = f'<span class="rc-mark" aria-hidden="true">{NOT_KNOWN_MARK}</span> not known: {in_html(lacks)}.'
    return (
        f'<details class="rc-small"><summary>{head} How to find out</summary><p class="rc-small">{in_html(way)}</p></details>'
        if way
        else f"<p>{head}</p>"
    )


def _data_text(draft: Draft, path: Path, otherwise: object = None) -> str:
    value = draft.at(path)
    value = otherwise if value is None else value
    return "" if value is None else f"{value:g}" if isinstance(value, float) else str(value)


def _entered(key: str) -> str | None:
    """What was typed into an input, "" for what is not known; None for one that has left the page, whose change may still be called out."""
    text = session.entered(key)
    if text is None:
        return None
    return "" if text.strip().lower() == UNKNOWN.lower() else text.strip()


def _text(form: Form, one: ModelField) -> None:
    own, draft = (*form.path, one.name), session.draft()
    key, unit = key_of(own), units.label(form.words(one).unit)
    shown = in_field(_data_text(draft, own, one.default), draft.typed.get(own), unit)
    label, about = form.label(own, form.words(one).label, unit), form.help(one)
    if one.name == "about":
        streamlit.text_area(label, shown, key=key, help=about, on_change=_read_text, args=(key, own, one, unit, shown), max_chars=2000)
        return
    is_measured = one.kind in (kinds.QUANTITY, kinds.NUMBER)
    streamlit.text_input(label, shown, key=key, help=about, placeholder=UNKNOWN if is_measured or one.is_optional else None,
                         on_change=_read_text, args=(key, own, one, unit, shown))  # fmt: skip


def _read_text(key: str, path: Path, one: ModelField, unit: str, shown: str) -> None:
    text = _entered(key)
    if text is None or text == shown:
        return
    if not text:
        may_go = one.is_optional or one.default is not None
        session.edit(path, None if may_go else "")
    elif one.kind == kinds.NUMBER:
        session.edit(path, plain_number(text), text)
    elif one.kind == kinds.QUANTITY:
        session.edit(path, with_unit(text, unit), text)
    else:
        session.edit(path, text)


def _shown_choice(path: Path, one: ModelField) -> str | None:
    stands = session.draft().at(path)
    stands = one.default if stands is None and not one.is_optional else stands
    if stands is None:
        return UNKNOWN if one.is_optional else None
    return {True: "yes", False: "no"}.get(stands, str(stands)) if one.kind == kinds.TRUTH else str(stands)


def _select(form: Form, one: ModelField, offered: list[str]) -> None:
    own = (*form.path, one.name)
    key, stands = key_of(own), _shown_choice(own, one)
    options = ([UNKNOWN] if one.is_optional else []) + offered
    if stands is not None and stands not in options:
        options.append(stands)
    index = options.index(stands) if stands is not None else None
    streamlit.selectbox(form.label(own, form.words(one).label), options, index=index, key=key, help=form.help(one), format_func=title_of(one.name),
                        placeholder="Choose", on_change=_read_choice, args=(key, own, one))  # fmt: skip


def _read_choice(key: str, path: Path, one: ModelField) -> None:
    chosen = session.entered(key)
    if chosen is None or chosen == _shown_choice(path, one):
        return
    value = None if chosen == UNKNOWN else _TRUTHS.get(chosen, chosen) if one.kind == kinds.TRUTH else chosen
    session.edit(path, value)


def show_step(form: Form, path: Path, index: int, label: str, one: ModelField, otherwise: list, is_optional: bool) -> None:
    """The input of one step of a place, a direction or a size."""
    own, draft = (*path, index), session.draft()
    unit = units.label(form.words(one).unit)
    whole = draft.at(path) or otherwise
    stands = whole[index] if isinstance(whole, list | tuple) and index < len(whole) else ""
    shown = in_field(f"{stands:g}" if isinstance(stands, float) else str(stands), draft.typed.get(own), unit)
    with streamlit.container():
        streamlit.text_input(form.label(path, label, unit), shown, key=key_of(own), help=form.help(one),
                             placeholder="may stay empty" if is_optional else UNKNOWN, on_change=_read_step,
                             args=(key_of(own), path, index, one.kind, unit, otherwise, shown))  # fmt: skip
        own_faults = [fault for fault in form.faults if fault.path[: len(own)] == own]
        for fault in own_faults:
            told = finding_out.way(form.name, one.name) if fault_words.is_unknown(fault) else fault_words.right(fault)
            faults_view.beside(fault_words.wrong(fault), told)
        if not own_faults and one.kind != kinds.DIRECTION:
            in_units_shown(stands, "length")


def _read_step(key: str, path: Path, index: int, kind: str, unit: str, otherwise: list, shown: str) -> None:
    text = _entered(key)
    if text is None or text == shown:
        return
    value = plain_number(text) if kind == kinds.DIRECTION and text else with_unit(text, unit)
    whole = session.draft().at(path) or otherwise  # as it stands now: another step may have been typed meanwhile
    session.edit_step(path, index, value, text, [step if kind == kinds.DIRECTION else str(step) for step in whole])


def show_note(form: Form, one: ModelField) -> None:
    """Where the value of a field comes from."""
    own = (*form.path, "notes", one.name)
    streamlit.text_input(f"Where from: {form.words(one).label}", session.draft().shown(own), key=key_of(own), max_chars=400,
                         placeholder="weighed, certificate, marking, guess …", on_change=_read_note, args=(key_of(own), own))  # fmt: skip


def _read_note(key: str, path: Path) -> None:
    text = _entered(key)
    if text is not None and text != session.draft().shown(path):
        session.edit(path, text or None)
