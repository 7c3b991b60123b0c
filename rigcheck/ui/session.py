"""The one place that reads and writes the state of a session: the draft, its last good reading, and what a page remembers.

A draft is also kept in this process under a random name that stands in the address, so that loading the page again loses nothing.
"""

from __future__ import annotations

import secrets
from collections import OrderedDict
from dataclasses import dataclass

import streamlit

from rigcheck.checks.assessment import Assessment
from rigcheck.errors import RigcheckError
from rigcheck.rig import examples, files
from rigcheck.rig.faults import Fault
from rigcheck.ui import draft as drafts
from rigcheck.ui.answers import answer
from rigcheck.ui.draft import Draft, Path

KEPT_DRAFTS = 40
UNDO_STEPS = 50
ADDRESS_KEY = "draft"


@dataclass(frozen=True)
class Standing:
    """Where the rig stands: the last assessment that could be made, whether it is that of the present draft, and if not, why."""

    assessment: Assessment | None
    is_current: bool
    faults: list[Fault]
    fault: RigcheckError | None


@streamlit.cache_resource(show_spinner=False)
def _kept() -> OrderedDict[str, tuple[Draft, str | None]]:
    return OrderedDict()


def begin() -> None:
    """At the start of every run: take up the draft whose name stands in the address."""
    state = streamlit.session_state
    if "draft" not in state:
        state.draft, state.good_text = None, None
        state.before_text, state.undo, state.generation, state.opened = None, [], 0, 0
        name = streamlit.query_params.get(ADDRESS_KEY)
        if name in _kept():
            state.draft, state.good_text = _kept()[name]
            state.draft_name = name
    if state.draft is not None:
        streamlit.query_params[ADDRESS_KEY] = state.draft_name


def draft() -> Draft | None:
    return streamlit.session_state.draft


def generation() -> int:
    """Grows when parts of the draft change other than through their own fields, so that no field keeps what stood there before."""
    return streamlit.session_state.generation


def opened() -> int:
    """Grows when the draft is replaced by another."""
    return streamlit.session_state.opened


def open_example(name: str) -> None:
    _replace(drafts.of_rig(examples.example(name), "an example"))


def open_arrangement(slug: str) -> None:
    _replace(drafts.of_arrangement(slug))


def open_file(content: bytes, name: str) -> None:
    """RigcheckError where the file cannot be used; the draft then stays as it is."""
    _replace(drafts.of_rig(files.loads(content, name), "a rig file"))


def edit(path: Path, value, typed: str | None = None) -> None:
    """Change one field of the draft."""
    _push(draft().edited(path, value, typed))


def edit_step(path: Path, index: int, value, typed: str, whole: list) -> None:
    """Change one step of a place in the draft."""
    _push(draft().with_step(path, index, value, typed, whole))


def entered(key: str):
    """What stands in the widget of a key."""
    return streamlit.session_state.get(key)


def give_answer(key: str, text: str | None) -> None:
    """Change one answer of the arrangement the draft began as; None is no answer."""
    if text is None or draft().answers.get(key) == text:
        return
    _push(drafts.answered(draft(), key, text))
    streamlit.session_state.generation += 1


def can_undo() -> bool:
    return bool(streamlit.session_state.undo)


def undo() -> None:
    """Take back the last change."""
    state = streamlit.session_state
    if state.undo:
        state.draft = state.undo.pop()
        state.generation += 1
        state.opened += 1
        _keep()


def standing() -> Standing:
    """Read and assess the draft; the last good result stays where that cannot be done."""
    state = streamlit.session_state
    if state.draft is None:
        return Standing(None, True, [], None)
    rig, faults = state.draft.read()
    fault = None
    unanswered = state.draft.arrangement is not None and bool(drafts.answer_faults(state.draft))
    if rig is not None:
        text = files.dumps(rig)
        found = answer(text)
        if found.assessment is not None:
            if text != state.good_text:
                state.before_text, state.good_text = state.good_text, text
                _keep()
            return Standing(found.assessment, not unanswered, [], None)
        fault = found.fault
    last = answer(state.good_text).assessment if state.good_text else None
    return Standing(last, False, faults, fault)


def good_text() -> str | None:
    """The rig file of the last good reading."""
    return streamlit.session_state.good_text


def before() -> Assessment | None:
    """The assessment of the rig before the last change that could be read."""
    text = streamlit.session_state.before_text
    return answer(text).assessment if text else None


def is_narrow() -> bool:
    """Whether the page was last seen to be as narrow as a telephone's."""
    return streamlit.session_state.get("is_narrow", False)


def tell_narrow(component_key: str) -> None:
    """Take over what the drawing says of its width."""
    streamlit.session_state.is_narrow = bool(streamlit.session_state[component_key]["is_narrow"])


def remembered(name: str, otherwise=None):
    """What a page remembers, such as the height of the slider."""
    return streamlit.session_state.get(f"page {name}", otherwise)


def remember(name: str, value) -> None:
    streamlit.session_state[f"page {name}"] = value


def _replace(new: Draft) -> None:
    state = streamlit.session_state
    if state.draft is not None:
        _push(new)
    else:
        state.draft = new
    state.generation += 1
    state.opened += 1
    state.good_text = state.before_text = None
    for key in [k for k in state if str(k).startswith("page ")]:
        del state[key]
    _keep()


def _push(new: Draft) -> None:
    state = streamlit.session_state
    state.undo = [*state.undo, state.draft][-UNDO_STEPS:]
    state.draft = new
    _keep()


def _keep() -> None:
    state = streamlit.session_state
    if "draft_name" not in state:
        state.draft_name = secrets.token_urlsafe(9)
    kept = _kept()
    kept[state.draft_name] = state.draft, state.good_text
    kept.move_to_end(state.draft_name)
    while len(kept) > KEPT_DRAFTS:
        kept.popitem(last=False)
