"""A stand-in for the laptop: the station's real page, and its messages answered from memory."""

import json
import threading
from datetime import UTC, datetime
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import parse_qs

from django.conf import settings
from django.template.loader import render_to_string
from django.test import RequestFactory

from helmwright.web.station import shell
from tests.browser.today import today

if TYPE_CHECKING:
    from collections.abc import Callable

KINDS = {".js": "text/javascript", ".css": "text/css", ".woff2": "font/woff2"}
POLICY = "; ".join(
    " ".join((name, *values))
    for name, values in settings.CONTENT_SECURITY_POLICY["DIRECTIVES"].items()
)
Answer = tuple[int, Any]


class StandIn:
    """What a test sees of it, and how it is made to fail.

    `rows` are the entries that it keeps, once each, in the order in which they came. `fate` says
    what becomes of an entry that is not taken. While `loses_replies`, it keeps what it is told and
    hangs up before it answers. What stands in `newer_release` makes the service worker another one.
    `labels` are helmets by their codes, and `holders` who has them.
    """

    def __init__(self) -> None:
        self.today = today()
        self.rows: dict[str, dict[str, Any]] = {}
        self.told = 0
        self.loses_replies = False
        self.signed_in = True
        self.fate: Callable[[dict[str, Any]], dict[str, str] | None] = lambda _entry: None
        self.visit: Callable[[str], dict[str, Any] | None] = lambda _id: None
        self.findings: list[dict[str, Any]] = []
        self.labels: dict[str, dict[str, Any]] = {}
        self.holders: dict[str, str] = {}
        self.pin = "4711"
        self.newer_release = ""
        self._lock = threading.Lock()
        self._server: ThreadingHTTPServer | None = None
        self._port = 0

    @property
    def address(self) -> str:
        """Of the station's page."""
        return f"http://127.0.0.1:{self._port}/station/"

    def start(self) -> None:
        """Be there; after a stop, at the same address."""
        handler = type("Handler", (_Handler,), {"laptop": self})
        self._server = _Server(("127.0.0.1", self._port), handler)
        self._port = self._server.server_port
        threading.Thread(target=self._server.serve_forever, args=(0.02,), daemon=True).start()

    def stop(self) -> None:
        """Be gone."""
        if self._server is not None:
            self._server.shutdown()
            self._server.server_close()
            self._server = None

    def kinds(self) -> list[str]:
        """Of the entries kept, in order."""
        return [row["kind"] for row in self.rows.values()]

    def answer(self, method: str, address: str, body: Any) -> Answer:
        """To one message."""
        path, _, asked = address.partition("?")
        with self._lock:
            if path == "/pin":
                return self._sign_in(body)
            if not self.signed_in:
                return 401, {"error": "sign in"}
            return (
                self._find(asked) if path == "/station/find" else self._answer(method, path, body)
            )

    def _answer(self, method: str, path: str, body: Any) -> Answer:
        if path == "/station/entries" and method == "POST":
            return 200, self._keep(body["entries"])
        if path == "/station/today":
            return 200, self.today | {"server_time": datetime.now(UTC).isoformat()}
        if path == "/station/look-over":
            return 200, {"findings": self.findings}
        if path.startswith("/station/visits/"):
            found = self.visit(path.rsplit("/", 1)[1])
            return (200, found) if found else (404, {"error": "no such visit"})
        return 404, {"error": "not here"}

    def _find(self, asked: str) -> Answer:
        code = parse_qs(asked)["code"][0]
        helmet = self.labels.get(code)
        if helmet is None:
            return 404, {"error": "no such helmet"}
        return 200, {"helmet": helmet, "player": self.holders.get(code)}

    def _keep(self, entries: list[dict[str, Any]]) -> dict[str, Any]:
        self.told += 1
        kept, refused, stuck = [], [], []
        for entry in entries:
            fate = self.fate(entry) or {"outcome": "taken", "note": ""}
            if fate.get("outcome") == "stuck":
                stuck.append({"id": entry["id"], "what": "a defect", "right": "tell the manager"})
                continue
            if "what" in fate:
                refused.append({"id": entry["id"], **fate})
                continue
            self.rows.setdefault(entry["id"], entry)
            kept.append({"id": entry["id"], **fate})
        return {"kept": kept, "refused": refused, "stuck": stuck}

    def _sign_in(self, body: dict[str, str]) -> Answer:
        if body["pin"] != self.pin:
            return 401, {"error": "wrong"}
        self.signed_in = True
        person = next(each for each in self.today["people"] if each["id"] == body["staff"])
        self.today["person"] = {name: person[name] for name in ("id", "name", "role")}
        return 200, self.today["person"]


class _Server(ThreadingHTTPServer):
    daemon_threads = True
    allow_reuse_address = True

    def handle_error(self, *_args: Any) -> None:
        """A browser that goes away in the middle of an answer is no fault."""


class _Handler(BaseHTTPRequestHandler):
    laptop: StandIn

    def do_GET(self) -> None:
        path = self.path.split("?")[0]
        if path == "/station/":
            self._send(200, "text/html", render_to_string("web/station.html").encode())
        elif path == "/station/sw.js":
            worker = shell.worker(RequestFactory().get(path))
            self._send(200, "text/javascript", worker.content + self.laptop.newer_release.encode())
        elif path.startswith("/static/"):
            file = shell.STATIC / path.removeprefix("/static/")
            self._send(200, KINDS.get(Path(path).suffix, "text/plain"), file.read_bytes())
        else:
            self._message("GET", None)

    def do_POST(self) -> None:
        self._message("POST", json.loads(self.rfile.read(int(self.headers["Content-Length"]))))

    def _message(self, method: str, body: Any) -> None:
        status, said = self.laptop.answer(method, self.path, body)
        if method == "POST" and self.laptop.loses_replies:
            self.close_connection = True
            self.connection.close()
            return
        self._send(status, "application/json", json.dumps(said).encode())

    def _send(self, status: int, kind: str, body: bytes) -> None:
        self.send_response(status)
        self.send_header("Content-Type", f"{kind}; charset=utf-8")
        self.send_header("Content-Length", str(len(body)))
        self.send_header("Content-Security-Policy", POLICY)
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *_args: Any) -> None:
        """Nothing is written: the tests look at what was kept."""
