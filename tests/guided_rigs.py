"""Rigs with shoes in their guides, for the tests of guide friction: a load off the line of its guide, alone or with a counterweight."""

from __future__ import annotations

from tests import rigs

MU, APART_M, EFFICIENCY = 0.25, 0.4, 0.95


def shoes(across_m: float = 0.0, **more) -> dict:
    """A plumb guide whose line stands so far across from the body's reference point."""
    return {"kind": "guided", "shoes_apart": f"{APART_M} m", "lower_shoe": rigs.place(across_m, 0.1), "friction": MU} | more


def hung_out(gravity_m: float, efficiency: float = 1.0, **more) -> dict:
    """100 kg with its centre of gravity so far out from the line of its guide, in which the rope pulls."""
    data = rigs.lead_sheave(100.0, efficiency)
    data["bodies"]["load"] |= {"centre_of_gravity": rigs.place(gravity_m, 0.3), "moves": shoes(**more)}
    return data


def pulled_off(gravity_m: float, guide_m: float, efficiency: float = 1.0, **more) -> dict:
    """The same with the line of the guide so far across from the line of the rope."""
    data = hung_out(gravity_m, efficiency)
    data["bodies"]["load"]["moves"] = shoes(guide_m, **more)
    return data


def slanting(
    gravity_m: float, foot_m: float, friction: float = MU, kind: str = "around a rail", faces_m: float = 0.1, along=(0.0, 1.0)
) -> dict:
    """A rope that slants from the load to a head sheave beside the guide, so that it presses both shoes aside too."""
    data = rigs.lead_sheave(100.0, EFFICIENCY)
    data["points"]["hanger of head"]["at"] = rigs.place(foot_m, 4)
    data["drive"]["drum"]["at"] = rigs.place(foot_m + 1.0, 0.5)
    data["bodies"]["load"] |= {
        "centre_of_gravity": rigs.place(gravity_m, 0.3),
        "moves": shoes(-0.15, friction=friction, shoes=kind, faces_apart=f"{faces_m!r} m", along=list(along)),
    }
    return data


def counterweighted(load_m: float, guide_m: float, weight_m: float, friction: float = MU) -> dict:
    """A load and a counterweight, each in a guide of its own and off its line."""
    data = rigs.counterweighted(100.0, 40.0, EFFICIENCY, EFFICIENCY)
    data["bodies"]["load"] |= {"centre_of_gravity": rigs.place(load_m, 0.3), "moves": shoes(guide_m, friction=friction)}
    data["bodies"]["counterweight"] |= {"centre_of_gravity": rigs.place(weight_m, 0.2), "moves": shoes(0.0, friction=friction)}
    return data


def mirrored(data: dict) -> dict:
    """The same rig seen from behind: everything across changes its sign, every turn its sense."""
    turned = {"clockwise": "anticlockwise", "anticlockwise": "clockwise"}

    def flipped(place: list[str]) -> list[str]:
        across = float(place[0].removesuffix(" m"))
        return [f"{-across!r} m", *place[1:]]

    def walk(value, key=""):
        if key in ("at", "centre_of_gravity", "offset", "lower_shoe", "base") or (isinstance(value, list) and key == "pick"):
            return flipped(value)
        if key == "along":
            return [-value[0], value[1]]
        if key == "turns":
            return turned[value]
        if isinstance(value, dict):
            return {k: walk(v, "pick" if key == "picks" else k) for k, v in value.items()}
        return [walk(v) for v in value] if isinstance(value, list) else value

    return walk(data)
