"""A workbook is read as the same roster saved as CSV would be, and its own traps are named."""

import csv
import datetime as dt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from helmwright.roster import (
    RosterError,
    column_letters,
    decode_roster,
    demo_roster_bytes,
    read_roster,
    read_roster_file,
)
from helmwright.roster.table import read_table
from helmwright.roster.workbook import read_workbook
from helmwright.roster.workbook.number_format import plain, shown
from tests.roster.workbooks import (
    ods,
    ods_row,
    put,
    sheet_of,
    with_part,
    xlsx,
)

HEADER = ["No", "Name", "Tape (in)", "Length (in)", "Breadth (in)"]
GOOD = ["7", "Teal", "22 5/8", "7 7/8", "6 1/8"]


def values(player, measure="tape_circumference"):
    return [round(r.value_mm, 1) for r in player.readings if r.measure == measure]


def said(cells, header=("Name", "Tape (in)")):
    roster = read_roster_file(sheet_of([list(header), ["Wren", 22.5], ["Teal", *cells]]))
    return [str(remark) for remark in (*roster.problems, *roster.notices)]


def test_the_demonstration_reads_the_same_from_a_workbook_of_texts():
    text = decode_roster(demo_roster_bytes())
    plain_text = read_roster(text)
    rows = list(csv.reader(text.splitlines()))
    assert read_roster_file(sheet_of(rows)) == plain_text


def test_cells_that_are_true_numbers_read_as_the_texts_would():
    roster = read_roster_file(sheet_of([HEADER, [7, "Teal", 22.625, 7.875, 6.125]]))
    assert roster.players == read_roster_file(sheet_of([HEADER, GOOD])).players
    assert roster.players[0].number == "7"


def test_noise_of_the_last_binary_digit_is_not_read_as_a_number_of_its_own():
    assert plain(0.1 + 0.2) == "0.3"
    assert plain(215.0) == "215"
    assert plain(float("inf")) == "inf"


@pytest.mark.parametrize(
    ("number", "code", "text"),
    [
        (22.625, "# ?/?", "22 5/8"),
        (0.875, "# ??/??", "7/8"),
        (7.0, "# ?/?", "7"),
        (22.3, "# ?/?", "22.3"),
        (0.75, "0%", "75%"),
        (57.5, '0.0" cm"', "57.5 cm"),
        (22.625, '0.000\\"', '22.625"'),
        (7.0, "00", "07"),
        (22.625, "0", "22.625"),
        (22.625, '[Red]0.0_);[Blue](0.0)" cm"', "22.625"),
        (22.625, "General", "22.625"),
    ],
)
def test_a_number_reads_as_its_cell_shows_it_but_never_rounded(number, code, text):
    assert shown(number, code) == text


def test_a_unit_in_the_format_of_a_cell_is_a_unit_of_the_cell():
    roster = read_roster_file(sheet_of([["Name", "Tape"], ["Teal", (57.5, '0.0" cm"')]]))
    assert values(roster.players[0]) == [575.0]


def test_a_jersey_number_keeps_the_zeros_that_its_format_shows():
    roster = read_roster_file(sheet_of([["No", "tape"], [(7, "00"), 22.5]]))
    assert roster.players[0].number == "07"


@pytest.mark.parametrize(
    ("value", "code", "words"),
    [
        (dt.date(2008, 6, 1), "m/d/yyyy", "Was it 6 1/8?"),
        (dt.datetime.fromisoformat("2008-06-01"), "m/d/yyyy", "Was it 6 1/8?"),
        (dt.date(2026, 5, 8), "d-mmm", "a spreadsheet has made a date of this"),
        (dt.date(2008, 6, 1), "[$-409]d/mmm/yy;@", "Was it 6 1/8?"),
        (39600, None, "day number of the date"),
    ],
)
def test_a_fraction_that_became_a_date_is_asked_back_as_in_a_text(value, code, words):
    (problem,) = said([(value, code)])
    assert problem.startswith("Row 3 (Teal), Tape (in)")
    assert words in problem


