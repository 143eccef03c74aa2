"""The database's own guard over the ledger: it takes what follows, and lets nothing be changed.

A later migration that makes the table of entries anew on SQLite drops these triggers: it has to
put them back. `helmwright ledger verify` says where they are missing.
"""

# ruff: noqa: S608 - these statements hold names and words of this module, and nobody's data

from django.db.backends.base.base import BaseDatabaseWrapper

from helmwright.records.chain import GENESIS

TABLE = "records_entry"
_CHANGED = "an entry of the ledger is never changed and never deleted"
_BREAKS = "an entry of the ledger follows the last one"

# A row that replaces another (INSERT OR REPLACE) deletes it without asking the trigger of DELETE
# unless recursive_triggers is on; so the trigger of INSERT looks for itself.
_SQLITE = {
    "entry_never_changed": f"BEFORE UPDATE ON {TABLE} BEGIN SELECT RAISE(ABORT, '{_CHANGED}'); END",
    "entry_never_deleted": f"BEFORE DELETE ON {TABLE} BEGIN SELECT RAISE(ABORT, '{_CHANGED}'); END",
    "entry_follows": f"""BEFORE INSERT ON {TABLE} WHEN
        NEW.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM {TABLE})
        OR NEW.previous IS NOT coalesce(
            (SELECT digest FROM {TABLE} ORDER BY seq DESC LIMIT 1), '{GENESIS}')
        OR EXISTS (SELECT 1 FROM {TABLE} WHERE id = NEW.id OR digest = NEW.digest)
        BEGIN SELECT RAISE(ABORT, '{_BREAKS}'); END""",
}  # fmt: skip

_POSTGRESQL = {
    "entry_never_changed": (
        f"BEFORE UPDATE OR DELETE OR TRUNCATE ON {TABLE} FOR EACH STATEMENT"
        " EXECUTE FUNCTION entry_never_changed()"
    ),
    "entry_follows": f"BEFORE INSERT ON {TABLE} FOR EACH ROW EXECUTE FUNCTION entry_follows()",
}
_POSTGRESQL_FUNCTIONS = {
    "entry_never_changed": f"""BEGIN
        RAISE EXCEPTION '{_CHANGED}' USING ERRCODE = 'integrity_constraint_violation';
        END""",
    "entry_follows": f"""BEGIN
        IF NEW.seq IS DISTINCT FROM (SELECT coalesce(max(seq), 0) + 1 FROM {TABLE})
        OR NEW.previous IS DISTINCT FROM coalesce(
            (SELECT digest FROM {TABLE} ORDER BY seq DESC LIMIT 1), '{GENESIS}')
        THEN RAISE EXCEPTION '{_BREAKS}' USING ERRCODE = 'integrity_constraint_violation';
        END IF;
        RETURN NEW;
        END""",
}


def put(database: BaseDatabaseWrapper) -> None:
    """Set the guard over the table of entries."""
    on_postgresql = database.vendor == "postgresql"
    with database.cursor() as cursor:
        for name, body in _POSTGRESQL_FUNCTIONS.items() if on_postgresql else ():
            cursor.execute(
                f"CREATE OR REPLACE FUNCTION {name}() RETURNS trigger LANGUAGE plpgsql"
                f" AS $guard$ {body} $guard$"
            )
        for name, body in (_POSTGRESQL if on_postgresql else _SQLITE).items():
            cursor.execute(f"CREATE TRIGGER {name} {body}")


def lift(database: BaseDatabaseWrapper) -> None:
    """Take the guard away: no page, act or command does."""
    on_postgresql = database.vendor == "postgresql"
    with database.cursor() as cursor:
        for name in _POSTGRESQL if on_postgresql else _SQLITE:
            cursor.execute(f"DROP TRIGGER {name}" + (f" ON {TABLE}" if on_postgresql else ""))
        for name in _POSTGRESQL_FUNCTIONS if on_postgresql else ():
            cursor.execute(f"DROP FUNCTION {name}()")


def missing(database: BaseDatabaseWrapper) -> list[str]:
    """Names of what should guard the table and is not there, or is switched off."""
    on_postgresql = database.vendor == "postgresql"
    asked = (
        "SELECT tgname FROM pg_trigger WHERE tgrelid = %s::regclass AND tgenabled = 'O'"
        if on_postgresql
        else "SELECT name FROM sqlite_master WHERE type = 'trigger' AND tbl_name = %s"
    )
    with database.cursor() as cursor:
        cursor.execute(asked, [TABLE])
        there = {name for (name,) in cursor.fetchall()}
    return sorted((_POSTGRESQL if on_postgresql else _SQLITE).keys() - there)
