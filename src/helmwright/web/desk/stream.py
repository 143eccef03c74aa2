"""The stream that tells a page that the ledger went on.

One question a second is asked of the database for all pages together, in a thread that gives its
connection back at once: a stream holds none.
"""

import asyncio
import time
from collections.abc import AsyncIterator, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field

from asgiref.sync import sync_to_async
from django.core.exceptions import PermissionDenied
from django.db import connection
from django.db.models import Max
from django.http import HttpRequest, HttpResponse, HttpResponseBase, StreamingHttpResponse

from helmwright.records.models import Entry
from helmwright.web.allowed import ALLOWED, signed_in

PACE_S = 1.0
LASTS_S = 240.0
"""A stream ends by itself, and the page asks for another one: whoever was signed out, or has gone
without a word, is not told for ever."""

BREATH_S = 20.0
"""A line without meaning keeps the connection from being taken for dead."""

AGAIN_MS = 2000


def last_seq() -> int:
    """How far the ledger has come; the connection is closed with the answer."""
    try:
        return Entry.objects.aggregate(last=Max("seq"))["last"] or 0
    finally:
        connection.close()


@dataclass(slots=True)
class Watch:
    """Remembers for a moment how far the ledger has come, for every stream of this process."""

    at: float = float("-inf")
    seq: int = 0
    asking: asyncio.Lock = field(default_factory=asyncio.Lock)

    async def seen(self) -> int:
        """The last place in the ledger, at most a moment old."""
        async with self.asking:
            if time.monotonic() - self.at >= PACE_S * 0.9:
                self.seq = await sync_to_async(last_seq, thread_sensitive=False)()
                self.at = time.monotonic()
            return self.seq


WATCH = Watch()


class Streams:
    """Those that are open, so that they can be ended: a server that ends waits for each."""

    def __init__(self) -> None:
        self._open: set[asyncio.Event] = set()
        self._is_ended = False

    def end(self) -> None:
        """End them all, and whichever comes after. In the loop that they are in."""
        self._is_ended = True
        for end in self._open:
            end.set()

    @contextmanager
    def opened(self) -> Iterator[asyncio.Event]:
        """One more, with what ends it."""
        end = asyncio.Event()
        if self._is_ended:
            end.set()
        self._open.add(end)
        try:
            yield end
        finally:
            self._open.discard(end)


STREAMS = Streams()


async def day_stream(request: HttpRequest) -> HttpResponseBase:
    """A server-sent event whenever an entry was added; other pages may listen too."""
    if await sync_to_async(_refused)(request):
        return HttpResponse("sign in", status=401, content_type="text/plain")
    response = StreamingHttpResponse(changes(), content_type="text/event-stream")
    response["Cache-Control"] = "no-store"
    response["X-Accel-Buffering"] = "no"
    return response


async def changes(lasts_s: float = LASTS_S) -> AsyncIterator[str]:
    """Events, as lines of the stream."""
    ends = time.monotonic() + lasts_s
    breath = time.monotonic()
    seen = await WATCH.seen()
    with STREAMS.opened() as end:
        yield f"retry: {AGAIN_MS}\nid: {seen}\n: here\n\n"
        while time.monotonic() < ends and not await _is_set_within(PACE_S, end):
            now = await WATCH.seen()
            if now != seen:
                seen = now
                yield f"event: changed\nid: {seen}\ndata: {seen}\n\n"
            elif time.monotonic() - breath > BREATH_S:
                breath = time.monotonic()
                yield ": here\n\n"


async def _is_set_within(wait_s: float, event: asyncio.Event) -> bool:
    with suppress(TimeoutError):
        await asyncio.wait_for(event.wait(), wait_s)
    return event.is_set()


def _refused(request: HttpRequest) -> bool:
    """Whether nobody is signed in; somebody who may not is refused outright."""
    if not request.user.is_authenticated:
        connection.close()
        return True
    role = signed_in(request).role
    connection.close()
    if role not in ALLOWED["day-stream"]:
        raise PermissionDenied
    return False
