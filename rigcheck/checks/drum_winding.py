"""How the ropes lie on the drum along the travel: turns, layers, radius, and the torque that follows."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy

from rigcheck.checks import drum_formulas as formulas
from rigcheck.checks.check import Check, Judge, Wants
from rigcheck.formula import Sign
from rigcheck.statics.layout import driven_end
from rigcheck.working import Line

PART = ("drum", "drum")
WIDTH, WRAPS = (("drive", "drum", "width"),), (("drive", "drum", "dead_wraps"),)
TURNS = Sign("n_turns", "turns on the drum, dead wraps among them", "")
WOUND = Sign("L_wound", "rope on the drum, dead wraps among it", "m")
SLACK = "A rope goes slack along the travel, so the pull on the drum is not known: see the check of the slack rope."
UNKNOWN = "The pull on the drum is not known along the whole travel."
A_HAIR = 1e-9
"""Relative: 0.3 m over 0.006 m is 49.999… in floating point, and is 50 turns."""


@dataclass(frozen=True)
class RopeOnDrum:
    """One rope on the drum; what rests on the width or the dead wraps is None where those are not stated."""

    name: str
    rope: Line
    per_layer: Line | None
    turns: Line | None
    layer: Line | None
    wound: Line | None
    radius: Line


@dataclass(frozen=True)
class DrumLines:
    """The torque on the drum. `radius` is that of the first rope's layer at each height, `first_radius` on the bare drum.

    While `open_question` is not empty the layer is not known, and every torque here is the one on the bare drum: the least it can be.
    """

    core: Line
    ropes: tuple[RopeOnDrum, ...]
    first_radius: Line
    radius: Line
    raising_along: Line
    lowering_along: Line
    holding_along: Line
    torque_raising: Line
    torque_lowering: Line
    torque_holding: Line
    open_question: str
    wants: Wants

    def compare(self, judge: Judge, id: str, item: str, what: str, part: tuple[str, str], demand: Line, capacity: Line, required: float = 1.0, *,
                source: str, reason: str = "", remedy: str = "", too_kind: str = "", mark: str = "read", wants: Wants = (), mends: Wants = ()) -> Check:  # fmt: skip
        """Judge something that rests on the drum's torque: it cannot tell while the layer is not known.

        `too_kind` is a further reason why the numbers at hand are kinder than the truth may be, `wants` the fields that would end it;
        `mends` are the fields that the remedy changes.
        """
        unknown = "" if math.isfinite(demand.number) else SLACK if judge.is_slack else UNKNOWN
        why = " ".join(text for text in (unknown, self.open_question, too_kind) if text)
        if not why:
            return judge.compare(
                id, item, what, part, demand, capacity, required, source=source, reason=reason, remedy=remedy, mark=mark, mends=mends
            )
        if capacity.number < required * demand.number:
            why += f" It would fall short even so. {remedy}"
        wants = (self.wants if self.open_question else ()) + (wants if too_kind else ()) + (judge.wants_if_slack() if unknown else ())
        return judge.cannot_tell(id, item, what, part, why.strip(), on_load=judge.depends_on_load(demand, capacity), source=source, demand=demand,
                                 required=required, wants=wants)  # fmt: skip


def driven_ropes(judge: Judge) -> list[str]:
    """The ropes on the drum, in the order of the rig."""
    return [name for name in judge.rig.ropes if driven_end(judge.rig, name) is not None]


def taken_in(judge: Judge, rope: str) -> numpy.ndarray:
    """Rope wound on since the lowest pose, at every height: what the rope's path has lost in length."""
    travel = judge.solution.travel
    length = travel.paths[rope].length
    missed = travel.stations.values[0] * travel.motion.take_in[0]  # nothing, if the stations begin at the bottom of the travel
    return length[0] - length + missed


