"""Stock lists as managers keep them: every part named as the model sheet has it, or a remark."""

import datetime as dt
import re
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from helmwright.catalogue import load_packaged, packaged_models
from helmwright.cli import main
from helmwright.roster import (
    RosterError,
    StockError,
    demo_stock_bytes,
    read_stock,
    stock_template,
)
from helmwright.roster.stock import SYNONYMS, StockField
from helmwright.roster.stock_place import PAD_PLACES
from helmwright.roster.stock_template import stock_parts
from tests.roster.workbooks import ods, ods_row, sheet_of

OUZEL = load_packaged("ouzel")
HEADINGS: list[Any] = ["Place", "Size", "Count"]
REDSTART = load_packaged("redstart")
PAGE = (Path(__file__).parents[2] / "docs" / "reference" / "stock-file.md").read_text("utf-8")


def rows(text: str, sheet=OUZEL):
    return read_stock(text.encode(), sheet).rows


def problems(text: str, sheet=OUZEL):
    with pytest.raises(StockError) as refusal:
        read_stock(text.encode(), sheet)
    return refusal.value.problems


def test_the_demonstrations_list_is_read_whole_and_has_nothing_to_remark():
    stock = read_stock(demo_stock_bytes(), OUZEL)
    assert not stock.notices
    assert len(stock.rows) == demo_stock_bytes().count(b"\n") - 2
    assert stock.rows[0] == ("shell", "2", 2)
    title, *lines = demo_stock_bytes().decode().splitlines()
    assert "(invented)" in title
    written = (line.rpartition(",")[2] for line in lines)
    assert sum(count for *_, count in stock.rows) == sum(map(int, filter(str.isdigit, written)))


@pytest.mark.parametrize("name", packaged_models())
def test_a_template_lists_every_part_of_the_sheet_once_and_reads_back(name):
    sheet = load_packaged(name)
    parts = list(stock_parts(sheet))
    filled = stock_template(sheet).replace(",\n", ",3\n")
    assert [row[:2] for row in rows(filled, sheet)] == parts
    assert len(set(parts)) == len(parts)
    pads = sum(len(pad.labels) for pad in sheet.pads if pad.seats and pad.cell is None)
    assert len(parts) == len(sheet.shells) + pads


@given(st.data())
def test_the_order_of_columns_and_rows_does_not_matter(data):
    listed = data.draw(st.permutations(list(stock_parts(OUZEL))))
    counts = data.draw(st.lists(st.integers(0, 99), min_size=len(listed), max_size=len(listed)))
    order = data.draw(st.permutations(list(StockField)))
    lines = [
        dict(zip(StockField, (*part, str(count)), strict=True))
        for part, count in zip(listed, counts, strict=True)
    ]
    named = [data.draw(st.sampled_from(SYNONYMS[field].split("|"))) for field in order]
    text = "\n".join([",".join(named), *(",".join(line[f] for f in order) for line in lines)])
    assert dict(zip(listed, counts, strict=True)) == {row[:2]: row[2] for row in rows(text)}


@pytest.mark.parametrize(
    ("place", "size", "read"),
    [
        ("Front pad", "7/8", ("front", "7/8 in")),
        ("front", "0.875", ("front", "7/8 in")),
        ("front", "22.2 mm", ("front", "7/8 in")),
        ("FRONT", '7/8"', ("front", "7/8 in")),
        ("Jaw_Left", "1 1/8 IN", ("jaw left", "1 1/8 in")),
        ("left jaw pad", "1-1/8", ("jaw left", "1 1/8 in")),
        ("jaws", "1", ("jaw", "1 in")),
        ("sides", "1 in", ("sides", "1 in")),
        ("Shells", "4", ("shell", "4")),
        ("shell", "Shell 4", ("shell", "4")),
        ("back", "1", ("rear", "1 in")),
    ],
)
def test_parts_are_read_as_people_write_them(place, size, read):
    (row,) = rows(f"place,size,count\n{place},{size},2\n")
    assert row == (*read, 2)


def test_a_unit_in_the_heading_is_the_unit_of_bare_numbers():
    assert rows("Part;Thickness (mm);On hand\nfront;22,2;4\n") == (("front", "7/8 in", 4),)


@pytest.mark.parametrize(
    ("line", "column", "words"),
    [
        ("chin,1 in,2", "place", "The places are shell, crown, front"),
        (",1 in,2", "place", "The places are"),
        ("front,2 in,2", "size", "There are 5/8 in, 3/4 in, 7/8 in, 1 in, 1 1/8 in"),
        ("front,thin,2", "size", "number"),
        ("front,,2", "size", "no size. There are 5/8 in"),
        ("front,7-Aug,2", "size", "7/8 in, or a decimal, 0.875"),
        ("front,2026-07-08,2", "size", "7/8 in, or a decimal, 0.875"),
        ("front,46211,2", "size", "made a date"),
        ("front,#REF!,2", "size", "formula"),
        ("shell,9,2", "size", "It has 1, 2, 3, 4, 5, 6"),
        ("front,1 in,two", "count", "whole number"),
        ("front,1 in,-2", "count", "whole number"),
        ("front,1 in,2.5", "count", "whole number"),
        ("front,1 in,2000000", "count", "no store holds"),
        ("front,1 in,2,7", "past the last column", "more cells"),
    ],
)
def test_a_row_that_cannot_be_read_is_named_with_its_column(line, column, words):
    (problem,) = problems(f"place,size,count\nfront,7/8,3\n{line}\n")
    assert (problem.row, problem.column) == (3, column)
    assert words in str(problem)


