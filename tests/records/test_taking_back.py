"""A file that is undone: the tables are as they were, but for what something leans on."""

from datetime import date
from typing import Any
from uuid import uuid4

import pytest

from helmwright.records.contents import contents
from helmwright.records.kinds import things, visits
from helmwright.records.kinds.people import (
    PersonErased,
    PlayerAdded,
    PlayerChanged,
    PlayerLeft,
    ReadingTaken,
    ReadingWithdrawn,
)
from helmwright.records.models import Helmet, Player, Private, Reading, Shelf, TakeIn, TakeInRow
from helmwright.records.verify import verify
from tests.records.room import CERTIFIED, DIGEST, Room

pytestmark = pytest.mark.django_db
FRONT: dict[str, Any] = {"sheet": DIGEST, "place": "front", "size": "1 in"}
TAPE: dict[str, Any] = {"measure": "tape_circumference", "value_mm": 574.7}


class Files(Room):
    """Takes a file in, and undoes it."""

    def __init__(self):
        super().__init__()
        self.old = uuid4()
        self.taken(PlayerAdded(player=self.old, team=self.team, name="Heron Marshend", number="7"))

    def file(self, what="roster"):
        take_in = uuid4()
        self.taken(things.TakenIn(take_in=take_in, what=what, file_name="kingfishers.csv", rows=2))
        return take_in

    def roster(self):
        """Somebody new with a reading, and another number for somebody who was there."""
        take_in, new = self.file(), uuid4()
        self.taken(
            PlayerAdded(player=new, team=self.team, name="Avocet Brookside", take_in=take_in)
        )
        self.taken(ReadingTaken(player=new, take_in=take_in, **TAPE))
        self.taken(
            PlayerChanged(player=self.old, name="Heron Marshend", number="8", take_in=take_in)
        )
        return take_in, new

    def undone(self, take_in):
        self.taken(things.TakeInUndone(take_in=take_in))

    def left(self, take_in):
        return {row.subject: row.left for row in TakeInRow.objects.filter(take_in=take_in)}


@pytest.fixture
def room():
    return Files()


@pytest.fixture
def whole():
    """The ledger tells the same tables again, whatever a test did."""
    yield
    assert verify().faults == ()


def as_before(before):
    """Every table but that of the files themselves."""
    return {name: rows for name, rows in before.items() if name != "TakeIn"}


@pytest.mark.usefixtures("whole")
def test_an_undone_roster_leaves_every_table_as_it_was(room):
    before = as_before(contents())
    take_in, new = room.roster()
    assert as_before(contents()) != before
    room.undone(take_in)
    assert as_before(contents()) == before
    assert TakeIn.objects.get().undone_at == room.now
    assert not Private.objects.filter(person=new).exists()


@pytest.mark.usefixtures("whole")
def test_nothing_is_kept_of_somebody_taken_back_who_is_spoken_of_late(room):
    take_in, new = room.roster()
    room.undone(take_in)
    assert "not in the records" in room.note(PlayerChanged(player=new, name="Avocet Brookside"))
    assert not Private.objects.filter(person=new).exists()


@pytest.mark.usefixtures("whole")
def test_a_helmet_taken_back_leaves_no_row_of_another_file(room):
    take_in, helmet = room.file("helmets"), uuid4()
    known: dict[str, Any] = {"code": "TV-2", "sheet": DIGEST, "shell": 3, "store": room.store}
    room.taken(things.HelmetAdded(helmet=helmet, take_in=take_in, **known))
    other, life = room.file("helmets"), Helmet.objects.get().interval_months
    same: dict[str, Any] = {"helmet": helmet, "interval_months": life}
    room.taken(things.HelmetChanged(color="navy", take_in=other, **same))
    room.taken(things.HelmetChanged(color="", **same))
    room.undone(take_in)
    assert not TakeInRow.objects.exists()
    room.undone(other)


@pytest.mark.usefixtures("whole")
def test_a_file_is_undone_once_and_nothing_is_added_to_it_after(room):
    take_in, _ = room.roster()
    room.undone(take_in)
    assert "undone before" in room.note(things.TakeInUndone(take_in=take_in))
    late = PlayerAdded(player=uuid4(), team=room.team, name="Ibis Oxbow", take_in=take_in)
    assert "undone before" in room.note(late)
    assert "Take the file in first" in room.note(things.TakeInUndone(take_in=uuid4()))


@pytest.mark.parametrize(
    ("since", "why"),
    [
        (lambda room, new: room.visit(Player.objects.get(id=new)), "fit visit"),
        (
            lambda room, new: room.taken(visits.HelmetIssued(helmet=room.helmet(), player=new)),
            "issued",
        ),
        (
            lambda room, new: room.taken(PlayerChanged(player=new, name="Avocet Brookside B")),
            "changed",
        ),
        (
            lambda room, new: room.taken(
                ReadingWithdrawn(player=new, reading=Reading.objects.get().id)
            ),
            "withdrawn",
        ),
        (lambda room, new: room.taken(ReadingTaken(player=new, **TAPE)), "Another reading"),
        (lambda room, new: room.taken(PlayerLeft(player=new)), "left the roster"),
    ],
)
def test_a_player_on_whom_something_leans_stays_and_the_others_go(room, since, why):
    take_in, new = room.roster()
    since(room, new)
    kept = Reading.objects.filter(player=new).count()
    room.undone(take_in)
    assert Player.objects.filter(id=new).exists()
    assert Reading.objects.filter(player=new).count() == kept
    assert Player.objects.get(id=room.old).number == "7"
    left = room.left(take_in)
    assert set(left) == {new}
    assert why in left[new]


