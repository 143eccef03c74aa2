"""What a file would do to the room as it is now, and what became of files."""

from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from uuid import UUID

from django.utils import timezone

from helmwright.records.kinds.people import PlayerFields
from helmwright.records.kinds.things import HelmetFields
from helmwright.records.models import (
    Helmet,
    HelmetBuild,
    Player,
    Reading,
    Sheet,
    Store,
    TakeIn,
    Team,
)
from helmwright.records.projection.known import sheet_in_use
from helmwright.records.projection.stock import counts_of
from helmwright.records.sheets import sheet_of
from helmwright.records.taking_in.helmet_plan import HelmetTaking, plan_helmets
from helmwright.records.taking_in.helmets_here import HelmetHere, RoomHere
from helmwright.records.taking_in.plan import Plan
from helmwright.records.taking_in.roster_here import PlayerHere, ReadingHere
from helmwright.records.taking_in.roster_plan import RosterTaking, plan_roster
from helmwright.records.taking_in.stock_plan import How, StockTaking, plan_stock
from helmwright.records.taking_in.upload import (
    MOST_BYTES,
    MOST_ENTRIES,
    MOST_ROWS,
    Upload,
)
from helmwright.records.words import room_day
from helmwright.roster import (
    RosterError,
    read_helmets,
    read_roster_file,
    read_stock_rows,
)

_PLAYER = tuple(PlayerFields.model_fields)
_HELMET = tuple(HelmetFields.model_fields)


Read = Callable[[], Plan]
"""Makes the plan of a file that was read, for the room as it is at that moment."""


def plan_of(upload: Upload, *, today: date) -> Plan:
    """What the file would do now.

    Raises
    ------
    RosterError
        Where it is no such list, is too large, or what it belongs to is not in the room.
    """
    return read_file(upload, today=today)()


def read_file(upload: Upload, *, today: date) -> Read:
    """The file, read once: that takes seconds, and needs nobody to wait.

    Raises
    ------
    RosterError
        Here and when the plan is made, as `plan_of`.
    """
    if len(upload.data) > MOST_BYTES:
        raise RosterError(
            f"this file is larger than {MOST_BYTES / 1e6:g} MB; save the one sheet alone"
        )
    read = {"roster": _roster, "helmets": _helmets, "stock": _stock}[upload.what](upload, today)
    return lambda: _bounded(read())


def _bounded(plan: Plan) -> Plan:
    for count, most, what in (
        (len(plan.lines), MOST_ROWS, "rows"),
        (len(plan.payloads), MOST_ENTRIES, "things to do"),
    ):
        if count > most:
            raise RosterError(
                f"this file has {count:,} {what}, and {most:,} are taken in at once;"
                " part it into several files"
            )
    return plan


def taken_before(upload: Upload) -> TakeIn | None:
    """The same file, taken in before and not undone."""
    same = TakeIn.objects.filter(
        file_digest=upload.digest, what=upload.what, undone_at__isnull=True
    )
    return same.exclude(id=upload.take_in).order_by("-at").first()


def _roster(upload: Upload, today: date) -> Read:
    roster = read_roster_file(upload.data, today=today)
    return lambda: plan_roster(roster, _roster_taking(upload, today))


def _roster_taking(upload: Upload, today: date) -> RosterTaking:
    team = Team.objects.filter(id=upload.team).first() if upload.team else None
    if team is None:
        raise RosterError("the room has no team yet; a manager opens one at the desk, under Room")
    return RosterTaking(
        take_in=upload.take_in,
        team=team.id,
        players=players_here(team.id),
        today=today,
        zone=timezone.get_default_timezone(),
        answers=upload.answers,
    )


def players_here(team: UUID) -> list[PlayerHere]:
    """Everybody of a team who is not erased, with their readings."""
    readings: dict[UUID, list[ReadingHere]] = defaultdict(list)
    kept = Reading.objects.filter(player__team=team, is_withdrawn=False).order_by("at", "id")
    for each in kept:
        day = room_day(each.at)
        readings[each.player_id].append(
            ReadingHere(each.measure, each.value_mm, each.over, each.beneath, day)
        )
    players = Player.objects.filter(team=team, erased_at=None).order_by("name", "number", "id")
    return [
        PlayerHere(
            id=player.id,
            fields=PlayerFields(**{name: getattr(player, name) for name in _PLAYER}),
            is_here=player.is_here,
            readings=readings[player.id],
        )
        for player in players
    ]


def _helmets(upload: Upload, today: date) -> Read:
    found = read_helmets(upload.data, today=today)
    return lambda: plan_helmets(found, HelmetTaking(upload.take_in, room_here(), upload.store))


def room_here() -> RoomHere:
    """Models, stores and helmets."""
    sheets = {row.digest: sheet_of(row) for row in Sheet.objects.filter(is_current=True)}
    stores = dict(Store.objects.filter(is_closed=False).order_by("name").values_list("id", "name"))
    builds = HelmetBuild.objects.filter(until__isnull=True)
    pads = dict(builds.values_list("helmet_id", "pads"))
    helmets = [
        HelmetHere(
            id=helmet.id,
            code=helmet.code,
            digest=helmet.sheet_id,
            shell=helmet.shell,
            store=helmet.store_id,
            fields=HelmetFields(**{name: getattr(helmet, name) for name in _HELMET}),
            pads=pads.get(helmet.id, {}),
            is_retired=helmet.retired_on is not None,
        )
        for helmet in Helmet.objects.order_by("code")
    ]
    return RoomHere(sheets, stores, helmets)


def _stock(upload: Upload, _today: date) -> Read:
    return lambda: _stock_plan(upload)


def _stock_plan(upload: Upload) -> Plan:
    store = Store.objects.filter(id=upload.store).first() if upload.store else None
    row = Sheet.objects.filter(digest=upload.sheet).first()
    if store is None or row is None:
        raise RosterError("a stock list belongs to a store and a model; choose both")
    current = sheet_in_use(row.digest)
    sheet = sheet_of(current)
    taking = StockTaking(
        take_in=upload.take_in,
        store=store.id,
        digest=current.digest,
        sheet=sheet,
        counts=counts_of(store, current),
        how=How(upload.how),
    )
    return plan_stock(read_stock_rows(upload.data, sheet), taking)


@dataclass(frozen=True, slots=True)
class Made:
    """How many things of one kind a file made."""

    kind: str
    count: int


def made_by(take_in: TakeIn) -> Sequence[Made]:
    """What a file made, by kind, as long as it stands."""
    counts: dict[str, int] = defaultdict(int)
    for kind in take_in.made.values_list("kind", flat=True):
        counts[kind] += 1
    return [Made(kind, count) for kind, count in counts.items()]
