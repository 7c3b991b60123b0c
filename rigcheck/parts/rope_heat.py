"""Heat limits of ropes, chains and fittings: temperature bands, the strength that may be counted in them, and where damage starts."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck.parts.tables import Table, number, text, unknown_part

WORKING_LIMIT = "working limit"
DAMAGE = "damage"


def _columns(unit: str, least: float, most: float) -> tuple:
    return (
        text("item"),
        text("kind", choices=(WORKING_LIMIT, DAMAGE)),
        number("above", unit, least, most, order="rising", may_be_blank=True),
        number("up_to", unit, least, most, order="rising", may_be_blank=True),
        number("share", "1", 0.3, 1, order="falling", may_be_blank=True),
    )


METRIC = Table("rope_heat_limits.csv", _columns("degC", -100, 700), key=("item", "kind", "above", "up_to"), group=("item", "kind"))
US = Table("rope_heat_limits_us.csv", _columns("degF", -150, 1200), key=("item", "kind", "above", "up_to"), group=("item", "kind"))


@dataclass(frozen=True)
class HeatLimit:
    """One temperature band of one source.

    Kind "working limit": between `above_k` and `up_to_k` (None: no lowest temperature given) the share of the strength
    may be counted; outside all bands of its source, none. Kind "damage": from `above_k` on the material melts, sticks or decays.
    """

    item: str
    kind: str
    above_k: float | None
    up_to_k: float | None
    share: float | None
    source: str
    mark: str


def heat_items() -> list[str]:
    """Return every item that has a heat limit."""
    return list(dict.fromkeys(row.text("item") for table in (METRIC, US) for row in table.rows()))


def heat_limits(item: str) -> list[HeatLimit]:
    """Return every band of every source for an item, temperatures in kelvin; PartError for an unknown item.

    >>> [round(limit.up_to_k - 273.15, 1) for limit in heat_limits("wire rope fibre core")]
    [100.0, 93.3]
    """
    found = [
        HeatLimit(item, row.text("kind"), row.maybe("above"), row.maybe("up_to"), row.maybe("share"), row.source, row.mark)
        for table in (METRIC, US)
        for row in table.rows()
        if row.text("item") == item
    ]
    if not found:
        raise unknown_part("item with a heat limit", item, heat_items())
    return found
