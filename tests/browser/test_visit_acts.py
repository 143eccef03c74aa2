"""What is said on the screens of a visit, as it comes to the laptop."""

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Browsers
from tests.browser.stand_in import StandIn
from tests.browser.visits import HELMET, PLAYER, VISIT, answer, at, comes, said, shows

IS_KEPT = """(visit) => new Promise((resolve, reject) => {
  const asked = indexedDB.open("helmwright-station");
  asked.onerror = reject;
  asked.onsuccess = () => {
    const kept = asked.result.transaction("local").objectStore("local").get(`at visit/${visit}`);
    kept.onerror = reject;
    kept.onsuccess = () => { asked.result.close(); resolve(Boolean(kept.result?.sign?.player)); };
  };
})"""
"""Whether the player's strokes are on the device."""


@pytest.fixture
def page(browsers: Browsers) -> Page:
    return browsers.page()


def test_an_answer_is_chosen_and_then_said(page: Page, laptop: StandIn):
    at(page, laptop, "held")
    go_on = page.locator(".primary")
    expect(go_on).to_have_attribute("aria-disabled", "true")
    page.get_by_role("radio", name="covered").click()
    go_on.click()
    comes(page, laptop, 1)
    assert said(laptop)[0]["event"] == {"event": "answered", "check": "cover", "word": "covered"}
    # The next check stands there without a word of the laptop.
    expect(page.get_by_role("heading", level=1)).to_have_text("Chin cup centered")


def test_a_part_that_is_not_here_is_counted_as_none_and_said_of_the_visit(
    page: Page, laptop: StandIn
):
    at(page, laptop, "change", way="/no-part")
    page.get_by_role("radio").first.click()
    page.locator(".primary").click()
    # It is sought anew; nothing that was proposed stands there meanwhile.
    expect(page.get_by_role("heading", level=1)).to_contain_text("Looking at what comes next")
    comes(page, laptop, 2)
    (counted,), (told,) = said(laptop, "parts counted"), said(laptop)
    assert counted["count"] == 0
    assert told["event"]["event"] == "not here"
    assert told["event"]["size"] == counted["size"]


def test_a_length_is_read_off_the_tape_and_finds_its_word(page: Page, laptop: StandIn):
    at(page, laptop, "checks")
    page.get_by_role("radio", name="1 and a half").click()
    expect(page.locator(".primary")).to_contain_text("high")
    page.locator(".primary").click()
    comes(page, laptop, 1)
    event = said(laptop)[0]["event"]
    assert event["word"] == "high"
    assert event["value_mm"] == pytest.approx(38.1)


def test_any_other_length_is_put_together_from_inches_and_eighths(page: Page, laptop: StandIn):
    at(page, laptop, "checks")
    page.get_by_role("button", name="Another value").click()
    keys = page.locator(".eighth-keys")
    keys.first.get_by_role("button", name="2", exact=True).click()
    keys.last.get_by_role("button").nth(3).click()
    page.locator(".primary").click()
    comes(page, laptop, 1)
    assert said(laptop)[0]["event"]["value_mm"] == pytest.approx(2.375 * 25.4)


def test_answers_are_chosen_with_the_keyboard(page: Page, laptop: StandIn):
    at(page, laptop, "held")
    page.get_by_role("radio").first.focus()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Space")
    expect(page.get_by_role("radio", name="bare")).to_have_attribute("aria-checked", "true")
    page.locator(".primary").focus()
    page.keyboard.press("Enter")
    comes(page, laptop, 1)
    assert said(laptop)[0]["event"]["word"] == "bare"


