"""A rope of the catalogue put into the draft for trial."""

from __future__ import annotations

from dataclasses import replace

from rigcheck.ui import session, trying
from rigcheck.ui.draft import Draft
from rigcheck.whatif.catalogue_ropes import CatalogueRope, with_rope

WHERE = "ropes"


def put_in(names: tuple[str, ...], rope: CatalogueRope, words: str, fitting: str | None = None) -> None:
    """Put a rope in place of those named, as one step that can be taken back."""
    trying.put(placed(session.draft(), names, rope, fitting), WHERE, words)


def placed(draft: Draft, names: tuple[str, ...], rope: CatalogueRope, fitting: str | None = None) -> Draft:
    """The draft with the rope in place of those named; what was typed for them no longer stands."""
    typed = {path: text for path, text in draft.typed.items() if path[:1] != ("ropes",) or path[1] not in names}
    return replace(draft, data=with_rope(draft.data, names, rope, fitting), typed=typed)
