"""A real browser on the real pages: the server is started once, and no request may leave this computer."""

from __future__ import annotations

import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, TimeoutError, sync_playwright

HOME = Path(__file__).resolve().parent.parent.parent
CHROMIUM = "/usr/bin/chromium"
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
OWN_HOSTS = ("localhost", "127.0.0.1", "::1")
PATIENCE_MS = 45_000


def _free_port() -> int:
    with socket.socket() as found:
        found.bind(("localhost", 0))
        return found.getsockname()[1]


@pytest.fixture(scope="session")
def address(tmp_path_factory):
    """The address of the pages, served as the command line serves them."""
    port = _free_port()
    log = tmp_path_factory.mktemp("server") / "log.txt"
    command = [sys.executable, "-m", "streamlit", "run", str(HOME / "pages" / "app.py"), "--server.port", str(port), "--server.headless", "true",
               "--server.address", "localhost", "--server.fileWatcherType", "none"]  # fmt: skip
    with log.open("wb") as out, subprocess.Popen(command, cwd=HOME, stdout=out, stderr=out) as server:
        try:
            _wait_for(f"http://localhost:{port}/_stcore/health", server, log)
            yield f"http://localhost:{port}"
        finally:
            server.terminate()
            server.wait(timeout=20)


def _wait_for(url: str, server: subprocess.Popen, log: Path) -> None:
    end = time.monotonic() + 60
    while time.monotonic() < end:
        assert server.poll() is None, log.read_text()
        try:
            with urllib.request.urlopen(url, timeout=2) as answer:
                if answer.status == 200:
                    return
        except OSError:
            time.sleep(0.2)
    raise AssertionError(f"the pages did not come up: {log.read_text()}")


@pytest.fixture(scope="session")
def browser():
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield opened
        opened.close()


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
        self.page.get_by_text("No rig yet").wait_for()

    def _route(self, route) -> None:
        asked = urlsplit(route.request.url)
        if asked.scheme in ("http", "https", "ws", "wss") and asked.hostname not in OWN_HOSTS:
            self.strangers.append(route.request.url)
            route.abort()
        else:
            route.continue_()

    def choose(self, group: str, option: str) -> None:
        """One option of a group of round buttons."""
        self.page.get_by_role("radiogroup", name=group).get_by_text(option, exact=True).click()

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
        field = self.page.get_by_label(label, exact=True).nth(which)
        field.fill(text)
        field.press("Enter")

    def see(self, words: str) -> None:
        """Wait until what is always in sight holds the words and the page is whole."""
        self.page.locator(".rc-sight").filter(has_text=words).wait_for()
        self.page.locator("[data-test-script-state=notRunning]").wait_for()

    def save(self, button: str):
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


@pytest.fixture
def narrow(browser, address):
    """The same on a page as narrow as a telephone's."""
    opened = Watched(browser, address, viewport={"width": 390, "height": 844})
    yield opened
    opened.context.close()
    assert opened.strangers == []
    assert opened.complaints == []