def test_all_the_rest_is_good_except_what_is_said_otherwise(page: Page, laptop: StandIn):
    at(page, laptop, "checks", "/round")
    page.get_by_role("button", name="Front pad").click()
    page.get_by_role("radio", name="loose").click()
    expect(page.locator(".primary")).to_contain_text("9 good, 1 not")
    page.locator(".primary").click()
    comes(page, laptop, 10)
    events = [each["event"] for each in said(laptop)]
    asked = [each["check"] for each in answer("checks")["message"]["checks"]]
    assert [each["check"] for each in events] == asked
    assert {each["check"]: each["word"] for each in events if each["word"] == "loose"} == {
        "front": "loose"
    }
    places = [each["place"] for each in said(laptop)]
    first = answer("checks")["count"]
    assert places == list(range(first, first + 10))


def test_a_symptom_asks_for_a_yes_and_then_says_whom_to_tell_without_the_laptop(
    page: Page, laptop: StandIn
):
    at(page, laptop, "checks")
    page.get_by_role("button", name="Hurt, dizzy, numb?").click()
    page.get_by_role("heading", name="Hurt, dizzy, numb?").wait_for()
    assert not laptop.rows
    laptop.stop()
    page.get_by_label("What the player says").fill("tingling fingers")
    page.get_by_role("button", name="Yes: stop the fitting").click()
    page.get_by_role("heading", name="Stop the fitting").wait_for()
    expect(page.locator("main")).to_contain_text("Tell the athletic trainer or a physician now")
    laptop.start()
    page.evaluate("window.dispatchEvent(new Event('online'))")
    comes(page, laptop, 1)
    assert said(laptop)[0]["event"] == {"event": "symptom reported"}
    assert said(laptop)[0]["words"] == "tingling fingers"


def test_what_is_told_of_no_symptom_says_nothing(page: Page, laptop: StandIn):
    at(page, laptop, "checks", "/hurt")
    page.get_by_role("button", name="No, none of these").click()
    page.get_by_role("heading", name="Brow height").wait_for()
    assert not laptop.rows


def test_helmet_and_parts_are_spoken_for_before_they_are_taken(page: Page, laptop: StandIn):
    at(page, laptop, "proposal")
    page.get_by_role("radio", name="TV-0152").click()
    page.get_by_role("button", name="Put this build together").click()
    comes(page, laptop, 3)
    helmet = answer("proposal")["helmets"][1]
    assert said(laptop, "helmet reserved") == [{"visit": VISIT, "helmet": helmet["id"]}]
    parts = [(each["zone"], each["size"]) for each in said(laptop, "part reserved")]
    assert parts == [(each["zone"], each["into"]) for each in helmet["swaps"]]
    page.get_by_role("heading", name="Marks and labels").wait_for()


def test_a_helmet_that_is_not_good_to_issue_cannot_be_chosen_and_says_why(
    page: Page, laptop: StandIn
):
    at(page, laptop, "proposal")
    assert page.get_by_role("radio", name="TV-0160").count() == 0
    expect(page.locator("main")).to_contain_text("TV-0160: not good to issue")
    expect(page.locator("main")).to_contain_text("The certification lapsed")


def test_who_came_second_is_told_so_and_takes_another_helmet(page: Page, laptop: StandIn):
    note = "Station 3 took TV-0147 at 10:41 AM. Take another helmet."
    at(page, laptop, "proposal")
    laptop.fate = lambda entry: (
        {"outcome": "set aside", "note": note} if entry["kind"] == "helmet reserved" else None
    )
    page.get_by_role("button", name="Put this build together").click()
    expect(page.get_by_role("alert")).to_contain_text("Station 3 took TV-0147 at 10:41 AM")
    laptop.fate = lambda _entry: None
    taken = [{**each, "good": n != 0} for n, each in enumerate(answer("proposal")["helmets"])]
    shows(laptop, "proposal", helmets=taken)
    page.reload()
    expect(page.get_by_role("radio", name="TV-0147")).to_have_count(0)
    page.get_by_role("button", name="Put this build together").click()
    comes(page, laptop, 2)
    assert said(laptop, "helmet reserved")[-1]["helmet"] == taken[1]["id"]


