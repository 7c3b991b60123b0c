"""A server of pages and a browser to look at them, for the browser tests and for the benchmark."""

from __future__ import annotations

import contextlib
import os
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

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
PATIENCE_S = 60


def free_port() -> int:
    with socket.socket() as found:
        found.bind(("localhost", 0))
        return found.getsockname()[1]


@contextlib.contextmanager
def served(log: Path, script: Path | None = None) -> Iterator[str]:
    """The address of the pages, started as the README says, or of a script of one's own, on this computer only."""
    port = free_port()
    command = [sys.executable, "-m", "rigcheck"] if script is None else [sys.executable, "-m", "streamlit", "run", str(script)]
    settings = {"PORT": str(port), "HEADLESS": "true", "ADDRESS": "localhost", "FILE_WATCHER_TYPE": "none"}
    surroundings = {
        **os.environ,
        **{f"STREAMLIT_SERVER_{name}": value for name, value in settings.items()},
        "STREAMLIT_BROWSER_GATHER_USAGE_STATS": "false",
    }
    with log.open("wb") as out, subprocess.Popen(command, cwd=HOME, env=surroundings, stdout=out, stderr=out) as server:
        try:
            _wait_for(f"http://localhost:{port}/_stcore/health", server, log)
            yield f"http://localhost:{port}"
        finally:
            server.terminate()
            server.wait(timeout=20)


def _wait_for(url: str, server: subprocess.Popen, log: Path) -> None:
    end = time.monotonic() + PATIENCE_S
    while time.monotonic() < end:
        assert server.poll() is None, log.read_text()
        try:
            with urllib.request.urlopen(url, timeout=2) as answer:
                if answer.status == 200:
                    return
        except OSError:
            time.sleep(0.2)
    raise AssertionError(f"the pages did not come up: {log.read_text()}")


@contextlib.contextmanager
def chromium() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        yield opened
        opened.close()
