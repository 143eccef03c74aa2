"""A visit from nothing read to accepted, through the messages of a station, with a real guide."""

from uuid import uuid4

import pypdfium2
import pytest

from helmwright.catalogue import ZONES
from helmwright.records.models import HelmetBuild, Reading, Staff, Visit
from helmwright.web.guiding.pool import put_in_place
from tests.records.room import DIGEST, SHEET, Room
from tests.reports.pdf import alternatives, words
from tests.web.at_a_station import Station
from tests.web.stub_guides import InThisProcess


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
    staff = Staff.objects.create(id=uuid4(), username="ibis", name="Ibis Fen", role="fitter")
    yield Station(staff, room.player().id, room.store, DIGEST)
    put_in_place(None)


@pytest.mark.slow
def test_a_player_is_fitted_from_nothing_read_to_accepted(station):
    station.begin()
    station.look()
    assert station.asked["message"] == "measure"
    assert station.asked["measure"] == "tape_circumference"
    reading = {"measure": "tape_circumference", "value_mm": 575.0}
    station.say({"event": "measured", "readings": [reading, {**reading, "value_mm": 576.0}]})
    for _ in range(60):
        station.look()
        message = station.asked
        if message["message"] == "measure":
            said = station.say({"event": "measure skipped", "measure": message["measure"]})
        elif message["message"] == "put on":
            best = station.seen["helmets"][0]
            assert best["good"]
            station.tell("helmet reserved", visit=str(station.visit), helmet=best["id"])
            said = station.say({"event": "put on", "build": message["build"]})
        elif message["message"] in ("checks", "look"):
            checks = message["checks"] if message["message"] == "checks" else [message["check"]]
            check = checks[0]
            word = next(each["word"] for each in check["answers"] if each["right"])
            said = station.say({"event": "answered", "check": check["check"], "word": word})
        else:
            break
        assert said["outcome"] == "taken", said
    assert station.seen["message"]["message"] == "accepted"
    visit = Visit.objects.get(id=station.visit)
    assert visit.state == "accepted"
    assert visit.try_ons == 1
    assert Reading.objects.filter(player=station.player).count() == 2
    assert visit.build is not None
    pads = HelmetBuild.objects.get(helmet=visit.helmet, until=None).pads
    assert pads == {zone: visit.build["pads"][zone]["pad"] for zone in map(str, ZONES)}
    helmet = str(visit.helmet_id)
    station.tell(
        "acknowledged",
        player=str(station.player),
        helmet=helmet,
        visit=str(station.visit),
        text_version="2026-1",
        player_signature=[[[10, 20], [40, 80], [90, 30]]],
        fitter_signature="Ibis Fen",
    )
    station.tell("helmet issued", helmet=helmet, player=str(station.player))
    the_card_tells_what_was_fitted(station.client.get(f"/paper/card/{station.visit}"), visit)


def the_card_tells_what_was_fitted(answer, visit):
    assert answer["Content-Type"] == "application/pdf"
    (page,) = pypdfium2.PdfDocument(answer.content)
    printed = words(page)
    for part in ("Avocet Brookside", visit.helmet.code, "Ibis Fen", "fitter (name typed)",
                 "22 5/8", "22 11/16", "4 of 4", "text 2026-1"):  # fmt: skip
        assert part in printed
    assert len(alternatives(page)) == 3  # the code, the drawing, the player's signature
