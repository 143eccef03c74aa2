"""What follows from what is said of players, guardians, staff and devices."""

from datetime import timedelta
from uuid import uuid4

import pytest
from pydantic import ValidationError

from helmwright.anatomy import Over
from helmwright.records.kinds.people import (
    ConsentGiven,
    ConsentWithdrawn,
    DeviceEnrolled,
    DeviceRevoked,
    GuardianAdded,
    PlayerCameBack,
    PlayerChanged,
    PlayerLeft,
    ReadingTaken,
    ReadingWithdrawn,
    RetentionHeld,
    SeasonOpened,
    StaffChanged,
    StaffJoined,
)
from helmwright.records.ledger import CONTRADICTS
from helmwright.records.models import Device, Player, Reading, Role, Season, Staff
from tests.records.entries import NOW, a_member, a_player, a_team, tell

pytestmark = pytest.mark.django_db


def set_aside(payload) -> str:
    """Why the entry has no effect."""
    kept = tell(payload)
    assert not kept.is_taken
    return kept.entry.note


def test_a_new_season_closes_the_one_before_and_no_other_teams():
    team, other = a_team(), a_team("Herons")
    for where, name in ((team, "2025"), (other, "2025"), (team, "2026")):
        assert tell(SeasonOpened(season=uuid4(), team=where.id, name=name)).is_taken
    seasons = Season.objects.values_list("team__name", "name", "is_open").order_by("pk")
    assert set(seasons) == {
        ("Kingfishers", "2025", False),
        ("Herons", "2025", True),
        ("Kingfishers", "2026", True),
    }
    assert "before" in set_aside(SeasonOpened(season=uuid4(), team=team.id, name="2025"))


def test_changing_a_player_changes_what_is_said_and_empties_what_is_said_empty():
    player = a_player(a_team(), name="Avocet Brookside", number="12", glasses=True, weight_kg=90)
    tell(PlayerChanged(player=player.id, number="21", weight_kg=None, worn=(Over.SKULL_CAP,)))
    player.refresh_from_db()
    assert (player.name, player.number) == ("Avocet Brookside", "21")
    assert (player.glasses, player.weight_kg) == (True, None)
    assert player.worn == ["skull cap"]


def test_two_players_may_have_one_number():
    team = a_team()
    a_player(team, number="12", name="Avocet Brookside")
    a_player(team, number="12", name="Plover Ridge")
    assert Player.objects.filter(number="12").count() == 2


def test_a_player_leaves_and_comes_back():
    player = a_player(a_team())
    assert "already" in set_aside(PlayerCameBack(player=player.id))
    tell(PlayerLeft(player=player.id))
    assert "already" in set_aside(PlayerLeft(player=player.id))
    assert not Player.objects.get().is_here
    tell(PlayerCameBack(player=player.id))
    assert Player.objects.get().is_here


def test_what_is_said_of_nobody_is_kept_and_says_what_to_do():
    note = set_aside(ReadingTaken(player=uuid4(), measure="head_length", value_mm=198))
    assert note == "This player is not in the records. Add the player first."


def test_a_reading_has_its_time_its_covering_and_who_took_it():
    player, fitter = a_player(a_team()), a_member(Role.FITTER)
    earlier = NOW - timedelta(hours=2)
    kept = tell(
        ReadingTaken(
            player=player.id,
            measure="tape_circumference",
            value_mm=574.675,
            over=Over.THICK_HAIR,
            taken_at=earlier,
        ),
        by=fitter.id,
    )
    reading = Reading.objects.get()
    assert (reading.id, reading.by, reading.at) == (kept.entry.id, fitter, earlier)
    assert (reading.value_mm, reading.over, reading.beneath) == (574.675, "thick hair", "")


