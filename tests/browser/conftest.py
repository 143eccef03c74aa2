"""A real Chromium, with a profile that outlives it, and a stand-in for the laptop."""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, sync_playwright

from tests.browser.stand_in import StandIn

# Playwright runs a loop in the thread of the tests; the database is asked from there all the same.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")

NAMES = ("chromium", "chromium-browser", "google-chrome")
QUIET = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
)
PHONE, TABLET, LAPTOP = (390, 844), (820, 1180), (1440, 900)
MISSING = "no Chromium was found; add it with: sudo apt install chromium"
PATIENCE_MS = 15_000


def settings_of(size: tuple[int, int]) -> dict[str, Any]:
    """A page of that size, and where it thinks it is."""
    return {
        "viewport": {"width": size[0], "height": size[1]},
        "reduced_motion": "reduce",
        "locale": "en-US",
        "timezone_id": "America/Chicago",
    }


class Browsers:
    """Starts Chromium on a profile; what the profile keeps is there at the next start."""

    def __init__(self, playwright: Playwright, program: str, folder: Path) -> None:
        self._playwright, self._program, self._folder = playwright, program, folder
        self._open: dict[str, BrowserContext] = {}

    def start(self, profile: str = "tablet", size: tuple[int, int] = TABLET) -> BrowserContext:
        """A browser with that profile."""
        context = self._playwright.chromium.launch_persistent_context(
            str(self._folder / profile),
            executable_path=self._program,
            args=list(QUIET),
            **settings_of(size),
        )
        context.set_default_timeout(PATIENCE_MS)
        self._open[profile] = context
        return context

    def page(self, profile: str = "tablet", size: tuple[int, int] = TABLET) -> Page:
        """The first page of a browser of its own."""
        return self.start(profile, size).pages[0]

    def again(self, profile: str = "tablet", size: tuple[int, int] = TABLET) -> Page:
        """The browser of that profile is closed and started anew."""
        self._open.pop(profile).close()
        return self.page(profile, size)

    def close(self) -> None:
        """Whatever is still open."""
        for context in self._open.values():
            context.close()


def found_chromium() -> str | None:
    """Path of the first that is here."""
    return next(filter(None, map(shutil.which, NAMES)), None)


@pytest.fixture(scope="session")
def chromium() -> str:
    """Path of a Chromium; without one these tests are left out."""
    found = found_chromium()
    if found is None:
        pytest.skip(MISSING)
    return found


@pytest.fixture(scope="session")
def playwright(chromium: str) -> Iterator[Playwright]:
    """Drives it."""
    assert chromium
    with sync_playwright() as started:
        yield started


@pytest.fixture
def browsers(playwright: Playwright, chromium: str, tmp_path: Path) -> Iterator[Browsers]:
    """Browsers with profiles of this test."""
    found = Browsers(playwright, chromium, tmp_path / "profiles")
    yield found
    found.close()


@contextmanager
def stand_in() -> Iterator[StandIn]:
    """One that runs."""
    found = StandIn()
    found.start()
    try:
        yield found
    finally:
        found.stop()


@pytest.fixture
def laptop() -> Iterator[StandIn]:
    """A stand-in for the laptop that keeps entries in memory, and can be made to fail."""
    with stand_in() as found:
        yield found


@pytest.fixture(scope="module")
def module_laptop() -> Iterator[StandIn]:
    """The same for tests that change nothing of it."""
    with stand_in() as found:
        yield found


@pytest.fixture(scope="session")
def browser(playwright: Playwright, chromium: str) -> Iterator[Browser]:
    """One for all tests that do not end it; each gets a profile of its own in it."""
    found = playwright.chromium.launch(executable_path=chromium, args=list(QUIET))
    yield found
    found.close()


@pytest.fixture
def station(browser: Browser, laptop: StandIn) -> Iterator[Page]:
    """The station's page at tablet size, with today's players on it."""
    context = browser.new_context(**settings_of(TABLET))
    context.set_default_timeout(PATIENCE_MS)
    page = context.new_page()
    page.goto(laptop.address)
    page.get_by_role("heading", name="Who is it?").wait_for()
    yield page
    context.close()
