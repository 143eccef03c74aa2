"""Many stations write at once: every connection is a real one."""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from threading import Barrier
from uuid import uuid4

import pytest
from django.db import connection

from helmwright.records.chain import COVERED, GENESIS, digest_of
from helmwright.records.ids import new_id
from helmwright.records.kinds.people import PlayerAdded, TeamOpened
from helmwright.records.ledger import Kept, Said, append
from helmwright.records.models import Entry, Player, Private
from tests.records.entries import NOW, a_team


def at_once(count: int, act: Callable[[int], list[Kept]]) -> list[Kept]:
    """What all of them were told; each starts when all are there, on its own connection."""
    start = Barrier(count)

    def run(number: int) -> list[Kept]:
        start.wait()
        try:
            return act(number)
        finally:
            connection.close()

    with ThreadPoolExecutor(count) as pool:
        return [kept for told in pool.map(run, range(count)) for kept in told]


@pytest.mark.django_db(transaction=True)
def test_eight_stations_at_once_lose_nothing_and_leave_no_gap():
    team = a_team().id

    def add(station: int) -> list[Kept]:
        return [
            append(
                Said(
                    new_id(NOW),
                    PlayerAdded(player=uuid4(), team=team, name=f"Avocet {station}-{turn}"),
                    NOW,
                ),
                now=NOW,
            )
            for turn in range(25)
        ]

    told = at_once(8, add)
    entries = list(Entry.objects.all())
    assert [entry.seq for entry in entries] == list(range(1, 202))
    assert {kept.entry.id for kept in told} == {entry.id for entry in entries[1:]}
    assert Player.objects.count() == Private.objects.count() == 200
    previous = GENESIS
    for entry in entries:
        assert entry.previous == previous
        previous = digest_of({name: getattr(entry, name) for name in COVERED})
        assert entry.digest == previous


@pytest.mark.django_db(transaction=True)
def test_the_same_event_from_four_connections_at_once_is_kept_once():
    said = [Said(new_id(NOW), TeamOpened(team=uuid4(), name=f"{n}"), NOW) for n in range(20)]
    told = at_once(4, lambda _: [append(each, now=NOW) for each in said])
    assert Entry.objects.count() == 20
    assert sum(kept.is_new for kept in told) == 20
    assert {kept.entry.seq for kept in told} == set(range(1, 21))
    assert all(kept.is_taken for kept in told)
