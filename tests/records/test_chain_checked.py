"""How far a process has checked the chain, and what it says of one that was changed."""

from datetime import UTC, datetime
from unittest.mock import patch
from uuid import uuid4

import pytest

from helmwright.records import chain_checked as module
from helmwright.records.chain import digest_of
from helmwright.records.chain_checked import chain_checked
from helmwright.records.kinds.people import TeamOpened
from helmwright.records.ledger import Said, append
from helmwright.records.models import Entry
from tests.records.tampering import without_guard

pytestmark = pytest.mark.django_db
NOW = datetime(2026, 8, 7, 15, 41, tzinfo=UTC)


def say_something():
    said = Said(uuid4(), TeamOpened(team=uuid4(), name=str(uuid4())), NOW)
    return append(said, now=NOW).entry


def test_a_ledger_without_entries_holds():
    assert chain_checked().is_whole


def test_only_what_is_new_is_read(django_assert_num_queries):
    for _ in range(5):
        say_something()
    assert (chain_checked().seq, chain_checked().is_whole) == (5, True)
    say_something()
    with patch.object(module, "digest_of", wraps=digest_of) as read:
        assert chain_checked().seq == 6
    assert read.call_count == 1
    with django_assert_num_queries(3):
        chain_checked()


def test_a_long_ledger_is_read_in_parts():
    for _ in range(5):
        say_something()
    with patch.object(module, "AT_ONCE", 3):
        first = chain_checked()
        assert (first.seq, first.last, first.is_whole) == (3, 5, False)
        assert chain_checked().is_whole


def test_an_entry_that_is_not_what_was_written_is_named_and_nothing_after_it_counts():
    for _ in range(4):
        say_something()
    with without_guard():
        Entry.objects.filter(seq=3).update(kind="team closed")
    found = chain_checked()
    assert (found.seq, found.is_whole) == (2, False)
    assert found.fault == "entry 3 is not what was written"


def test_entries_that_are_gone_are_missed():
    for _ in range(4):
        say_something()
    assert chain_checked().is_whole
    with without_guard():
        Entry.objects.filter(seq=4).delete()
    assert chain_checked().fault == "entries after 3 are gone, and there were 4"


def test_an_entry_out_of_the_middle_is_missed():
    for _ in range(4):
        say_something()
    with without_guard():
        Entry.objects.filter(seq=2).delete()
    assert chain_checked().fault == "entry 2 is missing"
