"""What an arrangement asks for, and how the answers are read: every fault is told at the label of the input it belongs to."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import NoReturn

from rigcheck import units
from rigcheck.errors import InputError, QuantityError
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
    """One of several options; `asked_with` is the key of another choice and how its answer must begin for this one to matter."""

    key: str
    label: str
    options: tuple[str, ...]
    default: str
    help: str = ""
    asked_with: tuple[str, str] | None = None


class Values:
    """The answers of one form, read and checked: `values["travel"]` in SI, `values.text("travel")` as typed, `values.chosen("rope")`."""

    def __init__(self, arrangement: Arrangement, given: Mapping[str, str]):
        self._inputs = {item.key: item for item in arrangement.inputs}
        self._choices = {item.key: item for item in arrangement.choices}
        unknown = [key for key in given if key not in self._inputs and key not in self._choices]
        if unknown:
            known = ", ".join([*self._inputs, *self._choices])
            raise InputError(f'"{unknown[0]}" is not asked for', where=arrangement.title, right=f"It asks for: {known}.")
        self._read = {key: self._quantity(item, given.get(key)) for key, item in self._inputs.items()}
        self._chosen = {key: self._option(item, given.get(key)) for key, item in self._choices.items()}

    def __getitem__(self, key: str) -> float:
        return self._read[key].value

    def text(self, key: str) -> str:
        return self._read[key].text

    def chosen(self, key: str) -> str:
        return self._chosen[key]

    def asks(self, key: str) -> bool:
        """Whether the arrangement asks for this input."""
        return key in self._read

    def refuse(self, key: str, wrong: str, right: str) -> NoReturn:
        """Refuse a value that does not go with the others."""
        raise InputError(f'"{self.text(key)}" {wrong}', where=self._inputs[key].label, right=right)

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
            raise InputError(
                f"{str(given)[:60]!r} is not one of the options", where=item.label, right=f"Choose one of: {'; '.join(item.options)}."
            )
        return given


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
        parts = self.build(Values(self, values))
        return files.read({"format": files.FORMAT, "name": self.title, "about": self.about, **parts}, self.title)
