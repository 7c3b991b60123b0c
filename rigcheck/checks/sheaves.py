"""Sheaves: the force on the pin against the rating, the bearing, and the rope in its groove."""

from __future__ import annotations

import numpy

from rigcheck import units
from rigcheck.checks.check import Judge, called
from rigcheck.checks.rope_formulas import DIAMETER
from rigcheck.formula import Sign
from rigcheck.parts.sheave_rule import sheave_efficiency
from rigcheck.statics import formulas
from rigcheck.statics.paths import Path
from rigcheck.working import Line

RATING = Sign("F_r", "rated load of the sheave", "N", above=0)
PIN_MOST = Sign("F_pin", "greatest force on the pin", "N")


def check(judge: Judge) -> None:
    """Judge every sheave that a rope runs over."""
    for rope_name, rope in judge.rig.ropes.items():
        for k, stop in enumerate(rope.path):
            if hasattr(stop, "over"):
                _check_pin(judge, rope_name, k, stop.over)
                _check_groove(judge, rope_name, stop.over)
                _check_sense(judge, rope_name, k, stop.over)
    _leave_out(judge)
    for name in judge.solution.assumed_bearings:
        judge.cannot_tell(f"sheave.{name}.bearing", called("sheave", name), "bearing", ("sheave", name),
                          "Its bearing is not stated, so the pulls were worked out with a plain bush, the stiffer one. Look whether balls or rollers "
                          "carry it, or let it spin: a rolling bearing runs on for many turns.", on_load=False,
                          wants=(("sheaves", name, "bearing"), ("sheaves", name, "efficiency")))  # fmt: skip


def _leave_out(judge: Judge) -> None:
    if judge.rig.basis.dynamic_factor > 1:
        judge.leave_out("The dynamic factor is counted against the ropes only: the sheaves are judged at the steady pull.")
    _tell_fibre(judge)
    used = dict.fromkeys(stop.over for rope in judge.rig.ropes.values() for stop in rope.path if hasattr(stop, "over"))
    for carrier in dict.fromkeys(judge.rig.sheaves[name].on for name in used):
        together = [name for name in used if judge.rig.sheaves[name].on == carrier and judge.rig.sheaves[name].rated_load is not None]
        if len(together) > 1:
            judge.leave_out(
                f"Sheaves {', '.join(together)}, all on {carrier}: each rated load is taken for one sheave alone. A rating stamped on a block is for all its sheaves together."
            )


def _tell_fibre(judge: Judge) -> None:
    """The rules that give an efficiency per sheave were published for wire rope: a fibre rope's own is not known."""
    for name, rope in judge.rig.ropes.items():
        if rope.kind != "fibre":
            continue
        ruled = [stop.over for stop in rope.path if hasattr(stop, "over") and judge.rig.sheaves[stop.over].efficiency is None]
        if ruled:
            judge.leave_out(
                f"The friction of {name}, a fibre rope, over {', '.join(ruled)}: it is taken from a rule for wire rope ({_rule_source(judge, ruled[0])}), and no rule for "
                "fibre rope was found. Should its own be greater, ropes, sheaves and drive are pulled harder than worked here, pawl and brake may be asked to hold more, and "
                "less pull is left while lowering. A sheave's own efficiency can be measured and entered; the lower one is the cautious one."
            )


def _rule_source(judge: Judge, sheave: str) -> str:
    return sheave_efficiency(judge.rig.basis.sheave_rule, judge.rig.sheaves[sheave].bearing or "plain").source


def pin_lines(judge: Judge, rope: str, k: int, sheave: str) -> list[Line]:
    """The force on the pin raising and lowering, and at rest with its two runs at the ends of their ranges."""
    before, after = judge.solution.runs[rope][k - 1], judge.solution.runs[rope][k]
    told, wraps = f"wrap of {rope} on {sheave}", {}
    hung = judge.solution.travel.hung is not None  # what hangs free hangs a little differently in each way of moving
    for word in ("at rest", "raising", "lowering") if hung else ("at rest",):
        sign = formulas.WRAP.of(f"{rope}, {sheave}", f"{told}, {word}" if hung else told)
        wraps[word] = judge.solution.read(word, sign, lambda where: where.paths[rope].wraps[k - 1], f"rope {rope} on sheave {sheave}")
    cases = [("raising", "raising", "raising"), ("lowering", "lowering", "lowering"), ("at rest", "holding_most", "holding_most")]
    if numpy.max(numpy.cos(wraps["at rest"].value)) > 0:
        # below a quarter turn, or beyond three, the two pulls partly cancel, so a strong one beside a weak one may press harder on the pin
        cases += [("at rest, before", "holding_most", "holding_least"), ("at rest, after", "holding_least", "holding_most")]
    return [
        _pin(judge, getattr(before, one), getattr(after, two), wraps.get(word, wraps["at rest"]), sheave, word) for word, one, two in cases
    ]


