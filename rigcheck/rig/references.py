"""Whether the parts of a rig fit together: every name leads somewhere, every rope has two ends, something drives it."""

from __future__ import annotations

import math

from rigcheck.rig.fields import FieldError, coordinates

LEAST_STRUT_M = 0.01


def check(rig) -> None:
    """Raise FieldError for the first thing that does not fit."""
    _one_load(rig)
    _names_differ(rig)
    _carried_by_bodies(rig)
    _travel_fits(rig)
    _no_more_than(rig)
    _struts_meet_points(rig)
    _winch_is_bolted_down(rig)
    for name, sheave in rig.sheaves.items():
        if sheave.on not in rig.points and sheave.on not in rig.bodies:
            wrong = f'the sheave sits on "{sheave.on}", which is neither a point nor a body'
            raise FieldError(wrong, _those(rig.points | rig.bodies), ("sheaves", name, "on"))
    if not rig.ropes:
        raise FieldError("the rig has no rope", "Add at least one rope with its path.")
    for name, rope in rig.ropes.items():
        _path_is_whole(rig, name, rope)
    _something_drives_it(rig)
    _every_body_hangs(rig)


def _those(names) -> str:
    return "There are: " + ", ".join(names) + "." if names else "There are none yet."


def _one_load(rig) -> None:
    loads = [name for name, body in rig.bodies.items() if body.role == "load"]
    if len(loads) != 1:
        what = "no body is the load" if not loads else f"{len(loads)} bodies are the load: {', '.join(loads)}"
        raise FieldError(what, 'Give exactly one body "role": "load".')


def _carried_by_bodies(rig) -> None:
    """Whatever carries a body is a body, and no body carries itself in the end."""
    for name, body in rig.bodies.items():
        seen, carrier = [name], body
        while carrier.moves.kind == "carried":
            by = carrier.moves.by
            where = ("bodies", seen[-1], "moves", "by")
            if by not in rig.bodies:
                raise FieldError(f'it is carried by "{by}", which is no body', _those(n for n in rig.bodies if n != seen[-1]), where)
            if by in seen:
                raise FieldError(
                    f'"{by}" is carried by itself in the end', "One of them must hang, run in a guide or turn about a hinge.", where
                )
            seen.append(by)
            carrier = rig.bodies[by]


def _travel_fits(rig) -> None:
    """A load that turns about a hinge has a swing, any other a travel."""
    limits, load = rig.limits, rig.load_name
    if rig.swings and limits.swing is None:
        wrong = f'the load "{load}" turns about a hinge, and how far it swings is not stated'
        raise FieldError(wrong, 'Add "swing": "60 deg" in the place of "travel".', ("limits",))
    if rig.swings and limits.travel is not None:
        wrong = f'the load "{load}" turns about a hinge: its travel is an angle'
        raise FieldError(wrong, 'Leave "travel" out; "swing" says how far it turns.', ("limits", "travel"))
    if not rig.swings and limits.swing is not None:
        raise FieldError(
            f'the load "{load}" does not turn about a hinge, so it has no swing',
            'State its "travel", such as "1.6 m".',
            ("limits", "swing"),
        )


def _names_differ(rig) -> None:
    twice = (set(rig.points) & set(rig.bodies)) | ({"drum"} & (set(rig.points) | set(rig.bodies) | set(rig.sheaves)))
    if twice:
        raise FieldError(f'the name "{min(twice)}" stands for two things', "Give points and bodies names of their own; drum is taken.")


def _no_more_than(rig) -> None:
    for what, things, most in (
        ("points", rig.points, 100),
        ("bodies", rig.bodies, 20),
        ("sheaves", rig.sheaves, 100),
        ("struts", rig.struts, 40),
        ("ropes", rig.ropes, 40),
    ):
        if len(things) > most:
            raise FieldError(f"the rig has {len(things)} {what}", f"At most {most} can be handled.")


