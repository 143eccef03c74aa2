"""Acts of the desk upon things: what is refused before it is kept, and what is told after."""

from datetime import datetime
from uuid import uuid4

import pytest
from pydantic import ValidationError

from helmwright.records.actions.opening import SheetRefusedError, add_sheet
from helmwright.records.actions.stock import (
    Counted,
    CountRefusedError,
    PartOf,
    move_parts,
    receive_parts,
    scrap_parts,
    take_stock,
)
from helmwright.records.kinds import Payload
from helmwright.records.kinds.things import (
    FaceChanged,
    HelmetAdded,
    HelmetChanged,
    HelmetHeld,
    HelmetMoved,
    HelmetReleased,
    HelmetRetired,
    PartsChanged,
    PartsMoved,
    StoreOpened,
)
from helmwright.records.kinds.visits import HelmetIssued, HelmetReturned, VisitSaid
from helmwright.records.models import Entry, Helmet, Role, Staff
from helmwright.records.saying import MayNotSayError, say
from tests.records.entries import a_member
from tests.records.room import CERTIFIED, DIGEST, TEXT

pytestmark = pytest.mark.django_db
CROWN = PartOf(DIGEST, "crown", "5/8 in")
FRONT = PartOf(DIGEST, "front", "1 in")


@pytest.fixture
def desk():
    return a_member(Role.MANAGER)


def test_a_text_that_is_no_sheet_is_refused_with_its_faults_and_nothing_is_kept(room, desk):
    before = Entry.objects.count()
    broken = TEXT.replace("recertify_every_months = 24", 'recertify_every_months = "two years"')
    with pytest.raises(SheetRefusedError, match="recertify_every_months"):
        add_sheet(text=broken, by=desk, now=room.now)
    with pytest.raises(SheetRefusedError, match="not 00000000"):
        add_sheet(text=TEXT, by=desk, now=room.now, digest="0" * 64)
    assert Entry.objects.count() == before


def all_taken(by: Staff, now: datetime, *said: Payload) -> None:
    assert all(say(each, by=by, now=now).is_taken for each in said)


def test_a_helmet_goes_through_the_room(room, desk):
    who = {"by": desk, "now": room.now}
    trunk, helmet = uuid4(), uuid4()
    issue = HelmetIssued(helmet=helmet, player=room.player().id)
    all_taken(
        desk,
        room.now,
        StoreOpened(store=trunk, name="Trunk A"),
        HelmetAdded(
            helmet=helmet,
            store=trunk,
            code="TV-9",
            sheet=DIGEST,
            shell=3,
            first_certified_on=CERTIFIED,
            serial="OZ-881",
        ),
        PartsChanged(helmet=helmet, store=trunk, pads={"crown": "5/8 in"}),
        FaceChanged(helmet=helmet, store=trunk, guard="open, three bars"),
        HelmetHeld(helmet=helmet, why="a screw is missing"),
    )
    assert "a screw is missing" in say(issue, **who).entry.note
    all_taken(
        desk,
        room.now,
        HelmetReleased(helmet=helmet),
        issue,
        HelmetReturned(helmet=helmet, store=room.store),
        HelmetMoved(helmet=helmet, store=trunk),
        HelmetChanged(helmet=helmet, color="white"),
        HelmetRetired(helmet=helmet, why="the shell is cracked"),
    )
    row = Helmet.objects.get()
    assert (row.color, row.serial, row.store_id) == ("white", "OZ-881", trunk)
    assert row.retired_on is not None
    assert "retired" in say(issue, **who).entry.note


def test_parts_come_and_go(room, desk):
    who = {"by": desk, "now": room.now}
    receive_parts(part=CROWN, quantity=5, store=room.store, lot="L-7", **who)
    move_parts(part=CROWN, quantity=2, from_store=room.store, to_store=room.drawer, **who)
    scrap_parts(part=CROWN, quantity=1, store=room.store, **who)
    assert room.on_hand("crown", "5/8 in") == 2
    assert room.on_hand("crown", "5/8 in", room.drawer) == 2


@pytest.mark.parametrize(
    "stores",
    [
        {"why": "received"},
        {"why": "moved", "to_store": True},
        {"why": "scrapped", "to_store": True},
        {"why": "moved", "to_store": True, "from_store": True},
    ],
)
def test_parts_that_go_nowhere_are_no_entry(room, stores):
    named = {what: room.store if said is True else said for what, said in stores.items()}
    part = {"sheet": DIGEST, "place": "crown", "size": "5/8 in", "quantity": 1}
    with pytest.raises(ValidationError, match="store"):
        PartsMoved.model_validate(part | named)


@pytest.mark.parametrize("why", ["a\x00b", "a\ud800b"])
def test_a_text_that_a_database_could_not_keep_is_no_entry(room, why):
    with pytest.raises(ValidationError, match="take out what cannot be seen"):
        HelmetHeld(helmet=room.store, why=why)


@pytest.mark.parametrize("value", [float("nan"), [{"x": float("inf")}], "\x00", {"\x00": 1}])
def test_what_is_deep_inside_is_looked_at_too(room, value):
    with pytest.raises(ValidationError, match="take out what cannot be seen"):
        VisitSaid(visit=room.store, player=room.store, place=0, event={"event": [value]})


def test_a_stock_take_is_kept_whole(room, desk):
    receive_parts(part=CROWN, quantity=5, store=room.store, by=desk, now=room.now)
    counts = [Counted(CROWN, 4, expected=5), Counted(FRONT, 2, expected=0)]
    take_stock(store=room.store, counts=counts, by=desk, now=room.now)
    assert (room.on_hand("crown", "5/8 in"), room.on_hand("front", "1 in")) == (4, 2)


@pytest.mark.parametrize(
    ("counts", "told"),
    [
        ([Counted(FRONT, 2), Counted(CROWN, 4, expected=6)], "crown 5/8 in moved while you"),
        ([Counted(FRONT, 2), Counted(PartOf(DIGEST, "crown", "2 in"), 1)], "there are 3/8 in"),
    ],
)
def test_a_stock_take_with_one_count_that_cannot_be_is_not_kept_at_all(room, desk, counts, told):
    receive_parts(part=CROWN, quantity=5, store=room.store, by=desk, now=room.now)
    before = Entry.objects.count()
    with pytest.raises(CountRefusedError, match=told):
        take_stock(store=room.store, counts=counts, by=desk, now=room.now)
    assert Entry.objects.count() == before
    assert (room.on_hand("crown", "5/8 in"), room.on_hand("front", "1 in")) == (5, 0)


def test_a_viewer_may_not_act(room):
    viewer = a_member(Role.VIEWER, "viewer")
    with pytest.raises(MayNotSayError):
        receive_parts(part=CROWN, quantity=5, store=room.store, by=viewer, now=room.now)
