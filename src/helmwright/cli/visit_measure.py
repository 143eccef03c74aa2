"""Readings that are taken in the middle of a visit."""

import re
from collections.abc import Iterable

from helmwright.anatomy import Over, Reading, measure_of
from helmwright.anatomy.reading import repeat_limit
from helmwright.cli.written_answers import AnswerError
from helmwright.reports.lengths import inches, measure_words
from helmwright.roster.columns import read_heading
from helmwright.units import UnitsError, parse_length

SKIP = frozenset({"", "skip", "no"})
NONE = frozenset({"none", "none of these", "no more"})
"""Said where nothing more can be measured in this visit."""

_PARTED = re.compile(r"[,;]| and ")
_UNCLEAR = re.compile(r"\d+,\d+")
MOST = 5


def readings_typed(measure: str, typed: str, worn: tuple[Over, ...] | None) -> tuple[Reading, ...]:
    """The readings of a line: "7 7/8" or "7 7/8, 7 3/4"; none where it is left out.

    Parameters
    ----------
    measure
        Its key.
    typed
        What was typed; bare numbers are inches.
    worn
        What is worn on the head, over which it is taken.

    Raises
    ------
    AnswerError
        Where one is no such reading of anybody.
    """
    if typed.strip().lower() in SKIP | NONE:
        return ()
    if _UNCLEAR.fullmatch(typed.strip()):
        one, _, other = typed.strip().partition(",")
        wrong = f'"{typed.strip()}" may be one reading or two'
        raise AnswerError(wrong, f"Write {one}.{other}, or {one}, {other}")
    parts = [part.strip() for part in _PARTED.split(typed) if part.strip()]
    if len(parts) > MOST:
        raise AnswerError(f"{len(parts)} readings are too many", "Type two or three")
    return tuple(_reading(measure, _value(measure, part), worn) for part in parts)


def _value(measure: str, part: str) -> float:
    known = measure_of(measure)
    try:
        value = parse_length(part, "in", known.entry_mm, what=measure_words(measure))
    except UnitsError as error:
        raise AnswerError(str(error), "Type inches, or Enter to leave it out") from error
    if not known.is_plausible(value):
        low, high = inches(known.low_mm), inches(known.high_mm)
        wrong = f"No {measure_words(measure)} is under {low} or over {high}"
        raise AnswerError(wrong, "Measure again")
    return value


def _reading(measure: str, value_mm: float, worn: tuple[Over, ...] | None) -> Reading:
    """One reading, with what it goes over where that changes it."""
    if not worn or measure_of(measure).layer == 0:
        return Reading(measure, value_mm)
    return Reading(measure, value_mm, worn[-1], beneath=worn[0] if len(worn) > 1 else None)


def more_words(readings: tuple[Reading, ...]) -> str:
    """What to ask for after these readings; empty where they will do.

    Notes
    -----
    Two are wanted, and a third where the two lie further apart than clean readings do.
    """
    values = [each.value_mm for each in readings]
    if len(values) == 1:
        return "Once more, without looking at the first (Enter: one reading only)"
    apart = max(values) - min(values)
    if len(values) == 2 and apart > repeat_limit(readings[0].measure):
        return f"These two differ by {inches(apart)}. Take a third (Enter: leave it at two)"
    return ""


def named_reading(typed: str) -> tuple[str, str]:
    """The measure that a line names, by any heading of a roster, and what is typed behind it.

    Raises
    ------
    AnswerError
        Where it names none.
    """
    words = typed.split()
    named = next((n for n, word in enumerate(words) if any(map(str.isdigit, word))), len(words))
    for count in range(named, 0, -1):
        column = read_heading(" ".join(words[:count]))
        if column.is_measure and not column.is_light and column.unit is None:
            return column.measure, " ".join(words[count:])
    measures = ", ".join(sorted(NAMED))
    raise AnswerError(f'"{typed}" names no measure', f"Type one of {measures}, then its inches")


NAMED = ("tape", "length", "breadth", "brow to top", "ear to top", "jaw width")
"""Names by which the usual measures are typed."""


def tape_read(readings: Iterable[Reading]) -> float | None:
    """The tape around the head as it was read, repeats averaged [mm]; None where it was not."""
    tape = [each.value_mm for each in readings if each.measure == "tape_circumference"]
    return sum(tape) / len(tape) if tape else None
