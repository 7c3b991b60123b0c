"""A rope of the catalogue put into the draft for trial, and the rope put back that was there."""

from __future__ import annotations

from dataclasses import dataclass, replace

from rigcheck.ui import session
from rigcheck.ui.draft import Draft
from rigcheck.whatif.catalogue_ropes import CatalogueRope, with_rope

_TRIALS, KEPT = "rope trials", 50


@dataclass(frozen=True)
class Trial:
    """The draft a trial led to, and in words which rope was put where."""

    draft: Draft
    words: str


def put_in(names: tuple[str, ...], rope: CatalogueRope, words: str, fitting: str | None = None) -> None:
    """Put a rope in place of those named, as one step that can be taken back."""
    new = placed(session.draft(), names, rope, fitting)
    session.put(new)
    session.remember(_TRIALS, (*session.remembered(_TRIALS, ()), Trial(new, words))[-KEPT:])


def placed(draft: Draft, names: tuple[str, ...], rope: CatalogueRope, fitting: str | None = None) -> Draft:
    """The draft with the rope in place of those named; what was typed for them no longer stands."""
    typed = {path: text for path, text in draft.typed.items() if path[:1] != ("ropes",) or path[1] not in names}
    return replace(draft, data=with_rope(draft.data, names, rope, fitting), typed=typed)


def now_on() -> Trial | None:
    """The trial that the present draft is, if nothing was changed since."""
    draft = session.draft()
    return next((trial for trial in reversed(session.remembered(_TRIALS, ())) if trial.draft is draft), None)
