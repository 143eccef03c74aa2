"""The head of the chain: what is printed on paper, so that a chain written anew shows."""

import re
from dataclasses import dataclass

from helmwright.records.chain import GENESIS
from helmwright.records.models import Entry

LEAST_LETTERS = 8
_HEXADECIMAL = re.compile(r"[0-9a-f]{8,64}")


class NoHeadError(ValueError):
    """What was typed is no digest, nor the beginning of one."""


@dataclass(frozen=True, slots=True)
class Head:
    """The last entry's place and digest; place 0 before the first."""

    seq: int
    digest: str

    @property
    def short(self) -> str:
        """The first eight letters, as they are printed and typed: "017f 22e2"."""
        return f"{self.digest[:4]} {self.digest[4:8]}"

    def __str__(self) -> str:
        return f"entry {self.seq}, {self.short}"


def head() -> Head:
    """The head now."""
    last = Entry.objects.order_by("-seq").values_list("seq", "digest").first()
    return Head(*last) if last else Head(0, GENESIS)


def typed_digest(text: str) -> str:
    """The digest, or its first letters, out of what somebody typed off paper.

    Raises
    ------
    NoHeadError
        Where it is neither.
    """
    letters = re.sub(r"[\s.-]", "", text).lower()
    if not _HEXADECIMAL.fullmatch(letters):
        raise NoHeadError(
            f'"{text}" is no head of a ledger: {LEAST_LETTERS} to 64 of the letters 0 to 9 and a'
            ' to f would be, such as "017f 22e2"'
        )
    return letters
