"""A small room for tests: one model, two stores, a player, and short ways to say things."""

from datetime import UTC, date, datetime, timedelta
from typing import Any
from uuid import UUID, uuid4

from helmwright.catalogue import packaged_text
from helmwright.records.kinds import things
from helmwright.records.kinds.people import TeamOpened
from helmwright.records.ledger import Kept, Said, append
from helmwright.records.models import Device, Player, Shelf, Visit
from helmwright.records.sheets import read_sheet
from helmwright.visit.sheet_digest import sheet_digest

NOW = datetime(2026, 8, 7, 15, 41, tzinfo=UTC)
TEXT = packaged_text("ouzel")
SHEET = read_sheet(TEXT)
DIGEST = sheet_digest(SHEET)
CERTIFIED = date(2026, 2, 20)


class Room:
    """Says things one minute after another, and knows the IDs of what it made."""

    def __init__(self) -> None:
        self.now = NOW
        self.team, self.store, self.drawer = uuid4(), uuid4(), uuid4()
        self.said(TeamOpened(team=self.team, name="Kingfishers"))
        self.said(things.SheetAdded(digest=DIGEST, text=TEXT))
        self.said(things.StoreOpened(store=self.store, name="Room"))
        self.said(things.StoreOpened(store=self.drawer, name="Drawer 8"))

    def said(self, payload, *, device=None, said_id=None) -> Kept:
        self.now += timedelta(minutes=1)
        said = Said(said_id or uuid4(), payload, self.now, device=device)
        return append(said, now=self.now)

    def taken(self, payload, **how) -> Kept:
        kept = self.said(payload, **how)
        assert kept.is_taken, kept.entry.note
        return kept

    def note(self, payload, **how) -> str:
        kept = self.said(payload, **how)
        assert not kept.is_taken
        return kept.entry.note

    def helmet(self, code="TV-0147", **fields) -> UUID:
        helmet = uuid4()
        known: dict[str, Any] = {
            "sheet": DIGEST,
            "shell": 3,
            "store": self.store,
            "made_on": date(2024, 3, 1),
            "first_certified_on": CERTIFIED,
            "interval_months": 24,
        }
        self.taken(things.HelmetAdded(helmet=helmet, code=code, **(known | fields)))
        return helmet

    def received(self, place, size, quantity, store=None) -> None:
        self.taken(
            things.PartsMoved(
                sheet=DIGEST,
                place=place,
                size=size,
                quantity=quantity,
                to_store=store or self.store,
                why="received",
            )
        )

    def on_hand(self, place, size, store=None) -> int:
        rows = Shelf.objects.filter(store=store or self.store, part__place=place, part__size=size)
        return sum(rows.values_list("on_hand", flat=True))

    def player(self, number="15", name="Avocet Brookside") -> Player:
        """A row of its own: how players are added is told elsewhere."""
        return Player.objects.create(team_id=self.team, number=number, name=name)

    def station(self, name) -> Device:
        return Device.objects.create(name=name)

    def visit(self, player=None, *, helmet=None, state="open", station=None) -> Visit:
        return Visit.objects.create(
            id=uuid4(),
            player=player or self.player(),
            store_id=self.store,
            sheet_id=DIGEST,
            helmet_id=helmet,
            state=state,
            station=station,
            began_at=self.now,
            ended_at=None if state in ("open", "paused") else self.now,
        )
