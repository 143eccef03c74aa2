"""Answers and empty rosters as workbooks: what stands where, and what a spreadsheet may run."""

import io
import re
import zipfile
from dataclasses import replace
from html import unescape

import pytest
from python_calamine import CalamineWorkbook

from helmwright.anatomy import Over
from helmwright.fit.face_outlook import FaceOutlook
from helmwright.reports import answer_workbook, template_workbook
from helmwright.reports.cautions import ASSUMED, CAUTIONS
from helmwright.reports.face_cautions import ASSUMED_FACE, ASSUMED_STRAP
from helmwright.reports.warnings import FORECAST
from helmwright.reports.workbook.answer_columns import NOT_ANSWERED, WORDS
from helmwright.reports.workbook.book import number_or_text
from helmwright.reports.workbook.template import CHOICES, ROWS
from helmwright.roster import (
    TEMPLATE,
    Field,
    RosterError,
    answer_roster,
    decode_roster,
    demo_roster_bytes,
    read_heading,
    read_roster,
    read_roster_file,
    roster_template,
)
from tests.roster.stand_in import SHEET, stand_in
from tests.roster.workbooks import sheet_of, with_part


def book_of(text: str) -> bytes:
    roster = read_roster(text)
    assert roster.table is not None
    return answer_workbook(answer_roster(roster, SHEET, seed=1, propose=stand_in), roster.table)


def cells(data: bytes, tab: str) -> list[list[object]]:
    book = CalamineWorkbook.from_filelike(io.BytesIO(data))
    return [list(row) for row in book.get_sheet_by_name(tab).to_python(skip_empty_area=False)]


def markup(data: bytes) -> dict[str, str]:
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return {name: archive.read(name).decode("utf-8") for name in archive.namelist()}


@pytest.fixture(scope="module")
def demo() -> bytes:
    return book_of(decode_roster(demo_roster_bytes()))


def test_every_row_stands_where_it_stood_with_the_answer_beside_it(demo):
    rows = cells(demo, "Builds")
    assert "invented" in str(rows[0][0])
    assert rows[1][:3] == ["No.", "Player", "Pos"]
    assert rows[2][:2] == [7.0, "Wren Siltbank"]
    answers = dict(zip(rows[1], rows[2], strict=True))
    assert answers["Answer: outcome"] == "answered"
    assert answers["Answer: crown (in)"] == "7/8"
    assert isinstance(answers["Answer: shell"], float)
    assert isinstance(answers["Answer: truly fits"], float)


def test_a_row_that_is_not_answered_says_so_in_a_word_and_is_hatched(demo):
    rows = cells(demo, "Builds")
    outcome = rows[1].index("Answer: outcome")
    assert [at for at, row in enumerate(rows, 1) if row[outcome] == NOT_ANSWERED] == [5]
    assert 'patternType="lightUp"' in markup(demo)["xl/styles.xml"]


def comments(data: bytes) -> dict[str, str]:
    found = re.findall(
        r'<comment ref="(\w+)".*?</comment>', markup(data)["xl/comments1.xml"], re.DOTALL
    )
    texts = re.findall(r"<t(?: [^>]*)?>(.*?)</t>", markup(data)["xl/comments1.xml"], re.DOTALL)
    meanings = {meaning for _, meaning in WORDS}
    said = zip(found, map(unescape, texts), strict=True)
    return {cell: text for cell, text in said if text not in meanings}


def test_the_cell_at_fault_has_a_comment_with_what_would_be_right(demo):
    assert comments(demo)["F5"] == "Misses the space before the fraction. 23 1/8?"


def test_both_cells_of_a_pair_that_does_not_go_together_have_one():
    said = comments(book_of("Name,Tape,Tape 2\nTeal,22 1/2,24 1/2\nCoot,22,22\n"))
    assert set(said) == {"B2", "C2"}
    assert "misread" in said["B2"]


def test_of_two_columns_with_one_heading_the_one_with_the_cell_is_meant():
    assert set(comments(book_of("Name,Tape,Tape\nTeal,22 1/2,221/2\n"))) == {"C2"}


def test_a_remark_on_a_whole_row_stands_at_its_outcome():
    assert set(comments(book_of("Name,tape\nTeal,22\nTotal,22\n"))) == {"C3"}
    assert set(comments(book_of("Name,tape\nTeal,22,23\n"))) == {"D2"}


def test_an_answer_put_right_is_read_again_without_a_remark():
    data = book_of("Our team\nNo,Name,Tape (in),Height\n07,Teal,221/8,6-2\n8,Coot,22 1/2,5-10\n")
    again = read_roster_file(data)
    assert [(p.row, p.value) for p in again.problems] == [(3, "221/8")]
    assert not again.notices
    right = with_part(data, "xl/sharedStrings.xml", lambda xml: xml.replace(b"221/8", b"22 1/8"))
    fixed = read_roster_file(right)
    assert not fixed.problems
    assert [(p.number, p.row) for p in fixed.players] == [("07", 3), ("8", 4)]


