"""A real browser on the real pages: the server is started once, and no request may leave this computer."""

from __future__ import annotations

import re
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, TimeoutError

from tests.browser.serving import chromium, served

OWN_HOSTS = ("localhost", "127.0.0.1", "::1")
PATIENCE_MS = 45_000


@pytest.fixture(scope="session")
def address(tmp_path_factory):
    """The address of the pages, served as the command line serves them."""
    with served(tmp_path_factory.mktemp("server") / "log.txt") as url:
        yield url


@pytest.fixture(scope="session")
def browser():
    with chromium() as opened:
        yield opened


class Watched:
    """A page with all it asked for and all it complained of."""

    def __init__(self, browser: Browser, address: str, **options):
        self.address = address
        self.context = browser.new_context(accept_downloads=True, **options)
        self.page: Page = self.context.new_page()
        self.page.set_default_timeout(PATIENCE_MS)
        self.strangers: list[str] = []
        self.complaints: list[str] = []
        self.context.route("**/*", self._route)
        self.page.on("console", lambda message: self.complaints.append(message.text) if message.type == "error" else None)
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))
        self.page.goto(address)
        self.page.locator(".rc-sentence").first.wait_for()

    def _route(self, route) -> None:
        asked = urlsplit(route.request.url)
        if asked.scheme in ("http", "https", "ws", "wss") and asked.hostname not in OWN_HOSTS:
            self.strangers.append(route.request.url)
            route.abort()
        else:
            route.continue_()

    def begin(self, name: str) -> None:
        """Open the pages anew with an example or an arrangement."""
        self.page.goto(f"{self.address}/?begin={name}")
        self.page.locator(".rc-sentence").first.wait_for()
        self.still()

    def pick_card(self, slug: str) -> None:
        self.page.locator(f".card[data-slug='{slug}']").click()

    def choose(self, group: str, option: str) -> None:
        """One option of a group of buttons."""
        self.page.get_by_role("radiogroup", name=group).get_by_text(option, exact=True).click()

    def field(self, label: str, which: int = 0):
        """The input of a label, whatever letter stands before it."""
        return self.page.get_by_label(re.compile(rf"^([A-Z]+[0-9]* · )?{re.escape(label)}$")).nth(which)

    def sentence(self, words: str) -> None:
        """Wait until the sentence on the first page holds the words and the page is whole."""
        self.page.locator(".rc-sentence").filter(has_text=words).wait_for()
        self.still()

    def still(self) -> None:
        self.page.locator("[data-test-script-state=notRunning]").wait_for()

    def go_to(self, title: str) -> None:
        """Follow the link to a page, and wait until it is there; a click while an answer is on its way may be lost, and is then repeated."""
        for patience_ms in (4_000, 4_000, PATIENCE_MS):
            self.page.get_by_role("link", name=title, exact=True).click()
            try:
                self.page.wait_for_function("title => document.title === title", arg=title, timeout=patience_ms)
                return
            except TimeoutError:
                continue
        raise AssertionError(f"the page {title!r} was not reached")

    def type_in(self, label: str, text: str, which: int = 0) -> None:
        field = self.field(label, which)
        field.fill(text)
        field.press("Enter")

    def see(self, words: str) -> None:
        """Wait until what is always in sight holds the words and the page is whole."""
        self.page.locator(".rc-sight").filter(has_text=words).wait_for()
        self.still()

    def save(self, button: str):
        self.still()
        with self.page.expect_download() as waiting:
            self.page.get_by_role("button", name=button).click()
        return waiting.value

    def save_on(self, title: str, button: str) -> Path:
        """What a button on a page saves, as a file of this computer."""
        self.go_to(title)
        return Path(self.save(button).path())


@pytest.fixture
def watched(browser, address):
    """A page of its own; at the end no stranger was asked and nothing was complained of."""
    opened = Watched(browser, address, viewport={"width": 1280, "height": 900})
    yield opened
    opened.context.close()
    assert opened.strangers == []
    assert opened.complaints == []


@pytest.fixture(params=["light"])
def narrow(browser, address, request):
    """The same on a page as narrow as a telephone's, in one theme."""
    opened = Watched(browser, address, viewport={"width": 390, "height": 844}, color_scheme=request.param)
    yield opened
    opened.context.close()
    assert opened.strangers == []
    assert opened.complaints == []


@pytest.fixture
def themed(browser, address):
    """Pages of their own in a theme of choice."""
    opened: list[Watched] = []

    def open_in(scheme: str) -> Watched:
        opened.append(Watched(browser, address, viewport={"width": 1280, "height": 900}, color_scheme=scheme))
        return opened[-1]

    yield open_in
    for each in opened:
        each.context.close()
        assert each.strangers == []
        assert each.complaints == []
