"""What taking hold of a part on the drawing means: which field of the draft holds its place, and the draft after it was moved.

A move is a difference in metres across and up, so that it is right at whatever height the load is drawn; depth is never changed, nor is
the coordinate along which the part was not moved. The new text keeps the unit and the tolerance of the old, on a grid of 1 mm, or of 1/16 in
where inches or feet were typed. A place that was moved is noted as placed by eye: what was said of the place before is not so of this one.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from rigcheck import units
from rigcheck.errors import InputError, QuantityError
from rigcheck.rig.model import Rig
from rigcheck.ui import form_notes, places
from rigcheck.ui.draft import Draft, Path
from rigcheck.ui.places import Spot
from rigcheck.ui.typed import unit_of
from rigcheck.unit_table import SAME, UNITS, fold

Mark = tuple[str, str]

POINT, SHEAVE, BODY, HINGE, DRUM, HAND = "point", "sheave", "body", "hinge", "drum", "hand"
FARTHEST_M = 1000.0
_NOTHING_M = 1e-6  # what is left of steps there and back again is no move
_OF_DRUM = (
    ("axis", "drum"),
    ("base", "drum"),
    ("motor", "motor"),
    ("gears", "gears"),
    ("crank", "crank"),
    ("brake", "brake"),
    ("pawl", "pawl"),
)
_METRIC_PLACES = {"millimeter": 0, "centimeter": 1, "meter": 3, "kilometer": 6}
_MM_M, _SIXTEENTH_M = 0.001, 0.0254 / 16


@dataclass(frozen=True)
class Hold:
    """The field that a part's place stands in, and the marks on the drawing that go along when it is moved."""

    field: Path
    carried: tuple[Mark, ...]


def holds(draft: Draft) -> dict[Mark, Hold]:
    """Everything that can be taken hold of, by kind and name of its mark; a hand is named after its rope.

    A sheave that alone hangs from its point, where no rope is made fast either, takes the point along; any other is moved by its offset.
    """
    found: dict[Mark, Hold] = {}
    for name in _parts(draft, "points"):
        sheaves = [(SHEAVE, each) for each in _riders(draft, name)]
        found[POINT, name] = Hold(("points", name, "at"), ((POINT, name), *sheaves))
    for name in _parts(draft, "bodies"):
        sheaves = [(SHEAVE, each) for each in _riders(draft, name)]
        found[BODY, name] = Hold(("bodies", name, "at"), ((BODY, name), *sheaves, ("guide", name), ("travel", name)))
        if draft.at(("bodies", name, "moves", "kind")) == "hinged":
            found[HINGE, name] = Hold(("bodies", name, "moves", "hinge"), ((HINGE, name),))
    for name in _parts(draft, "sheaves"):
        carrier = _carrier(draft, name)
        is_alone = carrier in _parts(draft, "points") and _riders(draft, carrier) == [name] and not _is_made_fast_to(draft, carrier)
        found[SHEAVE, name] = found[POINT, carrier] if is_alone else Hold(("sheaves", name, "offset"), ((SHEAVE, name),))
    if draft.at(("drive", "drum")) is not None:
        found[DRUM, "drum"] = Hold(("drive", "drum", "at"), ((DRUM, "drum"), *_OF_DRUM))
    for name, rope in _parts(draft, "ropes").items():
        for index, stop in enumerate(rope.get("path") or ()):
            if isinstance(stop, dict) and "pulled_by_hand_at" in stop:
                found[HAND, name] = Hold(("ropes", name, "path", index, "pulled_by_hand_at"), ((HAND, name),))
    return found


def place(draft: Draft, part: str, name: str) -> Spot | None:
    """Where a part is in the lowest pose, across and up in metres: a sheave's axle, a body's underside; None where that cannot be read."""
    if part == SHEAVE:
        return places.of_sheave(draft, name) if _carrier(draft, name) is not None else None
    hold = holds(draft).get((part, name))
    return None if hold is None else places.of_place(draft, hold.field)


