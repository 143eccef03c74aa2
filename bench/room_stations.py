"""Stations of the bench: each a thread with a connection of its own, saying one thing at a time."""

import http.client
import json
import random
import threading
import time
from collections import defaultdict
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

from uuid_utils.compat import uuid7

TOKEN = "b" * 32
"""Of the cookie and of the header that a station sends back."""

READINGS = (("tape_circumference", 575.0, 12.0), ("head_length", 198.0, 4.0))


@dataclass
class Times:
    """What each kind of message took [s]."""

    taken: dict[str, list[float]] = field(default_factory=lambda: defaultdict(list))
    faults: list[str] = field(default_factory=list)
    lock: threading.Lock = field(default_factory=threading.Lock)

    def add(self, kind: str, seconds: float) -> None:
        """One more."""
        with self.lock:
            self.taken[kind].append(seconds)

    def fault(self, words: str) -> None:
        """Something that was not answered as it should be."""
        with self.lock:
            self.faults.append(words)


class Station:
    """One station.

    Parameters
    ----------
    port
        Of the server, on this machine.
    setting, number
        What the room was made with, and which of its stations this is.
    times
        Where what it took is kept.
    seed
        Of whom it measures, and how large.
    after
        How many of its players were fitted before.
    """

    def __init__(
        self,
        port: int,
        setting: dict[str, Any],
        number: int,
        times: Times,
        seed: int,
        after: int = 0,
    ) -> None:
        self._port, self._setting, self._times = port, setting, times
        self._who = setting["stations"][number]
        self._rng = random.Random(f"{seed} {number}")  # noqa: S311 - a bench is no secret
        own = setting["players"][number :: len(setting["stations"])]
        self._players = own
        self._turn = after
        self._visit: dict[str, Any] = {}
        self._round: list[dict[str, Any]] = []
        self._connection: http.client.HTTPConnection | None = None

    def act(self) -> str:
        """One thing, as a fitter would say it next; what kind of message it was."""
        if not self._visit:
            return self._begin()
        if self._round:
            return self._answer()
        return self._next()

    def measure(self) -> str:
        """A reading of somebody: an act that asks for no thought."""
        player = self._rng.choice(self._players)
        return self._say("act", "reading taken", {"player": player, **self._reading(0)})

    def close(self) -> None:
        """It is put away."""
        if self._connection is not None:
            self._connection.close()

    def _begin(self) -> str:
        player = self._players[self._turn % len(self._players)]
        self._turn += 1
        visit = str(uuid7())
        begun = {
            "visit": visit,
            "player": player,
            "store": self._setting["store"],
            "sheet": self._setting["sheet"],
        }
        self._say("act", "visit begun", begun)
        self._visit = {"visit": visit, "player": player, "count": 1}
        readings = [self._reading(which) for which in (0, 0, 1, 1)]
        return self._event({"event": "measured", "readings": readings})

    def _answer(self) -> str:
        return self._event(self._round.pop(0))

    def _next(self) -> str:
        """Asks what comes next; what is to be said to it stands ready then."""
        began = time.perf_counter()
        told = self._ask("GET", f"/station/visits/{self._visit['visit']}")
        message = told.get("message", {})
        count = told.get("count", 0)
        kind = "proposal" if self._is_sought(told) else "next question"
        self._times.add(kind, time.perf_counter() - began)
        self._visit["count"] = count
        self._round = self._answers(message)
        if not self._round:
            self._visit = {}
        return kind

    def _is_sought(self, told: dict[str, Any]) -> bool:
        """Whether a build was looked for: before the first question of all, and for a change."""
        is_first = not self._visit.get("asked")
        self._visit["asked"] = True
        is_changed = told.get("message", {}).get("message") == "proposal" and told["try_ons"]
        return bool(is_first or is_changed)

    def _answers(self, message: dict[str, Any]) -> list[dict[str, Any]]:
        asked = message.get("next", message)
        match asked.get("message"):
            case "measure":
                return [{"event": "measure skipped", "measure": asked["measure"]}]
            case "put on":
                return [{"event": "put on", "build": asked["build"]}]
            case "checks":
                return [_found(check, self._rng) for check in asked["checks"]]
            case "look":
                return [_right(asked["check"])]
        return []

    def _event(self, event: dict[str, Any]) -> str:
        said = {
            "visit": self._visit["visit"],
            "player": self._visit["player"],
            "place": self._visit["count"],
            "event": event,
        }
        kind = self._say("act", "visit said", said)
        self._visit["count"] += 1
        return kind

    def _reading(self, which: int) -> dict[str, Any]:
        measure, middle, spread = READINGS[which]
        value = middle + self._rng.uniform(-spread, spread) * (0.1 if which else 1.0)
        return {"measure": measure, "value_mm": round(value, 1)}

    def _say(self, name: str, kind: str, payload: dict[str, Any]) -> str:
        entry = {
            "id": str(uuid7()),
            "kind": kind,
            "at": datetime.now(UTC).isoformat(),
            "by": self._who["by"],
            "payload": payload,
        }
        began = time.perf_counter()
        told = self._ask("POST", "/station/entries", {"entries": [entry]})
        self._times.add(name, time.perf_counter() - began)
        kept = told.get("kept", [])
        if not kept or kept[0]["outcome"] != "taken":
            self._times.fault(f"{kind}: {json.dumps(told)[:200]}")
            self._visit, self._round = {}, []
            raise SetBackError
        return name

    def _ask(self, method: str, path: str, body: Any = None) -> dict[str, Any]:
        sent = None if body is None else json.dumps(body)
        for last in (False, True):
            try:
                connection = self._connected()
                connection.request(method, path, sent, self._headers())
                answer = connection.getresponse()
                told: dict[str, Any] = json.loads(answer.read())
                break
            except (http.client.HTTPException, OSError, ValueError):
                self._connection = None
                if last:
                    raise
        if answer.status != 200:
            self._times.fault(f"{method} {path}: {answer.status} {json.dumps(told)[:200]}")
        return told

    def _connected(self) -> http.client.HTTPConnection:
        if self._connection is None:
            self._connection = http.client.HTTPConnection("127.0.0.1", self._port, timeout=120)
        return self._connection

    def _headers(self) -> dict[str, str]:
        return {
            "Content-Type": "application/json",
            "Cookie": f"sessionid={self._who['session']}; csrftoken={TOKEN}",
            "X-CSRFToken": TOKEN,
        }


class SetBackError(RuntimeError):
    """Something was not taken; the station begins another visit."""


def _right(check: dict[str, Any]) -> dict[str, Any]:
    word = next(each["word"] for each in check["answers"] if each["right"])
    return {"event": "answered", "check": check["check"], "word": word}


def _found(check: dict[str, Any], rng: random.Random) -> dict[str, Any]:
    """Mostly right; now and then a pad is found loose or tight, so that something is changed."""
    wrong = [each["word"] for each in check["answers"] if not each["right"]]
    if check["stage"] == "contact" and wrong and rng.random() < 0.05:
        return {"event": "answered", "check": check["check"], "word": rng.choice(wrong)}
    return _right(check)
