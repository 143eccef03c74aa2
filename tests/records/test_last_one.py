"""Stations that want the same thing at the same moment: one has it, and the others are told."""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from threading import Barrier
from uuid import uuid4

import pytest
from django.db import connection

from helmwright.records.ids import new_id
from helmwright.records.kinds import Payload, things, visits
from helmwright.records.kinds.people import DeviceEnrolled, PlayerAdded
from helmwright.records.ledger import Kept, Said, append
from helmwright.records.models import Entry, HelmetBuild, Issue, Reservation
from helmwright.records.verify import verify
from tests.records.room import DIGEST, Room

pytestmark = pytest.mark.django_db(transaction=True)


class FullRoom(Room):
    """Eight stations, each with a player in a visit."""

    def __init__(self) -> None:
        super().__init__()
        self.stations = [uuid4() for _ in range(8)]
        self.players = [uuid4() for _ in range(8)]
        self.visits = [uuid4() for _ in range(8)]
        for number, (station, player, visit) in enumerate(
            zip(self.stations, self.players, self.visits, strict=True), start=1
        ):
            self.taken(DeviceEnrolled(device=station, name=f"Station {number}"))
            self.taken(PlayerAdded(player=player, team=self.team, number=str(number)))
            begun = visits.VisitBegun(visit=visit, player=player, store=self.store, sheet=DIGEST)
            self.taken(begun, device=station)

    def at_once(self, say: Callable[[int], list[Payload]]) -> list[list[Kept]]:
        """What each station was told; all start together, each on its own connection."""
        start, now = Barrier(len(self.stations)), self.now + timedelta(minutes=1)

        def run(number: int) -> list[Kept]:
            start.wait()
            try:
                device = self.stations[number]
                said = [Said(new_id(now), payload, now, device=device) for payload in say(number)]
                return [append(each, now=now) for each in said]
            finally:
                connection.close()

        with ThreadPoolExecutor(len(self.stations)) as pool:
            return list(pool.map(run, range(len(self.stations))))

    def part(self, number: int, zone: str, size: str = "1 in") -> Payload:
        return visits.PartReserved(
            visit=self.visits[number], store=self.store, zone=zone, size=size
        )


@pytest.fixture
def room():
    return FullRoom()


def outcomes(told: list[list[Kept]]) -> list[str]:
    """The notes of those that lost; an empty one for each that did not."""
    return [kept.entry.note for station in told for kept in station]


def test_of_eight_that_want_the_last_pad_one_has_it_and_seven_are_told_who(room):
    room.received("front", "1 in", 1)
    room.received("front", "1 in", 2, store=room.drawer)
    notes = outcomes(room.at_once(lambda number: [room.part(number, "front")]))
    lost = {note for note in notes if note}
    assert notes.count("") == 1
    (winner,) = Reservation.objects.filter(until__isnull=True)
    assert winner.device is not None
    (note,) = lost
    assert note.startswith(f"{winner.device.name} took the last front 1 in at ")
    assert note.endswith("Two are left in Drawer 8.")
    assert verify().faults == ()


def test_of_eight_that_want_one_helmet_one_has_it(room):
    helmet = room.helmet()
    told = room.at_once(
        lambda number: [visits.HelmetReserved(visit=room.visits[number], helmet=helmet)]
    )
    notes = outcomes(told)
    assert notes.count("") == 1
    assert all("took TV-0147" in note for note in notes if note)
    assert Reservation.objects.filter(until__isnull=True).count() == 1


def test_of_eight_players_that_are_given_one_helmet_one_holds_it(room):
    helmet = room.helmet()
    told = room.at_once(
        lambda number: [visits.HelmetIssued(helmet=helmet, player=room.players[number])]
    )
    notes = outcomes(told)
    assert notes.count("") == 1
    assert all("was issued to another player" in note for note in notes if note)
    assert Issue.objects.count() == 1


def test_eight_stations_share_out_what_there_is_and_not_one_part_more(room):
    zones = ("left", "right", "front", "crown", "jaw left", "jaw right")
    room.received("sides", "1 in", 7)
    room.received("front", "1 in", 5)
    room.received("crown", "7/8 in", 8)
    room.received("jaw", "1 in", 3)

    def wants(number: int) -> list[Payload]:
        return [room.part(number, zone, "7/8 in" if zone == "crown" else "1 in") for zone in zones]

    notes = outcomes(room.at_once(wants))
    assert len(notes) == 48
    assert notes.count("") == 7 + 5 + 8 + 3
    held = Reservation.objects.filter(until__isnull=True)
    slots = list(held.values_list("part__place", "slot"))
    assert len(set(slots)) == len(slots) == 23
    assert {place: max(s for p, s in slots if p == place) for place, _ in slots} == {
        "sides": 7, "front": 5, "crown": 8, "jaw": 3,
    }  # fmt: skip
    assert verify().faults == ()


def test_hands_that_take_the_same_pad_eight_times_leave_a_difference_and_no_loss(room):
    helmets = [room.helmet(f"TV-{number}") for number in range(8)]
    room.received("front", "1 in", 3)

    def change(number: int) -> list[Payload]:
        there_and_back: list[Payload] = []
        for size in ("1 in", "3/4 in", "1 in"):
            pads = {"front": size}
            there_and_back.append(
                things.PartsChanged(helmet=helmets[number], store=room.store, pads=pads)
            )
        return there_and_back

    assert set(outcomes(room.at_once(change))) == {""}
    assert room.on_hand("front", "1 in") == 3 - 8
    assert room.on_hand("front", "7/8 in") == 8
    assert room.on_hand("front", "3/4 in") == 0
    assert HelmetBuild.objects.filter(until__isnull=True).count() == 8
    assert verify().faults == ()


def test_one_entry_from_eight_connections_at_once_moves_the_shelf_once(room):
    room.received("front", "1 in", 3)
    said = Said(
        new_id(room.now),
        things.PartsMoved(
            sheet=DIGEST,
            place="front",
            size="1 in",
            quantity=1,
            from_store=room.store,
            why="scrapped",
        ),
        room.now,
    )
    before = Entry.objects.count()
    start = Barrier(8)

    def run(_: int) -> Kept:
        start.wait()
        try:
            return append(said, now=room.now)
        finally:
            connection.close()

    with ThreadPoolExecutor(8) as pool:
        told = list(pool.map(run, range(8)))
    assert sum(kept.is_new for kept in told) == 1
    assert Entry.objects.count() == before + 1
    assert room.on_hand("front", "1 in") == 2
