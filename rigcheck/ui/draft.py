"""The draft: a rig as it was typed, perhaps not valid yet. It is the only truth of the pages; a rig is read from it.

`data` is what would stand in the rig file, `typed` the text shown in a field where that differs ("120" beside "120 kg").
A draft that began as an arrangement keeps its answers; when one of them changes, what was changed since by hand is kept, but for
the very fields that the new answer is about: what was typed last counts. Answers that nobody gave yet are noted in the rig as guesses.
"""

from __future__ import annotations

import copy
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from pydantic import ValidationError

from rigcheck.errors import RigcheckError
from rigcheck.rig import faults, files
from rigcheck.rig.arrangements import ARRANGEMENTS, Arrangement, Choice, Input
from rigcheck.rig.arrangements.inputs import UNKNOWN
from rigcheck.rig.faults import Fault
from rigcheck.rig.model import Rig
from rigcheck.ui import form_notes
from rigcheck.ui.typed import unit_of, with_unit

Path = tuple[str | int, ...]
ARRANGEMENT, EXAMPLE, FILE, SCRATCH = "an arrangement", "an example", "a rig file", "one rope and one sheave"
GUESSED = "guess, the form began with them and nobody has measured them yet"
CHOSEN = "guess, the form began with them and nobody has chosen them yet"
LONGEST_NOTE = 400
_BEGUN = {"moves": {"kind": "guided"}}  # what a part that may be left out says of itself when its first field is typed


@dataclass(frozen=True)
class Draft:
    """A rig as typed; `origin` says in words where it came from."""

    data: dict
    origin: str
    typed: Mapping[Path, str] = field(default_factory=dict)
    arrangement: str | None = None
    answers: Mapping[str, str] = field(default_factory=dict)
    made: dict | None = None
    dropped: tuple[Path, ...] = ()
    given: frozenset[str] = frozenset()

    def at(self, path: Path):
        """What stands in the rig file at a path, None where nothing does."""
        here = self.data
        for step in path:
            if isinstance(here, dict):
                here = here.get(step)
            elif isinstance(here, list) and isinstance(step, int) and step < len(here):
                here = here[step]
            else:
                return None
        return here

    def shown(self, path: Path) -> str:
        """The text a field shows."""
        if path in self.typed:
            return self.typed[path]
        value = self.at(path)
        return "" if value is None else f"{value:g}" if isinstance(value, float) else str(value)

    def edited(self, path: Path, value, typed: str | None = None) -> Draft:
        """The draft with one field changed; None leaves the field out."""
        data = copy.deepcopy(self.data)
        here = data
        for step in path[:-1]:
            if isinstance(here, dict) and here.get(step) is None:
                here[step] = dict(_BEGUN.get(step, {}))
            here = here[step]
        if value is None and isinstance(here, dict):
            here.pop(path[-1], None)
        elif isinstance(here, list) and path[-1] == len(here):
            here.append(value)
        else:
            here[path[-1]] = value
        form_notes.stated(data, path)
        texts = {p: t for p, t in self.typed.items() if p != path}
        if typed is not None and typed != value:
            texts[path] = typed
        return replace(self, data=data, typed=texts)

    def with_step(self, path: Path, index: int, value, typed: str | None, whole: list) -> Draft:
        """The draft with one step of a place changed; `whole` is the place as it stands. A place without any step is left out."""
        steps = [*whole, *[""] * (index + 1 - len(whole))]
        steps[index] = value
        while len(steps) > 2 and steps[-1] == "":
            steps.pop()
        draft = self.edited(path, steps if any(step != "" for step in steps) else None)
        texts = {p: t for p, t in draft.typed.items() if p != (*path, index)}
        if typed != value:
            texts[*path, index] = typed
        return replace(draft, typed=texts)

    def read(self) -> tuple[Rig | None, list[Fault]]:
        """The rig, or every fault of the draft at its field."""
        try:
            return Rig.model_validate(self.data), []
        except ValidationError as problem:
            return None, faults.found(problem, self.data)

    def changed_by_hand(self) -> list[Path]:
        """The fields that no longer stand as the arrangement made them."""
        return [] if self.made is None else sorted(differences(self.made, self.data), key=str)


def of_rig(rig: Rig, origin: str) -> Draft:
    """A draft that begins as a rig."""
    return Draft(_plain(rig), origin)


def of_arrangement(slug: str) -> Draft:
    """A draft that begins as an arrangement with the values its form begins with."""
    arrangement = ARRANGEMENTS[slug]
    data = made_of(arrangement, arrangement.defaults(), frozenset())
    return Draft(data, ARRANGEMENT, arrangement=slug, answers=arrangement.defaults(), made=data)


def answered(draft: Draft, key: str, text: str, typed: str | None = None) -> Draft:
    """The draft with one answer given; the rig follows if all answers can be used, otherwise it stays as it was."""
    arrangement = ARRANGEMENTS[draft.arrangement]
    texts = {path: shown for path, shown in draft.typed.items() if path != answer_path(key)}
    if typed is not None and typed != text:
        texts[answer_path(key)] = typed
    other_gears = key in ("ratio", "worked_by") and draft.answers.get(key) != text
    draft = replace(draft, answers={**draft.answers, key: text}, typed=texts, given=draft.given | {key})
    if answer_faults(draft):
        return draft
    made = made_of(arrangement, in_label_units(arrangement, draft.answers), draft.given)
    if not other_gears:
        made = _with_gears_of(draft.made, made)
    data, dropped = _kept(draft.made, draft.data, made)
    texts = {path: text for path, text in draft.typed.items() if path not in dropped}
    return replace(draft, data=data, made=made, typed=texts, dropped=tuple(dropped))