def test_a_change_is_said_once_it_is_on_the_head(page: Page, laptop: StandIn):
    at(page, laptop, "change")
    page.get_by_role("button", name="Changed, look again").click()
    comes(page, laptop, 1)
    build = answer("change")["message"]["build"]
    assert said(laptop)[0]["event"] == {"event": "put on", "build": build}


def test_what_is_left_as_it_is_needs_a_reason(page: Page, laptop: StandIn):
    at(page, laptop, "change", "/leave")
    expect(page.locator(".primary")).to_contain_text("waits for a reason")
    page.get_by_role("radio", name="The player has got used to it.").click()
    page.locator(".primary").click()
    comes(page, laptop, 1)
    told = said(laptop)[0]
    assert told["event"]["build"] == answer("change")["message"]["before"]
    assert told["words"] == "The player has got used to it."


def test_a_measure_is_read_twice_in_the_visit_and_said_as_one(page: Page, laptop: StandIn):
    at(page, laptop, "measure", "/measuring")
    for eighth in (0, 1):
        page.get_by_role("button", name="5", exact=True).click()
        page.locator(".length-keys > div").last.get_by_role("button").nth(eighth).click()
        page.locator(".primary").click()
    page.get_by_role("button", name="Use these readings").click()
    comes(page, laptop, 1)
    event = said(laptop)[0]["event"]
    assert [each["value_mm"] for each in event["readings"]] == pytest.approx([127.0, 130.175])
    assert {each["measure"] for each in event["readings"]} == {"jaw_pad_width"}


def test_it_is_signed_and_issued_without_drawing_anything(page: Page, laptop: StandIn):
    at(page, laptop, "accepted", helmet=HELMET)
    issue = page.locator(".primary")
    expect(issue).to_contain_text("waits for what the player has to show")
    for shown in ("Put it on", "Read the warning label"):
        page.get_by_role("button", name=shown).click()
    expect(issue).to_contain_text("waits for the player's signature")
    for name in ("Avocet Brookside", "Wren Harbor"):
        page.get_by_role("button", name="Type the name instead").first.click()
        page.get_by_label(f", {name}").fill(name)
    page.get_by_role("radio", name="practice", exact=True).click()
    issue.click()
    comes(page, laptop, 2)
    assert laptop.kinds() == ["acknowledged", "helmet issued"]
    (signed,) = said(laptop, "acknowledged")
    assert signed["player_signature"] == "Avocet Brookside"
    assert signed["fitter_signature"] == "Wren Harbor"
    assert signed["text_version"] == "1"
    assert len(signed["showed"]) == 2
    assert said(laptop, "helmet issued") == [
        {"helmet": HELMET["id"], "player": PLAYER["id"], "visit": VISIT, "purpose": "practice"}
    ]
    page.get_by_role("heading", name="Avocet Brookside has TV-0147").wait_for()
    for name, link in (("Label", "/paper/label/TV-0147"), ("Fit card", f"/paper/card/{VISIT}")):
        expect(page.get_by_role("link", name=name)).to_have_attribute("href", link)


def test_a_typed_signature_has_two_letters_at_least(page: Page, laptop: StandIn):
    at(page, laptop, "accepted", helmet=HELMET)
    for shown in ("Put it on", "Read the warning label"):
        page.get_by_role("button", name=shown).click()
    page.get_by_role("button", name="Type the name instead").first.click()
    for typed in ("A", "   ", "12 34"):
        page.get_by_label(", Avocet Brookside").fill(typed)
        expect(page.locator(".primary")).to_contain_text("waits for the player's signature")
    page.get_by_label(", Avocet Brookside").fill("Ab")
    expect(page.locator(".primary")).to_contain_text("waits for the fitter's signature")


def test_the_ruler_counts_all_checks_up_to_acceptance_and_never_fewer(page: Page, laptop: StandIn):
    at(page, laptop, "checks")
    ruler = page.locator(".tape")
    expect(ruler).to_have_attribute("aria-label", "7 of 32 checks answered at this try-on.")
    page.get_by_role("radio", name="1 inch", exact=False).first.click()
    page.locator(".primary").click()
    expect(ruler).to_have_attribute("aria-label", "8 of 32 checks answered at this try-on.")


