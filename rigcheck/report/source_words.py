"""Sources of lines as a report prints them: tables and their rows by what they are."""

from __future__ import annotations

import re

RULES = {
    "wire-rope-board": "rule for sheaves under wire rope",
    "line-parts-table": "rule from a table of parts of line",
    "din-15020": "rule of DIN 15020",
    "seamanship-tenth": "seamanship rule of a tenth for each sheave",
}
"""Names of rules of the tables, as people would say them."""
_TABLES = {"fibre_ropes": "table of fibre ropes", "wire_ropes": "table of wire ropes", "fibre_rope_rules": "table of rules for fibre ropes"}
_FILE = re.compile(r"\b([a-z]+(?:_[a-z]+)*)\.csv\b")
_SLUG = re.compile(r"(?<![\w-])[a-z]+(?:-[a-z]+)+(?=;)")


def tables_in_words(text: str) -> str:
    """Data files by what they are.

    >>> tables_in_words("7x19, 6 mm, wire_ropes.csv"), tables_in_words("drum_rules.csv")
    ('7x19, 6 mm, table of wire ropes', 'table of drum rules')
    """
    return _FILE.sub(lambda found: _TABLES.get(found[1], f"table of {found[1].replace('_', ' ')}"), text)


def row_words(text: str) -> str:
    """The name of a row of a table, where it heads a source, as words: "dead-wraps; 30 CFR" as "dead wraps; 30 CFR".

    >>> row_words("flange-overhang; DGUV Vorschrift 54"), row_words("a two-part rope")
    ('flange overhang; DGUV Vorschrift 54', 'a two-part rope')
    """
    found = _SLUG.match(text)
    return text if found is None else found[0].replace("-", " ") + text[found.end() :]
