"""The demo room: told once, whole, through entries that all take effect."""

from collections import Counter
from datetime import UTC, datetime

import pytest

from helmwright.records.demo import OtherRoomError, demo_code, is_told, sign_ins, tell_story
from helmwright.records.demo import setting as demo_setting
from helmwright.records.demo.story import LOTS, NEWCOMERS, PASSWORD, STATIONS, UNMEASURED
from helmwright.records.facts import facts_of
from helmwright.records.good_to_issue import HelmetStanding, good_to_issue
from helmwright.records.models import (
    Device,
    Entry,
    Helmet,
    Issue,
    Player,
    Role,
    Shelf,
    Staff,
    Store,
    Visit,
)
from helmwright.records.pins import checked_pin
from helmwright.records.sheets import sheet_of
from helmwright.records.verify import verify

NOW = datetime(2026, 8, 7, 17, 30, tzinfo=UTC)


@pytest.mark.django_db
def test_before_the_fitting_day_there_are_sixty_helmets_and_some_are_not_good():
    demo_setting.opened(NOW)
    day = NOW.date()
    found = Counter(
        good_to_issue(facts_of(helmet, sheet_of(helmet.sheet)), day).standing
        for helmet in Helmet.objects.select_related("sheet")
    )
    assert sum(found.values()) == sum(lot.count for lot in LOTS) == 60
    assert found[HelmetStanding.NOT_GOOD] == 7
    assert found[HelmetStanding.ON_HOLD] == 1
    assert found[HelmetStanding.UNKNOWN] == 0
    assert Store.objects.count() == 3
    assert {staff.role for staff in Staff.objects.all()} == set(Role)
    unmeasured = Player.objects.filter(readings=None)
    assert unmeasured.count() == len(UNMEASURED) + len(NEWCOMERS)


@pytest.mark.django_db
def test_what_is_printed_signs_in_and_every_pin_may_be_one():
    demo_setting.opened(NOW)
    for member in sign_ins():
        staff = Staff.objects.get(username=member.username)
        assert staff.check_password(PASSWORD)
        assert bool(staff.pin) == bool(member.pin)
        assert not member.pin or checked_pin(member.pin)
    assert len(demo_code(now=NOW) or "") == 8


@pytest.mark.django_db
def test_a_room_that_holds_records_is_not_told_into():
    demo_setting.opened(NOW)
    with pytest.raises(OtherRoomError, match="a folder of its own"):
        tell_story(now=NOW)


@pytest.mark.slow
@pytest.mark.django_db
def test_the_fitting_day_is_told_to_where_the_story_leaves_it_and_the_ledger_is_whole():
    tell_story(now=NOW)
    assert is_told()
    states = dict(Visit.objects.values_list("player__number", "state"))
    assert states == {
        "7": "accepted", "84": "accepted", "86": "accepted", "52": "no build",
        "66": "paused", "97": "open", "93": "open",
    }  # fmt: skip
    stations = set(Visit.objects.values_list("station__name", flat=True))
    assert (
        stations
        == {station.name for station in STATIONS}
        == set(Device.objects.values_list("name", flat=True))
    )
    issued = set(Issue.objects.filter(until=None).values_list("player__number", flat=True))
    assert issued == {"7", "86", "90", "55", "44"}
    times = list(Entry.objects.order_by("seq").values_list("server_time", flat=True))
    assert max(times) <= NOW
    assert not Entry.objects.filter(outcome="set aside").exists()
    assert not Shelf.objects.filter(on_hand__lt=0).exists()
    assert verify().is_whole
