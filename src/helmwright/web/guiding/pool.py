"""The processes that guide: each visit has one of them, which remembers what it led to believe.

Only what is here knows that they are processes: another executor may stand in their place.
"""

import os
import signal
import threading
import zlib
from collections import OrderedDict
from collections.abc import Callable
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures import TimeoutError as TookTooLongError
from concurrent.futures.process import BrokenProcessPool
from contextlib import suppress
from dataclasses import replace
from functools import lru_cache
from multiprocessing import connection, get_context, parent_process
from typing import Protocol, TypeVar

from helmwright.web.guiding.asked import Answer, Asked

LONGEST_S = 90.0
"""What a question may take before its process is given up [s] (assumed)."""

REMEMBERED = 256
"""Answers that are kept; a reload of a page asks the same again."""

BEHIND = 5
"""How much nicer than the server the processes are, so that an act never waits for a proposal."""

MOST = 4
"""Processes at most (assumed): each takes some 300 MB."""

Given = TypeVar("Given")

_ONE_THREAD = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS", "NUMBA_NUM_THREADS")


class NoAnswerError(RuntimeError):
    """A question was not answered: its process ended or took too long. It may be asked again."""


class Guides(Protocol):
    """Whatever answers what comes next in a visit; the processes, or a stand-in of a test."""

    def ask(self, asked: Asked) -> Answer:
        """What comes next.

        Raises
        ------
        NoAnswerError
            Where it was not answered; nothing is lost by it.
        ValueError
            Where the events cannot be guided.
        """

    def warm(self) -> None:
        """Begin what takes long at the first question, without waiting for it."""


class Processes:
    """Processes that are started when they are first needed.

    Parameters
    ----------
    count
        How many; a visit always asks the same one.
    longest_s
        What a question may take [s].
    act
        What a process does with a question; it must be found there by its name.
    """

    def __init__(
        self,
        count: int,
        *,
        longest_s: float = LONGEST_S,
        act: Callable[[Asked], Answer] | None = None,
    ) -> None:
        self._seats = [_Seat() for _ in range(count)]
        self._longest_s, self._act = longest_s, act or answered
        self._answers: OrderedDict[str, Future[Answer]] = OrderedDict()
        self._lock = threading.Lock()
        self._is_closed = False

    def ask(self, asked: Asked) -> Answer:
        """What comes next; the same question is not computed twice."""
        if self._is_closed:
            raise NoAnswerError("the room is being closed")
        seat, future = self._asked(asked)
        try:
            found = future.result(self._longest_s)
        except (TookTooLongError, BrokenProcessPool) as error:
            self._forget(asked.key)
            seat.give_up()
            raise NoAnswerError("what comes next was not found in time") from error
        except Exception:
            self._forget(asked.key)
            raise
        self._remember(asked, found)
        return found

    def warm(self) -> None:
        """Start every process and let it load what it computes with."""
        for seat in self._seats:
            seat.submit(_loaded)

    def close(self) -> None:
        """End every process, for good."""
        self._is_closed = True
        for seat in self._seats:
            seat.give_up()

    def process_of(self, visit: str) -> int:
        """Its ID in the system; for tests that end it."""
        return self._seat(visit).submit(os.getpid).result(self._longest_s)

    def _asked(self, asked: Asked) -> "tuple[_Seat, Future[Answer]]":
        seat = self._seat(asked.visit)
        with self._lock:
            future = self._answers.get(asked.key)
            if future is None:
                future = seat.submit(self._act, asked)
                self._keep(asked.key, future)
            else:
                self._answers.move_to_end(asked.key)
        return seat, future

    def _remember(self, asked: Asked, found: Answer) -> None:
        """What is asked after the program's own events, which it has just answered."""
        if not found.said:
            return
        after = replace(found, said=())
        future: Future[Answer] = Future()
        future.set_result(after)
        with self._lock:
            self._keep(asked.going_on(found.said).key, future)

    def _keep(self, key: str, future: "Future[Answer]") -> None:
        self._answers[key] = future
        while len(self._answers) > REMEMBERED:
            self._answers.popitem(last=False)

    def _forget(self, key: str) -> None:
        with self._lock:
            self._answers.pop(key, None)

    def _seat(self, visit: str) -> "_Seat":
        return self._seats[zlib.crc32(visit.encode()) % len(self._seats)]


class _Seat:
    """One process, or the next one in its place."""

    def __init__(self) -> None:
        self._executor: ProcessPoolExecutor | None = None
        self._lock = threading.Lock()

    def submit(self, act: Callable[..., Given], *given: object) -> Future[Given]:
        """Let it do something; a process that has ended is replaced."""
        with self._lock:
            try:
                return self._running().submit(act, *given)
            except BrokenProcessPool:
                self._executor = None
                return self._running().submit(act, *given)

    def give_up(self) -> None:
        """End the process, whatever it is at."""
        with self._lock:
            gone, self._executor = self._executor, None
        if gone is None:
            return
        for process in list((gone._processes or {}).values()):  # noqa: SLF001 - no other way to it
            process.kill()
        gone.shutdown(wait=False, cancel_futures=True)

    def _running(self) -> ProcessPoolExecutor:
        if self._executor is None:
            # A forked child of a server with threads could lock up: each begins anew.
            self._executor = ProcessPoolExecutor(1, get_context("spawn"), _begun)
        return self._executor


def answered(asked: Asked) -> Answer:
    """In the process: what comes next; what takes long to load is loaded here alone."""
    from helmwright.web.guiding.worker import answer  # noqa: PLC0415

    return answer(asked)


def _loaded() -> None:
    """In the process: everything is imported, and compiled code is read from its cache."""
    from helmwright.web.guiding.rehearsal import rehearse  # noqa: PLC0415

    rehearse()


def _begun() -> None:
    """In the process: one thread, behind the pages, deaf to Ctrl-C, and gone when the server is."""
    if hasattr(os, "nice"):
        os.nice(BEHIND)
    for name in _ONE_THREAD:
        os.environ.setdefault(name, "1")
    with suppress(ValueError):
        signal.signal(signal.SIGINT, signal.SIG_IGN)
    parent = parent_process()
    if parent is not None:
        threading.Thread(target=_leave_with, args=(parent.sentinel,), daemon=True).start()


def _leave_with(sentinel: int) -> None:
    connection.wait([sentinel])
    os._exit(0)


def usual_count() -> int:
    """As many processes as there are cores, up to a few."""
    return min(max(os.cpu_count() or 1, 1), MOST)


@lru_cache(maxsize=1)
def _usual() -> Processes:
    return Processes(usual_count())


_instead: list[Guides] = []


def guides() -> Guides:
    """Whatever answers here; the processes, unless something else was put in their place."""
    return _instead[-1] if _instead else _usual()


def put_in_place(other: Guides | None) -> None:
    """Let something else answer; None brings the processes back."""
    _instead.clear()
    if other is not None:
        _instead.append(other)


def warm() -> None:
    """Start the processes now, so that the first question of the day does not wait for them."""
    guides().warm()


def close() -> None:
    """End the processes: the server ends, and what they compute is nobody's any more."""
    _usual().close()
