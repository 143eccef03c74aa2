"""That a visit ended for a symptom, as each role reads it on each page that tells of visits."""

from collections import Counter
from datetime import UTC, datetime
from uuid import uuid4

import pytest
from django.test import Client
from django.urls import reverse

from helmwright.records.kinds.visits import VisitBegun
from helmwright.records.models import Role, Visit
from helmwright.records.readers.day import day_of
from helmwright.records.readers.visit_told import NOT_TOLD, state_told
from helmwright.records.saying import say
from helmwright.web.allowed import ALLOWED
from tests.web.addresses import SOME_ID, every_address
from tests.web.desk_room import Room

pytestmark = pytest.mark.django_db
NOW = datetime(2026, 8, 7, 15, 41, tzinfo=UTC)
TELLING = ("symptom", "with the athletic trainer", "for the athletic trainer")
TELLING_STATION = '"symptom": true'
BACKEND = "django.contrib.auth.backends.ModelBackend"
NO_PAGES = {"day-stream", "take-in-everything"}
"""What never ends, and carries what "day-board" shows; and the whole room, for managers."""
READ = {Role.MANAGER, Role.FITTER, Role.TRAINER}


@pytest.mark.parametrize("role", list(Role))
@pytest.mark.parametrize("state", Visit.STATES)
def test_only_the_symptom_is_told_in_another_word(role, state):
    hidden = state == "symptom" and role not in READ
    assert state_told(state, role) == ("stopped" if hidden else state)


@pytest.mark.parametrize("role", list(Role))
def test_a_visit_that_could_not_begin_tells_no_student_and_no_viewer_why(role):
    room = Room(NOW)
    player = room.player("24")
    room.visit(player, None, 60, 30, "symptom")
    said = VisitBegun(
        visit=uuid4(), player=player.id, store=room.store.id, sheet=room.sheet_row.digest
    )
    kept = say(said, by=room.staff[Role.FITTER], now=datetime.now(UTC))
    assert "symptom" in kept.entry.note
    client = Client()
    client.force_login(room.staff[role], BACKEND)
    shown = client.get(reverse("now")).content.decode()
    section = shown[shown.index("Kept, but without effect") : shown.index("I have seen these")]
    assert "Visit begun" in section
    assert any(each in section for each in TELLING) == (role in READ)
    assert (NOT_TOLD in section) == (role not in READ)


@pytest.mark.parametrize("role", list(Role))
def test_students_and_viewers_read_that_it_was_stopped(role):
    room = Room(NOW)
    player = room.player("24")
    room.visit(player, None, 60, 30, "symptom")
    client = Client()
    client.force_login(room.staff[role], BACKEND)
    pages = {name: client.get(reverse(name)).content.decode() for name in ("now", "roster")}
    pages["player"] = client.get(reverse("player", args=[player.id])).content.decode()
    pages["day"] = " ".join(each.word for each in day_of(NOW, role=role).fittings)
    telling = {name for name, shown in pages.items() if any(each in shown for each in TELLING)}
    assert telling == ({"now", "player", "day"} if role in READ else set())
    assert ("stopped" in pages["player"], "stopped" in pages["day"]) == (role not in READ,) * 2


def how_often_told(client, role, *ids):
    """Of every address that the role may ask: how often words that tell stand there."""
    told: Counter[str] = Counter()
    for name, path in every_address():
        if name is None or role not in ALLOWED.get(name, ()) or name in NO_PAGES:
            continue
        for each in ids if str(SOME_ID) in path else ids[:1]:
            answer = client.get(path.replace(str(SOME_ID), str(each)))
            shown = answer.content.decode("utf-8", "replace")
            told[name] += sum(shown.count(word) for word in (*TELLING, TELLING_STATION))
    return told


@pytest.mark.parametrize("role", list(Role))
def test_no_address_at_all_tells_it_to_students_and_viewers(role):
    now = datetime.now(UTC)
    room = Room(now)
    player, helmet = room.player("24"), room.helmet("TV-0001")
    client = Client(raise_request_exception=False)
    client.force_login(room.staff[role], BACKEND)
    visit = room.visit(player, None, 60, 30, "stopped")
    before = how_often_told(client, role, player.id, visit.id)
    Visit.objects.update(state="symptom")
    said = VisitBegun(
        visit=uuid4(),
        player=player.id,
        store=room.store.id,
        sheet=room.sheet_row.digest,
        helmet=helmet.id,
    )
    note = say(said, by=room.staff[Role.FITTER], now=now).entry.note
    assert "symptom" in note
    after = how_often_told(client, role, player.id, visit.id)
    telling = {name for name, words in after.items() if words != before[name]}
    if role not in READ:
        assert telling == set()
        return
    assert telling >= {"now", "player", "helmet"}
    assert ("station-today" in telling) == (role in ALLOWED["station-today"])
