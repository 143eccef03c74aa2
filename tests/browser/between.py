"""What stands between a station and the laptop, and kills the laptop in the middle of an act."""

import socket
import threading
import time
from collections.abc import Callable
from contextlib import suppress
from enum import Enum, auto

TELLS = b"POST /station/entries"
ASKS = (b"GET ", b"POST ")
"""How anything else begins that is asked on the same connection afterward."""


class When(Enum):
    """In an act: once the laptop has read what it is told, or before its answer gets through."""

    ARRIVED = auto()
    ANSWERED = auto()


class Between:
    """Carries bytes from a port of its own to another one.

    Parameters
    ----------
    port
        Of the laptop.
    kill
        Ends the laptop at once.
    """

    def __init__(self, port: int, kill: Callable[[], None]) -> None:
        self._to, self._kill = port, kill
        self._when: When | None = None
        self._after = 0.0
        self._lock = threading.Lock()
        self.killed = threading.Event()
        self._listens = socket.create_server(("127.0.0.1", 0))
        self.port: int = self._listens.getsockname()[1]
        threading.Thread(target=self._listen, daemon=True).start()

    def close(self) -> None:
        """Carry nothing more."""
        self._listens.close()

    def kill_when(self, when: When, after: float = 0.0) -> None:
        """At the next act, and so many seconds later."""
        self.killed.clear()
        self._when, self._after = when, after

    def _listen(self) -> None:
        with suppress(OSError):
            while True:
                here, _ = self._listens.accept()
                threading.Thread(target=self._carry, args=(here,), daemon=True).start()

    def _carry(self, here: socket.socket) -> None:
        try:
            there = socket.create_connection(("127.0.0.1", self._to), timeout=60)
        except OSError:
            here.close()
            return
        tells, cut = threading.Event(), threading.Event()
        back = threading.Thread(target=self._back, args=(there, here, tells, cut), daemon=True)
        back.start()
        with suppress(OSError):
            while said := here.recv(65536):
                if said.startswith(TELLS):
                    tells.set()
                elif said.startswith(ASKS):
                    tells.clear()
                there.sendall(said)
                if tells.is_set():
                    self._maybe(When.ARRIVED, cut)
        _cut(here, there)

    def _back(
        self,
        there: socket.socket,
        here: socket.socket,
        tells: threading.Event,
        cut: threading.Event,
    ) -> None:
        with suppress(OSError):
            while answer := there.recv(65536):
                # An answer that came while the laptop was being killed does not get through.
                if tells.is_set() and (self._maybe(When.ANSWERED, cut) or cut.is_set()):
                    break
                here.sendall(answer)
        _cut(here, there)

    def _maybe(self, when: When, cut: threading.Event) -> bool:
        with self._lock:
            if self._when is not when:
                return False
            self._when = None
            cut.set()
            time.sleep(self._after)
            self._kill()
            self.killed.set()
            return True


def _cut(*sockets: socket.socket) -> None:
    for each in sockets:
        with suppress(OSError):
            each.shutdown(socket.SHUT_RDWR)
        each.close()
