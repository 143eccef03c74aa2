"""What a station sends and is answered; the guide is a stand-in here."""

import json
from uuid import uuid4

import pytest
from django.db import OperationalError
from django.test import Client

from helmwright.records.ids import new_id
from helmwright.records.models import Entry, Player, Role, Staff, Visit
from helmwright.records.warning import CONSENT_TEXT
from helmwright.web.guiding.pool import put_in_place
from tests.records.entries import a_member, a_player
from tests.records.fitting import MEASURED, a_station, build, proposed, put_on, room_team
from tests.records.room import DIGEST, NOW, Room
from tests.web.at_a_station import Station
from tests.web.stub_guides import Scripted, asks, gone, lost

pytestmark = pytest.mark.django_db
ASKED_TAPE = {"event": "measure asked", "measure": "tape_circumference", "why": "It comes first."}


@pytest.fixture
def room():
    return Room()


@pytest.fixture
def station(room):
    player = a_player(room_team(room), name="Avocet Brookside", number="15")
    return Station(a_member(Role.FITTER, "ibis", "Ibis Fen"), player.id, room.store, DIGEST)


@pytest.fixture
def guides():
    """Lets a test say what is answered."""

    def answer(*acts):
        found = Scripted(*acts)
        put_in_place(found)
        return found

    yield answer
    put_in_place(None)


def begun_of(station: Station) -> dict[str, str]:
    """The beginning of its visit."""
    named = {"visit": station.visit, "player": station.player, "store": station.store}
    return {"sheet": DIGEST, **{name: str(each) for name, each in named.items()}}


def test_nobody_signed_in_is_told_so_and_gets_no_page(room):
    visit = f"/station/visits/{room.store}"
    for address in ("/station/today", "/station/find?code=A", visit):
        told = Client().get(address)
        assert told.status_code == 401
        assert told.json() == {"error": "sign in"}
    for address in ("/station/entries", "/station/look-over"):
        assert Client().post(address, "{}", content_type="application/json").status_code == 401


@pytest.mark.parametrize(("role", "status"), [("student", 403), ("trainer", 403), ("viewer", 403)])
def test_a_role_that_fits_nobody_sees_no_visit(role, status, room):
    client = Client()
    client.force_login(a_member(Role(role)), backend="django.contrib.auth.backends.ModelBackend")
    assert client.get(f"/station/visits/{room.store}").status_code == status


def test_a_request_from_another_site_is_refused(station):
    strict = Client(enforce_csrf_checks=True)
    strict.force_login(station.staff, backend="django.contrib.auth.backends.ModelBackend")
    told = strict.post("/station/entries", '{"entries": []}', content_type="application/json")
    assert told.status_code == 403


def test_the_same_batch_twice_is_kept_once_and_answered_the_same(station):
    batch = [station.entry("visit begun", begun_of(station)), station.said(MEASURED, place=1)]
    first, again = station.send(*batch), station.send(*batch)
    assert first == again
    assert [each["outcome"] for each in first["kept"]] == ["taken", "taken"]
    assert Visit.objects.get(id=station.visit).steps.count() == 2


def test_an_id_that_comes_again_with_other_content_is_refused(station):
    station.begin()
    said = station.said({"event": "paused"}, place=1)
    station.send(said)
    told = station.send(said | {"payload": said["payload"] | {"event": {"event": "stopped"}}})
    assert told["kept"] == []
    assert told["refused"][0]["where"] == "id"


def test_one_refused_entry_keeps_none_after_it_from_being_taken(station):
    station.begin()
    told = station.send(
        {"id": "no id"},
        station.entry("no such kind", {}),
        station.said({"event": "shrugged"}, place=1),
        station.said(proposed(), place=1),
        station.said(MEASURED, place=1),
    )
    assert [each["number"] for each in told["refused"]] == [0, 1, 2, 3]
    assert all(each["what"] for each in told["refused"])
    assert [each["outcome"] for each in told["kept"]] == ["taken"]