def test_a_true_date_is_read_where_a_date_belongs():
    day = (dt.date(2026, 3, 1), "m/d/yyyy")
    born = (dt.date(2014, 5, 4), "d-mmm-yy")
    rows: list[list[object]] = [["Name", "tape", "Born", "Measured on"], ["Teal", 21.5, born, day]]
    roster = read_roster_file(sheet_of(rows), today=dt.date(2026, 8, 15))
    assert not roster.problems
    (player,) = roster.players
    assert player.age_years == 12
    assert 5.0 <= player.readings[0].months_ago < 6.0


def test_a_height_that_became_a_date_is_asked_back_too():
    (notice,) = said([22.5, (dt.date(2026, 6, 2), "d-mmm")], ("Name", "tape", "Height"))
    assert "was it 6-2?" in notice.lower()


@pytest.mark.parametrize(
    ("cell", "code", "words"),
    [
        (0.75, "0%", '"75%": is no number'),
        (True, None, '"TRUE": is no number'),
        (dt.time(6, 2), "h:mm", '"06:02:00": is no number'),
        ("221/8", None, "22 1/8?"),
        ("banana", None, "is no number"),
        (57.5, None, "57.5 cm?"),
    ],
)
def test_what_is_no_reading_is_named_by_row_and_column(cell, code, words):
    (problem,) = said([(cell, code)])
    assert problem.startswith("Row 3 (Teal), Tape (in)")
    assert words in problem


def formula(result):
    def fill(book):
        sheet = book.add_worksheet()
        put(book, sheet, [["Name", "Tape (in)"], ["Wren", 22.5], ["Teal"]])
        sheet.write_formula(2, 1, "=A9*2", None, result)

    return xlsx(fill)


def test_a_formula_counts_by_the_value_that_was_computed():
    assert values(read_roster_file(formula(22.5)).players[1]) == [571.5]


@pytest.mark.parametrize("fault", ["#REF!", "#DIV/0!", "#N/A", "#VALUE!", "#NAME?"])
def test_a_formula_that_failed_is_a_problem_and_not_an_empty_cell(fault):
    (problem,) = read_roster_file(formula(fault)).problems
    assert (problem.row, problem.column, problem.value) == (3, "Tape (in)", fault)
    assert "failed" in problem.wrong


def test_a_formula_that_nobody_computed_is_a_problem_and_not_an_empty_cell():
    data = with_part(
        formula(22.5),
        "xl/worksheets/sheet1.xml",
        lambda xml: xml.replace(b"<v>22.5</v></c>", b"</c>"),
    )
    (problem,) = [p for p in read_roster_file(data).problems if p.row == 3]
    assert "no spreadsheet has computed" in problem.wrong


def test_a_formula_that_comes_to_nothing_is_an_empty_cell():
    def empty(xml: bytes) -> bytes:
        return xml.replace(b'<c r="B3">', b'<c r="B3" t="str">').replace(
            b"<v>22.5</v></c></row></", b"<v></v></c></row></"
        )

    roster = read_roster_file(with_part(formula(22.5), "xl/worksheets/sheet1.xml", empty))
    assert not roster.problems
    assert [len(player.readings) for player in roster.players] == [1, 0]


def test_rows_are_numbered_as_the_spreadsheet_shows_them_wherever_the_table_stands():
    rows = [["Our team"], [], HEADER, GOOD, [], ["8", "Coot", "221/8"]]
    roster = read_roster_file(sheet_of(rows, top=2))
    assert [player.row for player in roster.players] == [6]
    assert [problem.row for problem in roster.problems] == [8]


def test_a_title_merged_over_the_table_is_a_title():
    def fill(book):
        sheet = book.add_worksheet()
        sheet.merge_range("A1:E1", "Tamarack Valley College Kingfishers, all invented")
        put(book, sheet, [HEADER, GOOD], top=1)

    assert [p.row for p in read_roster_file(xlsx(fill)).players] == [3]


