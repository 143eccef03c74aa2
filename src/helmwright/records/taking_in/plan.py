"""What taking a file in would do, row by row, before anything is done."""

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from helmwright.records.kinds import Payload, canonical
from helmwright.roster import Remark


class Verdict(StrEnum):
    """What becomes of a row."""

    ADD = "add"
    CHANGE = "change"
    SAME = "same"
    ASKS = "asks"
    LEFT_OUT = "left out"
    REFUSED = "refused"


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer to what a row asks."""

    key: str
    words: str


NEW = "new"
LEAVE = "leave"


@dataclass(frozen=True, slots=True)
class Line:
    """One row of the file.

    Parameters
    ----------
    row
        Its number as a spreadsheet shows it.
    who
        The player, the helmet or the part that it tells of.
    verdict
        What becomes of it.
    says
        What will change, what is asked, or what is wrong and would be right.
    payloads
        What is said to the ledger where the row is taken in.
    choices
        Answers to choose from, where the row asks.
    notices
        What to look at, though the row is taken in.
    """

    row: int
    who: str
    verdict: Verdict
    says: tuple[str, ...] = ()
    payloads: tuple[Payload, ...] = ()
    choices: tuple[Choice, ...] = ()
    notices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Plan:
    """Everything that a file would do.

    Parameters
    ----------
    lines
        One for each row, in the order of the file.
    notices
        What is to be said of the file as a whole.
    """

    lines: tuple[Line, ...]
    notices: tuple[str, ...] = ()

    @property
    def digest(self) -> str:
        """Another one wherever anything else would be done or is said; SHA-256."""
        told = [
            {
                "row": line.row,
                "who": line.who,
                "verdict": line.verdict,
                "says": list(line.says),
                "does": [
                    [each.KIND, each.public_text(), each.private_text()] for each in line.payloads
                ],
            }
            for line in self.lines
        ]
        return hashlib.sha256(canonical({"lines": told}).encode()).hexdigest()

    @property
    def payloads(self) -> tuple[Payload, ...]:
        """What is said to the ledger, in the order of the file."""
        return tuple(each for line in self.lines for each in line.payloads)

    def having(self, *verdicts: Verdict) -> tuple[Line, ...]:
        """The rows of which that becomes."""
        return tuple(line for line in self.lines if line.verdict in verdicts)

    @property
    def changing(self) -> tuple[Line, ...]:
        """Rows that do something."""
        return self.having(Verdict.ADD, Verdict.CHANGE)


def told(remark: Remark) -> str:
    """A remark for somebody who sees the row's number already."""
    held = f' "{remark.value}"' if remark.value else ""
    return f"{remark.column}{held}: {remark.words}" if remark.column else remark.words


def refused(row: int, who: str, remarks: Iterable[Remark]) -> Line:
    """A row that cannot be read, with everything that is wrong with it."""
    return Line(row, who, Verdict.REFUSED, tuple(map(told, remarks)))
