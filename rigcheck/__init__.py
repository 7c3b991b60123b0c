"""rigcheck: what a small hoist of ropes, sheaves and a winch has to bear, and whether each part is up to it.

The public names stand here and are fetched on first use, so that importing the package costs nothing.
"""

from __future__ import annotations

from importlib import import_module

MODEL_VERSION = "0.1.0"

_HOMES = {
    "Assessment": "rigcheck.checks.assessment",
    "InputError": "rigcheck.errors",
    "Rig": "rigcheck.rig.model",
    "RigcheckError": "rigcheck.errors",
    "StaticsError": "rigcheck.errors",
    "assess": "rigcheck.checks.assessment",
    "contract": "rigcheck.report.as_json",
    "dumps": "rigcheck.rig.files",
    "example": "rigcheck.rig.examples",
    "load": "rigcheck.rig.files",
    "loads": "rigcheck.rig.files",
    "names_of_examples": "rigcheck.rig.examples",
    "pdf": "rigcheck.report.pdf",
    "text": "rigcheck.report.as_text",
}
_OTHER_NAMES = {"names_of_examples": "names"}

__all__ = ["MODEL_VERSION", *_HOMES]


def __getattr__(name: str):
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    found = getattr(import_module(_HOMES[name]), _OTHER_NAMES.get(name, name))
    globals()[name] = found
    return found


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
