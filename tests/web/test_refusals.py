"""What is refused before any page is reached, and what every answer carries."""

import asyncio
import logging
import re
from concurrent.futures import ThreadPoolExecutor

import pytest
from django.conf import settings
from django.templatetags.static import static
from django.test import Client, override_settings

from helmwright.config.upload_limit import limited
from helmwright.web.sign_in.address import is_loopback
from tests.web.people import member

EVERYWHERE = "0.0.0.0"  # noqa: S104 - said, not bound
PLAIN = "Others on this network can read"


def test_a_name_that_the_room_does_not_answer_to_is_refused(client):
    answer = client.get("/sign-in/", HTTP_HOST="elsewhere.example")
    assert answer.status_code == 400
    assert "HELMWRIGHT_HOSTS" in answer.content.decode()


@pytest.mark.django_db
def test_a_page_that_is_not_there_says_so(client):
    answer = client.get("/no-such-page/")
    assert answer.status_code == 404
    assert "There is no page at this address" in answer.content.decode()


@pytest.mark.django_db
@pytest.mark.parametrize("path", ["/sign-in/", "/nowhere/", "/station/"])
def test_every_page_bears_the_mark_of_the_room(client, path):
    client.force_login(member(), "django.contrib.auth.backends.ModelBackend")
    (link,) = re.findall('<link rel="icon"[^>]*>', client.get(path).content.decode())
    assert static("web/icon.svg") in link


def test_what_names_no_mark_gets_that_of_the_room_too(client):
    asked = client.get("/favicon.ico")
    assert asked["Location"] == static("web/icon.svg")
    assert client.get(asked["Location"])["Content-Type"] == "image/svg+xml"


@pytest.mark.django_db
def test_a_page_of_another_role_says_who_can_change_that(client):
    member()
    client.force_login(member("viewer"), "django.contrib.auth.backends.ModelBackend")
    answer = client.get("/staff/")
    assert answer.status_code == 403
    assert "ask a manager" in answer.content.decode()


def test_a_defect_has_a_page_that_needs_nothing_and_a_line_in_the_window(monkeypatch, caplog):
    def broken(*_arguments):
        raise RuntimeError("a broken view")

    monkeypatch.setattr("helmwright.web.sign_in.password.onward", broken)
    with caplog.at_level(logging.ERROR, logger="django.request"):
        answer = Client(raise_request_exception=False).get("/sign-in/")
    assert answer.status_code == 500
    assert "A defect of the program" in answer.content.decode()
    assert "a broken view" in caplog.text
    assert "broken view" not in answer.content.decode()


@pytest.mark.django_db
@pytest.mark.parametrize("path", ["/sign-in/", "/no-such-page/", "/static/web/house.css"])
def test_every_answer_carries_the_headers_of_the_house(client, path):
    headers = client.get(path).headers
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "same-origin"
    assert headers["Cross-Origin-Opener-Policy"] == "same-origin"
    assert "Access-Control-Allow-Origin" not in headers
    assert "Strict-Transport-Security" not in headers
    if not path.startswith("/static/"):
        assert headers["X-Frame-Options"] == "DENY"


@pytest.mark.django_db
def test_the_policy_lets_nothing_in_from_elsewhere_and_nothing_inline(client):
    policy = client.get("/sign-in/").headers["Content-Security-Policy"]
    rules = {each.split()[0]: each.split()[1:] for each in policy.split(";")}
    assert rules["default-src"] == ["'none'"]
    assert rules["script-src"] == rules["style-src"] == rules["connect-src"] == ["'self'"]
    assert rules["frame-ancestors"] == rules["base-uri"] == ["'none'"]
    assert not any("unsafe" in word or "//" in word or "*" in word for word in policy.split())


@pytest.mark.django_db
def test_under_tls_the_browser_is_told_to_insist_on_it():
    with override_settings(SECURE_HSTS_SECONDS=60):
        assert "max-age=60" in Client().get("/sign-in/", secure=True)["Strict-Transport-Security"]
    assert settings.SESSION_COOKIE_HTTPONLY


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("listens", "comes_from", "secure", "is_said"),
    [
        ("127.0.0.1", "127.0.0.1", False, False),
        (EVERYWHERE, "127.0.0.1", False, True),
        ("127.0.0.1", "192.168.1.20", False, True),
        (EVERYWHERE, "192.168.1.20", True, False),
    ],
)
def test_plain_http_beyond_this_machine_is_said_on_every_page(listens, comes_from, secure, is_said):
    with override_settings(LISTENS_AT=listens):
        for path in ("/sign-in/", "/enroll/", "/no-such-page/"):
            page = Client(REMOTE_ADDR=comes_from).get(path, secure=secure)
            assert (PLAIN in page.content.decode()) == is_said


@pytest.mark.parametrize(
    ("host", "is_it"),
    [("127.0.0.1", True), ("127.8.8.8", True), ("::1", True), ("localhost", True), ("", True),
     (EVERYWHERE, False), ("192.168.1.2", False), ("room.local", False)],
)  # fmt: skip
def test_what_counts_as_this_machine_alone(host, is_it):
    assert is_loopback(host) == is_it


def sent(chunks, stated=None, largest=10):
    """The status that an application with a limit answers to a body in chunks."""
    headers = [] if stated is None else [(b"content-length", str(stated).encode())]
    queue = [
        {"type": "http.request", "body": each, "more_body": n + 1 < len(chunks)}
        for n, each in enumerate(chunks)
    ]
    said = []

    async def application(_scope, receive, send):
        while (await receive()).get("more_body"):
            pass
        await send({"type": "http.response.start", "status": 200, "headers": []})

    async def receive():
        return queue.pop(0)

    async def send(message):
        said.append(message)

    scope = {"type": "http", "headers": headers}
    answered = limited(application, largest)(scope, receive, send)
    # A browser of earlier tests keeps the loop of this thread running.
    with ThreadPoolExecutor(1) as thread:
        thread.submit(asyncio.run, answered).result()
    return said[0]["status"], len(queue)


@pytest.mark.parametrize(
    ("chunks", "stated", "status", "unread"),
    [
        ([b"12345", b"67890"], None, 200, 0),
        ([b"12345", b"67890", b"1", b"2"], None, 413, 1),
        ([b"12345"], 11, 413, 1),
        ([b"12345"], 10, 200, 0),
    ],
)
def test_no_more_is_read_than_may_come(chunks, stated, status, unread):
    assert sent(chunks, stated) == (status, unread)
