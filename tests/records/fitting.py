"""A visit for tests: what persons and the program say in it, one after the other."""

from typing import Any
from uuid import UUID

from helmwright.fit.outlook import Build
from helmwright.records.actions.visits import begin, say, say_next
from helmwright.records.ids import new_id
from helmwright.records.kinds.people import DeviceEnrolled
from helmwright.records.kinds.visits import HelmetReserved, VisitBegun, VisitSaid, VisitTakenOver
from helmwright.records.ledger import Kept, Said, append
from helmwright.records.models import Device, HelmetBuild, Player, Reservation, Staff, Team, Visit
from helmwright.visit.wire_build import build_to_wire
from tests.records.entries import NOW, a_member, a_player, tell
from tests.records.room import DIGEST, SHEET, Room

READ = {"measure": "tape_circumference", "value_mm": 575.0}
MEASURED = {"event": "measured", "readings": [READ, READ | {"value_mm": 576.0}]}


def build(shell: int = 3, **pads: str) -> dict[str, Any]:
    """The delivered build of a shell, but for some pads."""
    wire = build_to_wire(Build(shell, SHEET.delivered), SHEET)
    for zone, label in pads.items():
        wire["pads"][zone.replace("_", " ")] = {"pad": label}
    return wire


def proposed(shell: int = 3, **pads: str) -> dict[str, Any]:
    """The program proposes it."""
    return {
        "event": "proposed",
        "build": build(shell, **pads),
        "fits": 0.6,
        "found_right": 0.4,
        "minutes": 5.0,
        "why": "It is the likeliest.",
        "effective": 400.0,
    }


def put_on(shell: int = 3, **pads: str) -> dict[str, Any]:
    """A build is on the head."""
    return {"event": "put on", "build": build(shell, **pads)}


def answered(check: str, word: str) -> dict[str, Any]:
    """A check is answered."""
    return {"event": "answered", "check": check, "word": word}


class Fitting:
    """One visit in a small room."""

    def __init__(
        self, room: Room, *, helmet: UUID | None = None, player: Player | None = None
    ) -> None:
        self.room, self.id = room, new_id(room.now)
        self.fitter: Staff = a_member(username=f"fitter-{self.id.hex[-8:]}")
        self.player: Player = player or a_player(room_team(room), name="Avocet Brookside")
        self.station = a_station(f"Station {self.id.hex[-4:]}")
        self.begun = self.begin(helmet=helmet)

    def begin(self, **fields: Any) -> Kept:
        """The visit begins."""
        payload = VisitBegun(
            **{
                "visit": self.id,
                "player": self.player.id,
                "store": self.room.store,
                "sheet": DIGEST,
                **fields,
            }
        )
        return begin(said=self._said(payload), now=self.room.now)

    def say(
        self,
        event: dict[str, Any],
        *,
        place: int | None = None,
        words: str = "",
        station: Device | None = None,
    ) -> Kept:
        """A person says something."""
        payload = VisitSaid(
            visit=self.id,
            player=self.player.id,
            place=self.count if place is None else place,
            event=event,
            words=words,
        )
        return say(said=self._said(payload, station), now=self.room.now)

    def taken(self, event: dict[str, Any], **how: Any) -> Visit:
        """The visit after something that a person says, and that is taken."""
        kept = self.say(event, **how)
        assert kept.is_taken, kept.entry.note
        return self.row

    def program(self, *events: dict[str, Any]) -> bool:
        """The program says what comes next."""
        return say_next(
            visit=self.id,
            player=self.player.id,
            place=self.count,
            events=events,
            now=self.room.now,
        )

    def reserve(self, helmet: UUID) -> None:
        """A helmet is spoken for."""
        kept = append(self._said(HelmetReserved(visit=self.id, helmet=helmet)), now=self.room.now)
        assert kept.is_taken, kept.entry.note

    def take_over(self, station: Device) -> Kept:
        """Another station has it."""
        payload = VisitTakenOver(visit=self.id, player=self.player.id)
        return append(self._said(payload, station), now=self.room.now)

    @property
    def row(self) -> Visit:
        """Where it stands."""
        return Visit.objects.get(id=self.id)

    @property
    def meant(self) -> list[UUID]:
        """Helmets that are meant for it."""
        held = Reservation.objects.filter(visit=self.id, helmet__isnull=False, until=None)
        return [row.helmet.id for row in held if row.helmet]

    @property
    def has_no_helmet(self) -> bool:
        """Whether nobody knows its helmet, and none is meant for it."""
        return Visit.objects.filter(id=self.id, helmet=None).exists() and not self.meant

    @property
    def count(self) -> int:
        """Events so far."""
        return self.row.steps.count()

    def _said(self, payload: Any, station: Device | None = None) -> Said:
        return Said(
            new_id(self.room.now),
            payload,
            self.room.now,
            actor=self.fitter.id,
            device=(station or self.station).id,
        )


def a_station(name: str) -> Device:
    """A device that the ledger tells of."""
    device = new_id(NOW)
    assert tell(DeviceEnrolled(device=device, name=name)).is_taken
    return Device.objects.get(id=device)


def room_team(room: Room) -> Team:
    """The room's team."""
    return Team.objects.get(id=room.team)


def pads_in(helmet: UUID) -> dict[str, str]:
    """What is in a helmet now."""
    pads: dict[str, str] = HelmetBuild.objects.get(helmet=helmet, until=None).pads
    return pads
