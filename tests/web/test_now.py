"""Now: what needs doing, with its reason and its act."""

from datetime import UTC, datetime, timedelta
from uuid import uuid4

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from helmwright.records.kinds.things import HelmetReleased
from helmwright.records.models import Player, Role
from helmwright.records.saying import say
from tests.web.desk_room import Room, fitting_day

pytestmark = pytest.mark.django_db
NOW = datetime(2026, 8, 7, 15, 41, tzinfo=UTC)


def as_role(room, role=Role.MANAGER):
    client = Client()
    client.force_login(room.staff[role], "django.contrib.auth.backends.ModelBackend")
    return client


def page(room, role=Role.MANAGER):
    return as_role(room, role).get(reverse("now")).content.decode()


@pytest.mark.parametrize("role", list(Role))
def test_every_role_sees_what_needs_doing(role):
    assert as_role(Room(NOW), role).get(reverse("now")).status_code == 200


def test_nothing_to_do_is_said_plainly():
    room = Room(NOW)
    helmet = room.helmet("TV-0001")
    room.stock("front", room.sheet.pads[1].labels[0], (600, 4))
    empty = page(room)
    assert "Nothing needs doing" not in empty
    room.issue(room.visit(room.player("24"), None, 60, 30), helmet)
    shown = page(room)
    assert "Nothing needs doing" in shown
    assert "The ledger has no entry yet." in shown


def test_a_day_in_the_middle_tells_each_thing_with_its_reason_and_where_it_is_done():
    room = fitting_day(NOW)
    shown = page(room)
    assert "The visit of 17 is paused at Station 3." in shown
    assert "It goes on with the checks." in shown
    assert "1 player is fitted and has not signed: 4." in shown
    assert "is to be counted in Equipment room" in shown
    assert reverse("store-count", args=[room.store.id]) in shown
    assert "may run out before everybody is fitted" in shown
    assert "players are unmeasured" in shown


def test_who_may_not_count_is_shown_the_store_instead():
    room = fitting_day(NOW)
    shown = page(room, Role.VIEWER)
    assert reverse("store-count", args=[room.store.id]) not in shown
    assert reverse("store", args=[room.store.id]) in shown


def test_a_helmet_that_is_out_and_not_good_comes_before_those_on_the_shelf():
    room = Room(NOW)
    out, here = room.helmet("TV-0001", hold="crack"), room.helmet("TV-0002", hold="bent guard")
    room.issue(room.visit(room.player("24"), None, 60, 30), out)
    shown = page(room)
    assert "TV-0001 is with 24 and is on hold." in shown
    assert "Take it in before it is worn again." in shown
    assert shown.index("TV-0001 is with") < shown.index(f"{here.code} is on hold.")


def test_certifications_that_lapse_soon_are_told_in_time():
    room = Room(NOW)
    today = timezone.localdate()
    room.helmet("TV-0001", recertified_on=today - timedelta(days=720))
    room.helmet("TV-0002", recertified_on=today - timedelta(days=300))
    shown = page(room)
    assert "TV-0001 lapses within 60 days." in shown
    assert "TV-0002" not in shown


def test_a_symptom_leads_to_the_athletic_trainer():
    room = Room(NOW)
    room.visit(room.player("24"), None, 60, 30, "symptom")
    shown = page(room)
    assert "1 player reported a symptom at a fitting: 24." in shown
    assert "Nobody here clears a player" in shown


def test_a_visit_that_was_only_stopped_since_takes_no_symptom_off_the_page():
    room = Room(NOW)
    player = room.player("24")
    room.visit(player, None, 60, 30, "symptom")
    room.visit(player, None, 20, 10, "stopped")
    assert "1 player reported a symptom at a fitting: 24." in page(room)
    room.visit(player, None, 8, 2, "accepted")
    assert "reported a symptom" not in page(room)


def test_many_are_counted_and_the_first_of_them_named():
    room = Room(NOW)
    for number in range(1, 14):
        room.player(str(number))
    assert "13 players are unmeasured: 1, 2, 3, 4, 5, 6, 7, 8 and 5 more." in page(room)


def test_an_entry_without_effect_is_shown_until_it_was_seen():
    room = Room(NOW)
    helmet = room.helmet("TV-0001")
    say(HelmetReleased(helmet=helmet.id), by=room.staff[Role.MANAGER], now=timezone.now())
    client = as_role(room)
    shown = client.get(reverse("now")).content.decode()
    assert "Kept, but without effect" in shown
    assert "was not on hold" in shown
    assert "1 thing needs doing" in shown
    client.post(reverse("now-seen"))
    assert "Kept, but without effect" not in client.get(reverse("now")).content.decode()
    say(HelmetReleased(helmet=helmet.id), by=room.staff[Role.MANAGER], now=timezone.now())
    assert "Kept, but without effect" in client.get(reverse("now")).content.decode()


def test_the_page_asks_as_often_for_many_as_for_few(django_assert_max_num_queries):
    room = fitting_day(NOW, players=300)
    for number in range(80):
        room.helmet(f"XX-{number:04d}")
    client = as_role(room)
    with django_assert_max_num_queries(50):
        assert client.get(reverse("now")).status_code == 200


def test_the_part_that_follows_is_the_part_that_is_shown():
    client = as_role(fitting_day(NOW))
    part = client.get(reverse("now"), HTTP_HX_TARGET="doing").content.decode()
    assert part.startswith('<div id="doing"')
    assert "style=" not in part


def test_what_people_are_called_is_written_and_never_run():
    room = Room(NOW)
    Player.objects.create(id=uuid4(), team=room.team, name="<b>Heron</b>")
    assert "<b>Heron" not in page(room)