def moved(draft: Draft, part: str, name: str, across_m: float, up_m: float) -> Draft:
    """The draft with a part moved; InputError where there is no such part, where its place cannot be read, or for a move out of bounds."""
    hold = holds(draft).get((part, name))
    if hold is None:
        raise InputError("it is no longer part of the rig", where=f"{part} {name}", right="Take hold of a part that is drawn.")
    if not all(math.isfinite(step) and abs(step) <= FARTHEST_M for step in (across_m, up_m)):
        raise InputError("it was moved too far", where=f"{part} {name}", right=f"Move it by at most {FARTHEST_M:g} m at a time.")
    draft = _with_moved(draft, hold.field, across_m, up_m, f"{part} {name}")
    base = ("drive", "drum", "base")
    return _with_moved(draft, base, across_m, up_m, "base of the winch") if part == DRUM and draft.at(base) is not None else draft


def displaced(draft: Draft, rig: Rig) -> dict[Path, Spot]:
    """By field, how far the draft has it from where a rig has it, across and up in metres: what was moved since the rig was drawn."""
    found = {}
    for hold in holds(draft).values():
        now, drawn = _field_place(draft, hold.field), _in_rig(rig, hold.field)
        if now is not None and drawn is not None:
            away = now[0] - drawn[0], now[1] - drawn[1]
            if max(abs(step) for step in away) > 1e-9:
                found[hold.field] = away
    return found


def rewritten(text: str, by_m: float) -> str:
    """A length as text, so much longer, in its own unit and with its own tolerance; QuantityError where it cannot be read.

    >>> rewritten("0.7 m", 0.01), rewritten("1200 mm", -0.01), rewritten("4 ft", 0.0127), rewritten("27 in", 0.0254 / 16)
    ('0.71 m', '1190 mm', '4 ft 1/2 in', '27 1/16 in')
    >>> rewritten("1.6 m ± 5 mm", 0.05), rewritten("1 m ± 1 %", 1.0), rewritten("4 ft ± 0.1", 0.3048)
    ('1.65 m ± 5 mm', '2 m ± 10 mm', '5 ft ± 0.1 ft')
    """
    quantity = units.read(text, "length")
    if abs(by_m) < _NOTHING_M:
        return text
    stated, _, tolerance = (part.strip() for part in text.translate(SAME).replace("+/-", "±").replace("+-", "±").partition("±"))
    unit = unit_of(stated)
    name = UNITS.get(fold(unit), {}).get("length", "foot")
    value = _in_its_unit(quantity.value + by_m, name, unit, is_decimal="." in stated or "," in stated)
    if not tolerance:
        return value
    if "%" in tolerance:
        small = "mm" if name in _METRIC_PLACES else "in"
        tolerance = f"{units.number(units.to_unit(quantity.plus_minus, small), 6)} {small}"
    elif name == "foot" and not unit_of(tolerance):
        tolerance = f"{tolerance} ft"
    return f"{value} ± {tolerance}"


def _in_its_unit(value_m: float, name: str, unit: str, *, is_decimal: bool) -> str:
    if name in _METRIC_PLACES:
        return f"{_plain(Decimal(_steps(value_m, _MM_M)).scaleb(-_METRIC_PLACES[name]))} {unit}"
    sixteenths = _steps(value_m, _SIXTEENTH_M)
    if name == "yard":
        return f"{_plain((Decimal(sixteenths) / 576).quantize(Decimal('1e-6')))} {unit}"
    if name == "inch":
        return f"{_plain(Decimal(sixteenths) / 16) if is_decimal else _inches(sixteenths)} {unit}"
    sign, (feet, rest) = "-" if sixteenths < 0 else "", divmod(abs(sixteenths), 12 * 16)
    return f"{sign}{feet} ft {_inches(rest)} in" if rest else f"{sign}{feet} ft"


