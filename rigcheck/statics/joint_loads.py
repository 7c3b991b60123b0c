"""What ropes and the struts' own weight do to joints and feet, and whatever follows from it in proportion: its least and its greatest.

At rest every run may pull with its least or its greatest, so that a sum in proportion to the pulls has its extremes where each run stands at one
end of its range; runs at their ends together say rather too much, never too little.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import product

import numpy
import sympy

from rigcheck.formula import Sign, compiled
from rigcheck.rig.fields import coordinates
from rigcheck.rig.model import Rig
from rigcheck.statics.frame import AXES, Frame
from rigcheck.statics.reactions import carry_at_once, touches_of
from rigcheck.statics.readings import Entries
from rigcheck.statics.solution import Solution
from rigcheck.statics.travel import Travel
from rigcheck.statics.vectors import cross
from rigcheck.working import Line

MOST_MIXED = 4  # runs of which every mixture of least and greatest is tried where the extremes of a sum do not tell
COSINE = Sign("c", "share of a pull along an axis", "")


@dataclass(frozen=True)
class Pull:
    """One run that pulls at a node, with the shares of its pull across, up and in depth; `of` counts the runs, which may pull at several nodes."""

    node: int
    rope: str
    of: int
    shares: tuple[sympy.Expr, ...]


@dataclass(frozen=True)
class Acting:
    """One run that acts on a point: how a pull of 1 N in it acts there, (heights, 3), and through what, in words, where not straight."""

    rope: str
    run: int
    along: numpy.ndarray
    through: str = ""


@dataclass(frozen=True)
class Loads:
    """All that acts on the nodes in one way of moving. `own` (nodes, 3) is the struts' own weight, half of it at either end."""

    solution: Solution
    word: str
    runs: list[tuple[str, int]]
    pulls: list[Pull]
    inputs: dict[str, Line]
    symbols: tuple[sympy.Symbol, ...]
    own: numpy.ndarray

    @property
    def is_range(self) -> bool:
        return self.word == "at rest"

    def shares(self, values) -> list[list[numpy.ndarray]]:
        """The three shares of every run, from the values of the inputs."""
        flat = [share for pull in self.pulls for share in pull.shares]
        if not flat:
            return []
        found = compiled(self.symbols, tuple(flat))(*(values[f"c{i}"] for i in range(len(self.symbols))))
        return [list(found[3 * k : 3 * k + 3]) for k in range(len(self.pulls))]

    def extremes(self, values, row: numpy.ndarray) -> tuple[numpy.ndarray, numpy.ndarray]:
        """The least and the greatest of what follows with `row` (nodes, 3) from the forces on the nodes."""
        times: list[numpy.ndarray | float] = [0.0] * len(self.runs)
        for pull, shares in zip(self.pulls, self.shares(values), strict=True):
            times[pull.of] = times[pull.of] + sum(float(row[pull.node, axis]) * shares[axis] for axis in range(3))
        low: dict[str, numpy.ndarray] = {}
        high: dict[str, numpy.ndarray] = {}
        for k, (rope, _) in enumerate(self.runs):
            ends = [times[k] * values[f"most{k}"], times[k] * values[f"least{k}"]] if self.is_range else [times[k] * values[f"most{k}"]]
            low[rope] = low.get(rope, 0.0) + (numpy.minimum(*ends) if self.is_range else ends[0])
            high[rope] = high.get(rope, 0.0) + (numpy.maximum(*ends) if self.is_range else ends[0])
        steady = float(numpy.sum(row * self.own))
        return self._together(low, numpy.minimum) + steady, self._together(high, numpy.maximum) + steady

    def _together(self, by_rope: dict[str, numpy.ndarray], worse) -> numpy.ndarray:
        """Ropes that share a load carry it each alone, or, where they share more than one balance, whichever of them make it worst."""
        shared = [rope for rope in by_rope if rope in self.solution.shared]
        alone = sum((value for rope, value in by_rope.items() if rope not in shared), numpy.zeros(1))
        if not shared:
            return alone
        if carry_at_once(self.solution):
            return alone + sum(worse(by_rope[rope], 0.0) for rope in shared)
        found = by_rope[shared[0]]
        for rope in shared[1:]:
            found = worse(found, by_rope[rope])
        return alone + found

    def mixtures(self, values) -> list[list[numpy.ndarray]] | None:
        """Every mixture of pulls that may come together, None where they are too many to be tried."""
        ropes = list(dict.fromkeys(rope for rope, _ in self.runs))
        shared = [rope for rope in ropes if rope in self.solution.shared]
        if (self.is_range and len(self.runs) > MOST_MIXED) or (shared and carry_at_once(self.solution)):
            return None
        most = [values[f"most{k}"] for k in range(len(self.runs))]
        least = [values[f"least{k}"] for k in range(len(self.runs))] if self.is_range else most
        found = []
        for low in product((False, True), repeat=len(most) if self.is_range else 0):
            mixed = [least[k] if low and low[k] else most[k] for k in range(len(most))]
            for alone in shared or [None]:
                found.append([numpy.zeros(1) if rope in shared and rope != alone else mixed[k] for k, (rope, _) in enumerate(self.runs)])
        return found

    def following(self, shares, mixed: list[numpy.ndarray], rows: numpy.ndarray) -> list[numpy.ndarray]:
        """What follows with each of `rows` (any, nodes, 3) where the runs pull with `mixed`."""
        found = []
        for row in rows:
            terms = [
                mixed[p.of] * sum(float(row[p.node, axis]) * own[axis] for axis in range(3))
                for p, own in zip(self.pulls, shares, strict=True)
            ]
            found.append(sum(terms, numpy.zeros(1)) + float(numpy.sum(row * self.own)))
        return found


