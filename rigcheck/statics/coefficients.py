"""The coefficients of the balance of one rig in one way of moving: as symbols with their lines, and once more as plain numbers."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations, islice

import numpy
import sympy

from rigcheck.errors import DisagreementError
from rigcheck.formula import Sign
from rigcheck.statics import balance, closed_form, guide_lines
from rigcheck.statics.balance import Block
from rigcheck.statics.closed_form import Balance
from rigcheck.statics.friction import Powers
from rigcheck.statics.guide_lines import Taken
from rigcheck.statics.poses import Freedom
from rigcheck.statics.readings import Entries, Readings
from rigcheck.statics.travel import Travel, weight_shares
from rigcheck.working import Line

COSINE = Sign("c", "share of the pull along the body's way", "")
ARM = Sign("p", "arm of the pull about the body's reference point", "m")
ARM_AT_HINGE = Sign("p", "arm of the pull about the hinge", "m")
AGREES_TO = 1e-8  # of all weight: what may be left of the balances that are not used to find the pulls
MOST_CHOICES = 2000
SAMPLES = 7


@dataclass(frozen=True)
class Coefficients:
    """Entries by rope, run and coordinate, and the weight of every coordinate, as expressions in the symbols of `lines`.

    `kept` are the equations that are solved: where something hangs free there are more balances than ropes, and all others hold with them.
    """

    lift: dict[str, list[list[sympy.Expr]]]
    gravity: list[sympy.Expr]
    lines: dict[sympy.Symbol, Line]
    names: list[str]
    of_moments: frozenset[int]
    kept: list[int]

    def ratios(self, readings: Readings, lines: dict[sympy.Symbol, Line], way: int, word: str) -> dict[str, list[sympy.Expr]]:
        """The pull of every run over that of its rope's reference run."""
        efficiencies, found = readings.efficiencies, {}
        for rope, power in readings.sway.powers.items():
            if power.steady():
                found[rope] = power.symbolic({s: efficiencies[s].sign.symbol for s in power.sheaves}, way)
                continue
            found[rope] = []
            for k, ratio in enumerate(power.ratios({s: efficiencies[s].value for s in power.sheaves}, way)):
                sign = Sign(f"f_{rope} {k + 1} {word}", f"pull of run {k + 1} over that of run {power.reference + 1} of {rope}, {word}")
                line = readings.working.geometry(sign, ratio, "the flow of rope turns round along the travel")
                lines[line.sign.symbol] = line
                found[rope].append(line.sign.symbol)
        return found

    def balance(
        self, ratios: dict[str, list[sympy.Expr]], readings: Readings, lines: dict[sympy.Symbol, Line], taken: list[Taken]
    ) -> Balance:
        """The equations kept, with what the guides take by their friction, ready to be solved."""
        runs = {rope: _outwards(power) for rope, power in readings.sway.powers.items()}
        whole = balance.assemble(
            [[ratios[rope][k] for k in order] for rope, order in runs.items()],
            [[self.lift[rope][k] for k in order] for rope, order in runs.items()],
            times=closed_form.times,
            add=closed_form.add,
        )
        plain = Balance(
            [whole[j] for j in self.kept],
            [self.gravity[j] for j in self.kept],
            dict(lines),
            list(runs),
            [self.names[j] for j in self.kept],
            frozenset(i for i, j in enumerate(self.kept) if j in self.of_moments),
        )
        return guide_lines.with_friction(plain, taken, ratios, runs) if taken else plain

    def compare_with_numbers(self, readings: Readings, found: list[Line | None], order: list[Block], way: int, taken: list[Taken]) -> None:
        """Raise DisagreementError where the closed forms and a numeric solution differ, or where a balance not used does not hold."""
        travel, many = readings.travel, len(readings.travel.heights_m)
        values = {name: line.number for name, line in readings.efficiencies.items()}
        matrix = numeric_matrix(travel, readings.sway.powers, values, way)
        weight = gravity_forces(travel, {name: line.number for name, line in readings.weights.items()})
        guide_lines.in_numbers(matrix, weight, taken, readings, way)
        numeric = closed_form.numeric([matrix[j] for j in self.kept], [weight[j] for j in self.kept], order, many)
        closed_form.compare(found, numeric, max(line.number for line in readings.weights.values()), guide_lines.are_known(taken, travel))
        left_out = [j for j in range(len(matrix)) if j not in self.kept]
        if left_out and not numpy.isnan(numeric).any():
            whole = sum(line.number for line in readings.weights.values())
            for j in left_out:
                off = numpy.max(numpy.abs(sum(entry * numeric[:, r] for r, entry in enumerate(matrix[j])) - weight[j]))
                if not off <= AGREES_TO * whole:
                    raise DisagreementError(f"what hangs free is out of balance by {off:.3g}: {self.names[j]}", where="statics",
                                            right="This is a fault of rigcheck: please report it with the rig file.")  # fmt: skip


