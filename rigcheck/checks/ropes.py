"""Ropes, judged place by place: at each end with its fitting, at each sheave and the drum with its bend, condition everywhere.

The pull counted at a place is the greatest of raising, standing still (each sheave holding as it likes) and lowering in the
runs that meet there: the cautious friction for strength is the one that pulls hardest.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from rigcheck import units
from rigcheck.checks import rope_formulas as formulas
from rigcheck.checks.check import A_HAIR, FALLS_SHORT, FROM_MEMORY, Judge, Wants, called
from rigcheck.checks.rope_strength import Strength, breaking_force_n, catalogue_diameters_m, strength
from rigcheck.errors import OutOfRangeError, PartError
from rigcheck.parts.bend_strength import BEND_SOURCE, bend_strength
from rigcheck.parts.diameter_ratio import least_ratio
from rigcheck.parts.end_fitting import end_fitting, end_fittings
from rigcheck.rig.model import Rope
from rigcheck.working import Line

RETIRE_BELOW = 0.85
RETIRE_SOURCE = "WAC 296-24-29401(2): a wire rope is retired when its strength is down by 15 %"


@dataclass(frozen=True)
class _Rope:
    """A rope under judgement, with the lines that all its places share."""

    name: str
    rope: Rope
    diameter: Line
    strength: Strength
    condition: Line | None
    dynamic: Line
    required: float | None
    note: str


@dataclass(frozen=True)
class _Place:
    """One place of a rope and how its share of the strength follows from a diameter."""

    id: str
    what: str
    pull: Line
    share_for: Callable[[float], float] | None


def check(judge: Judge) -> None:
    """Judge every rope of the rig."""
    for name, rope in judge.rig.ropes.items():
        _check_rope(judge, name, rope)


def required_factor(judge: Judge, rope: Rope) -> tuple[float | None, str]:
    """The factor asked of a rope, and a word if it was moved away from the basis."""
    asked = judge.basis.steel_rope if rope.kind == "steel" else judge.basis.fibre_rope
    typed = judge.rig.basis.rope_factor
    if typed is None or asked is None:
        return asked, ""
    if typed < asked:
        judge.leave_out(
            f"The required rope factor was LOWERED from {asked:g} ({judge.basis.title}) to {typed:g} by whoever entered the rig."
        )
        return typed, f"The required factor was lowered from {asked:g} to {typed:g}."
    return typed, f"The required factor was raised from {asked:g} to {typed:g}." if typed > asked else ""


def _check_rope(judge: Judge, name: str, rope: Rope) -> None:
    diameter = judge.given(
        formulas.DIAMETER.of(name, f"diameter of {name}"), rope.diameter.value, f"ropes, {name}, diameter", rope.notes.get("diameter", "")
    )
    found = strength(judge, name, rope, diameter)
    required, note = required_factor(judge, rope)
    condition = None
    if rope.remaining_strength is not None:
        sign = formulas.REMAINING.of(name, f"share of strength left in {name}")
        condition = judge.given(
            sign, rope.remaining_strength, f"ropes, {name}, remaining_strength", rope.notes.get("remaining_strength", "")
        )
    dynamic = judge.given(
        formulas.DYNAMIC.of(name),
        judge.rig.basis.dynamic_factor,
        "basis, dynamic_factor",
        "1 means that the required factor covers starting and stopping",
    )
    this = _Rope(name, rope, diameter, found, condition, dynamic, required, note)
    _check_condition(judge, this)
    places = [_check_end(judge, this, 0), *_check_bends(judge, this), _check_end(judge, this, -1)]
    failed = [judge.checks[i] for place in places if place for i in [_index(judge, place.id)] if judge.checks[i].verdict == FALLS_SHORT]
    if failed:
        remedy = _remedy(judge, this, [p for p in places if p])
        for check in failed:
            judge.replace(check, remedy=remedy)


def _index(judge: Judge, id: str) -> int:
    return next(i for i, check in enumerate(judge.checks) if check.id == id)


def _said(rope: Rope) -> str:
    """What is said of a rope's condition where the share of its strength that is left is not stated."""
    note = rope.notes.get("remaining_strength", "").strip().rstrip(".")
    return f"Of its condition it is said: {note}." if note else "Its condition is not stated."


