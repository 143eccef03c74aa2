"""Visits through the messages of a station, with the real guide: to an end, and through mishaps."""

import os
import signal

import pytest

from helmwright.catalogue import ZONES
from helmwright.records.models import Entry, HelmetBuild, Reading, Role, Visit
from helmwright.records.verify import verify
from helmwright.reports.found import ALL_RIGHT
from helmwright.reports.visit_check_page import STAGES
from helmwright.web.guiding.pool import Processes, put_in_place
from tests.records.entries import a_member, a_player
from tests.records.fitting import room_team
from tests.records.room import DIGEST, SHEET, Room
from tests.web.at_a_station import Station
from tests.web.stub_guides import InThisProcess

READ = {"measure": "tape_circumference", "value_mm": 575.0}
MEASURED = {"event": "measured", "readings": [READ, {**READ, "value_mm": 576.0}]}
MOST = 80


@pytest.fixture
def room(db):  # noqa: ARG001 - the database is there
    found = Room()
    for kind in SHEET.pads:
        for label in kind.labels:
            found.received(str(kind.zone), label, 4)
    for number, shell in enumerate((2, 2, 3, 3, 4, 4)):
        found.helmet(f"TV-01{number:02}", shell=shell)
    return found


@pytest.fixture
def station(room):
    put_in_place(InThisProcess())
    player = a_player(room_team(room), name="Avocet Brookside")
    yield Station(a_member(Role.FITTER, "ibis"), player.id, room.store, DIGEST)
    put_in_place(None)


def right(station: Station) -> dict[str, object]:
    """What a fitter says to whom everything is right, and who measures nothing more."""
    asked = station.asked
    match asked["message"]:
        case "measure":
            return {"event": "measure skipped", "measure": asked["measure"]}
        case "put on":
            best = station.seen["helmets"][0]
            assert best["good"]
            station.tell("helmet reserved", visit=str(station.visit), helmet=best["id"])
            return {"event": "put on", "build": asked["build"]}
    check = asked["checks"][0] if asked["message"] == "checks" else asked["check"]
    word = next(each["word"] for each in check["answers"] if each["right"])
    return {"event": "answered", "check": check["check"], "word": word}


def until(station: Station, message: str) -> None:
    """Everything is right until something is asked."""
    for _ in range(MOST):
        station.look()
        if station.asked["message"] == message:
            return
        assert station.say(right(station))["outcome"] == "taken"
    pytest.fail(f"{message} never came")


@pytest.mark.slow
def test_a_player_is_fitted_from_nothing_read_to_accepted(station):
    station.begin()
    station.look()
    assert station.asked["measure"] == "tape_circumference"
    assert station.say(MEASURED)["outcome"] == "taken"
    until(station, "put on")
    assert "<svg" in station.seen["drawing"]["after"]
    assert [each["number"] for each in station.seen["zones"]] == list(range(1, 9))
    assert len(station.seen["other_builds"]) == 3
    until(station, "accepted")
    visit = Visit.objects.get(id=station.visit)
    assert visit.state == "accepted"
    assert visit.try_ons == 1
    assert Reading.objects.filter(player=station.player).count() == 2
    assert visit.build is not None
    pads = HelmetBuild.objects.get(helmet=visit.helmet, until=None).pads
    assert pads == {zone: visit.build["pads"][zone]["pad"] for zone in map(str, ZONES)}
    found = station.seen["found"]
    assert [each["stage"] for each in found] == list(STAGES.values())
    assert {each["told"] for each in found} == {ALL_RIGHT}
    assert all(each["checks"] for each in found)
    verdict = verify()
    assert verdict.is_whole, verdict.faults


@pytest.mark.slow
def test_a_visit_goes_through_everything_that_can_come_between(station, room):
    station.begin()
    batch = station.said(MEASURED, place=1)
    assert station.send(batch) == station.send(batch)
    until(station, "put on")
    assert station.seen["undo"]
    before = station.seen["message"]
    assert station.say({"event": "paused"})["outcome"] == "taken"
    assert station.look()["message"] == {"message": "paused"}
    assert station.seen["drawing"] == {"now": None, "after": None}
    other = Station(a_member(Role.FITTER, "rail"), station.player, room.store, DIGEST)
    other.visit = station.visit
    other.tell("visit taken over", visit=str(other.visit), player=str(other.player))
    other.look()
    assert other.say({"event": "resumed"})["outcome"] == "taken"
    late = station.say({"event": "put on", "build": station.seen["build"]})
    assert late["outcome"] == "set aside"
    assert "went on with this visit" in late["note"]
    assert other.look()["message"]["message"] == before["message"]
    assert other.say(right(other))["outcome"] == "taken"
    until(other, "checks")
    assert other.say(right(other))["outcome"] == "taken"
    told = other.look()["undo"]
    assert other.say({"event": "undone"})["outcome"] == "taken"
    assert other.look()["undo"] != told
    assert other.say({"event": "symptom reported"}, words="dizzy")["outcome"] == "taken"
    end = other.look()["message"]
    assert end["message"] == "symptom"
    assert end["words"] == "dizzy"
    assert end["do"]
    verdict = verify()
    assert verdict.is_whole, verdict.faults


@pytest.mark.slow
def test_a_process_that_is_killed_in_a_visit_costs_an_answer_and_nothing_else(station):
    processes = Processes(1)
    put_in_place(processes)
    try:
        station.begin()
        assert station.say(MEASURED, place=1)["outcome"] == "taken"
        os.kill(processes.process_of(str(station.visit)), signal.SIGKILL)
        address = f"/station/visits/{station.visit}"
        first = station.client.get(address)
        assert first.status_code in (200, 503)
        kept = Entry.objects.count()
        told = station.look()
        assert told["message"]["message"] in ("measure", "proposal", "checks", "put on")
        assert told["count"] >= 3
        assert Entry.objects.count() - kept in (0, 1)
    finally:
        processes.close()
