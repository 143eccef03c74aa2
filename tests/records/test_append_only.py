"""The database itself lets nothing in the ledger be changed, and nothing be slipped in."""

import pytest
from django.core.management import call_command
from django.db import IntegrityError, connection, transaction

from helmwright.records import append_only
from helmwright.records.models import Entry, Team
from tests.records.entries import a_team
from tests.records.tampering import run, without_guard

NAMES = ", ".join(str(field.column) for field in Entry._meta.concrete_fields)


@pytest.fixture
def three_entries(db):  # noqa: ARG001 - the database is there
    for name in ("Kingfishers", "Herons", "Terns"):
        a_team(name)


def refused(statement: str, *values: object) -> None:
    before = list(Entry.objects.values())
    with pytest.raises(IntegrityError), transaction.atomic():
        run(statement, *values)
    assert list(Entry.objects.values()) == before


@pytest.mark.usefixtures("three_entries")
@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE records_entry SET payload = '{}' WHERE seq = 2",
        "UPDATE records_entry SET note = note",
        "DELETE FROM records_entry WHERE seq = 3",
        "DELETE FROM records_entry",
    ],
)
def test_no_entry_is_changed_or_deleted(statement: str):
    refused(statement)


@pytest.mark.django_db
@pytest.mark.skipif(connection.vendor != "postgresql", reason="SQLite has no TRUNCATE")
def test_the_table_is_not_emptied_at_one_stroke():
    a_team()
    refused("TRUNCATE records_entry CASCADE")


@pytest.mark.usefixtures("three_entries")
@pytest.mark.parametrize("place", ["seq + 2", "seq - 1", "0"], ids=["gap", "taken", "below one"])
def test_an_entry_stands_right_after_the_last(place: str):
    others = NAMES.replace("seq", place, 1).replace(", id,", ", %s,").replace(" digest", " %s")
    refused(
        f"INSERT INTO records_entry ({NAMES}) SELECT {others} FROM records_entry WHERE seq = 3",  # noqa: S608
        "0" * 32,
        "0" * 64,
    )


@pytest.mark.usefixtures("three_entries")
def test_an_entry_follows_the_digest_of_the_last():
    others = NAMES.replace("seq", "seq + 1", 1).replace(", id,", ", %s,").replace(" digest", " %s")
    refused(
        f"INSERT INTO records_entry ({NAMES}) SELECT {others} FROM records_entry WHERE seq = 3",  # noqa: S608
        "0" * 32,
        "0" * 64,
    )


@pytest.mark.usefixtures("three_entries")
@pytest.mark.skipif(connection.vendor != "sqlite", reason="only SQLite has INSERT OR REPLACE")
@pytest.mark.parametrize("recursive", ["ON", "OFF"])
@pytest.mark.parametrize(
    "row", [NAMES, NAMES.replace("seq", "seq + 2", 1)], ids=["same place", "same ID further on"]
)
def test_a_row_that_replaces_another_does_not_slip_past(recursive: str, row: str):
    run(f"PRAGMA recursive_triggers = {recursive}")
    try:
        statement = (
            f"INSERT OR REPLACE INTO records_entry ({NAMES})"  # noqa: S608
            f" SELECT {row.replace('payload', chr(39) + '{}' + chr(39))}"
            " FROM records_entry WHERE seq = 2"
        )
        refused(statement)
    finally:
        run("PRAGMA recursive_triggers = ON")


@pytest.mark.usefixtures("three_entries")
@pytest.mark.skipif(connection.vendor != "sqlite", reason="only SQLite has INSERT OR REPLACE")
def test_the_guard_over_deletion_alone_stops_a_row_that_replaces_another():
    """As the room's connections are set; without that setting the row is lost."""
    run("DROP TRIGGER entry_follows")
    replaced = (
        f"INSERT OR REPLACE INTO records_entry ({NAMES})"  # noqa: S608
        f" SELECT {NAMES.replace('note', chr(39) + 'x' + chr(39))} FROM records_entry WHERE seq = 2"
    )
    refused(replaced)
    run("PRAGMA recursive_triggers = OFF")
    try:
        run(replaced)
        assert Entry.objects.get(seq=2).note == "x"
    finally:
        run("PRAGMA recursive_triggers = ON")


@pytest.mark.django_db
@pytest.mark.skipif(connection.vendor != "sqlite", reason="a setting of SQLite's connections")
def test_every_connection_of_the_room_asks_triggers_of_rows_that_are_replaced():
    assert run("PRAGMA recursive_triggers") == [(1,)]


@pytest.mark.django_db
def test_a_guard_that_was_lifted_is_missed():
    assert append_only.missing(connection) == []
    with without_guard():
        assert append_only.missing(connection) == ["entry_follows", "entry_never_changed"] + (
            ["entry_never_deleted"] if connection.vendor == "sqlite" else []
        )
    assert append_only.missing(connection) == []


@pytest.mark.django_db(transaction=True)
def test_the_program_cannot_empty_the_room(monkeypatch):
    a_team()
    monkeypatch.setattr("emptying.management.commands.flush.append_only.lift", lambda _: None)
    monkeypatch.setattr("emptying.management.commands.flush.append_only.put", lambda _: None)
    with pytest.raises(Exception, match=r"flush|couldn't be flushed"):
        call_command("flush", interactive=False, verbosity=0)
    assert Entry.objects.exists()
    assert Team.objects.exists()