def turns_and_layer(on_drum_m: numpy.ndarray, core_m: float, rope_m: float, per_layer: float) -> tuple[numpy.ndarray, numpy.ndarray]:
    """Turns, and the layer now being wound, for a length of rope wound tightly from the bare drum.

    >>> import math
    >>> turns, layer = turns_and_layer(numpy.array([math.pi * 0.106 * 10, math.pi * (0.106 * 10 + 0.118 * 5)]), 0.1, 0.006, 10)
    >>> turns.round(6).tolist(), layer.tolist()
    ([10.0, 15.0], [1.0, 2.0])
    """
    full = [0.0]
    while full[-1] < numpy.max(on_drum_m):
        full.append(full[-1] + numpy.pi * (core_m + (2 * len(full) - 1) * rope_m) * per_layer)
    # a layer that is just full is not yet the next one
    layer = numpy.maximum(numpy.searchsorted(numpy.array(full) * (1 + A_HAIR), on_drum_m, side="left"), 1)
    turns = per_layer * (layer - 1) + (on_drum_m - numpy.array(full)[layer - 1]) / (numpy.pi * (core_m + (2 * layer - 1) * rope_m))
    return turns, layer.astype(float)


def length_of_turns(turns: float, core_m: float, rope_m: float, per_layer: float) -> float:
    """Length of rope in so many turns, wound from the bare drum."""
    length, layer = 0.0, 1
    while turns > 0:
        here = min(turns, per_layer)
        length += here * numpy.pi * (core_m + (2 * layer - 1) * rope_m)
        turns, layer = turns - here, layer + 1
    return length


def lines(judge: Judge) -> DrumLines:
    """The lines of the drum's layers and torque."""
    drum = judge.rig.drive.drum
    core = judge.given(formulas.CORE, drum.diameter.value, "drive, drum, diameter", drum.notes.get("diameter", ""))
    names = driven_ropes(judge)
    layout = _width(judge, len(names))
    known: dict[float, RopeOnDrum] = {}
    ropes = []
    for name in names:
        diameter = judge.rig.ropes[name].diameter.value
        if diameter not in known:
            known[diameter] = _rope(judge, name, core, layout)
        same = known[diameter]
        ropes.append(RopeOnDrum(name, same.rope, same.per_layer, same.turns, same.layer, same.wound, same.radius))
    first = judge.working.given(Sign("k_first", "first layer", "", low=1), 1.0, "geometry")
    first_radius = judge.working.apply(formulas.layer_radius, "1", "radius of the first layer", core=core, rope=ropes[0].rope, layer=first)
    radius = _common_radius(judge, ropes)
    along = {}
    for case, word in (("raising", "raising"), ("lowering", "lowering"), ("holding most", "holding")):
        pull = judge.solution.drive_pull[case]
        along[word] = judge.working.apply(formulas.drum_torque, word, f"torque on the drum, {word}", pull=pull, radius=radius)
    worst = {}
    for word, line in along.items():
        sign = formulas.TORQUE.of(f"{word} most", f"torque on the drum on the worst layer, {word}")
        worst[word] = judge.working.extreme(sign, [line])
    return DrumLines(core, tuple(ropes), first_radius, radius, along["raising"], along["lowering"], along["holding"], worst["raising"],
                     worst["lowering"], worst["holding"], *_open_question(judge, ropes))  # fmt: skip


def _width(judge: Judge, many: int) -> tuple[Line, Line] | None:
    drum = judge.rig.drive.drum
    if drum.width is None:
        return None
    width = judge.given(formulas.WIDTH, drum.width.value, "drive, drum, width", drum.notes.get("width", ""))
    return width, judge.given(formulas.ROPES, float(many), "ropes wound on the drum")


