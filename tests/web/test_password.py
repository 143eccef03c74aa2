"""Signing in at the desk."""

import pytest
from axes.models import AccessAttempt
from django.test import Client

from helmwright.records.models import Knock, Role, Staff
from helmwright.web.sign_in.password import WRONG
from tests.web.people import PASSWORD, member

pytestmark = pytest.mark.django_db


def typed(client, username, password=PASSWORD, onward="", **more):
    return client.post(
        "/sign-in/", {"username": username, "password": password, "next": onward}, **more
    )


def signed_in(client) -> bool:
    return "_auth_user_id" in client.session


def test_the_right_name_and_password_sign_in_under_a_new_session(client):
    member()
    client.get("/sign-in/")
    session = client.session
    session["mark"] = 1
    session.save()
    before = client.cookies["sessionid"].value
    answer = typed(client, " Manager ")
    assert (answer.status_code, answer["Location"]) == (302, "/")
    assert signed_in(client)
    assert client.cookies["sessionid"].value != before


def test_a_wrong_password_and_an_unknown_name_are_answered_alike(client):
    member()
    wrong, unknown = typed(client, "manager", "not the one"), typed(client, "nobody")
    assert wrong.status_code == unknown.status_code == 401
    strip = lambda page: page.content.decode().replace("nobody", "manager")  # noqa: E731
    tokens = [page.context["csrf_token"] for page in (wrong, unknown)]
    assert strip(wrong).replace(str(tokens[0]), "") == strip(unknown).replace(str(tokens[1]), "")
    assert WRONG in strip(wrong)


def test_somebody_who_is_gone_does_not_sign_in(client):
    Staff.objects.filter(id=member(Role.VIEWER).id).update(is_active=False)
    assert typed(client, "viewer").status_code == 401


def test_five_wrong_passwords_shut_the_name_from_there_and_only_from_there(client):
    member()
    answers = [typed(client, "manager", "not the one").status_code for _ in range(5)]
    assert answers == [401, 401, 401, 401, 429]
    shut = typed(client, "manager")
    assert shut.status_code == 429
    assert "Too many tries. Wait until" in shut.content.decode()
    assert not signed_in(client)
    elsewhere = Client(REMOTE_ADDR="192.168.1.20")
    assert typed(elsewhere, "manager").status_code == 302


def test_an_unknown_name_is_shut_as_a_known_one_is(client):
    answers = [typed(client, "nobody", "not the one").status_code for _ in range(6)]
    assert answers[4:] == [429, 429]


def test_a_claimed_forwarded_address_is_not_believed(client):
    member()
    for n in range(5):
        typed(client, "manager", "not the one", HTTP_X_FORWARDED_FOR=f"10.0.0.{n}")
    assert set(AccessAttempt.objects.values_list("ip_address", flat=True)) == {"127.0.0.1"}
    assert typed(client, "manager", HTTP_X_FORWARDED_FOR="10.0.0.9").status_code == 429


def test_many_names_tried_from_one_address_are_shut_out_together(client):
    answers = [typed(client, f"name{n}", "not the one").status_code for n in range(51)]
    assert answers == [401] * 50 + [429]
    assert Knock.objects.filter(door="password").count() == 50


@pytest.mark.parametrize(
    ("asked", "goes"),
    [
        ("/roster/", "/roster/"),
        ("https://elsewhere.example/", "/"),
        ("//elsewhere.example", "/"),
        ("javascript:alert(1)", "/"),
    ],
)
def test_it_goes_on_to_this_room_only(client, asked, goes):
    member()
    assert typed(client, "manager", onward=asked)["Location"] == goes


def test_signing_out_ends_the_session_in_the_database_too(client):
    member()
    typed(client, "manager")
    kept = client.session.session_key
    assert client.post("/sign-out/").status_code == 302
    again = Client()
    again.cookies["sessionid"] = kept
    assert again.get("/staff/").status_code == 302


def test_a_form_without_its_mark_is_refused_in_words():
    member()
    strict = Client(enforce_csrf_checks=True)
    answer = typed(strict, "manager")
    assert answer.status_code == 403
    assert "Nothing was changed" in answer.content.decode()
    as_json = strict.post("/pin", "{}", content_type="application/json")
    assert as_json.status_code == 403
    assert "Nothing was changed" in as_json.json()["error"]
