"""Rigs for tests, built as the data of a rig file: tackles, a straight lift, a counterweight, two falls, a sloping guide, a body in space.

Numbers are plain metres, kilograms and newtons here; `metres` and its like write them as text, with every digit.
"""

from __future__ import annotations

from rigcheck.rig.model import Rig


def metres(value: float) -> str:
    return f"{float(value)!r} m"


def place(*coordinates: float) -> list[str]:
    return [metres(c) for c in coordinates]


class Builder:
    """Gathers the parts of one rig; every method returns what it added, so that a test may change it."""

    def __init__(self, name: str = "rig under test", travel: float = 1.0, swing_rad: float | None = None, **basis):
        self.data: dict = {
            "format": 1,
            "name": name,
            "points": {},
            "bodies": {},
            "sheaves": {},
            "ropes": {},
            "limits": {"travel": metres(travel)} if swing_rad is None else {"swing": f"{swing_rad!r} rad"},
        }
        if basis:
            self.data["basis"] = basis

    def body(self, name: str, mass_kg: float, at, role: str = "other", **more) -> dict:
        picks = {pick: place(*where) for pick, where in more.pop("picks", {}).items()}
        self.data["bodies"][name] = {"role": role, "mass": f"{float(mass_kg)!r} kg", "at": place(*at), "picks": picks, **more}
        return self.data["bodies"][name]

    def point(self, name: str, at) -> str:
        self.data["points"][name] = {"at": place(*at)}
        return name

    def sheave(self, name: str, at, diameter: float = 0.1, on: str | None = None, **more) -> str:
        """A sheave on a point of its own (`at` is then its place) or on a body (`at` is then its offset)."""
        carrier = on or self.point(f"hanger of {name}", at)
        offset = {"offset": place(*at)} if on else {}
        self.data["sheaves"][name] = {"on": carrier, "pitch_diameter": metres(diameter), **offset, **more}
        return name

    def rope(self, name: str, path: list[dict], diameter: float = 0.006, **more) -> dict:
        self.data["ropes"][name] = {"kind": "steel", "diameter": metres(diameter), "path": path, **more}
        return self.data["ropes"][name]

    def winch(self, at, diameter: float = 0.1) -> None:
        self.data["drive"] = {"kind": "winch", "drum": {"at": place(*at), "diameter": metres(diameter)}}

    def rig(self) -> Rig:
        return Rig.model_validate(self.data)


def over(name: str, clockwise: bool) -> dict:
    return {"over": name, "turns": "clockwise" if clockwise else "anticlockwise"}


def fast(name: str, pick: str | None = None, **more) -> dict:
    return {"made_fast_to": name, **({"pick": pick} if pick else {}), **more}


def drum(clockwise: bool = True) -> dict:
    return {"wound_on": "drum", "turns": "clockwise" if clockwise else "anticlockwise"}


LOAD = "load"
END = {"fitting_share": 1.0}


def tackle(parts: int, *, advantage: bool = False, mass_kg: float = 100.0, leads: int = 0, diameters=None, sheave: dict | None = None, each: list[dict] | None = None,
           travel: float = 1.0, head: float = 5.0, rope: dict | None = None, spacing: float | None = None, basis: dict | None = None) -> Builder:  # fmt: skip
    """A tackle with so many parts at the moving block.

    Rove to disadvantage the lead line comes off the fixed block and runs, over `leads` more sheaves, to a drum below; to advantage it
    comes off the moving block and runs up, over the lead sheaves, to a drum above. `diameters` and `each` go sheave by sheave.
    """
    b = Builder(f"tackle of {parts}", travel, **(basis or {}))
    count = parts - 1 if advantage else parts
    sizes = list(diameters or []) or [0.1] * (count + leads)
    kinds = each or [sheave or {"efficiency": 1.0}] * (count + leads)
    step = spacing or 0.1
    moving_becket = parts % 2 == 1
    middle = (parts - 1) * step / 2
    picks = {"becket": (-middle, 0.3)} if moving_becket else {}
    b.body(LOAD, mass_kg, (middle, 0.0), "load", picks=picks)
    path = [fast(LOAD, "becket", **END)] if moving_becket else [fast(b.point("becket", (0.0, head)), **END)]
    for number in range(1, count + 1):
        upper = (number % 2 == 1) == moving_becket
        across = (number - 0.5) * step
        name = f"sheave {number}"
        b.sheave(name, (across, head) if upper else (across - middle, 0.3), sizes[number - 1], None if upper else LOAD, **kinds[number - 1])
        path.append(over(name, upper))
    x = count * step
    for number in range(1, leads + 1):
        x += sizes[count] / 2 if advantage and number == 1 else 0.7
        # each lead sheave stands lower than a straight line would have it, so that the rope bears on all of them
        b.sheave(
            name := f"lead {number}",
            (x, head + 1.0 - 0.05 * number * (number - 1) if advantage else head - 0.05 * number * (number + 1)),
            sizes[count + number - 1],
            **kinds[count + number - 1],
        )
        path.append(over(name, True))
    if advantage and not leads:
        b.winch((x + 0.053, head + 1.0))
    else:
        b.winch((x + 1.0, 0.5))
    b.rope("hoist", [*path, drum()], **(rope or {}))
    return b


def straight(
    mass_kg: float = 100.0,
    *,
    sheave: dict | None = None,
    rope: dict | None = None,
    travel: float = 1.0,
    angle_x: float = 1.2,
    basis: dict | None = None,
) -> Builder:
    """A load straight up over one head sheave, and from there to a drum at the side."""
    b = Builder("straight lift", travel, **(basis or {}))
    b.body(LOAD, mass_kg, (0.0, 0.0), "load", picks={"eye": (0.0, 0.3)})
    b.sheave("head", (0.05, 4.0), 0.1, **(sheave or {"efficiency": 1.0}))
    b.winch((angle_x, 0.5))
    b.rope("hoist", [fast(LOAD, "eye", **END), over("head", True), drum()], **(rope or {}))
    return b


def counterweighted(mass_kg: float, counterweight_kg: float, sheaves: list[dict], hoist_sheave: dict | None = None, travel: float = 1.0,
                    diameters: list[float] | None = None, heads: list[float] | None = None) -> Builder:  # fmt: skip
    """A guided load with a counterweight on a rope of its own over one to three fixed sheaves, and a hoist rope over one."""
    b = Builder("counterweighted lift", travel)
    b.body(LOAD, mass_kg, (0.0, 0.0), "load", picks={"eye": (0.1, 0.3), "cw eye": (-0.1, 0.3)})
    many = len(sheaves)
    sizes = diameters or [0.1] * many
    ups = heads or [4.0] * many
    xs = [-0.1 - sizes[0] / 2 - 0.8 * i for i in range(many)]
    path = [fast(LOAD, "cw eye", **END)]
    for i in range(many):
        path.append(over(b.sheave(f"cw sheave {i + 1}", (xs[i], ups[i]), sizes[i], **sheaves[i]), False))
    b.body("counterweight", counterweight_kg, (xs[-1] - sizes[-1] / 2, travel + 0.5), "counterweight", picks={"eye": (0.0, 0.2)})
    b.rope("counterweight rope", [*path, fast("counterweight", "eye", **END)])
    b.sheave("head", (0.15, 4.5), 0.1, **(hoist_sheave or {"efficiency": 1.0}))
    b.winch((1.2, 0.5))
    b.rope("hoist", [fast(LOAD, "eye", **END), over("head", True), drum()])
    return b
