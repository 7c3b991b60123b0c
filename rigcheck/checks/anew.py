"""Lines of working gone through once more for another load, each written out, so that a test load can be followed by hand."""

from __future__ import annotations

from rigcheck import notation
from rigcheck.working import EXTREME, Line, Working


def anew(working: Working, wanted: Line, old: Line, new: Line, of: str) -> Line:
    """The wanted line with a new line in the place of an old one: every line between the two is added again, marked with `of`.

    Lines that do not rest on the old one stay as they are; the wanted line itself is given back if it does not.
    """
    needed, found = working.ancestors([wanted]), {old: new}
    for line in list(working.lines):
        if line in needed and line not in found and any(part in found for part in line.inputs.values()):
            found[line] = _again(working, line, {name: found.get(part, part) for name, part in line.inputs.items()}, of)
    return found.get(wanted, wanted)


def _again(working: Working, line: Line, inputs: dict[str, Line], of: str) -> Line:
    sign = line.sign.of(of, f"{line.sign.meaning}, {of}")
    if line.formula is not None:
        # the formula's own sign is shared by many parts; the same formula is kept, since to print and compile another takes long
        shared, own = (notation.split_sign(letter)[1] for letter in (line.formula.result.letter, sign.letter))
        return working.apply(line.formula, own.removeprefix(shared).strip(), sign.meaning, line.kind, **inputs)
    if line.kind == EXTREME:
        return working.extreme(sign, list(inputs.values()), most=line.how.startswith("the greatest"))
    return working.solve_in_numbers(sign, line.compute, line.how, line.source, **inputs)