@pytest.mark.parametrize(
    ("kind", "fields"),
    [
        (ReadingTaken, {"measure": "head_length", "value_mm": 199.0,
                        "taken_at": "0001-01-01T00:00:00+14:00"}),
        (RetentionHeld, {"until": "2026-02-30"}),
    ],
)  # fmt: skip
def test_a_time_that_no_clock_and_no_calendar_shows_is_refused_before_it_is_said(kind, fields):
    with pytest.raises(ValidationError):
        kind.model_validate({"player": uuid4(), **fields})


def test_a_measure_that_nobody_knows_is_refused_before_it_is_said():
    with pytest.raises(ValueError, match="head_circumference"):
        ReadingTaken(player=uuid4(), measure="hat size", value_mm=575)


def test_a_withdrawn_reading_stays_on_record_and_is_withdrawn_once():
    player = a_player(a_team())
    taken = tell(ReadingTaken(player=player.id, measure="head_length", value_mm=198))
    wrong = ReadingWithdrawn(player=a_player(player.team).id, reading=taken.entry.id)
    assert "not this player's" in set_aside(wrong)
    right = ReadingWithdrawn(player=player.id, reading=taken.entry.id)
    assert tell(right).is_taken
    assert Reading.objects.get().is_withdrawn
    assert "before" in set_aside(right)


def test_consent_is_given_by_a_guardian_of_this_player_and_taken_back():
    team = a_team()
    player, other = a_player(team), a_player(team)
    guardian, consent = uuid4(), uuid4()
    tell(GuardianAdded(guardian=guardian, player=player.id, name="Plover Ridge"))
    given = ConsentGiven(
        consent=consent, player=player.id, guardian=guardian, about="fitting", text_version="1"
    )
    assert "does not answer" in set_aside(given.model_copy(update={"player": other.id}))
    assert tell(given).is_taken
    assert tell(ConsentWithdrawn(player=player.id, consent=consent)).is_taken
    assert player.consents.get().withdrawn_at == NOW
    assert "before" in set_aside(ConsentWithdrawn(player=player.id, consent=consent))


def test_nobody_signs_in_by_what_the_ledger_says():
    member = a_member()
    assert not member.has_usable_password()
    assert not member.check_password("")
    assert "in use" in set_aside(StaffJoined(staff=uuid4(), username="DESK", role=Role.VIEWER))


def test_the_last_manager_stays():
    manager, student = a_member(), a_member(Role.STUDENT, "stock")
    for change in ({"is_active": False}, {"role": Role.VIEWER}):
        assert "last manager" in set_aside(StaffChanged(staff=manager.id, **change))
    assert tell(StaffChanged(staff=student.id, role=Role.MANAGER, name="Tern")).is_taken
    assert tell(StaffChanged(staff=manager.id, is_active=False)).is_taken
    names = Staff.objects.order_by("username").values_list("name", "role", "is_active")
    assert list(names) == [("", "manager", False), ("Tern", "manager", True)]


def test_a_devices_name_is_free_again_once_it_is_revoked():
    first = uuid4()
    tell(DeviceEnrolled(device=first, name="Station 3"))
    assert "in use" in set_aside(DeviceEnrolled(device=uuid4(), name="Station 3"))
    assert tell(DeviceRevoked(device=first)).is_taken
    assert "before" in set_aside(DeviceRevoked(device=first))
    assert tell(DeviceEnrolled(device=uuid4(), name="Station 3")).is_taken
    assert Device.objects.filter(revoked_at=None).count() == 1


def test_what_a_constraint_refuses_is_kept_without_effect():
    player = a_player(a_team())
    changed = PlayerChanged(player=player.id).model_copy(update={"sex": "drake"})
    assert set_aside(changed) == CONTRADICTS
    assert Player.objects.get().sex == ""


@pytest.mark.parametrize(("version", "on_paper"), [("1", True), ("", False)])
def test_a_consent_is_to_a_text_or_to_a_paper_and_not_to_both(version, on_paper):
    said = {"consent": uuid4(), "player": uuid4(), "about": "fitting", "text_version": version}
    with pytest.raises(ValidationError, match="say one of the two"):
        ConsentGiven.model_validate(said | {"on_paper": on_paper})
