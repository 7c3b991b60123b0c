"""Which part is open on the page of the parts: chosen by group and name there, or asked for by a press elsewhere."""

from __future__ import annotations

import streamlit

from rigcheck.report.model_fields import PARTS, fields_of
from rigcheck.rig import model
from rigcheck.ui import begun_parts, drive_change, session
from rigcheck.ui.draft import Draft, Path

LOAD, ROPES, SHEAVES, PLACES, STRUTS, DRIVE, LIMITS, NAME = GROUPS = (
    "Load and bodies", "Ropes and ends", "Sheaves", "Fixed places", "Struts", "Drive", "Limits and basis", "Name",
)  # fmt: skip
SECTIONS = {LOAD: "bodies", ROPES: "ropes", SHEAVES: "sheaves", PLACES: "points", STRUTS: "struts"}
WHOLE: Path = ("name",)
_HERE, _ASKED, _FIELD = "open part here", "open part", "open field"


def parts_of(draft: Draft, group: str) -> dict[Path, str]:
    """The parts of a group with what they are called, those that are begun at the end."""
    begun = {
        path: f"{path[1] if path[0] != 'drive' else begun_parts.title(path).removeprefix('the ')} (begun)"
        for path in begun_parts.begun(draft)
    }
    if group in SECTIONS:
        section = SECTIONS[group]
        named = {(section, name): name for name in draft.at((section,)) or {}}
        return named | {path: words for path, words in begun.items() if path[0] == section}
    if group == LIMITS:
        return {("limits",): "limits", ("basis",): "basis of the factors"}
    if group == NAME:
        return {WHOLE: "name of the rig"}
    return _drive(draft) | {path: words for path, words in begun.items() if path[0] == "drive"}


def _drive(draft: Draft) -> dict[Path, str]:
    if drive_change.is_hand_line(draft):
        return {("drive",): "hand line"}
    drive, found = draft.at(("drive",)) or {}, {}
    for field in fields_of(model.Winch):
        if field.kind == PARTS:
            for index, gear in enumerate(drive.get(field.name) or ()):
                kind = gear.get("kind") if isinstance(gear, dict) else None
                found["drive", field.name, index] = f"gear stage {index + 1}" + (f", {kind}" if kind else "")
        elif drive.get(field.name) is not None:
            found["drive", field.name] = field.name
    return found


def group_of(path: Path) -> str:
    """The group a part belongs to."""
    section = path[0] if path else ""
    return next(
        (group for group, own in SECTIONS.items() if own == section), {"drive": DRIVE, "limits": LIMITS, "basis": LIMITS}.get(section, NAME)
    )


def opened(draft: Draft) -> Path:
    """The part that is open: the one asked for, otherwise the first of its group."""
    section, name = session.remembered(_ASKED) or ("bodies", None)
    asked, field = (section,) if name is None else (section, name), session.remembered(_FIELD) or ()
    there = parts_of(draft, group_of(asked))
    for path in (tuple(field)[:3], asked):
        if path in there:
            return path
    return next((path for path in there if path[: len(asked)] == asked), next(iter(there), WHOLE))


def asked_field(path: Path) -> Path | None:
    """The field of the open part that was asked for by a press elsewhere."""
    field = tuple(session.remembered(_FIELD) or ())
    return field if len(field) > len(path) and field[: len(path)] == path else None


def open_one(path: Path) -> None:
    """Open a part from this page."""
    asked = (path[0], path[1] if len(path) > 1 else None)
    session.remember(_ASKED, asked)
    session.remember(_FIELD, path)
    session.remember(_HERE, (asked, path))


def choose_group(draft: Draft) -> Path:
    """The choice of the group, and which part is open. What was asked for elsewhere is taken over."""
    path = opened(draft)
    asked = (session.remembered(_ASKED), session.remembered(_FIELD))
    if asked != session.remembered(_HERE):  # not from the choices below: they are made anew, with what was asked for
        session.remember(_HERE, asked)
        session.remember("asked for", session.remembered("asked for", 0) + 1)
    group, key = group_of(path), f"parts-group {_made()}"
    streamlit.segmented_control("Which parts?", GROUPS, default=group, required=True, key=key, on_change=_take_group, args=(key,))
    return path


def _made() -> str:
    return f"{session.opened()} {session.remembered('asked for', 0)}"


def choose_one(draft: Draft, path: Path) -> None:
    """The choice of the part by its name, where the group has more than one."""
    group = group_of(path)
    there = parts_of(draft, group)
    if len(there) > 1:
        options = list(there)
        key = f"parts-one {_made()} {session.generation()} {group}"
        streamlit.selectbox("Which one?", options, index=options.index(path), key=key, format_func=lambda one: there.get(one, str(one)),
                            on_change=_take_one, args=(key,))  # fmt: skip


def _take_group(key: str) -> None:
    group = session.entered(key)
    if group is not None:
        open_one(next(iter(parts_of(session.draft(), group)), _empty(group)))


def _take_one(key: str) -> None:
    if (path := session.entered(key)) is not None:
        open_one(tuple(path))


def _empty(group: str) -> Path:
    return (SECTIONS.get(group, "name"),)
