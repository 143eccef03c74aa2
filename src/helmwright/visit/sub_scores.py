"""Five scores of a fitting, each by itself. There is no total, and none may be made.

A single sum over such checks was found to mislead: it adds what hangs together with what does not
(Lininger and others 2021, `lininger_2021`). The names of the five are theirs; which check feeds
which is assumed, for their table of loadings was not at hand.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from helmwright.fit.finding import Grade
from helmwright.visit.check import SubScore
from helmwright.visit.check_list import Protocol

MAPPING_ASSUMED = "Which check feeds which of the five scores is assumed."
"""Said wherever a person reads the scores."""


@dataclass(frozen=True, slots=True)
class Score:
    """One of the five.

    Parameters
    ----------
    right, answered
        How many of the answered checks are right, and how many were answered.
    """

    right: int
    answered: int

    def __post_init__(self) -> None:
        """Refuse a count that cannot be."""
        if not 0 <= self.right <= self.answered:
            raise ValueError(f"{self.right} right of {self.answered} answered cannot be")


def sub_scores(protocol: Protocol, answers: Mapping[str, Grade]) -> dict[SubScore, Score]:
    """The five scores, in the order of `SubScore`.

    Parameters
    ----------
    protocol
        The checks.
    answers
        How each answered check stands at the end, by its key.

    Raises
    ------
    KeyError
        Where the protocol has no such check.
    """
    graded = [(protocol.check(key).sub_score, grade) for key, grade in answers.items()]
    return {score: _counted(grade for fed, grade in graded if fed is score) for score in SubScore}


def unchecked_words(scores: Iterable[SubScore]) -> str:
    """What to do about scores of which nothing was, or will be, checked; empty where none is."""
    named = ", ".join(scores)
    return f"No check is about {named}: have them looked at before it is worn." if named else ""


def _counted(grades: Iterable[Grade]) -> Score:
    found = list(grades)
    return Score(sum(grade is Grade.RIGHT for grade in found), len(found))
