"""What is worn under the helmet is kept by itself, and can be erased."""

from datetime import UTC, datetime
from uuid import uuid4

import pytest

from helmwright.anatomy import Over
from helmwright.records.kinds.people import PlayerAdded, PlayerWears, TeamOpened
from helmwright.records.ledger import Said, append
from helmwright.records.models import Player, Private

NOW = datetime(2026, 8, 7, 15, 41, tzinfo=UTC)
WORN = (Over.BRAIDS, Over.SKULL_CAP)

pytestmark = pytest.mark.django_db


def said(payload):
    return append(Said(uuid4(), payload, NOW), now=NOW)


def player():
    team, found = uuid4(), uuid4()
    said(TeamOpened(team=team, name="Kingfishers"))
    said(PlayerAdded(player=found, team=team, name="Avocet Brookside", number="24", weight_kg=95))
    return found


def test_what_is_worn_changes_and_nothing_else():
    who = player()
    assert said(PlayerWears(player=who, worn=WORN, glasses=True)).is_taken
    now = Player.objects.get(id=who)
    assert (now.worn, now.glasses) == (["braids or locs", "skull cap"], True)
    assert (now.name, now.number, now.weight_kg) == ("Avocet Brookside", "24", 95)


def test_what_is_worn_stands_where_it_can_be_erased():
    who = player()
    entry = said(PlayerWears(player=who, worn=WORN)).entry
    assert "braids" not in entry.payload
    assert Private.objects.get(entry=entry).person == who


def test_of_nobody_in_the_records_it_is_set_aside():
    kept = said(PlayerWears(player=uuid4(), worn=WORN))
    assert not kept.is_taken
    assert "not in the records" in kept.entry.note