def test_an_id_of_another_version_is_refused(station):
    told = station.send(station.entry("visit begun", {}) | {"id": str(uuid4())})
    assert told["refused"][0]["where"] == "id"


def test_what_is_no_batch_is_refused_as_a_whole(station):
    told = station.client.post("/station/entries", "[]", content_type="application/json")
    assert told.status_code == 400
    assert told.json()["error"] == "This is no batch of entries."


def test_nobody_says_something_for_somebody_else_on_a_device_that_the_room_does_not_know(station):
    other = a_member(Role.FITTER, "rail", "Rail Fen")
    told = station.send(station.entry("visit begun", {}) | {"by": str(other.id)})
    assert told["refused"][0]["where"] == "by"


def test_whoever_left_or_may_not_say_it_is_refused(station):
    student = a_member(Role.STUDENT, "dunlin", "Dunlin Fen")
    station.client.force_login(student, backend="django.contrib.auth.backends.ModelBackend")
    told = station.send(station.said({"event": "paused"}, place=1) | {"by": str(student.id)})
    assert "may not say" in told["refused"][0]["what"]
    told = station.send(station.entry("visit begun", {}) | {"by": str(new_id(NOW))})
    assert "Nobody of the staff" in told["refused"][0]["what"]


def test_what_the_program_has_to_say_is_kept_before_it_is_told(station, guides):
    found = guides(asks("measure", ASKED_TAPE), asks("measure"))
    station.begin()
    told = station.look()
    assert told["count"] == 2
    assert told["message"] == {"message": "measure"}
    kept = Entry.objects.get(seq=Visit.objects.get(id=station.visit).steps.get(place=1).entry)
    assert kept.actor is None
    assert [len(each.events) for each in found.asked] == [1, 2]


def test_a_race_that_is_lost_is_simply_read_again(station, guides):
    station.begin()

    def meanwhile(asked):
        station.send(station.said({"event": "paused"}, place=len(asked.events)))
        return asks("measure", ASKED_TAPE)(asked)

    guides(meanwhile, asks("paused"))
    told = station.look()
    assert told["message"]["message"] == "paused"
    assert told["count"] == 2
    assert told["state"] == "paused"
    assert not Entry.objects.filter(outcome="set aside").exists()


def test_an_answer_that_does_not_come_says_what_to_do_and_loses_nothing(station, guides):
    station.begin()
    guides(gone, asks("measure"))
    told = station.client.get(f"/station/visits/{station.visit}")
    assert told.status_code == 503
    assert told.headers["Retry-After"]
    assert "Nothing is lost" in told.json()["error"]
    assert station.look()["message"]["message"] == "measure"


def test_events_that_cannot_be_guided_leave_a_way_out(station, guides):
    station.begin()
    guides(lost)
    told = station.look()
    assert told["message"]["message"] == "error"
    assert "Take the last answer back" in told["message"]["right"]
    assert station.say({"event": "stopped"})["outcome"] == "taken"


def test_a_visit_that_was_never_begun_is_not_there(station):
    assert station.client.get(f"/station/visits/{station.visit}").status_code == 404


def test_helmets_of_the_shell_are_told_with_what_is_to_be_changed_in_each(station, guides, room):
    good, lapsed = room.helmet("TV-0147"), room.helmet("TV-0148", interval_months=1)
    room.helmet("TV-0149", shell=2)
    wanted = build(3, front="1 in")
    room.received("front", "1 in", 2)
    station.begin()

    def proposes(asked):
        answer = asks("put on")(asked)
        return type(answer)(said=(), message=answer.message, build=wanted)

    guides(proposes)
    told = station.look()
    assert [each["id"] for each in told["helmets"]] == [str(good), str(lapsed)]
    assert [each["good"] for each in told["helmets"]] == [True, False]
    assert "lapsed" in told["helmets"][1]["why"]
    (swap,) = told["helmets"][0]["swaps"]
    assert (swap["zone"], swap["into"], swap["here"]) == ("front", "1 in", 2)
    assert told["helmet"] is None
    station.tell("helmet reserved", visit=str(station.visit), helmet=str(good))
    told = station.look()
    assert told["helmet"]["code"] == "TV-0147"
    assert told["swaps"] == told["helmets"][0]["swaps"]