def test_the_demonstrations_workbook_reads_as_the_demonstration(demo):
    first, again = read_roster(decode_roster(demo_roster_bytes())), read_roster_file(demo)
    assert again.players == first.players
    assert again.problems == first.problems


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t=", " ="])
def test_nothing_in_a_cell_is_run(start):
    name = f"{start}HYPERLINK(1)"
    parts = markup(book_of(f'Name,tape,"{name}"\n"{name}",22 5/8,1\n"{name}",221/8,\n'))
    sheets = [text for name, text in parts.items() if name.startswith("xl/worksheets/sheet")]
    assert sheets
    assert not [text for text in sheets if "<f" in text or "hyperlink" in text.lower()]
    assert 'quotePrefix="1"' in parts["xl/styles.xml"]


def test_an_address_in_a_name_is_no_link():
    parts = markup(book_of("Name,tape\nhttp://a.example,22\n"))
    assert not [name for name, text in parts.items() if 'Target="http://a.example' in text]


@pytest.mark.parametrize(
    ("cell", "kept"), [("215", 215.0), ("22.5", 22.5), ("007", "007"), ("-1", "-1"), ("1e5", "1e5")]
)
def test_a_number_is_kept_as_one_only_where_it_looks_the_same(cell, kept):
    assert number_or_text(cell) == kept


def test_the_sheet_is_ready_to_scroll_to_print_and_to_type_fractions_into(demo):
    parts = markup(demo)
    sheet, book = parts["xl/worksheets/sheet1.xml"], parts["xl/workbook.xml"]
    assert '<pane xSplit="2" ySplit="2"' in sheet
    assert 'orientation="landscape"' in sheet
    assert "Builds!$2:$2" in book
    assert "not a safety score" in sheet
    assert 'numFmtId="49"' in parts["xl/styles.xml"]


def test_remarks_cautions_and_the_meaning_of_every_heading_have_their_sheets(demo):
    remarks = cells(demo, "Remarks")
    assert remarks[1][:4] == ["not answered", 5.0, "Brook Oxbowe", "Tape (in)"]
    assert {row[0] for row in remarks[2:]} == {"look at this"}
    words = {str(row[0]): str(row[1]) for row in cells(demo, "Cautions and words")}
    said = [str(row[1]) for row in cells(demo, "Cautions and words")]
    assert all(caution in said for caution in CAUTIONS)
    assert words["assumed"] == ASSUMED
    top = [str(heading) for heading in cells(demo, "Builds")[1]]
    headings = [each.removeprefix("Answer: ") for each in top if each.startswith("Answer: ")]
    assert headings == [heading for heading, _ in WORDS]
    assert set(headings) <= set(words)


def test_every_heading_of_the_answer_says_in_a_comment_what_it_means(demo):
    notes = unescape(markup(demo)["xl/comments1.xml"])
    assert [meaning for _, meaning in WORDS if meaning not in notes] == []
    assert "limits of loose and tight are assumed" in notes


def test_what_is_assumed_of_this_sheet_and_these_players_is_listed():
    said = [
        str(row[1]) for row in cells(book_of("Name,Age,tape\nTeal,11,21\n"), "Cautions and words")
    ]
    assert any(words.startswith("Youths:") for words in said)


def test_a_roster_without_a_remark_says_so():
    assert cells(book_of("Name,tape\nTeal,22\n"), "Remarks")[1][0] == "nothing to remark"


def test_every_pad_is_listed_once_in_inches_and_millimeters(demo):
    heading, *pads = cells(demo, "Pads")
    assert len(pads) == 23 * 8
    first = dict(zip(heading, pads[0], strict=True))
    assert (first["who"], first["place"], first["pad, in"]) == ("Wren Siltbank", "crown", "7/8")
    assert first["pad, mm"] == pytest.approx(22.2)


def test_the_same_answer_is_the_same_file(demo):
    assert book_of(decode_roster(demo_roster_bytes())) == demo


def test_the_template_filled_in_by_hand_reads_as_its_csv_does_and_without_a_remark():
    headings = [str(cell) for cell in cells(template_workbook(), "Roster")[0]]
    read = read_roster_file(sheet_of([headings, list(TEMPLATE.values())]))
    text = f"{roster_template()}{','.join(TEMPLATE.values())}\n"
    assert read.players == read_roster(text).players
    assert len(read.players[0].readings) == 6
    assert not read.problems
    assert not read.notices


def test_the_template_holds_no_row_whose_numbers_could_be_left_standing():
    assert len(cells(template_workbook(), "Roster")) == 1
    with pytest.raises(RosterError, match="no row below the header"):
        read_roster_file(template_workbook())


