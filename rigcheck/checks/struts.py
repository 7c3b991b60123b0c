"""Struts: pressed ones against bowing out, pulled ones against what they and their ends may be pulled with, guys against going slack."""

from __future__ import annotations

import math

import numpy

from rigcheck import units
from rigcheck.checks import bent_strut
from rigcheck.checks.bent_strut import Pressed
from rigcheck.checks.check import CANNOT_TELL, COMMON_PRACTICE, HOLDS, Judge, called
from rigcheck.checks.strut_formulas import END_FACTOR, LENGTH, MODULUS, STRENGTH, euler_force, half_crushing_force
from rigcheck.formula import Sign
from rigcheck.rig.fields import coordinates
from rigcheck.statics.frame import MUCH_GROWTH, Frame
from rigcheck.statics.members import Member, Members, members
from rigcheck.statics.sections import section
from rigcheck.working import Line

BEARS = Sign("P", "force under which a straight strut gives way", "N", above=0, towards="down")
RATED_PULL = Sign("Z_r", "rated pull of the strut with its ends", "N", above=0)
EULERS = "Euler's column formula, both ends free to turn unless stated otherwise"
NEAR_M = 0.25  # a winch that stands so near to the line of a strut is taken to be bolted to it
LEVER_M = 0.01
FACTOR_FIELD = ("basis", "strut_factor")


def check(judge: Judge) -> Members | None:
    """Work out and judge the force in every strut; None for a rig without any."""
    found = members(judge.solution)
    if found is None:
        return None
    pressed = {name: _check(judge, found, member) for name, member in found.by_name.items()}
    if judge.rig.drive.kind == "winch" and (bolted_to := judge.rig.drive.drum.bolted_to) is not None:
        bent_strut.check(judge, found.by_name.get(bolted_to), pressed.get(bolted_to))
    _leave_out(judge, found)
    return found


def _check(judge: Judge, found: Members, member: Member) -> Pressed | None:
    name, strut = member.name, judge.rig.struts[member.name]
    item, part = called("strut", name), ("strut", name)
    if not found.frame.ways:
        wants = tuple(("struts", each, field) for each in found.frame.members for field in ("modulus", "diameter", "pulls_only"))
        judge.cannot_tell(f"strut.{name}.force", item, "force in the strut", part, "There are more struts than the balance needs, and what falls to each depends on how stiff they are and "
                          "how they fit. State section and modulus of each, say which of them can only pull, or take out what is not needed to hold the joint.", on_load=True, wants=wants)  # fmt: skip
        return None
    if not (math.isfinite(member.push.number) and math.isfinite(member.pull.number)) and found.is_held:
        wants = tuple(("struts", each, field) for each in found.frame.members for field in ("modulus", "area", "pulls_only"))
        judge.cannot_tell(f"strut.{name}.force", item, "force in the strut", part, "There are more guys than the balance needs, and as these stand several may be taut at once: what comes to each "
                          "depends on how stiff they are. State modulus and area of every guy and strut there and which can only pull, or set the guys out evenly.", on_load=True, wants=wants)  # fmt: skip
        return None
    if not (math.isfinite(member.push.number) and math.isfinite(member.pull.number)):
        judge.falls_short(f"strut.{name}.force", item, "held by its guys", part,
                          "No choice of guys holds the joint everywhere along the travel: some guy would have to push, and it goes slack.",
                          source="balance of forces", remedy="A guy or strut on the side to which the joint is pulled.", mends=(("struts", name, "other_end"),))  # fmt: skip
        return None
    is_pushed, is_pulled = found.is_pushed(name), found.is_pulled(name)
    if strut.pulls_only and is_pushed and found.frame.is_plain:
        would = units.show(member.push.number, "N", 3, "up")
        judge.falls_short(f"strut.{name}.slack", item, "stays taut", part, f"It would have to push with {would}. It can only pull: it goes slack, and nothing holds the joint against that.",
                          source="balance of forces", remedy="A strut that can push in its place, or a guy on the other side.", mends=(("struts", name, "pulls_only"),))  # fmt: skip
        is_pushed = False
    if is_pulled:
        _check_pull(judge, member, item, part)
    return _check_push(judge, member, item, part) if is_pushed else None


