"""The drum: dead wraps, room for the rope, flange, fleet angle, diameter, anchor."""

from __future__ import annotations

import math

import numpy

from rigcheck import units
from rigcheck.checks import drum_formulas as formulas
from rigcheck.checks import drum_winding
from rigcheck.checks.check import FROM_MEMORY, Judge
from rigcheck.checks.drum_winding import PART, WIDTH, WRAPS, DrumLines, RopeOnDrum
from rigcheck.formula import Sign
from rigcheck.parts.diameter_ratio import all_ratios, least_ratio
from rigcheck.parts.drum_rule import drum_rule
from rigcheck.statics.layout import driven_end
from rigcheck.working import Line

COUNT_WRAPS = "Let the load right down and count the turns left on the drum."
MEASURE_WIDTH = "Measure the drum's width between its flanges."
MEASURE_FLANGE = "Measure the diameter of the drum's flanges."
FLANGE = (("drive", "drum", "flange_diameter"),)


def check(judge: Judge) -> DrumLines | None:
    """Judge the drum; None where a line is pulled by hand."""
    if judge.rig.drive.kind != "winch":
        return None
    lines = drum_winding.lines(judge)
    flange = _flange_line(judge)
    for rope in lines.ropes:
        _dead_wraps(judge, lines, rope)
        _room(judge, lines, rope, flange)
        _diameter(judge, lines, rope)
        _anchor(judge, rope)
    _fleet_angles(judge, lines)
    climbing = {id(r.layer): r.layer for r in lines.ropes if r.layer is not None}
    if len({tuple(numpy.broadcast_to(layer.value, judge.solution.travel.heights_m.shape)) for layer in climbing.values()}) > 1:
        judge.leave_out("how far the load tilts once ropes of unequal diameter lie in different layers on the drum")
    mounting = drum_rule("winch-mounting")
    judge.leave_out(
        f"the base and bolts of the winch ({mounting.source} asks {units.number(mounting.value)} times the reactions at the greatest pull)"
    )
    return lines


def _flange_line(judge: Judge) -> Line | None:
    drum = judge.rig.drive.drum
    if drum.flange_diameter is None:
        return None
    return judge.given(formulas.FLANGE, drum.flange_diameter.value, "drive, drum, flange_diameter", drum.notes.get("flange_diameter", ""))


def _dead_wraps(judge: Judge, lines: DrumLines, rope: RopeOnDrum) -> None:
    drum = judge.rig.drive.drum
    id, item, what = f"drum.{rope.name}.dead-wraps", f"drum, {rope.name}", "dead wraps"
    usual, strict = drum_rule("dead-wraps"), drum_rule("dead-wraps-mine-hoist")
    told = f"The cautious rule is taken; {usual.source} ask {units.number(usual.value)}."
    if drum.dead_wraps is None:
        judge.cannot_tell(id, item, what, PART, COUNT_WRAPS, on_load=False, wants=WRAPS, source=strict.source)
        return
    have = judge.given(formulas.DEAD_WRAPS.of(rope.name), drum.dead_wraps, "drive, drum, dead_wraps", drum.notes.get("dead_wraps", ""))
    least = judge.working.looked_up(
        formulas.DEAD_WRAPS.of(f"{rope.name} least", "least number of dead wraps"), strict.value, strict.name, strict.source
    )
    short = max(strict.value - drum.dead_wraps, 0.0)
    longer = short * math.pi * (lines.core.number + rope.rope.number)
    remedy = f"Leave {units.number(strict.value)} turns on the drum with the load down: {units.show(longer, 'm', 3, 'up')} more rope."
    judge.compare(id, item, what, PART, least, have, source=strict.source, reason=told, remedy=remedy, mends=WRAPS)