def _rope(judge: Judge, name: str, core: Line, layout: tuple[Line, Line] | None) -> RopeOnDrum:
    """One rope; ropes of the same diameter lie alike, so they share these lines."""
    working, drum, given = judge.working, judge.rig.drive.drum, judge.rig.ropes[name]
    rope = judge.given(formulas.ROPE.of(name), given.diameter.value, f"ropes, {name}, diameter", given.notes.get("diameter", ""))
    per_layer = _per_layer(judge, name, rope, layout) if layout else None
    if per_layer is None or per_layer.number < 1 or drum.dead_wraps is None:
        bare = working.given(formulas.LAYER.of(f"{name} bare"), 1.0, "the bare drum, since the layer is not known")
        radius = working.apply(formulas.layer_radius, name, f"radius of {name} on the bare drum", core=core, rope=rope, layer=bare)
        return RopeOnDrum(name, rope, per_layer, None, None, None, radius)
    dead = length_of_turns(drum.dead_wraps, core.number, rope.number, per_layer.number)
    on_drum = dead + taken_in(judge, name)
    counted, layers = turns_and_layer(on_drum, core.number, rope.number, per_layer.number)
    wound = working.geometry(
        WOUND.of(name, f"{name} on the drum, dead wraps among it"), on_drum, "dead wraps and rope wound in along the travel"
    )
    turns = working.geometry(TURNS.of(name, f"turns of {name} on the drum"), counted, "rope on the drum over the way round its layers")
    layer = working.geometry(formulas.LAYER.of(name, f"layer on which {name} winds"), layers, "turns over whole turns in one layer")
    radius = working.apply(formulas.layer_radius, name, f"radius of the layer of {name}", core=core, rope=rope, layer=layer)
    return RopeOnDrum(name, rope, per_layer, turns, layer, wound, radius)


def _per_layer(judge: Judge, name: str, rope: Line, layout: tuple[Line, Line]) -> Line:
    width, many = layout
    beside = judge.working.apply(
        formulas.turns_side_by_side, name, f"turns of {name} that fit side by side", width=width, ropes=many, rope=rope
    )
    return judge.working.solve_in_numbers(
        formulas.TURNS_A_LAYER.of(name, f"whole turns of {name} in one layer"), whole, "rounded down", "", value=beside
    )


def whole(value: numpy.ndarray) -> numpy.ndarray:
    """Rounded down, but not by a hair of floating point."""
    return numpy.floor(value * (1 + A_HAIR) + A_HAIR)


def _common_radius(judge: Judge, ropes: list[RopeOnDrum]) -> Line:
    """The radius that goes with the total pull, which weighs every rope by its first layer over the first rope's.

    Ropes of different diameters do not climb alike: the greatest growth over the first layer is taken for all.
    """
    unlike = list({id(r.radius): r for r in ropes}.values())
    if len(unlike) == 1:
        return unlike[0].radius
    core = judge.rig.drive.drum.diameter.value
    bare = [(core + r.rope.number) / 2 for r in unlike]

    def compute(**values) -> numpy.ndarray:
        grown = [value / own for value, own in zip(values.values(), bare, strict=True)]
        return bare[0] * numpy.max(numpy.array(numpy.broadcast_arrays(*grown)), axis=0)

    sign = formulas.RADIUS.of("all ropes", "radius that goes with the total pull")
    return judge.working.solve_in_numbers(sign, compute, "the greatest growth over the first layer", "geometry",
                                          **{f"x{i}": r.radius for i, r in enumerate(unlike)})  # fmt: skip


def _open_question(judge: Judge, ropes: list[RopeOnDrum]) -> tuple[str, Wants]:
    """Why the layer is not known, and the fields that would tell; empty where it is known."""
    drum = judge.rig.drive.drum
    ask: dict[Wants, str] = {}
    if drum.width is None:
        ask[WIDTH] = "measure the drum's width between its flanges"
    elif any(r.per_layer.number < 1 for r in ropes):
        return "Not even one turn fits on the drum beside the others, so the layer is not known: check the drum's width.", WIDTH
    if drum.dead_wraps is None:
        ask[WRAPS] = "count the turns left on the drum with the load down"
    if not ask:
        return "", ()
    why = f"The layer on which the rope winds is not known, only the torque on the bare drum, and more layers need more: {' and '.join(ask.values())}."
    return why, tuple(path for paths in ask for path in paths)