def test_a_heading_merged_over_two_columns_is_the_heading_of_both():
    def fill(book):
        sheet = book.add_worksheet()
        put(book, sheet, [["Name", None, None], ["Teal", "22 5/8", "22 7/8"]])
        sheet.merge_range("B1:C1", "Tape (in)")

    assert values(read_roster_file(xlsx(fill)).players[0]) == [574.7, 581.0]


def test_a_cell_merged_down_several_rows_is_named_because_only_the_first_has_it():
    def fill(book):
        sheet = book.add_worksheet()
        put(book, sheet, [["Name", "Pos", "tape"], ["Teal", None, 22.5], ["Coot", None, 23]])
        sheet.merge_range("B2:B3", "QB")

    roster = read_roster_file(xlsx(fill))
    assert [player.position for player in roster.players] == ["QB", ""]
    (notice,) = roster.notices
    assert (notice.row, notice.column, notice.value) == (2, "Pos", "QB")
    assert "merged down to row 3" in notice.wrong


def test_hidden_rows_are_answered_and_said():
    def fill(book):
        sheet = book.add_worksheet()
        put(book, sheet, [["Name", "tape"], *([name, 22.5] for name in ("Teal", "Coot", "Wren"))])
        for row in (1, 2, 9):
            sheet.set_row(row, None, None, {"hidden": True})

    roster = read_roster_file(xlsx(fill))
    assert len(roster.players) == 3
    assert "hidden in the spreadsheet, but read: row 2 to 3" in roster.notices[0].wrong


def two_tabs(book):
    put(book, book.add_worksheet("Inventory"), [["Shell", "Count"], [3, 12]])
    put(book, book.add_worksheet("Last year"), [["Name", "tape"], ["Old", 22.5]])
    put(book, book.add_worksheet("Heads"), [HEADER, GOOD])
    hidden = book.add_worksheet("Kept")
    put(book, hidden, [[*HEADER, "Brow to top"], [*GOOD, 4]])
    hidden.hide()


def test_the_tab_whose_header_fits_best_is_read_and_the_other_is_named():
    roster = read_roster_file(xlsx(two_tabs))
    assert roster.table is not None
    assert (roster.table.tab, roster.table.tabs) == ("Heads", 3)
    assert [player.name for player in roster.players] == ["Teal"]
    assert (
        'the tab "Heads" was read; "Last year" looks like a roster too' in roster.notices[0].wrong
    )


@pytest.mark.parametrize(("name", "player"), [("last YEAR ", "Old"), ("Kept", "Teal")])
def test_a_tab_is_read_by_its_name_in_any_capitals_even_when_hidden(name, player):
    assert read_roster_file(xlsx(two_tabs), tab=name).players[0].name == player


def test_a_tab_that_is_not_there_is_answered_with_those_that_are():
    with pytest.raises(
        RosterError, match='no tab "Squad"; it has "Inventory", "Last year", "Heads"'
    ):
        read_roster_file(xlsx(two_tabs), tab="Squad")


def test_a_text_has_no_tabs():
    with pytest.raises(RosterError, match="only a workbook has tabs"):
        read_roster_file(b"Name,tape\nTeal,22\n", tab="Heads")


def test_a_workbook_without_a_roster_is_refused_with_the_tabs_looked_at():
    with pytest.raises(RosterError, match=r'no header row.*tabs looked at: "Heads"'):
        read_roster_file(sheet_of([["Shoe", "Belt"], [11, 34]]))
    with pytest.raises(RosterError, match="no row below the header"):
        read_roster_file(sheet_of([HEADER]))


def test_a_column_without_a_heading_is_named_by_its_letter_where_something_stands_in_it():
    notices = read_roster_file(sheet_of([["Name", "tape", None], ["Teal", 22.5, "23"]])).notices
    assert [notice.column for notice in notices] == ["column C"]
    assert [column_letters(n) for n in (1, 26, 27, 28, 702, 703)] == [
        *("A", "Z", "AA", "AB", "ZZ", "AAA")
    ]


