"""Passwords, PINs, and how a device becomes known to the room.

What is secret never reaches the ledger: hashes stand on the rows of staff and devices, and who
works here and which devices are known is said by entries as everything else is.
"""

import hashlib
import hmac
import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta
from uuid import UUID

from django.contrib.auth.hashers import check_password, make_password
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError

from helmwright.records.ids import new_id
from helmwright.records.kinds.people import DeviceChanged, DeviceEnrolled, DeviceRevoked
from helmwright.records.ledger import Kept, alone
from helmwright.records.meanwhile import Fields, MeanwhileError, changed_fields
from helmwright.records.models import Device, EnrollmentCode, HeardHere, Staff, Store
from helmwright.records.pins import checked_pin
from helmwright.records.readers.last_said import device_meanwhile
from helmwright.records.saying import say
from helmwright.records.turns import in_turn

CODE_DIGITS = 8
CODE_HOLDS = timedelta(minutes=10)


class NoSuchCodeError(ValueError):
    """The code is wrong, was used, or its time is over."""


class NameInUseError(ValueError):
    """Another device that the room knows has that name."""


@dataclass(frozen=True, slots=True)
class Enrolled:
    """A device that the room knows now, and the token that it has to show from now on."""

    device: Device
    token: str


def set_password(*, staff: Staff, password: str) -> None:
    """Give somebody a password; every session that was open with another one ends.

    Raises
    ------
    django.core.exceptions.ValidationError
        Where it is too short or too common.
    """
    validate_password(password, staff)
    staff.password = make_password(password)
    staff.save(update_fields=["password"])
    HeardHere.objects.filter(staff=staff).delete()


def set_pin(*, staff: Staff, pin: str) -> None:
    """Give somebody a PIN; an empty one takes it away, and nobody was heard by the old one.

    Raises
    ------
    WeakPinError
        Where the digits are no PIN.
    """
    staff.pin = make_password(checked_pin(pin)) if pin else ""
    staff.save(update_fields=["pin"])
    HeardHere.objects.filter(staff=staff).delete()


def is_pin_of(staff: Staff | None, pin: str) -> bool:
    """Whether the PIN is theirs; it takes as long where there is nobody or no PIN."""
    if staff is None or not staff.pin:
        make_password(pin)
        return False
    return check_password(pin, staff.pin)


def make_code(*, name: str, store: Store | None, by: Staff, now: datetime) -> str:
    """A code that lets one device in, once, within ten minutes.

    Raises
    ------
    NameInUseError
        Where a device of that name is known.
    """
    if Device.objects.filter(name=name, revoked_at=None).exists():
        raise NameInUseError(f"A device called {name} is known already. Choose another name.")
    code = "".join(str(secrets.randbelow(10)) for _ in range(CODE_DIGITS))
    EnrollmentCode.objects.filter(until__lt=now).delete()
    EnrollmentCode.objects.create(
        digest=digest_of(code), name=name, store=store, by=by, until=now + CODE_HOLDS
    )
    return code


def enroll(*, code: str, now: datetime) -> Enrolled:
    """Know the device that shows a good code; of two that show it at once, one gets in.

    Raises
    ------
    NoSuchCodeError
        Where the code is not good, or not any more.
    """
    digest = digest_of("".join(code.split()))
    with in_turn():
        good = EnrollmentCode.objects.filter(digest=digest, used_at=None, until__gt=now)
        if not good.update(used_at=now):
            raise NoSuchCodeError(
                "That code is not good: mistyped, used already, or older than ten minutes."
                " Type it again, or have the manager make a new one."
            )
        row = EnrollmentCode.objects.select_related("by").get(digest=digest)
        said = DeviceEnrolled(device=new_id(now), name=row.name, store=row.store_id)
        kept = say(said, by=row.by, now=now)
        if not kept.is_taken:
            raise NoSuchCodeError(kept.entry.note)
        token = secrets.token_urlsafe(32)
        Device.objects.filter(id=said.device).update(token_digest=digest_of(token), heard_at=now)
    return Enrolled(Device.objects.get(id=said.device), token)


def rename(
    *, device: UUID, opened: Fields | None, said: Fields, by: Staff, now: datetime
) -> Kept | None:
    """Another name, or another store; None where neither is another than when it was looked at.

    Parameters
    ----------
    opened, said
        Name and store as they were, None for as they are, and as they are to be, as JSON holds
        them.

    Raises
    ------
    NameInUseError
        Where another device that is known has the name.
    MeanwhileError
        Where somebody else has changed one of them to something else since.
    """
    with alone():
        row = Device.objects.get(id=device)
        stands = {"name": row.name, "store": str(row.store_id) if row.store_id else None}
        opened = stands if opened is None else opened
        changed = changed_fields(opened, said)
        found = device_meanwhile(device, opened, stands, changed)
        if found:
            raise MeanwhileError(found)
        name = changed.get("name")
        if Device.objects.filter(name=name, revoked_at=None).exclude(id=device).exists():
            raise NameInUseError(f"A device called {name} is known already. Choose another name.")
        if not changed:
            return None
        return say(DeviceChanged.model_validate({"device": device, **changed}), by=by, now=now)


def revoke(*, device: UUID, by: Staff, now: datetime) -> Kept:
    """Hear a device no more; its token is worth nothing from this moment on."""
    with in_turn():
        kept = say(DeviceRevoked(device=device), by=by, now=now)
        Device.objects.filter(id=device).update(token_digest="")
    return kept


def known_device(device: UUID, token: str) -> Device | None:
    """The device, where it shows its own token and is not revoked."""
    row = Device.objects.filter(id=device, revoked_at=None).exclude(token_digest="").first()
    shown = digest_of(token)
    return row if row and hmac.compare_digest(row.token_digest, shown) else None


def heard(device: Device, *, now: datetime) -> None:
    """Note that a device spoke, to the minute."""
    if device.heard_at is None or now - device.heard_at >= timedelta(minutes=1):
        Device.objects.filter(id=device.id).update(heard_at=now)


def digest_of(secret: str) -> str:
    """SHA-256. A token is too long to be guessed, and a code is worth nothing after ten minutes."""
    return hashlib.sha256(secret.encode()).hexdigest()


def first_reason(error: ValidationError) -> str:
    """What Django has against a password, in one line."""
    return " ".join(error.messages)