def not_given(draft: Draft) -> list[str]:
    """The labels of the numbers and choices that still stand as the form of the arrangement began with them."""
    numbers, choices = _as_begun(ARRANGEMENTS[draft.arrangement], draft.answers, draft.given)
    return [item.label for item in (*numbers, *choices)]


def confirmed(draft: Draft) -> Draft:
    """The draft with every answer taken as given that the form began with."""
    arrangement = ARRANGEMENTS[draft.arrangement]
    numbers, choices = _as_begun(arrangement, draft.answers, draft.given)
    for item in (each for each in (*numbers, *choices) if draft.answers[each.key].strip()):
        draft = answered(draft, item.key, draft.answers[item.key], draft.typed.get(answer_path(item.key)))
    return draft


def _as_begun(arrangement: Arrangement, answers: Mapping[str, str], given: frozenset[str]) -> tuple[list[Input], list[Choice]]:
    """The numbers and the choices that nobody gave; a choice that says of itself that it is not known is none of them."""
    numbers = [item for item in arrangement.inputs if item.key not in given]
    choices = [c for c in arrangement.asked(answers) if c.key not in given and not answers[c.key].startswith(UNKNOWN)]
    return numbers, choices


def made_of(arrangement: Arrangement, answers: Mapping[str, str], given: frozenset[str]) -> dict:
    """The rig of the answers; a number or a choice that nobody gave is noted in it as a guess."""
    data = _plain(arrangement.make(answers))
    for field_name, words, items in zip(("name", "about"), (GUESSED, CHOSEN), _as_begun(arrangement, answers, given), strict=True):
        if items:
            told = f"{words}: {'; '.join(f'{item.label} {answers[item.key]}' for item in items)}"
            data.setdefault("notes", {})[field_name] = told if len(told) <= LONGEST_NOTE else f"{told[: LONGEST_NOTE - 1]}…"
    return data


def answer_faults(draft: Draft) -> dict[str, RigcheckError]:
    """What is wrong with the answers, by the key of the answer; what belongs to none of them has the key ""."""
    arrangement = ARRANGEMENTS[draft.arrangement]
    given = in_label_units(arrangement, draft.answers)
    found = arrangement.faults(given)
    if not found:
        try:
            arrangement.make(given)
        except RigcheckError as fault:
            found[""] = fault
    return found


def _with_gears_of(made_before: dict, made: dict) -> dict:
    """The newly made rig with its ratio parted as before among the same stages, which may have been changed since."""
    old, new = (each.get("drive", {}).get("gears") or [] for each in (made_before, made))
    if [gear["kind"] for gear in old] != [gear["kind"] for gear in new]:
        return made
    return {**made, "drive": {**made["drive"], "gears": copy.deepcopy(old)}} if old else made


def answer_path(key: str) -> Path:
    """Where what was typed as an answer is kept beside what was typed into the fields of parts."""
    return ("answers", key)


def label_unit(default: str) -> str:
    """The unit that stands in the label of an answer: that of the value its form begins with."""
    return unit_of(default)


def in_label_units(arrangement: Arrangement, answers: Mapping[str, str]) -> dict[str, str]:
    default_units = {item.key: label_unit(item.default) for item in arrangement.inputs}
    return {key: with_unit(text, default_units.get(key, "")) for key, text in answers.items()}


def _plain(rig: Rig) -> dict:
    import json

    return json.loads(files.dumps(rig))


def differences(before, after, path: Path = ()) -> dict[Path, object]:
    """The leaves of `after` that differ from `before`; None for one that is gone."""
    if isinstance(before, dict) and isinstance(after, dict):
        found: dict[Path, object] = {}
        for key in {**before, **after}:
            found |= differences(before.get(key), after.get(key), (*path, key))
        return found
    if isinstance(before, list) and isinstance(after, list) and len(before) == len(after):
        found = {}
        for index, (old, new) in enumerate(zip(before, after, strict=True)):
            found |= differences(old, new, (*path, index))
        return found
    return {} if before == after else {path: after}


def _kept(made_before: dict, data: dict, made: dict) -> tuple[dict, list[Path]]:
    """The newly made rig with the changes by hand put in again, and those that gave way: to a new answer, or for want of a place."""
    draft, dropped = Draft(copy.deepcopy(made), ""), []
    old, new = Draft(made_before, ""), Draft(made, "")
    for path, value in differences(made_before, data).items():
        if path[-2:-1] == ("notes",) and old.at(noted := (*path[:-2], path[-1])) != new.at(noted):
            continue  # said of a value that is another one now
        if path[-1] == "notes" and isinstance(value, dict):
            value = {field: note for field, note in value.items() if old.at((*path[:-1], field)) == new.at((*path[:-1], field))}
        above = draft.at(path[:-1])
        has_place = isinstance(above, dict) or (isinstance(above, list) and path[-1] < len(above))
        if has_place and old.at(path) == new.at(path):
            draft = draft.edited(path, value or None if path[-1] == "notes" else value)
        else:
            dropped.append(path)
    return draft.data, dropped
