"""The one place that reads and writes the state of a session: the draft, its last good reading, and what a page remembers.

There is always a draft: a session begins with an example that is solved. A draft is also kept in this process under a random name
that stands in the address, with all that can be taken back, so that loading the page again loses nothing.
"""

from __future__ import annotations

import secrets
from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass, field

import streamlit

from rigcheck import units
from rigcheck.checks.assessment import Assessment
from rigcheck.errors import RigcheckError
from rigcheck.rig import examples, files
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.rig.faults import Fault
from rigcheck.ui import draft as drafts
from rigcheck.ui.answers import answer
from rigcheck.ui.begin_in_step import in_step
from rigcheck.ui.cards import FIRST_EXAMPLE
from rigcheck.ui.draft import EXAMPLE, FILE, Draft, Path

KEPT_DRAFTS = 40
UNDO_STEPS = 200
ADDRESS_KEY, BEGIN_KEY, UNITS_KEY = "draft", "begin", "units"


@dataclass(frozen=True)
class Standing:
    """Where the rig stands: the last assessment that could be made, whether it is that of the present draft, and if not, why.

    `answer_faults` are those of the form of an arrangement, by the key of the answer.
    """

    assessment: Assessment | None
    is_current: bool
    faults: list[Fault]
    fault: RigcheckError | None
    answer_faults: Mapping[str, RigcheckError] = field(default_factory=dict)


@dataclass(frozen=True)
class Kept:
    """What outlives a reload: the draft, the text of its last good reading, and the drafts before and after it."""

    draft: Draft
    good_text: str | None
    undo: tuple[Draft, ...] = ()
    redo: tuple[Draft, ...] = ()


@streamlit.cache_resource(show_spinner=False)
def _kept() -> OrderedDict[str, Kept]:
    return OrderedDict()


def begin() -> None:
    """At the start of every run: take up the draft whose name stands in the address, or begin with a rig that is solved."""
    state = streamlit.session_state
    if "draft" not in state:
        name = streamlit.query_params.get(ADDRESS_KEY)
        found = _kept().get(name) or Kept(_first(), None)
        state.draft, state.good_text, state.undo, state.redo = found.draft, found.good_text, found.undo, found.redo
        state.before_text, state.generation, state.opened = None, 0, 0
        state.is_lost = name is not None and name not in _kept()
        if name in _kept():
            state.draft_name = name
        state.system = units.US if streamlit.query_params.get(UNITS_KEY) == units.US else units.METRIC
    units.show_in(state.system)
    if "draft_name" in state:
        streamlit.query_params[ADDRESS_KEY] = state.draft_name


def _first() -> Draft:
    """The arrangement or example that the address asks for, otherwise the example a session begins with."""
    asked = streamlit.query_params.get(BEGIN_KEY)
    if asked in ARRANGEMENTS:
        return drafts.of_arrangement(asked)
    return drafts.of_rig(examples.example(asked if asked in examples.names() else FIRST_EXAMPLE), EXAMPLE)


def is_fresh() -> bool:
    """Whether nothing was opened, changed or asked for yet."""
    return "draft_name" not in streamlit.session_state and BEGIN_KEY not in streamlit.query_params


def is_lost() -> bool:
    """Whether the address names a draft that is no longer kept."""
    return streamlit.session_state.is_lost


def system() -> str:
    """The system of units that everything is shown in."""
    return streamlit.session_state.system


def show_in(name: str) -> None:
    """Show everything in a system of units; what was typed stays as it was typed."""
    state = streamlit.session_state
    state.system = name
    state.generation += 1
    streamlit.query_params[UNITS_KEY] = name
    units.show_in(name)


def draft() -> Draft:
    return streamlit.session_state.draft


def generation() -> int:
    """Grows when parts of the draft change other than through their own fields, so that no field keeps what stood there before."""
    return streamlit.session_state.generation


def opened() -> int:
    """Grows when the draft is replaced by another."""
    return streamlit.session_state.opened


def taken_over(answer_key: str) -> int:
    """Grows when an answer took over what was changed elsewhere, so that its field shows that."""
    return streamlit.session_state.get("taken_over", {}).get(answer_key, 0)


def open_example(name: str) -> None:
    _replace(drafts.of_rig(examples.example(name), EXAMPLE))


def open_arrangement(slug: str) -> None:
    _replace(drafts.of_arrangement(slug))


def open_file(content: bytes, name: str) -> None:
    """RigcheckError where the file cannot be used; the draft then stays as it is."""
    _replace(drafts.of_rig(files.loads(content, name), FILE))


def open_draft(new: Draft) -> None:
    """Begin with a draft that was put together elsewhere."""
    _replace(new)


def put(new: Draft) -> None:
    """Take over a draft that was changed other than through the fields on the page, as one step that can be taken back."""
    _push(new)
    streamlit.session_state.generation += 1


def edit(path: Path, value, typed: str | None = None) -> None:
    """Change one field of the draft."""
    _push(draft().edited(path, value, typed))


def edit_step(path: Path, index: int, value, typed: str, whole: list) -> None:
    """Change one step of a place in the draft."""
    _push(draft().with_step(path, index, value, typed, whole))


