"""One check of a fit visit, as the protocol holds it."""

from dataclasses import dataclass
from enum import StrEnum

from helmwright.catalogue.instruction import FitTopic
from helmwright.catalogue.zone import Zone
from helmwright.fit.finding import OF_A_ZONE, Finding, Grade, Sign


class SubScore(StrEnum):
    """The five scores that are kept apart; there is no total."""

    STABILITY = "stability"
    SNUGNESS = "snugness"
    SIZE = "size"
    INTEGRITY = "integrity"
    ACCESSORY = "accessory"


class Stage(StrEnum):
    """When in a try-on a check comes; a stage is asked once the one before is all right."""

    BEFORE = "before"
    """Once a visit, before the helmet goes on; a bad answer is put right and asked again."""

    CONTACT = "contact"
    """All asked at every try-on, so that every wrong zone can be changed in one go."""

    HELD = "held"
    """Strap, movement and face, once every contact is right."""

    WORN = "worn"
    """After some minutes of wearing."""

    HANDED_OVER = "handed over"
    """What the player is told and shows."""


class Part(StrEnum):
    """Kinds of parts that can be changed or adjusted."""

    PAD = "pad"
    CROWN = "crown pad"
    JAW = "jaw pad"
    AIR = "air cell"
    STRAP = "chin strap"
    GUARD = "face guard"
    SHELL = "shell"


@dataclass(frozen=True, slots=True)
class Answer:
    """One way to answer a check.

    Parameters
    ----------
    word
        What is typed or touched, in lower case, such as "snug".
    grade
        Where it lies in the order; RIGHT is accepted, the others are not.
    says
        What it means, in plain words.
    points_to
        What a bad answer points to, in plain words; empty for a good one.
    zone
        Where, for a check that asks for a place.
    """

    word: str
    grade: Grade
    says: str
    points_to: str = ""
    zone: Zone | None = None


@dataclass(frozen=True, slots=True)
class Length:
    """A length that a check reads.

    Parameters
    ----------
    accept_mm
        The accepted interval [mm].
    low_mm, high_mm
        What can be that length of nobody lies outside [mm].
    fingers
        Whether finger widths are a usual way to say it.
    """

    accept_mm: tuple[float, float]
    low_mm: float
    high_mm: float
    fingers: bool = True

    def grade(self, value_mm: float) -> Grade:
        """Below, inside or above the accepted interval."""
        low, high = self.accept_mm
        if value_mm < low:
            return Grade.UNDER
        return Grade.OVER if value_mm > high else Grade.RIGHT


@dataclass(frozen=True, slots=True)
class Check:
    """One check.

    Parameters
    ----------
    key
        What it is called in events and files, such as "jaw left".
    title
        What a person reads above it.
    stage
        When it comes.
    how
        How to do it, a sentence each.
    answers
        The ways to answer, in their order.
    accept
        The criterion in plain words.
    sub_score
        Which of the five scores it feeds.
    sign, zone
        What it tells of head, pads and fitter.
    source
        Key of the source of the criterion, or "common practice, no source".
    length
        The length that is read, where one is; the answers then say it in words.
    repeat_after
        Changes after which it must be asked again.
    put_right
        What puts a bad answer right on the spot, without another build; empty where only another
        build does.
    by_maker
        Whether the model sheet's own instruction stands here instead of the usual one.
    topic
        On which of the maker's instructions it waits.
    differs
        Where sources differ, in plain words; empty where none was found that does.
    needs
        A part without which the model has no such check.
    changes
        Parts that putting it right on the spot may change; how is shown when it comes to that.
    """

    key: str
    title: str
    stage: Stage
    how: tuple[str, ...]
    answers: tuple[Answer, ...]
    accept: str
    sub_score: SubScore
    sign: Sign
    source: str
    zone: Zone | None = None
    length: Length | None = None
    repeat_after: frozenset[Part] = frozenset()
    put_right: str = ""
    by_maker: bool = False
    topic: FitTopic | None = None
    differs: str = ""
    needs: Part | None = None
    changes: tuple[Part, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a check that cannot be answered, or not well."""
        words = [answer.word for answer in self.answers]
        if len(set(words)) != len(words) or not any(a.grade is Grade.RIGHT for a in self.answers):
            raise ValueError(f"check {self.key}: answers must differ, and one must be right")

    def answer(self, word: str) -> Answer:
        """The answer of that word.

        Raises
        ------
        UnknownAnswerError
            Where there is none.
        """
        for each in self.answers:
            if each.word == word:
                return each
        listed = ", ".join(each.word for each in self.answers)
        raise UnknownAnswerError(f'{self.title}: "{word}" is no answer; answers are {listed}')

    def finding(self, answer: Answer, value_mm: float | None = None) -> Finding:
        """What an answer says of the helmet at rest; a read length decides the grade.

        "None" on a check that asks for a place says the same of many places (`findings`); taken
        as one finding it is plain.
        """
        if value_mm is not None and self.length is not None:
            return Finding(self.sign, self.length.grade(value_mm), None, value_mm)
        zone = answer.zone or self.zone
        if self.sign in OF_A_ZONE and zone is None:
            return Finding(Sign.PLAIN, answer.grade)
        return Finding(self.sign, answer.grade, zone)

    def findings(self, answer: Answer, value_mm: float | None = None) -> tuple[Finding, ...]:
        """All that an answer says: "no hot spot" says so of every zone that was asked about."""
        places = tuple(each.zone for each in self.answers if each.zone is not None)
        if self.sign in OF_A_ZONE and places and answer.zone is None:
            return tuple(Finding(self.sign, answer.grade, zone) for zone in places)
        return (self.finding(answer, value_mm),)


class UnknownAnswerError(ValueError):
    """A check has no such answer."""
