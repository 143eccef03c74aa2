"""Numbers as people write them: decimals, and whole numbers with a fraction of a tape."""

import re
from dataclasses import dataclass
from fractions import Fraction

DENOMINATORS = (2, 4, 8, 16, 32, 64)
"""Parts of an inch that tapes are marked in."""

_VULGAR = {
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
_PLAIN = str.maketrans(
    {
        "”": '"',
        "“": '"',
        "″": '"',
        "’": "'",
        "‘": "'",
        "′": "'",
        "⁄": "/",
        "∕": "/",
        "–": "-",
        "—": "-",
        "‑": "-",
        "−": "-",
        "\N{NO-BREAK SPACE}": " ",
        "\N{NARROW NO-BREAK SPACE}": " ",
        "\N{THIN SPACE}": " ",
        "\N{ZERO WIDTH NO-BREAK SPACE}": "",
        "\t": " ",
    }
)
_DECIMAL = re.compile(r"\d+(?:\.\d*)?|\.\d+", re.ASCII)
_COMMA = re.compile(r"(\d+),(\d+)", re.ASCII)
_MIXED = re.compile(r"(\d+)(?: *- *| +)(\d+) ?/ ?(\d+)", re.ASCII)
_FRACTION = re.compile(r"(\d+) ?/ ?(\d+)", re.ASCII)
_MONTH = "jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec"
_DATE = re.compile(
    rf"(?:\d{{1,2}}[-/ ](?:{_MONTH})[a-z]*(?:[-/ ]\d{{2,4}})?"
    rf"|(?:{_MONTH})[a-z]*[-/ ]\d{{1,4}}"
    r"|\d{4}-\d{1,2}-\d{1,2}(?:[ t]\d{1,2}:\d{2}(?::\d{2})?(?:\.\d+)?)?"
    r"|\d{1,2}(?P<mark>[-/.])\d{1,2}(?P=mark)\d{2,4}(?: \d{1,2}:\d{2}(?::\d{2})?)?)",
    re.ASCII | re.IGNORECASE,
)


class UnitsError(ValueError):
    """Something written as a quantity cannot be taken as one.

    Parameters
    ----------
    message
        What is wrong and what would be right, for the person who wrote it.
    suggestion
        What was probably meant, written as it should be; None where nothing can be said.
    """

    def __init__(self, message: str, suggestion: str | None = None) -> None:
        super().__init__(message)
        self.suggestion = suggestion


class UnreadableError(UnitsError):
    """No number can be read out of the text."""


class MissingSpaceError(UnitsError):
    """A whole number ran together with the fraction behind it."""


class SpreadsheetDateError(UnitsError):
    """A spreadsheet turned a fraction into a date."""


class DecimalCommaError(UnitsError):
    """A comma could be a decimal mark or a thousands mark."""


@dataclass(frozen=True, slots=True)
class Number:
    """A number as written: its value, and whether it had a fraction of a tape."""

    value: float
    has_fraction: bool


def plain(text: str) -> str:
    """The text in plain characters: one kind of quote, dash and space, fractions spelled out."""
    for sign, spelled in _VULGAR.items():
        text = text.replace(sign, f" {spelled}")
    return " ".join(text.translate(_PLAIN).split())


def refuse_date(text: str, example: str = "22 5/8") -> None:
    """Refuse what a spreadsheet makes of `5/8`.

    Parameters
    ----------
    text
        Plain text.
    example
        How the quantity would be written, for the message.

    Raises
    ------
    SpreadsheetDateError
        If the plain text is a date.
    """
    if _DATE.fullmatch(text):
        raise SpreadsheetDateError(
            f"{text!r} is a date: a spreadsheet turned a fraction into one. Format the column as "
            f"text, then type the number again, for example {example}"
        )


def number(text: str) -> Number:
    """The number that a plain text stands for.

    Raises
    ------
    UnreadableError
        If it is no number.
    MissingSpaceError
        If a whole number and a fraction ran together, as in `221/8`.
    DecimalCommaError
        If a comma may mean thousands.
    """
    if match := _MIXED.fullmatch(text):
        whole, above, below = (int(part) for part in match.groups())
        return Number(float(whole + _tape_fraction(text, above, below)), has_fraction=True)
    if match := _FRACTION.fullmatch(text):
        above, below = (int(part) for part in match.groups())
        _refuse_missing_space(text, match[1], below)
        return Number(float(_tape_fraction(text, above, below)), has_fraction=True)
    if match := _COMMA.fullmatch(text):
        text = _with_point(text, match[1], match[2])
    if _DECIMAL.fullmatch(text):
        return Number(float(text), has_fraction=False)
    if not text:
        raise UnreadableError("nothing is written here")
    if text.startswith("-"):
        raise UnreadableError(f"{text!r} is negative; a measurement is not")
    raise UnreadableError(f"{text!r} is no number; write it like 22 5/8 or 22.625")


def _tape_fraction(text: str, above: int, below: int) -> Fraction:
    if below not in DENOMINATORS:
        parts = ", ".join(str(each) for each in DENOMINATORS[:-1])
        raise UnreadableError(
            f"{text!r}: an inch is divided into {parts} or {DENOMINATORS[-1]}, not into {below}"
        )
    if not 0 < above < below:
        raise UnreadableError(f"{text!r}: {above}/{below} is not a fraction between 0 and 1")
    return Fraction(above, below)


def _refuse_missing_space(text: str, above: str, below: int) -> None:
    if below not in DENOMINATORS or int(above) < below:
        return
    splits = [(above[:at], above[at:]) for at in range(1, len(above))]
    likely = [
        f"{whole} {part}/{below}" for whole, part in splits if part[0] != "0" and int(part) < below
    ]
    if likely:
        raise MissingSpaceError(
            f"{text!r} misses the space before the fraction; {likely[0]}?", likely[0]
        )


def _with_point(text: str, whole: str, part: str) -> str:
    if len(part) >= 3:
        raise DecimalCommaError(
            f"{text!r}: the comma may mean thousands; write {whole}.{part} if it is a decimal mark",
            f"{whole}.{part}",
        )
    return f"{whole}.{part}"
