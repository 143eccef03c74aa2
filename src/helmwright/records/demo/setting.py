"""What was there before the fitting day: the room, its staff, helmets, parts and players."""

import hashlib
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from typing import Any
from uuid import NAMESPACE_URL, UUID, uuid5

from helmwright.catalogue import ModelSheet, packaged_text, parse_sheet
from helmwright.records.actions.doors import set_password, set_pin
from helmwright.records.demo import story
from helmwright.records.kinds import Payload
from helmwright.records.kinds.people import (
    DeviceEnrolled,
    PlayerAdded,
    ReadingTaken,
    SeasonOpened,
    StaffJoined,
    TeamOpened,
)
from helmwright.records.kinds.things import (
    HelmetAdded,
    HelmetHeld,
    PartsMoved,
    SheetAdded,
    StoreOpened,
)
from helmwright.records.kinds.visits import Acknowledged, HelmetIssued
from helmwright.records.ledger import Said, append
from helmwright.records.models import Staff
from helmwright.records.warning import WARNING
from helmwright.roster import Player, demo_roster_bytes, demo_stock_bytes, read_roster_file
from helmwright.roster import read_stock as read_stock_list
from helmwright.visit.sheet_digest import sheet_digest
from helmwright.visit.shelf import SHELL


@dataclass
class Setting:
    """Everything by the name that the story calls it.

    Parameters
    ----------
    now
        The end of the story.
    """

    now: datetime
    team: UUID = field(init=False)
    sheet: ModelSheet = field(init=False)
    digest: str = field(init=False)
    staff: dict[str, Staff] = field(default_factory=dict)
    stores: dict[str, UUID] = field(default_factory=dict)
    devices: dict[str, UUID] = field(default_factory=dict)
    helmets: dict[str, UUID] = field(default_factory=dict)
    players: dict[str, UUID] = field(default_factory=dict)
    _said: int = 0

    def fixed(self, name: str) -> UUID:
        """An ID that follows from a name alone: what is computed for its bearer does, too."""
        return uuid5(NAMESPACE_URL, f"https://demo.invalid/{name}")

    def id(self, name: str, at: datetime) -> UUID:
        """An ID of that time whose rest follows from a name: the story goes the same each time."""
        rest = int.from_bytes(hashlib.sha256(name.encode()).digest()[:10])
        milliseconds = int(at.timestamp() * 1000)
        high = milliseconds << 16 | 0x7 << 12 | rest >> 68
        return UUID(int=high << 64 | 0b10 << 62 | rest % 2**62)

    def ago(self, **how_long: float) -> datetime:
        """So long before the end."""
        return self.now - timedelta(**how_long)

    def say(self, payload: Payload, at: datetime, by: str = "", on: str = "") -> None:
        """One entry; the story holds none that has no effect.

        Raises
        ------
        ValueError
            Where it has none.
        """
        self._said += 1
        said = Said(
            self.id(f"entry {self._said}", at),
            payload,
            at,
            self.staff[by].id if by else None,
            self.devices[on] if on else None,
        )
        kept = append(said, now=at)
        if not kept.is_taken:
            raise ValueError(f"the story does not hold: {payload.KIND}: {kept.entry.note}")


def opened(now: datetime) -> Setting:
    """The room as it was when the fitting day began."""
    setting = Setting(now)
    _room(setting, setting.ago(days=200))
    _helmets(setting, setting.ago(days=190))
    _parts(setting, setting.ago(days=21))
    _players(setting, setting.ago(days=9))
    _last_week(setting, setting.ago(days=4))
    return setting


def _room(setting: Setting, at: datetime) -> None:
    setting.team = setting.id("team", at)
    setting.say(TeamOpened(team=setting.team, name=story.TEAM), at)
    name = f"{story.SEASON} {setting.now.year}"
    opening = SeasonOpened(season=setting.id("season", at), team=setting.team, name=name)
    setting.say(opening, at)
    for member in story.STAFF:
        setting.staff[member.username] = _joined(setting, member, at)
    for store in story.STORES:
        setting.stores[store] = setting.id(store, at)
        setting.say(StoreOpened(store=setting.stores[store], name=store), at, story.MANAGER)
    for station in story.STATIONS:
        device = setting.devices[station.name] = setting.id(station.name, at)
        store_id = setting.stores[station.store]
        enrolled = DeviceEnrolled(device=device, name=station.name, store=store_id)
        setting.say(enrolled, at, story.MANAGER)
    text = packaged_text(story.MODEL)
    setting.sheet = parse_sheet(text, name=story.MODEL)
    setting.digest = sheet_digest(setting.sheet)
    setting.say(SheetAdded(digest=setting.digest, text=text), at, story.MANAGER)


