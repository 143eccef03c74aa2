"""After an erasure no table of the database has the names, whichever way they came in."""

from datetime import UTC, datetime
from uuid import uuid4

import pytest
from django.test import Client
from django.urls import reverse

from helmwright.anatomy import Over
from helmwright.records.actions.staff import change
from helmwright.records.kinds.people import (
    ConsentGiven,
    GuardianAdded,
    PlayerWears,
    ReadingTaken,
    RetentionHeld,
)
from helmwright.records.kinds.visits import Acknowledged, HelmetIssued, HelmetReturned
from helmwright.records.models import Player, Role, Staff
from helmwright.records.verify import verify
from tests.records.entries import a_player
from tests.records.everything_kept import everything_kept
from tests.records.fitting import MEASURED, Fitting, room_team
from tests.records.room import DIGEST, Room
from tests.web.at_a_station import Station
from tests.web.people import PASSWORD, PIN, member, station
from tests.web.test_take_in import done, shown

pytestmark = pytest.mark.django_db
BACKEND = "django.contrib.auth.backends.ModelBackend"
NAMES = ("grebe", "dunlin", "halloway")
STROKES: list[list[tuple[float, float]]] = [[(0, 0), (90, 10), (180, 90)], [(20, 60), (140, 40)]]


@pytest.fixture
def manager(client):
    somebody = member()
    client.force_login(somebody, BACKEND)
    return somebody


def signs_in(username, password, address):
    return Client(REMOTE_ADDR=address).post(
        "/sign-in/", {"username": username, "password": password}
    )


def test_of_somebody_who_is_gone_both_names_are_in_no_table(client, manager):
    said = {"name": "Dunlin Halloway", "username": "Grebe", "role": "fitter"}
    client.post("/staff/", said | {"password": PASSWORD, "pin": PIN})
    grebe = Staff.objects.get(username="grebe")
    assert signs_in("Grebe", PASSWORD, "192.168.1.10").status_code == 302
    for address in ("192.168.1.10", "192.168.1.11"):
        assert signs_in(" GREBE", "a wrong password", address).status_code == 401
    tablet = Client()
    station(tablet, manager)
    pin = {"staff": str(grebe.id), "pin": PIN}
    assert tablet.post("/pin", pin, content_type="application/json").status_code == 200
    room = Room()
    player = a_player(room_team(room))
    at = Station(grebe, player.id, room.store, DIGEST)
    at.client = tablet
    at.tell("reading taken", player=str(player.id), measure="tape_circumference", value_mm=575.0)
    client.post(f"/staff/{grebe.id}/role/", {"role": "student"})
    client.post(f"/staff/{grebe.id}/active/", {"active": "no"})
    before = everything_kept()
    assert [word for word in NAMES if word not in before] == []
    assert client.post(f"/staff/{grebe.id}/erase/", {"typed": "grebe"}).status_code == 302
    left = everything_kept()
    assert [word for word in NAMES if word in left] == []
    assert verify().faults == ()


def test_an_address_that_was_shut_out_is_shut_out_still(client, manager):
    """Only tries in the name that goes are forgotten."""
    for username in ("grebe", "dipper"):
        member(Role.FITTER, username)
        for _ in range(5):
            signs_in(username, "a wrong password", "192.168.1.66")
    grebe = Staff.objects.get(username="grebe")
    change(staff=grebe, by=manager, now=datetime.now(UTC), is_active=False)
    client.post(f"/staff/{grebe.id}/erase/", {"typed": "grebe"})
    assert signs_in("dipper", PASSWORD, "192.168.1.66").status_code == 429


PERSONAL = (
    "avocet", "brookside", "plover", "riverside road", "godmother", "braids", "a headache",
    "counsel asked", "the pads pinch", "signed by beak",
)  # fmt: skip


@pytest.fixture
def room():
    return Room()


def everything_that_is_said(client, room):
    """A player from a file, measured, signed for, fitted and issued, who reported a symptom."""
    text = "No.,Player,Pos,Tape (in)\n7,Avocet Brookside,QB,22 3/8\n"
    done(client, shown(client, room, text, name="avocet.csv"))
    player = Player.objects.get()
    page = reverse("player-change", args=[player.pk])
    typed = {"name": "Avocet Q. Brookside", "number": "7", "hair": "braids or locs"}
    assert client.post(page, typed | {"birth_year": "2010"}).status_code == 302
    helmet = room.helmet()
    visit = Fitting(room, helmet=helmet, player=player)
    visit.taken(MEASURED)
    visit.taken({"event": "stopped"}, words="The pads pinch Avocet.")
    again = Fitting(room, player=player)
    again.taken({"event": "symptom reported"}, words="A headache.")
    guardian = uuid4()
    for payload in (
        GuardianAdded(
            guardian=guardian,
            player=player.id,
            name="Plover Brookside",
            relation="godmother",
            contact="2 Riverside Road",
        ),
        ConsentGiven(
            consent=uuid4(),
            player=player.id,
            guardian=guardian,
            about="fitting",
            text_version="1",
        ),
        PlayerWears(player=player.id, worn=(Over.BRAIDS,), glasses=True),
        ReadingTaken(player=player.id, measure="head_length", value_mm=198.4),
        Acknowledged(
            player=player.id,
            helmet=helmet,
            visit=visit.id,
            text_version="1",
            player_signature="Signed by beak",
            fitter_signature=STROKES,
        ),
        HelmetIssued(helmet=helmet, player=player.id),
        HelmetReturned(helmet=helmet, store=room.store),
        RetentionHeld(player=player.id, until="2030-01-01", why="Counsel asked."),
        RetentionHeld(player=player.id, until=None),
    ):
        room.taken(payload)
    return player


@pytest.mark.usefixtures("manager")
def test_of_a_player_nothing_personal_is_in_any_table(client, room):
    player = everything_that_is_said(client, room)
    before = everything_kept()
    assert [word for word in PERSONAL if word not in before] == []
    player.refresh_from_db()
    path = reverse("player-erase", args=[player.pk])
    assert client.post(path, {"typed": player.name}).status_code == 302
    left = everything_kept()
    assert [word for word in PERSONAL if word in left] == []
    assert verify().faults == ()
