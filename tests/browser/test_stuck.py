"""What the laptop fails at waits at the station, is shown there, and holds up nobody else."""

from playwright.sync_api import Page, expect

from tests.browser.stand_in import StandIn
from tests.browser.test_outbox import comes, queue, send
from tests.browser.today import STAFF


def test_an_entry_at_which_the_laptop_fails_waits_and_lets_others_go(
    station: Page, laptop: StandIn
) -> None:
    laptop.fate = lambda entry: (
        {"outcome": "stuck"} if entry["payload"].get("tab") == "one" else None
    )
    laptop.stop()
    queue(station, 60, "one")
    station.evaluate(QUEUE_OTHER, STAFF)
    laptop.start()
    send(station)
    expect(station.locator(".head .status")).to_have_text("60 kept here")
    expect(station.get_by_text("The laptop could not keep a reading.")).to_be_visible()
    expect(station.get_by_text("Tell the manager. It is kept here")).to_be_visible()
    assert [row["payload"]["tab"] for row in laptop.rows.values()] == ["two"]
    laptop.fate = lambda _entry: None
    send(station)
    comes(station, laptop, 61)
    expect(station.get_by_text("The laptop could not keep")).to_have_count(0)


QUEUE_OTHER = """async (by) => {
  const [{ openKeep }, { Outbox }, { uuid7 }] = await Promise.all(
    ["keep", "outbox", "uuid7"].map((name) => import(`/static/web/station/${name}.js`)));
  const outbox = new Outbox(await openKeep(), () => {}, () => {}, () => false);
  await outbox.add({
    id: uuid7(), kind: "reading taken", at: new Date().toISOString(), by, corrects: null,
    payload: { player: uuid7(), measure: "head_length", value_mm: 190, tab: "two" },
  });
}"""
