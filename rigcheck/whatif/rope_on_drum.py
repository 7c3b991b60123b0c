"""How the ropes lie on the drum with the load down and with the load up, gathered from the lines that the checks of the drum worked out."""

from __future__ import annotations

import math
from dataclasses import dataclass

from rigcheck.checks import drum_formulas as formulas
from rigcheck.checks.assessment import Assessment
from rigcheck.statics.layout import driven_end
from rigcheck.working import Line, Working


@dataclass(frozen=True)
class RopeOnDrum:
    """One rope on its part of the drum, in SI. `turns_down` are those left with the load down: the dead wraps, `turns_up` those with the load up.

    `most_m` is the rope on the drum with the load up; `room_m` and `layers_fitting` are None where the flange is not stated.
    """

    name: str
    diameter_m: float
    per_layer: int
    turns_down: float
    turns_up: float
    layers_up: int
    most_m: float
    room_m: float | None
    layers_fitting: int | None


def ropes_on_drum(assessment: Assessment) -> list[RopeOnDrum]:
    """Every rope on the drum in the order of the rig; none where the width of the drum or its dead wraps are not known."""
    rig, working = assessment.rig, assessment.solution.working
    if rig.drive.kind != "winch":
        return []
    names = [name for name in rig.ropes if driven_end(rig, name) is not None]
    by_diameter: dict[float, RopeOnDrum | None] = {}
    found = []
    for name in names:
        diameter_m = rig.ropes[name].diameter.value
        if diameter_m not in by_diameter:  # ropes of one diameter lie alike, and only the first has lines of its own
            by_diameter[diameter_m] = _rope(working, name, diameter_m)
        like = by_diameter[diameter_m]
        if like is not None:
            found.append(RopeOnDrum(name, *list(vars(like).values())[1:]))
    return found


def _rope(working: Working, name: str, diameter_m: float) -> RopeOnDrum | None:
    turns, layer = _line(working, f"turns of {name} on the drum"), _line(working, f"layer on which {name} winds")
    per_layer, most = _line(working, f"whole turns of {name} in one layer"), _line(working, f"most of {name} on the drum")
    if turns is None or layer is None:
        return None
    room = next((line for line in working.lines if line.formula is formulas.rope_held and line.inputs["rope"].value[0] == diameter_m), None)
    wound = _line(working, f"{name} on the drum, dead wraps among it")
    return RopeOnDrum(
        name=name, diameter_m=diameter_m, per_layer=int(per_layer.number), turns_down=float(turns.value[0]), turns_up=float(turns.value[-1]),
        layers_up=math.ceil(layer.value.max() - 1e-9), most_m=most.number if most else float(wound.value.max()),
        room_m=room.number if room else None, layers_fitting=int(room.inputs["layers"].number) if room else None,
    )  # fmt: skip


def _line(working: Working, meaning: str) -> Line | None:
    return next((line for line in working.lines if line.sign.meaning == meaning), None)
