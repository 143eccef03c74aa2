"""Readings at the station: two of them, neither leaning on the other."""

import pytest
from playwright.sync_api import expect

from tests.browser.test_outbox import comes
from tests.browser.today import player_id

WHO = player_id(0)


def title(page):
    return page.get_by_role("heading", level=1)


def read(page, whole: str, part: str) -> None:
    page.get_by_role("button", name=whole, exact=True).click()
    page.get_by_role("button", name=part, exact=True).click()


def keep(page) -> None:
    page.locator(".primary").click()


@pytest.fixture
def reading(station, laptop):
    """Before the first reading around the head."""
    laptop.today["players"][0]["worn"] = ["braids or locs", "skull cap"]
    station.goto(f"{laptop.address}#/player/{WHO}/reading")
    station.reload()
    title(station).get_by_text("Around the head, first reading").wait_for()
    return station


def test_the_first_reading_is_hidden_while_the_second_is_taken(reading):
    read(reading, "22", "5 eighths of an inch")
    keep(reading)
    expect(title(reading)).to_have_text("Around the head, second reading")
    assert "575" not in reading.inner_text("body")
    expect(reading.locator(".read")).to_contain_text("hidden while the second is taken")
    assert not reading.locator("[aria-pressed=true]:not([data-set-mode])").count()
    read(reading, "22", "3 quarters of an inch")
    keep(reading)
    expect(reading.locator(".side-by-side")).to_contain_text("575 mm")
    expect(reading.locator(".side-by-side")).to_contain_text("578 mm")
    expect(reading.locator(".verdict")).to_contain_text("clean readings can be so far apart")
    expect(reading.locator(".primary")).to_have_text("Next: front to back")


def test_a_reading_says_over_what_it_was_taken(reading, laptop):
    read(reading, "22", "5 eighths of an inch")
    keep(reading)
    (said,) = comes(reading, laptop, 1)
    assert said["kind"] == "reading taken"
    assert said["payload"] == {
        "player": WHO,
        "measure": "tape_circumference",
        "value_mm": 22.625 * 25.4,
        "over": "skull cap",
        "beneath": "braids or locs",
    }


def test_two_that_lie_too_far_apart_ask_for_a_third(reading, laptop):
    limit = next(each for each in laptop.today["measures"] if each["key"] == "tape_circumference")
    assert 6.4 < limit["apart_mm"] < 12.7
    read(reading, "22", "5 eighths of an inch")
    keep(reading)
    read(reading, "23", "1 eighth of an inch")
    keep(reading)
    expect(reading.locator(".notice")).to_contain_text("nineteen times of twenty. Take a third.")
    expect(reading.locator(".primary")).to_have_text("Third reading")
    keep(reading)
    expect(title(reading)).to_have_text("Around the head, third reading")
    read(reading, "22", "3 quarters of an inch")
    keep(reading)
    expect(title(reading)).to_have_text("Around the head, 3 readings")
    comes(reading, laptop, 3)
    expect(reading.locator(".primary")).to_have_text("Next: front to back")


def test_a_sixteenth_more_goes_over_the_whole_inch(reading):
    read(reading, "22", "7 eighths of an inch")
    for _ in range(2):
        reading.get_by_role("button", name="A sixteenth more").click()
    expect(reading.locator(".value .aloud")).to_have_text("23 inches")
    reading.get_by_role("button", name="A sixteenth less").click()
    expect(reading.locator(".value .aloud")).to_have_text("22 and 15 sixteenths inches")


def test_what_no_head_reads_is_named_at_once_and_waits(reading, laptop):
    read(reading, "18", "1 eighth of an inch")
    expect(reading.locator(".notice")).to_contain_text("No head reads so small")
    expect(reading.locator(".primary")).to_have_attribute("aria-disabled", "true")
    reading.locator(".primary").click(force=True)
    expect(title(reading)).to_have_text("Around the head, first reading")
    assert not laptop.rows


def test_a_suspect_is_named_beside_the_readings(reading, laptop):
    laptop.findings = [{"message": "Length and breadth look swapped.", "suggestion": "Swap them?"}]
    read(reading, "22", "5 eighths of an inch")
    keep(reading)
    read(reading, "22", "5 eighths of an inch")
    keep(reading)
    expect(reading.locator(".notice")).to_contain_text("Length and breadth look swapped.")
    expect(reading.locator(".verdict")).to_contain_text("They agree.")


def test_undo_takes_a_reading_back_and_names_it(reading, laptop):
    read(reading, "22", "5 eighths of an inch")
    keep(reading)
    title(reading).get_by_text("second").wait_for()
    reading.locator(".undo").click()
    expect(title(reading)).to_have_text("Around the head, first reading")
    taken, withdrawn = comes(reading, laptop, 2)
    assert withdrawn["kind"] == "reading withdrawn"
    assert withdrawn["corrects"] == withdrawn["payload"]["reading"] == taken["id"]


def test_every_measure_may_be_skipped_in_order(reading, laptop):
    for name in ("Around the head", "Front to back", "Side to side", "Brow to top"):
        expect(title(reading)).to_have_text(f"{name}, first reading")
        reading.get_by_role("button", name="Skip it").click()
    expect(title(reading)).to_have_text("Across the jaw, first reading")
    reading.get_by_role("button", name="Skip it").click()
    expect(title(reading)).to_have_text("Which helmet model?")
    assert not laptop.rows


def test_the_way_to_take_it_is_there_in_full(reading):
    assert "hair stops giving" not in reading.inner_text("main")
    reading.get_by_role("button", name="How").click()
    expect(reading.locator("main")).to_contain_text("draw in until the hair stops giving")


def test_an_instruction_is_never_cut_within_a_sentence(reading):
    for _ in range(5):
        words = reading.locator(".heading h1 + p").inner_text()
        assert words.endswith(".")
        assert len(words) >= 60
        if reading.get_by_role("button", name="Skip it").is_visible():
            reading.get_by_role("button", name="Skip it").click()
