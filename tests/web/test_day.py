"""The fitting day: its board, the order of players, and who may see it."""

from datetime import UTC, datetime, timedelta
from uuid import uuid4

import pytest
from asgiref.sync import async_to_sync
from django.test import Client
from django.urls import reverse

from helmwright.records.models import Issue, Role
from helmwright.records.readers.day import Coming, day_of, to_come
from helmwright.records.readers.need import expected_need, history
from helmwright.web.desk import stream
from helmwright.web.desk.board import board
from helmwright.web.desk.called import called
from helmwright.web.desk.stream import changes
from tests.web.desk_room import Room, fitting_day

pytestmark = pytest.mark.django_db
NOW = datetime(2026, 8, 7, 15, 41, tzinfo=UTC)


def signed_in(room, role=Role.MANAGER):
    client = Client()
    client.force_login(room.staff[role], "django.contrib.auth.backends.ModelBackend")
    return client


@pytest.mark.parametrize("role", list(Role))
@pytest.mark.parametrize("name", ["day", "day-board", "day-order"])
def test_every_role_may_look_at_the_day(role, name):
    assert signed_in(Room(NOW), role).get(reverse(name)).status_code == 200


@pytest.mark.parametrize("name", ["day", "day-board", "day-order"])
def test_nobody_looks_at_it_without_signing_in(name, settings):
    settings.LOGIN_URL = "/somewhere/"
    response = Client().get(reverse(name))
    assert response.status_code == 302
    assert response["Location"].startswith("/somewhere/")


def test_the_stream_asks_to_sign_in_instead_of_sending_elsewhere():
    assert Client().get(reverse("day-stream")).status_code == 401


def test_a_room_without_anything_says_what_would_show():
    shown = signed_in(Room(NOW)).get(reverse("day")).content.decode()
    assert "No station is enrolled" in shown
    assert "No parts are in store yet" in shown


def test_the_board_holds_every_visit_at_its_station_and_counts_them():
    fitting_day(NOW)
    day = day_of(NOW, role=Role.MANAGER)
    assert [station.name for station in day.stations] == [f"Station {n}" for n in range(1, 5)]
    assert day.in_visit == 3
    assert [fitting.number for fitting in day.paused] == ["17"]
    assert day.issued == Issue.objects.count() == 17
    marks = {fitting.number: fitting.mark for fitting in day.fittings}
    assert (marks["1"], marks["4"], marks["6"], marks["17"]) == ("yes", "fitted", "visit", "kept")


def test_one_order_of_who_comes_next_that_a_visit_begun_does_not_move():
    room = Room(NOW)
    station = room.station(1)
    room.station(2)
    for number in ("3", "4", "5"):
        room.player(number)
    before = board(day_of(NOW, role=Role.MANAGER), NOW).next
    room.visit(room.player("1"), station, 2, None, "open")
    after = board(day_of(NOW, role=Role.MANAGER), NOW)
    assert [each.split(" ")[0] for each in before] == ["3", "4", "5"]
    assert after.next == before
    assert after.title == "Fitting day: 0 issued, 1 in visit, 3 to come"


def test_a_number_that_two_wear_stands_with_what_tells_them_apart():
    def one(number, name):
        return Coming(uuid4(), number, name, "", is_measured=True)

    dipper, teal, tern, other = (
        one("22", "Dipper Lowland"),
        one("22", "Teal Marsh"),
        one("22", "Tern Shore"),
        one("7", "Teal Marsh"),
    )
    names = called([dipper, teal, tern, other])
    assert [names[each.player] for each in (dipper, teal, tern, other)] == [
        "22 D.",
        "22 Teal",
        "22 Tern",
        "7",
    ]


def test_visits_of_another_day_are_not_on_the_board_unless_they_are_open():
    room = Room(NOW)
    station = room.station(1)
    room.visit(room.player("8"), station, 60 * 30, 60 * 29)
    room.visit(room.player("9"), station, 60 * 30, None, "paused")
    assert [fitting.number for fitting in day_of(NOW, role=Role.MANAGER).fittings] == ["9"]


def test_a_visit_without_a_station_stands_at_the_desk():
    room = Room(NOW)
    room.visit(room.player("8"), None, 10, None, "open")
    assert [station.name for station in day_of(NOW, role=Role.MANAGER).stations] == ["At the desk"]


