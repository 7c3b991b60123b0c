"""Lines of ropes in the plane by angles, and rigs as plain numbers: shares no line of code with the statics it is a witness of.

Every stop is a circle (x, y, s r), s = +1 where the path turns anticlockwise about it; an end is a circle of radius 0. Along a straight run in the
direction α a circle's centre lies s r to the left, so between two circles at distance d in the direction φ:

    d sin(φ - α) = s₂ r₂ - s₁ r₁          straight length² = d² - (s₂ r₂ - s₁ r₁)²
"""

from __future__ import annotations

from cmath import rect
from dataclasses import dataclass
from itertools import pairwise
from math import asin, atan2, cos, hypot, pi, sin, sqrt

G = 9.80665


def number(text: str) -> float:
    """The number of a text such as "1.5 m", as the builders of rigs write it."""
    return float(text.split()[0])


@dataclass(frozen=True)
class Run:
    alpha: float
    straight: float


def runs(circles: list[tuple[float, float, float]]) -> list[Run]:
    found = []
    for (x1, y1, one), (x2, y2, two) in pairwise(circles):
        distance = hypot(x2 - x1, y2 - y1)
        found.append(Run(atan2(y2 - y1, x2 - x1) - asin((two - one) / distance), sqrt(distance**2 - (two - one) ** 2)))
    return found


def near(angle: float, other: float) -> float:
    """The angle, by whole turns as near to the other as can be."""
    return angle + 2 * pi * round((other - angle) / (2 * pi))


class PlaneRig:
    """A rig in the plane read from the data of its file; poses are given as {(body, "x" | "y" | "along" | "tilt" | "turn"): number}."""

    def __init__(self, data: dict):
        self.data = data
        self.free = []
        for name, body in data["bodies"].items():
            moves = body.get("moves", {"kind": "guided"})
            if moves["kind"] == "carried":
                continue
            if moves["kind"] == "hinged":
                self.free.append((name, "turn"))
            elif moves["kind"] in ("level", "free"):
                self.free += [(name, "x"), (name, "y")] + ([(name, "tilt")] if moves["kind"] == "free" else [])
            else:
                self.free += [(name, "along")] + ([(name, "tilt")] if moves.get("tilts") else [])

    def direction(self, body: str) -> tuple[float, float]:
        x, y = self.data["bodies"][body].get("moves", {}).get("along", [0.0, 1.0])[:2]
        return x / hypot(x, y), y / hypot(x, y)

    def one_with(self, body: str | None) -> str | None:
        """The body that a body is fixed on in the end, or itself."""
        moves = self.data["bodies"][body].get("moves", {}) if body else {}
        return self.one_with(moves["by"]) if moves.get("kind") == "carried" else body

    def hinge(self, body: str) -> tuple[float, float]:
        return tuple(number(t) for t in self.data["bodies"][body]["moves"]["hinge"][:2])

    def turned_about_hinge(self, q: dict, body: str, x: float, y: float) -> tuple[float, float]:
        """A place in the drawn pose after the turn of the body, by complex numbers."""
        hinge = complex(*self.hinge(body))
        turned = hinge + (complex(x, y) - hinge) * rect(1.0, q.get((body, "turn"), 0.0))
        return turned.real, turned.imag

    def carried(self, q: dict, body: str, offset=("0 m", "0 m")) -> tuple[float, float]:
        own = self.one_with(body)
        if own != body or self.data["bodies"][own].get("moves", {}).get("kind") == "hinged":
            place = [number(t) + number(o) for t, o in zip(self.data["bodies"][body]["at"][:2], offset[:2], strict=True)]
            if self.data["bodies"][own].get("moves", {}).get("kind") == "hinged":
                return self.turned_about_hinge(q, own, *place)
            base = [number(t) for t in self.data["bodies"][own]["at"][:2]]
            return self.carried(q, own, tuple(f"{a - b!r} m" for a, b in zip(place, base, strict=True)))
        x, y = (number(t) for t in self.data["bodies"][body]["at"][:2])
        ux, uy = self.direction(body)
        along, turn = q.get((body, "along"), 0.0), q.get((body, "tilt"), 0.0)
        x, y = x + along * ux + q.get((body, "x"), 0.0), y + along * uy + q.get((body, "y"), 0.0)
        a, b = (number(t) for t in offset[:2])
        return x + a * cos(turn) - b * sin(turn), y + a * sin(turn) + b * cos(turn)

    def placed(self, q: dict, on: str, offset=("0 m", "0 m")) -> tuple[float, float]:
        if on in self.data["bodies"]:
            return self.carried(q, on, offset)
        at = self.data["points"][on]["at"]
        return number(at[0]) + number(offset[0]), number(at[1]) + number(offset[1])

    def circles(self, q: dict, rope: str) -> list[tuple[float, float, float]]:
        found = []
        for stop in self.data["ropes"][rope]["path"]:
            sense = -1.0 if stop.get("turns") == "clockwise" else 1.0
            if "over" in stop:
                sheave = self.data["sheaves"][stop["over"]]
                found.append(
                    (*self.placed(q, sheave["on"], sheave.get("offset", ("0 m", "0 m"))), sense * number(sheave["pitch_diameter"]) / 2)
                )
            elif "wound_on" in stop:
                drum = self.data["drive"]["drum"]
                found.append((number(drum["at"][0]), number(drum["at"][1]), sense * self.winding_radius(rope)))
            else:
                body = self.data["bodies"].get(stop["made_fast_to"])
                offset = body["picks"][stop["pick"]] if body and "pick" in stop else ("0 m", "0 m")
                found.append((*self.placed(q, stop["made_fast_to"], offset), 0.0))
        return found

    def winding_radius(self, rope: str) -> float:
        return (number(self.data["drive"]["drum"]["diameter"]) + number(self.data["ropes"][rope]["diameter"])) / 2

    def carriers(self, rope: str) -> list[str | None]:
        found = []
        for stop in self.data["ropes"][rope]["path"]:
            name = self.data["sheaves"][stop["over"]]["on"] if "over" in stop else stop.get("made_fast_to")
            found.append(self.one_with(name) if name in self.data["bodies"] else None)
        return found

    def lengths_up_to_each_sheave(self, q: dict, rope: str, drawn: list[Run] | None = None) -> list[float]:
        """Rope from the first end to a mark on each stop after it, the mark keeping its direction in space; the last is the whole rope.

        Angles are kept near those of the drawn pose, so that they run through without a jump.
        """
        circles = self.circles(q, rope)
        laid = runs(circles)
        found, length = [], 0.0
        for k, run in enumerate(laid):
            alpha = near(run.alpha, drawn[k].alpha) if drawn else run.alpha
            length += run.straight
            found.append(length - circles[k + 1][2] * alpha)
            if k + 1 < len(laid):
                after = near(laid[k + 1].alpha, drawn[k + 1].alpha) if drawn else laid[k + 1].alpha
                length += circles[k + 1][2] * (after - alpha)
        return found

    def energy(self, q: dict) -> float:
        heights = {
            name: self.carried(q, name, body.get("centre_of_gravity", ("0 m", "0 m")))[1] for name, body in self.data["bodies"].items()
        }
        return sum(G * number(self.data["bodies"][name]["mass"]) * height for name, height in heights.items())
