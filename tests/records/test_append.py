"""What is said is kept once, in a chain."""

import os
from datetime import UTC, datetime
from uuid import uuid4

import pytest
from django.db import connection

from helmwright.records.kinds.people import TeamOpened
from helmwright.records.ledger import Said, SameIdError, append
from helmwright.records.models import Entry, Team

NOW = datetime(2026, 8, 7, 15, 41, tzinfo=UTC)


def opened(name="Kingfishers", said_id=None):
    return Said(said_id or uuid4(), TeamOpened(team=uuid4(), name=name), NOW)


@pytest.mark.django_db
def test_the_same_event_twice_is_kept_once():
    said = opened()
    first, second = append(said, now=NOW), append(said, now=NOW)
    assert first.is_new
    assert not second.is_new
    assert second.entry.seq == first.entry.seq == Entry.objects.count() == Team.objects.count()


@pytest.mark.django_db
def test_another_event_under_a_known_id_is_refused():
    said = opened()
    append(said, now=NOW)
    with pytest.raises(SameIdError):
        append(opened("Herons", said.id), now=NOW)


@pytest.mark.django_db
def test_what_can_have_no_effect_is_kept_and_says_why():
    append(opened(), now=NOW)
    kept = append(opened(), now=NOW)
    assert not kept.is_taken
    assert kept.entry.note
    assert Team.objects.count() == 1


@pytest.mark.django_db
def test_the_database_is_the_one_that_was_asked_for():
    assert connection.vendor == os.environ.get("HELMWRIGHT_TEST_ON", "sqlite")
