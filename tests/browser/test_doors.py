"""Signing in, enrolling a tablet and the PIN, in a real browser over a room that is served."""

from collections.abc import Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import BrowserContext, ConsoleMessage, Page, Request, expect

from tests.browser.conftest import LAPTOP, PHONE, TABLET, Browsers
from tests.cli.room_process import PASSWORD, opened, run, with_manager

SEND_PIN = """async ([staff, pin]) => {
  const token = document.cookie.match(/csrftoken=([^;]+)/)[1];
  const answer = await fetch("/pin", {
    method: "POST", body: JSON.stringify({staff, pin}),
    headers: {"Content-Type": "application/json", "X-CSRFToken": token},
  });
  return [answer.status, await answer.json()];
}"""
WATCH = """window.violations = [];
document.addEventListener("securitypolicyviolation", (event) =>
  window.violations.push(`${event.violatedDirective} ${event.blockedURI}`));"""
PLACES = ("/sign-in/", "/enroll/", "/no-such-page/")
INSIDE = ("/staff/", "/devices/", "/roster/", "/helmets/", "/stores/", "/day/", "/station/")


@pytest.fixture(scope="module")
def address(tmp_path_factory, chromium: str) -> Iterator[str]:
    """Of a room with one manager, who has a PIN."""
    assert chromium
    folder = tmp_path_factory.mktemp("doors") / "room"
    with_manager(folder)
    assert run(folder, "staff", "pin", "ibis", given="2705\n").returncode == 0
    with opened(folder) as room:
        yield room.address.rstrip("/")


def sign_in(page: Page, address: str, password: str = PASSWORD) -> None:
    page.goto(f"{address}/sign-in/?next=/staff/")
    page.get_by_label("Name").fill("ibis")
    page.get_by_label("Password").fill(password)
    page.get_by_role("button", name="Sign in").click()


def enrolled(browsers: Browsers, address: str, name: str) -> Page:
    """A tablet that the manager's laptop has let in."""
    laptop = browsers.page(f"laptop for {name}", LAPTOP)
    sign_in(laptop, address)
    laptop.goto(f"{address}/devices/")
    laptop.get_by_label("Name, as written on it").fill(name)
    laptop.get_by_role("button", name="Make a code").click()
    code = laptop.locator(".code").inner_text()
    tablet = browsers.page(f"tablet {name}", TABLET)
    tablet.goto(f"{address}/enroll/")
    tablet.get_by_label("The code that the manager reads out").fill(code)
    tablet.get_by_role("button", name="Enroll").click()
    tablet.wait_for_url("**/station/**")
    return tablet


def test_a_wrong_password_says_so_and_the_right_one_goes_on(browsers, address):
    page = browsers.page("laptop", LAPTOP)
    sign_in(page, address, "not the one at all")
    expect(page.get_by_role("alert")).to_contain_text("do not go together")
    expect(page.get_by_label("Password")).to_be_focused()
    page.get_by_label("Password").fill(PASSWORD)
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Staff")).to_be_visible()
    page.get_by_role("button", name="Sign out").click()
    expect(page.get_by_role("heading", name="Sign in")).to_be_visible()


def test_a_tablet_is_enrolled_and_then_a_pin_is_enough(browsers, address):
    tablet = enrolled(browsers, address, "Station 1")
    tablet.get_by_role("button", name="Ibis Fordham").click()
    for digit in "2705":
        tablet.get_by_role("button", name=digit, exact=True).click()
    tablet.get_by_role("button", name="Sign in").click()
    expect(tablet.get_by_role("heading", name="Who is it?")).to_be_visible()


def test_guessing_at_a_pin_is_shut_out_and_the_right_one_too(browsers, address):
    tablet = enrolled(browsers, address, "Station 2")
    person = tablet.evaluate("async () => (await (await fetch('/pin')).json()).people[0].id")
    statuses = [tablet.evaluate(SEND_PIN, [person, "9999"])[0] for _ in range(5)]
    assert statuses == [401] * 5
    status, said = tablet.evaluate(SEND_PIN, [person, "2705"])
    assert status == 429
    assert said["until"]


def watched(context: BrowserContext, address: str) -> list[str]:
    """Every request that leaves this room, and everything that the console says of a policy."""
    found: list[str] = []
    ours = (f"{address}/", "data:", "blob:")

    def asked(request: Request) -> None:
        if not request.url.startswith(ours):
            found.append(request.url)

    def said(message: ConsoleMessage) -> None:
        if "Content Security" in message.text:
            found.append(message.text)

    context.on("request", asked)
    context.on("console", said)
    context.add_init_script(WATCH)
    return found


def test_no_page_asks_anybody_else_and_none_breaks_the_policy(browsers, address):
    context = browsers.start("watched", LAPTOP)
    found = watched(context, address)
    page = context.pages[0]
    for path in PLACES:
        page.goto(f"{address}{path}")
        assert page.evaluate("window.violations") == [], path
    sign_in(page, address)
    for path in INSIDE:
        page.goto(f"{address}{path}")
        page.wait_for_timeout(200)
        assert page.evaluate("window.violations") == [], path
    assert found == []


def test_the_watch_itself_sees_what_breaks_the_policy(browsers, address):
    context = browsers.start("watched", LAPTOP)
    watched(context, address)
    page = context.pages[0]
    page.goto(f"{address}/sign-in/")
    page.evaluate("document.body.setAttribute('style', 'color: red')")
    page.evaluate("() => { const i = new Image(); i.src = 'http://127.0.0.1:9/x.png'; }")
    page.wait_for_function("window.violations.length >= 2")
    assert {each.split()[0] for each in page.evaluate("window.violations")} == {
        "style-src-attr", "img-src"
    }  # fmt: skip


@pytest.mark.parametrize("mode", ["room", "night", "glare"])
def test_axe_finds_nothing_and_nothing_is_wider_than_the_screen(browsers, address, mode):
    page = browsers.page("looked at", LAPTOP)
    sign_in(page, address)
    page.evaluate("(mode) => localStorage.setItem('helmwright-mode', mode)", mode)
    for path in (*PLACES, "/staff/", "/devices/"):
        for width, height in (PHONE, TABLET, LAPTOP, (320, 640)):
            page.set_viewport_size({"width": width, "height": height})
            page.goto(f"{address}{path}")
            for summary in page.locator("summary").all():
                summary.click()
            wide = page.evaluate("document.documentElement.scrollWidth")
            assert wide <= width, f"{path} at {width}: {wide}"
        found = Axe().run(page)
        assert found.violations_count == 0, f"{path}: {found.generate_report()}"
