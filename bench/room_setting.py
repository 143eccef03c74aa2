"""A room for the bench, made in a process of its own: players, parts, stations that may speak.

Run as a script it makes the room that the environment names, and prints what stations need, as
JSON: it must be gone before the server opens the same database.
"""

import json
import sys
from typing import Any

PLAYERS, STATIONS = 500, 40
MODEL = "ouzel"


def made(players: int, stations: int) -> dict[str, Any]:
    """Make it; who speaks at each station, and whom it fits."""
    import django  # noqa: PLC0415 - only in the process that makes the room

    from helmwright.config.place import Place  # noqa: PLC0415

    # The settings read the secret that sessions are signed with.
    Place.of_environment().prepare()
    django.setup()
    from django.core.management import call_command  # noqa: PLC0415
    from django.utils import timezone  # noqa: PLC0415

    from helmwright.catalogue import packaged_text, parse_sheet  # noqa: PLC0415
    from helmwright.records.ids import new_id  # noqa: PLC0415
    from helmwright.records.kinds import people, things  # noqa: PLC0415
    from helmwright.records.models import Role, Staff  # noqa: PLC0415
    from helmwright.records.saying import say  # noqa: PLC0415
    from helmwright.visit.sheet_digest import sheet_digest  # noqa: PLC0415

    call_command("migrate", verbosity=0, interactive=False)
    now = timezone.now()

    def tell(payload: Any) -> None:
        kept = say(payload, by=None, now=now)
        if not kept.is_taken:
            raise RuntimeError(kept.entry.note)

    team, store = new_id(now), new_id(now)
    text = packaged_text(MODEL)
    sheet = parse_sheet(text, name=MODEL)
    digest = sheet_digest(sheet)
    tell(people.TeamOpened(team=team, name="Kingfishers"))
    tell(things.SheetAdded(digest=digest, text=text))
    tell(things.StoreOpened(store=store, name="Room"))
    for kind in sheet.pads:
        for label in kind.labels if kind.seats and kind.cell is None else ():
            tell(
                things.PartsMoved(
                    sheet=digest, place=str(kind.zone), size=label, quantity=5000,
                    to_store=store, why="received",
                )
            )  # fmt: skip
    for number in range(4 * len(sheet.shells)):
        shell = sheet.shells[number % len(sheet.shells)].number
        helmet = new_id(now)
        tell(
            things.HelmetAdded(
                helmet=helmet, code=f"TV-{number:04}", sheet=digest, shell=shell, store=store,
                made_on=now.date(), first_certified_on=now.date(),
            )
        )  # fmt: skip
    roster = [new_id(now) for _ in range(players)]
    for number, player in enumerate(roster):
        tell(people.PlayerAdded(player=player, team=team, number=str(number % 100)))
    spoken = []
    for number in range(stations):
        staff = new_id(now)
        said = people.StaffJoined(staff=staff, username=f"fitter{number}", role=Role.FITTER)
        tell(said)
        row = Staff.objects.get(id=staff)
        spoken.append({"by": str(staff), "session": _session(row)})
    return {
        "store": str(store),
        "sheet": digest,
        "players": [str(each) for each in roster],
        "stations": spoken,
    }


def _session(staff: Any) -> str:
    """Signed in, without the second that a password takes."""
    from django.contrib.auth import (  # noqa: PLC0415
        BACKEND_SESSION_KEY,
        HASH_SESSION_KEY,
        SESSION_KEY,
    )
    from django.contrib.sessions.backends.db import SessionStore  # noqa: PLC0415

    session = SessionStore()
    session[SESSION_KEY] = str(staff.pk)
    session[BACKEND_SESSION_KEY] = "django.contrib.auth.backends.ModelBackend"
    session[HASH_SESSION_KEY] = staff.get_session_auth_hash()
    session.create()
    return str(session.session_key)


if __name__ == "__main__":
    sys.stdout.write(json.dumps(made(int(sys.argv[1]), int(sys.argv[2]))))