def entered(key: str):
    """What stands in the widget of a key."""
    return streamlit.session_state.get(key)


def give_answer(key: str, text: str | None, typed: str | None = None) -> None:
    """Change one answer of the arrangement the draft began as; None is no answer."""
    if text is None or (draft().answers.get(key) == text and key in draft().given):
        return
    _push(drafts.answered(draft(), key, text, typed))
    streamlit.session_state.generation += 1


def confirm_answers() -> None:
    """Take every answer of the arrangement as given, as it stands."""
    put(drafts.confirmed(draft()))


def can_undo() -> bool:
    return bool(streamlit.session_state.undo)


def can_redo() -> bool:
    return bool(streamlit.session_state.redo)


def undo() -> None:
    """Take back the last change."""
    state = streamlit.session_state
    if state.undo:
        *state.undo, last = state.undo
        state.redo = (*state.redo, state.draft)
        _show_again(last)


def redo() -> None:
    """Make the change again that was taken back last."""
    state = streamlit.session_state
    if state.redo:
        *state.redo, last = state.redo
        state.undo = (*state.undo, state.draft)
        _show_again(last)


def _show_again(one: Draft) -> None:
    state = streamlit.session_state
    state.undo, state.redo, state.draft = tuple(state.undo), tuple(state.redo), one
    state.generation += 1
    state.opened += 1
    now = _good_text_of(one)
    if now is not None:  # what is told of the last change is told of the one that led here, not of what was taken back
        is_same_rig = bool(state.undo) and (state.undo[-1].origin, state.undo[-1].at(("name",))) == (one.origin, one.at(("name",)))
        state.good_text, state.before_text = now, _good_text_of(state.undo[-1]) if is_same_rig else None
    _keep()


def _good_text_of(one: Draft) -> str | None:
    """The rig file of a draft, None where it cannot be read or worked out."""
    rig, _ = one.read()
    text = None if rig is None else files.dumps(rig)
    return text if text is not None and answer(text, system()).assessment is not None else None


def standing() -> Standing:
    """Read and assess the draft, once for each draft; the last good result stays where that cannot be done."""
    state = streamlit.session_state
    told = state.get("told")
    if told is None or told[0] is not state.draft or told[1] != state.system:
        told = state.told = (state.draft, state.system, _read(state))
    return told[2]


def _read(state) -> Standing:
    rig, faults = state.draft.read()
    fault = None
    unanswered = drafts.answer_faults(state.draft) if state.draft.arrangement is not None else {}
    if rig is not None:
        text = files.dumps(rig)
        found = answer(text, state.system)
        if found.assessment is not None:
            if text != state.good_text:
                state.before_text, state.good_text = state.good_text, text
                if "draft_name" in state:
                    _keep()
            return Standing(found.assessment, not unanswered, [], None, unanswered)
        fault = found.fault
    last = answer(state.good_text, state.system).assessment if state.good_text else None
    return Standing(last, False, faults, fault, unanswered)


def good_text() -> str | None:
    """The rig file of the last good reading."""
    return streamlit.session_state.good_text


def before() -> Assessment | None:
    """The assessment of the rig before the last change that could be read."""
    text = streamlit.session_state.before_text
    return answer(text, system()).assessment if text else None


def came_from(one: Draft) -> bool:
    """Whether the present draft is one change after another one."""
    undo = streamlit.session_state.undo
    return bool(undo) and undo[-1] is one


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


def open_part(path: Path) -> None:
    """Have the page of the parts open the part that a path leads into, with the eye on the field."""
    remember("open part", (path[0], path[1] if len(path) > 1 and path[0] not in ("limits", "basis") else None))
    remember("open field", path)


def ask_for_page(file: str) -> None:
    """Have the next run go to a page: callbacks cannot go there themselves."""
    streamlit.session_state.asked_page = file


def asked_page() -> str | None:
    """The page that was asked for, once."""
    return streamlit.session_state.pop("asked_page", None)


def _replace(new: Draft) -> None:
    state = streamlit.session_state
    _push(new)
    state.generation += 1
    state.opened += 1
    state.good_text = state.before_text = None
    state.is_lost = False
    for key in [k for k in state if str(k).startswith("page ")]:
        del state[key]


def _push(new: Draft) -> None:
    state = streamlit.session_state
    state.undo = (*state.undo, state.draft)[-UNDO_STEPS:]
    state.redo = ()
    state.draft = in_step(new)
    others = [key for key, text in state.draft.answers.items() if new.answers.get(key) != text]
    if others:
        counts = state.get("taken_over", {})
        state.taken_over = {**counts, **{key: counts.get(key, 0) + 1 for key in others}}
    _keep()


def _keep() -> None:
    state = streamlit.session_state
    if "draft_name" not in state:
        state.draft_name = secrets.token_urlsafe(9)
    kept = _kept()
    kept[state.draft_name] = Kept(state.draft, state.good_text, state.undo, state.redo)
    kept.move_to_end(state.draft_name)
    while len(kept) > KEPT_DRAFTS:
        kept.popitem(last=False)
