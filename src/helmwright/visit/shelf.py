"""What this store holds, and whether a build can be made up from it."""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import product

from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.outlook import Build

SHELL = "shell"
"""The place of rows that count shells; their label is the shell's number or the maker's word."""

POOLS: Mapping[str, tuple[Zone, Zone]] = {
    "sides": (Zone.LEFT, Zone.RIGHT),
    "jaw": (Zone.JAW_LEFT, Zone.JAW_RIGHT),
    "jaws": (Zone.JAW_LEFT, Zone.JAW_RIGHT),
}
"""Places whose parts go to either of two zones."""

Row = tuple[str, str, int]
"""Place, label, count."""

Combinations = tuple[tuple[Zone, ...], frozenset[tuple[int, ...]]]
"""Zones that share a supply, and the pads that there are for all of them at once."""


class ShelfError(ValueError):
    """A row of a stock names no part of the sheet, or no count."""


@dataclass(frozen=True)
class Shelf:
    """The shells and pads at this store.

    Parameters
    ----------
    sheet
        The model.
    counts
        How many there are of each (place, label); None where everything that the sheet lists is
        there. A part that is not counted is not there.
    gone
        Parts as (place, label) that are not to be had, in a shell from the shelf or the helmet
        at hand neither.

    Notes
    -----
    Beside what is counted, a build can use what is in the helmet at hand, and a shell from the
    shelf brings the pads that it arrives with. A pad with an air cell stays in its shell and is
    not counted.
    """

    sheet: ModelSheet
    counts: Mapping[tuple[str, str], int] | None = None
    gone: frozenset[tuple[str, str]] = frozenset()

    @classmethod
    def of(cls, sheet: ModelSheet, rows: Sequence[Row] | None) -> "Shelf":
        """The shelf that the rows of a stock count; rows of the same part add up.

        Raises
        ------
        ShelfError
            For a place or a label that the sheet does not have, or a count below 0.
        """
        if rows is None:
            return cls(sheet)
        counts: Counter[tuple[str, str]] = Counter()
        for number, row in enumerate(rows, start=1):
            counts[_part(sheet, row, number)] += row[2]
        return cls(sheet, dict(counts))

    def without(self, missing: Collection[tuple[str, str]]) -> "Shelf":
        """The shelf where parts, as (zone, label), are not to be had, whatever was counted."""
        if not missing:
            return self
        counts = self.counts if self.counts is not None else _everything(self.sheet)
        gone = {
            (place, label)
            for zone, label in missing
            for place in (zone, _POOL_OF.get(Zone(zone), zone))
        }
        left = {part: 0 if part in gone else count for part, count in counts.items()}
        return Shelf(self.sheet, left, self.gone | gone)

    def allows(self, build: Build, helmet: Build | None = None) -> bool:
        """Whether the parts of a build are here or in the helmet at hand."""
        if self.counts is None:
            return True
        asked = build.shell, helmet
        if asked not in self._made_up:
            self._made_up[asked] = self._makes_up(*asked)
        return all(_chosen(build, zones) in pads for zones, pads in self._made_up[asked])

    @cached_property
    def _made_up(self) -> dict[tuple[int, Build | None], tuple[Combinations, ...]]:
        return {}

    def _makes_up(self, shell: int, helmet: Build | None) -> tuple[Combinations, ...]:
        """The pads that there are for each zone, or for two that share a supply.

        A search asks for hundreds of thousands of builds; which pads go together is counted once.
        """
        if not self._has_shell(shell, helmet):
            return ((_GROUPS[0], frozenset()),)
        return tuple((zones, self._combined(zones, shell, helmet)) for zones in _GROUPS)

    def _combined(
        self, zones: tuple[Zone, ...], shell: int, helmet: Build | None
    ) -> frozenset[tuple[int, ...]]:
        supply = self._supply(shell, helmet)
        choices = [range(len(self.sheet.pad(zone).labels)) for zone in zones]
        return frozenset(
            pads for pads in product(*choices) if not self._short(supply.copy(), zones, pads)
        )

    def lacking(self, build: Build, helmet: Build | None = None) -> tuple[str, ...]:
        """The parts of a build that are not here, in words, such as "front 1 in".

        Parameters
        ----------
        build
            What is to be made up.
        helmet
            The helmet at hand as the visit began; None where there is none.
        """
        if self.counts is None:
            return ()
        here = self._has_shell(build.shell, helmet)
        words = () if here else (_named(self.sheet, build.shell),)
        short = self._short(self._supply(build.shell, helmet), ZONES, build.pads)
        return words + tuple(f"{zone} {self.sheet.pad(zone).labels[pad]}" for zone, pad in short)

    def _has_shell(self, shell: int, helmet: Build | None) -> bool:
        in_hand = helmet is not None and helmet.shell == shell
        return in_hand or (self.counts or {}).get((SHELL, str(shell)), 0) > 0

    def _short(
        self, supply: Counter[tuple[str, str]], zones: Sequence[Zone], pads: Sequence[int]
    ) -> list[tuple[Zone, int]]:
        """The zones whose pad a supply does not hold, taken one after the other."""
        asked = zip(zones, pads, strict=True)
        return [(zone, pad) for zone, pad in asked if not self._taken(supply, zone, pad)]

    def _supply(self, shell: int, helmet: Build | None) -> Counter[tuple[str, str]]:
        supply = Counter(self.counts or {})
        inside = [] if helmet is None else [helmet.pads]
        if helmet is None or helmet.shell != shell:
            inside.append(self.sheet.delivered)
        for pads in inside:
            for zone, pad in zip(ZONES, pads, strict=True):
                part = self._place(zone), self.sheet.pad(zone).labels[pad]
                supply[part] += part not in self.gone
        return supply

    def _place(self, zone: Zone) -> str:
        """Where a pad out of a zone is counted: with those that go to either side, if any do."""
        pool = _POOL_OF.get(zone, "")
        pooled = any(place == pool for place, _ in self.counts or {})
        return pool if pooled else str(zone)

    def _taken(self, supply: Counter[tuple[str, str]], zone: Zone, pad: int) -> bool:
        """Whether a part is there; it is taken off, its own place first."""
        kind = self.sheet.pad(zone)
        if kind.cell is not None or not kind.seats:
            return True
        label = kind.labels[pad]
        places = [
            place for place in (str(zone), _POOL_OF.get(zone, "")) if supply[place, label] > 0
        ]
        if places:
            supply[places[0], label] -= 1
        return bool(places)


