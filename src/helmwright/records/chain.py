"""The chain: every entry's digest covers the one before it, so that a later edit shows."""

import hashlib
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

from helmwright.records.kinds.payload import canonical

GENESIS = hashlib.sha256(b"Helmwright ledger 1").hexdigest()
"""What the first entry follows."""

COVERED = (
    "seq", "id", "kind", "actor", "device", "device_time", "server_time", "payload",
    "private_digest", "corrects", "outcome", "note", "previous",
)  # fmt: skip
"""Columns that the digest covers, by their names."""


def digest_of(columns: Mapping[str, Any]) -> str:
    """SHA-256 of an entry, in hexadecimal.

    Parameters
    ----------
    columns
        `COVERED` and their values: texts and numbers as they are, times as `written_time`, IDs in
        their usual form in small letters, None as null.

    Notes
    -----
    Over canonical JSON (sorted names, no blanks, ASCII) of the object of these columns; `payload`
    stands in it as the text that it is.
    """
    covered = {name: _written(columns[name]) for name in COVERED}
    return hashlib.sha256(canonical(covered).encode("ascii")).hexdigest()


def written_time(moment: datetime) -> str:
    """A time as it is hashed: UTC, six digits of a second, "2026-08-07T15:41:00.000000Z"."""
    return moment.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")


def _written(value: Any) -> Any:
    if isinstance(value, datetime):
        return written_time(value)
    return value if value is None or isinstance(value, int) else str(value)
