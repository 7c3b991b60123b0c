"""What one press could mend where a rig is not solved: each mend is tried, and offered if the rig is solved with it.

Where none is enough alone, the turn of a sheave that the rope is told to leave is offered all the same: it is one fault less.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from rigcheck.errors import RigcheckError
from rigcheck.rig.faults import Fault
from rigcheck.ui import draft_parts, places, sentences
from rigcheck.ui.draft import Draft
from rigcheck.ui.growing import AT, BY_HAND, ON_DRUM, OVER, Target
from rigcheck.ui.leftovers import came_and_went, cleared, unused
from rigcheck.ui.rope_words import ends_offered, stops
from rigcheck.ui.trial import hindrance

_MOST_TRIED, _MOST_OFFERED = 24, 4
_LONG = math.radians(200)


@dataclass(frozen=True)
class Mend:
    """One mend: in words, and the draft with it."""

    words: str
    draft: Draft


def concerns(draft: Draft, rope: str, fault: RigcheckError | None, faults: list[Fault]) -> bool:
    """Whether what stands in the way is to be told beside a rope: it is named, or something that a rope could hold or drive."""
    if fault is not None:
        named = [name for name in draft_parts.names(draft, "ropes") if fault.where == f'rope "{name}"']
        if not named and fault.where == "ropes":
            named = [name for name in draft_parts.names(draft, "ropes") if name in fault.wrong]
        return rope in named or (not named and fault.where in ("bodies", "drive", "ropes", "travel") and rope == _main(draft))
    for one in faults[:1]:
        return one.path[:3] == ("ropes", rope, "path") if one.path else rope == _main(draft)
    return False


def _main(draft: Draft) -> str:
    """The rope that is pulled, or the first one: what belongs to no rope alone is told beside it."""
    names = draft_parts.names(draft, "ropes")
    return next((name for name in names if any("wound_on" in stop or "pulled_by_hand_at" in stop for stop in stops(draft, name))), names[0])


def offered(draft: Draft, rope: str) -> list[Mend]:
    """The mends that lead to a rig that is solved, the smallest change first."""
    found: list[Mend] = []
    for tried, mend in enumerate(_all(draft, rope)):
        if tried == _MOST_TRIED or len(found) == _MOST_OFFERED:
            break
        if mend.words not in [each.words for each in found] and hindrance(mend.draft) is None:
            found.append(mend)
    return found or _half(draft, rope)


def _all(draft: Draft, rope: str) -> Iterator[Mend]:
    path = stops(draft, rope)
    yield from _turns(draft, rope)
    guessed = sentences.sensed(draft, rope)
    if guessed.data != draft.data:
        yield Mend("Turn every sheave of this rope the way the rope lies", guessed)
    for name, body in (draft.at(("bodies",)) or {}).items():
        moves = body.get("moves") or {}
        if moves.get("kind") in ("level", "free") or moves.get("tilts"):
            yield Mend(f"Run {name} straight up and down in a guide", draft.edited(("bodies", name, "moves"), None))
    for section, name in unused(draft):
        if section == "sheaves":
            for after in range(len(path) - 1):
                yield Mend(f"Run it over {name}", sentences.with_stop_added(draft, rope, after, (OVER, name)))
    for which, words, index in ((sentences.LAST, "last", len(path) - 1), (sentences.FIRST, "first", 0)):
        for target, told in _likely_ends(draft, rope, which):
            if path and stops(draft, rope)[index] != told:
                yield Mend(f"Let its {words} end go to {told}", sentences.with_end(draft, rope, which, target))


def _turns(draft: Draft, rope: str) -> Iterator[Mend]:
    for index, stop in enumerate(stops(draft, rope)):
        if "turns" in stop:
            yield Mend(f"Turn the other way at {stop.get('over', 'the drum')}", sentences.flipped(draft, rope, index))


def _likely_ends(draft: Draft, rope: str, which: int) -> list[tuple[Target, str]]:
    """The ends that something drives, and the eyes of bodies."""
    bodies = draft.at(("bodies",)) or {}
    flat = {target: words for group in ends_offered(draft, rope, which).values() for target, words in group.items()}
    return [
        (target, words) for target, words in flat.items() if target[0] in (BY_HAND, ON_DRUM) or (target[0] == AT and target[1] in bodies)
    ]


def _half(draft: Draft, rope: str) -> list[Mend]:
    """The turn at the one sheave that the rope is told to leave."""
    now = hindrance(draft)
    if now is None or "it leaves the sheave" not in now.wrong:
        return []
    told = [mend for mend, stop in zip(_turns(draft, rope), (s for s in stops(draft, rope) if "turns" in s), strict=True)
            if f'the sheave "{stop.get("over")}"' in now.wrong]  # fmt: skip
    return told[:1]


def long_ways(draft: Draft, rope: str) -> list[Mend]:
    """The turns at sheaves that the rope goes most of the way round, where the other way it would only turn its corner."""
    path = stops(draft, rope)
    spots = [places.of_stop(draft, stop) for stop in path]
    told = (
        index for index in range(1, len(path) - 1) if (places.wrap(*spots[index - 1 : index + 2], path[index].get("turns")) or 0) > _LONG
    )
    return [Mend(f"Turn the other way at {path[index].get('over')}", sentences.flipped(draft, rope, index)) for index in told]


def clearing(draft: Draft) -> Mend | None:
    """The removal of what no rope uses any more; None where everything is used."""
    if not unused(draft):
        return None
    without = cleared(draft)
    left = came_and_went(draft, without)[1]
    return Mend(f"Remove what no rope uses: {', '.join(left[:4])}{' …' if len(left) > 4 else ''}", without)