def _pin(judge: Judge, before: Line, after: Line, wrap: Line, sheave: str, word: str) -> Line:
    return judge.working.apply(
        formulas.pin_force, f"{sheave}, {word}", f"force on the pin of {sheave}, {word}", wrap=wrap, pull_in=before, pull_out=after
    )


def _check_pin(judge: Judge, rope: str, k: int, name: str) -> None:
    sheave = judge.rig.sheaves[name]
    id, item, what, part = f"sheave.{name}.pin.{rope}", called("sheave", name), "force on the pin", ("sheave", name)
    demand = judge.working.extreme(PIN_MOST.of(f"{name} max", f"greatest force on the pin of {name}"), pin_lines(judge, rope, k, name))
    others = [
        name_
        for name_, rope_ in judge.rig.ropes.items()
        if name_ != rope and any(getattr(stop, "over", None) == name for stop in rope_.path)
    ]
    if others:
        judge.cannot_tell(id, item, what, part, f"{' and '.join(others)} runs over it too, and the forces of both add up on its pin. Give each rope a sheave of its own.",
                          on_load=True, wants=tuple(("ropes", other, "path") for other in others), demand=demand)  # fmt: skip
        return
    if sheave.rated_load is None:
        judge.cannot_tell(id, item, what, part, "Its rated load is not stated. It is stamped on the block or on its data sheet; a sheave without a rating is not made for lifting.",
                          on_load=True, wants=(("sheaves", name, "rated_load"),), demand=demand)  # fmt: skip
        return
    if sheave.rated_load.kind == "mass":
        mass = judge.given(
            formulas.MASS.of(f"{name} rated", f"rated load of {name}"),
            sheave.rated_load.value,
            f"sheaves, {name}, rated_load",
            sheave.notes.get("rated_load", ""),
        )
        rating = judge.working.apply(
            formulas.weight, f"{name} rated", f"rated load of {name} as a force", mass=mass, gravity=judge.solution.gravity
        )
    else:
        rating = judge.given(RATING.of(name), sheave.rated_load.value, f"sheaves, {name}, rated_load", sheave.notes.get("rated_load", ""))
    judge.compare(id, item, what, part, demand, rating, source="rated load as stated for this sheave",
                  remedy=f"A sheave or block rated for {units.show(judge.for_all_loads(demand), 'kN', 3, 'up')}.{judge.with_tolerance}", mends=(("sheaves", name, "rated_load"),))  # fmt: skip


def _check_groove(judge: Judge, rope: str, name: str) -> None:
    groove = judge.rig.sheaves[name].groove_diameter
    if groove is None:
        judge.leave_out(f"Whether the rope fits the groove of {called('sheave', name)}: its groove is not stated.")
        return
    width = judge.given(Sign("d_g", "width of the groove", "mm").of(name), groove.value, f"sheaves, {name}, groove_diameter")
    thick = judge.given(DIAMETER.of(f"{rope} on {name}"), judge.rig.ropes[rope].diameter.value, f"ropes, {rope}, diameter")
    judge.compare(f"sheave.{name}.groove.{rope}", called("sheave", name), f"groove under {rope}", ("sheave", name), thick, width,
                  source="a rope wider than its groove is pinched: common practice, no source", remedy="A sheave with a groove at least as wide as the rope.",
                  mends=(("sheaves", name, "groove_diameter"),))  # fmt: skip


def _check_sense(judge: Judge, rope: str, k: int, name: str) -> None:
    """A rope whose two falls cross beside a sheave was most likely given the wrong sense of turning there.

    Both falls lie in the sheave's plane, so where they cross the rope would rub on itself: either the path is not as entered, and with it every
    pull, or the rope cannot run so. That leaves no rated load but one on what is known.
    """
    path = judge.solution.travel.paths[rope]
    if numpy.any(_falls_cross(path, k)):
        judge.cannot_tell(f"sheave.{name}.sense.{rope}", called("sheave", name), f"sense of turning of {rope}", ("sheave", name),
                          f"The falls of {rope} cross beside it, after a wrap of {units.show(float(path.wraps[k - 1].max()), '°', 3)}: the rope would rub on itself there, and "
                          "every pull rests on this path. Look which way the rope turns there: most likely the other way than entered.",
                          on_load=True, wants=(("ropes", rope, "path", k, "turns"),))  # fmt: skip


def _falls_cross(path: Path, k: int) -> numpy.ndarray:
    """Whether the runs before and after stop k cross, at every height: each fall's ends lie on either side of the other fall."""
    before, after = (path.starts[k - 1], path.ends[k - 1]), (path.starts[k], path.ends[k])
    normal = path.normals[k]

    def side(line, place) -> numpy.ndarray:
        return numpy.sum(numpy.cross(line[1] - line[0], place - line[0]) * normal, axis=-1)

    parted = side(before, after[0]) * side(before, after[1]) < 0
    return parted & (side(after, before[0]) * side(after, before[1]) < 0)
