"""The demo room: invented, and told through the same entries as any other."""

from collections.abc import Callable, Sequence
from datetime import datetime

from django.db import transaction

from helmwright.records.actions.doors import NameInUseError, make_code
from helmwright.records.demo import day, setting, story
from helmwright.records.models import Entry, Staff, Store, Team


class OtherRoomError(ValueError):
    """The room holds records of its own; a story is not told into them."""


def tell_story(*, now: datetime, played: Callable[[], object] = lambda: None) -> None:
    """Tell the whole story, ending now, or nothing of it; one to three minutes of computing.

    Parameters
    ----------
    played
        Called whenever one more visit is played.

    Raises
    ------
    OtherRoomError
        Where anything stands in the ledger already.
    """
    if Entry.objects.exists():
        raise OtherRoomError(
            "this room holds records of its own; give the demo a folder of its own with --room"
        )
    with transaction.atomic():
        day.played(setting.opened(now), tell=played)


def is_told() -> bool:
    """Whether this is the demo room."""
    return Team.objects.filter(name=story.TEAM).exists()


def sign_ins() -> Sequence[story.Member]:
    """Who can sign in, with the PINs for a station."""
    return story.STAFF


def demo_code(*, now: datetime) -> str | None:
    """A code that makes a browser one more station; None where there is one already."""
    by = Staff.objects.get(username=story.MANAGER)
    store = Store.objects.filter(name=story.ROOM).first()
    try:
        return make_code(name=story.SPARE_STATION, store=store, by=by, now=now)
    except NameInUseError:
        return None


PASSWORD = story.PASSWORD

__all__ = ["PASSWORD", "OtherRoomError", "demo_code", "is_told", "sign_ins", "tell_story"]