def _check_push(judge: Judge, member: Member, item: str, part: tuple[str, str]) -> Pressed | None:
    name, strut = member.name, judge.rig.struts[member.name]
    id, what, field = f"strut.{name}.push", "push against bowing out", ("struts", name)
    own = section(judge.working, name, strut)
    missing = [
        (words, path)
        for words, path, is_missing in (
            ("its section: diameter and wall, two sides, or second moment and area from a table", (*field, "diameter"), own is None),
            (
                "the elastic modulus of its material, from a table of its grade or strength class",
                (*field, "modulus"),
                strut.modulus is None,
            ),
        )
        if is_missing
    ]
    if missing:
        judge.cannot_tell(id, item, what, part, f"Not stated: {'; '.join(words for words, _ in missing)}.", on_load=True,
                          wants=tuple(path for _, path in missing), demand=member.push)  # fmt: skip
        return None
    modulus = judge.given(
        MODULUS.of(name, f"elastic modulus of {name}"), strut.modulus.value, f"struts, {name}, modulus", strut.notes.get("modulus", "")
    )
    ends = judge.given(
        END_FACTOR.of(name), strut.end_factor or 1.0, f"struts, {name}, end_factor" if strut.end_factor else "both ends can turn, as in the balance",
        strut.notes.get("end_factor", ""),
    )  # fmt: skip
    long = judge.working.geometry(LENGTH.of(name, f"length of {name}"), numpy.array([_length_m(judge, name)]), "between its two points")
    euler = judge.working.apply(
        euler_force, name, f"Euler's force of {name}", modulus=modulus, second_moment=own.second_moment, end_factor=ends, length=long
    )
    strength = _strength(judge, name)
    capacity, is_stocky = _with_crushing(judge, name, euler, own.area, strength)
    required, factor = judge.rig.basis.strut_factor, capacity.number / member.push.number
    source = f"{EULERS}; required factor as stated for this rig" if required else EULERS
    told = "It is too stocky for Euler's formula, so half of its crushing force is taken." if is_stocky else ""
    well = "" if required else "well over "  # no source says how far over it must be
    remedy = f"A strut that bears {well}{units.show((required or 1.0) * judge.for_all_loads(member.push), 'kN', 3, 'up')}: thicker, shorter, or with a brace at its middle as a joint.{judge.with_tolerance}"
    wants = (FACTOR_FIELD,) if required is None else ()
    made = judge.compare(id, item, what, part, member.push, capacity, required or 1.0, source=source, reason=told, remedy=remedy,
                         mark=COMMON_PRACTICE if is_stocky else "read", wants=wants, mends=((*field, "diameter"),))  # fmt: skip
    if made.verdict == HOLDS and (required is None or strut.strength is None):
        judge.replace(made, verdict=CANNOT_TELL, reason=f"{_why_open(required, strut.strength is None, factor)} {told}".strip(),
                      wants=tuple(path for path, is_due in ((FACTOR_FIELD, required is None), ((*field, "strength"), strut.strength is None)) if is_due))  # fmt: skip
    return Pressed(own, euler, strength)


def _why_open(required: float | None, no_strength: bool, factor: float) -> str:
    told = f"What is known of it bears {units.number(factor, 3, 'down')} times its push."
    if required is None:
        told += " How many times it must be is in no source at hand: real struts are crooked and loads come to them aside, so that it must be well above 1. State the required factor of your local rules."
    if no_strength:
        told += " What its material bears before it crushes or yields is not stated, so that a stocky strut may bear less."
    return told


def _strength(judge: Judge, name: str) -> Line | None:
    strut = judge.rig.struts[name]
    if strut.strength is None:
        return None
    sign, note = STRENGTH.of(name, f"strength of {name} along it"), strut.notes.get("strength", "")
    return judge.given(sign, strut.strength.value, f"struts, {name}, strength", note)


def _with_crushing(judge: Judge, name: str, euler: Line, area: Line, strength: Line | None) -> tuple[Line, bool]:
    """What a strut bears: Euler's force, or half of what crushes it where that is less; and whether it is less."""
    if strength is None:
        return euler, False
    half = judge.working.apply(half_crushing_force, name, f"half of the force that crushes {name}", strength=strength, area=area)
    capacity = judge.working.solve_in_numbers(
        BEARS.of(name, f"force under which {name} gives way"), _lesser, "the lesser of the two", "", one=euler, other=half
    )
    return capacity, half.number < euler.number


def _lesser(one: numpy.ndarray, other: numpy.ndarray) -> numpy.ndarray:
    return numpy.minimum(one, other)