def test_two_stations_at_one_visit_hear_of_each_other(station, room, guides):
    guides(asks("put on"))
    station.begin()
    other = Station(a_member(Role.FITTER, "rail", "Rail Fen"), station.player, room.store, DIGEST)
    other.visit = station.visit
    station.look()
    other.look()
    assert station.say(put_on())["outcome"] == "taken"
    late = other.say({"event": "resumed"})
    assert late["outcome"] == "set aside"
    assert "went on with this visit" in late["note"]


def test_today_tells_everything_that_a_station_needs(station, room):
    a_player(room_team(room), name="Coot Marsh", number="15", birth_year=2012)
    station.begin()
    told = station.client.get("/station/today").json()
    assert told["person"]["id"] == str(station.staff.id)
    assert told["device"] is None
    assert told["sheets"] == [
        {"digest": DIGEST, "model": told["sheets"][0]["model"], "invented": True}
    ]
    assert {each["name"] for each in told["stores"]} == {"Room", "Drawer 8"}
    by_name = {each["name"]: each for each in told["players"]}
    assert by_name["Avocet Brookside"]["visit"] == str(station.visit)
    assert by_name["Avocet Brookside"]["mark"] == "visit"
    assert by_name["Coot Marsh"]["minor"] is True
    assert by_name["Coot Marsh"]["consent"] is False
    assert by_name["Coot Marsh"]["standing"] == "unmeasured"
    assert told["warning"]["version"]
    assert told["consent_text"] == CONSENT_TEXT
    assert all(each["apart_mm"] > 0 for each in told["measures"])


def test_today_asks_the_database_as_often_for_many_as_for_few(
    station, room, django_assert_max_num_queries
):
    for number in range(40):
        a_player(room_team(room), name=f"Tern {number}", number=str(number))
    with django_assert_max_num_queries(20):
        station.client.get("/station/today")


def test_a_symptom_is_told_before_the_next_visit_is_begun(station):
    station.begin()
    station.say({"event": "symptom reported"}, place=1, words="dizzy")
    (player,) = station.client.get("/station/today").json()["players"]
    assert player["symptom"] is True
    assert player["visit"] is None


def test_readings_are_held_against_each_other_and_nothing_is_kept(station):
    entries = Entry.objects.count()
    readings = [
        {"measure": "head_length", "value_mm": 150.0},
        {"measure": "head_breadth", "value_mm": 200.0},
    ]
    told = station.client.post(
        "/station/look-over",
        json.dumps({"player": str(station.player), "readings": readings}),
        content_type="application/json",
    ).json()
    assert any(each["blocks"] for each in told["findings"])
    assert Entry.objects.count() == entries


def test_readings_as_the_day_tells_them_are_looked_over(station):
    for cap in ({"over": "skull cap", "beneath": "short hair"}, {"over": "bare"}, {}):
        station.tell(
            "reading taken",
            player=str(station.player),
            measure="tape_circumference",
            value_mm=575.0,
            **cap,
        )
    (player,) = (
        each
        for each in station.client.get("/station/today").json()["players"]
        if each["id"] == str(station.player)
    )
    kept = ("measure", "value_mm", "over", "beneath")
    readings = [{name: each[name] for name in kept} for each in player["readings"]]
    assert len(readings) == 3
    told = station.client.post(
        "/station/look-over",
        json.dumps({"player": str(station.player), "readings": readings}),
        content_type="application/json",
    )
    assert told.status_code == 200, told.content


