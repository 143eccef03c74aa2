"""A person is erased; the ledger stays whole."""

import re
from datetime import UTC, date, datetime
from uuid import uuid4

import pytest

from helmwright.records.head import Head
from helmwright.records.ids import new_id
from helmwright.records.kinds.people import (
    ConsentGiven,
    ConsentWithdrawn,
    GuardianAdded,
    PersonErased,
    PlayerChanged,
    ReadingTaken,
    RetentionHeld,
)
from helmwright.records.ledger import Said, append
from helmwright.records.models import Entry, Guardian, Player, Private, Reading
from helmwright.records.readers.people import erasure_receipt, is_minor
from tests.records.chain_follower import first_fault
from tests.records.entries import NOW, a_player, a_team, tell
from tests.records.everything_kept import everything_kept
from tests.records.tampering import run

pytestmark = pytest.mark.django_db

YEAR = r"(?<![0-9a-f-])2010(?![0-9a-f-])"
"""The year of birth, and no digits out of a digest or an ID."""


@pytest.fixture
def player(db) -> Player:  # noqa: ARG001 - the database is there
    player = a_player(
        a_team(),
        name="Avocet Brookside",
        number="12",
        sex="male",
        birth_year=2010,
        stature_mm=1800,
        weight_kg=80,
        school_class="sophomore",
        position="center",
        glasses=True,
        worn=["braids or locs"],
    )
    tell(GuardianAdded(guardian=uuid4(), player=player.id, name="Plover Ridge", contact="at home"))
    tell(ReadingTaken(player=player.id, measure="head_length", value_mm=198))
    return player


def test_nothing_personal_is_left_and_the_chain_holds(player: Player):
    other = a_player(player.team, name="Tern Hollow")
    before = everything_kept()
    assert "avocet" in before
    assert re.search(YEAR, before)
    assert tell(PersonErased(player=player.id)).is_taken
    left = everything_kept()
    for word in ("avocet", "plover", "at home", "sophomore", "center", "braids"):
        assert word not in left
    assert not re.search(YEAR, left)
    erased = Player.objects.get(id=player.id)
    assert (erased.name, erased.number, erased.sex, erased.worn) == ("", "", "", [])
    assert (erased.weight_kg, erased.stature_mm, erased.glasses) == (None, None, None)
    assert not erased.is_here
    assert erased.erased_at == NOW
    assert Reading.objects.get().player == erased
    assert Guardian.objects.get().name == ""
    assert Private.objects.get().person == other.id
    assert first_fault(run) == ""


def test_what_comes_late_of_an_erased_player_leaves_nothing_behind(player: Player):
    tell(PersonErased(player=player.id))
    late = tell(PlayerChanged(player=player.id, name="Avocet Brookside"))
    assert not late.is_taken
    assert "erased" in late.entry.note
    assert late.entry.private_digest
    assert "avocet" not in everything_kept()
    assert not tell(PersonErased(player=player.id)).is_taken


def test_the_same_event_again_after_an_erasure_is_still_the_same_event(player: Player):
    said = Said(new_id(NOW), PlayerChanged(player=player.id, name="Avocet Hollow"), NOW)
    assert append(said, now=NOW).is_new
    tell(PersonErased(player=player.id))
    again = append(said, now=NOW)
    assert not again.is_new
    assert again.is_taken
    assert again.entry.seq == Entry.objects.count() - 1
    assert "avocet" not in everything_kept()


@pytest.mark.parametrize(
    ("now", "is_held"),
    [
        (datetime(2026, 8, 6, 23, 59, tzinfo=UTC), True),
        # The day has begun in Samoa, and in most of America it has not.
        (datetime(2026, 8, 7, 3, 0, tzinfo=UTC), True),
        (datetime(2026, 8, 7, 12, 0, tzinfo=UTC), False),
    ],
)
def test_a_retention_hold_stands_until_its_day_has_begun_everywhere(
    player: Player, now: datetime, *, is_held: bool
):
    tell(RetentionHeld(player=player.id, until="2026-08-07", why="asked for by counsel"))
    kept = tell(PersonErased(player=player.id), now=now)
    assert kept.is_taken != is_held
    assert ("Aug 7, 2026" in kept.entry.note) == is_held
    assert bool(Player.objects.get().name) == is_held


def test_a_hold_that_was_lifted_blocks_nothing(player: Player):
    tell(RetentionHeld(player=player.id, until="2030-01-01"))
    tell(RetentionHeld(player=player.id, until=None))
    assert tell(PersonErased(player=player.id)).is_taken


def test_the_receipt_says_what_went_what_stays_and_where_the_chain_stood(player: Player):
    assert erasure_receipt(player) is None
    other = a_player(player.team, name="Tern Hollow")
    erased = tell(PersonErased(player=player.id)).entry
    tell(PlayerChanged(player=player.id, name="Avocet Brookside"))
    receipt = erasure_receipt(player)
    assert receipt is not None
    assert receipt.head == Head(erased.seq, erased.digest)
    assert (receipt.private_parts, receipt.guardians, receipt.readings) == (2, 1, 1)
    for told in (
        str(player.id),
        erased.digest,
        "2026-08-07 15:41:00 UTC",
        "words, signatures: 2",
    ):
        assert told in receipt.text
    assert "Avocet" not in receipt.text
    assert erasure_receipt(other) is None


@pytest.mark.parametrize(
    ("known", "is_a_minor"),
    [
        ({"birth_year": 2008}, True),  # whoever was born on Dec 31 is 17 still
        ({"birth_year": 2007}, False),
        ({"school_class": "grade 9"}, True),
        ({"school_class": "college senior"}, False),
        ({"birth_year": 2007, "school_class": "grade 9"}, False),
        ({}, False),
    ],
)
def test_whoever_may_be_under_eighteen_is_a_minor(known: dict[str, object], *, is_a_minor: bool):
    player = a_player(a_team(), **known)
    assert is_minor(player, date(2026, 12, 30)) == is_a_minor


def test_a_consent_to_the_fitting_holds_until_it_is_taken_back(player: Player):
    for about in ("scan", "fitting"):
        consent = uuid4()
        tell(
            ConsentGiven.model_validate(
                {"consent": consent, "player": player.id, "about": about, "text_version": "1"}
            )
        )
    standing = player.consents.filter(about="fitting", withdrawn_at=None)
    assert [each.id for each in standing] == [consent]
    tell(ConsentWithdrawn(player=player.id, consent=consent))
    assert not standing.all().exists()
    assert player.consents.filter(withdrawn_at=None).count() == 1
