"""A rope's path in words, "from … over … to …", and what each of its places could be instead."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck.ui import draft_parts, drive_change
from rigcheck.ui.draft import Draft
from rigcheck.ui.growing import (
    AT,
    BY_HAND,
    NEW_BLOCK,
    NEW_COUNTERWEIGHT,
    NEW_EYE,
    NEW_POINT,
    ON,
    ON_DRUM,
    ON_NEW_BLOCK,
    ON_NEW_POINT,
    OVER,
    Target,
)  # fmt: skip

FROM, OVER_WORD, TO = "from", "over", "to"
PULLED = "Pulled"


@dataclass(frozen=True)
class StopWords:
    """One stop in words: the word before it, what it is, where the rope goes there, and the sense of turning where it has one."""

    word: str
    words: str
    target: Target
    turns: str | None = None


def stops(draft: Draft, rope: str) -> list[dict]:
    """The stops of a rope as they stand in the draft."""
    return [stop if isinstance(stop, dict) else {} for stop in draft.at(("ropes", rope, "path")) or []]


def stops_in_words(draft: Draft, rope: str) -> list[StopWords]:
    """The sentence of a rope, stop by stop."""
    path = stops(draft, rope)
    found = []
    for index, stop in enumerate(path):
        word = FROM if index == 0 else TO if index == len(path) - 1 else OVER_WORD
        found.append(StopWords(word, _words(stop), _target(stop), stop.get("turns")))
    return found


def _words(stop: dict) -> str:
    if "over" in stop:
        return stop["over"] or "no sheave yet"
    if "wound_on" in stop:
        return "the drum"
    if "pulled_by_hand_at" in stop:
        return "a hand"
    return " · ".join(each for each in (stop.get("made_fast_to"), stop.get("pick")) if each) or "nothing yet"


def _target(stop: dict) -> Target:
    if "over" in stop:
        return OVER, stop["over"]
    if "wound_on" in stop:
        return (ON_DRUM,)
    if "pulled_by_hand_at" in stop:
        return (BY_HAND,)
    return AT, stop.get("made_fast_to") or "", stop.get("pick") or ""


def sentence(draft: Draft, rope: str) -> str:
    """The whole sentence as text.

    >>> from rigcheck.ui import scratch
    >>> sentence(scratch.beginning(), "hoist rope")
    'hoist rope from load · eye over head sheave (clockwise) to a hand'
    """
    told = (f"{stop.word} {stop.words}" + (f" ({stop.turns})" if stop.word == OVER_WORD else "") for stop in stops_in_words(draft, rope))
    return " ".join([rope, *told])


def ends_offered(draft: Draft, rope: str | None, which: int) -> dict[str, dict[Target, str]]:
    """Where an end of a rope (or of a new one) can go, in words, by heading."""
    bodies = list(draft.at(("bodies",)) or {})
    there: dict[Target, str] = {(AT, name, ""): name for name in draft.at(("points",)) or {}}
    for body in bodies:
        eyes = draft_parts.picks(draft, body)
        there |= {(AT, body, eye): f"{body} · {eye}" for eye in eyes} or {(AT, body, ""): body}
    new = {(NEW_POINT,): "a new fixed point"} | {(NEW_EYE, body): f"a new eye on {body}" for body in bodies}
    new |= {(NEW_COUNTERWEIGHT,): "a new counterweight", (NEW_BLOCK,): "a new block that moves"}
    found = {"Made fast to": there, "Made fast to something new": new}
    path = stops(draft, rope) if rope is not None else []
    if not (path and _is_pulled(path[-1 - which if which else -1])) and (pulled := _pulled(draft, rope)):
        found[PULLED] = pulled
    return found


def _pulled(draft: Draft, rope: str | None) -> dict[Target, str]:
    driven = {name for name in draft.at(("ropes",)) or {} if any(_is_pulled(stop) for stop in stops(draft, name))}
    if drive_change.is_hand_line(draft):
        by_hand = {(BY_HAND,): "a hand"} if driven <= {rope} else {}
        return by_hand | {(ON_DRUM,): "a drum: a winch takes the place of the hand line"}
    by_hand = {(BY_HAND,): "a hand: a hand line takes the place of the winch"} if driven <= {rope} else {}
    return {(ON_DRUM,): "the drum"} | by_hand


def _is_pulled(stop: dict) -> bool:
    return "wound_on" in stop or "pulled_by_hand_at" in stop


def sheaves_offered(draft: Draft, rope: str | None) -> dict[str, dict[Target, str]]:
    """The sheaves a rope (or a new one) can run over that it does not run over yet, in words, by heading."""
    own = {stop.get("over") for stop in stops(draft, rope)} if rope is not None else set()
    there: dict[Target, str] = {(OVER, name): name for name in draft.at(("sheaves",)) or {} if name not in own}
    new: dict[Target, str] = {(ON_NEW_POINT,): "a new sheave on a new fixed point"}
    new |= {(ON, body): f"a new sheave on {body}" for body in draft.at(("bodies",)) or {}}
    new |= {
        (ON, point): f"a new sheave on {point}" for point in draft.at(("points",)) or {} if not draft_parts.users(draft, "points", point)
    }
    new |= {(ON_NEW_BLOCK,): "a new sheave on a new block that moves"}
    return {"A sheave that is there": there, "A new one": new} if there else {"A new one": new}
