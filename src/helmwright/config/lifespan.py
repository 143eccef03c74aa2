"""What is done when a server has begun, and as soon as it is told to end."""

import asyncio
import os
import signal
import threading
from collections.abc import Callable
from multiprocessing import connection, parent_process
from types import FrameType

from helmwright.config.upload_limit import Application, Receive, Scope, Send

ENDS = (signal.SIGINT, signal.SIGTERM)


def with_lifespan(
    application: Application, *, begun: Callable[[], None], ending: Callable[[], None]
) -> Application:
    """The application, which a server tells when it begins and when it ends.

    A server first lets every request end that is under way, and only then says that it ends: a
    stream would hold it for good. So `ending` comes with the signal. It may come more than once.
    """

    async def alive(scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "lifespan":
            await application(scope, receive, send)
            return
        await receive()
        _at_signals(ending)
        begun()
        await send({"type": "lifespan.startup.complete"})
        await receive()
        ending()
        await send({"type": "lifespan.shutdown.complete"})

    return alive


def _at_signals(ending: Callable[[], None]) -> None:
    """Call it in the loop when the process is told to end, and let the server hear of it, too."""
    if threading.current_thread() is not threading.main_thread():
        return
    loop = asyncio.get_running_loop()
    for each in ENDS:
        _beside(each, lambda: loop.call_soon_threadsafe(ending))


def _beside(number: signal.Signals, act: Callable[[], object]) -> None:
    # A handler of the loop is called through the loop, whatever Python's own handler is.
    before = signal.getsignal(number)

    def both(signum: int, frame: FrameType | None) -> None:
        act()
        if callable(before):
            before(signum, frame)

    signal.signal(number, both)


def end_with_parent() -> None:
    """Be told to end when the process that started this one is gone: it may have been killed."""
    parent = parent_process()
    if parent is not None:
        threading.Thread(target=_end_with, args=(parent.sentinel,), daemon=True).start()


def _end_with(sentinel: int) -> None:
    connection.wait([sentinel])
    os.kill(os.getpid(), signal.SIGTERM)
