"""Helmets, parts and issue: what follows from each act."""

from datetime import date

import pytest

from helmwright.records.kinds import things, visits
from helmwright.records.models import Helmet, HelmetBuild, Issue, Movement, Part, Reservation, Sheet
from helmwright.records.projection.builds import pads_of
from helmwright.records.projection.reservations import release_for
from helmwright.records.readers.stock import shelf_rows
from helmwright.records.sheets import read_sheet
from helmwright.visit.sheet_digest import sheet_digest
from helmwright.visit.shelf import Shelf as VisitShelf
from tests.records.room import DIGEST, SHEET, TEXT

pytestmark = pytest.mark.django_db
TODAY = date(2026, 8, 7)


def changed(room, helmet, store=None, **pads):
    named = {zone.replace("_", " "): label for zone, label in pads.items()}
    return things.PartsChanged(helmet=helmet, store=store or room.store, pads=named)


def test_a_new_helmet_has_what_its_shell_arrives_with(room):
    helmet = room.helmet(interval_months=None, pads={"crown": "5/8 in"})
    row = Helmet.objects.get()
    assert pads_of(row) == {
        "crown": "5/8 in", "front": "7/8 in", "rear": "7/8 in", "left": "7/8 in",
        "right": "7/8 in", "nape": "1 in", "jaw left": "7/8 in", "jaw right": "7/8 in",
    }  # fmt: skip
    assert (row.id, row.interval_months, row.life_years) == (helmet, 24, 10)


def test_a_changed_pad_moves_the_shelf_both_ways(room):
    helmet = room.helmet()
    room.received("crown", "5/8 in", 2)
    room.taken(changed(room, helmet, crown="5/8 in"))
    assert room.on_hand("crown", "5/8 in") == 1
    assert room.on_hand("crown", "7/8 in") == 1
    assert pads_of(Helmet.objects.get())["crown"] == "5/8 in"
    assert HelmetBuild.objects.count() == 2


def test_what_was_done_with_the_hands_is_taken_from_an_empty_shelf(room):
    room.taken(changed(room, room.helmet(), crown="5/8 in"))
    assert room.on_hand("crown", "5/8 in") == -1


def test_a_count_makes_the_difference_a_movement(room):
    room.taken(changed(room, room.helmet(), crown="5/8 in"))
    counted = things.PartsCounted(
        store=room.store, sheet=DIGEST, place="crown", size="5/8 in", count=3
    )
    room.taken(counted)
    assert room.on_hand("crown", "5/8 in") == 3
    assert Movement.objects.get(why="counted").quantity == 4
    room.taken(counted)
    assert Movement.objects.filter(why="counted").count() == 1


def test_pads_of_a_pool_are_taken_from_the_pool_and_go_back_to_it(room):
    room.received("sides", "1 in", 2)
    room.taken(changed(room, room.helmet(), left="1 in", right="1 in"))
    assert room.on_hand("sides", "1 in") == 0
    assert room.on_hand("sides", "7/8 in") == 2
    assert not Part.objects.filter(place__in=["left", "right"]).exists()


def test_pads_of_a_zone_are_taken_first_while_there_are_any(room):
    room.received("sides", "1 in", 1)
    room.received("left", "1 in", 1)
    room.taken(changed(room, room.helmet(), left="1 in"))
    assert (room.on_hand("left", "1 in"), room.on_hand("sides", "1 in")) == (0, 1)
    room.taken(changed(room, room.helmet("TV-0148"), left="1 in"))
    assert (room.on_hand("left", "1 in"), room.on_hand("sides", "1 in")) == (0, 0)


def test_two_pads_that_change_sides_leave_the_shelf_as_it_was(room):
    helmet = room.helmet(pads={"left": "1 in", "right": "3/4 in"})
    room.received("sides", "1 in", 1)
    room.taken(changed(room, helmet, left="3/4 in", right="1 in"))
    assert room.on_hand("sides", "1 in") == 1
    assert room.on_hand("sides", "3/4 in") == 0


def test_parts_that_the_sheet_does_not_have_are_set_aside_with_those_that_it_has(room):
    helmet = room.helmet()
    assert "3/8 in, 5/8 in" in room.note(changed(room, helmet, crown="2 in"))
    assert "crown, front" in room.note(changed(room, helmet, brow="1 in"))


def test_a_guard_goes_to_the_shelf_and_another_comes_from_it(room):
    helmet = room.helmet(guard="open, three bars")
    room.received("guard", "closed, four bars", 1)
    room.taken(
        things.FaceChanged(helmet=helmet, store=room.store, guard="closed, four bars", strap="own")
    )
    row = Helmet.objects.get()
    assert (row.guard, row.strap) == ("closed, four bars", "own")
    assert room.on_hand("guard", "closed, four bars") == 0
    assert room.on_hand("guard", "open, three bars") == 1


