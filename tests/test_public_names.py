"""The public names of the package, and that importing it costs nothing."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

import rigcheck

NAMES = [
    "Assessment", "InputError", "MODEL_VERSION", "Rig", "RigcheckError", "StaticsError", "assess", "contract", "dumps", "example", "load", "loads",
    "names_of_examples", "pdf", "text",
]  # fmt: skip


def test_the_public_names_are_these():
    assert sorted(rigcheck.__all__) == NAMES
    assert set(NAMES) <= set(dir(rigcheck))
    assert all(getattr(rigcheck, name) is not None for name in NAMES)


def test_a_name_that_is_not_there_is_refused():
    with pytest.raises(AttributeError, match="has no attribute 'lift_people'"):
        rigcheck.lift_people  # noqa: B018


def test_importing_the_package_loads_none_of_its_libraries():
    code = "import sys, rigcheck; print(sorted({'numpy', 'sympy', 'pydantic', 'scipy', 'typst', 'streamlit'} & set(sys.modules)))"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=Path(__file__).parent.parent, check=True)
    assert told.stdout.strip() == "[]"
