"""Which parts a build takes off the shelf, and what the builds so far teach of the next one."""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from helmwright.catalogue import ZONES, ModelSheet, PadKind
from helmwright.catalogue.pools import POOLS, is_swapped
from helmwright.planning.need import Share

Key = tuple[str, str]
"""Place (a zone, a pool of two, or "shell") and what is written on the bag."""

SHELL = "shell"

CHANGED = 0.25
"""Share of fittings that change the pad of a zone, before any was seen: about two pads of eight
(the-job estimate of a first fitting); assumed."""

SEEN_BEFORE = 4.0
"""How many fittings that belief weighs; assumed."""

BOTH = 0.75
"""Share of such changes in a pool that take a pad for either side; assumed."""


@dataclass(frozen=True, slots=True)
class Held:
    """A shell with its pads.

    Parameters
    ----------
    shell
        The shell's number.
    pads
        Zone to the label of the pad.
    """

    shell: int
    pads: Mapping[str, str]


def pool_places(places: Collection[str]) -> Mapping[str, str]:
    """Zone to the place at which its pads are counted, given the places of the parts in store."""
    pools = {str(zone): pool for pool, zones in POOLS.items() if pool in places for zone in zones}
    return {str(zone): pools.get(str(zone), str(zone)) for zone in ZONES}


def taken(
    build: Held, helmet: Held | None, sheet: ModelSheet, place: Mapping[str, str]
) -> Counter[Key]:
    """What a build takes off the shelf.

    Parameters
    ----------
    build
        What is to be on the head.
    helmet
        What is at hand already; None where a helmet comes off the shelf too, as delivered.
    sheet, place
        The model, and where the pads of each zone are counted.

    Returns
    -------
    Counter[Key]
        Pieces of each part; pads with an air cell stay in their shell and are not counted.
    """
    asked: Counter[Key] = Counter()
    if helmet is None or helmet.shell != build.shell:
        asked[SHELL, str(build.shell)] += 1
        helmet = None
    inside = delivered(sheet) if helmet is None else helmet.pads
    for kind in sheet.pads:
        zone = str(kind.zone)
        label = build.pads.get(zone)
        if label is not None and is_swapped(kind) and label != inside.get(zone):
            asked[place[zone], label] += 1
    return asked


def delivered(sheet: ModelSheet) -> Mapping[str, str]:
    """Zone to the label of the pad that shells arrive with."""
    return {str(kind.zone): kind.labels[kind.delivered] for kind in sheet.pads}


def learned(
    sheet: ModelSheet,
    fittings: Sequence[Counter[Key]],
    place: Mapping[str, str],
    *,
    likely: float = 1.0,
) -> Mapping[Key, tuple[Share, ...]]:
    """Of every part that the sheet lists, the share of fittings that take it.

    Parameters
    ----------
    sheet, place
        The model, and where the pads of each zone are counted.
    fittings
        What each fitting so far took off the shelf; nothing of this model where it was another's.
    likely
        Chance that a fitting is with this model, before any was seen [1].

    Returns
    -------
    Mapping[Key, tuple[Share, ...]]
        Shares of those that take one piece and, for a pool, of those that take two.

    Notes
    -----
    The belief before any fitting was seen: every shell is as likely as the next; in a quarter of
    the fittings the delivered pad of a zone gives way to another, a step of thickness away twice
    as likely as two. All of it assumed, and soon outweighed.
    """
    return {
        key: tuple(
            _share(key, pieces, likely * prior * part, fittings) for pieces, part in _pieces(key[0])
        )
        for key, prior in _before(sheet, place).items()
    }


def _pieces(place: str) -> tuple[tuple[int, float], ...]:
    return ((1, 1.0 - BOTH), (2, BOTH)) if place in POOLS else ((1, 1.0),)


def _share(key: Key, pieces: int, prior: float, fittings: Sequence[Counter[Key]]) -> Share:
    wins = sum(fitting[key] == pieces for fitting in fittings)
    misses = len(fittings) - wins
    return Share(pieces, SEEN_BEFORE * prior + wins, SEEN_BEFORE * (1.0 - prior) + misses)


def _before(sheet: ModelSheet, place: Mapping[str, str]) -> Mapping[Key, float]:
    # Where there is but one shell it is all but certain; no belief is quite certain.
    likely = min(1.0 / len(sheet.shells), 0.98)
    shells = {(SHELL, str(shell.number)): likely for shell in sheet.shells}
    pads: dict[Key, float] = {}
    for kind in filter(is_swapped, sheet.pads):
        for label, share in zip(kind.labels, _steps_away(kind), strict=True):
            pads[place[str(kind.zone)], label] = share
    return shells | pads


def _steps_away(kind: PadKind) -> list[float]:
    """Share of fittings that want each thickness in the place of the delivered one."""
    away = [abs(index - kind.delivered) for index in range(len(kind.labels))]
    weights = [0.5**steps if steps else 0.0 for steps in away]
    total = sum(weights)
    # The delivered pad itself is wanted where a helmet comes with another in it.
    return [CHANGED * weight / total if weight else CHANGED / 10 for weight in weights]
