"""The desk's pages in a browser: no fault that axe finds, no page wider than the screen, and a
board that goes on when a visit does."""

from collections.abc import Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import BrowserContext, Page, Playwright, expect

from tests.browser.conftest import LAPTOP, PHONE, QUIET, TABLET
from tests.browser.desk_server import Served, served

MODES = ("room", "night", "glare")
NARROWEST = (320, 700)
PAGES = {
    "now": "/",
    "helmets": "/helmets/",
    "one helmet": "/helmets/TV-0100/",
    "add a helmet": "/helmets/add/",
    "stores": "/stores/",
    "one store": "/stores/{store}/?part={part}",
    "count": "/stores/{store}/count/",
    "day": "/day/",
    "order": "/day/order/",
}


@pytest.fixture(scope="module")
def room(tmp_path_factory, chromium) -> Iterator[Served]:
    assert chromium
    with served(tmp_path_factory.mktemp("room")) as running:
        yield running


@pytest.fixture(scope="module")
def ids(room: Served) -> dict[str, str]:
    said = room.run(
        "from helmwright.records.models import Shelf\n"
        "shelf = Shelf.objects.get(on_hand=-1)\n"
        "print(shelf.store_id, shelf.part_id)"
    ).split()
    return {"store": said[0], "part": said[1]}


@pytest.fixture(scope="module")
def context(playwright: Playwright, chromium: str, room: Served) -> Iterator[BrowserContext]:
    browser = playwright.chromium.launch(executable_path=chromium, args=list(QUIET))
    context = browser.new_context(reduced_motion="reduce", locale="en-US")
    context.add_cookies(
        [{"name": "sessionid", "value": room.sessions["manager"], "url": room.address}]
    )
    yield context
    browser.close()


@pytest.fixture
def page(context: BrowserContext) -> Iterator[Page]:
    opened = context.new_page()
    resize(opened, LAPTOP)
    yield opened
    opened.close()


def resize(page: Page, size: tuple[int, int]) -> None:
    page.set_viewport_size({"width": size[0], "height": size[1]})


def show(page: Page, address: str) -> None:
    """The page, with everything that folds unfolded."""
    page.goto(address)
    page.evaluate("document.querySelectorAll('details').forEach((each) => { each.open = true; })")


SMALL = """() => [...document.querySelectorAll(
    'main :is(button, .act, input:not([type=hidden]), select, summary, .choices a)')]
  .filter((each) => each.offsetParent && each.getBoundingClientRect().height < 44)
  .map((each) => each.outerHTML)"""


@pytest.mark.parametrize("path", PAGES.values(), ids=PAGES.keys())
def test_a_page_is_without_fault_at_every_size_in_every_mode(page, room, ids, path):
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    show(page, room.address + path.format(**ids))
    assert not page.evaluate(SMALL)
    found = []
    for size in (LAPTOP, TABLET, PHONE):
        resize(page, size)
        for mode in MODES:
            page.locator(f"[data-set-mode={mode}]").click()
            # A mode is other colors and nothing else.
            rules = None if mode == "room" else {"runOnly": ["color-contrast"]}
            faults = Axe().run(page, options=rules).response["violations"]
            found += [(size, mode, each["id"], each["nodes"][0]["html"][:200]) for each in faults]
    assert not found
    resize(page, NARROWEST)
    assert page.evaluate("document.documentElement.scrollWidth") <= NARROWEST[0]
    # The policy lets in nothing but the room's own: what it refuses is told on the console.
    assert not [text for text in said if "Content Security Policy" in text]


GOES_ON = """
from datetime import UTC, datetime
from uuid import uuid4
from helmwright.records.ids import new_id
from helmwright.records.kinds.visits import HelmetIssued
from helmwright.records.models import Helmet, Player, Staff
from helmwright.records.saying import say
by = Staff.objects.get(username="manager")
player = Player.objects.get(number="4")
helmet = Helmet.objects.get(code="TV-0129")
kept = say(HelmetIssued(helmet=helmet.id, player=player.id), by=by, now=datetime.now(UTC))
print(kept.entry.outcome, kept.entry.note)
"""


def test_the_board_steps_on_by_itself_when_something_happens_at_a_station(page, room):
    page.goto(f"{room.address}/day/")
    title = page.get_by_role("heading", level=1)
    expect(title).to_contain_text("17 issued")
    # The stream must stand before anything happens that it is to tell of.
    expect(page.locator("[data-live-state=open]")).to_be_attached()
    assert room.run(GOES_ON).split()[0] == "taken"
    expect(title).to_contain_text("18 issued", timeout=15_000)


def test_helmets_are_found_while_one_types(page, room):
    page.goto(f"{room.address}/helmets/")
    page.get_by_label("Find by ID").press_sequentially("0107")
    expect(page.locator("tbody tr")).to_have_count(1)
    expect(page.locator("tbody")).to_contain_text("TV-0107")


def test_a_hold_is_put_on_and_told(page, room):
    page.goto(f"{room.address}/helmets/TV-0125/")
    page.get_by_text("Hold it", exact=True).click()
    page.get_by_label("Why").first.fill("bent guard")
    page.get_by_role("button", name="Put it on hold").click()
    expect(page.get_by_role("status").first).to_contain_text("It is on hold")
    expect(page.get_by_role("region", name="Today")).to_contain_text("bent guard")


def test_a_store_is_counted_with_the_differences_seen_before(page, room, ids):
    page.goto(f"{room.address}/stores/{ids['store']}/count/")
    page.get_by_role("group", name="Front pad").get_by_role("textbox").first.fill("9")
    page.get_by_role("button", name="See the differences").click()
    expect(page.get_by_role("heading", name="1 counted, 1 other than listed")).to_be_visible()
    page.get_by_role("button", name="Save the count").click()
    expect(page.get_by_role("status").first).to_contain_text("The count is saved")