def _room(judge: Judge, lines: DrumLines, rope: RopeOnDrum, flange: Line | None) -> None:
    """Whether the rope fits in the layers that the flange allows, and whether the flange stands above those wound."""
    drum, working = judge.rig.drive.drum, judge.working
    item, rule = f"drum, {rope.name}", drum_rule("flange-overhang")
    asked = ((drum.width, MEASURE_WIDTH, WIDTH), (drum.dead_wraps, COUNT_WRAPS, WRAPS), (flange, MEASURE_FLANGE, FLANGE))
    ask = [text for missing, text, _ in asked if missing is None]
    wants = tuple(path for missing, _, paths in asked if missing is None for path in paths) or WIDTH
    if not ask and rope.per_layer.number < 1:
        ask = [f"Not one turn fits beside the others: {units.show(drum.width.value, 'mm')} for {units.number(len(lines.ropes))} ropes."]
    if ask:
        for id, what in (("capacity", "room for the rope"), ("flange", "overhang of the flange")):
            judge.cannot_tell(f"drum.{rope.name}.{id}", item, what, PART, " ".join(ask), on_load=False, wants=wants, source=rule.source)
        return
    overhang = working.looked_up(formulas.OVERHANG_RATIO.of(rope.name), rule.value, rule.name, rule.source)
    fitting = working.apply(formulas.layers_below_flange, rope.name, flange=flange, core=lines.core, rope=rope.rope, overhang=overhang)
    sign = formulas.LAYERS.of(rope.name, f"whole layers of {rope.name} that fit below the flange")
    layers = working.solve_in_numbers(sign, lambda value: numpy.maximum(drum_winding.whole(value), 0.0), "rounded down", "", value=fitting)
    room = working.apply(formulas.rope_held, rope.name, core=lines.core, rope=rope.rope, turns=rope.per_layer, layers=layers)
    wound = working.extreme(drum_winding.WOUND.of(f"{rope.name} most", f"most of {rope.name} on the drum"), [rope.wound])
    most = working.extreme(formulas.LAYER.of(f"{rope.name} most", f"layers of {rope.name} on the drum with the load up"), [rope.layer])
    needed = units.show(drum.diameter.value + 2 * (most.number + rule.value) * rope.rope.number, "mm", 4, "up")
    wider = (
        math.ceil(_turns_a_layer_needed(wound.number, layers.number, lines.core.number, rope.rope.number) - 1e-9) if layers.number else None
    )
    remedy = f"Flanges of at least {needed}"
    remedy += f", or a drum at least {units.show(wider * rope.rope.number * len(lines.ropes), 'mm', 4, 'up')} wide." if wider else "."
    judge.compare(f"drum.{rope.name}.capacity", item, "room for the rope", PART, wound, room, source=rule.source, remedy=remedy, needs_taut=False, mends=FLANGE + WIDTH,
                  reason="Counted for tight winding in whole layers; a note on reels allows up to 30 % less for loose winding.")  # fmt: skip
    stands = working.apply(formulas.flange_overhang, rope.name, flange=flange, core=lines.core, rope=rope.rope, layer=most)
    least = working.apply(formulas.least_overhang, rope.name, overhang=overhang, rope=rope.rope)
    judge.compare(f"drum.{rope.name}.flange", item, "overhang of the flange", PART, least, stands, source=rule.source, needs_taut=False,
                  remedy=f"Flanges of at least {needed}, or fewer layers.", mends=FLANGE)  # fmt: skip


def _turns_a_layer_needed(wound_m: float, layers: float, core_m: float, rope_m: float) -> float:
    """Turns in one layer that would hold the rope in so many layers: rope_held turned round."""
    return wound_m / (math.pi * layers * (core_m + layers * rope_m))


def _diameter(judge: Judge, lines: DrumLines, rope: RopeOnDrum) -> None:
    kind = judge.rig.ropes[rope.name].kind
    rule = least_ratio("drum", kind)
    if rule.mark == FROM_MEMORY:
        judge.leave_out(
            f"the drum's diameter for {kind} rope: the only figure at hand, {units.number(rule.value)} rope diameters, is from memory"
        )
        return
    have = judge.working.apply(
        formulas.drum_ratio, rope.name, f"core diameter of the drum over diameter of {rope.name}", core=lines.core, rope=rope.rope
    )
    least = judge.working.looked_up(
        formulas.RATIO.of(f"{rope.name} least", "least diameter of the drum in rope diameters"), rule.value, rule.applies, rule.source
    )
    advice = [r for r in all_ratios("drum", kind) if r.use == "advice" and r.mark == "read"]
    told = " ".join(f"A {r.source.split(',')[0]} advises {units.number(r.value)}." for r in advice)
    remedy = f"A drum of at least {units.show(rule.value * rope.rope.number, 'mm', 4, 'up')} core diameter, or a thinner rope."
    judge.compare(
        f"drum.{rope.name}.diameter",
        f"drum, {rope.name}",
        "drum diameter to rope diameter",
        PART,
        least,
        have,
        source=rule.source,
        reason=told,
        remedy=remedy,
        mends=(("drive", "drum", "diameter"),),
    )


