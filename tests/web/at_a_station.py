"""A station for tests: somebody signed in, messages as a tablet sends them."""

import json
from datetime import UTC, datetime
from typing import Any
from uuid import UUID

from django.test import Client

from helmwright.records.ids import new_id
from helmwright.records.models import Staff

AT = datetime(2026, 8, 7, 15, 50, tzinfo=UTC)


class Station:
    """Somebody at a station, and the visit at hand."""

    def __init__(self, staff: Staff, player: UUID, store: UUID, sheet: str) -> None:
        self.staff, self.player, self.store, self.sheet = staff, player, store, sheet
        self.client = Client()
        self.client.force_login(staff, backend="django.contrib.auth.backends.ModelBackend")
        self.visit = new_id(AT)
        self.seen: dict[str, Any] = {}

    def entry(self, kind: str, payload: dict[str, Any], **more) -> dict[str, Any]:
        """One entry as it stands in the outbox."""
        return {
            "id": str(new_id(AT)),
            "kind": kind,
            "at": AT.isoformat(),
            "by": str(self.staff.id),
            "payload": payload,
            **more,
        }

    def send(self, *entries: dict[str, Any]) -> dict[str, Any]:
        """A batch, and what is answered."""
        told = self.client.post(
            "/station/entries",
            data=json.dumps({"entries": list(entries)}),
            content_type="application/json",
        )
        assert told.status_code == 200, told.content
        return told.json()

    def tell(self, kind: str, **payload) -> dict[str, Any]:
        """One entry, which is taken."""
        told = self.send(self.entry(kind, payload))
        assert not told["refused"], told
        assert told["kept"][0]["outcome"] == "taken", told
        return told

    def begin(self, **more) -> dict[str, Any]:
        """Begin the visit."""
        return self.tell(
            "visit begun",
            visit=str(self.visit),
            player=str(self.player),
            store=str(self.store),
            sheet=self.sheet,
            **more,
        )

    def said(
        self, event: dict[str, Any], *, place: int | None = None, words: str = ""
    ) -> dict[str, Any]:
        """An event of the visit, as an entry."""
        at = self.seen["count"] if place is None else place
        payload = {
            "visit": str(self.visit),
            "player": str(self.player),
            "place": at,
            "event": event,
            "words": words,
        }
        return self.entry("visit said", payload)

    def say(self, event: dict[str, Any], **how) -> dict[str, Any]:
        """What becomes of an event that is said now."""
        told = self.send(self.said(event, **how))
        assert not told["refused"], told
        return told["kept"][0]

    def look(self) -> dict[str, Any]:
        """The visit as it is now."""
        told = self.client.get(f"/station/visits/{self.visit}")
        assert told.status_code == 200, told.content
        self.seen = told.json()
        return self.seen

    @property
    def asked(self) -> dict[str, Any]:
        """What waits for an answer."""
        message = self.seen["message"]
        return message["next"] if message["message"] == "proposal" else message
