"""Rosters for tests of the desk: written straight into the tables, all invented."""

from datetime import UTC, datetime
from uuid import uuid4

from helmwright.catalogue.packaged import load_packaged, packaged_text
from helmwright.records.models import (
    Helmet,
    Issue,
    Player,
    Reading,
    Season,
    Sheet,
    Staff,
    Store,
    Team,
    Visit,
)
from helmwright.units import MM_PER_INCH
from helmwright.visit.sheet_digest import sheet_digest

SHELL = 3
NOW = datetime(2026, 8, 7, 15, 41, tzinfo=UTC)


def a_team():
    """The one team, with an open season."""
    team, is_new = Team.objects.get_or_create(name="Tamarack Valley College Kingfishers")
    if is_new:
        Season.objects.create(team=team, name="2026")
    return team


def a_sheet():
    """The packaged invented model."""
    digest = sheet_digest(load_packaged("ouzel"))
    return Sheet.objects.get_or_create(
        digest=digest,
        defaults={
            "model": "Ouzel (invented)",
            "is_invented": True,
            "text": packaged_text("ouzel"),
            "added_at": NOW,
        },
    )[0]


def a_player(name="Avocet Brookside", number="24", **known):
    return Player.objects.create(team=a_team(), name=name, number=number, **known)


def taped(player, inches, over="", **known):
    """A reading of the tape."""
    return Reading.objects.create(
        id=uuid4(),
        player=player,
        measure=known.pop("measure", "tape_circumference"),
        value_mm=inches * MM_PER_INCH,
        over=over,
        at=NOW,
        **known,
    )


def a_helmet(code="TV-0147", shell=4, **known):
    store, _ = Store.objects.get_or_create(name="The room")
    return Helmet.objects.create(code=code, sheet=a_sheet(), shell=shell, store=store, **known)


def issued(player, helmet, **known):
    return Issue.objects.create(
        id=uuid4(), player=player, helmet=helmet, purpose="game and practice", since=NOW, **known
    )


def a_visit(player, state, **known):
    store, _ = Store.objects.get_or_create(name="The room")
    ended = None if state in ("open", "paused") else NOW
    return Visit.objects.create(
        id=uuid4(),
        player=player,
        store=store,
        sheet=a_sheet(),
        state=state,
        began_at=known.pop("began_at", NOW),
        ended_at=ended,
        **known,
    )


def five_hundred():
    """Players of every standing; a helmet for every second."""
    team, sheet = a_team(), a_sheet()
    store, _ = Store.objects.get_or_create(name="The room")
    players = [
        Player(team=team, name=f"Plover Millbank {place}", number=str(place % 99), weight_kg=95.0)
        for place in range(500)
    ]
    Player.objects.bulk_create(players)
    Reading.objects.bulk_create(
        Reading(
            id=uuid4(),
            player=player,
            measure="tape_circumference",
            value_mm=540.0 + place % 70,
            at=NOW,
        )
        for place, player in enumerate(players[:400])
        for _ in range(2)
    )
    helmets = [
        Helmet(code=f"TV-{place:04d}", sheet=sheet, store=store, shell=SHELL)
        for place in range(250)
    ]
    Helmet.objects.bulk_create(helmets)
    visits = [
        Visit(
            id=uuid4(),
            player=player,
            store=store,
            sheet=sheet,
            state="accepted",
            began_at=NOW,
            ended_at=NOW,
        )
        for player in players[:250]
    ]
    Visit.objects.bulk_create(visits)
    Issue.objects.bulk_create(
        Issue(id=uuid4(), helmet=helmet, player=player, visit=visit, purpose="game", since=NOW)
        for helmet, player, visit in zip(helmets, players, visits, strict=False)
    )
    return players


def staff_of(role):
    """Somebody of that role."""
    return Staff.objects.get_or_create(
        username=f"{role}-1", defaults={"name": "Juniper Marsh", "role": role}
    )[0]