def read_coefficients(readings: Readings, told: str) -> Coefficients:
    """Read all coefficients off the geometry; `told` follows the meaning of each, to say in which way of moving."""
    travel = readings.travel
    lift, lines = _lifts(readings, told)
    gravity, more = _gravity(readings, told)
    many = {f.body: sum(g.body == f.body for g in travel.free) for f in travel.free}
    names = [f.body if many[f.body] == 1 else f"{f.body} {f.words}" for f in travel.free]
    of_moments = frozenset(j for j, free in enumerate(travel.free) if free.tilts)
    return Coefficients(lift, gravity, lines | more, names, of_moments, _kept(readings))


def _lifts(readings: Readings, told: str):
    travel, entries, lift = readings.travel, Entries(readings), {}
    for rope, growth in travel.growth.items():
        stops = [s.name for s in travel.paths[rope].stops]
        lift[rope] = []
        for k in range(len(growth)):
            row = []
            for j, free in enumerate(travel.free):
                sign = _sign(free)
                sign = sign.of(f"{rope} {k + 1}, {free.body}", f"{sign.meaning}: {rope}, run {k + 1}, on {free.body}{told}")

                def lifting(where: Travel, rope=rope, k=k, j=j) -> numpy.ndarray:
                    return -where.growth[rope][k][:, j]

                row.append(entries.of(lifting, sign, f"run from {stops[k]} to {stops[k + 1]}"))
            lift[rope].append(row)
    return lift, entries.lines


def _sign(free: Freedom) -> Sign:
    return COSINE if not free.tilts else ARM if free.hinge is None else ARM_AT_HINGE


def _gravity(readings: Readings, told: str):
    entries, terms = Entries(readings), []
    for j, (free, shares) in enumerate(zip(readings.travel.free, weight_shares(readings.travel), strict=True)):
        own = []
        for body in shares:
            if free.tilts:
                sign = ARM.of(f"G {body}", f"arm of the weight of {body}{told}")
            else:
                sign = COSINE.of(f"W {body}", f"rise of {body} along its way")

            def rising(where: Travel, j=j, body=body) -> numpy.ndarray:
                rise = weight_shares(where)[j][body]
                return numpy.where(numpy.abs(rise) < 1e-12, 0.0, rise)

            own.append(closed_form.times(readings.weights[body].sign.symbol, entries.of(rising, sign, "centre of gravity")))
        terms.append(closed_form.add(own))
    return terms, entries.lines


def _outwards(powers: Powers) -> list[int]:
    """Runs in the order of reading: from the reference run outwards."""
    return sorted(range(len(powers.counts)), key=lambda k: abs(k - powers.reference))


def _kept(readings: Readings) -> list[int]:
    """The equations to solve: all, or, where they are more than the ropes, as many as say something new, and those that say it best.

    Where something hangs free, the others are what brought it to hang there.
    """
    travel = readings.travel
    everything = list(range(len(travel.free)))
    if not readings.is_hung:
        return everything
    picked = numpy.unique(numpy.linspace(0, len(travel.heights_m) - 1, SAMPLES).astype(int))
    plain = numpy.array([growth.sum(axis=0)[picked] for growth in travel.growth.values()])  # (ropes, samples, equations)
    matrix = numpy.moveaxis(plain, 0, 2)
    rank = int(min(numpy.linalg.matrix_rank(part, tol=1e-7) for part in matrix))
    choices = list(islice(combinations(everything, rank), MOST_CHOICES))
    # forces before moments where they say it as well: a reader follows them more easily
    worth = numpy.linalg.svd(matrix[:, numpy.array(choices)], compute_uv=False)[..., -1].min(axis=0)
    best = worth.max()
    turns = [sum(travel.free[j].tilts for j in choice) for choice in choices]
    good = [i for i in range(len(choices)) if worth[i] > 0.3 * best]
    return list(choices[min(good, key=lambda i: (turns[i], -worth[i]))])


def numeric_matrix(travel: Travel, powers: dict[str, Powers], values: dict[str, float], way: int) -> list[list[numpy.ndarray]]:
    """The same assembly on arrays."""
    ratios = [powers[rope].ratios(values, way) for rope in travel.growth]
    lift = [[[-run[:, j] for j in range(len(travel.free))] for run in growth] for growth in travel.growth.values()]
    return balance.assemble(ratios, lift)


def gravity_forces(travel: Travel, weights: dict[str, float]) -> list[numpy.ndarray]:
    """For each coordinate the weight to be lifted, along the travel."""
    return [sum(weights[body] * rise for body, rise in shares.items()) for shares in weight_shares(travel)]
