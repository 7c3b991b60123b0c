"""The path of a rope on a page: one sentence whose words can be pressed, what stands in its way, and what one press would mend."""

from __future__ import annotations

from pathlib import Path as File

import streamlit

from rigcheck.rig import model
from rigcheck.rig.faults import Fault
from rigcheck.rig.fields import FieldError
from rigcheck.ui import (
    draft_parts,
    fault_words,
    faults_view,
    leftovers,
    mends,
    part_form,
    places,
    rope_sentence,
    rope_words,
    sentences,
    session,
)
from rigcheck.ui.draft import Draft, Path
from rigcheck.ui.plain_text import escaped, in_html

_HERE = File(__file__).parent
_component = streamlit.components.v2.component(
    "rope_sentence", html='<div class="told"></div>\n',
    css=(_HERE / "rope_sentence.css").read_text("utf-8"), js=(_HERE / "rope_sentence.js").read_text("utf-8"),
)  # fmt: skip
_SAID, _DONE = "rope sentence said", "rope sentence asks done"
_MOST_KEPT = 60


def show(path: Path, faults: list[Fault], with_notes: bool = False) -> None:
    """The sentence of the rope at a path of the draft; beneath it what was put in or taken out, and what stands in the way."""
    draft, rope = session.draft(), str(path[1])
    key = f"sentence {session.opened()} {rope}"
    _component(data=rope_sentence.of_rope(draft, rope), key=key, on_asked_change=lambda: _take_over(key, rope))
    with streamlit.container():
        _tell(draft, rope)
    with streamlit.container():
        _diagnose(draft, rope)
    with streamlit.container():
        for index, stop in enumerate(rope_words.stops(draft, rope)):
            if "pulled_by_hand_at" in stop:
                part_form.show(model.ByHand, (*path, "path", index), faults, with_notes=with_notes)


def show_another() -> None:
    """The sentence by which one rope more is begun."""
    key = f"another rope {session.opened()}"
    _component(data=rope_sentence.of_a_new_rope(session.draft()), key=key, on_asked_change=lambda: _take_over(key, None))


def _take_over(key: str, rope: str | None) -> None:
    """Do what was asked and is not done yet; the page sends the last few asks together, each with a number."""
    done = list(session.remembered(_DONE, ()))
    for ask in session.entered(key)["asked"] or ():
        if isinstance(ask, dict) and ask.get("number") not in done:
            done.append(ask.get("number"))
            act(rope, ask)
    session.remember(_DONE, tuple(done[-_MOST_KEPT:]))


def act(rope: str | None, ask: dict) -> None:
    """One ask as one step that can be taken back: {"do": "begin" | "end" | "add" | "instead" | "out" | "move" | "turn" | "remove", ...}.

    What refers to a stop that is no longer there, or to what is not offered, is left undone.
    """
    draft = session.draft()
    try:
        changed = _begun(draft, ask) if rope is None else _changed(draft, rope, ask)
    except FieldError as fault:
        session.remember(_SAID, (rope, draft, f"{fault.wrong}. {fault.right}"))
        return
    if changed is None or changed.data == draft.data:
        return
    session.put(changed)
    session.remember(_SAID, (_named(draft, changed, rope), changed, _what_happened(draft, changed)))


def _changed(draft: Draft, rope: str, ask: dict) -> Draft | None:
    if ask.get("do") == "remove":
        return sentences.without_rope(draft, rope) if len(draft_parts.names(draft, "ropes")) > 1 else None
    index = _index(draft, rope, ask.get("stop"))
    if index is None:
        return None
    which = sentences.LAST if index else sentences.FIRST
    target = tuple(ask.get("to") or ())
    match ask.get("do"):
        case "end" if target in rope_sentence.flat(rope_words.ends_offered(draft, rope, which)):
            return sentences.with_end(draft, rope, which, target)
        case "add" if target in rope_sentence.flat(rope_words.sheaves_offered(draft, rope)):
            return sentences.with_stop_added(draft, rope, index, target)
        case "instead" if target in rope_sentence.flat(rope_words.sheaves_offered(draft, rope)):
            return sentences.with_sheave(draft, rope, index, target)
        case "out":
            return sentences.without_stop(draft, rope, index)
        case "move" if ask.get("by") in (-1, 1):
            return sentences.moved_stop(draft, rope, index, ask["by"])
        case "turn" if ask.get("turns") in (places.CLOCKWISE, places.ANTICLOCKWISE):
            return sentences.flipped(draft, rope, index, ask["turns"])
    return None


def _begun(draft: Draft, ask: dict) -> Draft | None:
    first, over, last = (tuple(ask.get(name) or ()) for name in ("first", "over", "last"))
    is_offered = first in rope_sentence.flat(rope_sentence.begins(draft)) and last in rope_sentence.flat(
        rope_words.ends_offered(draft, None, sentences.LAST)
    )
    if ask.get("do") != "begin" or not is_offered or (over and over not in rope_sentence.flat(rope_words.sheaves_offered(draft, None))):
        return None
    return sentences.new_rope(draft, first, last, [over] if over else [])


def _index(draft: Draft, rope: str, stop: str | None) -> int | None:
    """Where a stop stands now: an end, or the sheave of a name."""
    path = rope_words.stops(draft, rope)
    if not path:
        return None
    if stop in ("first", "last"):
        return 0 if stop == "first" else len(path) - 1
    return next((k for k, each in enumerate(path) if f"over {each.get('over')}" == stop), None)


def _named(before: Draft, after: Draft, rope: str | None) -> str:
    """The rope beside which a change is told: the one that was changed, the new one, or the first."""
    names = draft_parts.names(after, "ropes")
    return (
        rope if rope in names else next((name for name in names if name not in draft_parts.names(before, "ropes")), next(iter(names), ""))
    )


def _what_happened(before: Draft, after: Draft) -> str:
    came, went = leftovers.came_and_went(before, after)
    told = [f"Put in: {', '.join(came)}."] if came else []
    return " ".join([*told, *([f"Taken out along with it, since nothing else used it: {', '.join(went)}."] if went else [])])


def _tell(draft: Draft, rope: str) -> None:
    about, then, said = session.remembered(_SAID, ("", None, ""))
    told = [said] if said and about == rope and then is draft else []
    if waiting := leftovers.to_measure(draft, rope):
        told.append(f"Put in by the form or placed by eye, and not measured yet: {', '.join(waiting)}.")
    if told:
        streamlit.html("".join(f'<p class="rc-small" role="status">{in_html(each)}</p>' for each in told))


def _diagnose(draft: Draft, rope: str) -> None:
    standing = session.standing()
    if mends.concerns(draft, rope, standing.fault, standing.faults):
        if standing.fault is not None:
            where, wrong, right = fault_words.of_error(standing.fault)
            faults_view.beside(wrong, right, where)
        else:
            faults_view.beside(fault_words.wrong(standing.faults[0]), fault_words.right(standing.faults[0]))
        _offer(mends.offered(draft, rope), rope)
    elif long_ways := mends.long_ways(draft, rope):
        streamlit.html('<p class="rc-small">The rope goes most of the way round a sheave. Is that so?</p>')
        _offer(long_ways, rope)
    if rope_sentence.is_first(draft, rope) and (clearing := mends.clearing(draft)):
        _offer([clearing], rope)


def _offer(found: list[mends.Mend], rope: str) -> None:
    for number, mend in enumerate(found):
        streamlit.button(
            escaped(mend.words), key=f"mend {session.generation()} {rope} {number} {mend.words}", on_click=session.put, args=(mend.draft,)
        )
