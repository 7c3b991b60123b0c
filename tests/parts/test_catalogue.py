"""Every table of the catalogue loads, is used by one module, and has a source for every row."""

import importlib
import pkgutil

import pytest

import rigcheck.parts
from rigcheck.parts.tables import HERE, MARKS, Table

MODULES = [importlib.import_module(f"rigcheck.parts.{found.name}") for found in pkgutil.iter_modules(rigcheck.parts.__path__)]
TABLES = list(dict.fromkeys(value for module in MODULES for value in vars(module).values() if isinstance(value, Table)))


def test_every_file_is_declared_once_and_every_declaration_has_its_file():
    assert sorted(table.file for table in TABLES) == sorted(path.name for path in HERE.glob("*.csv"))


def test_the_package_lists_every_table():
    for table in TABLES:
        assert table.file in rigcheck.parts.__doc__


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.file)
def test_a_table_loads_and_no_row_is_without_source_and_mark(table):
    for row in table.rows():
        assert len(row.source) > 8
        assert row.mark in MARKS


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.file)
def test_what_is_recalled_says_so_in_its_source_too(table):
    for row in table.rows():
        assert ("recalled" in row.source) == (row.mark == "from memory")


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.file)
def test_every_number_column_states_a_range(table):
    for column in table.columns:
        if column.unit is not None:
            assert -1e9 < column.least < column.most < 1e9