def _check_pull(judge: Judge, member: Member, item: str, part: tuple[str, str]) -> None:
    name, strut = member.name, judge.rig.struts[member.name]
    id, what = f"strut.{name}.pull", "pull in the strut and its ends"
    if strut.rated_pull is None:
        kind = (
            "On the certificate of the rope or chain, with its end fittings."
            if strut.pulls_only
            else "It is that of the bolts or lashings at its ends, whichever bears least."
        )
        judge.cannot_tell(id, item, what, part, f"What it may be pulled with is not stated. {kind}", on_load=True,
                          wants=(("struts", name, "rated_pull"),), demand=member.pull)  # fmt: skip
        return
    rated = judge.given(RATED_PULL.of(name), strut.rated_pull.value, f"struts, {name}, rated_pull", strut.notes.get("rated_pull", ""))
    judge.compare(id, item, what, part, member.pull, rated, source="rated pull as stated for this strut",
                  remedy=f"A tie with ends rated for {units.show(judge.for_all_loads(member.pull), 'kN', 3, 'up')}.{judge.with_tolerance}", mends=(("struts", name, "rated_pull"),))  # fmt: skip


def _length_m(judge: Judge, name: str) -> float:
    one, other = (coordinates(judge.rig.points[end].at) for end in judge.rig.struts[name].ends)
    return math.dist(one, other)


def _leave_out(judge: Judge, found: Members) -> None:
    frame, rig = found.frame, judge.rig
    growth, joint = frame.growth
    if growth > MUCH_GROWTH:
        judge.leave_out(
            f"How the struts at {joint} stand is near to one line or one plane: a force there can come {units.number(growth, 2)} times as great to a strut, so that a small slip in length or place changes the forces greatly. Spread them."
        )
    if frame.joints:
        judge.leave_out(
            f"How the struts are joined at {_and(frame.joints)}: bolts, lashings and shackles there, and whether they meet in one point."
        )
    if frame.joints and len(frame.axes) == 2:
        judge.leave_out(
            f"Whether {_and(frame.joints)} {'is' if len(frame.joints) == 1 else 'are'} held towards the viewer and away: all struts lie in the plane of the drawing."
        )
    unweighed = [name for name in frame.all_members if rig.struts[name].mass is None]
    if unweighed:
        judge.leave_out(f"The own weight of {_and(unweighed)}, since no mass is stated.")
    judge.leave_out(
        "How far struts are bent by their own weight, by what leans on them, or because they are crooked or loaded aside of their middle."
    )
    _tell_winch(judge, frame)
    _tell_levers(judge, frame)
    if frame.slack:
        judge.leave_out(f"{_and(frame.slack)}: slack somewhere along the travel, and so not counted as holding any foot.")
    if any(rig.struts[name].pulls_only for name in frame.all_members):
        judge.leave_out(
            "How tight guys and ties are set before the load comes on: they are counted as just taut, and what they are tightened by comes on top for them and for what they press."
        )
    if frame.shared_by_stiffness:
        judge.leave_out(
            f"How exactly {_and(frame.members)} fit: there are more than are needed, and they share by their stiffness as if all fitted. One a little too long carries more."
        )
    if rig.basis.dynamic_factor > 1:
        judge.leave_out("The dynamic factor is counted against the ropes only: the struts are judged at the steady pull.")


def _and(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _tell_winch(judge: Judge, frame: Frame) -> None:
    if judge.rig.drive.kind != "winch":
        return
    bolted_to = judge.rig.drive.drum.bolted_to
    for name in _bent_by_winch(frame) if bolted_to is None else ():
        judge.leave_out(
            f"The winch stands beside {name}, and nothing says what it is bolted to: it was taken to stand by itself. Bolted to {name}, it would bend it and take its pull out of the feet."
        )


def _tell_levers(judge: Judge, frame: Frame) -> None:
    """A sheave beside its joint pulls at a lever unless it hangs free and swings into line."""
    far = [
        name
        for name, sheave in judge.rig.sheaves.items()
        if sheave.on in frame.nodes and numpy.linalg.norm(coordinates(sheave.offset)) > LEVER_M
    ]
    if far:
        judge.leave_out(
            f"How far beside the joint {_and(far)} {'pulls' if len(far) == 1 else 'pull'}: the force is counted as if it met the joint, as that of a block that hangs free and swings into line. Held stiffly aside, it bends the struts."
        )


def _bent_by_winch(frame: Frame) -> list[str]:
    """The struts beside which the drum stands, somewhere between their ends."""
    if frame.rig.drive.kind != "winch":
        return []
    found, drum = [], numpy.array(coordinates(frame.rig.drive.drum.at))
    reach = NEAR_M + frame.rig.drive.drum.diameter.value / 2
    for name in frame.all_members:
        start = numpy.array(coordinates(frame.rig.points[frame.rig.struts[name].ends[0]].at))
        along = frame.direction(name, frame.rig.struts[name].ends[0])
        place = float((drum - start) @ along)
        if 0 < place < frame.length_m(name) and numpy.linalg.norm(drum - start - place * along) < reach:
            found.append(name)
    return found
