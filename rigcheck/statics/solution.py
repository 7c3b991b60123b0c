"""Solve a rig: every pull of every rope at every height, raising, standing still and lowering, as lines of working.

This is the only place that puts the stages of the statics in their order: travel, weights, friction, balance, closed forms,
sharing, holding range, witnesses.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy

from rigcheck.errors import DisagreementError
from rigcheck.formula import Sign
from rigcheck.parts import sheave_rule
from rigcheck.rig.model import Rig
from rigcheck.statics import closed_form, drive_pull, formulas, friction, guides, sharing, standing
from rigcheck.statics.balance import Block
from rigcheck.statics.closed_form import PULL
from rigcheck.statics.coefficients import Coefficients, gravity_forces, numeric_matrix, read_coefficients
from rigcheck.statics.friction import LOWERING, RAISING, Powers
from rigcheck.statics.guide_lines import Rubbing, Taken
from rigcheck.statics.guides import Uncounted
from rigcheck.statics.layout import driven_end, take_in_shares
from rigcheck.statics.readings import Reading, Readings
from rigcheck.statics.swaying import STILL, Swaying
from rigcheck.statics.travel import Travel, follow
from rigcheck.working import FORMULA, Line, Working

WAYS = {RAISING: ("raising", "↑"), LOWERING: ("lowering", "↓")}
EFFICIENCY = Sign("η", "efficiency of a sheave", "", above=0, high=1)


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
    ways: dict[str, Readings]
    guides: dict[str, list[Taken]]
    uncounted_guides: list[Uncounted]

    def read(self, word: str, sign: Sign, what: Reading, how: str) -> Line:
        """A line for what is read off the geometry raising, lowering or at rest; what hangs free hangs elsewhere in each, and with other weights."""
        return self.ways[word].line(sign, what, how)

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
    numbers = {name: line.number for name, line in efficiencies.items()}
    ways = {way: Readings(working, Swaying(travel, numbers, way), weights, efficiencies) for way in WAYS}
    powers = ways[RAISING].sway.powers
    reference = {WAYS[way][0]: {} for way in WAYS}
    coefficients: Coefficients | None = None
    counted, uncounted = guides.read(travel)
    rubbing = Rubbing(working, counted)
    taking: dict[str, list[Taken]] = {}
    order: list[Block] = []
    likely: dict[str, Line] = {}
    totals: dict[str, Line] = {}
    lines = {line.sign.symbol: line for line in [*weights.values(), *efficiencies.values()]}
    for way, (word, arrow) in WAYS.items():
        readings = ways[way]
        if coefficients is None or readings.is_hung:  # what the ropes alone place hangs alike both ways
            coefficients = read_coefficients(readings, f", {word}" if readings.is_hung else "")
            lines |= coefficients.lines
        ratios = coefficients.ratios(readings, lines, way, word)
        taken = taking[word] = rubbing.taken(readings, way, word)
        lines |= rubbing.lines
        problem = coefficients.balance(ratios, readings, lines, taken)
        order = closed_form.check_order(problem)
        signs = [
            PULL.of(f"{rope} {powers[rope].reference + 1}{arrow}", f"pull in {rope}, run {powers[rope].reference + 1}, {word}")
            for rope in rig.ropes
        ]
        found = closed_form.solve(working, problem, order, signs, word)
        coefficients.compare_with_numbers(readings, found, order, way, taken)
        if drive_pull.needs_totals(travel, problem, order[-1]):
            totals |= drive_pull.shared_totals(travel, working, problem, order[-1], found, word)
        for r, rope in enumerate(rig.ropes):
            if found[r] is None:
                found[r] = sharing.worst_share(working, problem, order[-1], found, r, signs[r], word)
                if way == RAISING:
                    likely[rope] = sharing.likely_share(travel, working, problem, order[-1], found, r, signs[r])
            reference[word][rope] = found[r], ratios[rope]
    _witness_virtual_work(travel, weights)
    still = Readings(working, Swaying(travel, numbers, STILL), weights, efficiencies)
    places = [still, *(ways.values() if still.is_hung else ())]
    holding = standing.holding_lines(working, weights, efficiencies, places, coefficients.kept, counted)
    named = {word: ways[way] for way, (word, _) in WAYS.items()} | {"at rest": still}
    runs = {rope: _runs(working, rope, powers[rope], reference, lines, holding[rope]) for rope in rig.ropes}
    shared = [list(rig.ropes)[r] for r in order[-1].ropes] if order[-1].spare else []
    rope, pulls = drive_pull.drive_pull(travel, working, runs, powers, shared, totals)
    return Solution(
        rig, travel, working, gravity, masses, weights, efficiencies, assumed, runs, likely, shared, order, powers, rope, pulls, named,
        taking, uncounted,
    )  # fmt: skip


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


def _witness_virtual_work(travel: Travel, weights: dict[str, Line]) -> None:
    """Without friction, the work of the drive is the rise of all weights: a second witness that uses motion, not balance."""
    without = {rope: friction.powers(travel, rope) for rope in travel.growth}
    matrix = numeric_matrix(travel, without, {s: 1.0 for p in without.values() for s in p.sheaves}, RAISING)
    values = {name: line.number for name, line in weights.items()}
    weight = gravity_forces(travel, values)
    many = len(travel.heights_m)
    full = numpy.moveaxis(numpy.array([[numpy.broadcast_to(entry, many) for entry in row] for row in matrix], dtype=float), 2, 0)
    right = numpy.array(weight).T
    pulls = numpy.einsum("hrj,hj->hr", numpy.linalg.pinv(full), right)
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