def _struts_meet_points(rig) -> None:
    """Every strut runs between two points that lie apart; a joint has struts to hold it; no two struts lie side by side."""
    seen: dict[frozenset, str] = {}
    for name, strut in rig.struts.items():
        for field in ("one_end", "other_end"):
            end, where = getattr(strut, field), ("struts", name, field)
            if end in rig.bodies:
                raise FieldError(f'it ends at "{end}", which moves', "Let it end at points: a strut holds what stands still.", where)
            if end in rig.struts and end not in rig.points:
                raise FieldError(
                    f'it ends on the strut "{end}", which would bend it: a member with something bolted to its middle is a beam, not a strut',
                    "Let struts meet at points alone, or part that one in two at a point of its own.",
                    where,
                )
            if end not in rig.points:
                raise FieldError(f'it ends at "{end}", which is no point', _those(rig.points), where)
        one, other = (rig.points[end] for end in strut.ends)
        if math.dist(coordinates(one.at), coordinates(other.at)) < LEAST_STRUT_M:
            raise FieldError(
                "both its ends are at one place", "Let it run between two places that lie apart.", ("struts", name, "other_end")
            )
        if one.held == other.held == "fixed":
            raise FieldError(
                "both its ends are held by the building, so that it carries nothing that could be told",
                'Write "held": "struts" for the point that it holds, or "held": "ground" for feet that it ties together.',
                ("struts", name, "other_end"),
            )
        if (pair := frozenset(strut.ends)) in seen:
            raise FieldError(
                f'it runs between the same points as "{seen[pair]}"',
                "Two side by side are one member: state them as one.",
                ("struts", name, "other_end"),
            )
        seen[pair] = name
    for name, point in rig.points.items():
        if point.held == "struts" and not any(name in strut.ends for strut in rig.struts.values()):
            raise FieldError(
                "it is said to be held by struts, and no strut ends there", "Add the struts that hold it.", ("points", name, "held")
            )


def _winch_is_bolted_down(rig) -> None:
    """A winch that is bolted to a strut sits between the ends of one that can push."""
    bolted_to = rig.drive.drum.bolted_to if rig.drive.kind == "winch" else None
    if bolted_to is None:
        return
    where = ("drive", "drum", "bolted_to")
    if bolted_to not in rig.struts:
        raise FieldError(f'the winch is bolted to "{bolted_to}", which is no strut', _those(rig.struts), where)
    if rig.struts[bolted_to].pulls_only:
        raise FieldError(f'the winch is bolted to "{bolted_to}", which can only pull', "Name a leg or pole, or leave it out.", where)
    one, other = (coordinates(rig.points[end].at) for end in rig.struts[bolted_to].ends)
    long = math.dist(one, other)
    place = sum((c - a) * (b - a) for a, b, c in zip(one, other, coordinates(rig.drive.drum.at), strict=True)) / long
    if not 0 < place < long:
        raise FieldError(
            f'the drum stands beyond the ends of "{bolted_to}"',
            "Give the drum its place beside the strut, or name the one it is bolted to.",
            where,
        )


def _path_is_whole(rig, name: str, rope) -> None:
    where = ("ropes", name, "path")
    first, *middle, last = rope.path
    for index, stop in enumerate(middle, start=1):
        if not hasattr(stop, "over"):
            raise FieldError(
                "an end stands in the middle of the path", "A path is an end, then sheaves in order, then an end.", (*where, index)
            )
    for index, stop in ((0, first), (len(middle) + 1, last)):
        if hasattr(stop, "over"):
            right = "Let it begin and end made fast, on the drum or at a hand."
            raise FieldError(f'the path begins or ends at the sheave "{stop.over}"', right, (*where, index))
    if not hasattr(first, "made_fast_to") and not hasattr(last, "made_fast_to"):
        raise FieldError("both ends of the rope are pulled", "Make one end fast to a point or a body.", where)
    seen: set[str] = set()
    for index, stop in enumerate(middle, start=1):
        if stop.over not in rig.sheaves:
            raise FieldError(
                f'the rope runs over the sheave "{stop.over}", which does not exist', _those(rig.sheaves), (*where, index, "over")
            )
        if stop.over in seen:
            right = "Give the block a second sheave with a name of its own."
            raise FieldError(f'the rope runs over the sheave "{stop.over}" twice', right, (*where, index, "over"))
        seen.add(stop.over)
    for index, stop in ((0, first), (len(middle) + 1, last)):
        if hasattr(stop, "made_fast_to"):
            _end_leads_somewhere(rig, (*where, index), stop)


