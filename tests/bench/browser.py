"""The pages in a real browser against a Streamlit page of one input: a rerun after a number, the first paint, a drag, memory after many edits."""

from __future__ import annotations

import statistics
import tempfile
from pathlib import Path

from playwright.sync_api import Browser, Page

from tests.browser.serving import chromium, served

ONE_INPUT = """
import streamlit
typed = streamlit.text_input("Mass of the load [kg]", "100")
streamlit.html(f'<p class="rc-sentence">With {typed} kg</p>')
"""
RERUNS, PAINTS, EDITS = 25, 7, 200
SHOWN = ".rc-sentence"
# resolves with the milliseconds from the key press to the moment when the words stand on the page
TIMER = """
words => { window.__took = new Promise(resolve => {
  let start = null;
  const done = new AbortController();
  addEventListener("keydown", event => { if (event.key === "Enter" && start === null) start = performance.now(); }, { capture: true, signal: done.signal });
  new MutationObserver((_, watch) => {
    if (start !== null && [...document.querySelectorAll(".rc-sentence")].some(each => each.textContent.includes(words))) {
      watch.disconnect();
      done.abort();
      requestAnimationFrame(() => resolve(performance.now() - start));
    }
  }).observe(document.body, { subtree: true, childList: true, characterData: true });
}); }
"""


def run() -> None:
    print("the pages in a browser")
    with tempfile.TemporaryDirectory() as folder:
        one = Path(folder) / "one.py"
        one.write_text(ONE_INPUT)
        with served(Path(folder) / "one.txt", one) as theirs, served(Path(folder) / "ours.txt") as ours, chromium() as browser:
            first = {name: _paint(browser, url) for name, url in (("theirs", theirs), ("ours", ours))}
            _row("first useful paint, first visitor", [first["ours"]], [first["theirs"]], "<= 2")
            paints = [(_paint(browser, ours), _paint(browser, theirs)) for _ in range(PAINTS)]
            _row("first useful paint, later ones", [a for a, _ in paints], [b for _, b in paints], "<= 2")
            for begin in ("straight", "tackle", "two-falls-counterweight"):
                _reruns(browser, f"{ours}/?begin={begin}", theirs, begin)
            _memory(browser, f"{ours}/?begin=straight")


def _paint(browser: Browser, url: str) -> float:
    """Milliseconds from asking for the page to the sentence on it, with nothing kept from before."""
    context = browser.new_context()
    page = context.new_page()
    page.add_init_script(
        """
        const watch = () => new MutationObserver((_, self) => {
          if (document.querySelector(".rc-sentence")) { self.disconnect(); requestAnimationFrame(() => { window.__painted = performance.now(); }); }
        }).observe(document, { subtree: true, childList: true });
        watch();
        """
    )
    page.goto(url)
    page.wait_for_function("window.__painted !== undefined", timeout=60_000)
    took = page.evaluate("window.__painted")
    context.close()
    return took


def _open(browser: Browser, url: str) -> Page:
    page = browser.new_context(viewport={"width": 1280, "height": 900}).new_page()
    page.goto(url)
    page.locator(SHOWN).first.wait_for(timeout=60_000)
    page.locator("[data-test-script-state=notRunning]").wait_for()
    return page


def _type_mass(page: Page, value: float) -> float:
    field = page.get_by_role("textbox", name="Mass of the load [kg]").first
    field.fill(f"{value:g}")
    page.evaluate(TIMER, f"With {value:g} kg")
    field.press("Enter")
    took = page.evaluate("window.__took")
    page.locator("[data-test-script-state=notRunning]").wait_for()
    return took


def _reruns(browser: Browser, ours: str, theirs: str, what: str) -> None:
    mine, plain = _open(browser, ours), _open(browser, theirs)
    took: list[tuple[float, float]] = []
    for turn in range(RERUNS):
        took.append((_type_mass(mine, 90 + turn * 0.5), _type_mass(plain, 90 + turn * 0.5)))
    _row(f"a number changed, {what}", [a for a, _ in took[2:]], [b for _, b in took[2:]], "<= 1.5, at most 2")
    for page in (mine, plain):
        page.context.close()


def _memory(browser: Browser, url: str) -> None:
    page = _open(browser, url)
    tools = page.context.new_cdp_session(page)
    heap: list[float] = []
    for turn in range(EDITS + 1):
        _type_mass(page, 90 + (turn % 40) * 0.5)
        if turn % (EDITS // 4) == 0:
            tools.send("HeapProfiler.collectGarbage")
            nodes = tools.send("Memory.getDOMCounters")
            heap.append(tools.send("Runtime.getHeapUsage")["usedSize"] / 1e6)
            print(f"  after {turn:>3} edits: {heap[-1]:7.1f} MB on the heap, {nodes['nodes']} nodes, {nodes['jsEventListeners']} listeners")
    page.context.close()


def _row(name: str, ours_ms: list[float], theirs_ms: list[float], goal: str) -> None:
    mine, plain = statistics.median(ours_ms), statistics.median(theirs_ms)
    print(f"  {name:<46} {mine:8.0f} ms   {mine / plain:6.2f} x a page of one input ({plain:.0f} ms)   goal {goal}")
