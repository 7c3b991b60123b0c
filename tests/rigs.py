"""Small rigs of which everything is known, for the tests of statics and checks: each differs from the hand calculation beside it by one thing at a time.

A function gives the data of a rig file; a test changes it and reads it with `rig`. Falls are plumb, so that forces come out in plain numbers:
steel rope 6 mm, 7x19, grade 1770, breaking force 0.006² · 1770e6 · 0.362 = 23066.64 N; sheaves 120 mm (D/d = 20, bend share 0.91).
"""

from __future__ import annotations

from rigcheck.checks.assessment import Assessment, assess
from rigcheck.checks.check import Check
from rigcheck.rig.model import Rig

G = 9.80665
BREAKING_FORCE_N = 0.006**2 * 1770e6 * 0.362
BEND_SHARE_AT_20 = 0.91
SHEAVE_M = 0.12
DRUM_RADIUS_M = 0.063
"""Half of drum (120 mm) and rope (6 mm) together."""
SOCKET = {"fitting": "metal or resin socket"}


def rig(data: dict) -> Rig:
    return Rig.model_validate(data)


def assessed(data: dict) -> Assessment:
    return assess(rig(data))


def check_of(found: Assessment, id: str) -> Check:
    """The check with this id; a wrong id lists those there are."""
    by_id = {check.id: check for check in found.checks}
    assert id in by_id, f"{id} is not among {sorted(by_id)}"
    return by_id[id]


def pulls(solution, rope: str, run: int) -> tuple[float, float, float, float]:
    """Raising, lowering, least and greatest standing still: the pulls of one run at the foot of the travel."""
    found = solution.runs[rope][run]
    return tuple(float(line.value[0]) for line in (found.raising, found.lowering, found.holding_least, found.holding_most))


def place(*metres: float) -> list[str]:
    return [f"{round(m, 12)!r} m" for m in metres]


def fast(to: str, pick: str | None = None, **end) -> dict:
    return {"made_fast_to": to, **({"pick": pick} if pick else {}), **(end or SOCKET)}


def over(name: str, turns: str = "clockwise") -> dict:
    return {"over": name, "turns": turns}


def steel(path: list[dict], **more) -> dict:
    return {
        "kind": "steel",
        "diameter": "6 mm",
        "construction": "7x19",
        "grade": "1770 N/mm²",
        "remaining_strength": 1,
        "path": path,
    } | more


def sheave(on: str, efficiency: float = 1.0, **more) -> dict:
    return {"on": on, "pitch_diameter": "120 mm", "efficiency": efficiency, "rated_load": "20 kN", "groove_diameter": "6.3 mm"} | more


def _whole(name: str, bodies: dict, **more) -> dict:
    return {"format": 1, "name": name, "points": {}, "bodies": bodies, "sheaves": {}, "ropes": {}, "limits": {"travel": "1 m"}} | more


def _winch(across_m: float, up_m: float = 0.5) -> dict:
    """A winch far stronger than anything else, so that ropes and sheaves govern."""
    drum = {
        "at": place(across_m, up_m),
        "diameter": "120 mm",
        "width": "100 mm",
        "flange_diameter": "400 mm",
        "grooved": True,
        "dead_wraps": 3,
        "anchor_holds": "900 kN",
    }
    motor = {
        "voltage": "240 V",
        "no_load_speed": "30 rpm",
        "no_load_current": "1 A",
        "stall_torque": "5000 N·m",
        "stall_current": "100 A",
        "rated_torque": "2000 N·m",
    }
    strong = {"brake": {"torque": "9000 N·m", "on": "drum", "sets_itself": True}, "pawl": {"holds": "9000 N·m"}}
    return {
        "kind": "winch",
        "drum": drum,
        "motor": motor,
        "supply": {"voltage": "240 V", "resistance": "0 ohm"},
        "cable": {"area": "16 mm²", "length": "1 m", "temperature": "20 °C"},
        **strong,
    }


def lead_sheave(mass_kg: float = 100.0, efficiency: float = 1.0, heads: int = 1) -> dict:
    """A load straight up over one head sheave, or over more beside it, then plumb down to a drum below."""
    data = _whole(
        "straight lift", {"load": {"role": "load", "mass": f"{mass_kg!r} kg", "at": place(0, 0), "picks": {"eye": place(0, 0.5)}}}
    )
    path = [fast("load", "eye")]
    for number in range(1, heads + 1):
        name = "head" if number == 1 else f"head {number}"
        data["points"][f"hanger of {name}"] = {"at": place(SHEAVE_M / 2 + (number - 1) * 0.5, 4)}
        data["sheaves"][name] = sheave(f"hanger of {name}", efficiency)
        path.append(over(name))
    data["ropes"]["hoist"] = steel([*path, {"wound_on": "drum", "turns": "anticlockwise"}])
    data["drive"] = _winch(SHEAVE_M + (heads - 1) * 0.5 + DRUM_RADIUS_M)
    return data


