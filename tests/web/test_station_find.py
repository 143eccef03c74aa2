"""A label at a station: its helmet, who has it, and why it cannot be issued."""

import pytest

from helmwright.records.kinds.things import HelmetHeld
from helmwright.records.models import Role
from tests.records.entries import a_member, a_player
from tests.records.fitting import room_team
from tests.records.room import DIGEST, Room
from tests.web.at_a_station import Station

pytestmark = pytest.mark.django_db


@pytest.fixture
def room():
    return Room()


@pytest.fixture
def station(room):
    player = a_player(room_team(room), name="Avocet Brookside", number="15")
    return Station(a_member(Role.FITTER, "ibis", "Ibis Fen"), player.id, room.store, DIGEST)


def test_a_label_finds_its_helmet_and_who_is_fitted_with_it(station, room):
    helmet = room.helmet()
    station.begin(helmet=str(helmet))
    told = station.client.get("/station/find?code=tv-0147").json()
    assert told["helmet"]["id"] == str(helmet)
    assert told["player"] == str(station.player)
    assert station.client.get("/station/find?code=TV-9").status_code == 404


def test_a_label_says_why_its_helmet_cannot_be_issued_and_to_whom(station, room):
    helmet = room.helmet()
    station.begin(helmet=str(helmet))
    asked = f"/station/find?code=TV-0147&player={station.player}"
    assert station.client.get(asked).json()["helmet"]["good"] is True
    of_another = station.client.get("/station/find?code=TV-0147").json()["helmet"]
    assert of_another["good"] is False
    assert "took TV-0147 into a visit" in of_another["why"]
    room.taken(HelmetHeld(helmet=helmet, why="a crack at the rear"))
    held = station.client.get(asked).json()["helmet"]
    assert held["good"] is False
    assert "It is on hold: a crack at the rear." in held["why"]
    assert "have the hold lifted by the manager" in held["why"]
