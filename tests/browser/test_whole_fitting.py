"""A fitting on the real program, tapped from nobody measured to issued; and what may interrupt."""

from collections import Counter
from collections.abc import Iterator

import pytest
from playwright.sync_api import Playwright, expect

from tests.browser.conftest import Browsers
from tests.browser.hands import Hands
from tests.browser.real_room import RealRoom, made

CHANGES = {"Jaw left pad", "2 pads change", "3 pads change"}
ACCEPTED = "It fits. Read it, then sign."

VISIT = """{
  'visit': Visit.objects.values('state', 'build', 'try_ons', 'helmet__code').get(id='{visit}'),
  'pads': HelmetBuild.objects.get(helmet__visits__id='{visit}', until=None).pads,
  'delivered': HelmetBuild.objects.filter(helmet__visits__id='{visit}').earliest('since').pads,
  'moved': list(Movement.objects.exclude(why='received').values_list(
      'part__place', 'part__size', 'quantity')),
  'shelves': list(Shelf.objects.values_list('part__place', 'part__size', 'on_hand')),
  'issued': list(Issue.objects.filter(visit__id='{visit}').values_list(
      'helmet__code', 'player__number')),
  'signed': [json.loads(each.body) for each in Private.objects.filter(entry__kind='acknowledged')],
}"""


@pytest.fixture(scope="module")
def room(tmp_path_factory: pytest.TempPathFactory, chromium: str) -> Iterator[RealRoom]:
    assert chromium
    found = made(tmp_path_factory.mktemp("room") / "room")
    found.start()
    yield found
    found.kill()


@pytest.fixture
def tablets(playwright: Playwright, chromium: str, tmp_path) -> Iterator[Browsers]:
    found = Browsers(playwright, chromium, tmp_path)
    yield found
    found.close()


@pytest.mark.slow
def test_a_player_goes_from_unmeasured_to_issued_with_one_pad_changed(room, tablets):
    hands = Hands(tablets.page(), room)
    hands.enroll("Station 1")
    hands.choose("8")
    hands.wears()
    hands.primary.click()
    expect(hands.title).to_have_text("Around the head, first reading")
    hands.reads(22.5, 22.5625)
    expect(hands.title).to_have_text("Around the head, 2 readings")
    hands.primary.click()
    for measure in ("Front to back", "Side to side", "Brow to top", "Across the jaw"):
        expect(hands.title).to_have_text(f"{measure}, first reading")
        hands.tap("Skip it")
    visit = hands.begins()
    hands.found = {"jaw left": "loose"}
    hands.until(ACCEPTED)
    assert CHANGES & set(hands.seen), hands.seen
    hands.issues()
    expect(hands.title).to_contain_text("Godwit Reedham has TV-01")
    expect(hands.page.get_by_text("The laptop has it.")).to_be_visible()
    assert hands.faults == []
    kept = room.ask(VISIT.replace("{visit}", visit))
    assert kept["visit"]["state"] == "accepted"
    assert kept["visit"]["try_ons"] == 2
    assert kept["issued"] == [[kept["visit"]["helmet__code"], "8"]]
    assert kept["pads"] == {
        zone: pad["pad"] for zone, pad in kept["visit"]["build"]["pads"].items()
    }
    assert kept["pads"]["jaw left"] != kept["delivered"]["jaw left"]
    swapped = Counter[tuple[str, str]]()
    for zone, label in kept["pads"].items():
        swapped[zone, label] -= 1
        swapped[zone, kept["delivered"][zone]] += 1
    moved = Counter[tuple[str, str]]()
    for place, size, quantity in kept["moved"]:
        moved[place, size] += quantity
    assert {part: n for part, n in moved.items() if n} == {
        part: n for part, n in swapped.items() if n
    }
    assert {(place, size): n for place, size, n in kept["shelves"]} == {
        (place, size): 6 + moved[place, size] for place, size, _ in kept["shelves"]
    }
    (signed,) = kept["signed"]
    assert signed["player_signature"]
    assert signed["fitter_signature"]
    verified = room.command("ledger", "verify")
    assert verified.returncode == 0, verified.stdout + verified.stderr


@pytest.mark.slow
def test_a_visit_asks_the_same_after_a_reload_and_a_new_browser_and_goes_on_elsewhere(
    room, tablets
):
    first = Hands(tablets.page("tablet 2"), room)
    first.enroll("Station 2")
    first.choose("24")
    first.wears()
    first.tap("Choose the helmet")
    visit = first.begins()
    first.until("Front pad")
    answers = first.page.get_by_role("radiogroup", name="What you find").get_by_role("radio")
    answers.nth(1).click()
    expect(answers.nth(1)).to_have_attribute("aria-checked", "true")
    said = first.primary.text_content()

    first.page.reload()
    expect(first.title).to_have_text("Front pad")
    expect(first.primary).to_have_text(said or "")
    again = Hands(tablets.again("tablet 2"), room)
    again.page.goto(f"{room.address}/station/#/visit/{visit}")
    expect(again.title).to_have_text("Front pad")
    expect(again.primary).to_have_text(said or "")
    again.goes_on()
    assert again.title.inner_text() != "Front pad"

    asked = again.title.inner_text()
    again.tap("Pause")
    expect(again.title).to_have_text("Paused")
    again.at_rest()
    other = Hands(tablets.page("tablet 3"), room)
    other.enroll("Station 3")
    other.choose("24")
    expect(other.page.get_by_text("Station 2 began this visit.")).to_be_visible()
    other.tap("Go on with this visit", exact=False)
    other.at_rest()
    expect(other.title).to_have_text(asked)
    other.until(ACCEPTED)

    # The first station was away meanwhile; it shows what became of the visit.
    again.page.reload()
    expect(again.title).to_have_text(ACCEPTED)
    assert first.faults + again.faults + other.faults == []
    state = "Visit.objects.values_list('state', 'station__name').get(id='" + visit + "')"
    assert room.ask(state) == ["accepted", "Station 3"]
