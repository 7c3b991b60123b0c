"""What the sentences on a page are made of, as plain data: words, what could stand in their place and what is then asked for, pictures."""

from __future__ import annotations

from rigcheck.ui import draft_parts, places, rope_words, sentences, turning_picture
from rigcheck.ui.draft import Draft
from rigcheck.ui.growing import OVER, Target

CHOOSE, NO_SHEAVE = "choose", "no sheave"
_HINT = "Press a name to change it, to move it or to take it out; + puts in a sheave after it."


def begins(draft: Draft) -> dict[str, dict[Target, str]]:
    """Where the first end of a new rope can go: not to the drive, which is for its last."""
    return {
        heading: choices
        for heading, choices in rope_words.ends_offered(draft, None, sentences.FIRST).items()
        if heading != rope_words.PULLED
    }


def flat(groups: dict[str, dict[Target, str]]) -> dict[Target, str]:
    """Everything that is offered, without its headings."""
    return {target: words for choices in groups.values() for target, words in choices.items()}


def is_first(draft: Draft, rope: str) -> bool:
    """Whether a rope is the one beside which things are told once."""
    return rope == draft_parts.names(draft, "ropes")[0]


def of_rope(draft: Draft, rope: str) -> dict:
    """The sentence of one rope."""
    path, told = rope_words.stops(draft, rope), rope_words.stops_in_words(draft, rope)
    spots = [places.of_stop(draft, stop) for stop in path]
    last = len(path) - 1
    stops = []
    for index, (stop, words) in enumerate(zip(path, told, strict=True)):
        is_end = index in (0, last)
        own = ("first" if index == 0 else "last") if is_end else f"over {stop.get('over')}"
        around = (spots[index - 1] if index else None, spots[index], spots[index + 1] if index < last else None)
        stops.append({
            "id": own, "word": words.word, "words": words.words, "label": f"{words.word} {words.words}: change this",
            "groups": _end_groups(draft, rope, own, index, words.target) if is_end else _sheave_groups(draft, rope, own, index, last),
            "senses": _senses(own, around, words), "turning": f"Turning at {words.words}, seen from the front",
            "more": _more(draft, rope, own, words.words) if index < last else None,
        })  # fmt: skip
    own = [{"heading": "This rope", "choices": [{"words": "take this rope away", "ask": {"do": "remove"}}]}]
    is_alone = len(draft_parts.names(draft, "ropes")) < 2
    return {
        "opening": "Rope",
        "name": rope,
        "own": [] if is_alone else own,
        "stops": stops,
        "is_new": False,
        "hint": _HINT if is_first(draft, rope) else "",
    }


def _groups(offered: dict[str, dict[Target, str]], ask: dict, now: Target = ()) -> list[dict]:
    return [
        {"heading": heading, "choices": [{"words": words, "key": list(target), "ask": {**ask, "to": list(target)}, "is_now": target == now}
                                         for target, words in choices.items()]}
        for heading, choices in offered.items() if choices
    ]  # fmt: skip


def _end_groups(draft: Draft, rope: str, own: str, index: int, now: Target) -> list[dict]:
    return _groups(rope_words.ends_offered(draft, rope, sentences.LAST if index else sentences.FIRST), {"do": "end", "stop": own}, now)


def _sheave_groups(draft: Draft, rope: str, own: str, index: int, last: int) -> list[dict]:
    choices = [
        {"words": words, "ask": {"do": "move", "stop": own, "by": by}}
        for words, by, is_possible in (("one earlier", -1, index > 1), ("one later", 1, index < last - 1)) if is_possible
    ]  # fmt: skip
    choices.append({"words": "take it out of this rope", "ask": {"do": "out", "stop": own}})
    instead = {
        f"Instead of it: {heading[:1].lower()}{heading[1:]}": each for heading, each in rope_words.sheaves_offered(draft, rope).items()
    }
    return [{"heading": "On the path", "choices": choices}, *_groups(instead, {"do": "instead", "stop": own})]


def _more(draft: Draft, rope: str, own: str, words: str) -> dict:
    offered = {f"Then over: {heading[:1].lower()}{heading[1:]}": each for heading, each in rope_words.sheaves_offered(draft, rope).items()}
    return {"label": f"add a sheave after {words}", "groups": _groups(offered, {"do": "add", "stop": own})}


def _senses(own: str, around: tuple, words: rope_words.StopWords) -> list[dict]:
    if words.turns is None and words.target[0] != OVER:
        return []
    return [
        {"turns": turns, "label": f"{turns} at {words.words}, seen from the front", "is_now": turns == words.turns,
         "svg": turning_picture.picture(*around, turns), "ask": {"do": "turn", "stop": own, "turns": turns}}
        for turns in (places.CLOCKWISE, places.ANTICLOCKWISE)
    ]  # fmt: skip


def of_a_new_rope(draft: Draft) -> dict:
    """The sentence by which a rope is begun."""
    asked = (
        ("first", rope_words.FROM, "where its first end goes", begins(draft), True),
        (
            "over",
            rope_words.OVER_WORD,
            "what it runs over",
            {**rope_words.sheaves_offered(draft, None), "Straight": {(): NO_SHEAVE}},
            False,
        ),
        ("last", rope_words.TO, "where its last end goes", rope_words.ends_offered(draft, None, sentences.LAST), True),
    )
    stops = [
        {"id": name, "word": word, "words": CHOOSE if is_needed else NO_SHEAVE, "label": label, "groups": _groups(offered, {}), "senses": [],
         "more": None, "is_needed": is_needed}
        for name, word, label, offered, is_needed in asked
    ]  # fmt: skip
    return {"opening": "Another rope", "name": "", "own": [], "hint": "", "stops": stops, "is_new": True, "begin": "Put this rope in"}
