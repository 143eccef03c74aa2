"""Pages, JSON, CSV and workbooks: pure functions from an answer to text or bytes."""

from helmwright.reports.build_page import build_page
from helmwright.reports.chances import answered_words
from helmwright.reports.document import AnswerDocument, answer_schema, answer_schema_text
from helmwright.reports.drawings import build_svg
from helmwright.reports.face_section import FaceFact, face_facts
from helmwright.reports.filling import answer_document, answer_json
from helmwright.reports.head_page import head_page
from helmwright.reports.paper import fit_cards, roster_sheet
from helmwright.reports.roster_page import roster_page
from helmwright.reports.sentences import reasons
from helmwright.reports.spreadsheet import roster_csv
from helmwright.reports.workbook import answer_workbook, template_workbook

__all__ = [
    "AnswerDocument",
    "FaceFact",
    "answer_document",
    "answer_json",
    "answer_schema",
    "answer_schema_text",
    "answer_workbook",
    "answered_words",
    "build_page",
    "build_svg",
    "face_facts",
    "fit_cards",
    "head_page",
    "reasons",
    "roster_csv",
    "roster_page",
    "roster_sheet",
    "template_workbook",
]