def test_every_bad_row_is_named_at_once():
    found = problems("place,size,count\nchin,1,2\nfront,1,2\nnape,9,1\n")
    assert [problem.row for problem in found] == [2, 4]


def test_rows_of_one_part_are_added_up_and_that_is_said():
    stock = read_stock(b"place,size,count\nfront,1 in,2\nshell,4,1\nFront,1,3\n", OUZEL)
    assert stock.rows == (("shell", "4", 1), ("front", "1 in", 5))
    assert any("rows 2, 4; the counts were added up" in str(each) for each in stock.notices)


def test_a_part_that_was_not_counted_is_none_and_that_is_said():
    stock = read_stock(b"place,size,count\nshell,4,\nfront,1 in,2\n", OUZEL)
    assert stock.rows[0] == ("shell", "4", 0)
    assert any("no count in row 2" in str(each) for each in stock.notices)


def test_places_of_which_nothing_is_listed_are_named():
    (notice,) = read_stock(b"place,size,count\nsides,1 in,2\njaw,1 in,2\n", OUZEL).notices
    assert "for shells, crown, front, rear, nape;" in str(notice)


def test_a_pad_that_the_helmet_does_not_have_is_refused_and_an_air_cell_is_not_missed():
    aired = [str(pad.zone) for pad in REDSTART.pads if pad.cell is not None]
    assert aired
    assert not {place for place, _ in stock_parts(REDSTART)} & set(aired)
    assert rows(f"place,size,count\n{aired[0]},air,2\n", REDSTART) == ((aired[0], "air", 2),)
    (problem,) = problems(f"place,size,count\n{aired[0]},1 in,2\n", REDSTART)
    assert "an air cell, filled and not swapped" in str(problem)


def test_a_workbook_is_read_like_a_text_also_behind_another_tab():
    listed: list[list[Any]] = [
        ["Ouzel parts"],
        ["Place", "Size", "Count"],
        ["front", (0.875, "# ?/?"), 4],
    ]
    assert read_stock(sheet_of(listed), OUZEL).rows == (("front", "7/8 in", 4),)
    body = ods_row("Place", "Size", "Count") + ods_row("shell", 4.0, 2.0)
    assert read_stock(ods(body), OUZEL).rows == (("shell", "4", 2),)


def test_a_fraction_that_a_workbook_holds_as_a_date_is_asked_back():
    listed: list[list[Any]] = [
        ["Place", "Size", "Count"],
        ["front", (dt.date(2026, 7, 8), "d-mmm"), 4],
    ]
    with pytest.raises(StockError, match="made a date"):
        read_stock(sheet_of(listed), OUZEL)


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "no header row"),
        (b"name,tape\nTeal,22 5/8\n", "place, size, count"),
        (b"place,size,count\n", "no row below"),
    ],
)
def test_a_file_that_is_no_stock_list_is_refused(data, words):
    with pytest.raises(RosterError, match=words):
        read_stock(data, OUZEL)


def test_a_tab_is_for_workbooks():
    with pytest.raises(RosterError, match="only a workbook"):
        read_stock(b"place,size,count\nfront,1,2\n", OUZEL, tab="Parts")


def test_the_command_prints_a_template_and_the_demonstrations_list():
    empty = CliRunner().invoke(main, ["sheet", "stock", "--model", "ouzel"])
    assert (empty.exit_code, empty.output) == (0, stock_template(OUZEL))
    demo = CliRunner().invoke(main, ["sheet", "stock", "--demo"])
    assert (demo.exit_code, demo.output) == (0, demo_stock_bytes().decode())
    assert CliRunner().invoke(main, ["sheet", "stock", "--demo", "--model", "wren"]).exit_code == 2


@pytest.mark.parametrize("field", StockField)
def test_the_page_lists_every_heading_of_a_column(field):
    (row,) = re.findall(rf"^\| {field} \| (.*) \| .* \|$", PAGE, re.MULTILINE)
    assert re.findall(r"`([^`]+)`", row) == SYNONYMS[field].split("|")


def test_the_page_lists_every_place_and_its_example_reads():
    (places,) = re.findall(r"^\*\*Place\*\*.*$", PAGE, re.MULTILINE)
    assert all(f"`{place}`" in places for place in ("shell", *PAD_PLACES))
    example = PAGE.partition("```text\n")[2].partition("```")[0]
    assert len(rows(example)) == 5
