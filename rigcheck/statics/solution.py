"""Solve a rig: every pull of every rope at every height, raising, standing still and lowering, as lines of working.

This is the only place that puts the stages of the statics in their order: travel, weights, friction, balance, closed forms,
sharing, holding range, witnesses.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy
import sympy

from rigcheck.errors import DisagreementError
from rigcheck.formula import Sign
from rigcheck.parts import sheave_rule
from rigcheck.rig.model import Rig
from rigcheck.statics import balance, closed_form, drive_pull, formulas, friction, sharing, standing
from rigcheck.statics.balance import Block
from rigcheck.statics.closed_form import PULL, Balance
from rigcheck.statics.friction import LOWERING, RAISING, Powers
from rigcheck.statics.layout import driven_end
from rigcheck.statics.travel import Travel, follow, weight_shares
from rigcheck.working import FORMULA, Line, Working

WAYS = {RAISING: ("raising", "↑"), LOWERING: ("lowering", "↓")}
EFFICIENCY = Sign("η", "efficiency of a sheave", "", above=0, high=1)
COSINE = Sign("c", "share of the pull along the body's way", "")
ARM = Sign("p", "arm of the pull about the body's reference point", "m")
ARM_AT_HINGE = Sign("p", "arm of the pull about the hinge", "m")


@dataclass(frozen=True)
class RunPulls:
    """The pull in one run: lines along the travel."""

    raising: Line
    lowering: Line
    holding_least: Line
    holding_most: Line

    @property
    def all(self) -> list[Line]:
        return [self.raising, self.holding_most, self.lowering]


@dataclass(frozen=True)
class Solution:
    """A solved rig: its travel, its working, and the lines that later stages build on."""

    rig: Rig
    travel: Travel
    working: Working
    gravity: Line
    masses: dict[str, Line]
    weights: dict[str, Line]
    efficiencies: dict[str, Line]
    assumed_bearings: list[str]
    runs: dict[str, list[RunPulls]]
    likely: dict[str, Line]
    shared: list[str]
    order: list[Block]
    powers: dict[str, Powers]
    drive_rope: str
    drive_pull: dict[str, Line]

    def slack(self) -> numpy.ndarray:
        """For every height, whether some rope would have to push while raising or lowering."""
        largest = max(float(numpy.nanmax(numpy.abs(w.value))) for w in self.weights.values())
        bad = numpy.zeros(len(self.travel.heights_m), dtype=bool)
        for runs in self.runs.values():
            for line in (runs[0].raising, runs[0].lowering):
                bad |= numpy.broadcast_to(line.value < -1e-9 * largest, bad.shape)
        return bad


def solve(rig: Rig, at: numpy.ndarray | None = None) -> Solution:
    """Solve the statics of a rig along its whole travel, or at some stations of it.

    Raises StaticsError where the rig as described has no answer.
    """
    travel = follow(rig, at)
    working = Working(travel.heights_m, travel.angles_rad)
    gravity = working.given(formulas.GRAVITY, formulas.GRAVITY_M_S2, "conventional value, 3rd CGPM (1901)")
    masses, weights = {}, {}
    for name in sorted(rig.bodies, key=lambda n: rig.bodies[n].role != "load"):
        body = rig.bodies[name]
        masses[name] = working.given(
            formulas.MASS.of(name, f"mass of {name}"), body.mass.value, f"bodies, {name}, mass", body.notes.get("mass", "")
        )
        weights[name] = working.apply(formulas.weight, name, f"weight of {name}", mass=masses[name], gravity=gravity)
    efficiencies, assumed = _efficiencies(rig, working)
    powers = {rope: friction.powers(travel, rope) for rope in rig.ropes}
    lift, lift_lines = _lifts(travel, working)
    pull_of_gravity, gravity_lines = _weights(travel, working, weights)
    problem_lines = lift_lines | gravity_lines | {line.sign.symbol: line for line in [*weights.values(), *efficiencies.values()]}
    equations, of_moments = _equation_names(travel), frozenset(j for j, free in enumerate(travel.free) if free.tilts)
    reference = {WAYS[way][0]: {} for way in WAYS}
    order: list[Block] = []
    likely: dict[str, Line] = {}
    totals: dict[str, Line] = {}
    for way, (word, arrow) in WAYS.items():
        ratios = _ratios(powers, efficiencies, working, problem_lines, way, word)
        ordered = {rope: _outwards(powers[rope]) for rope in rig.ropes}
        matrix = balance.assemble([[ratios[r][k] for k in ordered[r]] for r in rig.ropes], [[lift[r][k] for k in ordered[r]] for r in rig.ropes],
                                  times=closed_form.times, add=closed_form.add)  # fmt: skip
        problem = Balance(matrix, pull_of_gravity, problem_lines, list(rig.ropes), equations, of_moments)
        order = closed_form.check_order(problem)
        signs = [
            PULL.of(f"{rope} {powers[rope].reference + 1}{arrow}", f"pull in {rope}, run {powers[rope].reference + 1}, {word}")
            for rope in rig.ropes
        ]
        found = closed_form.solve(working, problem, order, signs, word)
        _compare_with_numbers(travel, powers, efficiencies, weights, found, order, way)
        if drive_pull.needs_totals(travel, problem, order[-1]):
            totals |= drive_pull.shared_totals(travel, working, problem, order[-1], found, word)
        for r, rope in enumerate(rig.ropes):
            if found[r] is None:
                found[r] = sharing.worst_share(working, problem, order[-1], found, r, signs[r], word)
                if way == RAISING:
                    likely[rope] = sharing.likely_share(travel, working, problem, order[-1], found, r, signs[r])
            reference[word][rope] = found[r], ratios[rope]
    _witness_virtual_work(travel, weights)
    holding = standing.holding_lines(travel, working, weights, efficiencies)
    runs = {rope: _runs(working, rope, powers[rope], reference, problem_lines, holding[rope]) for rope in rig.ropes}
    shared = [list(rig.ropes)[r] for r in order[-1].ropes] if order[-1].spare else []
    rope, pulls = drive_pull.drive_pull(travel, working, runs, powers, shared, totals)
    return Solution(rig, travel, working, gravity, masses, weights, efficiencies, assumed, runs, likely, shared, order, powers, rope, pulls)


def _efficiencies(rig: Rig, working: Working) -> tuple[dict[str, Line], list[str]]:
    """One line for each different efficiency; a sheave whose bearing is not known takes the plain bush's, and is named."""
    made: dict[tuple, Line] = {}
    found: dict[str, Line] = {}
    assumed = []
    used = dict.fromkeys(stop.over for rope in rig.ropes.values() for stop in rope.path if hasattr(stop, "over"))
    for name in used:
        sheave = rig.sheaves[name]
        bearing = sheave.bearing or "plain"
        key = ("stated", sheave.efficiency) if sheave.efficiency is not None else ("rule", bearing)
        if key not in made:
            several = len(made) > 0
            if sheave.efficiency is not None:
                sign = EFFICIENCY.of(name) if several else EFFICIENCY
                made[key] = working.given(sign, sheave.efficiency, f"sheaves, {name}, efficiency", sheave.notes.get("efficiency", ""))
            else:
                row = sheave_rule.sheave_efficiency(rig.basis.sheave_rule, bearing)
                sign = EFFICIENCY.of(bearing, f"efficiency of a sheave, {bearing} bearing") if several else EFFICIENCY
                made[key] = working.looked_up(
                    sign, row.efficiency, f"{rig.basis.sheave_rule}, {bearing} bearing", f"{row.source} ({row.mark})"
                )
        found[name] = made[key]
        if sheave.efficiency is None and sheave.bearing is None:
            assumed.append(name)
    return found, assumed


