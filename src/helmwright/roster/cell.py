"""One cell read as what its column holds, or the reason why it cannot be."""

import re
from typing import TypeVar

from helmwright.anatomy import Measure, Over, Sex, measure_of
from helmwright.roster.columns import Column
from helmwright.roster.spreadsheet import (
    formula_fault,
    fraction_behind,
    looks_like_day_number,
    stature_behind,
)
from helmwright.units import (
    PLAUSIBLE_STATURE_MM,
    PLAUSIBLE_WEIGHT_KG,
    PLAUSIBLE_YOUTH_STATURE_MM,
    PLAUSIBLE_YOUTH_WEIGHT_KG,
    SpreadsheetDateError,
    UnitsError,
    inches,
    parse_length,
    parse_stature,
    parse_weight,
)

T = TypeVar("T")

HAT = "US hat"
UNIT_MARKS = ('"', "'", "″", "′")
DATE = "set the column to Text and type it again, for example 22 5/8"

BLANKS = frozenset(("", "-", "--", "–", "—", "n/a", "na", "none", "tbd", "?", "."))
SEXES = {
    **dict.fromkeys(("m", "male", "man", "boy"), Sex.MALE),
    **dict.fromkeys(("f", "female", "woman", "girl", "w"), Sex.FEMALE),
}
GLASSES = {
    **dict.fromkeys(
        ("yes", "y", "true", "1", "x", "glasses", "goggles", "wears glasses", "both", "sport"), True
    ),
    **dict.fromkeys(("no", "n", "false", "0", "contacts", "contact lenses", "lenses"), False),
}
COVERINGS = {
    **dict.fromkeys(
        (
            *("bare", "bare head", "bald", "shaved", "shaved head", "buzz", "buzzed", "buzz cut"),
            *("no hair",),
        ),
        Over.BARE,
    ),
    **dict.fromkeys(("not stated", "no", "no cap", "nothing"), Over.UNSTATED),
    **dict.fromkeys(
        ("short hair", "short", "crew cut", "crewcut", "fade", "cropped"), Over.SHORT_HAIR
    ),
    **dict.fromkeys(
        ("thick hair", "hair", "thick", "long hair", "long", "afro", "curly", "curly hair"),
        Over.THICK_HAIR,
    ),
    **dict.fromkeys(
        (
            *("braids or locs", "braids", "braid", "twists", "locs", "locks", "dreads"),
            *("dreadlocks", "cornrows"),
        ),
        Over.BRAIDS,
    ),
    **dict.fromkeys(
        ("cap", "skull cap", "skullcap", "thin cap", "wave cap", "durag", "du-rag", "liner"),
        Over.SKULL_CAP,
    ),
    **dict.fromkeys(
        ("winter cap", "warm cap", "knit cap", "fleece cap", "beanie", "balaclava", "winter hat"),
        Over.WINTER_CAP,
    ),
}


COVERING_WORDS = (
    "bare (or bald, buzz), short hair, thick hair, braids (or locs, twists, cornrows), skull cap "
    "(or cap, durag), winter cap; or hair and a cap, such as braids and skull cap"
)
"""What may be written of a covering, as help, messages and pages name it."""

_BOTH = re.compile(r"\s*(?:\+|&|,|\band\b|\bwith\b|\bunder(?: an?)?\b)\s*")


class CellError(ValueError):
    """A cell that cannot be read: what is wrong, and what would be right."""

    def __init__(self, wrong: str, right: str) -> None:
        super().__init__(f"{wrong}; {right}")
        self.wrong = wrong
        self.right = right

    @classmethod
    def of(cls, error: UnitsError, cell: str, *, like: str = "") -> "CellError":
        """The units room's complaint, parted into what is wrong and what would be right.

        `like` is how the thing is written, where that is not as a length of a head is.
        """
        message = str(error).removeprefix(f"{cell!r}").lstrip(": ")
        if like and message.startswith("is no number;"):
            return cls("is no number", f"write it like {like}")
        for mark in ("; ", ". "):
            wrong, found, right = message.partition(mark)
            if found:
                return cls(wrong, right)
        return cls(message, "")


def is_blank(cell: str) -> bool:
    """Whether the cell says that there is nothing."""
    return cell.strip().lower() in BLANKS


