"""Every screen of a visit, from the proposal to the issue, as recorded answers make it."""

from dataclasses import dataclass, field
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, Playwright

from tests.browser.conftest import PHONE, TABLET, Browsers
from tests.browser.stand_in import StandIn
from tests.browser.visits import shows

SCREENS = {
    "proposal": "Ouzel, shell 3",
    "put on": "Put these in, then put it on",
    "checks": "Brow height",
    "look": "Front pad",
    "change": "Front pad",
    "paused": "Paused",
    "held": "Back of the head covered",
    "worn": "Hot spots",
    "accepted": "It fits. Read it, then sign.",
    "symptom": "Stop the fitting",
    "stopped": "The visit is stopped",
    "measure": "Measure: across the jaw",
    "no build": "Nothing here can be made to fit",
}
WAYS = {
    "round": ("checks", "The rest of this round"),
    "hurt": ("checks", "Hurt, dizzy, numb?"),
    "stop": ("checks", "Stop this visit"),
    "other": ("change", "Another build"),
    "leave": ("change", "Leave it as it is"),
    "no-part": ("change", "No such part here"),
    "measuring": ("measure", "Across the jaw, first reading"),
}
ALL = [(name, name, "", title) for name, title in SCREENS.items()] + [
    (way, screen, f"/{way}", title) for way, (screen, title) in WAYS.items()
]
MODES = ("room", "night", "glare")
LEAST, LARGE = 64, 104
"""Heights in the hand, in CSS pixels."""

SIZES = """() => [...document.querySelectorAll('main button, main summary, main a, main input')]
  .filter((each) => each.offsetParent)
  .map((each) => { const box = each.getBoundingClientRect();
    return [each.textContent.trim().slice(0, 40), box.width, box.height]; })"""
PRIMARY = """() => [...document.querySelectorAll('.primary, .answers:not(:has(.short)) .answer')]
  .map((each) => each.getBoundingClientRect().height)"""
OVERFLOW = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
SET_MODE = "(mode) => { document.documentElement.dataset.mode = mode; }"
CONTRAST = {"runOnly": {"type": "rule", "values": ["color-contrast"]}}


@dataclass
class Seen:
    """What one screen is like at one size; of the way out for symptoms, its top and foot."""

    keys: list[tuple[str, float, float]]
    primary: list[float]
    overflow: float
    hurt: tuple[float, float] | None
    faults: list[str] = field(default_factory=list)


def opened(page: Page, laptop: StandIn, screen: str, way: str, title: str) -> None:
    """Bring that screen onto the page."""
    page.goto("about:blank")
    page.goto(shows(laptop, screen) + way)
    page.get_by_role("heading", level=1, name=title, exact=True).wait_for()


def faults(page: Page, options: dict[str, Any] | None = None) -> list[str]:
    """What the checker of accessibility finds, on one line each."""
    found = Axe().run(page, options=options).response["violations"]
    return [f"{each['id']}: {each['nodes'][0]['html'][:120]}" for each in found]


def looked_at(page: Page) -> Seen:
    """The screen as it stands."""
    hurt = page.get_by_role("button", name="Hurt, dizzy, numb?")
    box = hurt.bounding_box() if hurt.count() else None
    return Seen(
        keys=page.evaluate(SIZES),
        primary=page.evaluate(PRIMARY),
        overflow=page.evaluate(OVERFLOW),
        hurt=(box["y"], box["y"] + box["height"]) if box else None,
    )


def in_every_light(page: Page) -> list[str]:
    """All that is found in the room, and what light changes in the other two."""
    found = faults(page)
    for mode in MODES[1:]:
        page.evaluate(SET_MODE, mode)
        found += [f"{mode}: {fault}" for fault in faults(page, CONTRAST)]
    page.evaluate(SET_MODE, MODES[0])
    return found


@pytest.fixture(scope="module")
def screens(
    playwright: Playwright, chromium: str, tmp_path_factory: pytest.TempPathFactory
) -> dict[tuple[str, str], Seen]:
    """Every screen at every size, looked at once."""
    laptop, seen = StandIn(), {}
    browsers = Browsers(playwright, chromium, tmp_path_factory.mktemp("profiles"))
    laptop.start()
    for size, (width, height) in {"tablet": TABLET, "phone": PHONE}.items():
        page = browsers.page(size, (width, height))
        for name, screen, way, title in ALL:
            opened(page, laptop, screen, way, title)
            seen[name, size] = looked_at(page)
            seen[name, size].faults = in_every_light(page) if size == "tablet" else faults(page)
            if size == "phone":
                page.set_viewport_size({"width": 320, "height": 640})
                seen[name, "narrow"] = looked_at(page)
                page.set_viewport_size({"width": width, "height": height})
    browsers.close()
    laptop.stop()
    return seen


Screens = dict[tuple[str, str], Seen]


@pytest.mark.parametrize("size", ["tablet", "phone"])
def test_nothing_on_any_screen_is_hard_to_reach_in_any_light(screens: Screens, size: str):
    found = {name: screens[name, size].faults for name, *_ in ALL}
    assert {name: wrong for name, wrong in found.items() if wrong} == {}


@pytest.mark.parametrize("size", ["tablet", "phone", "narrow"])
def test_every_key_is_large_enough_for_a_glove(screens: Screens, size: str):
    small = {
        name: [key for key in screens[name, size].keys if min(key[1:]) < LEAST - 0.5]
        for name, *_ in ALL
    }
    assert all(screens[name, size].keys for name, *_ in ALL)
    assert {name: keys for name, keys in small.items() if keys} == {}


@pytest.mark.parametrize("size", ["tablet", "phone", "narrow"])
def test_what_is_answered_and_what_goes_on_is_larger_still(screens: Screens, size: str):
    low = {name: min(screens[name, size].primary, default=0.0) for name, *_ in ALL}
    assert {name: height for name, height in low.items() if height < LARGE - 0.5} == {}


@pytest.mark.parametrize("size", ["tablet", "phone", "narrow"])
def test_nothing_has_to_be_scrolled_sideways(screens: Screens, size: str):
    wide = {name: screens[name, size].overflow for name, *_ in ALL}
    assert {name: by for name, by in wide.items() if by > 0} == {}


@pytest.mark.parametrize(("size", "height"), [("tablet", TABLET[1]), ("phone", PHONE[1])])
def test_the_way_out_for_symptoms_is_in_sight_until_one_was_said(
    screens: Screens, size: str, height: int
):
    for name, *_ in ALL:
        hurt = screens[name, size].hurt
        if name in ("hurt", "symptom"):
            assert hurt is None, name
        else:
            assert hurt, name
            assert 0 <= hurt[0] < hurt[1] <= height, name
