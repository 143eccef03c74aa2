"""Who works in the room, as a manager changes it."""

import pytest
from django.test import Client

from helmwright.records.actions.doors import is_pin_of
from helmwright.records.models import Entry, Role, Staff
from tests.web.people import PASSWORD, PIN, member

pytestmark = pytest.mark.django_db
BACKEND = "django.contrib.auth.backends.ModelBackend"


@pytest.fixture
def manager(client):
    somebody = member()
    client.force_login(somebody, BACKEND)
    return somebody


def add(client, **changes):
    said = {"name": "Grebe Halloway", "username": "Grebe", "role": "fitter", "password": PASSWORD}
    return client.post("/staff/", {**said, **changes})


def test_somebody_added_signs_in(client, manager):
    assert add(client).status_code == 302
    assert Staff.objects.get(username="grebe").role == Role.FITTER
    answer = Client().post("/sign-in/", {"username": "grebe", "password": PASSWORD})
    assert answer.status_code == 302
    entry = Entry.objects.get(kind="staff joined", actor=manager.id)
    assert PASSWORD not in entry.payload


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"password": "short"}, "at least 10 characters"),
        ({"password": "1234567890"}, "too common"),
        ({"username": "manager"}, "Choose another"),
        ({"role": "king"}, "Choose a role"),
        ({"role": ""}, "Choose a role"),
        ({"pin": "1234"}, "first PINs"),
        ({"name": " "}, "Both names are needed"),
        ({"username": "two words"}, "Both names are needed"),
    ],
)
def test_what_cannot_be_added_is_said_and_nothing_is_half_saved(client, manager, changes, words):
    answer = add(client, **changes)
    assert answer.status_code == 400
    assert words in answer.content.decode()
    assert Staff.objects.count() == 1
    assert not Entry.objects.filter(kind="staff joined", actor=manager.id).exists()


@pytest.mark.usefixtures("manager")
def test_without_a_password_somebody_signs_in_by_pin_alone(client):
    add(client, password="")
    grebe = Staff.objects.get(username="grebe")
    client.post(f"/staff/{grebe.id}/pin/", {"pin": PIN})
    grebe.refresh_from_db()
    assert grebe.pin
    assert not grebe.has_usable_password()
    assert Client().post("/sign-in/", {"username": "grebe", "password": ""}).status_code == 401


@pytest.mark.usefixtures("manager")
def test_a_pin_is_given_with_the_name_where_one_is_typed(client):
    add(client, pin=PIN)
    assert is_pin_of(Staff.objects.get(username="grebe"), PIN)
    add(client, username="dipper", name="Dipper Halloway", pin="")
    assert Staff.objects.get(username="dipper").pin == ""


@pytest.mark.usefixtures("manager")
def test_nobody_is_made_a_manager_by_leaving_a_field_as_it_is(client):
    page = client.get("/staff/").content.decode()
    adding = page[page.index("Add somebody") :]
    assert '<option value="">choose one</option>' in adding
    assert "selected" not in adding


def test_a_new_password_ends_what_was_open_and_not_the_managers_own_page(client, manager):
    fitter, theirs = member(Role.FITTER), Client()
    theirs.force_login(fitter, BACKEND)
    client.post(f"/staff/{fitter.id}/password/", {"password": "another kingfisher"})
    assert not theirs.get("/enroll/").wsgi_request.user.is_authenticated
    client.post(f"/staff/{manager.id}/password/", {"password": "a third kingfisher"})
    assert client.get("/staff/").status_code == 200


def test_a_weak_pin_is_refused_with_the_reason(client, manager):
    answer = client.post(f"/staff/{manager.id}/pin/", {"pin": "1234"})
    assert answer.status_code == 400
    assert "first PINs" in answer.content.decode()


@pytest.mark.usefixtures("manager")
def test_roles_change_and_people_go_and_come_back(client):
    fitter = member(Role.FITTER)
    client.post(f"/staff/{fitter.id}/role/", {"role": "student"})
    client.post(f"/staff/{fitter.id}/active/", {"active": "no"})
    fitter.refresh_from_db()
    assert (fitter.role, fitter.is_active) == (Role.STUDENT, False)
    client.post(f"/staff/{fitter.id}/active/", {"active": "yes"})
    fitter.refresh_from_db()
    assert fitter.is_active


@pytest.mark.parametrize(
    ("act", "said"), [("role", {"role": "viewer"}), ("active", {"active": "no"})]
)
def test_the_last_manager_stays(client, manager, act, said):
    answer = client.post(f"/staff/{manager.id}/{act}/", said)
    assert answer.status_code == 400
    assert "manager" in answer.content.decode()
    manager.refresh_from_db()
    assert (manager.role, manager.is_active) == (Role.MANAGER, True)


def test_the_names_of_somebody_who_is_gone_are_erased_once_the_sign_in_name_is_typed(
    client, manager
):
    grebe = member(Role.FITTER, "grebe")
    client.post(f"/staff/{grebe.id}/active/", {"active": "no"})
    path = f"/staff/{grebe.id}/erase/"
    assert "Type grebe to erase it" in client.get("/staff/").content.decode()
    wrong = client.post(path, {"typed": "greb"})
    assert wrong.status_code == 400
    assert "Nothing was erased" in wrong.content.decode()
    assert client.post(path, {"typed": "Grebe"}).status_code == 302
    page = client.get("/staff/").content.decode()
    assert "grebe" not in page.lower()
    assert "somebody who left" in page
    assert Entry.objects.get(kind="staff erased").actor == manager.id
