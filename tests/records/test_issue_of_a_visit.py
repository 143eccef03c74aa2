"""What is issued after a visit is the helmet that was fitted, as accepted, and signed for since."""

from typing import Any
from uuid import UUID

import pytest

from helmwright.records.kinds.people import PersonErased, PlayerWears
from helmwright.records.kinds.things import HelmetHeld, PartsChanged, SheetAdded
from helmwright.records.kinds.visits import Acknowledged, HelmetIssued, HelmetReturned
from helmwright.records.models import Acknowledgment, Issue
from helmwright.records.readers.fitted import Fitted, fitted
from helmwright.records.sheets import read_sheet
from helmwright.records.verify import verify
from helmwright.records.words import room_day
from helmwright.visit.sheet_digest import sheet_digest
from tests.records.fitting import Fitting, answered, build, pads_in, proposed, put_on
from tests.records.room import SHEET, TEXT, Room

pytestmark = pytest.mark.django_db
FRONT = SHEET.pad("front").labels  # type: ignore[arg-type]
AGAIN = "since its fit was accepted"


@pytest.fixture
def room():
    return Room()


def accept(fitting: Fitting, shell: int = 3, **pads: str) -> None:
    """A build is put on and found right."""
    fitting.taken(put_on(shell, **pads))
    fitting.taken(answered("front", "snug"))
    assert fitting.program({"event": "accepted", "build": build(shell, **pads)})


def unnamed(room: Room, **pads: str) -> Fitting:
    """A visit that ended accepted in shell 4, in a helmet that nobody named."""
    fitting = Fitting(room, helmet=room.helmet("TV-1", shell=3))
    fitting.program(proposed())
    accept(fitting, 4, **pads)
    return fitting


def sign(fitting: Fitting, helmet: UUID, name: str = "Avocet Brookside") -> None:
    said = Acknowledged(
        player=fitting.player.id,
        helmet=helmet,
        visit=fitting.id,
        text_version="1",
        player_signature=name,
        fitter_signature="Dunlin Fen",
    )
    fitting.room.taken(said)


def issue(fitting: Fitting, helmet: UUID, **more: Any) -> HelmetIssued:
    return HelmetIssued(helmet=helmet, player=fitting.player.id, visit=fitting.id, **more)


def card_of(fitting: Fitting) -> Fitted:
    found = fitted(fitting.id, today=room_day(fitting.room.now))
    assert found is not None
    return found


def test_a_helmet_that_nobody_named_is_found_by_its_label_and_is_the_visits_then(room):
    fitting, helmet = unnamed(room), room.helmet("TV-2", shell=4)
    sign(fitting, helmet)
    room.taken(issue(fitting, helmet))
    assert fitting.row.helmet_id == helmet
    assert Issue.objects.get(until=None).helmet_id == helmet
    assert card_of(fitting).signed is not None
    assert verify().faults == ()


def test_a_helmet_of_another_shell_or_model_was_not_on_the_head(room):
    fitting = unnamed(room)
    text = TEXT.replace(SHEET.model, "Another Ouzel (invented)")
    digest = sheet_digest(read_sheet(text))
    room.taken(SheetAdded(digest=digest, text=text))
    for helmet, why in (
        (room.helmet("TV-2", shell=3), "TV-2 is of shell 3, and the accepted build of shell 4."),
        (
            room.helmet("TV-3", shell=4, sheet=digest),
            "TV-3 is of the model Another Ouzel (invented), and",
        ),
    ):
        sign(fitting, helmet)
        assert why in room.note(issue(fitting, helmet, holds_build=True))
    assert fitting.has_no_helmet
    assert not Issue.objects.exists()


