"""What a PIN alone does not open."""

from datetime import timedelta

import pytest
from django.db import connections
from django.test import Client
from django.utils import timezone

from helmwright.records.models import Role
from helmwright.web.allowed import ALLOWED, WITH_PASSWORD
from helmwright.web.sign_in.middleware import BY_PIN, CONFIRMED
from tests.web.addresses import every_address
from tests.web.people import PASSWORD, PIN, member, station, with_pin

pytestmark = pytest.mark.django_db

CLOSED = [each for each in every_address() if each.name in ALLOWED and each.name != "confirm"]


@pytest.fixture(autouse=True)
def one_connection(monkeypatch):
    """A stream gives its connection back before it lasts; a test's transaction lives on it."""
    monkeypatch.setattr(connections["default"], "close", lambda: None)


@pytest.fixture
def tablet():
    """A known device at which the manager has typed the PIN."""
    client = Client(raise_request_exception=False)
    manager = with_pin(Role.MANAGER)
    station(client, manager)
    type_pin(client, manager)
    return client


def type_pin(client, somebody):
    body = {"staff": str(somebody.id), "pin": PIN}
    assert client.post("/pin", body, content_type="application/json").status_code == 200


def is_asked(answer) -> bool:
    return answer.status_code == 302 and answer["Location"].startswith("/confirm/?")


def confirm(client, password=PASSWORD, onward="/staff/"):
    return client.post("/confirm/", {"password": password, "next": onward})


def test_every_name_that_wants_the_password_is_a_page():
    assert set(ALLOWED) >= WITH_PASSWORD
    assert {"staff", "devices", "player-erase", "take-in-everything"} <= WITH_PASSWORD


@pytest.mark.parametrize("address", CLOSED, ids=lambda each: each.path)
def test_a_pin_opens_every_page_but_those_that_want_the_password(tablet, address):
    answers = [tablet.get(address.path), tablet.post(address.path)]
    answers = [each for each in answers if each.status_code != 405]
    assert answers
    assert {is_asked(each) for each in answers} == {address.name in WITH_PASSWORD}


@pytest.mark.parametrize("address", CLOSED, ids=lambda each: each.path)
def test_no_page_asks_twice_of_whoever_signed_in_with_the_password(client, address):
    client.raise_request_exception = False
    member()
    client.post("/sign-in/", {"username": "manager", "password": PASSWORD})
    assert not is_asked(client.get(address.path))
    assert not is_asked(client.post(address.path))


def test_the_password_leads_back_and_is_good_for_a_quarter_of_an_hour(tablet):
    asked = tablet.get("/staff/?gone=yes")
    assert asked["Location"] == "/confirm/?next=%2Fstaff%2F%3Fgone%3Dyes"
    page = tablet.get(asked["Location"])
    assert "Confirm with your password" in page.content.decode()
    key = tablet.session.session_key
    assert confirm(tablet, onward="/staff/?gone=yes")["Location"] == "/staff/?gone=yes"
    assert tablet.session.session_key != key
    assert tablet.session[BY_PIN]
    assert tablet.get("/staff/").status_code == 200
    session = tablet.session
    session[CONFIRMED] = (timezone.now() - timedelta(minutes=16)).isoformat()
    session.save()
    assert is_asked(tablet.get("/staff/"))


def test_a_wrong_password_opens_nothing_and_guessing_is_shut_out(tablet):
    answers = [confirm(tablet, "kingfisher").status_code for _ in range(6)]
    assert answers[0] == 401
    assert answers[-1] == 429
    assert is_asked(tablet.get("/staff/"))


def test_another_site_is_not_where_it_goes_on(tablet):
    assert confirm(tablet, onward="https://elsewhere.example/")["Location"] == "/"


def test_what_was_sent_is_not_done_and_the_page_says_so(tablet):
    asked = tablet.post(
        "/staff/",
        {"name": "Avocet Brookside", "username": "avocet", "role": "viewer"},
        headers={"Referer": "http://testserver/staff/"},
    )
    assert asked["Location"] == "/confirm/?next=http%3A%2F%2Ftestserver%2Fstaff%2F&unsent=yes"
    assert "What you sent was not done" in tablet.get(asked["Location"]).content.decode()


def test_the_pin_typed_anew_asks_anew(tablet):
    confirm(tablet)
    type_pin(tablet, tablet.get("/").wsgi_request.user)
    assert is_asked(tablet.get("/staff/"))


def test_signing_in_with_the_password_ends_what_the_pin_began(tablet):
    tablet.post("/sign-in/", {"username": "manager", "password": PASSWORD})
    assert BY_PIN not in tablet.session
    assert tablet.get("/staff/").status_code == 200
