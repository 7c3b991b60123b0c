"""What of a rig its form on Begin cannot say: a short list of part, what, from and to; and what gave way to an answer that was typed last."""

from __future__ import annotations

from rigcheck import units
from rigcheck.errors import PartError, QuantityError
from rigcheck.parts import fibre_rope
from rigcheck.report.path_words import in_words
from rigcheck.ui import field_input
from rigcheck.ui.draft import Draft, Path
from rigcheck.ui.plain_text import in_html

MOST = 8
NOT_STATED, THERE, NOT_THERE = "not stated", "there", "not there"
_STEPS = ("across", "up", "in depth")
_HAIR_M = 5e-7


def in_html_words(draft: Draft) -> str:
    """The list as HTML; "" where the form says all of the rig."""
    told = ""
    if rows := differences(draft):
        items = "".join(f"<li>{in_html(row)}</li>" for row in rows[:MOST])
        more = f"<li>and {len(rows) - MOST} more, all under Change parts</li>" if len(rows) > MOST else ""
        told = f'<div class="rc-stale"><p>Changed elsewhere, and no field of this form says it:</p><ul>{items}{more}</ul></div>'
    if gone := list(dict.fromkeys(_called(path) for path in draft.dropped if "notes" not in path)):
        told += f'<p class="rc-stale">Gave way to what was typed here last: {in_html("; ".join(gone))}.</p>'
    return told


def differences(draft: Draft) -> list[str]:
    """One line for each field that stands otherwise than the form would make it.

    >>> made = {"drive": {"drum": {"at": ["1 m", "0.4 m"]}}}
    >>> differences(Draft({"drive": {"drum": {"at": ["1 m", "0.42 m"]}, "cable": {}}}, "", made=made))
    ['cable: not there → there', 'drum: axis of the drum, up: 0.4 m → 0.42 m']
    """
    if draft.made is None:
        return []
    before = Draft(draft.made, "")
    leaves = [leaf for path in draft.changed_by_hand() if "notes" not in path for leaf in _leaves(before.at(path), draft.at(path), path)]
    return [f"{_called(path)}: {old} → {new}" for path, old, new in leaves if old != new]


def size_not_listed(draft: Draft) -> str:
    """That no fibre rope of its material is listed in a rope's diameter, with the sizes that are; "" where one is.

    >>> size_not_listed(Draft({"ropes": {"line": {"kind": "fibre", "material": "polyester", "diameter": "8 mm"}}}, ""))
    ''
    """
    for rope in (draft.at(("ropes",)) or {}).values():
        if not isinstance(rope, dict) or rope.get("kind") != "fibre" or rope.get("breaking_force") is not None:
            continue
        try:
            fibre_rope.fibre_rope(rope.get("material"), units.read(rope.get("diameter"), "length").value)
        except PartError as fault:
            if rope.get("material") in fibre_rope.fibre_materials():
                return f"{fault.wrong[:1].upper()}{fault.wrong[1:]}: its strength cannot be told without a certificate. {fault.right}"
        except (QuantityError, TypeError, AttributeError):
            continue
    return ""


def _leaves(old, new, path: Path) -> list[tuple[Path, str, str]]:
    """The single values in what came or went, each with how it stood and how it stands."""
    if path[:1] == ("ropes",) and path[-1:] == ("path",):
        return [(path, _stops(old), _stops(new))]
    if isinstance(new, dict) and new and old is None:
        return [leaf for key, value in new.items() if key != "notes" for leaf in _leaves(None, value, (*path, key))]
    if isinstance(old, dict | list) or isinstance(new, dict | list):
        if _is_place(old) or _is_place(new):
            return [(path, _place(old), _place(new))]
        return [(path, _there(old), _there(new))]
    return [] if _is_same_length(old, new) else [(path, _value(old), _value(new))]


def _called(path: Path) -> str:
    words = in_words(path)
    if isinstance(path[-1], int) and path[0] != "ropes" and path[:2] != ("drive", "gears"):
        words += f", {_STEPS[path[-1]]}" if path[-1] < len(_STEPS) else ""
    elif isinstance(path[-1], int) and path[-2:-1] == ("pulled_by_hand_at",):
        words = f"{in_words(path[:-1])}, {_STEPS[path[-1]]}"
    return words


def _value(value) -> str:
    if value is None or value == "":
        return NOT_STATED
    if isinstance(value, bool):
        return "yes" if value else "no"
    told = field_input.comes_to(value)
    return f"{value} ({told})" if told else str(value)


def _there(value) -> str:
    if isinstance(value, list):
        return f"{len(value)} of them"
    return NOT_THERE if value is None else THERE


def _is_place(value) -> bool:
    return isinstance(value, list) and 2 <= len(value) <= len(_STEPS) and all(isinstance(step, str) for step in value)


def _place(value) -> str:
    if not _is_place(value):
        return NOT_STATED
    return ", ".join(f"{_value(step)} {way}" for step, way in zip(value, _STEPS, strict=False))


def _stops(value) -> str:
    stops = value if isinstance(value, list) else []
    return f"{len(stops)} stops"


def _is_same_length(old, new) -> bool:
    """Whether two lengths differ by no more than a hair, such as two ways to write one."""
    try:
        one, other = (units.read(text, "length") for text in (old, new))
    except (QuantityError, TypeError, AttributeError):
        return False
    return one.plus_minus == other.plus_minus and abs(one.value - other.value) < _HAIR_M
