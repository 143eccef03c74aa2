"""One visit played to its end, and what is kept of it."""

from collections import Counter
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from helmwright.catalogue import ZONES, ModelSheet, Zone
from helmwright.fit import Build
from helmwright.fit.finding import Finding, Grade
from helmwright.study.fitter import Fitter
from helmwright.study.rules import BROW, Place, Remembered, Rule
from helmwright.study.wearer import TriedOn, Wearer

MOST = 8
"""Try-ons after which a visit counts as never fitted."""

NEVER = MOST + 1
"""What such a visit counts as, in try-ons."""

FURTHER_LOOKS = (2, 3)
"""A bad answer is looked at so often again, where the second look is on; an odd number in all."""


@dataclass
class Visit:
    """What is kept of a visit, as it goes.

    Parameters
    ----------
    sheet
        The model.
    inside
        What is in every shell that was used, by its number.
    right, found, clear, felt
        For every try-on: truly right, found right at the first looks, clearly wrong, and clearly
        wrong to a hand.
    pads
        Pads changed by zone, first set-up included.
    shells, looks
        Shells fetched beyond the first one of the visit, and looks beyond the first.
    stated
        For every try-on what was stated beforehand: that it fits, that it will be found right.
    accepted
        Whether the last try-on was accepted.
    """

    sheet: ModelSheet
    inside: dict[int, Build]
    right: list[bool] = field(default_factory=list)
    found: list[bool] = field(default_factory=list)
    clear: list[bool] = field(default_factory=list)
    felt: list[bool] = field(default_factory=list)
    pads: Counter[str] = field(default_factory=Counter)
    shells: int = 0
    looks: int = 0
    stated: list[tuple[float, float]] = field(default_factory=list)
    accepted: bool = False
    now: int = 0

    def put_on(self, tried: TriedOn) -> None:
        """A build is made up and put on."""
        build = tried.build
        before = self.inside.get(build.shell, Build(build.shell, self.sheet.delivered))
        self.pads.update(zone.value for zone in build.changes_from(before))
        self.shells += self.now not in {0, build.shell}
        self.inside[build.shell], self.now = build, build.shell
        self.right.append(tried.is_right)
        self.clear.append(tried.is_clearly_wrong)
        self.felt.append(tried.is_wrong_to_a_hand)

    @property
    def try_ons(self) -> int:
        """Try-ons it took; `NEVER` where it was not accepted."""
        return len(self.right) if self.accepted else NEVER

    def row(self) -> dict[str, Any]:
        """As it goes into the result file."""
        return {
            "tries": self.try_ons,
            "right": [int(each) for each in self.right],
            "found": [int(each) for each in self.found],
            "clear": int(self.accepted and self.clear[-1]),
            "felt": int(self.accepted and self.felt[-1]),
            "pads": dict(self.pads),
            "shells": self.shells,
            "looks": self.looks,
            "stated": [[round(each, 4) for each in pair] for pair in self.stated],
        }


def begun(sheet: ModelSheet, delivered: Build) -> Visit:
    """A visit that begins with a delivered build in the helmet."""
    return Visit(sheet, {delivered.shell: delivered}, now=delivered.shell)


def by_rule(rule: Rule, delivered: Build, wearer: Wearer, fitter: Fitter, *, again: bool) -> Visit:
    """A visit led by a rule of thumb, from the delivered build.

    Parameters
    ----------
    rule
        What is changed.
    delivered
        What the first shell arrives with.
    wearer, fitter
        Who is fitted, and by whom.
    again
        Whether every bad answer is looked at twice more and the middle stands.
    """
    visit, mind, build = begun(wearer.sheet, delivered), Remembered(), delivered
    for try_on in range(1, MOST + 1):
        tried = wearer.tried_on(build, try_on)
        visit.put_on(tried)
        found = looked_at(visit, fitter, tried, try_on, again=again)
        if all(grade is Grade.RIGHT for grade in found.values()):
            visit.accepted = True
            break
        mind.wrong.add(build)
        mind.shells.add(build.shell)
        rng = np.random.default_rng([*wearer.stream, 23, try_on])
        build = rule(found, tried, mind, rng)
    return visit


def looked_at(
    visit: Visit, fitter: Fitter, tried: TriedOn, try_on: int, *, again: bool
) -> dict[Place, Grade]:
    """What a round of checks says, bad answers looked at again where that is asked for."""
    places: list[Place] = [BROW, *ZONES]
    first = {place: look(fitter, tried, place, try_on) for place in places}
    visit.found.append(all(each.grade is Grade.RIGHT for each in first.values()))
    stands = {place: each.grade for place, each in first.items()}
    if again:
        for place in places:
            if stands[place] is not Grade.RIGHT:
                more = [look(fitter, tried, place, try_on, number) for number in FURTHER_LOOKS]
                visit.looks += len(more)
                stands[place] = middle([first[place], *more])
    return stands


def look(fitter: Fitter, tried: TriedOn, place: Place, try_on: int, number: int = 1) -> Finding:
    """One look at the brow or at a zone."""
    if place == BROW:
        return fitter.reads_brow(tried, try_on, number)
    return fitter.finds(tried, Zone(place), try_on, number)


def middle(findings: list[Finding]) -> Grade:
    """The middle of an odd number of ordered answers."""
    return sorted(each.grade for each in findings)[len(findings) // 2]
