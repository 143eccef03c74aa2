"""Empty lists of helmets and of stock, as workbooks to fill in."""

from collections.abc import Mapping, Sequence

from helmwright.catalogue import ModelSheet
from helmwright.reports.workbook.book import HEADING, TEXT, Book, fitting_width
from helmwright.roster import HELMET_TEMPLATE
from helmwright.roster.stock_template import HEADINGS, stock_parts

_ADVICE: Mapping[str, str] = {
    "ID": "the room's own, as it stands on the label; each helmet has one of its own",
    "Model": "as its model sheet is called; it may be empty where the room has one model",
    "Shell": "its number or its name on the model sheet",
    "Made": "the month first, or 2024-03-01; not the year alone",
    "Store": "as the room calls it",
    "Build now": "pads that are not as the shell arrives; may be empty",
}


def helmet_template_workbook() -> bytes:
    """The headings of a list of helmets, and a sheet with examples."""
    book = Book()
    _empty(book, "Helmets", tuple(HELMET_TEMPLATE), ())
    how = book.sheet("How to fill in")
    rows = [(name, example, _ADVICE.get(name, "")) for name, example in HELMET_TEMPLATE.items()]
    book.table(how, ("column", "for example (invented)", "what to write"), rows)
    for column, width in enumerate((26, 30, 70)):
        how.set_column(column, column, width)
    return book.bytes()


def stock_template_workbook(sheet: ModelSheet) -> bytes:
    """Every shell and pad of a model, the counts left empty."""
    book = Book()
    _empty(book, "Stock", HEADINGS, [(*part, "") for part in stock_parts(sheet)])
    return book.bytes()


def _empty(book: Book, name: str, headings: Sequence[str], rows: Sequence[Sequence[str]]) -> None:
    """Cells are text: a fraction or a day stays what was typed."""
    sheet = book.sheet(name)
    for place, heading in enumerate(headings):
        texts = [heading, *(row[place] for row in rows)]
        sheet.set_column(place, place, fitting_width(texts, least=12), book.style(**TEXT))
        book.write(sheet, 0, place, heading, **HEADING)
    for row, cells in enumerate(rows, start=1):
        for place, cell in enumerate(cells):
            book.write(sheet, row, place, cell, **TEXT)
    sheet.freeze_panes(1, 1)
    sheet.repeat_rows(0)
    sheet.ignore_errors({"number_stored_as_text": "A1:XFD1048576"})
