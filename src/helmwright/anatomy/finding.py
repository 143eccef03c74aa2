"""What a check of the readings says."""

from dataclasses import dataclass
from enum import StrEnum


class FindingKind(StrEnum):
    """What can be wrong with readings."""

    OUT_OF_RANGE = "out of range"
    SWAPPED = "swapped"
    REPEATS_APART = "repeats apart"
    LIGHT_TAPE = "light tape against drawn in"
    SET_ASIDE = "one reading set aside"
    OUTLINE = "circumference against length and breadth"
    PROPORTION = "length against breadth"
    ODD_ONE_OUT = "odd one out"
    AGE = "readings against the age"


@dataclass(frozen=True, slots=True)
class Finding:
    """Something about the readings that a person should look at; nothing was changed.

    Parameters
    ----------
    kind
        What is wrong.
    measures
        Keys of the measures concerned, the likeliest culprit first.
    message
        What is wrong, in a sentence.
    suggestion
        What may have been meant, as a question; None where nothing can be said.
    blocks
        Whether no head can be estimated until it is put right.
    """

    kind: FindingKind
    measures: tuple[str, ...]
    message: str
    suggestion: str | None
    blocks: bool