def test_players_come_by_position_group_then_by_number_as_people_count():
    room = Room(NOW)
    for number, position in (("10", "WR"), ("9", "WR"), ("70", "OL"), ("", "OL"), ("3", "walk-on")):
        room.player(number, position)
    assert [each.number for each in to_come()] == ["70", "", "9", "10", "3"]


def test_who_holds_a_helmet_is_being_fitted_or_waits_for_a_signature_is_not_to_come():
    room = Room(NOW)
    state = {}
    for number, name in enumerate(["new", "issued", "open", "fitted", "no build", "stopped"]):
        state[name] = room.player(str(number))
    helmet = room.helmet("TV-0001")
    room.issue(room.visit(state["issued"], None, 50, 30), helmet)
    room.visit(state["open"], None, 10, None, "open")
    room.visit(state["fitted"], None, 50, 30)
    room.visit(state["no build"], None, 50, 30, "no build")
    room.visit(state["stopped"], None, 50, 30, "stopped")
    assert {each.number for each in to_come()} == {"0", "5"}


def test_who_gave_the_helmet_back_is_to_come_again():
    room = Room(NOW)
    issue = room.issue(room.visit(room.player("7"), None, 50, 30), room.helmet("TV-0001"))
    assert not to_come()
    issue.until = NOW
    issue.save()
    assert [each.number for each in to_come()] == ["7"]


def test_players_who_left_or_were_erased_are_not_to_come():
    room = Room(NOW)
    left, erased = room.player("1"), room.player("2")
    left.is_here = False
    left.save()
    erased.erased_at, erased.name, erased.number = NOW, "", ""
    erased.save()
    assert not to_come()


def test_the_history_of_a_part_ends_with_what_is_on_the_shelf():
    fitting_day(NOW)
    for part in expected_need(NOW.date()).parts:
        if part.place == "shell":
            continue
        steps = history(part, NOW - timedelta(hours=4))
        assert steps[-1][1] == part.outlook.on_hand
        assert [at for at, _ in steps] == sorted(at for at, _ in steps)


def test_what_many_took_today_comes_first_among_what_may_run_out():
    fitting_day(NOW)
    need = expected_need(NOW.date())
    assert need.parts[0].place == "front"
    assert need.parts[0].outlook.on_hand == -1
    assert (need.in_hand, need.to_come) == (4, len(to_come()))


def test_a_visit_that_has_its_part_reserved_still_counts_once():
    room = fitting_day(NOW)
    part = room.stock("crown", room.sheet.pads[0].labels[0], (60, 2))
    visit = room.visit(room.player("99"), None, 5, None, "open", build=room.wire_build())
    visit.reservations.create(id=uuid4(), store=room.store, part=part, at=NOW)
    found = {(each.place, each.size): each for each in expected_need(NOW.date()).parts}
    assert found["crown", part.size].reserved == 1
    assert found["crown", part.size].outlook.on_hand == 6


def test_the_board_asks_as_few_questions_for_many_players_as_for_few(
    django_assert_max_num_queries,
):
    room = fitting_day(NOW, players=300)
    client = signed_in(room)
    with django_assert_max_num_queries(40):
        shown = client.get(reverse("day-board"))
    assert shown.status_code == 200


def test_the_board_holds_no_style_that_the_policy_would_refuse():
    room = fitting_day(NOW)
    for name in ("day", "day-order"):
        shown = signed_in(room).get(reverse(name)).content.decode()
        assert "style=" not in shown
        assert "<style" not in shown
        assert "onclick" not in shown


def test_names_are_written_and_never_run():
    room = Room(NOW)
    room.player("5", name="<b>Heron</b>")
    assert "&lt;b&gt;Heron" in signed_in(room).get(reverse("day-order")).content.decode()


def test_a_stream_ends_as_soon_as_the_server_does_and_none_begins_after_it(monkeypatch):
    monkeypatch.setattr(stream, "STREAMS", stream.Streams())

    async def lines():
        first = changes()
        said = [await anext(first)]
        stream.STREAMS.end()
        return [*said, *[line async for line in first]], [line async for line in changes()]

    first, late = async_to_sync(lines)()
    assert (len(first), len(late)) == (1, 1)


def test_a_stream_ends_by_itself_and_says_when_to_ask_again():
    async def lines():
        return [line async for line in changes(lasts_s=0.0)]

    said = async_to_sync(lines)()
    assert len(said) == 1
    assert "retry: 2000" in said[0]