def _check_condition(judge: Judge, this: _Rope) -> None:
    id, part = f"rope.{this.name}.condition", ("rope", this.name)
    if this.condition is None:
        judge.cannot_tell(id, called("rope", this.name), "condition", part, f"{_said(this.rope)} Count broken wires or look for glazing, powder and cuts along its whole "
                          "length, measure its diameter, and enter the share of strength left (1 for a new rope).", on_load=False,
                          wants=_condition(this))  # fmt: skip
        return
    if this.rope.kind == "fibre":
        judge.leave_out(
            "Fibre ropes: no published share of strength is known at which they are to be replaced; the condition entered is counted as it is."
        )
        return
    limit = judge.working.looked_up(
        formulas.REMAINING.of(f"{this.name} least", "least share of strength at which a rope is kept"),
        RETIRE_BELOW,
        "retirement",
        RETIRE_SOURCE,
    )
    judge.compare(
        id,
        called("rope", this.name),
        "condition: share of strength left",
        part,
        limit,
        this.condition,
        source=RETIRE_SOURCE,
        remedy="Replace the rope.",
        mends=_condition(this),
    )


def _condition(this: _Rope) -> Wants:
    return (("ropes", this.name, "remaining_strength"),)


def _judge_place(
    judge: Judge,
    this: _Rope,
    id: str,
    what: str,
    pull: Line,
    make_force: Callable[[], Line],
    source: str,
    mark: str,
    reason: str,
    fields: Wants = (),
) -> None:
    """Judge one place; `fields` are those of the place itself, such as the fitting of an end."""
    part, item = ("rope", this.name), called("rope", this.name)
    demand = judge.working.apply(
        formulas.counted_pull, f"{this.name}, {what}", f"pull counted in {this.name}, {what}", pull=pull, dynamic=this.dynamic
    )
    if this.strength.force is None:
        wants = this.strength.wants + (() if this.condition is not None else _condition(this))
        judge.cannot_tell(id, item, what, part, this.strength.missing, on_load=True, wants=wants, demand=demand, required=this.required)
    elif this.condition is None:
        judge.cannot_tell(
            id,
            item,
            what,
            part,
            f"{_said(this.rope)} See the check of the condition.",
            on_load=True,
            wants=_condition(this),
            demand=demand,
            required=this.required,
        )
    elif this.required is None:
        reason = f"{judge.basis.title} asks no factor of a {this.rope.kind} rope: choose a basis that does."
        judge.cannot_tell(id, item, what, part, reason, on_load=True, wants=(("basis", "factors"),), demand=demand)
    else:
        whole = f"{source}; required: {judge.basis.source}"
        marks = FROM_MEMORY if FROM_MEMORY in (mark, this.strength.mark) else "read"
        judge.compare(
            id,
            item,
            what,
            part,
            demand,
            make_force(),
            this.required,
            source=whole,
            reason=" ".join(t for t in (reason, this.note) if t),
            mark=marks,
            wants=(fields if mark == FROM_MEMORY else ()) + (this.strength.wants if this.strength.mark == FROM_MEMORY else ()),
            mends=(("ropes", this.name, "diameter"),),
        )