def test_a_heading_that_nearly_matches_is_asked_about_and_not_guessed():
    roster = read_roster_file(sheet_of([["Name", "tape", "brest"], ["Teal", 22.5, 6]]))
    assert [n.right for n in roster.notices] == ['did you mean "breadth"?']
    assert len(roster.players[0].readings) == 1


def test_open_documents_are_read_too():
    rows: list[list[str | float]] = [["Name", "tape"], ["Teal", 22.625], ["Coot", "221/8"]]
    roster = read_roster_file(ods("".join(ods_row(*row) for row in rows)))
    assert values(roster.players[0]) == [574.7]
    assert [problem.row for problem in roster.problems] == [3]


def test_a_failed_formula_and_a_percentage_of_an_open_document_are_named():
    namespace = "urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0"
    kind = f'office:value-type="string" calcext:value-type="error" xmlns:calcext="{namespace}"'
    bad = (
        f"<table:table-cell {kind}/>",
        '<table:table-cell office:value-type="percentage" office:value="0.75"/>',
    )
    rows = (f"<table:table-row>{ods_row('Teal')[17:-18]}{cell}</table:table-row>" for cell in bad)
    roster = read_roster_file(ods(ods_row("Name", "tape") + "".join(rows)))
    assert [problem.value for problem in roster.problems] == ["#ERROR!", "75%"]


def test_a_roster_of_five_hundred_rows_reads_as_its_text_does():
    rows = [[str(n), f"P{n} Pond", f"22 {n % 7 + 1}/8", "7.875", "6.125"] for n in range(500)]
    numbers = [[*row[:3], float(row[3]), float(row[4])] for row in rows]
    text = "\n".join(",".join(row) for row in [HEADER, *rows])
    told, read = read_table(text), read_workbook(sheet_of([HEADER, *numbers]))
    assert len(read.rows) == 500
    assert (read.columns, read.rows) == (told.columns, told.rows)


def test_planted_faults_are_named_by_the_same_words_as_in_a_text():
    planted = [
        ["8", "Coot", "221/8", "7 7/8", "6 1/8"],
        ["9", "Wren", "57.5", "7 7/8", "6 1/8"],
        ["10", "Rail", "22 5/8", "6 1/8", "7 7/8"],
        ["11", "Sora", "22 5/8", "6/1/2008", "6 1/8"],
        ["12", "Total", "22 5/8", "", ""],
        ["13", "Loon", "24 1/2", "7 1/4", "5 5/8"],
    ]
    text = "\n".join(",".join(row) for row in [HEADER, GOOD, *planted])
    told = read_roster(text)
    assert len(told.problems) == 5
    assert read_roster_file(sheet_of([HEADER, GOOD, *planted])) == told


wild = st.one_of(
    st.none(),
    st.booleans(),
    st.floats(-1e6, 1e6, allow_nan=False),
    st.integers(-(10**9), 10**9),
    st.text(st.characters(min_codepoint=32, max_codepoint=0x2FFF), max_size=10),
    st.dates(dt.date(1950, 1, 1), dt.date(2050, 1, 1)).map(lambda day: (day, "m/d/yyyy")),
    st.tuples(
        st.floats(0, 1e3, allow_nan=False),
        st.sampled_from(["0%", "# ?/?", '0.0" cm"', "00", "h:mm", "[h]:mm", "d-mmm", "@"]),
    ),
)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.lists(wild, min_size=4, max_size=4), min_size=1, max_size=5))
def test_whatever_the_cells_are_every_row_is_answered_or_named(rows):
    data = sheet_of([["Name", "tape", "length", "Ht"], *rows])
    try:
        roster = read_roster_file(data)
    except RosterError:
        assert not any(str(cell).strip() for row in rows for cell in row if cell is not None)
        return
    answered = {player.row for player in roster.players}
    unanswered = {problem.row for problem in roster.problems}
    assert roster.table is not None
    assert answered | unanswered == {row for row, _ in roster.table.rows}
    assert not answered & unanswered
