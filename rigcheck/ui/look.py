"""The few marks of our own that Streamlit has none for: one sheet of styles, in inks that follow the theme."""

from __future__ import annotations

from collections.abc import Sequence

import streamlit

_SHEET = """
<style>
.katex-display { padding-block: .6rem; margin: 0 !important; text-align: left !important; overflow: visible !important; }
.katex-display > .katex { text-align: left !important; white-space: normal !important; line-height: 1.5; }
.katex-display > .katex > .katex-html:has(> .base + .base) { padding-left: 1.5em; }
@media (max-width: 40em) { .katex-display > .katex { font-size: 1.05rem; } }
[data-testid="stMarkdown"] > div:has(> div > .katex-display) { margin-inline: 0 !important; max-width: 100%; align-items: flex-start; }
[data-testid="stMainBlockContainer"] { padding-top: 1.4rem; }
[data-testid="stHeader"] { background: transparent; pointer-events: none; }
.st-key-ways { row-gap: .25rem; background: PAPER; padding-block: .3rem .1rem; }
[data-testid="stMain"] { scroll-padding-top: 11.5rem; }
[data-testid="stPageLink"] p { white-space: normal; overflow: visible; }
[data-testid="stPageLink"]:not(.st-key-ways *) p, button[kind="tertiary"] p {
  text-decoration: underline; text-decoration-thickness: 1px; text-underline-offset: .2em;
}
[data-testid="stCaptionContainer"] { color: inherit !important; opacity: .82; }
div:has(> .st-key-in-sight) { position: sticky; top: 0; z-index: 90; }
div:has(> .st-key-in-sight), .st-key-in-sight { background: PAPER; }
@media (min-width: 64em) {
  div:has(> .st-key-ways) { position: sticky; top: 0; z-index: 91; background: PAPER; }
  div:has(> .st-key-in-sight) { top: 1.5rem; }
}
.st-key-in-sight { border-bottom: 2px solid currentColor; padding: .35rem 0 .45rem; }
.rc-sight { display: flex; flex-wrap: wrap; gap: .15rem 1.4rem; align-items: baseline; line-height: 1.35; }
.rc-sight .rc-name { font-weight: 700; max-width: 22rem; overflow-wrap: anywhere; }
.rc-mark { display: inline-block; min-width: 1.15em; font-weight: 700; }
.rc-fault { border-left: 4px double currentColor; padding: .1rem 0 .1rem .6rem; margin: 0; font-size: .88rem; line-height: 1.35; overflow-wrap: anywhere; }
.rc-fault b { font-weight: 650; }
.rc-check { border-top: 1px solid color-mix(in srgb, currentColor 35%, transparent); padding-top: .5rem; line-height: 1.4; overflow-wrap: anywhere; }
.rc-check h3 { font-size: 1rem; font-weight: 600; margin: 0 0 .2rem; padding: 0; letter-spacing: 0; }
.rc-check dl { display: grid; grid-template-columns: repeat(auto-fill, minmax(8.5rem, 1fr)); gap: .1rem 1rem; margin: .2rem 0 !important; padding: 0 !important; }
.rc-check dl > div { min-width: 0; margin: 0; padding: 0; }
.rc-check dt { margin: 0 !important; padding: 0; font-size: .78rem; opacity: .8; }
.rc-check dd { margin: 0 !important; font-variant-numeric: tabular-nums; }
.rc-check p { margin: .15rem 0; }
.rc-small { font-size: .84rem; opacity: .85; }
.rc-scroll { overflow-x: auto; }
.rc-table { border-collapse: collapse; width: 100%; font-variant-numeric: tabular-nums; line-height: 1.35; }
.rc-table th, .rc-table td { text-align: left; padding: .28rem .7rem .28rem 0; vertical-align: top; overflow-wrap: break-word; }
.rc-table thead th { border-bottom: 2px solid currentColor; font-weight: 600; font-size: .84rem; }
.rc-table tbody tr + tr > * { border-top: 1px solid color-mix(in srgb, currentColor 25%, transparent); }
.rc-table td.rc-number { text-align: right; white-space: nowrap; }
.rc-table th.rc-number { text-align: right; white-space: nowrap; }
.rc-table .rc-number + :not(.rc-number) { padding-left: .8rem; }
.rc-table tbody th:has(> br) { min-width: min(18rem, 30vw); }
.rc-scroll .rc-table { min-width: 40rem; }
.rc-rows { container-type: inline-size; overflow-x: visible; }
.rc-rows .rc-table, .rc-few .rc-table { min-width: 0; }
@media (max-width: 62em) { .rc-few .rc-table .rc-number { white-space: normal; } }
.rc-table.rc-plain tbody th { font-weight: 400; }
@container (max-width: 36rem) {
  .rc-rows .rc-table, .rc-rows tbody, .rc-rows tr, .rc-rows th, .rc-rows td { display: block; }
  .rc-rows thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  .rc-rows tbody tr { border-top: 1px solid color-mix(in srgb, currentColor 35%, transparent); padding: .4rem 0; }
  .rc-rows tbody tr > *, .rc-rows tbody tr > .rc-number { border: 0 !important; padding: .05rem 0 !important; text-align: left; white-space: normal; }
  .rc-rows tbody th { font-weight: 600; }
  .rc-rows td:empty { display: none; }
  .rc-rows td[data-head]::before { content: attr(data-head) ": "; font-size: .84rem; opacity: .85; }
  .rc-rows td br { display: none; }
  .rc-rows td br + .rc-small::before { content: " · "; }
}
@media (max-width: 62em) {
  [class*="st-key-beside-"] [data-testid="stHorizontalBlock"]:has(> [data-testid="stColumn"]) { flex-wrap: wrap; }
  [class*="st-key-beside-"] [data-testid="stColumn"] { min-width: 100%; }
}
@media (max-width: 40em) {
  [class*="st-key-steps-"] [data-testid="stHorizontalBlock"] { flex-wrap: nowrap; gap: .6rem; }
  [class*="st-key-steps-"] [data-testid="stColumn"] { min-width: 0; }
}
.rc-scroll .rc-brief { min-width: 0; font-size: .9rem; }
.rc-brief td:first-child { white-space: nowrap; }
.rc-table.rc-brief th.rc-number { white-space: normal; }
.rc-brief th.rc-number:last-child { max-width: 6rem; }
.rc-to-numbers { display: none; }
@media (max-width: 40em) { .rc-to-numbers { display: inline-block; padding-block: .3rem; } }
.rc-brief .rc-small { white-space: nowrap; }
@media (max-width: 48em) {
  .rc-sight { font-size: .88rem; line-height: 1.25; column-gap: .9rem; }
  .rc-scroll .rc-brief { font-size: .8rem; }
  .rc-scroll .rc-brief thead th { font-size: .74rem; }
  .rc-brief th, .rc-brief td { padding-right: .4rem; }
  .rc-table.rc-brief .rc-number { white-space: normal; }
  .rc-brief td:not(:first-child, .rc-number), .rc-brief th[scope=row] { overflow-wrap: break-word; hyphens: auto; }
}
@media (max-width: 30em) {
  .rc-brief td:first-child { white-space: normal; }
  .rc-brief td .rc-small { display: block; }
  .rc-brief th, .rc-brief td { padding-right: .3rem; }
}
.st-key-at-hand { row-gap: .2rem; padding-top: .25rem; }
.st-key-at-hand button { min-height: 1.9rem; padding-block: .1rem; }
.rc-rule { border-top: 1px solid color-mix(in srgb, currentColor 30%, transparent); height: 0; margin: 0; }
.rc-sentence { font-size: 1.25rem; line-height: 1.4; margin: .3rem 0; overflow-wrap: anywhere; }
.rc-stale { border: 2px dashed currentColor; padding: .5rem .8rem; line-height: 1.4; overflow-wrap: anywhere; }
</style>
"""


def put_on() -> None:
    """Put the sheet on the page, once a run; what covers other things takes the theme's own paper."""
    streamlit.html(_SHEET.replace("PAPER", _colour("backgroundColor", "Canvas")))


def beside(shares: int | Sequence[float], key: str = "main") -> list:
    """Columns that stand beside one another where a page is wide enough that nothing in them is cut, and one below the other where it is not."""
    with streamlit.container(key=f"beside-{key}"):
        return streamlit.columns(shares, gap="large")


def ink() -> str:
    """The colour of text in the theme that is on."""
    return _colour("textColor", "gray")


def _colour(name: str, otherwise: str) -> str:
    theme = streamlit.context.theme.type or "light"
    return streamlit.get_option(f"theme.{theme}.{name}") or otherwise
