"""What the drawing tells of moves: its messages are taken into the draft once each, and it is told how every part can be moved."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck import units
from rigcheck.errors import InputError
from rigcheck.rig.model import Rig
from rigcheck.ui import moves, overlaps, session
from rigcheck.ui.draft import Draft

INCH_M = 0.0254
STEPS = {
    units.METRIC: {"unit": "m", "coarse_m": 0.01, "fine_m": 0.001},
    units.US: {"unit": "ft", "coarse_m": INCH_M / 2, "fine_m": INCH_M / 16},
}
FIXED = "Its place cannot be read at present; mend it in its form, then it can be moved."
NOT_WORKED_OUT = "Drawn is the last good result. Moved since then, and not worked out: "
_MOST_OVERLAPS = 2


@dataclass(frozen=True)
class Taken:
    """Up to which message of which drawing the draft holds everything, and what the last of them was refused for."""

    sender: str = ""
    serial: int = 0
    refused: str = ""


def take(key: str) -> None:
    """Take every move into the draft that is not in it yet, each as one step that can be taken back.

    The drawing sends what it has no answer to again and again, so nothing is lost when one run is overtaken by the next.
    """
    sent = session.entered(key)["moves"]
    if not isinstance(sent, dict) or sent.get("opened") != session.opened():
        return
    done = taken(key)
    serial = done.serial if sent.get("sender") == done.sender else 0
    refused = ""
    for move in sent.get("moves") or ():
        if move["serial"] <= serial:
            continue
        serial, refused = move["serial"], ""
        draft = session.draft()
        try:
            new = moves.moved(draft, move["part"], move["name"], float(move["across"]), float(move["up"]))
        except InputError as fault:
            refused = str(fault)
        else:
            if new.data != draft.data:
                session.put(new)
    session.remember(_kept(key), Taken(sent["sender"], serial, refused))


def taken(key: str) -> Taken:
    """What was taken from a drawing last."""
    return session.remembered(_kept(key), Taken())


def message(draft: Draft, rig: Rig, done: Taken) -> dict:
    """What the drawing needs to know: where every part is, what goes along with it, and what was moved since the rig was drawn."""
    held = moves.holds(draft)
    carried = {str(hold.field): [_key(*mark) for mark in hold.carried] for hold in held.values()}
    away = moves.displaced(draft, rig)
    return {
        "grips": {_key(*mark): _grip(draft, mark, str(hold.field)) for mark, hold in held.items()},
        "carried": carried,
        "away": [[str(field), *by] for field, by in away.items()],
        "step": STEPS[units.system()],
        "done": {"sender": done.sender, "serial": done.serial},
        "refused": done.refused,
        "stale": " ".join([*_not_worked_out(draft, held, away), *_overlaps(draft)]),
    }


def _grip(draft: Draft, mark: moves.Mark, field: str) -> dict:
    place = moves.place(draft, *mark)
    across, up = place or (0.0, 0.0)
    return {"field": field, "across": across, "up": up, "fixed": FIXED if place is None else ""}


def _not_worked_out(draft: Draft, held: dict[moves.Mark, moves.Hold], away: dict) -> list[str]:
    return [NOT_WORKED_OUT + "; ".join(_told(draft, held, field) for field in away) + "."] if away else []


def _overlaps(draft: Draft) -> list[str]:
    """The first few sheaves that are drawn in the same place."""
    found = [each.words for each in overlaps.overlapping(draft)]
    more = len(found) - _MOST_OVERLAPS
    return found[:_MOST_OVERLAPS] + ([f"And {more} more {'pair' if more == 1 else 'pairs'} of sheaves overlap."] if more > 0 else [])


def _told(draft: Draft, held: dict[moves.Mark, moves.Hold], field) -> str:
    part, name = next(mark for mark, hold in held.items() if hold.field == field)
    across, up = moves.place(draft, part, name) or (None, None)
    called = name if part == moves.DRUM else f"{part} {name}"
    return f"{called} to {units.show(across, 'm')} across, {units.show(up, 'm')} up"


def _key(part: str, name: str) -> str:
    return f"{part}:{name}"


def _kept(key: str) -> str:
    return f"moves of {key}"
