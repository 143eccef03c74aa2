"""Follows the chain of a ledger by its description alone.

It reads rows with raw SQL and puts the covered text together character by character. Nothing of
the program is imported here: what both agree on is written in docs/explanation/ledger.md.
"""

import hashlib
from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from typing import Any
from uuid import UUID

Ask = Callable[[str], Sequence[Sequence[Any]]]

BEGINS = hashlib.sha256(b"Helmwright ledger 1").hexdigest()
ASKED = (
    "SELECT corrects, device, device_time, id, kind, note, outcome, payload, previous,"
    " private_digest, seq, server_time, actor, digest FROM records_entry ORDER BY seq"
)


def first_fault(ask: Ask, head: str | None = None) -> str:
    """The first thing that is wrong, or nothing; `head` is the digest that paper tells."""
    before = BEGINS
    digests = []
    for place, row in enumerate(ask(ASKED), start=1):
        told, digest = row[8], row[13]
        if row[10] != place:
            return f"entry {place} is missing"
        if told != before:
            return f"entry {place} does not follow the one before"
        if hashlib.sha256(_covered(row).encode("utf-8")).hexdigest() != digest:
            return f"entry {place} is not what was written"
        before = digest
        digests.append(digest)
    if head is not None and head not in digests:
        return "the head on paper is not in the chain"
    return ""


def _covered(row: Sequence[Any]) -> str:
    names = (
        "actor", "corrects", "device", "device_time", "id", "kind", "note", "outcome", "payload",
        "previous", "private_digest", "seq", "server_time",
    )  # fmt: skip
    values = (
        _id(row[12]), _id(row[0]), _id(row[1]), _time(row[2]), _id(row[3]), row[4], row[5],
        row[6], row[7], row[8], row[9], row[10], _time(row[11]),
    )  # fmt: skip
    return "{" + ",".join(f'"{n}":{_text(v)}' for n, v in zip(names, values, strict=True)) + "}"


def _text(value: str | int | None) -> str:
    if value is None:
        return "null"
    return str(value) if isinstance(value, int) else '"' + "".join(map(_letter, value)) + '"'


def _letter(letter: str) -> str:
    short = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\r": "\\r", "\t": "\\t"}
    short |= {"\b": "\\b", "\f": "\\f"}
    if letter in short:
        return short[letter]
    if " " <= letter <= "\x7f":
        return letter
    units = letter.encode("utf-16-be")
    pairs = (units[at : at + 2] for at in range(0, len(units), 2))
    return "".join(f"\\u{pair.hex()}" for pair in pairs)


def _id(value: Any) -> str | None:
    return None if value is None else str(value if isinstance(value, UUID) else UUID(value))


def _time(value: Any) -> str:
    if isinstance(value, str):
        value = datetime.fromisoformat(value)
    known = value if value.tzinfo else value.replace(tzinfo=UTC)
    at = known.astimezone(UTC)
    day, clock = f"{at.year:04}-{at.month:02}-{at.day:02}", f"{at.hour:02}:{at.minute:02}"
    return f"{day}T{clock}:{at.second:02}.{at.microsecond:06}Z"
