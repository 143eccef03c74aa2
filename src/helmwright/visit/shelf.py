"""What this store holds, and whether a build can be made up from it."""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import product
from operator import itemgetter

from helmwright.catalogue.pools import POOL_OF, POOLS, Part, is_swapped, place_of_return, swapped
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.outlook import Build
from helmwright.visit.at_hand import AtHand

SHELL = "shell"
"""The place of rows that count shells; their label is the shell's number or the maker's word."""

Row = tuple[str, str, int]
"""Place, label, count."""

Offers = tuple[dict[object, int], ...]
"""For each group of zones that share a supply: its pads, and the helmets in which there are such,
one bit each."""


class ShelfError(ValueError):
    """A row of a stock names no part of the sheet, or no count."""


@dataclass(frozen=True)
class Shelf:
    """The helmets and loose pads at this store.

    Parameters
    ----------
    sheet
        The model.
    counts
        How many there are of each (place, label); None where everything that the sheet lists is
        there. A part that is not counted is not there.
    helmets
        What lies in each further helmet that can be had, beside shells that are counted.
    gone
        Parts as (place, label) that are not to be had, neither loose nor in a helmet that nobody
        has tried on.

    Notes
    -----
    A build is made up in one helmet, of the pads that lie in it and of loose ones: in the helmet at
    hand where that has the build's shell, else in any further one. A shell that is counted comes
    with the pads that it is delivered with. What lies in one helmet does not go into another. A
    pad with an air cell stays in its shell and is not counted.
    """

    sheet: ModelSheet
    counts: Mapping[Part, int] | None = None
    helmets: tuple[Build, ...] = ()
    gone: frozenset[Part] = frozenset()

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
        counts: Counter[Part] = Counter()
        for number, row in enumerate(rows, start=1):
            counts[_part(sheet, row, number)] += row[2]
        return cls(sheet, dict(counts))

    def after(self, there: AtHand) -> "Shelf":
        """The shelf once helmets were taken up, their pads changed, and others set back.

        What was put on was there, whatever was counted.
        """
        if self.counts is None:
            return self
        counts = dict(self.counts)
        for number in there.fetched:
            shell = SHELL, str(number)
            counts[shell] = max(counts.get(shell, 0) - 1, 0)
        for lay, build in there.changed:
            changed = build.changes_from(lay)
            counts, _ = swapped(counts, self._parts(lay, changed), self._parts(build, changed))
        return replace(self, counts=counts, helmets=there.others)

    def without(self, missing: Collection[tuple[str, str]]) -> "Shelf":
        """The shelf where parts, as (zone, label), are not to be had, whatever was counted."""
        if not missing:
            return self
        counts = self.counts if self.counts is not None else _everything(self.sheet)
        gone = {
            (place, label) for zone, label in missing for place in (zone, POOL_OF.get(zone, zone))
        }
        left = {part: 0 if part in gone else count for part, count in counts.items()}
        return replace(self, counts=left, gone=self.gone | gone)

    def allows(self, build: Build, helmet: Build | None = None, *, worn: bool = False) -> bool:
        """Whether a build can be made up in the helmet at hand or, of another shell, in a further.

        Parameters
        ----------
        build
            What is to be made up.
        helmet
            What lies in the helmet at hand; None where there is none.
        worn
            Whether that was tried on, so that nothing in it can be missing.
        """
        if self.counts is None:
            return True
        asked = build.shell, helmet, worn
        if asked not in self._offered:
            self._offered[asked] = self._offers(build.shell, helmet, worn=worn)
        helmets = _ALL
        for chosen, there in zip(_CHOSEN, self._offered[asked], strict=True):
            helmets &= there.get(chosen(build.pads), 0)
        return bool(helmets)

    def lacking(
        self, build: Build, helmet: Build | None = None, *, worn: bool = False
    ) -> tuple[str, ...]:
        """The parts of a build that are not here, in words, such as "front 1 in".

        Parameters
        ----------
        build, helmet, worn
            As `allows` takes them.

        Returns
        -------
        tuple of str
            What is missing from the helmet that lacks least.
        """
        if self.counts is None:
            return ()
        shells = self._of_shell(build.shell, helmet)
        words = () if shells else (_named(self.sheet, build.shell),)
        found = [
            self._short(lies, build, ZONES, sure=worn and lies == helmet)
            for lies in shells or (Build(build.shell, self.sheet.delivered),)
        ]
        return words + tuple(f"{zone} {label}" for zone, label in min(found, key=len))

    @cached_property
    def _offered(self) -> dict[tuple[int, Build | None, bool], Offers]:
        return {}

    def _offers(self, shell: int, helmet: Build | None, *, worn: bool) -> Offers:
        """What the helmets of a shell offer.

        A search asks for hundreds of thousands of builds; which pads go together is counted once.
        """
        offers: Offers = tuple({} for _ in _GROUPS)
        for number, lies in enumerate(self._of_shell(shell, helmet)):
            for group, chosen, there in zip(_GROUPS, _CHOSEN, offers, strict=True):
                for build in self._made_up(lies, group, sure=worn and lies == helmet):
                    pads = chosen(build.pads)
                    there[pads] = there.get(pads, 0) | 1 << number
        return offers

    def _of_shell(self, shell: int, helmet: Build | None) -> tuple[Build, ...]:
        """What lies in the helmets in which a build of a shell may be made up; each once."""
        if helmet is not None and helmet.shell == shell:
            return (helmet,)
        told = [lies for lies in self.helmets if lies.shell == shell]
        counted = (self.counts or {}).get((SHELL, str(shell)), 0) > 0
        return tuple(dict.fromkeys(told + [Build(shell, self.sheet.delivered)] * counted))

    def _made_up(self, lies: Build, group: tuple[int, ...], *, sure: bool) -> Iterator[Build]:
        """A helmet with all pads at some places that there are for it."""
        for pads in product(*(range(len(self.sheet.pads[place].labels)) for place in group)):
            build = _with(lies, group, pads)
            if not self._short(lies, build, _ZONES_OF[group], sure=sure):
                yield build

    def _short(
        self, lies: Build, build: Build, zones: Sequence[Zone], *, sure: bool
    ) -> tuple[Part, ...]:
        """The pads that are not there for some zones, once what comes out lies on the shelf."""
        changed = [zone for zone in build.changes_from(lies) if zone in zones]
        staying = self._parts(build, [zone for zone in zones if zone not in changed])
        lost = [] if sure else [part for part in staying if self._is_gone(part)]
        out = [part for part in self._parts(lies, changed) if sure or not self._is_gone(part)]
        into = self._parts(build, changed)
        # A part that is said not to be here is not asked for again, wherever one comes free.
        lost += [part for part in into if part in self.gone]
        here = [part for part in into if part not in self.gone]
        lost += swapped(self.counts or {}, out, here)[1]
        return tuple(sorted(lost, key=_order))

    def _is_gone(self, part: Part) -> bool:
        """Whether a pad that lies in a helmet is one of those that are not to be had."""
        place = place_of_return(self.counts or {}, *part)
        return part in self.gone or (place, part[1]) in self.gone

    def _parts(self, build: Build, zones: Iterable[Zone]) -> tuple[Part, ...]:
        """The pads of some zones as (zone, label), but for those that stay in their shell."""
        kinds = [(self.sheet.pad(zone), build.pads[ZONES.index(zone)]) for zone in zones]
        return tuple((str(kind.zone), kind.labels[pad]) for kind, pad in kinds if is_swapped(kind))


