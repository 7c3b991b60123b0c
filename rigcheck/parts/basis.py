"""Bases: published sets of required factors, each with what its factor already covers."""

from __future__ import annotations

from dataclasses import dataclass

from rigcheck.parts.tables import Row, Table, number, text, unknown_part

DEFAULT_BASIS = "eu-machinery"
_FACTORS = ("steel_rope", "fibre_rope", "chain", "static_test_manual", "static_test_powered", "dynamic_test")

BASES = Table(
    "bases.csv",
    (text("slug"), text("title"), *(number(name, "1", 1, 20, may_be_blank=True) for name in _FACTORS), text("covers")),
    key=("slug",),
)


@dataclass(frozen=True)
class Basis:
    """A set of required factors, breaking force over greatest pull; None where the source asks none.

    The tests are test load over marked load. `covers` says in plain words what is inside the factor, so that nothing is counted twice.
    """

    slug: str
    title: str
    steel_rope: float | None
    fibre_rope: float | None
    chain: float | None
    static_test_manual: float | None
    static_test_powered: float | None
    dynamic_test: float | None
    covers: str
    source: str
    mark: str


def bases() -> list[Basis]:
    """Return every basis, in the order of the table."""
    return [_basis(row) for row in BASES.rows()]


def basis(slug: str = DEFAULT_BASIS) -> Basis:
    """Return one basis; PartError if there is none of that name.

    >>> basis("eu-machinery").steel_rope, basis("michigan-hoist").chain
    (5.0, None)
    """
    for row in BASES.rows():
        if row.text("slug") == slug:
            return _basis(row)
    raise unknown_part("basis", slug, (row.text("slug") for row in BASES.rows()))


def _basis(row: Row) -> Basis:
    factors = {name: row.maybe(name) for name in _FACTORS}
    return Basis(row.text("slug"), row.text("title"), **factors, covers=row.text("covers"), source=row.source, mark=row.mark)
