"""A list of helmets is read from text and workbook; what cannot be read is asked about."""

from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from helmwright.catalogue import load_packaged
from helmwright.roster import (
    CellError,
    HelmetField,
    RosterError,
    read_helmets,
    read_stock_rows,
)
from helmwright.roster.helmet_columns import HELMET_SYNONYMS, read_helmet_header
from helmwright.roster.helmet_day import read_helmet_day
from tests.roster.workbooks import sheet_of

TODAY = date(2026, 8, 7)
MARCH = date(2024, 3, 1)


def read(text):
    data = text if isinstance(text, bytes) else text.encode()
    return read_helmets(data, today=TODAY)


def test_a_list_is_read_below_its_title_whatever_its_order():
    found = read(
        "Helmets of the Kingfishers\n\nSize;Helmet No.;Date made;Shoe\n4;tv-0147;3/1/2024;9"
    )
    (row,) = found.rows
    assert (row.row, row.code, row.said[HelmetField.SHELL]) == (4, "TV-0147", "4")
    assert row.days == {"made_on": MARCH}
    assert [notice.column for notice in found.notices] == ["Shoe"]


def test_days_of_a_workbook_are_days():
    rows: list[list[Any]] = [
        ["ID", "Made", "Recertified", "Recertify every (months)"],
        ["TV-1", (MARCH, "m/d/yyyy"), (45000, "0"), 24],
    ]
    (row,) = read(sheet_of(rows)).rows
    assert row.problems == ()
    assert row.days == {"made_on": MARCH, "recertified_on": date(2023, 3, 15)}
    assert row.interval_months == 24


@pytest.mark.parametrize(
    "written", ["3/1/2024", "03/01/24", "2024-03-01", "Mar 1, 2024", "1-Mar-24", "March 1, 2024"]
)
def test_a_day_is_read_as_people_write_it(written):
    assert read_helmet_day(written, today=TODAY) == MARCH


@given(st.dates(min_value=date(1995, 1, 1), max_value=TODAY))
def test_a_day_written_month_first_or_by_the_standard_is_that_day(day):
    for written in (f"{day:%m/%d/%Y}", day.isoformat(), f"{day:%b} {day.day}, {day.year}"):
        assert read_helmet_day(written, today=TODAY) == day


@pytest.mark.parametrize(
    ("written", "asked"),
    [
        ("2024", "the whole date"),
        ("Mar 2024", "the whole date"),
        ("3/2024", "the whole date"),
        ("13/4/2024", "is it Apr 13?"),
        ("5.4.2024", "May 4 or Apr 5?"),
        ("2/30/2024", "month first"),
        ("3/1/2031", "check the year"),
        ("soon", "write it like"),
    ],
)
def test_a_day_that_may_be_another_is_asked_back(written, asked):
    with pytest.raises(CellError) as error:
        read_helmet_day(written, today=TODAY)
    assert asked in error.value.right


def test_a_row_tells_everything_that_is_wrong_with_it():
    (row,) = read("ID,Made,Life (years),Interval\nTV/1,soon,long,300,9").rows
    told = [(each.column, each.row) for each in row.problems]
    assert told == [
        ("past the last column", 2),
        ("ID", 2),
        ("Made", 2),
        ("Interval", 2),
        ("Life (years)", 2),
    ]


@pytest.mark.parametrize("text", ["", "Serial,Shell\n1,2", "ID,Shell\n", "ID\nTV-1"])
def test_a_file_without_ids_or_rows_is_no_list(text):
    with pytest.raises(RosterError):
        read(text)


def test_no_heading_means_two_things():
    names = [name for names in HELMET_SYNONYMS.values() for name in names.split("|")]
    assert len(set(names)) == len(names)
    for field, words in HELMET_SYNONYMS.items():
        headings = words.split("|")
        assert {known for _, known in read_helmet_header(headings)} == {field}


def test_a_formula_is_not_what_it_looks_like():
    (row,) = read("ID,Color\nTV-1,=1+1").rows
    assert "formula" in row.problems[0].wrong


def test_rows_of_a_stock_list_are_told_one_by_one():
    found = read_stock_rows(
        b"Place,Size,Count\nfront,1 in,4\nroof,1 in,2\n", load_packaged("ouzel")
    )
    assert [(row.row, row.place, row.count) for row in found.rows] == [(2, "front", 4)]
    assert [(each.row, each.column) for each in found.problems] == [(3, "Place")]
