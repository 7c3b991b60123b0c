"""What an arrangement asks for, and how the answers are read: every fault is told at the label of the input it belongs to."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from rigcheck import units
from rigcheck.errors import InputError, QuantityError, RigcheckError
from rigcheck.rig import files
from rigcheck.rig.model import Rig
from rigcheck.units import Quantity

MOST_INPUTS = 8
UNKNOWN = "I don't know"


@dataclass(frozen=True)
class Input:
    """A quantity to measure: its key, its label in a form, its kind, a text to begin with, what to measure and where, and bounds in SI."""

    key: str
    label: str
    kind: str
    default: str
    help: str
    least: float = 0.0
    most: float = 100.0

    @property
    def unit(self) -> str:
        """The unit of the text the form begins with.

        >>> Input("rope", "Rope", "length", "6 mm", "").unit
        'mm'
        """
        return self.default.partition(" ")[2]

    @property
    def such(self) -> str:
        """An answer of the right size, in the units shown: what the form begins with, to two digits where it is converted."""
        begins = units.read(self.default, self.kind)
        return begins.text if str(begins) == begins.text else units.show(begins.value, self.unit, 2)


@dataclass(frozen=True)
class Choice:
    """One of several options; `asked_with` is the key of another choice and how its answer must begin for this one to matter.

    Where `most` is stated the options are the usual ones only: any plain number above 1 and up to it may be typed instead.
    """

    key: str
    label: str
    options: tuple[str, ...]
    default: str
    help: str = ""
    asked_with: tuple[str, str] | None = None
    most: float | None = None


class Values:
    """The answers of one form, read and checked: `values["travel"]` in SI, `values.text("travel")` as typed, `values.chosen("rope")`.

    `faults` holds what is wrong, by the key of the answer. A number that cannot be read counts as not a number: whatever is compared
    with it is not refused, so that the other answers are judged all the same.
    """

    def __init__(self, arrangement: Arrangement, given: Mapping[str, str]):
        self._inputs = {item.key: item for item in arrangement.inputs}
        self._choices = {item.key: item for item in arrangement.choices}
        unknown = [key for key in given if key not in self._inputs and key not in self._choices]
        if unknown:
            known = ", ".join([*self._inputs, *self._choices])
            raise InputError(f'"{unknown[0]}" is not asked for', where=arrangement.title, right=f"It asks for: {known}.")
        self.faults: dict[str, RigcheckError] = {}
        self._read = {key: self._taken(key, self._quantity, item, given) for key, item in self._inputs.items()}
        self._chosen = {key: self._taken(key, self._option, item, given) or item.default for key, item in self._choices.items()}

    def __getitem__(self, key: str) -> float:
        read = self._read[key]
        return math.nan if read is None else read.value

    def text(self, key: str) -> str:
        read = self._read[key]
        return "" if read is None else read.text

    def chosen(self, key: str) -> str:
        return self._chosen[key]

    def asks(self, key: str) -> bool:
        """Whether the arrangement asks for this input."""
        return key in self._read

    def refuse(self, key: str, wrong: str, right: str) -> None:
        """Note that a value does not go with the others; what was noted of it first stays."""
        self.faults.setdefault(key, InputError(f'"{self.text(key)}" {wrong}', where=self._inputs[key].label, right=right))

    def _taken(self, key: str, read: Callable, item: Input | Choice, given: Mapping[str, str]):
        try:
            return read(item, given.get(key))
        except RigcheckError as fault:
            self.faults[key] = fault
            return None

    @staticmethod
    def _quantity(item: Input, given) -> Quantity:
        if given is None:
            raise InputError("nothing is given", where=item.label, right=f'Write {units.KINDS[item.kind].name}, such as "{item.such}".')
        try:
            found = units.read(given, item.kind)
        except QuantityError as fault:
            raise fault.at(item.label) from None
        if found.value <= item.least or found.value > item.most:
            least, most = units.show(item.least, item.unit, 4, "up"), units.show(item.most, item.unit, 4, "down")
            right = f"Write more than {least} and at most {most}."
            raise InputError(f'"{found.text}" is out of proportion', where=item.label, right=right)
        return found

    @staticmethod
    def _option(item: Choice, given) -> str:
        if given is None:
            raise InputError("nothing is chosen", where=item.label, right=f"Choose one of: {'; '.join(item.options)}.")
        if given not in item.options:
            if item.most is not None:
                return _number(item, given)
            raise InputError(
                f"{str(given)[:60]!r} is not one of the options", where=item.label, right=f"Choose one of: {'; '.join(item.options)}."
            )
        return given


def _number(item: Choice, given) -> str:
    """A number typed in place of an option; one with a tolerance is no plain number."""
    right = f"Write a plain number above 1 and at most {item.most:g}, such as {item.options[-1]}; or choose {item.options[0]}."
    try:
        found = units.read(str(given)[:60], "ratio")
    except QuantityError as fault:
        raise InputError(fault.wrong, where=item.label, right=right) from None
    if found.plus_minus or not 1 < found.value <= item.most:
        raise InputError(f'"{found.text}" is out of proportion', where=item.label, right=right)
    return f"{found.value:.10g}"


@dataclass(frozen=True)
class Arrangement:
    """A way to rig a hoist that turns a few numbers into a whole rig."""

    slug: str
    title: str
    about: str
    inputs: tuple[Input, ...]
    choices: tuple[Choice, ...]
    build: Callable[[Values], dict]

    def defaults(self) -> dict[str, str]:
        """The values a form begins with."""
        return {item.key: item.default for item in (*self.inputs, *self.choices)}

    def asked(self, answers: Mapping[str, str]) -> tuple[Choice, ...]:
        """The choices that matter beside the other answers: of a fibre rope no grade is asked."""
        return tuple(c for c in self.choices if c.asked_with is None or answers[c.asked_with[0]].startswith(c.asked_with[1]))

    def make(self, values: Mapping[str, str]) -> Rig:
        """A rig from the values of every input and choice.

        Errors: InputError, placed at the label of the input, for a value that is missing, unreadable or does not go with the others.
        """
        read = Values(self, values)
        if read.faults:
            raise next(iter(read.faults.values()))
        parts = self.build(read)
        if read.faults:
            raise next(iter(read.faults.values()))
        return files.read({"format": files.FORMAT, "name": self.title, "about": self.about, **parts}, self.title)

    def faults(self, values: Mapping[str, str]) -> dict[str, RigcheckError]:
        """Everything that is wrong with the values, by key: what cannot be read, and what does not go with the others that can."""
        read = Values(self, values)
        self.build(read)
        return read.faults
