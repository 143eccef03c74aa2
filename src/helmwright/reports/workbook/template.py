"""An empty roster as a workbook: the headings, how to measure, and cells that keep fractions."""

from collections.abc import Iterator, Mapping
from typing import Any

from helmwright.anatomy import LIGHT_TAPE_HOW, Over, measure_of
from helmwright.reports.workbook.book import HEADING, TEXT, Book, fitting_width
from helmwright.roster import TEMPLATE, Column, Field, read_heading

ROWS = 500
"""Rows that are ready to be filled in."""

POSITIONS = ("QB", "RB", "FB", "WR", "TE", "OL", "DL", "LB", "DB", "K", "P", "LS")
"""Usual short names of positions (common practice, no source); any other may be typed."""

COVERINGS = tuple(str(each) for each in Over if each is not Over.UNSTATED)

CHOICES: Mapping[Field, tuple[str, ...]] = {
    Field.POSITION: POSITIONS,
    Field.SEX: ("M", "F"),
    Field.GLASSES: ("yes", "no"),
    Field.WORN: COVERINGS,
    Field.TAPE_OVER: COVERINGS,
}
"""What a cell offers to choose from; it takes other words after a question."""

_NUMBERS = (Field.WEIGHT, Field.NUMBER, Field.AGE)
_AGE = (
    "In whole years, for players under 20. An empty cell means an adult; where the helmet's sheet"
    " says for which ages it is made, one of those. A school grade goes into a column of its own,"
    " headed Grade."
)
_ADVICE = (
    ("Numbers", "22 5/8 or 22.625; 57.5 cm or 575 mm, where the unit is written behind it."),
    ("Height", "6 ft 2 in, 74 or 188 cm."),
    ("Age", _AGE),
    ("Twice", "Cover the first reading, take it again, and write it in the second column."),
    ("Worn", "What will be under the helmet: hair, a cap, or both, such as braids and skull cap."),
    ("Tape over", "What the tape went over, where that is something else."),
    ("Light tape", "The tape laid on lightly; with the drawn-in one it tells how thick hair is."),
    ("Measured by", "Initials of whoever measured."),
    ("Measured on", "The day, such as 8/1/2026; a young head grows."),
    ("Not measured", "Leave the cell empty; the program says for whom a measure is worth it."),
    ("Columns", "In any order; one that is not needed may be deleted."),
)


def template_workbook() -> bytes:
    """An XLSX file with the roster's headings, and how to fill in and to measure.

    The rows are empty. An example to be written over would leave its numbers in every cell that
    somebody passes over, and make a head of them.
    """
    book = Book()
    _roster(book)
    _how(book)
    return book.bytes()


def _roster(book: Book) -> None:
    sheet = book.sheet("Roster")
    for place, (heading, example) in enumerate(TEMPLATE.items()):
        column = read_heading(heading)
        style = {} if column.field in _NUMBERS else TEXT
        width = fitting_width([example, heading], least=9, most=26)
        sheet.set_column(place, place, width, book.style(**style))
        book.write(sheet, 0, place, heading, **HEADING)
        _offer(sheet, place, column)
    sheet.freeze_panes(1, 2)
    sheet.repeat_rows(0)
    sheet.ignore_errors({"number_stored_as_text": "A1:XFD1048576"})


def _offer(sheet: Any, place: int, column: Column) -> None:
    """A list to choose from, where the column has one."""
    choices = CHOICES.get(column.field) if column.field else None
    if choices:
        offered = {
            "validate": "list",
            "source": list(choices),
            "error_type": "warning",
            "error_title": column.heading,
            "error_message": "Not one of the listed words. Keep it all the same?",
        }
        sheet.data_validation(1, place, ROWS, place, offered)


def _how(book: Book) -> None:
    sheet = book.sheet("How to measure")
    headings = (
        *("for the column", "for example", "what it is", "how to take it"),
        "minutes for two (assumed)",
    )
    advice = [(what, "", "", said) for what, said in _ADVICE]
    book.table(sheet, headings, [*_columns(), *advice])
    for column, width in enumerate((20, 24, 40, 70, 12)):
        sheet.set_column(column, column, width)


def _columns() -> Iterator[tuple[str | float, ...]]:
    """Every column with an invented example; each measure once with how it is taken."""
    seen: set[Field | None] = set()
    for heading, example in TEMPLATE.items():
        column = read_heading(heading)
        if not column.is_measure or column.field in seen:
            yield heading, example
            continue
        seen.add(column.field)
        measure = measure_of(column.measure)
        how = LIGHT_TAPE_HOW if column.is_light else measure.how
        yield heading, example, measure.definition, how, measure.minutes.value