def _anchor(judge: Judge, rope: RopeOnDrum) -> None:
    """The rope's anchor, relieved by the friction of the dead wraps where that friction is stated."""
    drum, working = judge.rig.drive.drum, judge.working
    if drum.anchor_holds is None:
        judge.leave_out(f"the anchor of {rope.name} on the drum: what it holds is not stated")
        return
    id, item, what = f"drum.{rope.name}.anchor", f"drum, {rope.name}", "anchor of the rope"
    source = "Baker and Haynes, Engineering Statics, chapter 9; the anchor's own figure as stated"
    power = judge.solution.powers[rope.name]
    pulls = judge.solution.runs[rope.name][power.reference]
    most = working.extreme(formulas.PULL.of(f"{rope.name} on the drum", f"greatest pull of {rope.name} on the drum"), pulls.all)
    holds = judge.given(formulas.ANCHOR_PULL.of(f"{rope.name} holds", "what the anchor holds"), drum.anchor_holds.value, "drive, drum, anchor_holds",
                        drum.notes.get("anchor_holds", ""))  # fmt: skip
    told = "The stated figure is taken as what the anchor may carry in use, not as where it gives way."
    greatest = judge.for_all_loads(most)
    remedy = f"An anchor that holds at least {units.show(greatest, 'N', 4, 'up')} needs no help from the dead wraps.{judge.with_tolerance}"
    if drum.rope_friction is None or drum.dead_wraps is None:
        if holds.number >= most.number:
            judge.compare(id, item, what, PART, most, holds, source=source, reason=f"{told} No help from the dead wraps is counted.")
            return
        if judge.is_slack or not math.isfinite(most.number):
            why = drum_winding.SLACK if judge.is_slack else drum_winding.UNKNOWN
            judge.cannot_tell(id, item, what, PART, why, on_load=True, wants=judge.wants_if_slack(), source=source)
            return
        ask = "State the friction of the rope on the drum." if drum.rope_friction is None else COUNT_WRAPS
        wants = (() if drum.rope_friction is not None else (("drive", "drum", "rope_friction"),)) + (
            () if drum.dead_wraps is not None else WRAPS
        )
        judge.cannot_tell(
            id,
            item,
            what,
            PART,
            f"What the dead wraps take off the anchor is not known. {ask} {remedy}",
            on_load=True,
            wants=wants,
            source=source,
            demand=most,
        )
        return
    friction = judge.given(
        formulas.FRICTION.of(rope.name), drum.rope_friction, "drive, drum, rope_friction", drum.notes.get("rope_friction", "")
    )
    turns = judge.given(formulas.DEAD_WRAPS.of(f"{rope.name} at the anchor"), drum.dead_wraps, "drive, drum, dead_wraps")
    left = working.apply(formulas.anchor_pull, rope.name, pull=most, friction=friction, turns=turns)
    if left.number > holds.number:
        needed = math.log(greatest / holds.number) / (2 * math.pi * drum.rope_friction)
        remedy = f"At least {units.number(needed, 3, 'up')} dead wraps. {remedy}"
    judge.compare(id, item, what, PART, left, holds, source=source, reason=told, remedy=remedy, mends=WRAPS)


def _fleet_angles(judge: Judge, lines: DrumLines) -> None:
    """How far sideways each rope must reach from its first stop to the end of its own part of the drum."""
    drum, travel, rule = judge.rig.drive.drum, judge.solution.travel, drum_rule("fleet-angle-limit")
    smooth, grooved, least = (drum_rule(f"fleet-angle-{name}") for name in ("smooth-drum", "grooved-drum", "least"))
    told = (f"For good winding {smooth.source} advises {units.show(smooth.value, '°')} on a smooth drum, {units.show(grooved.value, '°')} on a grooved one, "
            f"and not below {units.show(least.value, '°')}.")  # fmt: skip
    beside = {r.name: _run_beside_drum(travel.paths[r.name], driven_end(judge.rig, r.name)) for r in lines.ropes}
    order = sorted(lines.ropes, key=lambda r: float(numpy.mean(beside[r.name][0])))
    limit = None
    for place, rope in enumerate(order):
        id, item, what = f"drum.{rope.name}.fleet-angle", f"drum, {rope.name}", "fleet angle at the drum"
        if drum.width is None:
            judge.cannot_tell(id, item, what, PART, MEASURE_WIDTH, on_load=False, wants=WIDTH, source=rule.source)
            continue
        depth, run = beside[rope.name]
        share = drum.width.value / len(order)
        offset = numpy.abs(depth - (place - (len(order) - 1) / 2) * share) + share / 2
        how = "from the plane of the rope's first stop to the far end of its part of the drum, the drum's middle lying at its stated place"
        sideways = judge.working.geometry(formulas.OFFSET.of(rope.name), offset, how)
        length = judge.working.geometry(formulas.RUN.of(rope.name), run, "straight run, seen along the drum's axis")
        angle = judge.working.apply(formulas.fleet_angle, rope.name, f"fleet angle of {rope.name} at the drum", offset=sideways, run=length)
        most = judge.working.extreme(Sign(f"α_{rope.name} most", f"greatest fleet angle of {rope.name}", "°"), [angle])
        limit = limit or judge.working.looked_up(Sign("α_limit", "greatest fleet angle allowed", "°"), rule.value, rule.name, rule.source)
        far = units.show(float(numpy.max(offset)) / math.tan(rule.value), "m", 3, "up")
        remedy = f"At least {far} from the drum to the first sheave, that sheave opposite the middle of the rope's part of the drum, or a narrower drum."
        judge.compare(id, item, what, PART, most, limit, source=rule.source, reason=told, remedy=remedy, mends=(("drive", "drum", "at"),))


def _run_beside_drum(path, end: int) -> tuple[numpy.ndarray, numpy.ndarray]:
    """Depth of the rope's first stop beyond the drum's middle, and the run's length seen along the drum's axis."""
    at_drum, first_stop = (path.stops[0], path.stops[1]) if end == 0 else (path.stops[-1], path.stops[-2])
    depth = (first_stop.centre - at_drum.centre)[:, 2]
    return depth, path.straight[end] * numpy.sqrt(1 - path.directions[end][:, 2] ** 2)
