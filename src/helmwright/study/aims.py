"""What was aimed at before the study was played."""

from collections.abc import Callable
from dataclasses import dataclass

from helmwright.study.figures import FOUND, TRULY, Rows, Share, ratio, stated, told
from helmwright.study.policies import OURS

Visits = Callable[[str], Rows]
"""The visits of a policy by its key; of two policies on the same heads where they are compared."""


@dataclass(frozen=True)
class Aim:
    """One aim.

    Parameters
    ----------
    title
        What is aimed at.
    policy
        Whose visits.
    measure
        The figure, from those visits and from another policy's on the same heads.
    limit
        What it may be at most, or must be at least.
    ambitious
        The further aim, where there is one.
    against
        The other policy, where two are compared.
    at_least
        Whether more is better.
    percent
        Whether it is told in percent.
    """

    title: str
    policy: str
    measure: Callable[[Rows, Rows], Share]
    limit: float
    ambitious: float | None = None
    against: str | None = None
    at_least: bool = False
    percent: bool = True

    def missed_by(self, found: Share, limit: float | None = None) -> float:
        """How far the figure is on the wrong side of the limit; negative where it is met."""
        bound = self.limit if limit is None else limit
        return bound - found.value if self.at_least else found.value - bound


def _try_ons(visits: Rows, _: Rows) -> Share:
    return told(visits).try_ons


def _largest(what: int) -> Callable[[Rows, Rows], Share]:
    def measure(visits: Rows, _: Rows) -> Share:
        found = stated(visits, what)
        gaps = [found.difference(fifth) for fifth in found.fifths()]
        worst = max(gaps, key=lambda gap: abs(gap.value))
        return Share(abs(worst.value), worst.error, worst.count)

    return measure


def _overall(what: int) -> Callable[[Rows, Rows], Share]:
    def measure(visits: Rows, _: Rows) -> Share:
        gap = stated(visits, what).difference()
        return Share(abs(gap.value), gap.error, gap.count)

    return measure


AIMS = (
    Aim("mean try-ons with the second look", OURS, _try_ons, 1.8, 1.55, percent=False),
    Aim("mean try-ons without", "five none", _try_ons, 2.1, percent=False),
    Aim("of one zone a try-on, bad answers twice", "five again", ratio, 0.5, against="one again"),
    Aim("of every wrong zone, bad answers twice", "five again", ratio, 0.75, against="all again"),
    Aim("of one zone, each with its own looks", OURS, ratio, 0.5, against="one again"),
    Aim("of every wrong zone, likewise", OURS, ratio, 0.75, against="all again"),
    Aim("of one zone a try-on, both without", "five none", ratio, 0.5, against="one none"),
    Aim("of every wrong zone, both without", "five none", ratio, 0.75, against="all none"),
    Aim(
        "truly right at the first try", OURS, lambda mine, _: told(mine).right_first, 0.5,
        at_least=True,
    ),
    Aim("falsely accepted", OURS, lambda mine, _: told(mine).false, 0.09, 0.05),
    Aim("accepted clearly wrong", OURS, lambda mine, _: told(mine).clear, 0.005),
    Aim("accepted clearly wrong to a hand", OURS, lambda mine, _: told(mine).felt, 0.005),
    Aim("never fitted in eight try-ons", OURS, lambda mine, _: told(mine).never, 0.01),
    Aim("pads changed", OURS, lambda mine, _: told(mine).pads, 6.0, 4.6, percent=False),
    Aim("chance to fit, stated less true", OURS, _overall(TRULY), 0.03),
    Aim("the same in the worst fifth", OURS, _largest(TRULY), 0.05),
    Aim("chance to be found right, likewise", OURS, _overall(FOUND), 0.03),
    Aim("the same in the worst fifth", OURS, _largest(FOUND), 0.05),
)  # fmt: skip
"""Every aim, in the order of the table."""
