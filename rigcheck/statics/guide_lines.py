"""The friction of guides as lines of working, and put into the balance: each newton aside and each of a moment takes its share of the way.

In the balance of a body that rubs, every entry of a pull and every weight stands less what it rubs:  Σ T (c - s a - f r) = Σ W (c + s a + f r),
a being its share aside and r its leverage on the shoes, each with its sign.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

import numpy
import sympy

from rigcheck.formula import Sign
from rigcheck.statics import balance
from rigcheck.statics import guide_formulas as formulas
from rigcheck.statics.closed_form import Balance, add, times
from rigcheck.statics.guide_cases import Moving, shares_taken
from rigcheck.statics.guides import Shoes
from rigcheck.statics.readings import Entries, Readings
from rigcheck.statics.travel import Travel, weight_shares
from rigcheck.working import Line, Working

SHARE_ASIDE = Sign("a", "share of the pull across the guide", "")
HOW_ARM = "run about the middle between the shoes"
HOW_ASIDE = "run across the guide"
HOW_SENSE = "of all ways it may be pressed the one that agrees with its own balance"
SOURCE = "balance of forces and moments, law of friction"


@dataclass(frozen=True)
class Given:
    """What is stated of one guide, as lines."""

    shoes: Shoes
    apart: Line
    friction: Line


@dataclass(frozen=True)
class Row:
    """What acts on one guide as expressions: aside and by its leverage, by rope and run, and of the weights."""

    given: Given
    aside: dict[str, list[sympy.Expr]]
    over: dict[str, list[sympy.Expr]]
    aside_of_weight: sympy.Expr
    over_of_weight: sympy.Expr


@dataclass(frozen=True)
class Taken:
    """What the friction of one guide takes in one way of moving, as lines: of each newton by its leverage and, where anything presses it aside, aside."""

    row: Row
    over: Line
    aside: Line | None


class Rubbing:
    """All guides whose friction is counted: reads what acts on them once, and puts their friction into the balance of each way of moving."""

    def __init__(self, working: Working, guides: list[Shoes]):
        self.working, self.guides = working, guides
        self.lines: dict[sympy.Symbol, Line] = {}
        self._rows: list[Row] | None = None

    @cached_property
    def given(self) -> dict[str, Given]:
        """By body."""
        found = {}
        for shoes in self.guides:
            body, where = shoes.body, f"bodies, {shoes.body}, moves"
            apart = self.working.given(formulas.APART.of(body), shoes.apart_m, f"{where}, shoes_apart", shoes.notes.get("shoes_apart", ""))
            friction = self.working.given(formulas.RUBBING.of(body), shoes.friction, f"{where}, friction", shoes.notes.get("friction", ""))
            found[body] = Given(shoes, apart, friction)
            self.lines |= {line.sign.symbol: line for line in (apart, friction)}
        return found

    def _row(self, given: Given, readings: Readings) -> Row:
        body, shoes = given.shoes.body, given.shoes
        asides, arms, leverages = Entries(readings), Entries(readings), {}

        def by_leverage(arm: sympy.Expr) -> sympy.Expr:
            for symbol in arm.free_symbols:  # none or one: an entry is a symbol, minus a symbol or nothing
                if symbol not in leverages:
                    line, own = arms.lines[symbol], arms.lines[symbol].sign
                    about = own.letter.removeprefix("p_")
                    leverages[symbol] = self.working.apply(
                        formulas.leverage, about, f"leverage on the shoes: {own.meaning.split(': ')[-1]}", arm=line, apart=given.apart
                    )
                    self.lines[leverages[symbol].sign.symbol] = leverages[symbol]
            return arm.xreplace({symbol: leverages[symbol].sign.symbol for symbol in arm.free_symbols})

        aside, over = {}, {}
        for rope in shoes.arm:
            aside[rope] = [
                asides.of(
                    lambda _, rope=rope, k=k: shoes.side[rope][k],
                    SHARE_ASIDE.of(f"{rope} {k + 1}, {body}", f"{SHARE_ASIDE.meaning}: {rope}, run {k + 1}, on {body}"),
                    HOW_ASIDE,
                )
                for k in range(len(shoes.side[rope]))
            ]
            over[rope] = [
                by_leverage(
                    arms.of(
                        lambda _, rope=rope, k=k: shoes.arm[rope][k],
                        formulas.ARM.of(f"{rope} {k + 1}, {body}", f"{formulas.ARM.meaning}: {rope}, run {k + 1}, on {body}"),
                        HOW_ARM,
                    )
                )
                for k in range(len(shoes.arm[rope]))
            ]
        many, weights = len(readings.travel.heights_m), readings.weights
        side_terms, turn_terms = [], []
        for name in shoes.arm_weight:
            share = asides.of(
                lambda _, name=name: numpy.full(many, shoes.side_weight[name]),
                SHARE_ASIDE.of(f"W {name}", f"share of the weight of {name} across the guide"),
                "centre of gravity",
            )
            arm = arms.of(
                lambda _, name=name: numpy.full(many, shoes.arm_weight[name]),
                formulas.ARM.of(f"G {name}, guide", f"{formulas.ARM.meaning}: weight of {name}"),
                "centre of gravity",
            )
            side_terms.append(times(weights[name].sign.symbol, share))
            turn_terms.append(times(weights[name].sign.symbol, by_leverage(arm)))
        self.lines |= asides.lines
        return Row(given, aside, over, add(side_terms), add(turn_terms))

    def taken(self, readings: Readings, way: int, word: str) -> list[Taken]:
        """What the friction of each guide takes raising or lowering."""
        if not self.guides:
            return []
        if self._rows is None:
            self._rows = [self._row(given, readings) for given in self.given.values()]
        rows = self._rows
        moving = Moving(readings.travel, self.guides, readings.sway.powers, weight_shares(readings.travel), way)
        asked = _Asked(moving, readings)
        inputs = readings.inputs | {f"m{i}": row.given.friction for i, row in enumerate(rows)}
        found = []
        for g, row in enumerate(rows):
            body, shoes = row.given.shoes.body, row.given.shoes

            def sense(which: int, g=g, **values) -> numpy.ndarray:
                return asked.of(values)[g, which]

            signs = [sign.of(f"{body}, {word}", f"{sign.meaning}: {body}, {word}") for sign in (formulas.SENSE, formulas.SIDE_SENSE)]
            over_sense = self.working.solve_in_numbers(signs[0], lambda f=sense, **v: f(0, **v), HOW_SENSE, SOURCE, **inputs)
            over = self.working.apply(
                formulas.turn_share, f"{body}, {word}", f"what the guide of {body} takes of each newton on its shoes, {word}",
                sense=over_sense, friction=row.given.friction,
            )  # fmt: skip
            aside = None
            if shoes.is_pulled_aside:
                side_sense = self.working.solve_in_numbers(signs[1], lambda f=sense, **v: f(1, **v), HOW_SENSE, SOURCE, **inputs)
                faces = self.working.geometry(
                    formulas.FACES.of(f"{body}, {word}"), shoes.way * way * shoes.faces_m, f"bodies, {body}, moves, faces_apart"
                )
                aside = self.working.apply(
                    formulas.side_share, f"{body}, {word}", f"what the guide of {body} takes of each newton aside, {word}",
                    sense=side_sense, friction=row.given.friction, turn=over, faces=faces, apart=row.given.apart,
                )  # fmt: skip
            self.lines |= {line.sign.symbol: line for line in (over, aside) if line is not None}
            found.append(Taken(row, over, aside))
        return found


class _Asked:
    """Solves all guides once for each set of inputs, since every one of their lines asks for them in turn."""

    def __init__(self, moving: Moving, readings: Readings):
        self.moving, self.readings = moving, readings
        self.inputs, self.answer = None, None

    def of(self, values: dict[str, numpy.ndarray]) -> numpy.ndarray:
        arrays = list(values.values())
        if self.inputs is None or any(a is not b for a, b in zip(arrays, self.inputs, strict=True)):
            known = {line: values[name] for name, line in self.readings.inputs.items()}
            frictions = {shoes.body: values[f"m{i}"] for i, shoes in enumerate(self.moving.guides)}
            self.inputs = arrays
            self.answer = self.moving.senses(
                {body: known[line] for body, line in self.readings.weights.items()},
                {sheave: known[line] for sheave, line in self.readings.efficiencies.items()},
                frictions,
            )
        return self.answer


def with_friction(problem: Balance, taken: list[Taken], ratios: dict[str, list[sympy.Expr]], runs: dict[str, list[int]]) -> Balance:
    """The balance with the friction of all guides in it; `runs` gives each rope's runs in the order of reading."""
    matrix, weight = [list(row) for row in problem.matrix], list(problem.weight)
    for each in taken:
        j = each.row.given.shoes.equation
        for acting, of_weight, share in (
            (each.row.aside, each.row.aside_of_weight, each.aside),
            (each.row.over, each.row.over_of_weight, each.over),
        ):
            if share is None:
                continue
            orders = list(runs.items())
            (row,) = balance.assemble(
                [[ratios[rope][k] for k in order] for rope, order in orders],
                [[[acting[rope][k]] for k in order] for rope, order in orders],
                times=times,
                add=add,
            )
            for r, pressing in enumerate(row):
                matrix[j][r] = add([matrix[j][r], negative(taken_of(share.sign.symbol, pressing))])
            weight[j] = add([weight[j], taken_of(share.sign.symbol, of_weight)])
    return replace(problem, matrix=matrix, weight=weight)


