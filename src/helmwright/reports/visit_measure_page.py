"""A measure that is asked for in the middle of a visit, on the screen."""

from helmwright.anatomy import Over, measure_of
from helmwright.reports.layout import heading, wrapped
from helmwright.reports.lengths import measure_words, minutes_words


def measure_lines(measure: str, why: str, worn: tuple[Over, ...] | None, width: int) -> list[str]:
    """What to measure, why, and how."""
    known = measure_of(measure)
    over = ""
    over_words = [each for each in worn or () if each not in (Over.BARE, Over.UNSTATED)]
    if over_words and known.layer > 0:
        over = f" Take it over what is worn: {' and '.join(over_words)}."
    return [
        *heading(f"Measure: {measure_words(measure)}", width),
        *wrapped(f"Why: {why}", width),
        *wrapped(f"How ({minutes_words(measure)}, assumed): {known.how}{over}", width),
    ]


def measure_ask_words(measure: str) -> str:
    """What stands before the cursor."""
    ways = "Enter: skip it; none: skip all"
    return f"{measure_words(measure).capitalize()} in inches, twice ({ways})"