def own_weight(frame: Frame) -> numpy.ndarray:
    """Half the weight of every strut at either of its ends, (nodes, 3), up positive."""
    found = numpy.zeros((len(frame.nodes), 3))
    for member in frame.all_members:
        for end in frame.rig.struts[member].ends:
            found[frame.nodes.index(end), 1] -= frame.weight_n(member) / 2
    return found


def loads_of(solution: Solution, frame: Frame) -> dict[str, Loads]:
    """What acts on the nodes raising, lowering and at rest; one cosine for all three unless something hangs free."""
    found, kept = {}, None
    for word, readings in solution.ways.items():
        if kept is None or readings.is_hung:
            kept = Entries(readings)
        told = f", {word}" if readings.is_hung else ""
        acting = acting_on(solution.rig, readings.travel)
        pulls, runs = [], []
        for node, name in enumerate(frame.nodes):
            for place, acts in enumerate(acting.get(name, [])):
                shares = tuple(_share(kept, solution.rig, name, place, acts, axis, told) for axis in range(3))
                if (acts.rope, acts.run) not in runs:
                    runs.append((acts.rope, acts.run))
                pulls.append(Pull(node, acts.rope, runs.index((acts.rope, acts.run)), shares))
        used = set().union(*(share.free_symbols for pull in pulls for share in pull.shares)) if pulls else set()
        symbols = tuple(symbol for symbol in kept.lines if symbol in used)
        inputs = {f"c{i}": kept.lines[symbol] for i, symbol in enumerate(symbols)}
        fields = {"most": "holding_most", "least": "holding_least"} if word == "at rest" else {"most": word}
        inputs |= {
            f"{key}{k}": getattr(solution.runs[rope][run], field) for key, field in fields.items() for k, (rope, run) in enumerate(runs)
        }
        found[word] = Loads(solution, word, runs, pulls, inputs, symbols, own_weight(frame))
    return found


def acting_on(rig: Rig, travel: Travel) -> dict[str, list[Acting]]:
    """What pulls at every point.

    The pull on a winch that is bolted to a strut comes to both ends of it, as from a beam: crosswise by the lever of each end, lengthwise to the
    foot.
    """
    touches = touches_of(rig, travel)
    found = {name: [Acting(t.rope, t.run, t.along) for t in own] for name, own in touches.items() if name in rig.points}
    strut = rig.drive.drum.bolted_to if rig.drive.kind == "winch" else None
    if strut is not None:
        through = f" through the winch on {strut}"
        far, near = _far_and_near(rig, strut)
        start, end = (numpy.array(coordinates(rig.points[name].at)) for name in (near, far))
        long = float(numpy.linalg.norm(end - start))
        along = (end - start) / long
        for touch in touches["winch"]:
            at_far = cross(cross(touch.at - start, touch.along), along) / long
            found.setdefault(far, []).append(Acting(touch.rope, touch.run, at_far, through))
            found.setdefault(near, []).append(Acting(touch.rope, touch.run, touch.along - at_far, through))
    return found


def _far_and_near(rig: Rig, strut: str) -> tuple[str, str]:
    """The end of a strut that bears the winch only crosswise, and the end that bears it lengthwise too: the one that is no joint, else the nearer one."""
    drum = coordinates(rig.drive.drum.at)
    ends = sorted(
        rig.struts[strut].ends, key=lambda end: (rig.points[end].held == "struts", math.dist(coordinates(rig.points[end].at), drum))
    )
    return ends[1], ends[0]


@dataclass(frozen=True)
class Bend:
    """What 1 N in one run that is wound on the drum does to the strut the winch is bolted to, along the travel: how much it bends it, in N·m at most,
    and how much of it pulls towards the far end, so that it takes that from the push beyond the winch.
    """

    rope: str
    run: int
    bends_m: numpy.ndarray
    towards_far: numpy.ndarray


def bends(rig: Rig, travel: Travel) -> list[Bend]:
    """How the strut that the winch is bolted to is bent, as a beam on its two ends: at the winch, on either side of its bracket."""
    far, near = _far_and_near(rig, rig.drive.drum.bolted_to)
    start, end = (numpy.array(coordinates(rig.points[name].at)) for name in (near, far))
    long = float(numpy.linalg.norm(end - start))
    along = (end - start) / long
    reach = float((numpy.array(coordinates(rig.drive.drum.at)) - start) @ along)
    found = []
    for touch in touches_of(rig, travel)["winch"]:
        lengthwise = touch.along @ along
        at_far = cross(cross(touch.at - start, touch.along), along) / long
        at_near = touch.along - lengthwise[:, None] * along - at_far
        sides = numpy.linalg.norm(at_far, axis=1) * (long - reach), numpy.linalg.norm(at_near, axis=1) * reach
        found.append(Bend(touch.rope, touch.run, numpy.maximum(*sides), lengthwise))
    return found


def _share(entries: Entries, rig: Rig, node: str, place: int, acts: Acting, axis: int, told: str) -> sympy.Expr:
    def reading(where: Travel) -> numpy.ndarray:
        along = acting_on(rig, where)[node][place].along[:, axis]
        for exact in (0.0, 1.0, -1.0):
            along = numpy.where(numpy.abs(along - exact) < 1e-12, exact, along)
        return along

    run = f"{acts.rope} {acts.run + 1}"
    meaning = f"share of the pull of {acts.rope}, run {acts.run + 1}, that acts on {node} {AXES[axis]}{acts.through}{told}"
    return entries.of(reading, COSINE.of(f"{run}, {node} {AXES[axis]}", meaning), "direction of the run")
