"""What leans on what a file did: an act that came later, and would not hold without it.

The words name no person: they may come to stand where nothing is erased.
"""

import json
from collections.abc import Iterator, Sequence

from helmwright.records.kinds.people import PlayerAdded, PlayerChanged, PlayerWears
from helmwright.records.kinds.things import HelmetAdded
from helmwright.records.models import (
    Entry,
    Helmet,
    Issue,
    Movement,
    Outcome,
    Player,
    Reading,
    Reservation,
    Shelf,
    TakeIn,
    TakeInRow,
    VisitStep,
)
from helmwright.records.projection.taking_in import READING, told


def why_player_stays(take_in: TakeIn, rows: Sequence[TakeInRow]) -> str:
    """The first thing that leans on a player's rows; empty where nothing does."""
    player = Player.objects.get(id=rows[0].subject)
    return next(_leaning_on_player(take_in, rows, player), "")


def why_helmet_stays(take_in: TakeIn, rows: Sequence[TakeInRow]) -> str:
    """The same for a helmet."""
    helmet = Helmet.objects.get(id=rows[0].subject)
    return next(_leaning_on_helmet(take_in, rows, helmet), "")


def why_parts_stay(_take_in: TakeIn, rows: Sequence[TakeInRow]) -> str:
    """The same for a part of a store."""
    last, part = rows[-1], rows[-1].part
    shelf = Shelf.objects.get(store=last.subject, part=part)
    if shelf.counted is not None and shelf.counted > last.entry:
        return "It was counted since, and the count says what is there."
    came = sum(
        Movement.objects.filter(entry__in=[row.entry for row in rows]).values_list(
            "quantity", flat=True
        )
    )
    if came > 0 and shelf.on_hand < came:
        return "Some of these parts left the store since. Count what is there."
    open_ones = Reservation.objects.filter(store=last.subject, part=part, until__isnull=True)
    if came > 0 and open_ones.exists():
        return "One is spoken for by a fit visit. End the visit, then count what is there."
    return ""


def _leaning_on_player(take_in: TakeIn, rows: Sequence[TakeInRow], player: Player) -> Iterator[str]:
    steps = VisitStep.objects.filter(visit__player=player, entry__gt=rows[0].entry)
    if steps.exists() or player.visits.filter(began_at__gte=take_in.at).exists():
        yield "A fit visit went by it since."
    if player.issues.filter(since__gte=take_in.at).exists():
        yield "A helmet was issued to this player since."
    if _was_changed(player, rows[-1].entry):
        yield "What is kept of this player was changed since."
    made = [row.after[READING] for row in rows if row.after and READING in row.after]
    if Reading.objects.filter(id__in=made, is_withdrawn=True).exists():
        yield "One of its readings was withdrawn since."
    if rows[0].kind == PlayerAdded.KIND:
        yield from _leaning_on_new_player(player, made)


def _was_changed(player: Player, since: int) -> bool:
    """Whether an entry after that one changed the player's fields, and still stands.

    Asked of the ledger and not of the fields: those are empty once the player is erased, and the
    ledger that is told again must tell the same.
    """
    changes = Entry.objects.filter(
        kind__in=(PlayerChanged.KIND, PlayerWears.KIND),
        outcome=Outcome.TAKEN,
        seq__gt=since,
        payload__contains=f'"player":"{player.id}"',
    )
    return any(not _was_taken_back(change) for change in changes)


def _was_taken_back(change: Entry) -> bool:
    by_file = json.loads(change.payload).get("take_in") is not None
    return by_file and not TakeInRow.objects.filter(entry=change.seq).exists()


def _leaning_on_new_player(player: Player, made: Sequence[str]) -> Iterator[str]:
    if player.readings.exclude(id__in=made).exists():
        yield "Another reading was taken since."
    others = (player.visits, player.issues, player.acknowledgments, player.guardians)
    if any(each.exists() for each in others) or player.consents.exists():
        yield "Something was kept of this player since: a guardian, a consent or a signature."
    if not player.is_here or player.hold_until is not None:
        yield "The player left the roster since, or the record is on a retention hold."


def _leaning_on_helmet(take_in: TakeIn, rows: Sequence[TakeInRow], helmet: Helmet) -> Iterator[str]:
    if Issue.objects.filter(helmet=helmet, since__gte=take_in.at).exists():
        yield "It was issued since."
    if helmet.visits.filter(began_at__gte=take_in.at).exists():
        yield "It was fitted since."
    now = told({name: getattr(helmet, name) for name in _names(rows)})
    if {name: _plain(value) for name, value in now.items()} != _last(rows):
        yield "What is known of it was changed since."
    if rows[0].kind == HelmetAdded.KIND:
        yield from _leaning_on_new_helmet(helmet)


def _leaning_on_new_helmet(helmet: Helmet) -> Iterator[str]:
    if helmet.builds.count() > 1 or Movement.objects.filter(helmet=helmet).exists():
        yield "Its parts were changed since."
    if helmet.hold or helmet.retired_on is not None:
        yield "It was put on hold or retired since."
    used = helmet.visits.exists() or helmet.issues.exists()
    if used or Reservation.objects.filter(helmet=helmet).exists():
        yield "A fit visit, a reservation or an issue names it."
    if helmet.acknowledgment_set.exists():
        yield "Somebody signed for it."


def _names(rows: Sequence[TakeInRow]) -> list[str]:
    return list(_last(rows))


def _last(rows: Sequence[TakeInRow]) -> dict[str, object]:
    """What stands there since the file's last word on it."""
    found: dict[str, object] = {}
    for row in rows:
        found |= {name: value for name, value in (row.after or {}).items() if name != READING}
    return found


def _plain(value: object) -> object:
    return value if isinstance(value, str | int | None) else str(value)