_POOL_OF = {zone: place for place in ("sides", "jaw") for zone in POOLS[place]}

_GROUPS: tuple[tuple[Zone, ...], ...] = (
    *((zone,) for zone in ZONES if zone not in _POOL_OF),
    POOLS["sides"],
    POOLS["jaw"],
)


def _everything(sheet: ModelSheet) -> dict[tuple[str, str], int]:
    """As many of every part as any build takes."""
    shells = {(SHELL, str(shell.number)): 1 for shell in sheet.shells}
    return shells | {(str(pad.zone), label): 1 for pad in sheet.pads for label in pad.labels}


def _chosen(build: Build, zones: tuple[Zone, ...]) -> tuple[int, ...]:
    return tuple(build.pads[ZONES.index(zone)] for zone in zones)


def _part(sheet: ModelSheet, row: Row, number: int) -> tuple[str, str]:
    place, label, count = row
    if count < 0:
        raise ShelfError(f"stock row {number}: a count of {count} must be 0 or more")
    if place == SHELL:
        return SHELL, _shell(sheet, label, number)
    zones = POOLS.get(place) or tuple(zone for zone in ZONES if zone == place)
    if not zones:
        known = ", ".join([SHELL, *map(str, ZONES), "sides", "jaw"])
        raise ShelfError(f"stock row {number}: {place!r} is no place; places are {known}")
    for zone in zones:
        if label not in sheet.pad(zone).labels:
            known = ", ".join(sheet.pad(zone).labels)
            raise ShelfError(
                f"stock row {number}: {sheet.model} has no {zone} pad {label!r}; it has {known}"
            )
    return _POOL_OF[zones[0]] if len(zones) > 1 else place, label


def _shell(sheet: ModelSheet, label: str, number: int) -> str:
    for shell in sheet.shells:
        if label in (str(shell.number), shell.name) and label:
            return str(shell.number)
    known = ", ".join(_named(sheet, shell.number) for shell in sheet.shells)
    raise ShelfError(f"stock row {number}: {sheet.model} has no shell {label!r}; it has {known}")


def _named(sheet: ModelSheet, number: int) -> str:
    name = sheet.shell(number).name
    plain = f"shell {number}"
    return plain if name in ("", plain) else f"{plain} ({name})"
