"""The search for the best builds: a climb in every shell, a race, and once again at the winner."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, partial

import numpy as np

from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES
from helmwright.fit.begin import begins
from helmwright.fit.climb import Climb, climb
from helmwright.fit.neighborhood import Pads, everything, steps
from helmwright.fit.outlook import Build
from helmwright.fit.race import Runner, Track, by_merit, race
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

CHARGE = Figure(
    0.02,
    "1",
    ASSUMED,
    note="share of the best chance that one pad fewer to change is worth at a first proposal",
)

DEPARTURE = Figure(
    0.2,
    "1",
    ASSUMED,
    note=(
        "share of the best chance that another shell than the chart's must win by, times how much "
        "more often the chart names its own"
    ),
)

Allowed = Callable[[Build], bool]
"""Whether the parts of a build are at hand."""


def anything(_: Build) -> bool:
    """A shelf that has all that the sheet lists."""
    return True


def has_in(shell: int, allowed: Allowed) -> Callable[[Pads], bool]:
    """Whether the pads of a build in one shell are at hand; each is asked once."""
    if allowed is anything:
        return everything
    return cache(lambda pads: allowed(Build(shell, pads)))


ROUNDS = 4
"""How often the winner is raced against its neighbors at most."""


@dataclass(frozen=True, slots=True)
class Effort:
    """How many heads are drawn for what.

    Parameters
    ----------
    climb, race
        Heads of the climb and of the race's last heat; the climb sees the race's first ones.
    near
        Heads on which a further measure and changes of pads are weighed; the race's first ones.
    fresh
        Heads on which the chances are stated.
    entrants
        Builds of each shell that enter the race.
    ranked
        Builds in the answer.
    driven
        Heads on which it is counted what drives a chance; the first of the fresh ones.
    driven_builds
        For how many of the ranked builds; the delivered one as well where more than one.
    """

    climb: int = 128
    race: int = 1024
    near: int = 384
    fresh: int = 1000
    entrants: int = 14
    ranked: int = 5
    driven: int = 400
    driven_builds: int = 1

    def __post_init__(self) -> None:
        """Refuse an effort that decides on nothing."""
        if not 16 <= self.climb <= self.near <= self.race or self.fresh < 100:
            raise ValueError("effort needs 16 <= climb <= near <= race heads, and 100 fresh ones")
        if self.entrants < 1 or self.ranked < 1:
            raise ValueError("effort needs at least one entrant and one ranked build")
        if not 2 <= self.driven <= self.fresh or self.driven_builds < 0:
            raise ValueError("effort needs 2 <= driven <= fresh heads, and no fewer than 0 builds")


CLOSE_LOOK = Effort(driven_builds=5)
"""For one player: what drives the chances of every build in the answer."""


def search(
    track: Track,
    sheet: ModelSheet,
    start: Build,
    effort: Effort,
    allowed: Allowed = anything,
    lies: Sequence[Build] = (),
) -> list[Runner]:
    """Climb in every shell and race; then race the winner against its neighbors until it stays.

    Only builds whose parts are at hand; each shell of the track has one. Every round's neighbors
    are all builds a step away in one zone, solved and not guessed, and those that a climb anew
    around the winner ranks highest. Run to the end, whatever comes of them: the best of the shell
    that the chart names likeliest (the first of the trials), what is in the helmet now, and the
    delivered builds; nobody changes pads for less than he has.
    """
    has = {number: has_in(number, allowed) for number in track.trials}
    climbs = {}
    for number, trial in track.trials.items():
        first, *more = begins(sheet, start.pads, lies, number, has[number]) or [start.pads]
        climbs[number] = climb(trial, first, effort.climb, has=has[number], others=more)
    entrants = [build for number in climbs for build in _entrants(climbs[number], number, effort)]
    plain = [Build(number, sheet.delivered) for number in climbs]
    plain += [start] if start.shell in climbs else []
    plain = [build for build in plain if allowed(build)]
    field = race(track, [*entrants, *plain], effort.race)
    charted = next(runner.build for runner in field if runner.build.shell == next(iter(climbs)))
    about = {number: seen.response.about for number, seen in climbs.items()}
    for _ in range(ROUNDS):
        winner = field[0].build
        rivals = [runner.build for runner in field[: effort.ranked]]
        rivals += [
            Build(winner.shell, pads) for pads in steps(sheet, winner.pads, has[winner.shell])
        ]
        if winner != about[winner.shell]:
            trial = track.trials[winner.shell]
            again = climb(trial, winner.pads, effort.climb, has=has[winner.shell])
            about[winner.shell] = again.response.about
            rivals += _entrants(again, winner.shell, effort)
        field = race(track, rivals, effort.race)
        if field[0].build == winner:
            break
    return _and_run(track, field, [charted, *plain], effort.race)


def _and_run(track: Track, field: list[Runner], builds: list[Build], heads: int) -> list[Runner]:
    """The field with some builds run on all the heads, in their places."""
    others = [runner for runner in field if runner.build not in builds]
    return by_merit([*others, *(track.run(build, heads) for build in dict.fromkeys(builds))])


def _entrants(seen: Climb, number: int, effort: Effort) -> list[Build]:
    return [Build(number, pads) for pads in seen.top(effort.entrants)]


def ranked(
    field: list[Runner],
    charted: Mapping[int, float],
    start: Build,
    sheet: ModelSheet,
    allowed: Allowed = anything,
) -> list[Build]:
    """By share; among those that are not worth telling from the best, the plainest first.

    Parameters
    ----------
    field
        The race's runners, best first.
    charted
        How often the chart names each shell tried, likeliest first [1].
    start, sheet
        What is in the helmet now; the model.
    allowed
        Whether the parts of a build are at hand.

    Notes
    -----
    A build is not worth telling from the best where its share lies below by no more than one
    standard error of the difference on common draws (the one-standard-error rule of Breiman,
    Friedman, Olshen and Stone 1984, Classification and Regression Trees; from memory), CHARGE for
    each pad fewer that it changes, and DEPARTURE times what the chart gives its shell more than
    the best one's, both as shares of the best: where little fits, a little more is worth a pad.
    Plainest: the chart's shell first, then the fewest changes and uneven pairs. Of an uneven build
    and its mirror image, which differ by noise alone, the one with the thinner pads on the left
    stands for both.
    """
    best, numbers = field[0], tuple(charted)
    most = _changes(best.build, start, sheet)

    def order(runner: Runner) -> tuple[bool, bool, int, int, float]:
        if runner.right.size < best.right.size:
            return (True, True, 0, 0, -runner.share)
        changes = _changes(runner.build, start, sheet)
        ahead = charted[runner.build.shell] - charted[best.build.shell]
        fewer = CHARGE.value * max(most - changes, 0) + DEPARTURE.value * max(ahead, 0.0)
        room = _difference_error(best, runner) + best.share * fewer
        if best.share - runner.share > room:
            return (True, False, 0, 0, -runner.share)
        plain = changes + _uneven(runner.build)
        return (False, False, numbers.index(runner.build.shell), plain, -runner.share)

    turned = partial(_turned, start=start, sheet=sheet, allowed=allowed)
    builds = [turned(runner.build) for runner in sorted(field, key=order)]
    return list(dict.fromkeys(builds))


def _changes(build: Build, start: Build, sheet: ModelSheet) -> int:
    return len(build.changes_from(origin(build, start, sheet)))


def _turned(build: Build, start: Build, sheet: ModelSheet, allowed: Allowed) -> Build:
    """The build or its mirror image, where helmet, what is in it now and shelf have no sides."""
    there = [ZONES.index(zone.mirrored) for zone in ZONES]
    mirrored = Build(build.shell, tuple(build.pads[place] for place in there))
    before = origin(build, start, sheet).pads
    same = all(
        sheet.pads[place].thicknesses_mm == pad.thicknesses_mm
        for place, pad in zip(there, sheet.pads, strict=True)
    )
    even = before == tuple(before[place] for place in there)
    return min(build, mirrored) if same and even and allowed(mirrored) else build


def origin(build: Build, start: Build, sheet: ModelSheet) -> Build:
    """What is in a build's shell before anything is changed."""
    return start if build.shell == start.shell else Build(build.shell, sheet.delivered)


def _difference_error(one: Runner, two: Runner) -> float:
    differing = float((one.right != two.right).mean())
    return float(np.sqrt(differing / one.right.size))


def _uneven(build: Build) -> int:
    """How many mirror pairs of zones differ."""
    pads = dict(zip(ZONES, build.pads, strict=True))
    return sum(pads[zone] != pads[zone.mirrored] for zone in ZONES) // 2


def best_delivered(track: Track, sheet: ModelSheet, effort: Effort) -> Build:
    """The best of the shells as delivered, on the draws of the climb."""
    builds = [Build(number, sheet.delivered) for number in track.trials]
    return max(builds, key=lambda build: track.run(build, effort.climb).share)
