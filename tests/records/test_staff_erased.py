"""Names of staff who are gone can be erased; what they did stays."""

from uuid import uuid4

import pytest

from helmwright.records.actions.staff import StaffError, erase
from helmwright.records.kinds.payload import UnfitError
from helmwright.records.kinds.people import (
    ReadingTaken,
    StaffChanged,
    StaffErased,
    StaffJoined,
)
from helmwright.records.models import Entry, Private, Reading, Role
from helmwright.records.verify import verify
from tests.records.entries import NOW, a_member, a_player, a_team, tell
from tests.records.everything_kept import everything_kept

pytestmark = pytest.mark.django_db


@pytest.fixture
def manager():
    return a_member()


@pytest.fixture
def gone(manager):
    """A fitter who took a reading, had another name once, and left."""
    member = a_member(Role.FITTER, "dunlin", "Dunlin Fen")
    player = a_player(a_team())
    tell(ReadingTaken(player=player.id, measure="head_length", value_mm=198.4), by=member.id)
    tell(StaffChanged(staff=member.id, name="Dunlin Weirside"))
    tell(StaffChanged(staff=member.id, is_active=False), by=manager.id)
    member.refresh_from_db()
    return member


def test_no_trace_of_either_name_is_left_and_what_was_done_stays(manager, gone):
    assert "dunlin" in everything_kept()
    erase(staff=gone, by=manager, now=NOW)
    assert "dunlin" not in everything_kept()
    gone.refresh_from_db()
    assert (gone.name, gone.pin, gone.has_usable_password()) == ("somebody who left", "", False)
    assert Reading.objects.get().by == gone
    assert verify().faults == ()


def test_somebody_who_works_here_is_not_erased(manager):
    with pytest.raises(StaffError, match="still works here"):
        erase(staff=manager, by=manager, now=NOW)
    assert not Entry.objects.filter(kind=StaffErased.KIND).exists()


def test_erased_once_and_back_only_as_somebody_new(manager, gone):
    erase(staff=gone, by=manager, now=NOW)
    with pytest.raises(StaffError, match="erased before"):
        erase(staff=gone, by=manager, now=NOW)
    late = tell(StaffChanged(staff=gone.id, name="Dunlin Fen", is_active=True))
    assert "Add them anew" in late.entry.note
    assert "dunlin" not in everything_kept()
    assert tell(StaffJoined(staff=uuid4(), username="dunlin", role=Role.FITTER)).is_taken
    assert verify().faults == ()


def test_nobody_joins_without_a_name_to_sign_in_with():
    with pytest.raises(UnfitError, match="give one"):
        tell(StaffJoined(staff=uuid4(), role=Role.FITTER))


def test_a_private_part_that_is_gone_of_somebody_who_was_not_erased_is_found(gone):
    Private.objects.filter(person=gone.id).delete()
    assert "nobody was erased whom it is about" in verify().faults[0]