def straight_lift(mass_kg: float = 100.0) -> dict:
    """A load plumb under the drum: no sheave at all, the pull is the weight."""
    data = lead_sheave(mass_kg)
    data["points"], data["sheaves"] = {}, {}
    data["ropes"]["hoist"]["path"] = [fast("load", "eye"), {"wound_on": "drum", "turns": "clockwise"}]
    data["drive"] = _winch(DRUM_RADIUS_M, 4)
    return data


def tackle(parts: int, mass_kg: float = 100.0, efficiency: float = 1.0) -> dict:
    """A tackle rove to disadvantage: so many parts at the moving block, as many sheaves, the lead line plumb down to the drum."""
    middle = (parts - 1) * SHEAVE_M / 2
    data = _whole(
        f"tackle of {parts}",
        {"load": {"role": "load", "mass": f"{mass_kg!r} kg", "at": place(middle, 0), "picks": {"becket": place(-middle, 0.5)}}},
    )
    if parts % 2:
        path = [fast("load", "becket")]
    else:
        data["points"]["becket"] = {"at": place(0, 4)}
        path = [fast("becket")]
    for number in range(1, parts + 1):
        name, across = f"sheave {number}", (number - 0.5) * SHEAVE_M
        if (parts - number) % 2 == 0:
            data["points"][f"hanger of {name}"] = {"at": place(across, 4)}
            data["sheaves"][name] = sheave(f"hanger of {name}", efficiency)
            path.append(over(name))
        else:
            data["sheaves"][name] = sheave("load", efficiency, offset=place(across - middle, 0.5))
            path.append(over(name, "anticlockwise"))
    data["ropes"]["hoist"] = steel([*path, {"wound_on": "drum", "turns": "anticlockwise"}])
    data["drive"] = _winch(parts * SHEAVE_M + DRUM_RADIUS_M)
    return data


def falls(places_m: list[float], mass_kg: float = 100.0, efficiency: float = 1.0, *, tilts: bool = False, gravity_m: float = 0.0) -> dict:
    """Plumb falls at these places across, each over a head sheave of its own to one drum; the load is held level or free to tilt."""
    load = {
        "role": "load",
        "mass": f"{mass_kg!r} kg",
        "at": place(0, 0),
        "picks": {},
        "centre_of_gravity": place(gravity_m, 0.5),
        "moves": {"kind": "guided", "tilts": tilts},
    }
    data = _whole(f"{len(places_m)} falls", {"load": load})
    for number, across in enumerate(places_m, start=1):
        load["picks"][f"eye {number}"] = place(across, 0.5)
        data["points"][f"hanger of head {number}"] = {"at": place(across + SHEAVE_M / 2, 6 - 0.3 * number)}
        data["sheaves"][f"head {number}"] = sheave(f"hanger of head {number}", efficiency)
        data["ropes"][f"fall {number}"] = steel(
            [fast("load", f"eye {number}"), over(f"head {number}"), {"wound_on": "drum", "turns": "clockwise"}]
        )
    data["drive"] = _winch(max(places_m) + 1.5)
    return data


def counterweighted(mass_kg: float = 100.0, counterweight_kg: float = 60.0, efficiency: float = 1.0, head_efficiency: float = 1.0) -> dict:
    """A guided load on a hoist rope over one head sheave, and a counterweight on a rope of its own over one sheave of 400 mm."""
    picks = {"left eye": place(-0.1, 0.5), "right eye": place(0.1, 0.5)}
    data = _whole("counterweighted lift", {"load": {"role": "load", "mass": f"{mass_kg!r} kg", "at": place(0, 0), "picks": picks}})
    data["bodies"]["counterweight"] = {
        "role": "counterweight",
        "mass": f"{counterweight_kg!r} kg",
        "at": place(-0.5, 2),
        "picks": {"eye": place(0, 0.3)},
    }
    data["points"] = {"hanger of head": {"at": place(0.1 + SHEAVE_M / 2, 4)}, "hanger of cw sheave": {"at": place(-0.3, 4)}}
    data["sheaves"] = {
        "head": sheave("hanger of head", head_efficiency),
        "cw sheave": sheave("hanger of cw sheave", efficiency, pitch_diameter="400 mm"),
    }
    data["ropes"]["hoist"] = steel([fast("load", "right eye"), over("head"), {"wound_on": "drum", "turns": "anticlockwise"}])
    data["ropes"]["cw rope"] = steel([fast("load", "left eye"), over("cw sheave", "anticlockwise"), fast("counterweight", "eye")])
    data["drive"] = _winch(0.1 + SHEAVE_M + DRUM_RADIUS_M)
    return data