def _equation_names(travel: Travel) -> list[str]:
    many = {f.body: sum(g.body == f.body for g in travel.free) for f in travel.free}
    return [f.body if many[f.body] == 1 else f"{f.body} {f.words}" for f in travel.free]


class _Entries:
    """Entries of the matrices as symbols: exact 0 and, of what has no unit, ±1 stay numbers; equal entries share one line."""

    def __init__(self, working: Working):
        self.working, self.known, self.lines = working, [], {}

    def of(self, value: numpy.ndarray, sign: Sign, how: str) -> sympy.Expr:
        for exact in (0,) if sign.unit else (0, 1, -1):  # an arm of one metre is a length like any other
            if numpy.all(value == exact):
                return sympy.Integer(exact)
        for known, line in self.known:
            if known.shape == value.shape and line.sign.unit == sign.unit:
                if numpy.allclose(known, value, rtol=0, atol=1e-12):
                    return line.sign.symbol
                if numpy.allclose(known, -value, rtol=0, atol=1e-12):
                    return closed_form.times(sympy.Integer(-1), line.sign.symbol)
        line = self.working.geometry(sign, value, how)
        self.known.append((value, line))
        self.lines[line.sign.symbol] = line
        return line.sign.symbol


def _lifts(travel: Travel, working: Working):
    entries = _Entries(working)
    lift = {}
    for rope, growth in travel.growth.items():
        stops = [s.name for s in travel.paths[rope].stops]
        lift[rope] = []
        for k, run in enumerate(growth):
            row = []
            for j, free in enumerate(travel.free):
                sign = COSINE if not free.tilts else ARM if free.hinge is None else ARM_AT_HINGE
                meaning = f"{sign.meaning}: {rope}, run {k + 1}, on {free.body}"
                row.append(
                    entries.of(-run[:, j], sign.of(f"{rope} {k + 1}, {free.body}", meaning), f"run from {stops[k]} to {stops[k + 1]}")
                )
            lift[rope].append(row)
    return lift, entries.lines