def _end_leads_somewhere(rig, where: tuple[str | int, ...], stop) -> None:
    target = stop.made_fast_to
    if target in rig.points:
        if stop.pick is not None:
            raise FieldError(f'"{target}" is a point and has no picks', 'Leave "pick" out.', (*where, "pick"))
    elif target in rig.bodies:
        if stop.pick is not None and stop.pick not in rig.bodies[target].picks:
            raise FieldError(f'the body "{target}" has no pick "{stop.pick}"', _those(rig.bodies[target].picks), (*where, "pick"))
    else:
        wrong = f'the end is made fast to "{target}", which is neither a point nor a body'
        raise FieldError(wrong, _those(rig.points | rig.bodies), (*where, "made_fast_to"))


def _something_drives_it(rig) -> None:
    on_drum = [n for n, rope in rig.ropes.items() for s in rope.path if hasattr(s, "wound_on")]
    by_hand = [n for n, rope in rig.ropes.items() for s in rope.path if hasattr(s, "pulled_by_hand_at")]
    if rig.drive.kind == "winch":
        if by_hand:
            raise FieldError(
                f'rope "{by_hand[0]}" is pulled by hand, but the drive is a winch', 'Wind it on the drum, or make the drive a "hand line".'
            )
        if not on_drum:
            raise FieldError("no rope is wound on the drum", 'End the hoist rope with {"wound_on": "drum", "turns": "clockwise"}.')
        _all_wind_on_together(rig, on_drum)
    elif on_drum:
        raise FieldError(f'rope "{on_drum[0]}" is wound on a drum, but the drive is a hand line', 'Make the drive a "winch" with its drum.')
    elif len(by_hand) != 1:
        what = "no rope is pulled by hand" if not by_hand else "more than one rope is pulled by hand: " + ", ".join(by_hand)
        raise FieldError(what, 'End exactly one rope with {"pulled_by_hand_at": ["1 m", "1.2 m"]}.')


def _all_wind_on_together(rig, on_drum: list[str]) -> None:
    """The drum turns one way while it winds in: a path that ends on it runs round with the drum then, one that begins there against it."""
    senses = {}
    for name in on_drum:
        path = rig.ropes[name].path
        index = 0 if hasattr(path[0], "wound_on") else len(path) - 1
        senses[name] = (path[index].turns == "clockwise") == (index > 0), index
    first = on_drum[0]
    for name, (sense, index) in senses.items():
        if sense != senses[first][0]:
            raise FieldError(
                f'while the drum winds in "{first}" it pays out "{name}": the two lie round it in opposite senses',
                "Turn one of them round: only ropes that are wound in together can be worked here.",
                ("ropes", name, "path", index, "turns"),
            )


def _every_body_hangs(rig) -> None:
    held = {s.made_fast_to for rope in rig.ropes.values() for s in rope.path if hasattr(s, "made_fast_to")}
    held |= {rig.sheaves[s.over].on for rope in rig.ropes.values() for s in rope.path if hasattr(s, "over")}
    held = {rig.carrier(name) if name in rig.bodies else name for name in held}
    for name in rig.bodies:
        if rig.carrier(name) not in held:
            raise FieldError(f'nothing holds the body "{name}"', "Make a rope fast to it, or run a rope over a sheave on it.")
