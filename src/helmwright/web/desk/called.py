"""What players are called where there is room for a number only."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from uuid import UUID

from helmwright.records.readers.day import Coming, Fitting

Named = Fitting | Coming
"""A player on the board."""


def called(everybody: Iterable[Named]) -> Mapping[UUID, str]:
    """By player: the number; with as much of the name as it takes where others wear the same."""
    people = {each.player: each for each in everybody}
    wearers: dict[str, list[Named]] = defaultdict(list)
    for each in people.values():
        wearers[each.number].append(each)
    return {each.player: _called(each, wearers[each.number]) for each in people.values()}


def _called(one: Named, same: list[Named]) -> str:
    if not one.number or len(same) == 1:
        return one.short
    first = one.name.split(" ")[0]
    others = [each.name for each in same if each.player != one.player]
    if not any(name.startswith(first[:1]) for name in others):
        return f"{one.number} {first[:1]}."
    return f"{one.number} {first if not any(_first(n) == first for n in others) else one.name}"


def _first(name: str) -> str:
    return name.split(" ", maxsplit=1)[0]
