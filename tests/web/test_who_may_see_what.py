"""Every role, and nobody, at every address that there is."""

import pytest
from django.db import connections
from django.test import Client

from helmwright.records.models import Role
from helmwright.web.allowed import ALLOWED, ON_DEVICES, OPEN
from tests.web.addresses import every_address
from tests.web.people import member, station

pytestmark = pytest.mark.django_db

ADDRESSES = every_address()
BACKEND = "django.contrib.auth.backends.ModelBackend"
REFUSED = {401, 403}
NOT_THAT_WAY = 405


@pytest.fixture(autouse=True)
def one_connection(monkeypatch):
    """A stream gives its connection back before it lasts; a test's transaction lives on it."""
    monkeypatch.setattr(connections["default"], "close", lambda: None)


def asked(client: Client, path: str) -> set[int]:
    """What a reading and a writing request are answered."""
    answers = [client.get(path), client.post(path, b"{}", content_type="application/json")]
    return {
        401 if each.status_code == 302 and each["Location"].startswith("/sign-in/?next=") else
        each.status_code for each in answers
    }  # fmt: skip


@pytest.mark.parametrize("address", ADDRESSES, ids=lambda each: each.path)
def test_an_address_has_a_name_and_a_rule(address):
    assert address.name, f"{address.path} has no name"
    assert address.name in OPEN or address.name in ALLOWED, f"no rule for {address.name}"


def test_no_rule_is_for_both_everybody_and_some():
    assert not OPEN & set(ALLOWED)


CLOSED = [each for each in ADDRESSES if each.name in ALLOWED]


@pytest.mark.parametrize("address", CLOSED, ids=lambda each: each.path)
def test_nobody_sees_a_closed_page_without_signing_in(address):
    answers = asked(Client(raise_request_exception=False), address.path)
    assert answers - {NOT_THAT_WAY} <= REFUSED
    assert answers & REFUSED


@pytest.mark.parametrize("role", list(Role))
@pytest.mark.parametrize("address", CLOSED, ids=lambda each: each.path)
def test_a_role_sees_what_it_may_and_nothing_else(address, role):
    if role != Role.MANAGER:
        member(Role.MANAGER)
    client = Client(raise_request_exception=False)
    client.force_login(member(role), BACKEND)
    answers = asked(client, address.path)
    if role in ALLOWED[address.name]:
        assert not answers & REFUSED
    else:
        assert answers - {NOT_THAT_WAY} <= REFUSED
        assert answers & REFUSED


@pytest.mark.parametrize("address", CLOSED, ids=lambda each: each.path)
def test_a_known_device_alone_opens_nothing(address):
    client = Client(raise_request_exception=False)
    station(client, member())
    if address.name in ON_DEVICES:
        assert client.get(address.path).status_code == 200
        return
    assert asked(client, address.path) - {NOT_THAT_WAY} <= REFUSED
