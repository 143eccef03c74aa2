"""Who works in the room: joined, changed, gone."""

from datetime import datetime

from axes.models import AccessAttempt

from helmwright.records.actions.doors import set_password, set_pin
from helmwright.records.ids import new_id
from helmwright.records.kinds.people import StaffChanged, StaffErased, StaffJoined
from helmwright.records.ledger import Kept, alone
from helmwright.records.meanwhile import Fields, MeanwhileError
from helmwright.records.models import HeardHere, Role, Staff
from helmwright.records.projection.staff import NO_PASSWORD
from helmwright.records.readers.last_said import staff_meanwhile
from helmwright.records.saying import say
from helmwright.records.turns import in_turn


class StaffError(ValueError):
    """It cannot be done; the message says why and what to do."""


def join(
    *,
    username: str,
    name: str,
    role: Role,
    password: str | None,
    pin: str = "",
    by: Staff | None,
    now: datetime,
) -> Staff:
    """Somebody works here from now on; without a password they sign in by PIN alone.

    An empty PIN is none; one can be given later.

    Raises
    ------
    StaffError
        Where the sign-in name is in use.
    django.core.exceptions.ValidationError
        Where the password is too short or too common; nobody has joined then.
    WeakPinError
        Where the digits are no PIN; nobody has joined then.
    """
    said = StaffJoined(
        staff=new_id(now), username=plain_username(username), name=name.strip(), role=role
    )
    with in_turn():
        if Staff.objects.filter(username=said.username).exists():
            raise StaffError(f"Somebody signs in as {said.username} already. Choose another name.")
        _effective(say(said, by=by, now=now))
        staff = Staff.objects.get(id=said.staff)
        if password is not None:
            set_password(staff=staff, password=password)
        if pin:
            set_pin(staff=staff, pin=pin)
    return staff


def change(
    *,
    staff: Staff,
    by: Staff,
    now: datetime,
    role: Role | None = None,
    is_active: bool | None = None,
    opened: Fields | None = None,
) -> None:
    """Another role, or gone, or back.

    Parameters
    ----------
    opened
        The role as it was when it was looked at; None for as it is.

    Raises
    ------
    StaffError
        Where nobody would be left who may manage.
    MeanwhileError
        Where somebody else gave another role since.
    """
    with alone():
        staff.refresh_from_db()
        if opened is not None and role is not None:
            stands, said = {"role": staff.role}, {"role": str(role)}
            found = staff_meanwhile(staff.id, opened, stands, said)
            if found:
                raise MeanwhileError(found)
        _effective(
            say(StaffChanged(staff=staff.id, role=role, is_active=is_active), by=by, now=now)
        )


def erase(*, staff: Staff, by: Staff, now: datetime) -> None:
    """Erase both names of somebody who is gone, what they signed in with, and tries to do so.

    Raises
    ------
    StaffError
        Where the person still works here, or it was done before.
    """
    with in_turn():
        username = Staff.objects.values_list("username", flat=True).get(id=staff.id)
        _effective(say(StaffErased(staff=staff.id), by=by, now=now))
        AccessAttempt.objects.filter(username__iexact=username).delete()
        Staff.objects.filter(id=staff.id).update(password=NO_PASSWORD, pin="", last_login=None)
        HeardHere.objects.filter(staff=staff).delete()


def plain_username(typed: str) -> str:
    """The name as it is signed in with: small letters, no blanks around it."""
    return typed.strip().lower()


def _effective(kept: Kept) -> None:
    """Nothing is kept of what somebody at the desk is told cannot be done."""
    if not kept.is_taken:
        raise StaffError(kept.entry.note)
