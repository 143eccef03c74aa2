"""What a room still lacks before its first fitting, in the order in which it is put right."""

from collections.abc import Callable
from enum import StrEnum

from helmwright.records.kinds.roles import FITTERS
from helmwright.records.models import (
    Device,
    Helmet,
    Movement,
    Player,
    Season,
    Sheet,
    Staff,
    Store,
    Team,
    Visit,
)


class Lack(StrEnum):
    """One thing that a room cannot do without."""

    TEAM = "team"
    SHEET = "sheet"
    STORE = "store"
    ROSTER = "roster"
    HELMETS = "helmets"
    STOCK = "stock"
    PINS = "pins"
    DEVICE = "device"


FOR_STATIONS = (Lack.PINS, Lack.DEVICE)
"""Wanted by stations alone: a room that has fitted without them does not lack them."""

_ROWS: tuple[tuple[Lack, Callable[[], bool]], ...] = (
    (Lack.TEAM, Team.objects.exists),
    (Lack.SHEET, Sheet.objects.exists),
    (Lack.STORE, Store.objects.exists),
    (Lack.ROSTER, Player.objects.exists),
    (Lack.HELMETS, Helmet.objects.exists),
    (Lack.STOCK, Movement.objects.exists),
)
"""What is lacked, while the question is answered by no."""


def lacks() -> tuple[Lack, ...]:
    """In order; nine questions at most."""
    found = [lack for lack, is_there in _ROWS if not is_there()]
    if Visit.objects.exists():
        return tuple(found)
    if not Staff.objects.filter(is_active=True, role__in=FITTERS).exclude(pin="").exists():
        found.append(Lack.PINS)
    if not Device.objects.filter(revoked_at=None).exists():
        found.append(Lack.DEVICE)
    return tuple(found)


def seasons_by_team() -> list[tuple[Team, list[Season]]]:
    """Every team by name, with its seasons; the open one first."""
    seasons = list(Season.objects.order_by("-is_open", "-name"))
    return [
        (team, [season for season in seasons if season.team_id == team.pk])
        for team in Team.objects.order_by("name")
    ]
