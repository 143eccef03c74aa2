"""Another program writes, or the disk is full: what was sent is said to be not kept."""

import pytest
from django.db import OperationalError
from django.test import Client

from helmwright.records.ids import new_id
from helmwright.records.kinds.people import TeamOpened
from helmwright.records.models import Player
from helmwright.records.saying import say
from helmwright.web.sign_in import middleware
from tests.web.people import NOW, member
from tests.web.test_player_forms import add, sent_with

pytestmark = pytest.mark.django_db
LOCKED = OperationalError("database is locked")
BACKEND = "django.contrib.auth.backends.ModelBackend"


def breaks_off(error=LOCKED):
    def broken(*_arguments, **_named):
        raise error

    return broken


@pytest.fixture
def desk():
    client = Client(raise_request_exception=False)
    client.force_login(member(), BACKEND)
    say(TeamOpened(team=new_id(NOW), name="Kingfishers"), by=None, now=NOW)
    return client


def test_a_form_is_told_that_nothing_was_kept_and_sent_again_it_is_kept_once(desk, monkeypatch):
    mark = sent_with(desk, "/roster/add/")
    with monkeypatch.context() as patch:
        patch.setattr("helmwright.records.saying.append", breaks_off())
        answer = add(desk, once=mark)
    assert answer.status_code == 503
    assert answer["Retry-After"] == "5"
    assert "Nothing of what you sent was kept." in answer.content.decode()
    assert not Player.objects.exists()
    assert [add(desk, once=mark).status_code for _ in range(2)] == [302, 302]
    assert Player.objects.count() == 1


def test_a_page_that_could_not_be_read_says_that_nothing_is_lost(desk, monkeypatch):
    monkeypatch.setattr("helmwright.web.desk.now.situation", breaks_off())
    answer = desk.get("/")
    assert answer.status_code == 503
    assert "Nothing is lost." in answer.content.decode()
    assert "you sent" not in answer.content.decode()


def test_before_or_after_the_act_nobody_says_what_is_not_known(desk, monkeypatch):
    monkeypatch.setattr(middleware, "device_of", breaks_off())
    answer = desk.post("/roster/add/", {})
    assert answer.status_code == 503
    assert "is not known" in answer.content.decode()


def test_a_program_of_ours_is_answered_in_its_own_way(desk, monkeypatch):
    monkeypatch.setattr(middleware, "device_of", breaks_off())
    answer = desk.post("/pin", {}, content_type="application/json")
    assert answer.status_code == 503
    assert "busy" in answer.json()["error"]


@pytest.mark.parametrize("error", [OperationalError("no such table: x"), RuntimeError("broken")])
def test_a_defect_stays_a_defect(desk, monkeypatch, error):
    monkeypatch.setattr("helmwright.web.desk.now.situation", breaks_off(error))
    answer = desk.get("/")
    assert answer.status_code == 500
    assert "A defect of the program" in answer.content.decode()