def test_a_second_hold_keeps_the_first_reason(room):
    helmet = room.helmet()
    room.taken(things.HelmetHeld(helmet=helmet, why="a screw is missing"))
    room.taken(things.HelmetHeld(helmet=helmet, why="the shell is cracked"))
    assert Helmet.objects.get().hold == "a screw is missing; the shell is cracked"
    room.taken(things.HelmetReleased(helmet=helmet))
    assert Helmet.objects.get().hold == ""


@pytest.mark.parametrize(
    ("fields", "told"),
    [
        ({"first_certified_on": date(2024, 8, 7)}, "lapsed on Aug 7, 2026"),
        ({"made_on": date(2016, 8, 7)}, "life ended on Aug 7, 2026"),
    ],
)
def test_a_lapsed_helmet_is_not_issued(room, fields, told):
    helmet = room.helmet(**fields)
    assert told in room.note(visits.HelmetIssued(helmet=helmet, player=room.player().id))
    assert not Issue.objects.exists()


def test_a_helmet_on_hold_is_not_issued_and_one_that_is_unknown_is(room):
    helmet = room.helmet(first_certified_on=None)
    player = room.player()
    room.taken(things.HelmetHeld(helmet=helmet, why="a screw is missing"))
    note = room.note(visits.HelmetIssued(helmet=helmet, player=player.id))
    assert "on hold: a screw is missing" in note
    room.taken(things.HelmetReleased(helmet=helmet))
    room.taken(visits.HelmetIssued(helmet=helmet, player=player.id))
    assert Issue.objects.get().player_id == player.id


def test_a_helmet_has_one_holder_and_a_player_several_helmets(room):
    first, second = room.helmet(), room.helmet("TV-0148")
    player, other = room.player(), room.player("15", "Merlin Bay")
    room.taken(visits.HelmetIssued(helmet=first, player=player.id, purpose="game"))
    room.taken(visits.HelmetIssued(helmet=second, player=player.id, purpose="practice"))
    note = room.note(visits.HelmetIssued(helmet=first, player=other.id))
    assert "another player at 10:48 AM" in note
    assert "Brookside" not in note
    room.taken(visits.HelmetReturned(helmet=first, store=room.drawer, condition="a bent guard"))
    room.taken(visits.HelmetIssued(helmet=first, player=other.id))
    assert Issue.objects.filter(until__isnull=True).count() == 2
    assert Helmet.objects.get(id=first).store_id == room.drawer


def test_the_first_of_two_visits_has_the_helmet_and_the_other_is_told(room):
    helmet = room.helmet()
    three, four = room.station("Station 3"), room.station("Station 4")
    first, second = room.visit(), room.visit()
    reserved = visits.HelmetReserved(visit=first.id, helmet=helmet)
    room.taken(reserved, device=three.id)
    room.taken(reserved, device=three.id)
    lost = visits.HelmetReserved(visit=second.id, helmet=helmet)
    assert room.note(lost, device=four.id) == (
        "Station 3 took TV-0147 at 10:47 AM. Take another helmet."
    )
    room.taken(visits.ReservationsReleased(visit=first.id))
    assert "TV-0147 into a visit" in room.note(lost, device=four.id)
    other = room.helmet("TV-0148")
    room.taken(visits.HelmetReserved(visit=first.id, helmet=other), device=three.id)
    room.taken(lost, device=four.id)


def test_the_last_pad_goes_to_the_first_and_the_other_is_told_where_some_are(room):
    room.received("front", "1 in", 1)
    room.received("front", "1 in", 2, store=room.drawer)
    first, second = room.visit(), room.visit()
    station = room.station("Station 3")
    asked = {"store": room.store, "zone": "front", "size": "1 in"}
    room.taken(visits.PartReserved(visit=first.id, **asked), device=station.id)
    room.taken(visits.PartReserved(visit=first.id, **asked), device=station.id)
    assert Reservation.objects.count() == 1
    assert room.note(visits.PartReserved(visit=second.id, **asked)) == (
        "Station 3 took the last front 1 in at 10:48 AM. Two are left in Drawer 8."
    )


def test_another_pad_for_the_same_zone_frees_the_first(room):
    room.received("front", "1 in", 1)
    room.received("front", "3/4 in", 1)
    first, second = room.visit(), room.visit()
    asked = {"store": room.store, "zone": "front"}
    room.taken(visits.PartReserved(visit=first.id, size="1 in", **asked))
    room.taken(visits.PartReserved(visit=first.id, size="3/4 in", **asked))
    room.taken(visits.PartReserved(visit=second.id, size="1 in", **asked))
    held = Reservation.objects.filter(until__isnull=True)
    assert held.get(visit=first.id).part == Part.objects.get(size="3/4 in")
    assert held.get(visit=second.id).part == Part.objects.get(size="1 in")