def taken_of(share: sympy.Expr, pressing: sympy.Expr) -> sympy.Expr:
    """The share of what presses, a minus brought to the front."""
    if isinstance(pressing, sympy.Mul) and pressing.args[0] == -1:
        rest = pressing.args[1:]
        return negative(times(share, rest[0] if len(rest) == 1 else sympy.Mul(*rest, evaluate=False)))
    return times(share, pressing)


def negative(term: sympy.Expr) -> sympy.Expr:
    """The term with its minus put before it, or taken away."""
    if isinstance(term, sympy.Mul) and term.args[0] == -1:
        return term.args[1] if len(term.args) == 2 else sympy.Mul(*term.args[1:], evaluate=False)
    return times(sympy.Integer(-1), term)


def in_numbers(matrix: list[list], weight: list, taken: list[Taken], readings: Readings, way: int) -> None:
    """The same friction put into a balance of plain numbers, in place."""
    values = {name: line.number for name, line in readings.efficiencies.items()}
    ratios = {rope: power.ratios(values, way) for rope, power in readings.sway.powers.items()}
    for each in taken:
        shoes = each.row.given.shoes
        moved = shoes.way * way
        senses = each.over.inputs["sense"].value, 0.0 if each.aside is None else each.aside.inputs["sense"].value
        case = tuple(numpy.where(moved == 0, 0.0, s * moved) for s in senses)
        s, t = shares_taken(shoes, moved, case, shoes.friction)
        acting = [[list(part) for part in zip(shoes.side[rope], shoes.arm[rope], strict=True)] for rope in ratios]
        for r, (aside, over) in enumerate(zip(*balance.assemble(list(ratios.values()), acting), strict=True)):
            matrix[shoes.equation][r] = matrix[shoes.equation][r] - s * aside - t * over
        weights = readings.weights
        weight[shoes.equation] = weight[shoes.equation] + sum(
            weights[body].number * (s * shoes.side_weight[body] + t * shoes.arm_weight[body]) for body in shoes.arm_weight
        )


def are_known(taken: list[Taken], travel: Travel) -> numpy.ndarray:
    """For every height, whether some pull moves the rig against the friction of its guides."""
    known = numpy.ones(len(travel.heights_m), dtype=bool)
    for each in taken:
        known &= numpy.isfinite(numpy.broadcast_to(each.over.value, known.shape))
    return known
