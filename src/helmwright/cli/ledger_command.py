"""`helmwright ledger`: whether it is whole, and what is in it."""

# ruff: noqa: PLC0415 - what takes long to load is loaded inside, so that help comes at once

from typing import TYPE_CHECKING

import click

from helmwright.cli.records_place import room_as_it_stands, room_option
from helmwright.cli.stop import NothingRan, Status, tell

if TYPE_CHECKING:
    from collections.abc import Mapping
    from uuid import UUID

    from helmwright.records.models import Entry
    from helmwright.records.verify import Verdict

LAST = 20

NEXT = (
    "Change nothing by hand. Keep this folder as it is, restore the newest backup that verifies"
    " into a new one, and compare"
)


@click.group(short_help="Check the room's ledger, or list what is in it.")
def ledger() -> None:
    """Everything that happened in the room, in its order; docs/explanation/ledger.md."""


@ledger.command(short_help="Check that nothing was changed since it was written.")
@room_option
@click.option(
    "--head",
    "printed",
    metavar="DIGEST",
    help='The head printed on a card or an export, such as "017f 22e2": it must be in the chain.',
)
@click.pass_context
def verify(context: click.Context, folder: str, printed: str | None) -> None:
    """Check the chain and every private part, tell the ledger again beside, and compare.

    Nothing is written, and nobody who works in the room has to wait. Ends with status 1 where
    something is wrong, and says what and where.
    """
    room_as_it_stands(folder)
    from helmwright.records.head import NoHeadError, head, typed_digest
    from helmwright.records.verify import verify as verified
    from helmwright.records.words import counted

    try:
        told_head = typed_digest(printed) if printed is not None else ""
    except NoHeadError as error:
        raise NothingRan(f"--head: {error}") from error
    many = counted(head().seq, "entry", "entries")
    tell(f"reading {many}, and telling them again beside to compare")
    verdict = verified(told_head=told_head)
    if verdict.is_whole:
        click.echo(_whole(verdict, printed))
        return
    tell("the ledger is not whole")
    for fault in verdict.faults:
        click.echo(f"- {fault}", err=True)
    tell(NEXT)
    context.exit(Status.SOME_NOT_ANSWERED)


def _whole(verdict: "Verdict", printed: str | None) -> str:
    from helmwright.records.words import counted

    entries = counted(verdict.head.seq, "entry", "entries")
    lines = [
        f"The ledger is whole: {entries}. Head: {verdict.head.short}",
        f"Private parts that match their digests: {verdict.private:,}; erased: {verdict.erased:,}.",
        f"Rows of the tables that are as the ledger tells them: {verdict.rows:,}.",
        f"Full head: {verdict.head.digest}",
    ]
    if printed is not None:
        lines.insert(1, f"The head {printed} is in the chain: nothing up to it was changed.")
    return "\n".join(lines)


@ledger.command(short_help="List entries, the newest last.")
@room_option
@click.option(
    "--since",
    type=click.IntRange(min=1),
    metavar="N",
    help=f"From entry N on; the last {LAST} unless you say.",
)
def show(folder: str, since: int | None) -> None:
    """List what was said, by whom, and what became of it. Private parts are not shown."""
    room_as_it_stands(folder)
    from helmwright.records.head import head
    from helmwright.records.models import Device, Entry, Staff
    from helmwright.records.snapshot import at_one_moment

    with at_one_moment():
        first = since or max(head().seq - LAST + 1, 1)
        who = dict(Staff.objects.values_list("id", "username"))
        where = dict(Device.objects.values_list("id", "name"))
        for entry in Entry.objects.filter(seq__gte=first).iterator(chunk_size=1000):
            click.echo(_shown(entry, who, where))


def _shown(entry: "Entry", who: "Mapping[UUID, str]", where: "Mapping[UUID, str]") -> str:
    by = f"by {who.get(entry.actor, str(entry.actor))}" if entry.actor else "by the program"
    on = f" on {where.get(entry.device, str(entry.device))}" if entry.device else ""
    when = f"{entry.server_time:%Y-%m-%d %H:%M:%S} UTC"
    lines = [
        f"{entry.seq:>6}  {when}  {entry.digest[:8]}  {entry.kind}, {by}{on}",
        f"        {entry.payload}",
    ]
    if entry.note:
        lines.append(f"        {entry.outcome}: {entry.note}")
    return "\n".join(lines)