def test_the_ruler_counts_a_look_that_is_asked_again_as_one_more(page: Page, laptop: StandIn):
    at(page, laptop, "look")
    ruler = page.locator(".tape")
    expect(ruler).to_have_attribute("aria-label", "17 of 33 checks answered at this try-on.")


def test_the_ruler_says_that_it_begins_anew_after_a_change(page: Page, laptop: StandIn):
    at(page, laptop, "held")
    expect(page.get_by_text("Try-on 2: after the change the ruler begins anew.")).to_be_visible()


def test_a_drawn_signature_goes_as_strokes_and_is_there_after_a_reload(page: Page, laptop: StandIn):
    at(page, laptop, "accepted", helmet=HELMET)
    canvas = page.locator("canvas").first
    canvas.scroll_into_view_if_needed()
    box = canvas.bounding_box()
    assert box
    page.mouse.move(box["x"] + 20, box["y"] + 20)
    page.mouse.down()
    for step in range(1, 8):
        page.mouse.move(box["x"] + 20 + 20 * step, box["y"] + 20 + 12 * (step % 2))
        page.wait_for_timeout(20)
    page.mouse.up()
    page.get_by_role("button", name="Clear it").wait_for()
    page.wait_for_function(IS_KEPT, arg=VISIT)
    page.reload()
    page.get_by_role("button", name="Clear it").wait_for()
    for shown in ("Put it on", "Read the warning label"):
        page.get_by_role("button", name=shown).click()
    page.get_by_role("button", name="Type the name instead").last.click()
    page.get_by_label("Fitter, Wren Harbor").fill("Wren Harbor")
    page.locator(".primary").click()
    comes(page, laptop, 2)
    (strokes,) = said(laptop, "acknowledged")[0]["player_signature"]
    assert len(strokes) > 2
    assert all(0 <= y <= 100 for _, y in strokes)


def test_a_helmet_on_hold_is_not_issued_and_says_why(page: Page, laptop: StandIn):
    at(page, laptop, "accepted", helmet={**HELMET, "good": False, "why": "It is on hold."})
    expect(page.locator(".primary")).to_contain_text("waits for a helmet that may be issued")
    expect(page.locator("main")).to_contain_text("It is on hold.")


def test_an_issue_without_effect_says_why_and_asks_for_no_second_signature(
    page: Page, laptop: StandIn
):
    at(page, laptop, "accepted", helmet=HELMET)
    for shown in ("Put it on", "Read the warning label"):
        page.get_by_role("button", name=shown).click()
    for name in ("Avocet Brookside", "Wren Harbor"):
        page.get_by_role("button", name="Type the name instead").first.click()
        page.get_by_label(f", {name}").fill(name)
    note = "TV-0147 is on hold. Take another helmet, or have the hold lifted by the manager."
    laptop.fate = lambda entry: (
        {"outcome": "set aside", "note": note} if entry["kind"] == "helmet issued" else None
    )
    page.locator(".primary").click()
    expect(page.get_by_role("alert")).to_contain_text("have the hold lifted by the manager")
    laptop.fate = lambda _entry: None
    page.locator(".primary").click()
    page.get_by_role("heading", name="Avocet Brookside has TV-0147").wait_for()
    comes(page, laptop, 3)
    assert laptop.kinds() == ["acknowledged", "helmet issued", "helmet issued"]


def test_a_guardian_signs_for_a_minor(page: Page, laptop: StandIn):
    address = shows(laptop, "accepted", helmet=HELMET)
    laptop.today["players"][0] = PLAYER | {"minor": True, "consent": False}
    page.goto(address)
    expect(page.locator("main")).to_contain_text("Parent or guardian of Avocet Brookside")
    expect(page.locator("main")).to_contain_text("No consent of a parent or guardian is on record")
