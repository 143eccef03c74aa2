"""A fitter at a station: taps what is on the screen, one thing after the other."""

import json
import re
from typing import Any

from playwright.sync_api import ConsoleMessage, Error, Locator, Page, Request, expect

from tests.browser.real_room import PATIENCE_S, RealRoom
from tests.browser.small_room import MEMBERS, PASSWORD

LAPTOP_HAS_ALL = "Laptop has all"
MOST_STEPS = 120
MM = re.compile(r"(\d+) mm")
THINKS_MS = 1000 * PATIENCE_S


class Hands:
    """Taps on one page.

    `found` is what is found wrong until pads are changed: of a check, the word that is said instead
    of right. `seen` are the titles of the screens, `faults` what went wrong in the page, and `said`
    the kinds of the entries that it told, by their IDs.
    """

    def __init__(self, page: Page, room: RealRoom) -> None:
        self.page, self.room = page, room
        self.found: dict[str, str] = {}
        self.seen: list[str] = []
        self.faults: list[str] = []
        self.said: dict[str, str] = {}
        page.on("pageerror", lambda error: self.faults.append(str(error)))
        page.on("console", self._heard)
        page.on("request", self._went)
        page.set_default_timeout(THINKS_MS)
        expect.set_options(timeout=THINKS_MS)

    def _heard(self, said: ConsoleMessage) -> None:
        # An answer such as 401 is no fault of the page; nor is a laptop that is not heard.
        if said.type == "error" and not said.text.startswith("Failed to load resource"):
            self.faults.append(said.text)

    def _went(self, request: Request) -> None:
        if not request.url.startswith((self.room.address, "data:")):
            self.faults.append(f"asked elsewhere: {request.url}")
        if request.url.endswith("/station/entries"):
            told = json.loads(request.post_data or "{}")["entries"]
            self.said |= {each["id"]: each["kind"] for each in told}

    @property
    def title(self) -> Locator:
        """The heading of the screen."""
        return self.page.get_by_role("heading", level=1)

    @property
    def primary(self) -> Locator:
        """What comes next, once it can be done."""
        return self.page.locator(".bottom .primary:not([aria-disabled])")

    def tap(self, name: str, *, exact: bool = True) -> None:
        """A key by its name."""
        self.page.get_by_role("button", name=name, exact=exact).click()

    def sign_in(self, role: str = "fitter", onward: str = "/") -> None:
        """By name and password, at the desk's door."""
        self.page.goto(f"{self.room.address}/sign-in/?next={onward}")
        self._types_password(role)
        self.page.wait_for_url(f"{self.room.address}{onward}")

    def _types_password(self, role: str) -> None:
        self.page.get_by_label("Name").fill(MEMBERS[role][0])
        self.page.get_by_label("Password").fill(PASSWORD)
        self.page.get_by_role("button", name="Sign in").click()

    def enroll(self, name: str, role: str = "fitter") -> None:
        """Make this browser a station of the room, and sign in at it."""
        self.page.goto(f"{self.room.address}/enroll/")
        self.page.get_by_label("The code").fill(self.room.enrollment_code(name))
        self.page.get_by_role("button", name="Enroll").click()
        self.page.wait_for_url(f"{self.room.address}/station/")
        self.signs_in(role)

    def signs_in(self, role: str) -> None:
        """By PIN, at an enrolled station."""
        _, name, pin = MEMBERS[role]
        self.tap(f"{name} {role}")
        for digit in pin:
            self.tap(digit)
        self.primary.click()
        expect(self.title).to_have_text("Who is it?")

    def choose(self, number: str) -> None:
        """The player of that number, on the screen that asks who it is."""
        expect(self.title).to_have_text("Who is it?")
        for digit in number:
            self.tap(digit)
        self.primary.click()
        expect(self.title).not_to_have_text("Who is it?")

    def wears(self, hair: str = "short hair") -> None:
        """What is under the helmet; no cap, no glasses."""
        for key in (hair, "no cap", "no glasses"):
            self.tap(key)

    def reads(self, *inches: float) -> None:
        """The measure on the screen, once for each value, in inches; a sixteenth is a step more."""
        for each in inches:
            whole, sixteenths = divmod(round(each * 16), 16)
            wholes = self.page.get_by_role("group", name="Whole inches")
            wholes.get_by_role("button", name=str(whole), exact=True).click()
            eighths = self.page.get_by_role("group", name="and eighths")
            eighths.get_by_role("button").nth(sixteenths // 2).click()
            if sixteenths % 2:
                self.tap("A sixteenth more")
            self.primary.click()

    def begins(self) -> str:
        """The visit, of the one model out of the one store; gives its ID."""
        expect(self.title).to_have_text("Which helmet model?")
        self.primary.click()
        self.page.wait_for_url(re.compile("#/visit/"))
        return self.visit

    @property
    def visit(self) -> str:
        """The ID of the visit on the screen."""
        found = re.search("#/visit/([^/]+)", self.page.url)
        assert found, self.page.url
        return found[1]

    def goes_on(self) -> None:
        """Tap what comes next, and wait until something comes of it."""
        before = self.page.inner_text("main")
        self.primary.click()
        self.page.wait_for_function(
            "(before) => document.querySelector('main').innerText !== before", arg=before
        )

    def at_rest(self) -> dict[str, Any]:
        """What the laptop answers, once it has all and the screen waits for nobody but the hand."""
        for _ in range(MOST_STEPS):
            expect(self.page.locator(".head .status")).to_have_text(LAPTOP_HAS_ALL)
            self.page.locator("main:not(:has(.waiting)) h1").wait_for()
            before = self.page.inner_text("#station")
            found = self._visit_now()
            stands = self.page.inner_text("#station") == before
            if found and stands and self._shows(found["message"]):
                return found
            self.page.wait_for_timeout(100)
        raise AssertionError(f"never at rest: {self.title.inner_text()}")

    def _visit_now(self) -> dict[str, Any] | None:
        """What the laptop answers; None where it was killed while the connection was kept."""
        try:
            answer = self.page.request.get(f"{self.room.address}/station/visits/{self.visit}")
        except Error:
            return None
        assert answer.ok, answer.text()
        found: dict[str, Any] = answer.json()
        return found

    def _shows(self, message: dict[str, Any]) -> bool:
        """Whether the screen is of that answer: it may still be of the one before."""
        if self.page.locator("main .waiting").count():
            return False
        check = message["checks"][0] if message["message"] == "checks" else message.get("check")
        return check is None or self.title.inner_text() == check["title"]

    def until(self, *titles: str) -> dict[str, Any]:
        """Go on as it is asked, until a screen has one of those titles; what the laptop answers."""
        for _ in range(MOST_STEPS):
            visit = self.at_rest()
            title = self.title.inner_text()
            if title in titles:
                return visit
            if not self.seen or self.seen[-1] != title:
                self.seen.append(title)
            self.step(visit)
        raise AssertionError(f"{titles} never came: {self.seen}")

    def step(self, visit: dict[str, Any]) -> None:
        """Do what the screen asks."""
        message = visit["message"]
        if message["message"] == "measure":
            self.tap("Go on without it", exact=False)
            expect(self.title).not_to_have_text(f"Measure the {message['name']}")
            return
        waits = self.page.locator(".primary").inner_text()
        if "waits for an answer" in waits:
            self._answer(self._check(message))
        elif "waits for a reading" in waits:
            self._read(self._check(message))
        elif "Changed, look again" in waits:
            self.found = {}
        self.goes_on()

    def _answer(self, check: dict[str, Any]) -> None:
        words = [each["word"] for each in check["answers"]]
        right = next(each["word"] for each in check["answers"] if each["right"])
        rows = self.page.get_by_role("radiogroup", name="What you find").get_by_role("radio")
        rows.nth(words.index(self.found.get(check["check"], right))).click()

    def _read(self, check: dict[str, Any]) -> None:
        """The value nearest the middle of what is right."""
        low, high = check["length"]["accept_mm"]
        rows = self.page.get_by_role("radiogroup", name="What you read").get_by_role("radio")
        values = [float(mm) for row in rows.all_inner_texts() for mm in MM.findall(row)]
        middle = min(values, key=lambda mm: abs(mm - (low + high) / 2))
        rows.nth(values.index(middle)).click()

    def _check(self, message: dict[str, Any]) -> dict[str, Any]:
        asked = message["next"] if message["message"] == "proposal" else message
        found: dict[str, Any] = (
            asked["checks"][0] if asked["message"] == "checks" else asked["check"]
        )
        return found

    def signs(self, who: int) -> None:
        """With a finger, in the field of that place."""
        box = self.page.locator(".signature canvas").nth(who)
        box.scroll_into_view_if_needed()
        at = box.bounding_box()
        assert at
        mouse = self.page.mouse
        mouse.move(at["x"] + 30, at["y"] + 30)
        mouse.down()
        for step in range(1, 8):
            mouse.move(at["x"] + 30 + 20 * step, at["y"] + 30 + (15 if step % 2 else -10))
        mouse.up()

    def issues(self) -> None:
        """Everything that stands between a fit and the issue."""
        shown = self.page.get_by_role("group", name="What the player showed").get_by_role("button")
        for at in range(shown.count()):
            shown.nth(at).click()
        self.signs(0)
        self.signs(1)
        self.goes_on()
