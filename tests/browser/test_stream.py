"""The stream of a fitting day, over a real server."""

from collections.abc import Iterator
from contextlib import ExitStack, closing, contextmanager
from http.client import HTTPConnection, HTTPResponse

import pytest

from tests.browser.desk_server import Served, served

SAID = """
from datetime import UTC, datetime
from uuid import uuid4
from helmwright.records.kinds.people import TeamOpened
from helmwright.records.ledger import Said, append
now = datetime.now(UTC)
append(Said(uuid4(), TeamOpened(team=uuid4(), name=str(uuid4())), now), now=now)
"""


@pytest.fixture(scope="module")
def room(tmp_path_factory) -> Iterator[Served]:
    with served(tmp_path_factory.mktemp("room")) as running:
        yield running


@contextmanager
def asked(room: Served, path: str, role: str = "") -> Iterator[HTTPResponse]:
    """An answer that is still being given."""
    headers = {"Cookie": f"sessionid={room.sessions[role]}"} if role else {}
    with closing(HTTPConnection("127.0.0.1", room.port, timeout=20)) as connection:
        connection.request("GET", path, headers=headers)
        with closing(connection.getresponse()) as response:
            yield response


def until(stream: HTTPResponse, beginning: str) -> str:
    """The next line of the stream that begins so."""
    while True:
        line = stream.readline().decode()
        assert line, "the stream ended"
        if line.startswith(beginning):
            return line.strip()


def test_a_page_is_told_when_somebody_says_something(room):
    with asked(room, "/day/stream", "manager") as stream:
        assert stream.status == 200
        assert stream.headers["Content-Type"].startswith("text/event-stream")
        assert stream.headers["Cache-Control"] == "no-store"
        before = int(until(stream, "id:")[3:])
        room.run(SAID)
        assert until(stream, "event:") == "event: changed"
        assert int(until(stream, "data:")[5:]) == before + 1


def test_many_pages_listen_at_once_and_each_is_told(room):
    with ExitStack() as open_streams:
        streams = [
            open_streams.enter_context(asked(room, "/day/stream", "viewer")) for _ in range(24)
        ]
        for stream in streams:
            until(stream, "id:")
        # Other questions are answered meanwhile: no stream holds what they need.
        with asked(room, "/day/board", "viewer") as board:
            assert board.status == 200
        room.run(SAID)
        assert {until(stream, "event:") for stream in streams} == {"event: changed"}


def test_nobody_listens_without_signing_in(room):
    with asked(room, "/day/stream") as answer:
        assert answer.status == 401