def _weights(travel: Travel, working: Working, weights: dict[str, Line]):
    entries = _Entries(working)
    terms = []
    for free, shares in zip(travel.free, weight_shares(travel), strict=True):
        own = []
        for body, rise in shares.items():
            sign = (
                ARM.of(f"G {body}", f"arm of the weight of {body}")
                if free.tilts
                else COSINE.of(f"W {body}", f"rise of {body} along its way")
            )
            share = entries.of(numpy.where(numpy.abs(rise) < 1e-12, 0.0, rise), sign, "centre of gravity")
            own.append(closed_form.times(weights[body].sign.symbol, share))
        terms.append(closed_form.add(own))
    return terms, entries.lines


def _outwards(powers: Powers) -> list[int]:
    """Runs in the order of reading: from the reference run outwards."""
    return sorted(range(len(powers.counts)), key=lambda k: abs(k - powers.reference))


def _ratios(powers, efficiencies, working, lines, way: int, word: str) -> dict[str, list[sympy.Expr]]:
    found = {}
    for rope, power in powers.items():
        if power.steady():
            found[rope] = power.symbolic({s: efficiencies[s].sign.symbol for s in power.sheaves}, way)
            continue
        found[rope] = []
        for k, ratio in enumerate(power.ratios({s: efficiencies[s].value for s in power.sheaves}, way)):
            sign = Sign(f"f_{rope} {k + 1} {word}", f"pull of run {k + 1} over that of run {power.reference + 1} of {rope}, {word}")
            line = working.geometry(sign, ratio, "the flow of rope turns round along the travel")
            lines[line.sign.symbol] = line
            found[rope].append(line.sign.symbol)
    return found


def _numeric_balance(travel: Travel, powers, values: dict[str, float], way: int):
    """The same assembly on arrays."""
    ratios = [powers[rope].ratios(values, way) for rope in travel.growth]
    lift = [[[-run[:, j] for j in range(len(travel.free))] for run in growth] for growth in travel.growth.values()]
    return balance.assemble(ratios, lift)


def gravity_forces(travel: Travel, weights: dict[str, float]) -> list[numpy.ndarray]:
    """For each coordinate the weight to be lifted, along the travel."""
    return [sum(weights[body] * rise for body, rise in shares.items()) for shares in weight_shares(travel)]


def _compare_with_numbers(travel, powers, efficiencies, weights, found, order, way: int) -> None:
    values = {name: line.number for name, line in efficiencies.items()}
    matrix = _numeric_balance(travel, powers, values, way)
    weight = gravity_forces(travel, {name: line.number for name, line in weights.items()})
    numeric = closed_form.numeric(matrix, weight, order, len(travel.heights_m))
    closed_form.compare(found, numeric, max(line.number for line in weights.values()))


def _witness_virtual_work(travel: Travel, weights: dict[str, Line]) -> None:
    """Without friction, the work of the drive is the rise of all weights: a second witness that uses motion, not balance."""
    without = {rope: friction.powers(travel, rope) for rope in travel.growth}
    matrix = _numeric_balance(travel, without, {s: 1.0 for p in without.values() for s in p.sheaves}, RAISING)
    values = {name: line.number for name, line in weights.items()}
    weight = gravity_forces(travel, values)
    many = len(travel.heights_m)
    full = numpy.moveaxis(numpy.array([[numpy.broadcast_to(entry, many) for entry in row] for row in matrix], dtype=float), 2, 0)
    right = numpy.array(weight).T
    pulls = numpy.einsum("hrj,hj->hr", numpy.linalg.pinv(full), right)
    from rigcheck.statics.layout import take_in_shares

    driven = [driven_end(travel.rig, rope) is not None for rope in travel.growth]
    work_in = pulls[:, driven] @ take_in_shares(travel.rig)[driven] * travel.motion.take_in
    if len(travel.growth) > len(travel.free):
        # ropes more than needed may part a little along the travel, and what they give way does work of its own
        growing = numpy.array([numpy.einsum("khj,hj->h", growth, travel.motion.q) for growth in travel.growth.values()])
        given_way = growing.T + take_in_shares(travel.rig) * travel.motion.take_in[:, None]
        work_in = work_in - numpy.einsum("hr,hr->h", pulls, given_way)
    work_out = numpy.einsum("hj,hj->h", right, travel.motion.q)
    off = numpy.max(numpy.abs(work_in - work_out))
    if not off <= 1e-7 * max(values.values()):
        raise DisagreementError(f"balance and virtual work differ by {off:.3g} N per metre of rise", where="statics",
                                right="This is a fault of rigcheck: please report it with the rig file.")  # fmt: skip


def _runs(working: Working, rope: str, power: Powers, reference, lines, holding) -> list[RunPulls]:
    found = {}
    for word, arrow in WAYS.values():
        line, ratios = reference[word][rope]
        lines[line.sign.symbol] = line
        for k, ratio in enumerate(ratios):
            if ratio == 1:
                found[word, k] = line
            else:
                sign = PULL.of(f"{rope} {k + 1}{arrow}", f"pull in {rope}, run {k + 1}, {word}")
                found[word, k] = closed_form.derived(
                    working, sign, closed_form.times(line.sign.symbol, ratio), lines, "friction at the sheaves", FORMULA
                )
    return [RunPulls(found["raising", k], found["lowering", k], *holding[k]) for k in range(len(power.counts))]
