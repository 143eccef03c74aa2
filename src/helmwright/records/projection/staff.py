"""What follows for teams, seasons, staff and devices."""

from collections.abc import Callable, Mapping
from typing import Any
from uuid import UUID

from helmwright.records.kinds.people import (
    DeviceChanged,
    DeviceEnrolled,
    DeviceRevoked,
    SeasonOpened,
    StaffChanged,
    StaffErased,
    StaffJoined,
    TeamOpened,
)
from helmwright.records.models import Device, Entry, Private, Role, Season, Staff, Team
from helmwright.records.projection.known import known_staff, known_store, known_team
from helmwright.records.set_aside import SetAsideError

GONE = "somebody who left"
NO_PASSWORD = "!"  # noqa: S105 - what no password comes to
"""Nobody signs in with it: a password is set beside the ledger, and is never in it."""


def team_opened(_entry: Entry, said: TeamOpened) -> None:
    """A team is there."""
    if Team.objects.filter(name=said.name).exists():
        raise SetAsideError(f"There is a team called {said.name} already.")
    if Team.objects.filter(id=said.team).exists():
        raise SetAsideError("This team was opened before under another name.")
    Team.objects.create(id=said.team, name=said.name)


def season_opened(_entry: Entry, said: SeasonOpened) -> None:
    """A season is open; the one before is closed."""
    team = known_team(said.team)
    if Season.objects.filter(team=team, name=said.name).exists():
        raise SetAsideError(f"{team.name} had a season called {said.name} before. Name it anew.")
    if Season.objects.filter(id=said.season).exists():
        raise SetAsideError("This season was opened before under another name.")
    Season.objects.filter(team=team, is_open=True).update(is_open=False)
    Season.objects.create(id=said.season, team=team, name=said.name)


def staff_joined(_entry: Entry, said: StaffJoined) -> None:
    """Somebody may work in the room; nobody signs in before a password or a PIN is set."""
    if Staff.objects.filter(id=said.staff).exists():
        raise SetAsideError("This member of the staff was added before.")
    if said.username and Staff.objects.filter(username__iexact=said.username).exists():
        raise SetAsideError("This name to sign in with is in use. Choose another.")
    Staff.objects.create(
        id=said.staff,
        username=said.username or nameless(said.staff),
        name=said.name,
        role=said.role,
        password=NO_PASSWORD,
    )


def staff_changed(_entry: Entry, said: StaffChanged) -> None:
    """Another name or role, gone, or back; a room keeps one manager."""
    member = known_staff(said.staff)
    if member.erased_at is not None:
        raise SetAsideError("The names of this person were erased. Add them anew if they are back.")
    stays = said.is_active is not False and said.role in (None, Role.MANAGER)
    if not stays and _is_last_manager(member):
        raise SetAsideError("This is the room's last manager. Make somebody else manager first.")
    for name, value in said.model_dump(exclude={"staff"}, exclude_none=True).items():
        setattr(member, name, value)
    member.save()


def staff_erased(entry: Entry, said: StaffErased) -> None:
    """A word and a number stand where the names stood; nobody signs in with them."""
    member = known_staff(said.staff)
    if member.is_active:
        raise SetAsideError("This person still works here. Say that they are gone first.")
    if member.erased_at is not None:
        raise SetAsideError("The names of this person were erased before.")
    Private.objects.filter(person=member.id).delete()
    Staff.objects.filter(id=member.id).update(
        name=GONE, username=nameless(member.id), erased_at=entry.server_time
    )


def nameless(staff: UUID) -> str:
    """What stands for a name to sign in with that was erased; it has a blank, so it is nobody's."""
    return f"gone {staff.hex[-12:]}"


def device_enrolled(entry: Entry, said: DeviceEnrolled) -> None:
    """A device is known."""
    if Device.objects.filter(id=said.device).exists():
        raise SetAsideError("This device was enrolled before. Enroll it anew as another one.")
    if Device.objects.filter(name=said.name, revoked_at=None).exists():
        raise SetAsideError(f"A device called {said.name} is in use. Name this one otherwise.")
    Device.objects.create(
        id=said.device,
        name=said.name,
        store=_store(said.store),
        enrolled_at=entry.server_time,
    )


def device_changed(_entry: Entry, said: DeviceChanged) -> None:
    """Another name, or another store."""
    fields = said.said(("name", "store"))
    if "store" in fields:
        fields["store"] = _store(said.store)
    if Device.objects.filter(name=said.name, revoked_at=None).exclude(id=said.device).exists():
        raise SetAsideError(f"A device called {said.name} is in use. Name this one otherwise.")
    known = Device.objects.filter(id=said.device, revoked_at=None)
    if not (known.update(**fields) if fields else known.exists()):
        raise SetAsideError("This device is not enrolled, or was revoked before.")


def device_revoked(entry: Entry, said: DeviceRevoked) -> None:
    """It is heard no more."""
    revoked = Device.objects.filter(id=said.device, revoked_at=None)
    if not revoked.update(revoked_at=entry.server_time, token_digest=""):
        raise SetAsideError("This device is not enrolled, or was revoked before.")


def _store(store: UUID | None) -> Any:
    return None if store is None else known_store(store)


def _is_last_manager(member: Staff) -> bool:
    managers = Staff.objects.filter(role=Role.MANAGER, is_active=True)
    return list(managers.values_list("id", flat=True)) == [member.id]


PROJECTORS: Mapping[str, Callable[[Entry, Any], None]] = {
    TeamOpened.KIND: team_opened,
    SeasonOpened.KIND: season_opened,
    StaffJoined.KIND: staff_joined,
    StaffChanged.KIND: staff_changed,
    StaffErased.KIND: staff_erased,
    DeviceEnrolled.KIND: device_enrolled,
    DeviceChanged.KIND: device_changed,
    DeviceRevoked.KIND: device_revoked,
}
