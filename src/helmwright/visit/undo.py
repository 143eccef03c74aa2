"""What of a visit's events stands, once what was taken back is left out."""

from collections.abc import Sequence

from helmwright.visit.event import BY_PROGRAM, Event, Paused, Resumed, Started, Undone


class OutOfTurnError(ValueError):
    """An event came where it cannot come."""


Placed = tuple[int, Event]
"""An event and its place in the list, from 1."""


def standing(events: Sequence[Event]) -> tuple[Placed, ...]:
    """The events that stand, each with its place in the whole list.

    Each `Undone` takes back the last thing that a person said, and all that the program said to
    it; several in a row go further back. An interruption since then goes with it. The start of
    the visit cannot be taken back.

    Raises
    ------
    OutOfTurnError
        Where there is nothing to take back, or the visit is paused.
    """
    kept: list[Placed] = []
    for place, event in enumerate(events, start=1):
        if isinstance(event, Undone):
            _take_back(kept, place)
        else:
            kept.append((place, event))
    return tuple(kept)


def can_be_undone(events: Sequence[Event]) -> tuple[Placed, ...]:
    """What a person said and stands, the last of it undone first; none of it in a pause."""
    stand = standing(events)
    if stand and isinstance(stand[-1][1], Paused):
        return ()
    silent = (*BY_PROGRAM, Paused, Resumed, Started)
    return tuple(each for each in stand if not isinstance(each[1], silent))


def _take_back(kept: list[Placed], place: int) -> None:
    if kept and isinstance(kept[-1][1], Paused):
        raise OutOfTurnError(
            f"event {place}: the visit is paused, and nothing is undone in a pause; resume it first"
        )
    last = len(kept) - 1
    while last >= 0 and isinstance(kept[last][1], (*BY_PROGRAM, Paused, Resumed)):
        last -= 1
    if last < 0 or isinstance(kept[last][1], Started):
        raise OutOfTurnError(
            f"event {place}: nothing has been said since the visit began, so that nothing can be "
            "undone; answer what is asked, or stop"
        )
    del kept[last:]
