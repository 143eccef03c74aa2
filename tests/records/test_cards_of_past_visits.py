"""The card of a visit shows what held when it was signed."""

from datetime import date, timedelta
from uuid import uuid4

import pytest

from helmwright.records.kinds.people import (
    ConsentGiven,
    ConsentWithdrawn,
    ReadingTaken,
    ReadingWithdrawn,
)
from helmwright.records.kinds.things import FaceChanged, HelmetChanged
from helmwright.records.kinds.visits import Acknowledged
from helmwright.records.models import Acknowledgment, Visit
from helmwright.records.readers.fitted import fitted
from helmwright.records.verify import verify
from helmwright.records.words import room_day
from tests.records.entries import a_player, a_team, tell
from tests.records.fitting import MEASURED, Fitting, proposed, put_on
from tests.records.room import Room

pytestmark = pytest.mark.django_db
GUARD = "open, three bars"


@pytest.fixture
def room():
    return Room()


def accepted(room, helmet, player=None):
    fitting = Fitting(room, helmet=helmet, player=player)
    fitting.taken(MEASURED)
    assert fitting.program(proposed())
    fitting.taken(put_on())
    Visit.objects.filter(id=fitting.id).update(state="accepted", ended_at=room.now)
    return Visit.objects.get(id=fitting.id)


def signs(room, visit, name="Avocet Brookside", *, names_it=True):
    said = Acknowledged(
        player=visit.player_id,
        helmet=visit.helmet_id,
        visit=visit.id if names_it else None,
        text_version="1",
        player_signature=name,
        fitter_signature="Dunlin Fen",
    )
    return room.taken(said)


def card_of(room, visit):
    found = fitted(visit.id, today=room_day(room.now))
    assert found is not None
    return found


def test_what_changes_later_is_not_on_the_card_of_a_signed_visit(room):
    helmet = room.helmet()
    room.taken(FaceChanged(helmet=helmet, store=room.store, guard=GUARD))
    visit = accepted(room, helmet)
    first = room.taken(
        ReadingTaken(player=visit.player_id, measure="head_length", value_mm=198.4)
    ).entry.id
    signs(room, visit)
    before = card_of(room, visit)
    assert before.guard == GUARD
    assert before.certified_until == date(2028, 2, 20)
    assert [each.value_mm for each in before.readings if each.id == first] == [198.4]
    room.taken(FaceChanged(helmet=helmet, store=room.store, guard="closed, five bars"))
    room.taken(HelmetChanged(helmet=helmet, recertified_on=date(2026, 8, 1)))
    room.taken(ReadingWithdrawn(player=visit.player_id, reading=first))
    room.taken(ReadingTaken(player=visit.player_id, measure="head_length", value_mm=201.0))
    after = card_of(room, visit)
    assert (after.guard, after.certified_until) == (GUARD, before.certified_until)
    assert [each.id for each in after.readings] == [each.id for each in before.readings]


def test_before_anybody_signed_the_card_shows_how_it_is(room):
    helmet = room.helmet()
    visit = accepted(room, helmet)
    room.taken(FaceChanged(helmet=helmet, store=room.store, guard=GUARD))
    assert card_of(room, visit).guard == GUARD
    assert card_of(room, visit).signed is None


def test_two_visits_with_one_helmet_have_each_its_own_signatures(room):
    helmet = room.helmet()
    first = accepted(room, helmet)
    signs(room, first, "First Signature")
    second = accepted(room, helmet, first.player)
    assert card_of(room, second).signed is None
    signs(room, second, "Second Signature")
    cards = [card_of(room, each).signed for each in (first, second)]
    assert [card and card.player_signature for card in cards] == [
        "First Signature",
        "Second Signature",
    ]


def test_a_signature_that_names_no_visit_is_of_the_one_before_it(room):
    helmet = room.helmet()
    first = accepted(room, helmet)
    signs(room, first, names_it=False)
    room.now += timedelta(minutes=1)
    second = accepted(room, helmet, first.player)
    assert card_of(room, first).signed is not None
    assert card_of(room, second).signed is None


def test_a_consent_that_stood_at_the_signing_is_on_the_card(room):
    helmet = room.helmet()
    visit = accepted(room, helmet)
    said = {"player": visit.player_id, "about": "fitting"}
    paper, late = uuid4(), uuid4()
    room.taken(ConsentGiven.model_validate({**said, "consent": paper, "on_paper": True}))
    signs(room, visit)
    room.taken(ConsentGiven.model_validate({**said, "consent": late, "text_version": "1"}))
    room.taken(ConsentWithdrawn(player=visit.player_id, consent=paper))
    assert [(each.id, each.on_paper) for each in card_of(room, visit).consents] == [(paper, True)]


def test_what_was_signed_for_is_told_again_by_the_ledger():
    player = a_player(a_team())
    tell(ReadingTaken(player=player.id, measure="head_length", value_mm=198.4))
    said = Acknowledged(
        player=player.id, text_version="1", player_signature="Ab C", fitter_signature="De F"
    )
    assert tell(said).is_taken
    assert len(Acknowledgment.objects.get().readings) == 1
    assert verify().faults == ()
