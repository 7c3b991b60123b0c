"""Published rules for the friction of a sheave. They differ by a third, so every answer names its rule."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck.errors import PartError
from rigcheck.parts.tables import Table, number, text, unknown_part

BEARINGS = ("plain", "rolling")
DEFAULT_RULE = "wire-rope-board"
"""The geometric rule with the most friction among those that were read."""
SEAMANSHIP_RULE = "seamanship-tenth"

RULES = Table(
    "sheave_rules.csv",
    (
        text("rule"),
        text("bearing", choices=(*BEARINGS, "any")),
        number("tension_ratio", "1", 1, 1.5, may_be_blank=True),
        number("efficiency", "1", 0.5, 1, may_be_blank=True),
        number("load_share", "1", 0.01, 0.5, may_be_blank=True),
    ),
    key=("rule", "bearing"),
)


@dataclass(frozen=True)
class SheaveEfficiency:
    """Tension going onto a sheave over tension coming off it, by a named rule."""

    rule: str
    bearing: str
    efficiency: float
    source: str
    mark: str


@dataclass(frozen=True)
class LoadShareRule:
    """Share of the load that each sheave of a plain tackle adds when raising."""

    rule: str
    load_share: float
    source: str
    mark: str


def sheave_rules() -> list[str]:
    """Return the names of the rules that give an efficiency per sheave.

    >>> sheave_rules()
    ['line-parts-table', 'wire-rope-board', 'din-15020']
    """
    return list(dict.fromkeys(row.text("rule") for row in RULES.rows() if row.maybe("load_share") is None))


def sheave_efficiency(rule: str, bearing: str) -> SheaveEfficiency:
    """Return the efficiency of one sheave by a published rule; PartError for an unknown rule or bearing.

    A rule printed as a ratio K of tensions gives 1/K.

    >>> round(sheave_efficiency("wire-rope-board", "plain").efficiency, 4)
    0.9174
    """
    if bearing not in BEARINGS:
        raise unknown_part("sheave bearing", bearing, BEARINGS)
    if rule not in sheave_rules():
        raise unknown_part("rule of sheave efficiency", rule, sheave_rules())
    for row in RULES.rows():
        if (row.text("rule"), row.text("bearing")) == (rule, bearing):
            efficiency, ratio = row.maybe("efficiency"), row.maybe("tension_ratio")
            if (efficiency is None) == (ratio is None):
                raise PartError("a rule gives either a tension ratio or an efficiency", where=f"{RULES.file}, line {row.line}")
            return SheaveEfficiency(rule, bearing, 1 / ratio if efficiency is None else efficiency, row.source, row.mark)
    raise unknown_part(f"bearing under the rule {rule}", bearing, (row.text("bearing") for row in RULES.rows() if row.text("rule") == rule))


def seamanship_rule() -> LoadShareRule:
    """Return the seamanship rule, a law of its own for plain tackles: each sheave adds a tenth of the load.

    >>> seamanship_rule().load_share
    0.1
    """
    row = next(row for row in RULES.rows() if row.text("rule") == SEAMANSHIP_RULE)
    return LoadShareRule(SEAMANSHIP_RULE, row.number("load_share"), row.source, row.mark)
