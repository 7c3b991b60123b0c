"""The pull that the drive feels: all ropes on the drum together, or the line in the hand, along the travel."""

from __future__ import annotations

import numpy
import sympy

from rigcheck.formula import Sign
from rigcheck.statics import closed_form, sharing
from rigcheck.statics.balance import Block
from rigcheck.statics.closed_form import Balance
from rigcheck.statics.layout import driven_end, take_in_shares
from rigcheck.statics.travel import Travel
from rigcheck.working import FORMULA, Line, Working

CASES = ("raising", "lowering", "lowering least", "holding most")


def needs_totals(travel: Travel, problem: Balance, block: Block) -> bool:
    """Whether several ropes on the drum share, so that their worst shares may not simply be added."""
    shares = take_in_shares(travel.rig)
    driven = [r for r in range(len(problem.ropes)) if shares[r]]
    shared = [r for r in driven if r in block.ropes]
    together = set(driven) <= set(shared) and len({float(shares[r]) for r in driven}) == 1 and len(block.equations) == 1
    return bool(block.spare and shared and len(driven) > 1 and not together)


def shared_totals(travel: Travel, working: Working, problem: Balance, block: Block, found: list[Line | None], word: str) -> dict[str, Line]:
    """What ropes with spare ones among them put on the drum together, raising or lowering: the corners of their sharing."""
    shares = take_in_shares(travel.rig)
    weights = {r: float(shares[r]) for r in block.ropes if shares[r]}
    cases = {"raising": [("raising", True)], "lowering": [("lowering", True), ("lowering least", False)]}[word]
    return {
        case: sharing.total_share(
            working, problem, block, found, weights, Sign(f"T_shared {case}", f"pull of the sharing ropes on the drum, {case}", "N"), most
        )
        for case, most in cases
    }


def drive_pull(travel: Travel, working: Working, runs, powers, shared: list[str], totals: dict[str, Line]) -> tuple[str, dict[str, Line]]:
    """The first driven rope's name, and for each case the total pull, each rope weighted by its drum radius over the first's.

    Ropes that share one load do not each carry their worst share at the same time: where they balance one body, the drum feels the
    greatest of them (or, for "lowering least", the least); otherwise `totals` says what they come to together. Standing still it is
    at most their sum.
    """
    shares = dict(zip(travel.rig.ropes, take_in_shares(travel.rig), strict=True))
    driven = [rope for rope in travel.rig.ropes if driven_end(travel.rig, rope) is not None]
    first = driven[0]
    found = {}
    for case in CASES:
        lines = [_line(runs[rope][powers[rope].reference], case) for rope in driven]
        if len(driven) == 1:
            found[case] = lines[0]
            continue
        sign = Sign(f"T_drum {case}", f"total pull on the drum, {case}", "N")
        weights = [shares[rope] for rope in driven]
        if set(driven) <= set(shared) and len({float(w) for w in weights}) == 1 and _carry_one_body(travel, shared):
            found[case] = _together(working, sign, lines, most=case != "lowering least")
        else:
            adding = [(w, line) for rope, w, line in zip(driven, weights, lines, strict=True) if rope not in shared or case not in totals]
            adding += [(1.0, totals[case])] if case in totals else []
            terms = [closed_form.times(sympy.Float(w) if w != 1 else sympy.Integer(1), line.sign.symbol) for w, line in adding]
            found[case] = closed_form.derived(
                working, sign, closed_form.add(terms), {line.sign.symbol: line for _, line in adding}, "all ropes on the drum", FORMULA
            )
    return first, found


def _line(pulls, case: str) -> Line:
    return {"raising": pulls.raising, "lowering": pulls.lowering, "lowering least": pulls.lowering, "holding most": pulls.holding_most}[
        case
    ]


def _carry_one_body(travel: Travel, shared: list[str]) -> bool:
    """Whether the shared ropes meet in one equation alone, so that at a corner one of them carries everything."""
    meets = [numpy.any(travel.growth[rope] != 0, axis=(0, 1)) for rope in shared]
    return int(numpy.sum(numpy.any(meets, axis=0))) == 1


def _together(working: Working, sign: Sign, lines: list[Line], most: bool) -> Line:
    """The greatest (or least) pull that ropes sharing one load put on the drum: one of them alone."""
    choose = numpy.maximum if most else numpy.minimum

    def compute(**values) -> numpy.ndarray:
        overall = None
        for value in values.values():
            overall = value if overall is None else choose(overall, value)
        return overall

    how = "the ropes share one load: together they pull as much as one alone"
    return working.solve_in_numbers(sign, compute, how, "balance of forces", **{f"x{i}": line for i, line in enumerate(lines)})
