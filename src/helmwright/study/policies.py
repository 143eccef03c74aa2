"""What is played against what."""

from dataclasses import dataclass
from enum import StrEnum

from helmwright.study import people


class Looks(StrEnum):
    """What is looked at again before anything is changed."""

    NONE = "none"
    AGAIN = "again"
    """Every bad answer twice more; the middle stands."""

    SURPRISE = "surprise"
    """What the belief finds doubtful, good answers as well; for a policy that has a belief."""


class Kind(StrEnum):
    """Who leads the visit."""

    ONE_ZONE = "one"
    ALL_ZONES = "all"
    OURS = "ours"
    KNOWN = "known"


@dataclass(frozen=True)
class Policy:
    """One way to lead a visit.

    Parameters
    ----------
    kind
        Who leads.
    title
        For the tables.
    looks
        What is looked at again.
    measures
        What is read beforehand.
    """

    kind: Kind
    title: str
    looks: Looks
    measures: tuple[str, ...] = people.TAPE


RUNGS = {
    "tape": ("tape", people.TAPE),
    "caliper": ("tape, length, breadth", people.CALIPER),
    "tragion": ("these three and ear to top", people.EARS),
    "height": ("these three and brow to top", people.HEIGHT),
    "five": ("the last and width at the jaw pads", people.FIVE),
}
"""What is read. Two heights of the head's top stand against each other, over the notch in front of
the ear (tragion) and over the brow; the width at the jaw pads goes with the brow."""


def _rules() -> dict[str, Policy]:
    titles = {Kind.ONE_ZONE: "chart, one zone a try-on", Kind.ALL_ZONES: "chart, every wrong zone"}
    return {
        f"{kind} {looks}": Policy(kind, title, looks)
        for kind, title in titles.items()
        for looks in (Looks.NONE, Looks.AGAIN)
    }


def _ours() -> dict[str, Policy]:
    return {
        f"{rung} {looks}": Policy(Kind.OURS, title, looks, measures)
        for rung, (title, measures) in RUNGS.items()
        for looks in Looks
    }


POLICIES = {
    **_rules(),
    **_ours(),
    **{
        f"known {looks}": Policy(Kind.KNOWN, "head and bumps known", looks, people.FIVE)
        for looks in Looks
    },
}
"""Every policy by its key in the result file."""

OURS = "five surprise"
"""The one that the aims are about."""
