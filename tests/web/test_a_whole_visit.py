"""A visit from nothing read to accepted, through the messages of a station, with a real guide."""

from uuid import uuid4

import pytest

from helmwright.catalogue import ZONES
from helmwright.records.models import HelmetBuild, Reading, Staff, Visit
from helmwright.web.guiding.pool import put_in_place
from helmwright.web.guiding.worker import answer
from tests.records.room import DIGEST, SHEET, Room
from tests.web.at_a_station import Station


class Here:
    """Answers in this very process."""

    def ask(self, asked):
        return answer(asked)

    def warm(self):
        pass


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
    put_in_place(Here())
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
