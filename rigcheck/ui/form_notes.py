"""Notes by which the form says that it put a value in itself; they go when somebody states the value."""

from __future__ import annotations

TYPICAL = "typical value: check it"
PLACED = "placed by the form: measure it"
_MARKS = ("typical value", "placed by the form")


def is_by_the_form(note: str | None) -> bool:
    """Whether a note says that the form, or an arrangement, put the value in and nobody has measured it yet."""
    return bool(note) and any(mark in note for mark in _MARKS)


def stated(data: dict, path: tuple[str | int, ...]) -> None:
    """Take the form's note off the field at a path, in place: its value has been stated now. Notes that people wrote stay.

    >>> rig = {"points": {"beam": {"at": ["1 m", "3 m"], "notes": {"at": PLACED, "fixing": "seen"}}}}
    >>> stated(rig, ("points", "beam", "at"))
    >>> rig["points"]["beam"]["notes"]
    {'fixing': 'seen'}
    """
    here = data
    for step in path:
        notes = here.get("notes") if isinstance(here, dict) else None
        if isinstance(notes, dict) and is_by_the_form(notes.get(step)):
            del notes[step]
            if not notes:
                del here["notes"]
        within = (isinstance(here, dict) and step in here) or (isinstance(here, list) and isinstance(step, int) and step < len(here))
        if not within:
            return
        here = here[step]