def _check_end(judge: Judge, this: _Rope, end: int) -> _Place | None:
    stop = this.rope.path[end]
    if not hasattr(stop, "made_fast_to"):
        return None
    runs = judge.solution.runs[this.name]
    what = f"end at {stop.made_fast_to}" + (f" ({stop.pick})" if stop.pick else "")
    id = f"rope.{this.name}.{'first' if end == 0 else 'last'}-end"
    pull = judge.working.extreme(formulas.PULL.of(f"{this.name}, {what}", f"greatest pull in {this.name}, {what}"), runs[end].all)
    part, item = ("rope", this.name), called("rope", this.name)
    where = ("ropes", this.name, "path", 0 if end == 0 else len(this.rope.path) - 1)
    fields = ((*where, "fitting"), (*where, "fitting_share"))
    if stop.fitting_share is not None:
        share, source, mark, reason = stop.fitting_share, "share as stated for this fitting", "read", stop.notes.get("fitting_share", "")
        line = lambda: judge.given(formulas.END_SHARE.of(f"{this.name}, {what}"), share, f"ropes, {this.name}, path, fitting_share", reason)
        allowed = ""
    elif stop.fitting is None:
        demand = judge.working.apply(
            formulas.counted_pull, f"{this.name}, {what}", f"pull counted in {this.name}, {what}", pull=pull, dynamic=this.dynamic
        )
        reason = f"How this end is made is not stated. Look, and choose among: {', '.join(end_fittings(this.rope.kind))}; or enter the share from its certificate."
        judge.cannot_tell(id, item, what, part, reason, on_load=True, wants=fields, demand=demand, required=this.required)
        return None
    else:
        try:
            row = end_fitting(stop.fitting, this.rope.kind)
        except PartError as fault:
            raise fault.at(f"ropes, {this.name}, path, fitting") from None
        share, source, mark, reason, allowed = row.share, row.source, row.mark, row.note, row.forbidden
        line = lambda: judge.working.looked_up(formulas.END_SHARE.of(f"{this.name}, {what}"), share, stop.fitting, f"{source} ({mark})")
    if allowed:
        judge.falls_short(
            f"{id}-kind",
            item,
            f"{what}: kind of fitting",
            part,
            allowed,
            source="EN 13411-5",
            remedy="Fit another kind of end, such as a ferrule-secured eye with thimble.",
            mends=fields[:1],
        )
    apply = judge.working.apply
    make = lambda: apply(formulas.force_at_end, f"{this.name}, {what}", f"breaking force of {this.name}, {what}",
                         force=this.strength.force, end=line(), condition=this.condition)  # fmt: skip
    _judge_place(judge, this, id, what, pull, make, source, mark, f"{reason[:1].upper()}{reason[1:]}." if reason else "", fields[::-1])
    return _Place(id, what, pull, lambda _: share)


def _check_bends(judge: Judge, this: _Rope) -> list[_Place]:
    runs, places = judge.solution.runs[this.name], []
    for k, stop in enumerate(this.rope.path):
        if hasattr(stop, "over"):
            sheave = judge.rig.sheaves[stop.over]
            meeting, bend_m, what, id = (
                [*runs[k - 1].all, *runs[k].all],
                sheave.pitch_diameter.value,
                f"over {stop.over}",
                f"rope.{this.name}.sheave.{stop.over}",
            )
            where = f"sheaves, {stop.over}, pitch_diameter"
            least = least_ratio("sheave", this.rope.kind)
        elif hasattr(stop, "wound_on"):
            meeting, bend_m, what, id = (
                runs[0 if k == 0 else -1].all,
                judge.rig.drive.drum.diameter.value,
                "on the drum",
                f"rope.{this.name}.drum",
            )
            where, least = "drive, drum, diameter", None
        else:
            continue
        sign = formulas.SHEAVE_DIAMETER.of(f"{this.name}, {what}", f"diameter of the bend of {this.name} {what}")
        bend = judge.given(sign, bend_m, where)
        ratio = judge.working.apply(
            formulas.diameter_ratio, f"{this.name}, {what}", f"D/d of {this.name} {what}", bend=bend, rope=this.diameter
        )
        if least is not None:
            _check_ratio(judge, this, stop.over, ratio, least)
        pull = judge.working.extreme(formulas.PULL.of(f"{this.name}, {what}", f"greatest pull in {this.name}, {what}"), meeting)
        share_for = _share_over(bend_m)
        place = _Place(id, what, pull, share_for)
        places.append(place)
        reason = _told_of_bend(judge, this, getattr(stop, "over", None), ratio)
        try:
            share = share_for(this.rope.diameter.value)
        except OutOfRangeError as fault:
            bend_path = ("sheaves", stop.over, "pitch_diameter") if hasattr(stop, "over") else ("drive", "drum", "diameter")
            judge.cannot_tell(id, called("rope", this.name), what, ("rope", this.name), f"{fault.wrong}. {reason}".strip(), on_load=True, wants=(bend_path,),
                              required=this.required)  # fmt: skip
            continue
        row = f"D/d = {ratio.number:.1f}"

        def make(share=share, what=what, row=row):
            line = judge.working.looked_up(formulas.BEND_SHARE.of(f"{this.name}, {what}"), share, row, BEND_SOURCE)
            return judge.working.apply(formulas.force_at_bend, f"{this.name}, {what}", f"breaking force of {this.name}, {what}",
                                       force=this.strength.force, bend=line, condition=this.condition)  # fmt: skip

        _judge_place(judge, this, id, what, pull, make, BEND_SOURCE, "read", reason)
    return places


def _share_over(bend_m: float) -> Callable[[float], float]:
    return lambda diameter_m: float(bend_strength(bend_m / diameter_m))


