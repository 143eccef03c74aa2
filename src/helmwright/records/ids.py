"""IDs of entries that the server makes: UUIDs of version 7, which begin with their time."""

from datetime import UTC, datetime, timedelta
from uuid import UUID

from uuid_utils.compat import uuid7

VERSION = 7
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_MILLISECOND = timedelta(milliseconds=1)
_NANOSECONDS = 1_000_000


class NotByTimeError(ValueError):
    """An ID that is no UUID of version 7 says nothing of a time."""


def new_id(now: datetime) -> UUID:
    """Another ID, of that time; two of one millisecond are not in any certain order."""
    return uuid7(nanoseconds=(now - _EPOCH) // _MILLISECOND * _NANOSECONDS)


def after(first: UUID, number: int) -> UUID:
    """The ID so many after another: what is said together has IDs that follow from the first."""
    low = (first.int + number) % (1 << 62)
    return UUID(int=first.int >> 62 << 62 | low)


def time_of(entry_id: UUID) -> datetime:
    """When the ID was made, by the clock of whoever made it, to the millisecond.

    Raises
    ------
    NotByTimeError
        For another version or variant.

    Notes
    -----
    RFC 9562, 5.7: the first 48 bits count milliseconds since 1970-01-01 UTC, without leap seconds.
    """
    if entry_id.version != VERSION:
        raise NotByTimeError(f"{entry_id} is no UUID of version {VERSION}: it tells no time")
    return _EPOCH + (entry_id.int >> 80) * _MILLISECOND
