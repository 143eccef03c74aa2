"""A room in the middle of a fitting day, for the desk's pages: rows as the projections leave them.

Every name is invented: birds and places.
"""

from datetime import date, datetime, timedelta
from uuid import uuid4

from helmwright.catalogue import packaged_text, parse_sheet
from helmwright.records.models import (
    Device,
    Helmet,
    HelmetBuild,
    Issue,
    Movement,
    Part,
    Player,
    Reading,
    Role,
    Sheet,
    Shelf,
    Staff,
    Store,
    Team,
    Visit,
)

PLACES = ("Brookside", "Fenwick", "Marshend", "Oxbow", "Reedham", "Siltbank", "Thornmere")
BIRDS = ("Avocet", "Bunting", "Curlew", "Dunlin", "Egret", "Fulmar", "Godwit", "Heron", "Ibis")


class Room:
    """What a test asks of the room, and the rows behind it."""

    def __init__(self, now: datetime, model: str = "ouzel") -> None:
        self.now = now
        self.text = packaged_text(model)
        self.sheet = parse_sheet(self.text, name=model)
        self.team = Team.objects.create(name="Tamarack Valley College Kingfishers")
        self.sheet_row = Sheet.objects.create(
            digest="a" * 64,
            model=self.sheet.model,
            is_invented=True,
            text=self.text,
            added_at=now - timedelta(days=30),
        )
        self.store = Store.objects.create(name="Equipment room")
        # Far from those that the ledger of a test gives out.
        self.entry = 1_000_000
        self.staff = {role: self.person(role) for role in Role}

    def person(self, role: Role) -> Staff:
        person = Staff(username=role.value, name=f"{role.value.title()} Reedham", role=role)
        person.set_password("a password of the tests")
        person.save()
        return person

    def store_of(self, name: str) -> Store:
        return Store.objects.create(name=name)

    def station(self, number: int) -> Device:
        return Device.objects.create(
            name=f"Station {number}",
            store=self.store,
            enrolled_at=self.now - timedelta(days=1),
            heard_at=self.now - timedelta(minutes=number),
        )

    def player(self, number: str, position: str = "WR", name: str = "") -> Player:
        count = Player.objects.count()
        name = name or f"{BIRDS[count % 9]} {PLACES[count // 9 % 7]}"
        return Player.objects.create(team=self.team, number=number, name=name, position=position)

    def reading(self, player: Player, value_mm: float = 575.0) -> Reading:
        return Reading.objects.create(
            id=uuid4(),
            player=player,
            measure="head_circumference",
            value_mm=value_mm,
            at=self.now - timedelta(days=2),
        )

    def delivered(self) -> dict[str, str]:
        return {str(kind.zone): kind.labels[kind.delivered] for kind in self.sheet.pads}

    def helmet(self, code: str, shell: int = 4, **fields: object) -> Helmet:
        usual = {
            "made_on": date(2024, 3, 1),
            "bought_on": date(2024, 5, 2),
            "first_certified_on": date(2024, 3, 1),
            "recertified_on": date(2026, 2, 20),
            "interval_months": 24,
            "life_years": 10,
        }
        helmet = Helmet.objects.create(
            code=code,
            serial=f"S-{code}",
            sheet=self.sheet_row,
            shell=shell,
            store=self.store,
            **(usual | fields),
        )
        since = self.now - timedelta(days=90)
        HelmetBuild.objects.create(
            helmet=helmet, pads=self.delivered(), since=since, entry=self.next_entry()
        )
        return helmet

    def visit(
        self,
        player: Player,
        station: Device | None,
        began: float,
        ended: float | None,
        state: str = "accepted",
        **fields: object,
    ) -> Visit:
        """A visit that began and ended so many minutes ago."""
        return Visit.objects.create(
            id=uuid4(),
            player=player,
            store=self.store,
            sheet=self.sheet_row,
            station=station,
            fitter=self.staff[Role.FITTER],
            state=state,
            began_at=self.now - timedelta(minutes=began),
            ended_at=None if ended is None else self.now - timedelta(minutes=ended),
            **fields,
        )

    def issue(self, visit: Visit, helmet: Helmet) -> Issue:
        return Issue.objects.create(
            id=uuid4(),
            helmet=helmet,
            player=visit.player,
            visit=visit,
            purpose="game",
            since=visit.ended_at or self.now,
        )

    def wire_build(self, shell: int = 4, **other: str) -> dict[str, object]:
        pads = self.delivered() | {zone.replace("_", " "): pad for zone, pad in other.items()}
        return {"shell": shell, "pads": {zone: {"pad": pad} for zone, pad in pads.items()}}

    def stock(self, place: str, size: str, *moved: tuple[float, int]) -> Part:
        """Movements of a part: minutes ago, and how many."""
        part, _ = Part.objects.get_or_create(sheet=self.sheet_row, place=place, size=size)
        for minutes, quantity in moved:
            Movement.objects.create(
                entry=self.next_entry(),
                store=self.store,
                part=part,
                quantity=quantity,
                why="received" if quantity > 0 else "fit",
                at=self.now - timedelta(minutes=minutes),
            )
        shelf, _ = Shelf.objects.get_or_create(store=self.store, part=part)
        shelf.on_hand += sum(quantity for _, quantity in moved)
        shelf.save()
        return part

    def next_entry(self) -> int:
        self.entry += 1
        return self.entry


def fitting_day(now: datetime, *, stations: int = 4, players: int = 40) -> Room:
    """Four stations at work: some issued, three in visit, one paused, the rest to come."""
    room = Room(now)
    devices = [room.station(number) for number in range(1, stations + 1)]
    roster = [
        room.player(str(number + 1), ("QB", "OL", "DB", "WR", "LB")[number % 5])
        for number in range(players)
    ]
    for player in roster[::2]:
        room.reading(player)
    zones = {str(kind.zone): kind.labels for kind in room.sheet.pads}
    helmets = [room.helmet(f"TV-{100 + number:04d}", 2 + number % 5) for number in range(30)]
    front, jaw = zones["front"], zones["jaw left"]
    done = 0
    for place, device in enumerate(devices):
        ago = 150.0 - 12 * place
        while ago > 40:
            player, helmet = roster[done], helmets[done]
            build = room.wire_build(helmet.shell, front=front[0], jaw_left=jaw[-1])
            visit = room.visit(
                player, device, ago, ago - 19, build=build, helmet=helmet, found_right=0.61
            )
            if done != 3:
                room.issue(visit, helmet)
            ago, done = ago - 24, done + 1
        if place == 2:
            room.visit(roster[done], device, ago, None, "paused", waits_for="the checks")
        else:
            room.visit(
                roster[done],
                device,
                min(ago, 14 + place),
                None,
                "open",
                waits_for=f"check {place + 4} of 17",
                build=room.wire_build(3, front=front[1]),
                found_right=0.7,
            )
        done += 1
    for kind in room.sheet.pads:
        zone = "jaw" if str(kind.zone).startswith("jaw") else str(kind.zone)
        for size in kind.labels:
            room.stock(zone, size, (60 * 24 * 3, 4))
    for ago in (140, 118, 71, 33, 12):
        room.stock("front", front[0], (ago, -1))
    room.stock("jaw", jaw[-1], (90, -1), (45, -2))
    return room