def _joined(setting: Setting, member: story.Member, at: datetime) -> Staff:
    joined = StaffJoined(
        staff=setting.fixed(member.username),
        username=member.username,
        name=member.name,
        role=member.role,
    )
    setting.say(joined, at)
    staff = Staff.objects.get(id=joined.staff)
    set_password(staff=staff, password=story.PASSWORD)
    if member.pin:
        set_pin(staff=staff, pin=member.pin)
    return staff


def _helmets(setting: Setting, at: datetime) -> None:
    number, today = story.FIRST_CODE, setting.now.date()
    for lot in story.LOTS:
        in_room = lot.count - lot.cart - lot.trunk
        stores = [story.ROOM] * in_room + [story.CART] * lot.cart + [story.TRUNK] * lot.trunk
        for store in stores:
            code = f"TV-{number:04}"
            helmet = setting.helmets[code] = setting.id(code, at)
            added = HelmetAdded(
                helmet=helmet,
                code=code,
                serial=f"OZ{today.year - lot.bought}-{number * 37 % 9000 + 1000}",
                sheet=setting.digest,
                shell=lot.shell,
                store=setting.stores[store],
                color=story.COLOR,
                **_dates(lot, today),
            )
            setting.say(added, at, story.MANAGER)
            number += 1
    code, why = story.HELD
    held = HelmetHeld(helmet=setting.helmets[code], why=why)
    setting.say(held, setting.ago(days=30), story.STUDENT)


def _dates(lot: story.Lot, today: date) -> dict[str, Any]:
    made = date(today.year - lot.bought, 2, 10)
    sent = lot.recertified
    return {
        "made_on": made,
        "first_certified_on": made,
        "bought_on": made + timedelta(days=70),
        "recertified_on": None if sent is None else today - timedelta(days=round(30.4 * sent)),
    }


def _parts(setting: Setting, at: datetime) -> None:
    stock = read_stock_list(demo_stock_bytes(), setting.sheet)
    room, cart = setting.stores[story.ROOM], setting.stores[story.CART]
    for place, size, count in stock.rows:
        if place == SHELL or not count:
            continue
        part: dict[str, Any] = {"sheet": setting.digest, "place": place, "size": size}
        came = PartsMoved(**part, quantity=count, to_store=room, why="received")
        setting.say(came, at, story.STUDENT)
        if count // 3:
            went = PartsMoved(
                **part, quantity=count // 3, from_store=room, to_store=cart, why="moved"
            )
            setting.say(went, at + timedelta(days=20), story.STUDENT)


def _players(setting: Setting, at: datetime) -> None:
    for place, player in enumerate(read_roster_file(demo_roster_bytes()).players):
        when = at + timedelta(minutes=4 * place)
        key = setting.fixed(f"player {place}")
        # A number is no key: of two the first one is who the story means.
        setting.players.setdefault(player.number, key)
        added = PlayerAdded(
            player=key,
            team=setting.team,
            number=player.number,
            name=player.name,
            position=player.position,
            sex="" if player.sex is None else player.sex.value,
            stature_mm=player.stature_mm,
            weight_kg=player.weight_kg,
            glasses=player.glasses,
            worn=player.worn or (),
        )
        setting.say(added, when, story.MANAGER)
        if player.number not in story.UNMEASURED:
            _measured(setting, player, key, when + timedelta(days=2))
    for newcomer in story.NEWCOMERS:
        when = setting.ago(hours=3)
        added = PlayerAdded(
            player=setting.fixed(f"newcomer {newcomer.name}"),
            team=setting.team,
            number=newcomer.number,
            name=newcomer.name,
            position=newcomer.position,
        )
        setting.say(added, when, story.MANAGER)


def _measured(setting: Setting, player: Player, key: UUID, at: datetime) -> None:
    for place, reading in enumerate(player.readings):
        taken = ReadingTaken(
            player=key,
            measure=reading.measure,
            value_mm=reading.value_mm,
            over=reading.over,
            beneath=reading.beneath,
        )
        setting.say(taken, at + timedelta(seconds=20 * place), story.MEASURER)


def _last_week(setting: Setting, at: datetime) -> None:
    for number, code in story.LAST_WEEK.items():
        player, helmet = setting.players[number], setting.helmets[code]
        setting.say(acknowledged(player, helmet), at, story.MANAGER)
        setting.say(HelmetIssued(helmet=helmet, player=player), at, story.MANAGER)


def acknowledged(player: UUID, helmet: UUID, visit: UUID | None = None) -> Acknowledged:
    """The warning was read to a player, who signed with a typed name."""
    return Acknowledged(
        player=player,
        helmet=helmet,
        visit=visit,
        text_version=WARNING.version,
        language=WARNING.language,
        showed=("where the warning label is", "how to say that the fit has changed"),
        player_signature="signed in the demo",
        fitter_signature="signed in the demo",
    )
