"""What somebody is told who wanted a part that is not there any more."""

from collections.abc import Sequence

from helmwright.records.words import in_words

Elsewhere = Sequence[tuple[str, int]]
"""Names of other stores that hold some, and how many nobody has spoken for."""


def part_lost(part: str, store: str, taken: str, elsewhere: Elsewhere) -> str:
    """Who was first, and what there is elsewhere.

    Parameters
    ----------
    part
        Such as "front 1 in".
    store
        Where it was wanted.
    taken
        Who took it and when, such as "Station 3 took that pad at 10:41 AM."; empty where the shelf
        was empty before.
    elsewhere
        What other stores hold.
    """
    what = taken or f"{store} has no {part} on its shelf."
    return f"{what} {_left(elsewhere)}"


def _left(elsewhere: Elsewhere) -> str:
    if not elsewhere:
        return "No other store has one: put together another build, or count the shelf."
    return " ".join(_left_in(store, count) for store, count in elsewhere)


def _left_in(store: str, count: int) -> str:
    verb = "is" if count == 1 else "are"
    return f"{in_words(count).capitalize()} {verb} left in {store}."
