"""What the marks of the drawing look like: one sheet of styles, for a page that may be light or dark and for black on white print.

Parts are told apart by pattern and weight. On a page the colours come from the custom properties `--rig-ink` (all lines and
text), `--rig-paper` (what covers lines behind a part) and `--rig-rope`; without them the drawing takes the colour of the text
around it. In print they are literal.
"""

from __future__ import annotations

from typing import Literal

Theme = Literal["page", "print"]

FONT_PX = 12.0
SMALL_PX = 11.0

INK, PAPER = "var(--rig-ink, currentColor)", "var(--rig-paper, Canvas)"
ROPE = f"var(--rig-rope, {INK})"
_COLOURS = {
    "page": {"ink": INK, "paper": PAPER, "rope": ROPE},
    "print": {"ink": "#000000", "paper": "#ffffff", "rope": "#000000"},
}

_RULES = """
.rig-line,.rig-body,.rig-guess,.rig-sheave,.rig-strap,.rig-hatch,.rig-thin,.rig-guide,.rig-ghost,.rig-tick,.rig-person,.rig-ring{stroke:INK;fill:none;stroke-linejoin:round}
.rig-line{stroke-width:1.8}
.rig-hatch{stroke-width:0.8}
.rig-thin{stroke-width:0.8}
.rig-strap{stroke-width:2.6;stroke-linecap:round}
.rig-guide{stroke-width:0.8;stroke-dasharray:10 3 2 3}
.rig-body{stroke-width:1.8;fill:PAPER}
.rig-guess{stroke-width:1.4;stroke-dasharray:7 4;fill:PAPER}
.rig-sheave{stroke-width:1.2;fill:PAPER}
.rig-solid{fill:INK;stroke:none}
.rig-tick{stroke-width:1.6}
.rig-rope{stroke:ROPE;fill:none;stroke-linejoin:round}
.rig-rope-gap{stroke:PAPER;fill:none}
.rig-ghost{stroke-width:0.8;stroke-dasharray:3 3;stroke-opacity:0.75}
.rig-person{stroke-width:0.9;stroke-opacity:0.8}
.rig-ring{stroke-width:1.2;fill:PAPER}
.rig-text{fill:INK;stroke:PAPER;stroke-width:3;paint-order:stroke;stroke-linejoin:round;font-family:sans-serif}
.rig-labels{text-anchor:middle}
.rig-paper{fill:PAPER;stroke:none}
.rig-pull{font-weight:bold}
.rig-quiet{fill-opacity:0.85}
"""

# What is taken hold of lies under the pointer, whatever is drawn over it, and shows itself to whoever comes by keyboard
_HELD_RULES = """
.rig-labels,.rig-rope,.rig-rope-gap,.rig-ghost,.rig-tick,.rig-guide,.rig-solid,.rig-person,.rig-thin{pointer-events:none}
.rig-hit{stroke:INK;stroke-opacity:0;fill:none;stroke-width:14;stroke-linecap:round;pointer-events:stroke}
.rig-grip{stroke:INK;stroke-width:2;stroke-opacity:0;fill:none;pointer-events:all}
.rig-hold{fill:none;stroke:none;pointer-events:all}
.rig-drawing [tabindex]{outline:none;cursor:pointer}
.rig-drawing [tabindex]:hover>.rig-grip{stroke-opacity:0.45}
.rig-drawing [tabindex]:focus-visible>.rig-grip{stroke-opacity:1}
.rig-drawing [tabindex]:hover>.rig-hit{stroke-opacity:0.12}
.rig-drawing [tabindex]:focus-visible>.rig-hit{stroke-opacity:0.35}
"""


def style(theme: Theme) -> str:
    """The style sheet of a theme."""
    sheet = (_RULES + (_HELD_RULES.lstrip() if theme == "page" else "")).strip()
    for sign, colour in _COLOURS[theme].items():
        sheet = sheet.replace(sign.upper(), colour)
    return sheet
