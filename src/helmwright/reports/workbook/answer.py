"""A roster's answer as a workbook: beside the roster's own columns, and with the cells at fault."""

from collections.abc import Iterator

from helmwright.reports.air import AFTER_FILLING
from helmwright.reports.cautions import ASSUMED, CAUTIONS
from helmwright.reports.chances import model_words
from helmwright.reports.face_cautions import assumed_of
from helmwright.reports.insides import guess_lines
from helmwright.reports.lengths import thickness
from helmwright.reports.workbook.answer_columns import WORDS
from helmwright.reports.workbook.book import Book
from helmwright.reports.workbook.builds import builds_sheet
from helmwright.reports.youth import youth_lines
from helmwright.roster import Remark, RosterAnswer, Table

REMARK_HEADINGS = (
    "what",
    "row",
    "who",
    "where",
    "it holds",
    "what is wrong",
    "what would be right",
)
PAD_HEADINGS = (
    *("row", "who", "shell", "place", "pad, in", "pad, mm"),
    *("pressed in, mm (median)", "pressure, kPa (median)"),
    *("loose of 100 (assumed limit)", "tight of 100 (assumed limit)"),
)


def answer_workbook(answer: RosterAnswer, table: Table) -> bytes:
    """The answer as an XLSX file.

    Parameters
    ----------
    answer
        The whole answer.
    table
        The table that the roster was read from. Its rows keep their numbers, so that the file can
        be put right and read again.

    """
    book = Book()
    builds_sheet(book, answer, table)
    _remarks(book, answer)
    _pads(book, answer)
    _cautions(book, answer)
    return book.bytes()


def _remarks(book: Book, answer: RosterAnswer) -> None:
    """Everything that was found, one to a line."""
    sheet = book.sheet("Remarks")
    told = [*(_said("not answered", each) for each in answer.problems)]
    told += [_said("look at this", each) for each in answer.notices]
    book.table(sheet, REMARK_HEADINGS, told or [("nothing to remark",)])
    for column, width in enumerate((14, 6, 24, 24, 20, 60, 50)):
        sheet.set_column(column, column, width)


def _said(what: str, remark: Remark) -> tuple[str | float, ...]:
    row = float(remark.row) if remark.row else "the file"
    return (what, row, remark.who, remark.column, remark.value, remark.wrong, remark.right)


def _pads(book: Book, answer: RosterAnswer) -> None:
    """Every pad to pull, one to a line, with its numbers for whoever wants to count or sort."""
    sheet = book.sheet("Pads")
    book.table(sheet, PAD_HEADINGS, _pad_rows(answer))
    for column, width in enumerate((6, 26, 7, 12, 9, 9, 11, 11, 14, 14)):
        sheet.set_column(column, column, width)
    sheet.autofilter(0, 0, sum(1 for _ in _pad_rows(answer)), len(PAD_HEADINGS) - 1)


def _pad_rows(answer: RosterAnswer) -> Iterator[tuple[str | float, ...]]:
    for each in answer.answers:
        best = each.proposal.ranked[0] if each.proposal else None
        for zone in best.zones if best else ():
            yield (
                float(each.player.row),
                each.player.label,
                float(best.build.shell if best else 0),
                str(zone.zone),
                thickness(zone.pad_mm, zone.pad_label),
                round(zone.pad_mm, 1),
                round(zone.stroke_mm.median, 1),
                round(zone.pressure_kpa.median, 2),
                round(100.0 * zone.loose, 1),
                round(100.0 * zone.tight, 1),
            )


def _cautions(book: Book, answer: RosterAnswer) -> None:
    """Who decides, what is assumed, and what the headings mean."""
    sheet = book.sheet("Cautions and words")
    model = model_words(answer.sheet) if answer.sheet else ""
    book.table(
        sheet,
        ("what", "in words"),
        (
            *(("caution", words) for words in CAUTIONS),
            *(("assumed", words) for words in _assumed(answer)),
            ("model", model),
            *(
                (f"the maker says: {each.topic}", each.says)
                for each in (answer.sheet.instructions if answer.sheet else ())
            ),
            ("seed", f"Draws follow from seed {answer.seed}; the same seed, the same workbook."),
            *WORDS,
        ),
    )
    sheet.set_column(0, 0, 24)
    sheet.set_column(1, 1, 100)


def _assumed(answer: RosterAnswer) -> Iterator[str]:
    """Everything that the page says to be assumed, for this sheet and these players."""
    yield ASSUMED
    yield from youth_lines(each.player for each in answer.answers)
    yield from guess_lines(answer.sheet) if answer.sheet else ()
    proposals = [each.proposal for each in answer.answers if each.proposal]
    if any(proposal.face for proposal in proposals) and (said := assumed_of(answer.sheet)):
        yield said
    if any(proposal.ranked[0].fills for proposal in proposals):
        yield AFTER_FILLING
