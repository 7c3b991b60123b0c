"""The strut that the winch is bolted to: it is pressed and bent at once, and judged at the edge of its section."""

from __future__ import annotations

from dataclasses import dataclass

import numpy

from rigcheck import units
from rigcheck.checks.check import COMMON_PRACTICE, Judge, called
from rigcheck.checks.strut_formulas import BEND, EDGE, WANTED, bent_stress
from rigcheck.formula import Sign
from rigcheck.statics.joint_loads import Bend, bends
from rigcheck.statics.members import Member
from rigcheck.statics.sections import Section
from rigcheck.working import Line

BENDING = Sign("M", "bending of a strut by the winch on it", "N·m", low=0)
_A_HAIR = 1e-9


@dataclass(frozen=True)
class Pressed:
    """What was worked out of a strut that is pressed: its section, Euler's force, and the strength of its material if it is stated."""

    section: Section
    euler: Line
    strength: Line | None


def check(judge: Judge, member: Member | None, pressed: Pressed | None) -> None:
    """Judge the strut that the winch is bolted to; its push alone has been judged already."""
    name = judge.rig.drive.drum.bolted_to
    id, item, part, what = f"strut.{name}.bent", called("strut", name), ("strut", name), "pressed and bent by the winch on it"
    strut, found = judge.rig.struts[name], bends(judge.rig, judge.solution.travel)
    if any(numpy.min(bend.towards_far) < -_A_HAIR for bend in found):
        judge.cannot_tell(id, item, what, part, "A rope leads from the winch towards the foot of the strut: it is pressed harder between winch and foot than was worked out here. Lead "
                          "the rope to the other end, or stand the winch by itself.", on_load=True, wants=(("drive", "drum", "bolted_to"),))  # fmt: skip
        return
    if member is None or pressed is None:
        return  # what is missing is asked for with its push
    greatest = _bending(judge, name, found)
    required, edge = judge.rig.basis.strut_factor, _edge_m(strut)
    field = ("struts", name)
    lacking = [
        (words, path)
        for words, path, is_lacking in (
            ("what its material bears before it crushes or yields", (*field, "strength"), pressed.strength is None),
            ("the required factor of struts", ("basis", "strut_factor"), required is None),
            ("its section by diameter or by two sides, so that its edge is known", (*field, "diameter"), edge is None),
        )
        if is_lacking
    ]
    told = f"The winch bends it with up to {units.show(greatest.number, 'N·m', 3, 'up')}."
    if lacking:
        judge.cannot_tell(id, item, what, part, f"{told} Not stated: {'; '.join(words for words, _ in lacking)}.", on_load=True,
                          wants=tuple(path for _, path in lacking), demand=greatest)  # fmt: skip
        return
    wanted = judge.given(WANTED.of(name), required, "basis, strut_factor", judge.rig.basis.notes.get("strut_factor", ""))
    to_edge = judge.given(EDGE.of(name, f"from the middle of {name} to its edge"), edge, "half of the diameter or of the thin side")
    stress = judge.working.apply(
        bent_stress, name, f"stress at the edge of {name}, pressed and bent", push=member.push, area=pressed.section.area, bend=greatest,
        edge=to_edge, second_moment=pressed.section.second_moment, wanted=wanted, euler=pressed.euler,
    )  # fmt: skip
    stress = judge.working.solve_in_numbers(stress.sign.of("counted"), _without_limit, "where its push is beyond Euler's force, there is no limit to it", "", s=stress,
                                            p=member.push, e=pressed.euler, n=wanted)  # fmt: skip
    judge.compare(id, item, what, part, stress, pressed.strength, required, source="stress at the edge, the bow magnified by the push; required factor as stated for this rig",
                  reason=told, remedy=f"A thicker strut, or stand the winch by itself or nearer to the foot.{judge.with_tolerance}",
                  mark=COMMON_PRACTICE, wants=((*field, "diameter"),), mends=((*field, "diameter"),))  # fmt: skip


def _without_limit(s: numpy.ndarray, p: numpy.ndarray, e: numpy.ndarray, n: numpy.ndarray) -> numpy.ndarray:
    return numpy.where(n * p < e, s, numpy.nan)


def _edge_m(strut) -> float | None:
    wide = strut.diameter or strut.thin_side
    return None if wide is None else wide.value / 2


def _bending(judge: Judge, name: str, found: list[Bend]) -> Line:
    """The greatest bending: all ropes on the drum at their greatest pull, each bending as if the others bent the same way."""
    solution, inputs = judge.solution, {}
    for k, bend in enumerate(found):
        run = solution.runs[bend.rope][bend.run]
        inputs |= {f"{field}{k}": getattr(run, field) for field in ("raising", "holding_most", "lowering")}

    def compute(**values: numpy.ndarray) -> numpy.ndarray:
        greatest = [
            numpy.maximum.reduce(numpy.broadcast_arrays(*(values[f"{field}{k}"] for field in ("raising", "holding_most", "lowering"))))
            for k in range(len(found))
        ]
        return sum(numpy.maximum(pull, 0.0) * bend.bends_m for pull, bend in zip(greatest, found, strict=True))

    along = judge.working.solve_in_numbers(
        BENDING.of(name, f"bending of {name} by the winch"),
        compute,
        "a beam on its two ends, the pull of the rope on the winch",
        "sum of moments",
        **inputs,
    )
    return judge.working.extreme(BEND.of(f"{name} max", f"greatest bending of {name}"), [along])