def test_the_template_keeps_fractions_as_text_to_its_last_row():
    parts = markup(template_workbook())
    sheet, styles = parts["xl/worksheets/sheet1.xml"], parts["xl/styles.xml"]
    formats = re.findall(r'<xf numFmtId="(\d+)"', styles.partition("<cellXfs")[2])
    columns = re.findall(r'<col min="(\d+)" max="(\d+)"[^>]*style="(\d+)"', sheet)
    text = {
        place
        for first, last, style in columns
        if formats[int(style)] == "49"
        for place in range(int(first), int(last) + 1)
    }
    fractions = {
        place
        for place, heading in enumerate(TEMPLATE, start=1)
        if read_heading(heading).is_measure or read_heading(heading).field is Field.STATURE
    }
    assert len(fractions) == 8
    assert fractions <= text


@pytest.mark.parametrize("field", CHOICES)
def test_every_word_that_the_template_offers_is_understood(field):
    heading = next(h for h in TEMPLATE if read_heading(h).field is field)
    for word in CHOICES[field]:
        roster = read_roster(f"Name,tape,{heading}\nTeal,22,{word}\n")
        assert not [n for n in roster.notices if "not known" in n.wrong or "left out" in n.wrong]


def test_the_template_offers_words_and_lets_others_pass_after_a_question():
    sheet = markup(template_workbook())["xl/worksheets/sheet1.xml"]
    offered = re.findall(r"<formula1>\"(.*?)\"</formula1>", sheet)
    assert ",".join(str(each) for each in Over if each is not Over.UNSTATED) in offered
    assert sheet.count('errorStyle="warning"') == len(CHOICES)
    assert f"2:C{ROWS + 1}" in sheet


def test_the_template_tells_a_light_tape_not_to_be_drawn_in():
    rows = {str(row[0]): row for row in cells(template_workbook(), "How to measure")}
    light, drawn = (str(rows[heading][3]) for heading in ("Light tape (in)", "Tape (in)"))
    assert "Do not draw it in" in light
    assert "stops giving" in drawn
    assert "stops giving" not in light


def test_the_template_says_how_each_of_its_measures_is_taken():
    rows = cells(template_workbook(), "How to measure")
    told = {str(row[0]) for row in rows}
    first = {read_heading(h).field: h for h in reversed(TEMPLATE) if read_heading(h).is_measure}
    assert set(first.values()) <= told
    assert "assumed" in str(rows[0][4])
    assert {str(row[0]): row[1] for row in rows[1 : 1 + len(TEMPLATE)]} == TEMPLATE


LEFT_OUT = {
    *(Field.GIVEN_NAME, Field.FAMILY_NAME, Field.BORN, Field.GRADE, Field.GUARD),
    *(Field.TRAGION_TO_TOP, Field.BIGONIAL, Field.BIZYGOMATIC, Field.CHIN_ARC),
}
"""Columns that do the same as one in the template, or that few rosters have."""


def test_the_template_has_every_column_that_a_roster_can_have_but_for_those_left_out():
    asked = {read_heading(heading).field for heading in TEMPLATE}
    assert asked == set(Field) - LEFT_OUT


def test_a_head_that_was_not_measured_is_called_a_forecast_as_on_the_page():
    def propose(*given, **options):
        return replace(stand_in(*given, **options), measured=False)

    roster = read_roster("Name,Position\nTeal,QB\n")
    assert roster.table is not None
    answer = answer_roster(roster, SHEET, seed=1, propose=propose)
    first = cells(answer_workbook(answer, roster.table), "Builds")
    told = dict(zip(first[0], first[1], strict=True))
    assert told["Answer: outcome"] == FORECAST
    assert told["Answer: likeliest fault"] == FORECAST
    assert told["Answer: fault chance"] == ""


def test_eyes_and_noses_are_assumed_only_where_a_guard_was_computed():
    roster = read_roster("Name,tape\nTeal,22\n")
    for sheet, wanted in (
        (SHEET, ASSUMED_FACE),
        (replace(SHEET, face_guards=(), exclusions=()), ASSUMED_STRAP),
        (replace(SHEET, face_guards=(), chin_straps=(), exclusions=()), None),
    ):
        face = FaceOutlook(99, (), (), (50.8, 69.85), nose_by_maker=False, draws=1)

        def propose(*given, face=face, **options):
            return replace(stand_in(*given, **options), face=face)

        answer = answer_roster(roster, sheet, seed=1, propose=propose)
        assert roster.table is not None
        rows = cells(answer_workbook(answer, roster.table), "Cautions and words")
        said = [row[1] for row in rows if row[1] in (ASSUMED_FACE, ASSUMED_STRAP)]
        assert said == ([wanted] if wanted else [])


def test_the_template_says_what_an_empty_age_means_and_where_a_grade_goes():
    rows = cells(template_workbook(), "How to measure")
    (said,) = (str(row[3]) for row in rows if row[0] == "Age" and row[3])
    assert "An empty cell means an adult; where the helmet's sheet says for which ages" in said
    assert "headed Grade" in said