@pytest.mark.usefixtures("whole")
def test_somebody_who_was_erased_is_not_brought_back(room):
    take_in, new = room.roster()
    room.taken(PersonErased(player=new))
    room.taken(PersonErased(player=room.old))
    room.undone(take_in)
    assert set(Player.objects.values_list("name", flat=True)) == {""}
    assert not TakeInRow.objects.exists()


@pytest.mark.usefixtures("whole")
def test_whoever_was_changed_stays_and_the_ledger_tells_so_again_after_an_erasure(room):
    take_in, new = room.roster()
    room.taken(PlayerChanged(player=new, name="Avocet Brookside B"))
    room.undone(take_in)
    room.taken(PersonErased(player=new))
    assert Player.objects.filter(id=new).exists()


@pytest.mark.usefixtures("whole")
def test_a_later_file_that_is_undone_first_leaves_the_earlier_one_free_to_be_undone(room):
    first, new = room.roster()
    second = room.file()
    room.taken(PlayerChanged(player=new, name="Avocet Brookside", number="9", take_in=second))
    room.undone(second)
    room.undone(first)
    assert not Player.objects.filter(id=new).exists()


@pytest.mark.usefixtures("whole")
def test_undone_helmets_are_gone_and_changed_ones_as_they_were(room):
    old = room.helmet("TV-1", color="white")
    before = as_before(contents())
    take_in = room.file("helmets")
    added = things.HelmetAdded(
        helmet=uuid4(), code="TV-2", sheet=DIGEST, shell=3, store=room.store, take_in=take_in
    )
    room.taken(added)
    room.taken(
        things.HelmetChanged(
            helmet=old, color="navy", first_certified_on=CERTIFIED, take_in=take_in
        )
    )
    room.taken(things.HelmetMoved(helmet=old, store=room.drawer, take_in=take_in))
    room.undone(take_in)
    assert as_before(contents()) == before


@pytest.mark.parametrize(
    ("since", "why"),
    [
        (lambda _room, helmet: things.HelmetHeld(helmet=helmet, why="a screw is missing"), "hold"),
        (
            lambda room, helmet: things.PartsChanged(
                helmet=helmet, store=room.store, pads={"crown": "5/8 in"}
            ),
            "parts were changed",
        ),
        (lambda room, helmet: visits.HelmetIssued(helmet=helmet, player=room.old), "issued"),
        (lambda room, helmet: things.HelmetMoved(helmet=helmet, store=room.drawer), None),
    ],
)
@pytest.mark.usefixtures("whole")
def test_a_helmet_on_which_something_leans_stays(room, since, why):
    take_in, helmet = room.file("helmets"), uuid4()
    room.taken(
        things.HelmetAdded(
            helmet=helmet,
            code="TV-2",
            sheet=DIGEST,
            shell=3,
            store=room.store,
            made_on=date(2025, 3, 1),
            first_certified_on=CERTIFIED,
            take_in=take_in,
        )
    )
    room.taken(since(room, helmet))
    room.undone(take_in)
    assert Helmet.objects.filter(id=helmet).exists() is (why is not None)
    if why:
        assert why in room.left(take_in)[helmet]


@pytest.mark.parametrize("count", [0, 2, 9])
@pytest.mark.usefixtures("whole")
def test_an_undone_stock_take_leaves_the_shelf_as_it_was(room, count):
    room.received("front", "1 in", 4)
    before = as_before(contents())
    take_in = room.file("stock")
    room.taken(things.PartsCounted(store=room.store, count=count, take_in=take_in, **FRONT))
    other = {**FRONT, "place": "rear"}
    room.taken(things.PartsCounted(store=room.drawer, count=count, take_in=take_in, **other))
    room.taken(
        things.PartsMoved(to_store=room.store, quantity=3, why="received", take_in=take_in, **FRONT)
    )
    room.undone(take_in)
    assert as_before(contents()) == before


@pytest.mark.usefixtures("whole")
def test_what_was_counted_since_stays(room):
    take_in = room.file("stock")
    room.taken(things.PartsCounted(store=room.store, count=4, take_in=take_in, **FRONT))
    room.taken(things.PartsCounted(store=room.store, count=4, **FRONT))
    room.undone(take_in)
    assert room.on_hand("front", "1 in") == 4
    assert "counted since" in room.left(take_in)[room.store]


@pytest.mark.usefixtures("whole")
def test_parts_that_left_since_are_not_taken_back(room):
    take_in = room.file("stock")
    received = things.PartsMoved(
        to_store=room.store, quantity=3, why="received", take_in=take_in, **FRONT
    )
    room.taken(received)
    room.taken(things.PartsMoved(from_store=room.store, quantity=1, why="scrapped", **FRONT))
    room.undone(take_in)
    assert Shelf.objects.get().on_hand == 2
    assert "left the store since" in room.left(take_in)[room.store]