def _steps(value_m: float, step_m: float) -> int:
    # what floats cannot hold must not tip a half
    return math.floor(round(value_m / step_m, 6) + 0.5)


def _plain(value: Decimal) -> str:
    shown = f"{value:f}"
    return shown.rstrip("0").rstrip(".") if "." in shown else shown


def _inches(sixteenths: int) -> str:
    """A number of inches with a fraction in its lowest terms.

    >>> _inches(16), _inches(1), _inches(-28), _inches(0)
    ('1', '1/16', '-1 3/4', '0')
    """
    whole, rest = divmod(abs(sixteenths), 16)
    shared = math.gcd(rest, 16)
    told = " ".join(part for part in (str(whole) if whole or not rest else "", f"{rest // shared}/{16 // shared}" if rest else "") if part)
    return f"-{told}" if sixteenths < 0 else told


def _with_moved(draft: Draft, field: Path, across_m: float, up_m: float, where: str) -> Draft:
    before = draft
    for index, by_m in enumerate((across_m, up_m)):
        if abs(by_m) < _NOTHING_M:
            continue
        steps = _steps_of(draft, field)
        try:
            text = rewritten(steps[index], by_m)
        except (QuantityError, IndexError) as fault:
            wrong = fault.wrong if isinstance(fault, QuantityError) else "a coordinate is missing"
            right = "Mend the coordinate in its form, then it can be moved."
            raise InputError(f"its place cannot be read: {wrong}", where=where, right=right) from fault
        draft = draft.with_step(field, index, text, text, steps)
    if draft.at(field) != before.at(field):
        form_notes.by_eye(draft.data, field)  # the draft is a new one, whose data nothing else holds
    return draft


def _steps_of(draft: Draft, field: Path) -> list:
    """The coordinates of a place as they stand; an offset that was left out is nothing, in the unit of what it is counted from."""
    given = draft.at(field)
    if given is None and field[-1] == "offset":
        carrier = _carrier(draft, field[1])
        at = draft.at(("points" if carrier in _parts(draft, "points") else "bodies", carrier, "at"))
        unit = unit_of(str(at[0]).translate(SAME)) if isinstance(at, list) and at else ""
        unit = unit if "length" in UNITS.get(fold(unit), {}) else "m"
        return [f"0 {unit}", f"0 {unit}"]
    return list(given) if isinstance(given, list) else []


def _field_place(draft: Draft, field: Path) -> Spot | None:
    return (0.0, 0.0) if field[-1] == "offset" and draft.at(field) is None else places.of_place(draft, field)


def _in_rig(rig: Rig, field: Path) -> Spot | None:
    """The place that stands in a field of a rig, None where it has no such field."""
    here = rig
    for step in field:
        if isinstance(here, dict):
            here = here.get(step)
        elif isinstance(here, tuple):
            here = here[step] if step < len(here) else None
        else:
            here = getattr(here, str(step), None)
        if here is None:
            return None
    return here[0].value, here[1].value


def _parts(draft: Draft, section: str) -> dict[str, dict]:
    held = draft.at((section,))
    return {name: part for name, part in held.items() if isinstance(part, dict)} if isinstance(held, dict) else {}


def _carrier(draft: Draft, sheave: str) -> str | None:
    """What a sheave sits on, None where that is not a name."""
    name = draft.at(("sheaves", sheave, "on"))
    return name if isinstance(name, str) else None


def _riders(draft: Draft, carrier: str) -> list[str]:
    return [name for name, sheave in _parts(draft, "sheaves").items() if sheave.get("on") == carrier]


def _is_made_fast_to(draft: Draft, carrier: str) -> bool:
    return any(stop.get("made_fast_to") == carrier for stop in _stops(draft))


def _stops(draft: Draft) -> Iterator[dict]:
    for rope in _parts(draft, "ropes").values():
        yield from (stop for stop in rope.get("path") or () if isinstance(stop, dict))
