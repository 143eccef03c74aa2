"""Writes everything that the room knows as named texts: into a folder, an archive, wherever."""

from collections.abc import Callable
from contextlib import AbstractContextManager
from dataclasses import dataclass
from datetime import datetime
from itertools import chain
from typing import IO

from helmwright.records.head import Head, head
from helmwright.records.readers.export import TABLE, head_text, ledger_text, plain_tables
from helmwright.records.snapshot import at_one_moment

Opened = Callable[[str], AbstractContextManager[IO[bytes]]]
"""Opens what a text of that name is written into."""


@dataclass(frozen=True, slots=True)
class Exported:
    """What was written."""

    tables: int
    head: Head


def export_everything(opened: Opened, *, release: str, now: datetime) -> Exported:
    """Write every table, the ledger and the chain's head, all of one moment.

    Line by line, while others go on writing to the room.
    """
    tables = 0
    with at_one_moment():
        at = head()
        rest = (ledger_text(), head_text(at, release=release, now=now))
        for text in chain(plain_tables(), rest):
            with opened(text.name) as out:
                out.writelines(line.encode() for line in text.lines)
            tables += text.name.endswith(TABLE)
    return Exported(tables, at)
