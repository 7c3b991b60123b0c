"""Guides with two shoes: whether a body sticks in its guide by its own weight while lowering, and whether a pull off the line of the guide jams it.

Friction is counted as high as it may come: that is what makes a body stick. All of it is the drawer's trouble: the farther off the line of the guide
something pulls, and the nearer together the shoes are, the harder they are pressed.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy

from rigcheck import units
from rigcheck.checks import guide_drop, guide_told
from rigcheck.checks.check import FALLS_SHORT, Check, Judge, Wants
from rigcheck.formula import Sign
from rigcheck.rig.model import Guided
from rigcheck.statics import closed_form, guides
from rigcheck.statics import guide_formulas as formulas
from rigcheck.statics.guides import Shoes
from rigcheck.statics.resting import NEAR_JAMMING
from rigcheck.working import FORMULA, Line

ALONG = Sign("W_d", "weight along the guide", "N")
ALONG_SHARE = Sign("c", "share of the weight along the guide", "")
ARM_SHARE = Sign("a", "share of the weight across the guide", "")
RUBBED = Sign("q", "friction in the guide for each newton that a pull lifts", "", low=0)
MOST_RUBBED = Sign("q_limit", "most that may rub for each newton that a pull lifts", "")
SOURCE = "balance of forces and moments on two shoes, law of friction"
STICKS, JAMS = "comes down by its own weight, does not stick", "a pull moves it, does not jam"


@dataclass(frozen=True)
class Stuck:
    """A body that sticks by its own weight: its weight along the guide, for what follows when it lets go."""

    body: str
    along: Line


def check(judge: Judge) -> None:
    """Judge every guide of which something is stated."""
    uncounted = {each.body: each for each in judge.solution.uncounted_guides}
    for name, body in judge.rig.bodies.items():
        moves = body.moves
        if moves.kind != "guided" or not moves.is_described:
            continue
        missing = guides.what_is_missing(moves)
        if missing is not None:
            field, how = missing
            judge.cannot_tell(_id(name, "sticks"), _guide(name), STICKS, _part(name), f"{how} Its friction is in no pull.", on_load=True,
                              wants=(("bodies", name, "moves", field),), source=SOURCE)  # fmt: skip
            continue
        if name in uncounted:
            judge.cannot_tell(_id(name, "pulls"), _guide(name), "its friction in the pulls", _part(name),
                              f"{uncounted[name].reason} Its friction is in no pull.", on_load=True, wants=uncounted[name].wants, source=SOURCE)  # fmt: skip
        stuck = _check_sticking(judge, name, moves)
        if stuck is not None:
            guide_drop.check(judge, stuck.body, stuck.along)
    _check_jamming(judge, list(guide_told.counted(judge).values()))


def _id(body: str, what: str) -> str:
    return f"guide.{body}.{what}"


def _guide(body: str) -> str:
    return f"guide of {body}"


def _part(body: str) -> tuple[str, str]:
    return ("body", body)


def _field(name: str, *fields: str) -> Wants:
    return tuple(("bodies", name, "moves", field) for field in fields)


# -- sticking by its own weight ------------------------------------------------------------------------------------------------


def _check_sticking(judge: Judge, name: str, moves: Guided) -> Stuck | None:
    """Whether the weight alone overcomes the friction that it brings about; what hangs in the ropes does not help, since they may be slack."""
    working, where = judge.working, f"bodies, {name}, moves"
    direction, across = guides.directions(moves)
    if abs(direction[1]) < guides.A_HAIR:
        return None  # a guide that runs level: weight takes nothing along it
    _, arms = guides.weights_on(judge.rig, name)
    along = _sum(judge, ALONG.of(name, f"weight of {name} along its guide"), dict.fromkeys(arms, abs(float(direction[1]))), ALONG_SHARE)
    moment = _sum(judge, formulas.MOMENT.of(f"{name}, weight", f"moment of the weight of {name} about its shoes"), arms, formulas.ARM)
    apart, friction = guide_told.shoes_apart(judge, name), guide_told.friction(judge, name)
    of, what = f"{name}, by weight", f"friction in the guide of {name} by its weight alone"
    leans = abs(float(across[1])) > guides.A_HAIR
    if not leans:
        rubbed = working.apply(formulas.upright_tipping_friction, of, what, friction=friction, moment=moment, apart=apart)
    else:
        if not guides.faces(moves):
            judge.cannot_tell(_id(name, "sticks"), _guide(name), STICKS, _part(name),
                              "Its guide leans, so its weight presses it aside: how far apart the two faces are that its shoes run on is not stated.",
                              on_load=True, wants=_field(name, "shoes", "faces_apart"), source=SOURCE)  # fmt: skip
            return None
        aside = _sum(
            judge,
            formulas.ASIDE.of(f"{name}, weight", f"weight of {name} across its guide"),
            dict.fromkeys(arms, float(across[1])),
            ARM_SHARE,
        )
        width = judge.given(formulas.WIDTH.of(name), moves.faces_apart.value, f"{where}, faces_apart")
        tipping = working.apply(
            formulas.tipping_friction,
            f"{of}, over",
            f"{what}, pressed over",
            friction=friction,
            moment=moment,
            aside=aside,
            width=width,
            apart=apart,
        )
        sliding = working.apply(formulas.side_friction, f"{of}, aside", f"{what}, pressed aside", friction=friction, aside=aside)
        rubbed = working.extreme(formulas.FRICTION.of(of, what), [tipping, sliding])
    found = judge.compare(_id(name, "sticks"), _guide(name), STICKS, _part(name), rubbed, along, source=SOURCE, needs_taut=False,
                          reason=_told_of_sticking(judge, name, moves, rubbed, along), remedy=_remedy(moves, moment, along, leans),
                          mends=(*_field(name, "shoes_apart", "lower_shoe", "friction"), ("bodies", name, "centre_of_gravity")))  # fmt: skip
    return Stuck(name, along) if found.verdict == FALLS_SHORT else None


def _sum(judge: Judge, sign: Sign, shares: dict[str, float], of: Sign) -> Line:
    """Σ W times a share or an arm, over a body and all that is fixed on it."""
    lines, terms = {}, []
    for name, share in shares.items():
        weight = judge.solution.weights[name]
        lines[weight.sign.symbol] = weight
        if share == 1.0 and not of.unit:
            terms.append(weight.sign.symbol)
            continue
        line = judge.working.geometry(
            of.of(f"{name}, {sign.letter}", f"{of.meaning}: weight of {name}"), numpy.array([share]), "centre of gravity"
        )
        lines[line.sign.symbol] = line
        terms.append(closed_form.times(weight.sign.symbol, line.sign.symbol))
    return closed_form.derived(judge.working, sign, closed_form.add(terms), lines, "its weight and all that is fixed on it", FORMULA)


def _told_of_sticking(judge: Judge, name: str, moves: Guided, rubbed: Line, along: Line) -> str:
    share = f"Its weight alone makes a friction of {units.number(100 * rubbed.number / along.number, 3, 'up')} % of what draws it down."
    others = sorted(set(_acting(judge, name)) - set(_driven(judge)))
    told = f" {', '.join(others)} may pull on it besides, which is not counted here." if others else ""
    return share + told


def _remedy(moves: Guided, moment: Line, along: Line, leans: bool) -> str:
    tipping = 2 * moves.friction * abs(moment.number)
    if leans and tipping / moves.shoes_apart.value < along.number:
        return "Shoes that rub less, such as rollers, or a steeper guide."
    apart = units.show(tipping / along.number, "m", 3, "up")
    arm = units.show(moves.shoes_apart.value / (2 * moves.friction), "m", 3, "down")
    rather = "and rather more, since the guide leans too, " if leans else ""
    return (
        f"Shoes at least {apart} apart, {rather}or its centre of gravity within {arm} of the line of its guide, or shoes that rub less, such as rollers: these "
        "figures are the very edge, so stay well on the good side of them."
    )


def _acting(judge: Judge, body: str) -> list[str]:
    """The ropes that act on a body or on what is fixed on it."""
    travel = judge.solution.travel
    together = set(judge.rig.moving_as_one(body))
    return [name for name, path in travel.paths.items() if any(stop.carrier in together for stop in path.stops)]


def _driven(judge: Judge) -> list[str]:
    return guide_drop.driven_ropes(judge.rig)


# -- jamming by a pull ---------------------------------------------------------------------------------------------------------


def _check_jamming(judge: Judge, counted: list[Shoes]) -> None:
    """Whether the friction of a guide grows faster than what a pull lifts: for each body that one rope alone acts on, else whether any pull moves the rig."""
    alone = [shoes for shoes in counted if len(_acting(judge, shoes.body)) == 1]
    found = [_check_one_rope(judge, shoes) for shoes in alone]
    stuck = [word for word, taken in judge.solution.guides.items() if not all(numpy.isfinite(each.over.value).all() for each in taken)]
    if not stuck or any(check is not None and check.verdict == FALLS_SHORT for check in found):
        return
    for shoes in [each for each in counted if each not in alone] or counted:
        judge.falls_short(_id(shoes.body, "jams"), _guide(shoes.body), JAMS, _part(shoes.body),
                          f"{' and '.join(stuck).capitalize()}, no pull moves it somewhere along the travel.", source=SOURCE,
                          remedy="Ropes nearer to the line of the guide, or shoes farther apart.", mends=_field(shoes.body, "shoes_apart", "friction"))  # fmt: skip


def _check_one_rope(judge: Judge, shoes: Shoes) -> Check | None:
    """How much a pull rubs for each newton that it lifts."""
    name, (rope,) = shoes.body, _acting(judge, shoes.body)
    demand = judge.working.extreme(
        RUBBED.of(name, f"greatest friction in the guide of {name} for each newton that {rope} lifts"), _rubbed(judge, shoes, rope)
    )
    if not demand.number > 0:
        return None  # it pulls in the line of the guide
    limit = judge.given(
        MOST_RUBBED.of(name), 1 - NEAR_JAMMING, "at 1 no pull moves it, however hard, and within a fiftieth of that none is told"
    )
    pick = units.show(shoes.apart_m / (2 * shoes.friction), "m", 3, "down")
    remedy = f"Make {rope} fast within {pick} of the line of the guide, well within, or put its shoes farther apart."
    return judge.compare(_id(name, "jams"), _guide(name), JAMS, _part(name), demand, limit, source=SOURCE, needs_taut=False, remedy=remedy,
                         reason="A pull off the line of the guide presses its shoes the harder, the harder it pulls.",
                         mends=_field(name, "shoes_apart", "friction", "lower_shoe"))  # fmt: skip


def _rubbed(judge: Judge, shoes: Shoes, rope: str) -> list[Line]:
    solution = judge.solution
    bearings = dict.fromkeys(solution.efficiencies.values())
    growth, power = solution.travel.growth[rope], solution.powers[rope]
    found = []
    for word, way in (("raising", 1), ("lowering", -1)):

        def compute(way=way, *, rubs: numpy.ndarray, **values: numpy.ndarray) -> numpy.ndarray:
            known = dict(zip(bearings, [values[f"e{i}"] for i in range(len(bearings))], strict=True))
            ratios = power.ratios({sheave: known[line] for sheave, line in solution.efficiencies.items() if sheave in power.sheaves}, way)
            lift, side, arm = (
                sum(q * run for q, run in zip(ratios, part, strict=True))
                for part in (-growth[:, :, shoes.equation], shoes.side[rope], shoes.arm[rope])
            )
            arm = arm + shoes.way * way * rubs * shoes.faces_m / 2 * side
            return rubs * numpy.maximum(numpy.abs(side), 2 * numpy.abs(arm) / shoes.apart_m) / numpy.abs(lift)

        sign = RUBBED.of(f"{shoes.body}, {word}", f"friction in the guide of {shoes.body} for each newton that {rope} lifts, {word}")
        how = "2 μ times the arm of the pull over the distance of the shoes, or μ times its share aside where that is more, over its share along the guide"
        inputs = {"rubs": guide_told.friction(judge, shoes.body)} | {f"e{i}": line for i, line in enumerate(bearings)}
        found.append(judge.working.solve_in_numbers(sign, compute, how, SOURCE, **inputs))
    return found
