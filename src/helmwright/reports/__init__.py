"""Pages, JSON and CSV: pure functions from an answer to text."""

from helmwright.reports.build_page import build_page
from helmwright.reports.chances import answered_words
from helmwright.reports.document import AnswerDocument, answer_schema, answer_schema_text
from helmwright.reports.drawings import build_svg
from helmwright.reports.filling import answer_document, answer_json
from helmwright.reports.head_page import head_page
from helmwright.reports.roster_page import roster_page
from helmwright.reports.sentences import reasons
from helmwright.reports.spreadsheet import roster_csv

__all__ = [
    "AnswerDocument",
    "answer_document",
    "answer_json",
    "answer_schema",
    "answer_schema_text",
    "answered_words",
    "build_page",
    "build_svg",
    "head_page",
    "reasons",
    "roster_csv",
    "roster_page",
]
