"""What a visit starts with: the player, the shelf and the helmet, as the records have them."""

from collections.abc import Mapping
from datetime import date, datetime
from uuid import UUID

from helmwright.catalogue import ModelSheet
from helmwright.fit.outlook import Build
from helmwright.records.kinds.visits import VisitBegun
from helmwright.records.models import Helmet, Player, Sheet
from helmwright.records.readers.heads import readings_of, stated_of, worn_of
from helmwright.records.readers.helmets_here import helmets_here, pads_now
from helmwright.records.readers.stock import shelf_rows
from helmwright.records.sheets import sheet_of
from helmwright.records.words import room_day
from helmwright.visit import Started
from helmwright.visit.wire_build import build_from_form
from helmwright.visit.wire_form import BuildForm

SEEDS = 2**31
"""A visit's seed is taken from its ID, so that no two visits draw alike."""


def start_of(begun: VisitBegun, *, now: datetime) -> Started:
    """The first event of a visit, out of the records as they are now.

    Raises
    ------
    DoesNotExist
        Where player or sheet are not there.
    """
    player, row = Player.objects.get(pk=begun.player), Sheet.objects.get(pk=begun.sheet)
    today = room_day(now)
    rows = player.readings.filter(is_withdrawn=False).order_by("at", "id")
    return Started(
        who=str(player.id),
        readings=readings_of(player, rows, today),
        stated=stated_of(player, today),
        worn=worn_of(player),
        sheet=begun.sheet,
        current=in_helmet(begun.helmet, sheet_of(row)) if begun.helmet else None,
        shelf=tuple(shelf_rows(begun.store, begun.sheet, visit=begun.visit)),
        seed=begun.visit.int % SEEDS,
        helmets=further_helmets(begun, sheet_of(row), today),
    )


def further_helmets(begun: VisitBegun, sheet: ModelSheet, day: date) -> tuple[Build, ...]:
    """What lies in each helmet of the store that could be had instead of the one at hand.

    A helmet with parts that the sheet does not have any more is left out.
    """
    here = helmets_here(begun.store, begun.sheet, day=day, visit=begun.visit)
    free = [each for each in here if each.is_free and each.id != begun.helmet]
    builds = [build_of(each.shell, each.pads, sheet) for each in free]
    return tuple(sorted(build for build in builds if build is not None))


def in_helmet(helmet: UUID, sheet: ModelSheet) -> Build | None:
    """The build of a helmet now; None where the sheet has no such parts any more."""
    row = Helmet.objects.get(pk=helmet)
    return build_of(row.shell, pads_now([row])[row.id], sheet)


def build_of(shell: int, pads: Mapping[str, str], sheet: ModelSheet) -> Build | None:
    """A build by its labels; None where the sheet has no such parts."""
    labelled = {zone: {"pad": label} for zone, label in pads.items()}
    try:
        form = BuildForm.model_validate({"shell": shell, "pads": labelled})
        return build_from_form(form, sheet, "helmet")
    except ValueError:
        return None
