"""Another helmet in mid-visit, through a station's messages: what is proposed after it is there."""

import pytest

from helmwright.records.models import Role, Shelf
from helmwright.records.verify import verify
from helmwright.web.guiding.pool import put_in_place
from tests.records.entries import a_member, a_player
from tests.records.fitting import room_team
from tests.records.room import DIGEST, SHEET, Room
from tests.web.at_a_station import Station
from tests.web.stub_guides import InThisProcess

READ = {"measure": "tape_circumference", "value_mm": 575.0}
MEASURED = {"event": "measured", "readings": [READ, {**READ, "value_mm": 576.0}]}
THIN = {str(kind.zone): kind.labels[0] for kind in SHEET.pads}
MOST = 80


@pytest.fixture
def room(db):  # noqa: ARG001 - the database is there
    return Room()


@pytest.fixture
def station(room):
    put_in_place(InThisProcess())
    player = a_player(room_team(room), name="Avocet Brookside")
    yield Station(a_member(Role.FITTER, "ibis"), player.id, room.store, DIGEST)
    put_in_place(None)


def put_on(station: Station, build: dict[str, object], why: str = "") -> None:
    """In the visit's own helmet where that has the shell, else in the first that is listed."""
    own = station.seen["helmet"]
    if own is None or own["shell"] != build["shell"]:
        best = station.seen["helmets"][0]
        assert best["good"]
        station.tell("helmet reserved", visit=str(station.visit), helmet=best["id"])
    told = station.say({"event": "put on", "build": build, **({"reason": why} if why else {})})
    assert told["outcome"] == "taken"


def lacking(station: Station) -> int:
    """How many pads of the proposed build are not here, in the helmet that would be taken."""
    seen = station.seen
    own = seen["helmet"]
    if own is not None and own["shell"] == seen["build"]["shell"]:
        mine = next(each for each in seen["helmets"] if each["id"] == own["id"])
        assert mine["swaps"] == seen["swaps"]
        return mine["lacking"]
    return seen["helmets"][0]["lacking"] if seen["helmets"] else 99


def answer(station: Station, *wrong: str) -> None:
    """The check that is asked is right, but for some, which are as loose as can be."""
    asked = station.asked
    check = asked["checks"][0] if asked["message"] == "checks" else asked["check"]
    is_wrong = check["check"] in wrong
    words = [each["word"] for each in check["answers"] if each["right"] is not is_wrong]
    told = station.say({"event": "answered", "check": check["check"], "word": words[0]})
    assert told["outcome"] == "taken"


def until(station: Station, *messages: str, wrong: tuple[str, ...] = ()) -> str:
    """Go on until something is asked; measures are left out."""
    for _ in range(MOST):
        station.look()
        asked = station.asked
        if asked["message"] in messages:
            return str(asked["message"])
        if asked["message"] == "measure":
            station.say({"event": "measure skipped", "measure": asked["measure"]})
        else:
            answer(station, *wrong)
    pytest.fail(f"none of {messages} ever came")


@pytest.mark.slow
def test_after_another_helmet_is_taken_only_what_is_there_is_proposed(station, room):
    thin = room.helmet("TV-2", shell=4, pads=THIN)
    room.helmet("TV-1", shell=3, pads={"front": THIN["front"]})
    room.helmet("TV-3", shell=2, pads=THIN)
    for kind in SHEET.pads:
        room.received(str(kind.zone), kind.labels[1], 1)
    station.begin(helmet=str(thin))
    station.say(MEASURED, place=1)
    until(station, "put on")
    assert lacking(station) == 0
    wide = {"shell": 4, "pads": {zone: {"pad": label} for zone, label in THIN.items()}}
    station.tell("helmet reserved", visit=str(station.visit), helmet=str(thin))
    station.look()
    put_on(station, wide, "it was at hand")
    proposals = 0
    while until(station, "put on", "no build", "accepted", wrong=("front", "rear")) == "put on":
        proposals += 1
        assert lacking(station) == 0
        assert all(each["lacking"] == [] for each in station.seen["other_builds"])
        put_on(station, station.seen["build"])
        assert not Shelf.objects.filter(on_hand__lt=0).exists()
        if proposals == 3:
            break
    assert proposals >= 2
    verdict = verify()
    assert verdict.is_whole, verdict.faults
