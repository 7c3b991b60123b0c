"""Every error rigcheck raises on purpose, in one tree.

    RigcheckError                 anything below; catch this at the edge
    ├── InputError                what was typed or opened cannot be used (exit code 2)
    │   ├── QuantityError         a quantity: number, unit or kind
    │   ├── RigFileError          a rig file: not JSON, wrong format, unknown key, bad reference
    │   └── PartError             a catalogue: no such part, size or table
    ├── StaticsError              the rig as described has no answer (exit code 2)
    │   ├── GeometryError         a rope that cannot run as stated
    │   ├── NotHeldError          a body that nothing holds in some direction
    │   └── ClashError            conditions that contradict each other
    ├── OutOfRangeError           a formula asked beyond its range: its check is "cannot tell"
    └── DisagreementError         two ways of computing one number differ: a fault of ours

A message for people has three parts, kept apart so that the page, the report and the command line can each
lay them out: `where` (file and field), `wrong` (what is wrong with which value) and `right` (what would be right).
"""

from __future__ import annotations


class RigcheckError(Exception):
    """Base of the tree; `str()` gives one to three lines for people."""

    def __init__(self, wrong: str, *, where: str = "", right: str = ""):
        super().__init__(wrong)
        self.wrong = wrong
        self.where = where
        self.right = right

    def at(self, where: str) -> RigcheckError:
        """The same error placed one level further out: `at("bodies")` turns "mass" into "bodies, mass"."""
        return type(self)(self.wrong, where=f"{where}, {self.where}" if self.where else where, right=self.right)

    def __str__(self) -> str:
        first = f"{self.where}: {self.wrong}" if self.where else self.wrong
        return f"{first}\n{self.right}" if self.right else first


class InputError(RigcheckError):
    """What was typed or opened cannot be used."""


class QuantityError(InputError):
    """A quantity that cannot be read, or is of the wrong kind."""


class RigFileError(InputError):
    """A rig file that cannot be used."""


class PartError(InputError):
    """A catalogue that holds no such part."""


class StaticsError(RigcheckError):
    """The rig as described has no answer."""


class GeometryError(StaticsError):
    """A rope that cannot run as stated."""


class NotHeldError(StaticsError):
    """A body that nothing holds in some direction."""


class ClashError(StaticsError):
    """Conditions that contradict each other."""


class OutOfRangeError(RigcheckError):
    """A formula asked beyond the range its source gives."""


class DisagreementError(RigcheckError):
    """Two independent ways of computing one number differ."""