_GROUPS: tuple[tuple[int, ...], ...] = (
    *((place,) for place, zone in enumerate(ZONES) if zone not in POOL_OF),
    *((ZONES.index(one), ZONES.index(other)) for one, other in POOLS.values()),
)
"""Places in a build that share a supply."""

_CHOSEN = tuple(itemgetter(*group) for group in _GROUPS)

_ALL = -1
"""The bits of every helmet."""

_POOL_WORDS = {"jaws": "jaw"}
"""What some rows call a pool."""

_ZONES_OF = {group: tuple(ZONES[place] for place in group) for group in _GROUPS}


def _order(part: Part) -> int:
    return ZONES.index(Zone(part[0]))


def _with(build: Build, group: tuple[int, ...], pads: tuple[int, ...]) -> Build:
    """A build with other pads at some places."""
    changed = dict(zip(group, pads, strict=True))
    return Build(
        build.shell, tuple(changed.get(place, pad) for place, pad in enumerate(build.pads))
    )


def _everything(sheet: ModelSheet) -> dict[Part, int]:
    """As many of every part as any build takes."""
    shells = {(SHELL, str(shell.number)): 1 for shell in sheet.shells}
    return shells | {(str(pad.zone), label): 1 for pad in sheet.pads for label in pad.labels}


def _part(sheet: ModelSheet, row: Row, number: int) -> Part:
    place, label, count = row
    if count < 0:
        raise ShelfError(f"stock row {number}: a count of {count} must be 0 or more")
    if place == SHELL:
        return SHELL, _shell(sheet, label, number)
    pool = _POOL_WORDS.get(place, place)
    zones = POOLS.get(pool) or tuple(zone for zone in ZONES if zone == place)
    if not zones:
        known = ", ".join([SHELL, *map(str, ZONES), *POOLS])
        raise ShelfError(f"stock row {number}: {place!r} is no place; places are {known}")
    for zone in zones:
        if label not in sheet.pad(zone).labels:
            known = ", ".join(sheet.pad(zone).labels)
            raise ShelfError(
                f"stock row {number}: {sheet.model} has no {zone} pad {label!r}; it has {known}"
            )
    return pool, label


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
