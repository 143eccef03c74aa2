"""What a station shows between what was said and the laptop's answer."""

from typing import Any

import pytest

CHECKS = [{"check": name} for name in ("brow", "front", "crown")]
ROUND = {"message": "checks", "checks": CHECKS}
PROPOSAL = {"message": "proposal", "why": "The best.", "next": ROUND}


def answered(check: str) -> dict[str, str]:
    return {"event": "answered", "check": check, "word": "right"}


UNDONE, PAUSED, RESUMED = ({"event": name} for name in ("undone", "paused", "resumed"))


@pytest.fixture(scope="module")
def ahead(browser, module_laptop):
    """Calls a function of the module."""
    page = browser.new_page()
    page.goto(module_laptop.address)

    def call(name, *given):
        return page.evaluate(
            """async ([name, given]) => {
              const module = await import("/static/web/station/ahead.js");
              return module[name](...given);
            }""",
            [name, given],
        )

    yield call
    page.close()


def asked(ahead, message, *events):
    """What is asked after these events; the checks by name, or the message."""
    pending = [{"place": 7 + at, "event": event} for at, event in enumerate(events)]
    found = ahead("messageAhead", message, pending)
    if found is None or found["message"] != "checks":
        return found and found["message"]
    return [check["check"] for check in found["checks"]]


@pytest.mark.parametrize(
    ("message", "events", "expected"),
    [
        (ROUND, [], ["brow", "front", "crown"]),
        (ROUND, [answered("brow")], ["front", "crown"]),
        (ROUND, [answered("brow"), answered("crown")], ["front"]),
        (ROUND, [answered("brow"), answered("front"), answered("crown")], None),
        (ROUND, [answered("brow"), UNDONE], ["brow", "front", "crown"]),
        (ROUND, [answered("brow"), answered("front"), UNDONE], ["front", "crown"]),
        (ROUND, [UNDONE], None),
        (ROUND, [PAUSED], "paused"),
        (ROUND, [answered("brow"), PAUSED, RESUMED], ["front", "crown"]),
        (ROUND, [{"event": "put on"}], None),
        (PROPOSAL, [], "proposal"),
        (PROPOSAL, [answered("brow")], ["front", "crown"]),
        ({"message": "look", "check": CHECKS[0]}, [answered("brow")], None),
        (None, [], None),
    ],
)
def test_the_next_check_needs_no_word_of_the_laptop(ahead, message, events, expected):
    assert asked(ahead, message, *events) == expected


def entry(kind, at=0, **payload):
    return {
        "id": f"e{at}",
        "kind": kind,
        "at": "2026-08-07T15:41:00Z",
        "payload": {"player": "p", **payload},
    }


PLAYER: dict[str, Any] = {"id": "p", "worn": [], "glasses": None, "visit": None, "readings": []}


def after(ahead, *entries):
    (found,) = ahead("playersAhead", [PLAYER], list(entries))
    return found


def test_a_player_shows_what_was_just_said(ahead):
    found = after(
        ahead,
        entry("player wears", worn=["short hair"], glasses=True),
        entry("reading taken", 1, measure="head_length", value_mm=195, over="short hair"),
        entry("reading taken", 2, measure="head_length", value_mm=197, over="short hair"),
        entry("reading withdrawn", 3, reading="e1"),
        entry("visit begun", 4, visit="v"),
    )
    assert (found["worn"], found["glasses"], found["visit"]) == (["short hair"], True, "v")
    assert [reading["value_mm"] for reading in found["readings"]] == [197]


def test_a_reading_that_the_laptop_knows_by_now_shows_once(ahead):
    known = {"id": "e1", "measure": "head_length", "value_mm": 195}
    said = entry("reading taken", 1, measure="head_length", value_mm=195)
    (found,) = ahead("playersAhead", [{**PLAYER, "readings": [known]}], [said])
    assert found["readings"] == [known]


def test_the_next_place_counts_what_was_said_here(ahead):
    said = [
        entry("visit said", at, visit="v", place=at, event=answered("brow")) for at in (5, 6, 7)
    ]
    pending = ahead("pendingOf", "v", 6, said)
    assert [each["place"] for each in pending] == [6, 7]
    assert ahead("nextPlace", 6, pending) == 8
    assert ahead("nextPlace", 6, []) == 6
    assert ahead("pendingOf", "another", 0, said) == []