def test_one_with_other_pads_on_record_is_looked_into_and_then_has_what_was_on_the_head(room):
    fitting, helmet = unnamed(room, front=FRONT[0]), room.helmet("TV-2", shell=4)
    room.received("front", FRONT[0], 1)
    before = pads_in(helmet)["front"]
    sign(fitting, helmet)
    note = room.note(issue(fitting, helmet))
    assert f"has front {FRONT[0]}; recorded in TV-2 is front {before}." in note
    assert fitting.has_no_helmet
    assert pads_in(helmet)["front"] == before
    room.taken(issue(fitting, helmet, holds_build=True))
    assert pads_in(helmet)["front"] == FRONT[0]
    assert (room.on_hand("front", FRONT[0]), room.on_hand("front", before)) == (0, 1)
    assert verify().faults == ()


def test_a_hold_stands_against_it_as_against_any_other(room):
    fitting, helmet = unnamed(room), room.helmet("TV-2", shell=4)
    sign(fitting, helmet)
    room.taken(HelmetHeld(helmet=helmet, why="a crack at the rear"))
    assert "on hold" in room.note(issue(fitting, helmet, holds_build=True))
    assert fitting.has_no_helmet


def test_pads_that_were_changed_at_the_desk_since_are_looked_into_before_the_issue(room):
    helmet = room.helmet("TV-1")
    fitting = Fitting(room, helmet=helmet)
    fitting.program(proposed())
    accept(fitting)
    sign(fitting, helmet)
    room.taken(PartsChanged(helmet=helmet, store=room.store, pads={"front": FRONT[0]}))
    assert f"recorded in TV-1 is front {FRONT[0]}." in room.note(issue(fitting, helmet))
    room.taken(issue(fitting, helmet, holds_build=True))
    assert pads_in(helmet)["front"] != FRONT[0]


def test_what_was_signed_for_another_build_counts_neither_for_the_card_nor_for_the_issue(room):
    helmet = room.helmet("TV-1")
    fitting = Fitting(room, helmet=helmet)
    fitting.program(proposed(front=FRONT[0]))
    assert AGAIN in not_signed(fitting, helmet, FRONT[0])
    sign(fitting, helmet, "First Signature")
    fitting.taken({"event": "undone"})
    assert AGAIN in not_signed(fitting, helmet, FRONT[1])
    assert card_of(fitting).signed is None
    sign(fitting, helmet, "Second Signature")
    room.taken(issue(fitting, helmet))
    card = card_of(fitting)
    assert card.signed is not None
    assert (card.signed.player_signature, card.pads["front"]) == ("Second Signature", FRONT[1])
    assert verify().faults == ()


def not_signed(fitting: Fitting, helmet: UUID, front: str) -> str:
    """What the ledger says of an issue right after a fit was accepted."""
    accept(fitting, front=front)
    return fitting.room.note(issue(fitting, helmet))


def test_the_same_build_accepted_once_more_is_signed_for_once_more(room):
    helmet = room.helmet("TV-1")
    fitting = Fitting(room, helmet=helmet)
    fitting.program(proposed())
    accept(fitting)
    sign(fitting, helmet)
    fitting.taken({"event": "undone"})
    fitting.taken(answered("front", "snug"))
    assert fitting.program({"event": "accepted", "build": build()})
    assert AGAIN in room.note(issue(fitting, helmet))


def test_glasses_stand_on_the_card_as_when_it_was_signed_and_are_erased_with_the_player(room):
    helmet = room.helmet("TV-1")
    fitting = Fitting(room, helmet=helmet)
    fitting.program(proposed())
    accept(fitting)
    player = fitting.player.id
    room.taken(PlayerWears(player=player, glasses=True))
    assert card_of(fitting).glasses is True
    sign(fitting, helmet)
    room.taken(issue(fitting, helmet))
    room.taken(PlayerWears(player=player, glasses=False))
    assert card_of(fitting).glasses is True
    assert Acknowledgment.objects.get().build == fitting.row.build
    room.taken(HelmetReturned(helmet=helmet, store=room.store))
    room.taken(PersonErased(player=player))
    assert Acknowledgment.objects.get().glasses is None
    assert verify().faults == ()
