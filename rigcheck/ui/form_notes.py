"""Notes by which the form says that it put a value in itself; they go when somebody states the value.

Each of them calls the value a guess, so that it is listed among the guesses wherever these are told.
"""

from __future__ import annotations

TYPICAL = "guess, a typical value: check it"
PLACED = "guess, placed by the form: measure it"
BY_EYE = "guess, placed by eye on the drawing: measure it"
_MARKS = ("typical value", "placed by the form", "placed by eye on the drawing")


def is_by_the_form(note: object) -> bool:
    """Whether a note says that the form, an arrangement or an eye put the value in and nobody has measured it yet."""
    return isinstance(note, str) and any(mark in note for mark in _MARKS)


def waiting(data) -> list[tuple[str | int, ...]]:
    """The paths of the fields whose values the form, or an arrangement, put in and nobody has stated yet, in the order of the rig.

    >>> waiting({"points": {"beam": {"at": ["1 m", "3 m"], "notes": {"at": PLACED, "fixing": "seen"}}}})
    [('points', 'beam', 'at')]
    """
    found: list[tuple[str | int, ...]] = []

    def walk(part, path: tuple[str | int, ...]) -> None:
        if isinstance(part, dict):
            notes = part.get("notes")
            found.extend((*path, field) for field, note in (notes if isinstance(notes, dict) else {}).items() if is_by_the_form(note))
            for key, inner in part.items():
                if key != "notes":
                    walk(inner, (*path, key))
        elif isinstance(part, list):
            for index, inner in enumerate(part):
                walk(inner, (*path, index))

    walk(data, ())
    return found


def by_eye(data: dict, path: tuple[str | int, ...]) -> None:
    """Note at the field at a path, in place, that its value was placed by eye; what stood there before was said of another place.

    >>> rig = {"points": {"beam": {"at": ["1 m", "3 m"], "notes": {"at": "measured with a tape", "fixing": "seen"}}}}
    >>> by_eye(rig, ("points", "beam", "at"))
    >>> rig["points"]["beam"]["notes"] == {"at": BY_EYE, "fixing": "seen"}
    True
    """
    part = data
    for step in path[:-1]:
        part = part[step]
    notes = part.get("notes")
    part["notes"] = {**(notes if isinstance(notes, dict) else {}), path[-1]: BY_EYE}


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
