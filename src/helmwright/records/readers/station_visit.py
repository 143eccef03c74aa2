"""What a station shows of a visit out of the records: whose it is, what lies in this store."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any
from uuid import UUID

from helmwright.catalogue import Zone
from helmwright.catalogue.pools import POOL_OF, Part, swapped
from helmwright.records.models import Helmet, Visit
from helmwright.records.pad_changes import PadChange
from helmwright.records.part_place import is_swapped
from helmwright.records.readers.helmets_here import HelmetHere, changes_to, helmets_here, pads_now
from helmwright.records.readers.stock import shelf_rows
from helmwright.records.sheets import sheet_of
from helmwright.records.words import room_day

Json = dict[str, Any]


class Here:
    """How many more of a part lie in one store: what the guide counted, as it is now.

    Parameters
    ----------
    visit
        Whose store and model; what is reserved for others is not there.
    """

    def __init__(self, visit: Visit) -> None:
        self._sheet = sheet_of(visit.sheet)
        rows = shelf_rows(visit.store_id, visit.sheet_id, visit=visit.id)
        self._counts = {(place, size): count for place, size, count in rows}
        self._visit = visit
        self._helmets: dict[int, list[HelmetHere]] = {}

    def of(self, zone: str, size: str) -> int | None:
        """That many, in the zone's own drawer and in one that it shares with its opposite.

        None where the pad stays in its shell and is not counted.
        """
        if not is_swapped(self._sheet, Zone(zone)):
            return None
        places = {zone, POOL_OF.get(zone, zone)}
        return sum(self._counts.get((place, size), 0) for place in places)

    def place_of(self, zone: str, size: str) -> str:
        """The drawer out of which it comes: the zone's own, else the one that it shares."""
        pool = POOL_OF.get(zone, zone)
        return pool if (zone, size) not in self._counts and (pool, size) in self._counts else zone

    def helmets(self, shell: int, *, now: datetime) -> list[HelmetHere]:
        """The helmets of a shell in the visit's store; looked for once."""
        if shell not in self._helmets:
            self._helmets[shell] = helmets_here(
                self._visit.store_id,
                self._visit.sheet_id,
                day=room_day(now),
                shell=shell,
                visit=self._visit.id,
            )
        return self._helmets[shell]

    def lacking(self, changes: Sequence[PadChange]) -> tuple[Part, ...]:
        """The new pads that are not there, once the old ones lie on the shelf."""
        out = [(each.zone, each.out) for each in changes]
        return swapped(self._counts, out, [(each.zone, each.into) for each in changes])[1]


def whose(visit: Visit) -> Json:
    """Which visit, of whom, where, with what."""
    return {
        "visit": str(visit.id),
        "player": str(visit.player_id),
        "state": visit.state,
        "station": _named(visit.station),
        "fitter": _named(visit.fitter),
        "store": {"id": str(visit.store_id), "name": visit.store.name},
        "sheet": visit.sheet_id,
        "pads": {str(kind.zone): list(kind.labels) for kind in sheet_of(visit.sheet).pads},
    }


def helmets_for(visit: Visit, build: Mapping[str, Any], here: Here, *, now: datetime) -> list[Json]:
    """The helmets of a build's shell in this store, the best first.

    Those that can be had, by how many parts are missing for them, then by how many are changed.
    """
    found = here.helmets(build["shell"], now=now)
    told = [_candidate(each, visit, build, here) for each in found]
    return sorted(told, key=_worth)


def own_helmet(visit: Visit, *, now: datetime) -> Json | None:
    """The helmet that the visit has; None before one is taken."""
    helmet = visit.helmet
    if helmet is None:
        return None
    here = helmets_here(
        helmet.store_id, helmet.sheet_id, day=room_day(now), shell=helmet.shell, visit=visit.id
    )
    mine = next((each for each in here if each.id == helmet.id), None)
    return {
        "id": str(helmet.id),
        "code": helmet.code,
        "shell": helmet.shell,
        "pads": pads_now([helmet])[helmet.id],
        "good": mine is not None and mine.is_free,
        "taken": mine is not None and bool(mine.taken),
        "why": "It is retired." if mine is None else mine.why,
    }


def swaps_in(helmet: Helmet, visit: Visit, build: Mapping[str, Any], here: Here) -> list[Json]:
    """What is to be changed in a helmet for a build; nothing where its shell is another."""
    if helmet.shell != build["shell"]:
        return []
    return _swaps(_changes(pads_now([helmet])[helmet.id], visit, build), here)


def lacking_for(
    visit: Visit, build: Mapping[str, Any], here: Here, *, now: datetime
) -> list[Json] | None:
    """The parts of a build that are not here, in the helmet at hand or the best of its shell.

    None where no helmet of its shell is free here.
    """
    found = [
        here.lacking(_changes(pads, visit, build)) for pads in _inside(visit, build, here, now)
    ]
    best = min(found, key=len, default=None)
    return None if best is None else [{"zone": zone, "pad": pad} for zone, pad in best]


def begun(visit: UUID) -> Visit | None:
    """The visit, with everything that its page names."""
    rows = Visit.objects.select_related(
        "sheet", "store", "helmet", "helmet__sheet", "station", "fitter", "player"
    )
    return rows.filter(pk=visit).first()


def _inside(
    visit: Visit, build: Mapping[str, Any], here: Here, now: datetime
) -> Sequence[Mapping[str, str]]:
    """What lies in each helmet in which a build would be made up."""
    helmet = visit.helmet
    if helmet is not None and helmet.shell == build["shell"]:
        return [pads_now([helmet])[helmet.id]]
    return [each.pads for each in here.helmets(build["shell"], now=now) if each.is_free]


def _candidate(each: HelmetHere, visit: Visit, build: Mapping[str, Any], here: Here) -> Json:
    changes = _changes(each.pads, visit, build)
    return {
        "id": str(each.id),
        "code": each.code,
        "shell": each.shell,
        "changes": len(changes),
        "lacking": len(here.lacking(changes)),
        "swaps": _swaps(changes, here),
        "good": each.is_free,
        "taken": bool(each.taken),
        "why": each.why,
    }


def _worth(told: Json) -> tuple[bool, int, int, str]:
    return not told["good"], told["lacking"], told["changes"], told["code"]


def _changes(
    pads: Mapping[str, str], visit: Visit, build: Mapping[str, Any]
) -> tuple[PadChange, ...]:
    wanted = {zone: pad["pad"] for zone, pad in build["pads"].items()}
    return changes_to(pads, wanted, visit.sheet)


def _swaps(changes: Sequence[PadChange], here: Here) -> list[Json]:
    return [
        {
            "zone": each.zone,
            "out": each.out,
            "into": each.into,
            "here": here.of(each.zone, each.into),
            "place": here.place_of(each.zone, each.into),
        }
        for each in changes
    ]


def _named(row: Any) -> Json | None:
    return None if row is None else {"id": str(row.id), "name": row.name}