def test_a_part_is_not_reserved_for_a_visit_that_has_ended(room):
    room.received("front", "1 in", 1)
    visit = room.visit(state="stopped")
    asked = visits.PartReserved(visit=visit.id, store=room.store, zone="front", size="1 in")
    assert "has ended" in room.note(asked)


def test_a_part_that_was_used_is_no_longer_reserved(room):
    helmet = room.helmet()
    room.received("sides", "1 in", 2)
    visit = room.visit()
    room.taken(visits.HelmetReserved(visit=visit.id, helmet=helmet))
    for zone in ("left", "right"):
        room.taken(visits.PartReserved(visit=visit.id, store=room.store, zone=zone, size="1 in"))
    assert set(Reservation.objects.filter(part__isnull=False).values_list("slot", flat=True)) == {
        1,
        2,
    }
    room.taken(changed(room, helmet, left="1 in"))
    held = Reservation.objects.filter(part__isnull=False, until__isnull=True)
    assert held.get().zone == "right"


def test_an_issue_from_a_visit_needs_that_it_was_accepted(room):
    helmet, player = room.helmet(), room.player()
    visit = room.visit(player, helmet=helmet)
    issued = visits.HelmetIssued(helmet=helmet, player=player.id, visit=visit.id)
    assert "not accepted yet" in room.note(issued)
    type(visit).objects.update(state="accepted", ended_at=room.now)
    signed = visits.Acknowledged(
        player=player.id,
        helmet=helmet,
        visit=visit.id,
        text_version="1",
        player_signature="Avocet Brookside",
        fitter_signature="Dunlin Fen",
    )
    room.taken(signed)
    room.taken(issued)


def test_an_accepted_helmet_stays_meant_for_its_player_until_it_is_issued_or_let_go(room):
    helmet, player = room.helmet(), room.player()
    visit = room.visit(player, helmet=helmet, state="accepted")
    kept = room.taken(things.HelmetHeld(helmet=room.helmet("TV-0148"), why="a screw is missing"))
    release_for(visit, kept.entry)
    other = visits.HelmetIssued(helmet=helmet, player=room.player("7").id)
    assert "took TV-0147" in room.note(other)
    room.taken(visits.ReservationsReleased(visit=visit.id))
    room.taken(other)


def test_a_helmet_that_is_meant_for_one_player_is_not_meant_for_a_second(room):
    helmet = room.helmet()
    first = room.visit(helmet=helmet, state="accepted")
    second = room.visit(helmet=helmet, state="accepted")
    for visit in (first, second):
        kept = room.taken(things.HelmetMoved(helmet=helmet, store=room.drawer))
        release_for(visit, kept.entry)
    assert Reservation.objects.get(until__isnull=True).visit_id == first.id


def test_a_visit_that_stopped_leaves_nothing_reserved(room):
    helmet = room.helmet()
    visit = room.visit()
    reserved = room.taken(visits.HelmetReserved(visit=visit.id, helmet=helmet))
    visit.state = "stopped"
    release_for(visit, reserved.entry)
    assert not Reservation.objects.filter(until__isnull=True).exists()


def test_a_helmet_of_the_players_own_is_refitted_and_not_reserved_after_it(room):
    helmet, player = room.helmet(), room.player()
    issued = room.taken(visits.HelmetIssued(helmet=helmet, player=player.id))
    visit = room.visit(player)
    room.taken(visits.HelmetReserved(visit=visit.id, helmet=helmet))
    visit.refresh_from_db()
    visit.state = "accepted"
    release_for(visit, issued.entry)
    assert not Reservation.objects.filter(until__isnull=True).exists()


def test_a_shelf_leaves_out_what_others_have_spoken_for(room):
    room.received("front", "1 in", 2)
    visit = room.visit()
    room.taken(visits.PartReserved(visit=visit.id, store=room.store, zone="front", size="1 in"))
    rows = shelf_rows(room.store, DIGEST)
    assert rows == [("front", "1 in", 1)]
    VisitShelf.of(SHEET, rows)
    assert ("front", "1 in", 2) in shelf_rows(room.store, DIGEST, visit=visit.id)


def test_helmets_and_parts_go_by_a_newer_sheet_of_their_model(room):
    helmet = room.helmet()
    room.received("front", "1 in", 2)
    text = TEXT.replace("recertify_every_months = 24", "recertify_every_months = 12")
    newer = sheet_digest(read_sheet(text))
    assert newer != DIGEST
    room.taken(things.SheetAdded(digest=newer, text=text))
    assert Sheet.objects.get(is_current=True).digest == newer
    assert Helmet.objects.get(id=helmet).sheet_id == Part.objects.get().sheet_id == newer
    assert ("front", "1 in", 2) in shelf_rows(room.store, DIGEST)
    room.taken(things.SheetAdded(digest=DIGEST, text=TEXT))
    assert Sheet.objects.get(is_current=True).digest == DIGEST
