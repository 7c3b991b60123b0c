"""Rigs with something on a hinge, for the tests: the hinge at (0, 1 m), the arm reaching to the right, no friction unless asked for."""

from __future__ import annotations

from tests.rigs import SHEAVE_M, _winch, fast, over, place, sheave, steel

HINGE_UP_M = 1.0


def hinged(mass_kg: float = 20.0, long_m: float = 2.0, swing_deg: float = 60.0, axis=None, hinge=None) -> dict:
    """A uniform lid from the hinge to the right, its reference point at its middle, with an eye at its far edge."""
    moves = {"kind": "hinged", "hinge": hinge or place(0, HINGE_UP_M)} | ({"axis": axis} if axis else {})
    lid = {
        "role": "load", "mass": f"{mass_kg!r} kg", "at": place(long_m / 2, HINGE_UP_M), "picks": {"edge": place(long_m / 2, 0)}, "moves": moves,
    }  # fmt: skip
    return {
        "format": 1, "name": "hinged lid", "points": {}, "bodies": {"lid": lid}, "sheaves": {}, "ropes": {}, "limits": {"swing": f"{swing_deg!r} deg"},
    }  # fmt: skip


def lid_by_hand(hand: list[str], **more) -> dict:
    """A lid raised by a rope from its edge to a hand at a fixed place, which stands for a winch far off on the same line."""
    data = hinged(**more)
    data["ropes"]["hoist"] = steel([fast("lid", "edge"), {"pulled_by_hand_at": hand}])
    data["drive"] = {"kind": "hand line", "people": 1}
    return data


def lid_by_winch(mass_kg: float = 20.0, swing_deg: float = 60.0, efficiency: float = 0.95, head: tuple[float, float] = (-1.5, 3.0), weight_kg: float | None = None,
                 weight_at_m: float = -0.5) -> dict:  # fmt: skip
    """A lid raised over a head sheave by a drum, with a counterweight on its own arm behind the hinge where one is asked for."""
    data = hinged(mass_kg, swing_deg=swing_deg)
    data["points"]["hanger"] = {"at": place(*head)}
    data["sheaves"]["head"] = sheave("hanger", efficiency)
    data["ropes"]["hoist"] = steel([fast("lid", "edge"), over("head", "anticlockwise"), {"wound_on": "drum", "turns": "anticlockwise"}])
    data["drive"] = _winch(-3.0)
    if weight_kg is not None:
        data["bodies"]["weight"] = {
            "role": "counterweight", "mass": f"{weight_kg!r} kg", "at": place(weight_at_m, HINGE_UP_M), "moves": {"kind": "carried", "by": "lid"},
        }  # fmt: skip
    return data


def lid_with_hanging_weight(mass_kg: float = 20.0, weight_kg: float = 6.0, efficiency: float = 0.95, swing_deg: float = 50.0) -> dict:
    """The lid on a winch, with a guided counterweight on a rope of its own over a second sheave to the lid's middle."""
    data = lid_by_winch(mass_kg, swing_deg, efficiency)
    data["bodies"]["lid"]["picks"]["middle"] = place(0, 0)
    data["bodies"]["weight"] = {"role": "counterweight", "mass": f"{weight_kg!r} kg", "at": place(3, 2.4), "picks": {"eye": place(0, 0.3)}}
    data["points"]["second hanger"] = {"at": place(3 - SHEAVE_M / 2, 4.5)}
    data["sheaves"]["second"] = sheave("second hanger", efficiency)
    data["ropes"]["weight rope"] = steel([fast("lid", "middle"), over("second", "clockwise"), fast("weight", "eye")])
    return data
