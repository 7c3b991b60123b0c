"""The measuring sheet of the rig that is open: the rows of its form under the letters of its form."""

from __future__ import annotations

from rigcheck import units
from rigcheck.report.drawing import draw
from rigcheck.report.field_words import words_for
from rigcheck.report.measuring_sheet import Group, Row, sheet
from rigcheck.report.model_fields import fields_of
from rigcheck.report.path_words import in_words
from rigcheck.rig.arrangements import ARRANGEMENTS
from rigcheck.statics.travel import follow, heights
from rigcheck.ui import finding_out, handing_over, lettered_places, letters, session
from rigcheck.ui.draft import ARRANGEMENT, Draft, Path, label_unit
from rigcheck.ui.keeping import file_name

_DRAWING_PX = 440


def save(key: str) -> None:
    """The button that saves it."""
    draft, text = session.draft(), session.good_text()
    handing_over.offer("Print a measuring sheet", lambda: of(draft, text), file_name(f"measuring sheet {draft.data.get('name', '')}", ".pdf"),
                       "application/pdf", key=key, help="With the same letters as this form, and room to write.")  # fmt: skip


def of(draft: Draft, good_text: str | None) -> bytes:
    """The sheet of a draft as PDF."""
    rig, _ = draft.read()
    drawing = ""
    if rig is not None:
        dimensions, callouts = ([], [])
        if draft.origin == ARRANGEMENT:
            dimensions, callouts = lettered_places.marks(rig, letters.of_inputs(ARRANGEMENTS[draft.arrangement]))
        drawing = draw(follow(rig, heights(rig, 2)), width_px=_DRAWING_PX, theme="print", dimensions=dimensions, callouts=callouts)
    groups = [_of_arrangement(draft)] if draft.origin == ARRANGEMENT else _of_parts(draft)
    return sheet(str(draft.data.get("name") or "rig"), drawing, groups)


def _of_arrangement(draft: Draft) -> Group:
    arrangement = ARRANGEMENTS[draft.arrangement]
    lettered = letters.of_inputs(arrangement)
    rows = [Row(lettered[item.key], item.label, units.label(label_unit(item.default)), finding_out.of_input(item.key) or item.help, draft.answers[item.key])
            for item in arrangement.inputs]  # fmt: skip
    rows += [
        Row(lettered[item.key], item.label, "", finding_out.of_input(item.key) or item.help, draft.answers[item.key])
        for item in arrangement.asked(draft.answers)
    ]
    return Group(arrangement.title, tuple(rows))


def _of_parts(draft: Draft) -> list[Group]:
    """One group for every part: every field that has a letter in the form, with what stands there now."""
    found = []
    for path, form in letters.lettered_parts(draft):
        rows = []
        for own, (letter, of_form) in letters.of_part(draft, path, form).items():
            name = "picks" if own[-2] == "picks" else own[-1]
            words = words_for(of_form.__name__, next(field for field in fields_of(of_form) if field.name == name))
            which, label = _which(draft, own), "its place" if name == "picks" else words.label
            label = f"{which}{label[:1].lower()}{label[1:]}" if which else label
            now = "" if draft.at(own) is None else _now(draft.at(own))
            rows.append(Row(letter, label, units.label(words.unit), finding_out.way(of_form.__name__, name) or words.help, now))
        if rows:
            found.append(Group(in_words(path) if path != ("drive",) else "hand line", tuple(rows)))
    return found


def _which(draft: Draft, own: Path) -> str:
    """Which eye or which end a field is of, before its label; "" for a field of the part itself."""
    match own:
        case (_, _, "picks", eye):
            return f"eye or hook {eye}: "
        case ("ropes", rope, "path", int(stop), _):
            return (
                "first end: " if stop == 0 else "last end: " if stop == len(draft.at(("ropes", rope, "path"))) - 1 else f"stop {stop + 1}: "
            )
    return ""


def _now(value) -> str:
    return (
        ", ".join(map(_now, value))
        if isinstance(value, list)
        else {True: "yes", False: "no"}.get(value, str(value))
        if isinstance(value, bool)
        else str(value)
    )
