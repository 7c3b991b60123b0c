"""Rigs whose head sheave hangs at a joint of struts: without friction both falls pull it straight down with the load's weight each."""

from __future__ import annotations

import math

from tests.rigs import SHEAVE_M, G, lead_sheave, place

HEAD = (SHEAVE_M / 2, 4.0, 0.0)
"""Where the head sheave's axle is, and the joint."""
JOINT = "hanger of head"


def framed(points: dict, struts: dict, mass_kg: float = 100.0, efficiency: float = 1.0, **more) -> dict:
    """A straight lift over a sheave at the joint; `points` by name: place from the joint, in metres, and what else is stated; `struts` by name: the other end."""
    data = lead_sheave(mass_kg, efficiency)
    data["points"][JOINT]["held"] = "struts"
    for name, (at, stated) in points.items():
        data["points"][name] = {"at": place(*(a + b for a, b in zip(HEAD, at, strict=True))), **stated}
    data["struts"] = {
        name: {"one_end": JOINT, **({"other_end": stated} if isinstance(stated, str) else stated)} for name, stated in struts.items()
    }
    return data | more


def on_head_n(mass_kg: float = 100.0, efficiency: float = 1.0) -> float:
    """What presses the joint straight down while raising."""
    return mass_kg * G * (1 + 1 / efficiency)


def tripod(out_m: float = 1.5, high_m: float = 4.0, efficiency: float = 1.0, **foot) -> dict:
    """Three legs alike, their feet on a circle about the plumb line."""
    feet = {
        f"foot {k}": ((out_m * math.cos(turn), -high_m, out_m * math.sin(turn)), foot)
        for k, turn in enumerate((0.0, 2 * math.pi / 3, -2 * math.pi / 3))
    }
    return framed(feet, {f"leg {k}": f"foot {k}" for k in range(3)}, efficiency=efficiency)


def wall_jib(reach_m: float = 4.0, rise_m: float = 3.0) -> dict:
    """A level jib pushed against a wall, and a tie that rises to it."""
    return framed({"jib foot": ((-reach_m, 0, 0), {}), "anchor": ((-reach_m, rise_m, 0), {})}, {"jib": "jib foot", "tie": "anchor"})


def pole_with_guys(lean_m: float = 1.0, back_m: float = 3.0, front_m: float = 3.0) -> dict:
    """A pole in the plane of the drawing, leaning to the right, a guy to the left and one to the right."""
    points = {"foot": ((-lean_m, -4, 0), {}), "back": ((-lean_m - back_m, -4, 0), {}), "front": ((front_m, -4, 0), {})}
    guys = {f"{side} guy": {"other_end": side, "pulls_only": True} for side in ("back", "front")}
    return framed(points, {"pole": "foot", **guys})
