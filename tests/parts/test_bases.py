"""Bases of required factors against figures retyped from their sources."""

import pytest

from rigcheck.errors import PartError
from rigcheck.parts.basis import DEFAULT_BASIS, bases, basis


def test_the_default_basis_is_the_european_regulation():
    # Regulation (EU) 2023/1230, Annex III, 4.1.2.3: 1.5, 1.25, 1.1; 4.1.2.4: rope 5, chain 4; 4.1.2.5(c): textile 7
    found = basis()
    assert found == basis(DEFAULT_BASIS)
    assert (found.steel_rope, found.fibre_rope, found.chain) == (5, 7, 4)
    assert (found.static_test_manual, found.static_test_powered, found.dynamic_test) == (1.5, 1.25, 1.1)
    assert "2023/1230, Annex III" in found.source


@pytest.mark.parametrize(
    ("slug", "steel", "fibre", "chain"),
    [
        ("michigan-hoist", 5, None, None),  # R 408.15226
        ("washington-wire-rope", 5, None, None),  # WAC 296-24-29401
        ("us-shore-gear", 4, None, None),  # 29 CFR 1919.79
        ("namibia-mines", 6, 10, 6),  # XIV 14.2
        ("virginia-mine-hoist", 5, None, None),  # § 45.1-161.154
        ("mine-hoist-california-to-500-ft", 8, None, None),  # Title 8 § 7135
        ("mine-hoist-california-500-to-1000-ft", 7, None, None),
        ("mine-hoist-california-1000-to-2000-ft", 6, None, None),
        ("mine-hoist-california-from-2000-ft", 5, None, None),
    ],
)
def test_a_basis_gives_its_published_factors_and_none_where_the_source_is_silent(slug, steel, fibre, chain):
    found = basis(slug)
    assert (found.steel_rope, found.fibre_rope, found.chain) == (steel, fibre, chain)
    assert (found.static_test_manual, found.static_test_powered, found.dynamic_test) == (None, None, None)


def test_mechanism_groups_give_the_running_rope_factors():
    # Zp of running ropes, Russian federal rules for lifting machines, Table 4
    assert [basis(f"mechanism-m{group}").steel_rope for group in range(1, 9)] == [3.15, 3.35, 3.55, 4.00, 4.50, 5.60, 7.10, 9.00]


def test_every_basis_was_read_and_says_what_its_factor_covers():
    for found in bases():
        assert found.mark == "read"
        assert "starting and stopping" in found.covers
        assert "safe" not in found.covers.lower()
        assert any((found.steel_rope, found.fibre_rope, found.chain))


def test_an_unknown_basis_lists_what_exists():
    with pytest.raises(PartError, match=r'"moon-hoist".*\n.*eu-machinery, michigan-hoist'):
        basis("moon-hoist")
