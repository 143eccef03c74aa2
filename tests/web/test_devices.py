"""How a device becomes known to the room."""

import re
from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from helmwright.records.actions.doors import digest_of, make_code
from helmwright.records.models import Device, EnrollmentCode, Entry, Role
from tests.web.people import member, station

pytestmark = pytest.mark.django_db


@pytest.fixture
def manager(client):
    somebody = member()
    client.force_login(somebody, "django.contrib.auth.backends.ModelBackend")
    return somebody


def code_on(page) -> str:
    return re.findall(r'class="code">([\d ]+)<', page.content.decode())[0]


def test_a_manager_makes_a_code_and_the_tablet_that_types_it_is_known(client, manager):
    code = code_on(client.post("/devices/", {"name": "Station 3", "store": ""}))
    tablet = Client()
    answer = tablet.post("/enroll/", {"code": code})
    cookie = answer.cookies["helmwright_device"]
    device = Device.objects.get()
    assert (answer["Location"], device.name) == ("/station/", "Station 3")
    assert cookie["httponly"]
    assert cookie["samesite"] == "Lax"
    token = cookie.value.split(" ")[1].split(":")[0]
    assert device.token_digest == digest_of(token)
    entry = Entry.objects.get(kind="device enrolled")
    assert entry.actor == manager.id
    assert token not in entry.payload
    assert not any(code.replace(" ", "") in each.digest for each in EnrollmentCode.objects.all())


def test_a_code_lets_one_device_in_once(manager):
    code = make_code(name="Station 1", store=None, by=manager, now=timezone.now())
    answers = [Client().post("/enroll/", {"code": code}).status_code for _ in range(2)]
    assert answers == [302, 400]
    assert Device.objects.count() == 1


def test_a_code_holds_for_ten_minutes(manager):
    old = timezone.now() - timedelta(minutes=10, seconds=1)
    code = make_code(name="Station 1", store=None, by=manager, now=old)
    assert Client().post("/enroll/", {"code": code}).status_code == 400
    assert not Device.objects.exists()


def test_ten_wrong_codes_from_an_address_shut_it_out(manager):
    code = make_code(name="Station 1", store=None, by=manager, now=timezone.now())
    guesser = Client(REMOTE_ADDR="192.168.1.66")
    wrong = [guesser.post("/enroll/", {"code": f"{n:08}"}).status_code for n in range(11)]
    assert wrong == [400] * 10 + [429]
    assert guesser.post("/enroll/", {"code": code}).status_code == 429
    assert Client().post("/enroll/", {"code": code}).status_code == 302


def test_two_devices_in_use_never_have_one_name(client, manager):
    station(Client(), manager, "Station 1")
    taken = client.post("/devices/", {"name": "Station 1"})
    assert taken.status_code == 409
    assert "known already" in taken.content.decode()


def test_a_device_is_renamed_and_revoked_by_entries(client, manager):
    tablet = Client()
    station(tablet, manager)
    device = Device.objects.get()
    client.post(f"/devices/{device.id}/name/", {"name": "Station 4", "store": ""})
    device.refresh_from_db()
    assert device.name == "Station 4"
    client.post(f"/devices/{device.id}/revoke/")
    device.refresh_from_db()
    assert device.revoked_at is not None
    assert device.token_digest == ""
    assert (
        "device" not in tablet.get("/enroll/").context
        or not tablet.get("/enroll/").context["device"]
    )
    assert [each.kind for each in Entry.objects.all()][-3:] == [
        "device enrolled", "device changed", "device revoked"
    ]  # fmt: skip


@pytest.mark.usefixtures("manager")
def test_a_name_without_letters_says_what_would_be_right(client):
    answer = client.post("/devices/", {"name": "  "})
    assert answer.status_code == 400
    assert "such as Station 3" in answer.content.decode()


def test_when_it_was_last_heard_is_noted_to_the_minute(manager):
    tablet = Client()
    station(tablet, manager)
    long_ago = timezone.now() - timedelta(hours=1)
    Device.objects.update(heard_at=long_ago)
    tablet.get("/enroll/")
    heard = Device.objects.get().heard_at
    assert heard != long_ago
    tablet.get("/enroll/")
    assert Device.objects.get().heard_at == heard


@pytest.mark.parametrize("role", [Role.FITTER, Role.STUDENT, Role.TRAINER, Role.VIEWER])
def test_nobody_but_a_manager_makes_codes(client, role):
    client.force_login(member(role), "django.contrib.auth.backends.ModelBackend")
    assert client.post("/devices/", {"name": "Station 9"}).status_code == 403
    assert not EnrollmentCode.objects.exists()
