"""Makes a small room in the folder that HELMWRIGHT_ROOM names; run as a program of its own.

One model, one store, six helmets, a few players, somebody of every role. It prints, as JSON, what
a test has to know of it. Everybody in it is invented: birds and places.
"""

import json
import os
import sys
from datetime import UTC, datetime, timedelta
from typing import Any

from helmwright.cli.records_place import prepare_room

PASSWORD = "kingfisher on a post"  # noqa: S105 - of nobody
STORE, MODEL = "Equipment room", "ouzel"
MEMBERS = {
    "manager": ("ibis", "Ibis Fordham", "4719"),
    "fitter": ("rail", "Rail Hollowell", "2705"),
    "student": ("wren", "Wren Shinglebed", "3514"),
    "trainer": ("knot", "Knot Larkfield", ""),
    "viewer": ("smew", "Smew Ferrybank", ""),
}
PLAYERS = (
    ("24", "Avocet Brookside", "LB", True),
    ("61", "Bunting Marshend", "OL", True),
    ("8", "Godwit Reedham", "QB", False),
)
"""Number, name, position, and whether somebody has taped them already."""

SHELLS = (2, 3, 3, 4, 4, 5)
TAPED = {
    "tape_circumference": 571.5,
    "head_length": 196.85,
    "head_breadth": 152.4,
    "brow_to_top": 107.95,
    "jaw_pad_width": 139.7,
}
"""All five, so that nothing more has to be asked for [mm]."""


def main(many: int) -> None:
    """Make it, with so many of each part."""
    prepare_room(os.environ["HELMWRIGHT_ROOM"])
    from helmwright.records.actions import staff  # noqa: PLC0415 - once the room is known
    from helmwright.records.actions.doors import set_pin  # noqa: PLC0415
    from helmwright.records.models import Role, Staff  # noqa: PLC0415

    now = datetime.now(UTC) - timedelta(hours=2)
    by: Staff | None = None
    known: dict[str, Any] = {"staff": {}, "players": {}, "helmets": {}}
    for role, (username, name, pin) in MEMBERS.items():
        member = staff.join(
            username=username, name=name, role=Role(role), password=PASSWORD, by=by, now=now
        )
        by = by or member
        set_pin(staff=member, pin=pin)
        known["staff"][role] = str(member.id)
    assert by is not None
    _things(known, by.id, now, many)
    print(json.dumps(known))


def _things(known: dict[str, Any], by: Any, now: datetime, many: int) -> None:
    from helmwright.anatomy import Over  # noqa: PLC0415
    from helmwright.catalogue import packaged_text, parse_sheet  # noqa: PLC0415
    from helmwright.records.ids import new_id  # noqa: PLC0415
    from helmwright.records.kinds import people, things  # noqa: PLC0415
    from helmwright.records.ledger import Said, append  # noqa: PLC0415
    from helmwright.visit.sheet_digest import sheet_digest  # noqa: PLC0415

    def tell(payload: Any) -> None:
        kept = append(Said(new_id(now), payload, now, actor=by), now=now)
        assert kept.is_taken, kept.entry.note

    text = packaged_text(MODEL)
    sheet = parse_sheet(text, name=MODEL)
    digest, store, team = sheet_digest(sheet), new_id(now), new_id(now)
    known |= {"store": str(store), "sheet": digest}
    tell(people.TeamOpened(team=team, name="Tamarack Valley College Kingfishers"))
    tell(things.StoreOpened(store=store, name=STORE))
    tell(things.SheetAdded(digest=digest, text=text))
    for at, shell in enumerate(SHELLS, start=101):
        helmet, code = new_id(now), f"TV-0{at}"
        known["helmets"][code] = str(helmet)
        tell(
            things.HelmetAdded(
                helmet=helmet,
                code=code,
                sheet=digest,
                shell=shell,
                store=store,
                made_on=now.date() - timedelta(days=300),
                first_certified_on=now.date() - timedelta(days=290),
                interval_months=24,
            )
        )
    for kind in sheet.pads:
        for label in kind.labels:
            part: dict[str, Any] = {"sheet": digest, "place": str(kind.zone), "size": label}
            tell(things.PartsMoved(**part, quantity=many, to_store=store, why="received"))
    for number, name, position, is_taped in PLAYERS:
        player = new_id(now)
        known["players"][number] = str(player)
        tell(
            people.PlayerAdded(
                player=player,
                team=team,
                number=number,
                name=name,
                position=position,
                worn=(Over.SHORT_HAIR,),
            )
        )
        for measure, value in TAPED.items() if is_taped else ():
            tell(
                people.ReadingTaken(
                    player=player, measure=measure, value_mm=value, over=Over.SHORT_HAIR
                )
            )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 6)
