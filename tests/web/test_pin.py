"""Quick change of person at a station."""

from datetime import timedelta
from uuid import uuid4

import pytest
from django.test import Client
from django.utils import timezone

from helmwright.records.actions.doors import revoke, set_password, set_pin
from helmwright.records.models import Device, Knock, Role, Staff
from helmwright.records.pins import WeakPinError, checked_pin
from helmwright.web.sign_in.middleware import BY_PIN
from tests.web.people import PIN, member, station, with_pin

pytestmark = pytest.mark.django_db


def typed(client, staff, pin=PIN):
    body = {"staff": str(getattr(staff, "id", staff)), "pin": pin}
    return client.post("/pin", body, content_type="application/json")


def who(client) -> str | None:
    """Who the room takes this for, asked for anew."""
    page = client.get("/enroll/")
    user = page.wsgi_request.user
    return user.username if user.is_authenticated else None


@pytest.fixture
def manager():
    return member()


@pytest.fixture
def tablet(client, manager):
    station(client, manager)
    return client


def test_a_pin_opens_a_session_of_its_own_on_a_known_device(tablet):
    fitter = with_pin()
    answer = typed(tablet, fitter)
    assert answer.status_code == 200
    assert answer.json() == {"id": str(fitter.id), "name": fitter.name, "role": "fitter"}
    first = tablet.session.session_key
    student = with_pin(Role.STUDENT, pin="8140")
    typed(tablet, student, "8140")
    assert who(tablet) == "student"
    assert tablet.session.session_key != first
    assert tablet.session[BY_PIN]["device"] == str(Device.objects.get().id)


def test_a_known_device_is_told_who_has_a_pin_and_no_other_device_is(tablet):
    fitter = with_pin()
    with_pin(Role.VIEWER)
    gone = with_pin(Role.STUDENT)
    Staff.objects.filter(id=gone.id).update(is_active=False)
    answer = tablet.get("/pin")
    assert answer.json() == {
        "device": "Station 1",
        "people": [{"id": str(fitter.id), "name": fitter.name, "role": "fitter"}],
    }
    assert Client().get("/pin").status_code == 403


def test_no_pin_is_taken_on_a_device_that_the_room_does_not_know(client):
    answer = typed(client, with_pin())
    assert answer.status_code == 403
    assert "not known to the room" in answer.json()["error"]
    assert Knock.objects.count() == 0


@pytest.mark.usefixtures("tablet")
def test_a_cookie_that_somebody_made_up_makes_no_device():
    forged = Client()
    forged.cookies["helmwright_device"] = f"{Device.objects.get().id} token:sign:ature"
    assert typed(forged, with_pin()).status_code == 403


def test_a_wrong_pin_nobody_and_no_pin_are_answered_alike(tablet, manager):
    fitter = with_pin()
    gone = with_pin(Role.STUDENT)
    Staff.objects.filter(id=gone.id).update(is_active=False)
    answers = [typed(tablet, *each) for each in ((fitter, "1111"), (uuid4(),), (manager,), (gone,))]
    assert {(each.status_code, each.content) for each in answers} == {
        (401, b'{"error": "That PIN is not right."}')
    }


def test_five_wrong_pins_shut_out_that_person_on_that_device(tablet, manager):
    fitter, other = with_pin(), with_pin(Role.STUDENT)
    assert [typed(tablet, fitter, "9999").status_code for _ in range(5)] == [401] * 5
    shut = typed(tablet, fitter)
    assert shut.status_code == 429
    assert shut.json()["until"] > timezone.now().isoformat()
    assert typed(tablet, other).status_code == 200
    second = Client()
    station(second, manager, "Station 2")
    assert typed(second, fitter).status_code == 200


def test_fifteen_wrong_pins_shut_out_everybody_on_that_device(tablet):
    people = [with_pin(Role.FITTER, f"fitter{n}") for n in range(4)]
    wrong = [typed(tablet, each, "9999").status_code for each in people[:3] for _ in range(5)]
    assert wrong == [401] * 15
    assert typed(tablet, people[3]).status_code == 429


def test_the_right_pin_forgets_the_wrong_ones_and_waiting_opens_the_door(tablet):
    fitter = with_pin()
    for _ in range(4):
        typed(tablet, fitter, "9999")
    assert typed(tablet, fitter).status_code == 200
    for _ in range(5):
        typed(tablet, fitter, "9999")
    assert typed(tablet, fitter).status_code == 429
    Knock.objects.update(at=timezone.now() - timedelta(minutes=16))
    assert typed(tablet, fitter).status_code == 200


def test_a_quarter_of_an_hour_without_an_act_asks_for_the_pin_again(tablet):
    typed(tablet, with_pin())
    session = tablet.session
    idle = timezone.now() - timedelta(minutes=14)
    session[BY_PIN] = {**session[BY_PIN], "at": idle.isoformat()}
    session.save()
    assert who(tablet) == "fitter"
    idle -= timedelta(minutes=2)
    session[BY_PIN] = {**session[BY_PIN], "at": idle.isoformat()}
    session.save()
    assert who(tablet) is None


@pytest.mark.parametrize("what", ["device revoked", "PIN changed", "gone", "password changed"])
def test_a_session_of_a_pin_ends_with_what_it_rests_on(tablet, manager, what):
    fitter = with_pin()
    typed(tablet, fitter)
    assert who(tablet) == "fitter"
    if what == "device revoked":
        revoke(device=Device.objects.get().id, by=manager, now=timezone.now())
    elif what == "PIN changed":
        set_pin(staff=fitter, pin="8140")
    elif what == "gone":
        Staff.objects.filter(id=fitter.id).update(is_active=False)
    else:
        set_password(staff=fitter, password="another kingfisher")  # noqa: S106 - of nobody
    assert who(tablet) is None


def test_the_session_of_a_pin_is_worth_nothing_away_from_its_device(tablet):
    typed(tablet, with_pin())
    stolen = Client()
    stolen.cookies["sessionid"] = tablet.cookies["sessionid"].value
    assert who(stolen) is None


@pytest.mark.parametrize("said", [b"", b"[]", b'{"staff": 3}', b'{"pin": "2705"}', b"\xff"])
def test_what_is_no_form_is_refused_with_what_is_wanted(tablet, said):
    answer = tablet.post("/pin", said, content_type="application/json")
    assert answer.status_code == 400
    assert "Wanted" in answer.json()["error"]


@pytest.mark.parametrize(
    "digits",
    [
        "0000",
        "1234",
        "4321",
        "7777777",
        "56789",
        "9876",
        "890",
        "1212",
        "27052",
        "abcd",
        "１２７５",
    ],
)
def test_the_first_pins_that_anybody_would_try_are_none(digits):
    if digits == "27052":
        assert checked_pin(digits) == digits
        return
    with pytest.raises(WeakPinError):
        checked_pin(digits)


def test_the_pin_is_kept_as_argon2_keeps_it(settings):
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.Argon2PasswordHasher"]
    fitter = member(Role.FITTER)
    set_pin(staff=fitter, pin=PIN)
    assert fitter.pin.startswith("argon2$argon2id$")
    assert PIN not in fitter.pin
