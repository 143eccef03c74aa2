"""A source record, and a figure that cannot be written without one."""

from dataclasses import dataclass
from enum import StrEnum


class Standing(StrEnum):
    """How far a source carries; the words are shown to the person who reads the result."""

    PUBLISHED = "published"
    COMPUTED = "computed by this project from published data"
    QUOTED = "quoted by another source"
    COMMON_PRACTICE = "common practice, no source"
    FROM_MEMORY = "from memory"
    ASSUMED = "assumed"
    INVENTED = "invented"


@dataclass(frozen=True, slots=True)
class Source:
    """One place that a number came from.

    Parameters
    ----------
    key
        Short name, unique, as used by tests and data files.
    citation
        Who, when, what; enough to find it in a library.
    standing
        How far it carries.
    locator
        DOI, report number, table or standard clause, where there is one.
    note
        What it covers, and what it does not.
    """

    key: str
    citation: str
    standing: Standing
    locator: str = ""
    note: str = ""

    def __post_init__(self) -> None:
        """Refuse a record that nobody could look up."""
        if not self.key.isidentifier():
            raise ValueError(f"source key {self.key!r} must be one word of letters, digits and _")
        if not self.citation.strip():
            raise ValueError(f"source {self.key} needs a citation")


@dataclass(frozen=True, slots=True)
class Figure:
    """A number with its unit, its source and its spread.

    Parameters
    ----------
    value
        The number itself.
    unit
        Its unit, "1" when it has none.
    source
        Where it came from.
    spread
        One standard deviation, same unit, when the source gives or suggests one.
    note
        What it is, in a sentence.
    """

    value: float
    unit: str
    source: Source
    spread: float | None = None
    note: str = ""

    def __float__(self) -> float:
        return float(self.value)
