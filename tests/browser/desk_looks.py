"""How a page of the desk is looked at: modes, sizes, what axe finds, what runs over the edge."""

from collections.abc import Iterator

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

MODES = ("room", "night", "glare")
NARROWEST = (320, 640)


def in_modes(page: Page, address: str) -> Iterator[str]:
    """The page in each mode, as the device would remember it."""
    for mode in MODES:
        page.goto(address)
        page.evaluate("mode => localStorage.setItem('helmwright-mode', mode)", mode)
        page.reload()
        page.wait_for_function("mode => document.documentElement.dataset.mode === mode", arg=mode)
        yield mode


def found_by_axe(page: Page, only: str = "") -> list[str]:
    """Every fault that axe finds, or those against one rule, with the element."""
    options = {"runOnly": {"type": "rule", "values": [only]}} if only else None
    answer = Axe().run(page, options=options).response
    return [
        f"{fault['id']}: {node['html'][:160]}"
        for fault in answer["violations"]
        for node in fault["nodes"]
    ]


def runs_over(page: Page) -> int:
    """By how much the page is wider than the window [px]."""
    wide: int = page.evaluate(
        "document.documentElement.scrollWidth - document.documentElement.clientWidth"
    )
    return wide