def _told_of_bend(judge: Judge, this: _Rope, sheave: str | None, ratio: Line) -> str:
    """What stands beside the strength of a fibre rope over a bend: nothing that was read says how far it may be bent, and a value from memory does not judge."""
    if this.rope.kind != "fibre":
        return ""
    told = "The bend's share was published for wire rope; that it holds for fibre rope is common practice, no source."
    least = least_ratio("sheave", this.rope.kind)
    if sheave is None or least.mark != FROM_MEMORY:
        return told
    judge.leave_out(
        f"Whether the sheaves are large enough for {this.name}, a fibre rope: no published least size is at hand, see its checks over each sheave."
    )
    has, asked = units.number(ratio.number, 3, "down"), f"{least.value:g}"
    if ratio.number < least.value * (1 - A_HAIR):
        return (
            f"By what is remembered the sheave is too small: it measures {has} rope diameters, and for fibre rope {asked} or more are asked (from memory, so it does "
            f"not judge). A rope bent so sharply wears out soon: take a larger sheave. {told}"
        )
    return f"The sheave measures {has} rope diameters; {asked} or more are asked for fibre rope (from memory, so it does not judge). {told}"


def _check_ratio(judge: Judge, this: _Rope, sheave: str, ratio: Line, least) -> None:
    """The least D/d; for fibre rope the only value at hand is from memory: it stands beside the rope's strength there and does not judge."""
    if least.mark == FROM_MEMORY:
        return
    asked = judge.working.looked_up(
        formulas.DIAMETER_RATIO.of(f"{this.name}, {sheave} least", "least D/d of a sheave"),
        least.value,
        "sheave",
        f"{least.source} ({least.mark})",
    )
    need = units.show(least.value * this.rope.diameter.value, "mm", 3, "up")
    judge.compare(f"sheave.{sheave}.ratio.{this.name}", called("sheave", sheave), f"D/d under {this.name}", ("sheave", sheave), asked, ratio, source=least.source,
                  remedy=f"A sheave of {need} pitch diameter, or a thinner rope that still holds.", mends=(("sheaves", sheave, "pitch_diameter"),))  # fmt: skip


def _remedy(judge: Judge, this: _Rope, places: list[_Place]) -> str:
    """The first catalogue size of the same rope that holds at every place, its bends counted anew."""
    if this.required is None or this.condition is None:
        return ""
    known, pulls = False, [judge.for_all_loads(place.pull) for place in places]
    for diameter_m in catalogue_diameters_m(this.rope):
        force = breaking_force_n(this.rope, diameter_m)
        known = known or force is not None
        if force is None or diameter_m <= this.rope.diameter.value:
            continue
        try:
            holds = all(
                force * place.share_for(diameter_m) * this.condition.number >= this.required * pull_n * this.dynamic.number
                for place, pull_n in zip(places, pulls, strict=True)
            )
        except OutOfRangeError:
            continue
        if holds:
            grown = ", if its breaking force grows with its cross-section" if this.rope.breaking_force is not None else ""
            return f"{units.nominal(diameter_m, 'mm')} of the same rope would hold at every place{grown}.{judge.with_tolerance}{_sheaves_for(judge, this.rope, diameter_m)}"
    need = this.required * max(pulls) * this.dynamic.number
    none = "No size of this rope in the catalogue holds: find" if known else "Find"
    return f"{none} one whose breaking force, after end, bend and wear, is {units.show(need, 'kN', 3, 'up')}, or lighten the load.{judge.with_tolerance}"


def _sheaves_for(judge: Judge, rope: Rope, diameter_m: float) -> str:
    """What the thicker rope asks of its sheaves, if they are too small for it."""
    least = least_ratio("sheave", rope.kind)
    smallest = min((judge.rig.sheaves[stop.over].pitch_diameter.value for stop in rope.path if hasattr(stop, "over")), default=float("inf"))
    if smallest >= least.value * diameter_m * (1 - A_HAIR):
        return ""
    if least.mark == FROM_MEMORY:
        left = units.number(smallest / diameter_m, 3, "down")
        return f" Its smallest sheave would then measure only {left} rope diameters; {least.value:g} or more are asked (from memory)."
    return f" Its sheaves must then measure at least {units.show(least.value * diameter_m, 'mm', 3, 'up')}."
