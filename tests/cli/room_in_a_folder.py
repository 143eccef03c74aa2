"""Makes a small room in the folder that HELMWRIGHT_ROOM names; run as a program of its own."""

import os
from datetime import UTC, datetime
from uuid import UUID

from helmwright.cli.records_place import prepare_room

NOW = datetime(2026, 8, 7, 15, 41, tzinfo=UTC)
TEAM, PLAYER, STAFF = (UUID(int=number) for number in (1, 2, 3))


def main() -> None:
    prepare_room(os.environ["HELMWRIGHT_ROOM"])
    from helmwright.records.ids import new_id  # noqa: PLC0415 - once the room is known
    from helmwright.records.kinds import people  # noqa: PLC0415
    from helmwright.records.ledger import Said, append  # noqa: PLC0415
    from helmwright.records.models import Role  # noqa: PLC0415

    for payload in (
        people.TeamOpened(team=TEAM, name="=Kingfishers"),
        people.StaffJoined(staff=STAFF, username="desk", name="Tern Hollow", role=Role.MANAGER),
        people.PlayerAdded(player=PLAYER, team=TEAM, name="Avocet Brookside", number="12"),
        people.ReadingTaken(player=PLAYER, measure="tape_circumference", value_mm=574.675),
        people.TeamOpened(team=TEAM, name="Herons"),
    ):
        append(Said(new_id(NOW), payload, NOW, actor=STAFF), now=NOW)


if __name__ == "__main__":
    main()
