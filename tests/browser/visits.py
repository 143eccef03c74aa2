"""What the laptop answered at each step of one visit of the invented helmet, as it was recorded."""

import json
from pathlib import Path
from typing import Any

from tests.browser.stand_in import StandIn
from tests.browser.today import SHEET, STORE, player

RECORDED = Path(__file__).with_name("messages") / "visit.jsonl"
VISIT = "0198f0c0-0000-7000-8000-00000000aaaa"
HERE = {"id": STORE, "name": "Station 2"}
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
