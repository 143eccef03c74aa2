"""From visits to numbers: means, shares, and whether stated chances held."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import numpy.typing as npt

from helmwright.catalogue import Zone
from helmwright.fit.minutes import Minutes
from helmwright.study.players import model
from helmwright.study.visits import NEVER

Floats = npt.NDArray[np.float64]
Rows = Sequence[dict[str, Any]]

FIFTHS = 5


@dataclass(frozen=True)
class Share:
    """A mean with its standard error.

    Parameters
    ----------
    value, error
        Mean and standard error, in the values' unit.
    count
        Of how many.
    """

    value: float
    error: float
    count: int

    @classmethod
    def of(cls, values: Iterable[float]) -> "Share":
        """That of some values; not a number where there are none."""
        taken = np.array(list(values), dtype=np.float64)
        if taken.size == 0:
            return cls(float("nan"), float("nan"), 0)
        return cls(float(taken.mean()), float(taken.std() / np.sqrt(taken.size)), taken.size)

    @classmethod
    def of_bits(cls, values: Iterable[float]) -> "Share":
        """The share of values that are 1, all others being 0.

        Notes
        -----
        The standard error is that of one more 1 and one more 0, sqrt(q (1 - q) / n) with
        q = (k + 1) / (n + 2) (Laplace): where none came, that none will is not sure.
        """
        plain = cls.of(values)
        if plain.count == 0:
            return plain
        share = (plain.value * plain.count + 1.0) / (plain.count + 2.0)
        return cls(plain.value, float(np.sqrt(share * (1.0 - share) / plain.count)), plain.count)


@dataclass(frozen=True)
class Told:
    """What the visits of one policy come to.

    Parameters
    ----------
    try_ons
        Mean, with visits that never fitted counted as nine.
    median, p90
        Of the try-ons.
    found_first, right_first
        Share accepted at the first try-on, and truly right at it; where no build is worth a try-on,
        neither [1].
    pads
        Pads changed in a visit, first set-up included.
    never
        Share not accepted within eight try-ons [1].
    false
        Share of the accepted that were truly not right [1].
    clear, felt
        Share of all visits that were accepted clearly wrong by pressure, and to a hand [1].
    looks, shells
        Looks beyond the first, and further shells, a visit.
    minutes
        What a visit takes, its measures not counted; `measured` adds these [min].
    counts
        How many visits took 1, 2, ... 9 try-ons.
    """

    try_ons: Share
    median: float
    p90: float
    found_first: Share
    right_first: Share
    pads: Share
    never: Share
    false: Share
    clear: Share
    felt: Share
    looks: Share
    shells: Share
    minutes: Share
    counts: tuple[int, ...]


def told(visits: Rows) -> Told:
    """What some visits come to."""
    tries = np.array([visit["tries"] for visit in visits], dtype=np.float64)
    accepted = [visit for visit in visits if visit["tries"] < NEVER]
    return Told(
        try_ons=Share.of(tries),
        median=float(np.median(tries)),
        p90=float(np.quantile(tries, 0.9)),
        found_first=Share.of_bits(tries == 1),
        right_first=Share.of_bits(bool(visit["right"]) and visit["right"][0] for visit in visits),
        pads=Share.of(sum(visit["pads"].values()) for visit in visits),
        never=Share.of_bits(tries == NEVER),
        false=Share.of_bits(1 - visit["right"][-1] for visit in accepted),
        clear=Share.of_bits(visit["clear"] for visit in visits),
        felt=Share.of_bits(visit["felt"] for visit in visits),
        looks=Share.of(visit["looks"] for visit in visits),
        shells=Share.of(visit["shells"] for visit in visits),
        minutes=Share.of(taken(visit) for visit in visits),
        counts=tuple(int((tries == number).sum()) for number in range(1, NEVER + 1)),
    )


def accepted_when(visits: Rows, *, right: bool) -> Share:
    """Share accepted of the try-ons that were truly right, or truly not.

    Notes
    -----
    The standard error takes visits as independent, not their try-ons.
    """
    rows = [
        (number, visit["tries"] == place)
        for number, visit in enumerate(visits)
        for place, truly in enumerate(visit["right"], start=1)
        if bool(truly) is right
    ]
    if not rows:
        return Share.of([])
    whose, accepted = (np.array(each, dtype=np.int64) for each in zip(*rows, strict=True))
    return _clustered(accepted.astype(np.float64), whose)


def _clustered(values: Floats, visit: npt.NDArray[np.int64]) -> Share:
    """A mean over try-ons whose visits are independent: their sums of deviations are squared."""
    sums = np.bincount(visit, values - values.mean())
    return Share(float(values.mean()), float(np.sqrt((sums**2).sum()) / values.size), values.size)


def taken(visit: dict[str, Any], minutes: Minutes | None = None) -> float:
    """What one visit takes [min]: try-ons, pads, shells and looks, each at its assumed time.

    Parameters
    ----------
    visit
        A row of the result file.
    minutes
        What each act takes; as assumed where None.
    """
    times, (sheet, _) = minutes or Minutes(), model()
    tries = len(visit["right"]) * times.trying(sheet)
    pads = sum(times.pad(Zone(zone)) * count for zone, count in visit["pads"].items())
    return float(tries + pads + visit["shells"] * times.other_shell + visit["looks"] * times.look)


def measured(whole: Share, measures: Iterable[str], minutes: Minutes | None = None) -> Share:
    """What a visit takes with what was measured beforehand [min].

    Parameters
    ----------
    whole
        Minutes of the visits alone.
    measures
        What was read, each twice.
    minutes
        What each act takes; as assumed where None.
    """
    times = minutes or Minutes()
    return replace(whole, value=whole.value + sum(map(times.measuring, measures)))


def ratio(one: Rows, two: Rows) -> Share:
    """Mean try-ons of one policy over another's on the same heads.

    Notes
    -----
    The standard error is that of a ratio of means on pairs (delta method).
    """
    mine = np.array([visit["tries"] for visit in one], dtype=np.float64)
    theirs = np.array([visit["tries"] for visit in two], dtype=np.float64)
    value = mine.mean() / theirs.mean()
    left = mine - value * theirs
    return Share(float(value), float(left.std() / np.sqrt(left.size) / theirs.mean()), left.size)


@dataclass(frozen=True)
class Stated:
    """Stated chances of some try-ons against what came.

    Parameters
    ----------
    stated, came
        Chances [1], and what happened, shape (n,).
    visit
        Which visit each try-on belongs to, shape (n,).
    """

    stated: Floats
    came: Floats
    visit: npt.NDArray[np.int64]

    def difference(self, which: npt.NDArray[np.bool_] | None = None) -> Share:
        """Stated less what came, over some try-ons.

        Notes
        -----
        The standard error takes visits as independent, not their try-ons: the squares of the
        visits' sums of deviations are added.
        """
        chosen = np.ones(self.stated.size, dtype=bool) if which is None else which
        gap = (self.stated - self.came)[chosen]
        if gap.size == 0:
            return Share(float("nan"), float("nan"), 0)
        return _clustered(gap, self.visit[chosen])

    def fifths(self) -> list[npt.NDArray[np.bool_]]:
        """Five groups of try-ons of equal size, by what was stated."""
        order = np.argsort(self.stated, kind="stable")
        groups = []
        for part in np.array_split(order, FIFTHS):
            inside = np.zeros(self.stated.size, dtype=bool)
            inside[part] = True
            groups.append(inside)
        return groups


TRULY, FOUND = 0, 1
"""Which of the two stated chances."""


def stated(visits: Rows, what: int, try_ons: tuple[int, int] = (1, NEVER)) -> Stated:
    """Stated chances of fitting (`TRULY`) or of being found right (`FOUND`), with what came.

    Parameters
    ----------
    visits
        The visits.
    what
        Which chance; being found right is by the first looks alone.
    try_ons
        First and last try-on that are taken.
    """
    rows = [
        (pair[what], visit["found" if what == FOUND else "right"][place], number)
        for number, visit in enumerate(visits)
        for place, pair in enumerate(visit["stated"])
        if try_ons[0] <= place + 1 <= try_ons[1] and place < len(visit["right"])
    ]
    table = np.array(rows, dtype=np.float64).reshape(-1, 3)
    return Stated(table[:, 0], table[:, 1], table[:, 2].astype(np.int64))
