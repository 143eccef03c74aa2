"""Two desks take in the same file at once: what each was shown holds for one of them alone."""

from concurrent.futures import ThreadPoolExecutor
from datetime import date
from threading import Barrier
from uuid import uuid4

import pytest
from django.db import connection

from helmwright.records.actions.take_in import PlanChangedError, take_in
from helmwright.records.models import Entry, Player, TakeIn
from helmwright.records.readers.taking_in import plan_of
from helmwright.records.taking_in.upload import Upload
from helmwright.records.verify import verify
from tests.records.entries import NOW, a_member, a_team

TODAY = date(2026, 8, 7)
ROSTER = b"Number,Name\n7,Wren Siltbank\n22,Alder Riffleton\n"


@pytest.mark.django_db(transaction=True)
def test_the_same_roster_from_four_desks_at_once_comes_in_once():
    team, manager = a_team().id, a_member()
    before, start = Entry.objects.count(), Barrier(4)
    uploads = [Upload(uuid4(), "roster", "kingfishers.csv", ROSTER, team=team) for _ in range(4)]
    shown = [plan_of(upload, today=TODAY).digest for upload in uploads]

    def run(desk: int) -> str:
        start.wait()
        try:
            take_in(upload=uploads[desk], plan_digest=shown[desk], by=manager, now=NOW)
        except PlanChangedError:
            return "changed"
        finally:
            connection.close()
        return "taken in"

    with ThreadPoolExecutor(4) as pool:
        told = list(pool.map(run, range(4)))
    assert sorted(told) == ["changed", "changed", "changed", "taken in"]
    assert (Player.objects.count(), TakeIn.objects.count()) == (2, 1)
    assert Entry.objects.count() == before + 3
    assert verify().faults == ()
