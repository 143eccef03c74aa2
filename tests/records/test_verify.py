"""Whoever edits the database is found out, and is told where."""

from uuid import uuid4

import pytest

from helmwright.records.chain import COVERED, GENESIS, digest_of
from helmwright.records.head import NoHeadError, head, typed_digest
from helmwright.records.kinds.people import (
    ConsentGiven,
    DeviceEnrolled,
    GuardianAdded,
    PersonErased,
    PlayerLeft,
    ReadingTaken,
    SeasonOpened,
    TeamOpened,
)
from helmwright.records.models import Entry, Player, Staff
from helmwright.records.verify import chain_faults, verify
from tests.records.entries import a_member, a_player, a_team, tell
from tests.records.tampering import run, without_guard

pytestmark = pytest.mark.django_db


@pytest.fixture
def room(db) -> Player:  # noqa: ARG001 - the database is there
    """A little of everything, one entry set aside, one player erased."""
    team = a_team()
    tell(SeasonOpened(season=uuid4(), team=team.id, name="2026"))
    member = a_member(name="Tern Hollow")
    tell(DeviceEnrolled(device=uuid4(), name="Station 3"))
    player = a_player(team, name="Avocet Brookside", number="12")
    gone = a_player(team, name="Plover Ridge")
    for each in (player, gone):
        tell(GuardianAdded(guardian=uuid4(), player=each.id, name="Heron Lake"))
        tell(ReadingTaken(player=each.id, measure="head_length", value_mm=198.4375), by=member.id)
    tell(ConsentGiven(consent=uuid4(), player=player.id, about="fitting", text_version="1"))
    tell(TeamOpened(team=team.id, name="Again"))
    tell(PersonErased(player=gone.id))
    return player


@pytest.mark.usefixtures("room")
def test_a_room_that_nobody_edited_is_whole():
    verdict = verify()
    assert verdict.faults == ()
    assert verdict.head.seq == Entry.objects.count() == 13
    assert (verdict.private, verdict.erased) == (3, 2)
    assert verdict.rows == 11


def test_an_empty_room_is_whole():
    assert verify().is_whole
    assert verify().head.seq == 0


@pytest.mark.usefixtures("room")
def test_passwords_are_no_difference():
    Staff.objects.update(password="another", pin="4711")  # noqa: S106
    assert verify().is_whole


@pytest.mark.usefixtures("room")
@pytest.mark.parametrize(
    ("statement", "fault"),
    [
        ("UPDATE records_player SET number = '21' WHERE number = '12'", "number is '21', and '12'"),
        ("UPDATE records_reading SET value_mm = value_mm + 3", "value_mm is 201.4375, and 198.437"),
        ("DELETE FROM records_consent", "table Consent, id "),
        ("UPDATE records_device SET name = 'Station 4'", "name is 'Station 4', and 'Station 3'"),
        ("UPDATE records_staff SET role = 'viewer'", "role is 'viewer', and 'manager'"),
        ("UPDATE records_player SET erased_at = NULL", "the private part of entry 6 is missing"),
        ("DELETE FROM records_private WHERE entry_id = 5", "private part of entry 5 is missing"),
        (
            "UPDATE records_private SET body = replace(body, 'Avocet', 'Osprey')",
            "the private part of entry 5 is not what was written",
        ),
    ],
)
def test_an_edited_table_is_found(statement: str, fault: str):
    run(statement)
    (found,) = verify().faults
    assert fault in found
    assert "Avocet" not in found


@pytest.mark.usefixtures("room")
@pytest.mark.parametrize(
    ("statement", "fault"),
    [
        ("DELETE FROM records_entry WHERE seq = 13", "is_here is False, and True by the ledger"),
        ("DELETE FROM records_entry WHERE seq = 2", "entry 2 is missing; the next one there is"),
        ("UPDATE records_entry SET payload = '{}' WHERE seq = 1", "entry 1 (team opened) is not"),
        ("UPDATE records_entry SET seq = 40 WHERE seq = 13", "entry 13 is missing; the next one"),
        ("UPDATE records_entry SET note = 'Why.' WHERE seq = 12", "entry 12 (team opened) is not"),
        ("UPDATE records_entry SET outcome = 'taken' WHERE seq = 12", "entry 12 (team opened)"),
    ],
)
def test_an_edited_ledger_is_found(statement: str, fault: str):
    with without_guard():
        run(statement)
    found = verify().faults
    assert fault in found[0]


@pytest.mark.usefixtures("room")
def test_a_chain_that_was_written_anew_shows_against_the_head_on_paper():
    printed = head()
    assert verify(told_head=typed_digest(printed.short)).is_whole
    with without_guard():
        run("DELETE FROM records_entry WHERE seq = 13")
        run("UPDATE records_player SET erased_at = NULL, is_here = TRUE WHERE number = ''")
    (found, *_) = verify(told_head=typed_digest(printed.short)).faults
    assert "is not in the chain" in found


@pytest.mark.usefixtures("room")
def test_a_guard_that_somebody_lifted_is_told():
    with without_guard():
        assert any("guard entry_follows" in fault for fault in verify().faults)


def test_the_room_goes_on_in_its_own_tables_after_it_was_verified(room: Player):
    before = head()
    assert verify().head == before
    assert tell(PlayerLeft(player=room.id)).entry.seq == before.seq + 1
    assert verify().is_whole


@pytest.mark.parametrize("typed", ["017f 22e2", "017F-22E2", "017f22e2"])
def test_a_head_is_typed_as_it_is_printed(typed: str):
    assert typed_digest(typed) == "017f22e2"


@pytest.mark.parametrize("typed", ["", "017f", "entry 13", "017g 22e2", "0" * 65])
def test_what_is_no_head_is_refused(typed: str):
    with pytest.raises(NoHeadError, match="017f 22e2"):
        typed_digest(typed)


@pytest.mark.usefixtures("room")
@pytest.mark.parametrize(
    ("columns", "fault"),
    [
        ({"kind": "team sold"}, "entry 1 (team sold) says nothing that this release understands"),
        ({"payload": "{}"}, "entry 1 (team opened) says nothing that this release understands"),
        ({"outcome": "set aside", "note": "No."}, "entry 1 was set aside, and told again it is"),
    ],
)
def test_a_chain_that_was_forged_whole_still_has_to_tell_the_tables(columns, fault):
    """Somebody who knows how the digest is made writes the whole chain anew."""
    entries = list(Entry.objects.all())
    for column, value in columns.items():
        setattr(entries[0], column, value)
    with without_guard():
        run("DELETE FROM records_private")
        run("DELETE FROM records_entry")
        previous = GENESIS
        for entry in entries:
            entry.previous, entry.private_digest = previous, ""
            entry.digest = previous = digest_of({name: getattr(entry, name) for name in COVERED})
        Entry.objects.bulk_create(entries)
    assert list(chain_faults(entries)) == []
    assert fault in verify().faults[0]
