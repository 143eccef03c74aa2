"""What the laptop answered at each step of one visit of the invented helmet, as it was recorded."""

import json
from pathlib import Path
from typing import Any

from playwright.sync_api import Page

from tests.browser.stand_in import StandIn
from tests.browser.today import SHEET, STORE, player

RECORDED = Path(__file__).with_name("messages") / "visit.jsonl"
VISIT = "0198f0c0-0000-7000-8000-00000000aaaa"
HERE = {"id": STORE, "name": "Station 2"}
HELMET = {
    "id": "0198f0c0-0000-7000-8000-00000000bbb1",
    "code": "TV-0147",
    "shell": 3,
    "pads": {},
    "good": True,
    "why": "",
}
PLAYER = player(0, number="24", name="Avocet Brookside", visit=VISIT, worn=["bare"])


def answer(screen: str, **other: Any) -> dict[str, Any]:
    """The laptop's answer for a visit that is at that screen."""
    for line in RECORDED.read_text(encoding="utf-8").splitlines():
        recorded = json.loads(line)
        if recorded["screen"] == screen:
            known = {"visit": VISIT, "player": PLAYER["id"], "sheet": SHEET, "station": HERE}
            found: dict[str, Any] = recorded["answer"] | known | other
            return found
    raise KeyError(screen)


def shows(laptop: StandIn, screen: str, **other: Any) -> str:
    """Make the stand-in answer so; gives the address of the visit."""
    found = answer(screen, **other)
    laptop.today["players"][0] = PLAYER
    laptop.visit = lambda key: found if key == VISIT else None
    return f"{laptop.address}#/visit/{VISIT}"


def at(page: Page, laptop: StandIn, screen: str, way: str = "", **other: Any) -> Page:
    """The page at that screen."""
    page.goto(shows(laptop, screen, **other) + way)
    page.get_by_role("heading", level=1).wait_for()
    page.get_by_role("button", name="Hurt, dizzy, numb?").or_(
        page.locator(".primary")
    ).first.wait_for()
    return page


def said(laptop: StandIn, kind: str = "visit said") -> list[dict[str, Any]]:
    """Payloads of that kind, in the order in which they came."""
    return [row["payload"] for row in laptop.rows.values() if row["kind"] == kind]


def comes(page: Page, laptop: StandIn, count: int) -> None:
    """Wait until the laptop has that many entries."""
    for _ in range(200):
        if len(laptop.rows) >= count:
            return
        page.wait_for_timeout(25)
    raise AssertionError(f"{len(laptop.rows)} of {count} entries came")
