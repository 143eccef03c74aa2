"""What an entry names has to be there, or the entry is set aside."""

from uuid import UUID

from helmwright.records.models import (
    Device,
    Entry,
    Helmet,
    Player,
    Sheet,
    Staff,
    Store,
    Team,
    Visit,
)
from helmwright.records.set_aside import SetAsideError


def known_team(team: UUID) -> Team:
    """The team.

    Raises
    ------
    SetAsideError
        Where there is none.
    """
    found = Team.objects.filter(id=team).first()
    if found is None:
        raise SetAsideError("This team is not in the records. Open the team first.")
    return found


def known_player(player: UUID) -> Player:
    """The player, who may have left, but is not erased.

    Raises
    ------
    SetAsideError
        Where there is none, or no more.
    """
    found = Player.objects.filter(id=player).first()
    if found is None:
        raise SetAsideError("This player is not in the records. Add the player first.")
    if found.erased_at is not None:
        raise SetAsideError(
            "This player was erased, and nothing more is kept of them. If the player is back, add"
            " them as a new player with consent."
        )
    return found


def known_staff(staff: UUID) -> Staff:
    """The member of the staff.

    Raises
    ------
    SetAsideError
        Where there is none.
    """
    found = Staff.objects.filter(id=staff).first()
    if found is None:
        raise SetAsideError("This member of the staff is not in the records. Add them first.")
    return found


def known_store(store: UUID) -> Store:
    """The store.

    Raises
    ------
    SetAsideError
        Where there is none.
    """
    found = Store.objects.filter(id=store).first()
    if found is None:
        raise SetAsideError("This store is not in the records. Open the store first.")
    return found


def known_helmet(helmet: UUID) -> Helmet:
    """The helmet.

    Raises
    ------
    SetAsideError
        Where there is none.
    """
    found = Helmet.objects.select_related("sheet").filter(id=helmet).first()
    if found is None:
        raise SetAsideError("This helmet is not in the records. Add the helmet first.")
    return found


def known_visit(visit: UUID) -> Visit:
    """The visit.

    Raises
    ------
    SetAsideError
        Where there is none.
    """
    found = Visit.objects.filter(id=visit).first()
    if found is None:
        raise SetAsideError("This visit is not in the records. Begin the visit first.")
    return found


def sheet_in_use(digest: str) -> Sheet:
    """The current sheet of the model that a digest is a version of.

    Raises
    ------
    SetAsideError
        Where there is none.
    """
    found = Sheet.objects.filter(digest=digest).first()
    if found is None:
        raise SetAsideError("This model sheet is not in the records. Add the sheet first.")
    if found.is_current:
        return found
    return Sheet.objects.get(model=found.model, is_current=True)


def device_of(entry: Entry) -> Device | None:
    """The station that it was said on."""
    return Device.objects.filter(id=entry.device).first() if entry.device else None


def who_said(entry: Entry) -> Staff | None:
    """Who said it; None for the program itself, and for somebody whom no row names."""
    return Staff.objects.filter(id=entry.actor).first() if entry.actor else None