def read_length(cell: str, column: Column, unit: str) -> float:
    """A head measure [mm]; a bare number takes the column's unit, or else `unit`.

    Raises
    ------
    CellError
        Where it cannot be read, or can be that measure of nobody.

    """
    fault = formula_fault(cell)
    if fault:
        raise CellError(fault, "type the number itself, or compute the sheet and save it again")
    if looks_like_day_number(cell):
        raise CellError("a spreadsheet has made a date of this, and a day number of the date", DATE)
    measure = measure_of(column.measure)
    hat = column.unit == HAT
    text = f"{cell} {HAT}" if hat and not names_unit(cell) else cell
    try:
        value = parse_length(
            text,
            unit=unit if hat else column.unit or unit,
            expected=measure.entry_mm,
            what=_called(measure),
        )
    except SpreadsheetDateError as error:
        raise _date_error(cell) from error
    except UnitsError as error:
        raise CellError.of(error, text) from error
    if not measure.is_plausible(value):
        low, high = inches(measure.low_mm, mark=" in"), inches(measure.high_mm, mark=" in")
        raise CellError(f"no {_called(measure)} is under {low} or over {high}", "measure again")
    return value


def names_unit(cell: str) -> bool:
    """Whether a cell says in which unit it is, or that it is a hat size."""
    end = cell.rstrip(" .")[-1:]
    return end.isalpha() or end in UNIT_MARKS


def _called(measure: Measure) -> str:
    """The measure's name without what tells its two protocols apart."""
    return measure.name.removesuffix(" by tape")


def read_stature(cell: str, column: Column, *, young: bool = False) -> float:
    """A stature [mm]; a bare number takes the column's unit, or inches.

    `young` allows what only children are.

    Raises
    ------
    CellError
        Where it cannot be read, or is nobody's.

    """
    try:
        return parse_stature(
            cell,
            column.unit or _bare_inches(cell),
            plausible=PLAUSIBLE_YOUTH_STATURE_MM if young else PLAUSIBLE_STATURE_MM,
        )
    except SpreadsheetDateError as error:
        raise _stature_date_error(cell) from error
    except UnitsError as error:
        raise CellError.of(error, cell, like="6-2, 74 in or 188 cm") from error


def read_weight(cell: str, column: Column, *, young: bool = False) -> float:
    """A body weight [kg]; a bare number takes the column's unit, or pounds.

    `young` allows what only children are.

    Raises
    ------
    CellError
        Where it cannot be read, or is nobody's.

    """
    try:
        return parse_weight(
            cell,
            column.unit or "lb",
            plausible=PLAUSIBLE_YOUTH_WEIGHT_KG if young else PLAUSIBLE_WEIGHT_KG,
        )
    except UnitsError as error:
        raise CellError.of(error, cell, like="205 lb or 93 kg") from error


def _bare_inches(cell: str) -> str | None:
    """Inches for a bare 74; nothing for 6.2, which may be feet and inches."""
    return None if "." in cell and cell.partition(".")[0] in ("4", "5", "6", "7") else "in"


def read_sex(cell: str) -> Sex:
    """Male or female, by word or letter.

    Raises
    ------
    CellError
        For any other word.

    """
    return _looked_up(cell, SEXES, "this is not a word for the survey's two tables", "M or F")


def read_glasses(cell: str) -> bool:
    """Whether glasses or goggles are worn to play; contact lenses are none.

    Raises
    ------
    CellError
        For a word that is not known.

    """
    return _looked_up(cell, GLASSES, "this does not say whether glasses are worn", "yes or no")


def read_coverings(cell: str) -> tuple[Over, ...]:
    """What the readings were taken over, or what is worn: hair, headwear or both, hair first.

    Raises
    ------
    CellError
        For a word that is not known, or for two kinds of hair or of headwear at once.

    """
    wrong = "this covering is not known"
    words = [part for part in _BOTH.split(cell.strip().lower()) if part]
    whole = cell.strip().lower().rstrip(".") in COVERINGS
    parts = [cell] if whole or not words else words
    kinds = {_looked_up(part, COVERINGS, wrong, COVERING_WORDS) for part in parts}
    headwear = {kind for kind in kinds if kind.is_headwear}
    if len(headwear) > 1 or len(kinds - headwear) > 1:
        raise CellError("this names two kinds of hair or of headwear", f"write {COVERING_WORDS}")
    return tuple(kind for kind in Over if kind in kinds)


def _looked_up(cell: str, words: dict[str, T], wrong: str, known: str) -> T:
    found = words.get(cell.strip().lower().rstrip("."))
    if found is None:
        raise CellError(wrong, f"write {known}, or leave it blank")
    return found


def _stature_date_error(cell: str) -> CellError:
    """What to say of a height that a spreadsheet has turned into a date."""
    behind = stature_behind(cell)
    right = f"was it {behind}? Write it with units" if behind else "write it with units"
    feet, _, over = (behind or "6-2").partition("-")
    return CellError("a spreadsheet has made a date of this", f"{right}: {feet} ft {over} in")


def _date_error(cell: str) -> CellError:
    """What to say of a fraction that a spreadsheet has turned into a date."""
    behind = fraction_behind(cell)
    asked = f" Was it {behind}?" if behind else ""
    return CellError("a spreadsheet has made a date of this", f"{DATE}.{asked}")
