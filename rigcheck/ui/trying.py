"""What was put into the draft for trial on a page: taken over as one step, remembered with the draft it led to, and told with the way back.

A trial ends with the next change of anything else; taking that back brings it again.
"""

from __future__ import annotations

from dataclasses import dataclass

import streamlit

from rigcheck.ui import session
from rigcheck.ui.draft import Draft
from rigcheck.ui.plain_text import escaped
from rigcheck.whatif.other_drive import Change

_TRIALS, KEPT = "trials", 50


@dataclass(frozen=True)
class Trial:
    """Where something was tried, in words what, and the draft that it led to."""

    where: str
    words: str
    draft: Draft


def put(new: Draft, where: str, words: str) -> None:
    """Take over a draft for trial as one step that can be taken back."""
    session.put(new)
    session.remember(_TRIALS, (*session.remembered(_TRIALS, ()), Trial(where, words, session.draft()))[-KEPT:])


def put_change(change: Change, where: str, what: str) -> None:
    """Take over a change of some fields for trial; `what` says of what."""
    put(edited(session.draft(), change), where, f"{what}: {change.words}")


def edited(draft: Draft, change: Change) -> Draft:
    """The draft with a change in it."""
    for path, value in change.edits:
        draft = draft.edited(path, value)
    return draft


def now_on(where: str) -> Trial | None:
    """The trial of this place that the present draft is, if nothing was changed since."""
    draft = session.draft()
    return next((trial for trial in reversed(session.remembered(_TRIALS, ())) if trial.where == where and trial.draft is draft), None)


def tell_ended(where: str) -> None:
    """Right after another change: that the trial of this place has ended with it, so that nothing later is credited to it."""
    ended = next(
        (trial for trial in reversed(session.remembered(_TRIALS, ())) if trial.where == where and session.came_from(trial.draft)), None
    )
    if ended is not None and now_on(where) is None:
        streamlit.caption(
            escaped(
                f"{ended.words.rstrip('.')}. Something else was changed since, so the two are no longer compared; Undo takes that back."
            )
        )


def tell(where: str) -> None:
    """What is being tried here, as long as nothing else was changed since, and the way back."""
    trial = now_on(where)
    with streamlit.container():  # always there, so that nothing below it changes its place
        if trial is not None and session.can_undo():
            streamlit.markdown(f"Changed here last: {escaped(trial.words)}. Everything shown is worked out with it.")
            streamlit.button("Go back to what it was", key=f"back-{where}", on_click=session.undo)
        else:
            tell_ended(where)
