"""Tables of a page as HTML: rows under heads where there is room, and each row as a block of its own, every figure with its head, where there is not."""

from __future__ import annotations

from collections.abc import Sequence

from rigcheck.ui.plain_text import in_html

FEW = 4  # so many columns fit beside one another on any page


def table(heads: Sequence[str], rows: Sequence[Sequence[str]], *, numbers: Sequence[int] = (), name: str = "Table", css: str = "") -> str:
    """A table; `heads` are text, the cells of `rows` HTML, the first of each row heads it; the columns `numbers` stand flush right.

    A table whose rows may become blocks loses what a browser tells of it as a table, so that every part says what it is.

    >>> table(["rope", "pull"], [["hoist <b>rope</b>", "12 N"]], numbers=[1]).count('data-head="pull"')
    1
    """
    head = "".join(f'<th role="columnheader" scope="col"{_right(i in numbers)}>{in_html(words)}</th>' for i, words in enumerate(heads))
    body = "".join(_row(heads, cells, numbers) for cells in rows)
    return (
        f'<div class="rc-scroll {"rc-few" if len(heads) <= FEW else "rc-rows"}" role="region" tabindex="0" aria-label="{in_html(name)}"><table class="rc-table {css}" role="table">'
        f'<thead role="rowgroup"><tr role="row">{head}</tr></thead><tbody role="rowgroup">{body}</tbody></table></div>'
    )


def wide_cell(words: str, columns: int) -> tuple[str, int]:
    """A cell of text that takes the place of several."""
    return words, columns


def _row(heads: Sequence[str], cells: Sequence[str | tuple[str, int]], numbers: Sequence[int]) -> str:
    first, *others = cells
    made, column = f'<th role="rowheader" scope="row">{first}</th>', 1
    for cell in others:
        words, wide = (cell, 1) if isinstance(cell, str) else cell
        spanned = f' colspan="{wide}"' if wide > 1 else f' data-head="{in_html(heads[column])}"'
        made += f'<td role="cell"{spanned}{_right(wide == 1 and column in numbers)}>{words}</td>'
        column += wide
    return f'<tr role="row">{made}</tr>'


def _right(is_number: bool) -> str:
    return ' class="rc-number"' if is_number else ""
