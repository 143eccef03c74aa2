"""That a visit ended for a symptom, as each role reads it on each page that tells of visits."""

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
from tests.web.desk_room import Room

pytestmark = pytest.mark.django_db
NOW = datetime(2026, 8, 7, 15, 41, tzinfo=UTC)
TELLING = ("symptom", "with the athletic trainer", "for the athletic trainer")
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
    client.force_login(room.staff[role], "django.contrib.auth.backends.ModelBackend")
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
    client.force_login(room.staff[role], "django.contrib.auth.backends.ModelBackend")
    pages = {name: client.get(reverse(name)).content.decode() for name in ("now", "roster")}
    pages["player"] = client.get(reverse("player", args=[player.id])).content.decode()
    pages["day"] = " ".join(each.word for each in day_of(NOW, role=role).fittings)
    telling = {name for name, shown in pages.items() if any(each in shown for each in TELLING)}
    assert telling == ({"now", "player", "day"} if role in READ else set())
    assert ("stopped" in pages["player"], "stopped" in pages["day"]) == (role not in READ,) * 2
