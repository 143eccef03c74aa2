"""Stands before Django's `flush`, which the guard over the ledger refuses, as it should."""

from typing import Any

from django.core.management.commands import flush
from django.db import connections

from helmwright.records import append_only


class Command(flush.Command):
    def handle(self, **options: Any) -> None:
        database = connections[options["database"]]
        append_only.lift(database)
        try:
            super().handle(**options)
        finally:
            append_only.put(database)