def test_a_device_that_the_room_knows_lets_others_of_the_staff_speak(station, monkeypatch):
    device = a_station("Station 3")
    monkeypatch.setattr("helmwright.web.station.entries.station_of", lambda _: device)
    other = a_member(Role.FITTER, "rail", "Rail Fen")
    station.begin()
    told = station.send(station.said({"event": "paused"}, place=1) | {"by": str(other.id)})
    assert told["kept"][0]["outcome"] == "taken"
    kept = Entry.objects.get(id=told["kept"][0]["id"])
    assert (kept.device, kept.actor) == (device.id, other.id)


def test_what_only_a_manager_may_say_is_not_said_at_a_station(station, monkeypatch):
    device = a_station("Station 3")
    monkeypatch.setattr("helmwright.web.station.entries.station_of", lambda _: device)
    manager = a_member(Role.MANAGER, "grebe", "Grebe Fen")
    student = a_member(Role.STUDENT, "dunlin", "Dunlin Fen")
    station.client.force_login(student, backend="django.contrib.auth.backends.ModelBackend")
    promoted = {"staff": str(student.id), "role": "manager"}
    erased = {"player": str(station.player)}
    said = [station.entry("staff changed", promoted), station.entry("person erased", erased)]
    told = station.send(*(each | {"by": str(manager.id)} for each in said))
    assert told["kept"] == []
    assert [each["where"] for each in told["refused"]] == ["kind", "kind"]
    assert Staff.objects.get(id=student.id).role == Role.STUDENT
    assert Player.objects.get(id=station.player).name == "Avocet Brookside"


@pytest.mark.parametrize("at", ["0001-01-01T00:00:00+14:00", "9999-12-31T23:59:00-12:00"])
def test_a_time_that_no_clock_shows_is_refused_and_holds_nothing_up(at, station):
    station.begin()
    late = station.said(MEASURED, place=1) | {"at": at}
    told = station.send(late, station.said({"event": "paused"}, place=1))
    assert told["refused"][0]["where"] == "at"
    assert [each["outcome"] for each in told["kept"]] == ["taken"]


def test_whoever_fits_nobody_is_told_of_no_head_and_no_health(station):
    station.begin()
    station.say(MEASURED, place=1)
    station.say({"event": "symptom reported"}, place=2, words="dizzy")
    student = a_member(Role.STUDENT, "dunlin", "Dunlin Fen")
    station.client.force_login(student, backend="django.contrib.auth.backends.ModelBackend")
    (player,) = station.client.get("/station/today").json()["players"]
    assert player["name"] == "Avocet Brookside"
    assert player["readings"] == []
    assert player["symptom"] is False


def test_a_database_that_is_busy_costs_a_batch_nothing(station, monkeypatch):
    def busy(*_args, **_how):
        raise OperationalError("database is locked")

    batch = [station.entry("visit begun", begun_of(station)), station.said(MEASURED, place=1)]
    with monkeypatch.context() as patched:
        patched.setattr("helmwright.web.station.entries.say", busy)
        told = station.client.post(
            "/station/entries", json.dumps({"entries": batch}), content_type="application/json"
        )
    assert told.status_code == 503
    assert "Nothing is lost" in told.json()["error"]
    assert [each["outcome"] for each in station.send(*batch)["kept"]] == ["taken", "taken"]
    assert Visit.objects.get(id=station.visit).steps.count() == 2


def test_signatures_that_are_none_are_refused_with_what_would_be_right(station):
    said = {"player": str(station.player), "text_version": "1", "player_signature": [[[1, 1]]]}
    told = station.send(station.entry("acknowledged", said | {"fitter_signature": "Ibis Fen"}))
    assert told["kept"] == []
    (refused,) = told["refused"]
    assert refused["what"] == "there is no signature of the player"
    assert refused["right"].startswith("sign with a finger")
    signed = {"player_signature": "Avocet Brookside", "fitter_signature": "Ibis Fen"}
    told = station.send(station.entry("acknowledged", said | signed))
    assert [each["outcome"] for each in told["kept"]] == ["taken"]
    assert station.client.get("/station/today").json()["signature"] == {
        "letters": 2,
        "drawn": 30.0,
    }
