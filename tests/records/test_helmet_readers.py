"""What pages ask of helmets, stores and holders."""

from datetime import date, timedelta

import pytest

from helmwright.records.kinds import things, visits
from helmwright.records.models import Helmet, Part, Role, Sheet, Shelf
from helmwright.records.pad_changes import PadChange
from helmwright.records.readers.helmet_life import helmet_life
from helmwright.records.readers.helmets import helmet_of_code, helmets, verdict_on
from helmwright.records.readers.helmets_here import changes_to, helmets_here
from helmwright.records.readers.holders import holders_of
from helmwright.records.readers.stock import (
    history_by_day,
    movements,
    parts_below_zero,
    shelf_rows,
    store_parts,
)
from tests.records.room import DIGEST

pytestmark = pytest.mark.django_db
TODAY = date(2026, 8, 7)


def test_the_list_finds_a_helmet_by_its_code_or_serial_and_by_its_holder(room):
    first = room.helmet("TV-0147", serial="OZ-881")
    room.helmet("TV-0148")
    room.taken(visits.HelmetIssued(helmet=first, player=room.player("7").id))
    for search in ("0147", "oz-881", "7", "brookside"):
        assert [row.code for row in helmets(day=TODAY, search=search)] == ["TV-0147"], search
    assert [row.code for row in helmets(day=TODAY)] == ["TV-0147", "TV-0148"]
    found = helmet_of_code(" tv-0148 ")
    assert found is not None
    assert found.code == "TV-0148"
    assert helmet_of_code("TV-9") is None


def test_the_list_says_for_which_visit_a_helmet_is_reserved(room):
    helmet, visit = room.helmet(), room.visit()
    room.taken(visits.HelmetReserved(visit=visit.id, helmet=helmet))
    assert [row.meant_for for row in helmets(day=TODAY)] == [visit.id]
    room.taken(visits.ReservationsReleased(visit=visit.id))
    assert [row.meant_for for row in helmets(day=TODAY)] == [None]


def test_a_retired_helmet_is_listed_where_it_is_asked_for(room):
    helmet = room.helmet()
    room.taken(things.HelmetRetired(helmet=helmet, why="the shell is cracked"))
    assert helmets(day=TODAY) == []
    (row,) = helmets(day=TODAY, retired=True)
    assert (row.verdict.word, row.verdict.mark) == ("retired", "no")


def test_as_many_queries_for_forty_helmets_as_for_two(room, django_assert_num_queries):
    for number in range(2):
        room.helmet(f"TV-{number}")
    with django_assert_num_queries(4):
        helmets(day=TODAY)
    for number in range(2, 40):
        room.helmet(f"TV-{number}")
    with django_assert_num_queries(4):
        assert len(helmets(day=TODAY)) == 40
    with django_assert_num_queries(7):
        assert len(helmets_here(room.store, DIGEST, day=TODAY)) == 40


def test_a_life_tells_every_entry_and_since_when_each_pad_is_in(room):
    helmet, player = room.helmet(), room.player()
    added = room.now
    room.taken(
        things.PartsChanged(helmet=helmet, store=room.store, pads={"crown": "5/8 in"}, why="wear")
    )
    changed = room.now
    room.taken(visits.HelmetIssued(helmet=helmet, player=player.id, purpose="game"))
    room.said(things.HelmetReleased(helmet=helmet))
    room.taken(visits.HelmetReturned(helmet=helmet, store=room.drawer, condition="scratched"))
    life = helmet_life(Helmet.objects.get(), role=Role.MANAGER)
    pads = {pad.zone: (pad.label, pad.since) for pad in life.pads}
    assert pads["crown"] == ("5/8 in", changed)
    assert pads["front"] == ("7/8 in", added)
    assert [entry.words for entry in life.entries] == [
        "Returned to Drawer 8: scratched.",
        "Hold lifted.",
        "Issued to Avocet Brookside, for game.",
        "Crown 5/8 in put in from Room, for wear.",
        "Added as shell 3, in Room.",
    ]
    assert [bool(entry.note) for entry in life.entries] == [False, True, False, False, False]
    assert life.holders == tuple(holders_of(helmet))
    assert life.holders[0].until == room.now


def test_a_helmet_is_told_for_any_day(room):
    room.helmet(recertified_on=date(2026, 6, 1))
    helmet = Helmet.objects.get()
    assert verdict_on(helmet, date(2028, 5, 31)).word == "good to issue"
    assert verdict_on(helmet, date(2028, 6, 1)).word == "not good to issue"
    assert verdict_on(helmet, TODAY).lapses_on == date(2028, 6, 1)


def test_helmets_of_a_store_say_what_is_to_be_changed_and_why_one_cannot_be_had(room):
    first = room.helmet("TV-1", pads={"crown": "5/8 in"})
    room.helmet("TV-2", first_certified_on=None)
    room.taken(things.HelmetHeld(helmet=first, why="a screw is missing"))
    one, two = helmets_here(room.store, DIGEST, day=TODAY)
    assert (one.is_free, one.why) == (False, "It is on hold: a screw is missing.")
    assert (two.is_free, two.why) == (True, "No certification is recorded.")
    wanted = {"crown": "7/8 in", "front": "7/8 in"}
    sheet = Sheet.objects.get()
    assert changes_to(one.pads, wanted, sheet) == (PadChange("crown", "5/8 in", "7/8 in"),)
    room.taken(visits.HelmetIssued(helmet=two.id, player=room.player().id))
    assert helmets_here(room.store, DIGEST, day=TODAY)[1].why == "It is issued to another player."
    assert helmets_here(room.store, DIGEST, day=TODAY, shell=1) == []


def test_a_store_lists_its_parts_in_the_order_of_the_sheet(room):
    room.received("front", "1 in", 3)
    room.received("crown", "1 1/8 in", 1)
    room.received("crown", "5/8 in", 2)
    room.received("guard", "closed, four bars", 1)
    rows = store_parts(room.store)
    assert [(row.place, row.size, row.on_hand) for row in rows] == [
        ("crown", "5/8 in", 2),
        ("crown", "1 1/8 in", 1),
        ("front", "1 in", 3),
        ("guard", "closed, four bars", 1),
    ]
    assert ("guard", "closed, four bars", 1) not in shelf_rows(room.store, DIGEST)


def test_a_part_below_zero_stands_among_the_differences(room):
    room.taken(
        things.PartsChanged(helmet=room.helmet(), store=room.store, pads={"crown": "5/8 in"})
    )
    (row,) = parts_below_zero()
    assert (row.size, row.on_hand, row.free, row.is_to_be_counted) == ("5/8 in", -1, 0, True)
    assert ("crown", "5/8 in", 0) in shelf_rows(room.store, DIGEST)


def test_the_history_of_a_part_steps_by_days(room):
    room.received("front", "1 in", 3)
    room.received("front", "1 in", 2)
    room.now += timedelta(days=2)
    room.taken(
        things.PartsMoved(
            sheet=DIGEST,
            place="front",
            size="1 in",
            quantity=4,
            from_store=room.store,
            to_store=room.drawer,
            why="moved",
        )
    )
    part = Part.objects.get()
    assert history_by_day(room.store, part.id) == [
        (date(2026, 8, 7), 5),
        (date(2026, 8, 9), 1),
    ]
    held = Shelf.objects.filter(part=part).values_list("store__name", "on_hand")
    assert sorted(held) == [("Drawer 8", 4), ("Room", 1)]
    assert [row.quantity for row in movements(room.store, part.id)] == [-4, 2, 3]
