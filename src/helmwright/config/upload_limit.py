"""Nothing larger than a workbook or a photo is read, however it is sent."""

from collections.abc import Awaitable, Callable, Coroutine, Mapping
from typing import Any

LARGEST_BODY = 16 * 1024 * 1024
"""Bytes."""

_WORDS = b"What was sent is too large: 16 MB is the most. Nothing was changed.\n"

Scope = dict[str, Any]
Receive = Callable[[], Awaitable[Mapping[str, Any]]]
Send = Callable[[Mapping[str, Any]], Awaitable[None]]
Application = Callable[[Scope, Receive, Send], Coroutine[Any, Any, None]]


class TooLargeError(Exception):
    """More came than may."""


def limited(application: Application, largest: int = LARGEST_BODY) -> Application:
    """The application, that answers 413 as soon as a body is larger than that many bytes.

    Django writes a body to disk before any view sees it, and bounds only what is no file.
    """

    async def guarded(scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await application(scope, receive, send)
            return
        if _stated(scope) > largest:
            await _refuse(send)
            return
        came = 0

        async def counted() -> Mapping[str, Any]:
            nonlocal came
            message = await receive()
            came += len(message.get("body", b""))
            if came > largest:
                raise TooLargeError
            return message

        try:
            await application(scope, counted, send)
        except TooLargeError:
            await _refuse(send)

    return guarded


def _stated(scope: Scope) -> int:
    stated = dict(scope["headers"]).get(b"content-length", b"0")
    return int(stated) if stated.isdigit() else 0


async def _refuse(send: Send) -> None:
    headers = [(b"content-type", b"text/plain; charset=utf-8"), (b"connection", b"close")]
    await send({"type": "http.response.start", "status": 413, "headers": headers})
    await send({"type": "http.response.body", "body": _WORDS})
