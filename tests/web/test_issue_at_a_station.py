"""From a build in a helmet that nobody named to its issue, through a station's own messages."""

from typing import Any

import pytest

from helmwright.records.actions.visits import say_next
from helmwright.records.models import Issue, Role, Visit
from helmwright.records.verify import verify
from helmwright.web.guiding.asked import Answer, Asked
from helmwright.web.guiding.pool import put_in_place
from tests.records.entries import a_member, a_player
from tests.records.fitting import build, pads_in, proposed, room_team
from tests.records.room import DIGEST, SHEET, Room
from tests.web.at_a_station import AT, Station
from tests.web.stub_guides import Scripted

pytestmark = pytest.mark.django_db
FRONT = SHEET.pad("front").labels  # type: ignore[arg-type]
WORN = build(4, front=FRONT[0])
OTHER: dict[str, Any] = {"build": WORN, "found_right": 0.3}


def proposes(_asked: Asked) -> Answer:
    """Another build is thought of, of another shell than the proposed one."""
    return Answer(said=(), message={"message": "put on"}, build=build(), other_builds=(OTHER,))


@pytest.fixture
def room():
    return Room()


@pytest.fixture
def station(room):
    put_in_place(Scripted(proposes))
    player = a_player(room_team(room), name="Avocet Brookside")
    yield Station(a_member(Role.FITTER, "ibis"), player.id, room.store, DIGEST)
    put_in_place(None)


def program(station: Station, *events: dict[str, object]) -> None:
    count = Visit.objects.get(id=station.visit).steps.count()
    assert say_next(visit=station.visit, player=station.player, place=count, events=events, now=AT)


def accepted(station: Station) -> None:
    """The build of shell 4 is put on against the proposal, and found right."""
    say_right(station, {"event": "put on", "build": WORN}, "it fits better by my hand")
    say_right(station, {"event": "answered", "check": "front", "word": "snug"})
    program(station, {"event": "accepted", "build": WORN})


def say_right(station: Station, event: dict[str, object], words: str = "") -> None:
    place = Visit.objects.get(id=station.visit).steps.count()
    told = station.say(event, place=place, words=words)
    assert told["outcome"] == "taken", told


def signed(station: Station, helmet: str) -> None:
    station.tell(
        "acknowledged",
        player=str(station.player),
        helmet=helmet,
        visit=str(station.visit),
        text_version="1",
        player_signature="Avocet Brookside",
        fitter_signature="Ibis Fen",
    )


def issued(station: Station, helmet: str, **more: object) -> dict[str, str]:
    """What becomes of the issue."""
    payload = {"helmet": helmet, "player": str(station.player), "visit": str(station.visit)}
    found: dict[str, str] = station.send(station.entry("helmet issued", payload | more))["kept"][0]
    return found


def test_a_build_in_a_helmet_that_nobody_named_is_issued_in_the_one_whose_label_is_read(
    station, room
):
    first, worn = room.helmet("TV-1", shell=3), room.helmet("TV-2", shell=4)
    station.begin(helmet=str(first))
    program(station, proposed())
    accepted(station)
    assert station.look()["helmet"] is None, "TV-1 is of another shell"
    signed(station, str(first))
    assert "shell 3, and the accepted build of shell 4" in issued(station, str(first))["note"]
    asked = f"/station/find?code=TV-2&player={station.player}"
    found = station.client.get(asked).json()["helmet"]
    assert (found["id"], found["shell"], found["good"]) == (str(worn), 4, True)
    signed(station, found["id"])
    assert "say that it is in it" in issued(station, found["id"])["note"]
    assert issued(station, found["id"], holds_build=True)["outcome"] == "taken"
    assert station.look()["helmet"]["code"] == "TV-2"
    assert Issue.objects.get().helmet_id == worn
    assert pads_in(worn)["front"] == FRONT[0]
    assert verify().faults == ()


def test_the_helmets_of_another_build_are_told_and_the_one_that_is_chosen_is_known(station, room):
    first, worn = room.helmet("TV-1", shell=3), room.helmet("TV-2", shell=4)
    station.begin(helmet=str(first))
    program(station, proposed())
    (other,) = station.look()["other_builds"]
    assert [(each["code"], each["good"]) for each in other["helmets"]] == [("TV-2", True)]
    station.tell("helmet reserved", visit=str(station.visit), helmet=other["helmets"][0]["id"])
    accepted(station)
    assert station.look()["helmet"]["code"] == "TV-2"
    assert pads_in(worn)["front"] == FRONT[0]
    signed(station, str(worn))
    assert issued(station, str(worn))["outcome"] == "taken"
    assert verify().faults == ()


def test_a_helmet_is_not_issued_on_what_was_signed_before_an_undo(station, room):
    helmet = room.helmet("TV-1", shell=4)
    station.begin(helmet=str(helmet))
    program(station, proposed(4))
    accepted(station)
    signed(station, str(helmet))
    say_right(station, {"event": "undone"})
    say_right(station, {"event": "answered", "check": "front", "word": "snug"})
    program(station, {"event": "accepted", "build": WORN})
    assert "have both sign again" in issued(station, str(helmet))["note"]
    signed(station, str(helmet))
    assert issued(station, str(helmet))["outcome"] == "taken"
