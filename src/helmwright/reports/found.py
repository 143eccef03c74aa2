"""What a visit found, stage by stage in its own order, with what was otherwise on the way.

Nothing is counted against anything and nothing is added up: an answer is told by its word, and
what was not right at first by the try-on that found it.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from helmwright.fit.finding import Grade
from helmwright.reports.visit_check_page import STAGES
from helmwright.visit.check import Check
from helmwright.visit.check_list import Protocol
from helmwright.visit.looks import Looked, grade_of
from helmwright.visit.said_words import given_words
from helmwright.visit.summary import VisitSummary

ALL_RIGHT = "All as it should be."
NOT_ALL = "Not all as it should be."
NOBODY_LOOKED = "Nobody looked: have it looked at before the helmet is worn."


@dataclass(frozen=True, slots=True)
class FoundCheck:
    """One check.

    Parameters
    ----------
    title
        What was looked at.
    words
        What was found last.
    is_right
        Whether it is as it should be.
    earlier
        What was found otherwise before, each with its try-on: "loose at try-on 1".
    """

    title: str
    words: str
    is_right: bool
    earlier: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FoundStage:
    """One stage of the visit: what it is called, and its checks that were answered, in order."""

    stage: str
    checks: tuple[FoundCheck, ...]

    @property
    def told(self) -> str:
        """In a sentence, how it came out."""
        if not self.checks:
            return NOBODY_LOOKED
        return ALL_RIGHT if all(each.is_right for each in self.checks) else NOT_ALL

    @property
    def on_the_way(self) -> tuple[str, ...]:
        """What was found otherwise, check by check: "Front pad: loose at try-on 1; then snug."."""
        return tuple(
            f"{each.title}: {', '.join(each.earlier)}; then {each.words}."
            for each in self.checks
            if each.earlier
        )


def found_by_stage(visit: VisitSummary, protocol: Protocol) -> tuple[FoundStage, ...]:
    """Every stage that the protocol has checks of, in the visit's order.

    Parameters
    ----------
    visit
        The visit in retrospect.
    protocol
        Its checks.
    """
    return tuple(
        FoundStage(words, tuple(_found(visit, protocol.stage(stage))))
        for stage, words in STAGES.items()
        if protocol.stage(stage)
    )


def _found(visit: VisitSummary, checks: tuple[Check, ...]) -> Iterator[FoundCheck]:
    for check in checks:
        looks = [
            (tried.number, looked)
            for tried in visit.try_ons
            for looked in tried.checks
            if looked.check.key == check.key
        ]
        if looks:
            yield _one(check, looks)


def _one(check: Check, looks: list[tuple[int, Looked]]) -> FoundCheck:
    last = looks[-1][1]
    words = _standing(last)
    bad = dict.fromkeys(
        f"{given_words(given)} at try-on {number}"
        for number, looked in looks
        for given in looked.answers
        if grade_of(check, given) is not Grade.RIGHT
    )
    is_right = last.verdict is Grade.RIGHT
    return FoundCheck(check.title, words, is_right, tuple(bad) if is_right else ())


def _standing(looked: Looked) -> str:
    """The newest answer that says what stands; the newest of all where nothing does."""
    agreeing = [
        given for given in looked.answers if grade_of(looked.check, given) is looked.verdict
    ]
    return given_words((agreeing or list(looked.answers))[-1])
