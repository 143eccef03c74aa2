"""A workbook that is locked, damaged or too large is refused in words, before memory is filled."""

import struct
import zipfile
from io import BytesIO

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from helmwright.roster import RosterError, read_roster_file
from helmwright.roster.workbook import archive, tabs
from tests.roster.workbooks import compound, ods, ods_row, put, sheet_of, with_part, xlsx

HEADER = ["No", "Name", "Tape (in)", "Length (in)", "Breadth (in)"]
GOOD = ["7", "Teal", "22 5/8", "7 7/8", "6 1/8"]


LOCKED = compound({"EncryptionInfo": b"x", "EncryptedPackage": b"y"})
GOOD_BOOK = sheet_of([HEADER, GOOD])
OPEN = ods(ods_row(*HEADER) + ods_row(*GOOD))


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (LOCKED, "locked with a password"),
        (compound({"Workbook": b"x"}), r"older kind \(\.xls\); save it as \.xlsx"),
        (b"PK\x03\x04rest", "cannot be opened"),
        (b"\xd0\xcf\x11\xe0" + b"\0" * 600, "older kind"),
        (GOOD_BOOK[: len(GOOD_BOOK) // 2], "cannot be opened"),
        (with_part(GOOD_BOOK, "xl/workbook.bin", lambda _: b"x"), r"\.xlsb"),
    ],
)
def test_a_workbook_that_is_locked_or_broken_is_refused_in_plain_words(data, words):
    with pytest.raises(RosterError, match=words):
        read_roster_file(data)


def test_an_archive_that_asks_for_a_password_is_locked():
    data = bytearray(GOOD_BOOK)
    at = -1
    for mark, offset in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        while (at := data.find(mark, at + 1)) >= 0:
            struct.pack_into("<H", data, at + offset, 1)
    with pytest.raises(RosterError, match="password"):
        read_roster_file(bytes(data))


def test_a_part_that_declares_entities_is_refused():
    bomb = b'<!DOCTYPE x [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]>'

    def armed(xml: bytes) -> bytes:
        head, mark, body = xml.partition(b"?>")
        return head + mark + bomb + body

    with pytest.raises(RosterError, match="cannot be opened"):
        read_roster_file(with_part(GOOD_BOOK, "xl/worksheets/sheet1.xml", armed))


def test_a_small_file_that_unpacks_to_a_large_one_is_refused(monkeypatch):
    monkeypatch.setattr(archive, "MOST_UNPACKED", 1_000_000)
    bomb = with_part(GOOD_BOOK, "xl/media/image1.png", lambda _: b"\0" * 3_000_000)
    assert len(bomb) < 20_000
    with pytest.raises(RosterError, match="unpacks to more than 1 MB"):
        read_roster_file(bomb)


def test_a_part_that_is_larger_than_it_says_is_refused():
    """The size that the archive states is lowered; what it holds is not."""
    made = BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as new:
        new.writestr("xl/workbook.xml", b"\0" * 3_000_000)
    data = bytearray(made.getvalue())
    at = data.find(b"PK\x01\x02")
    struct.pack_into("<I", data, at + 24, 10)
    with pytest.raises(RosterError, match="cannot be opened"):
        read_roster_file(bytes(data))


def test_too_many_bytes_and_too_many_parts_are_refused(monkeypatch):
    monkeypatch.setattr(archive, "MOST_PARTS", 3)
    with pytest.raises(RosterError, match="parts, over 3"):
        read_roster_file(GOOD_BOOK)
    monkeypatch.setattr(archive, "MOST_BYTES", 100)
    with pytest.raises(RosterError, match="MB, over"):
        read_roster_file(GOOD_BOOK)


@pytest.mark.parametrize(
    ("far", "words"),
    [(b"E4294967295", "cannot be opened"), (b"E1048576", "larger than a roster can be")],
)
def test_a_cell_that_says_it_stands_far_from_its_row_is_refused_before_memory_is_set_aside(
    far, words
):
    def moved(part: bytes) -> bytes:
        assert b'r="E2"' in part
        return part.replace(b'r="E2"', b'r="%b"' % far)

    with pytest.raises(RosterError, match=words):
        read_roster_file(with_part(GOOD_BOOK, "xl/worksheets/sheet1.xml", moved))


def test_a_count_of_texts_that_no_tab_fills_is_refused_before_memory_is_set_aside():
    def counted(part: bytes) -> bytes:
        assert b'uniqueCount="' in part
        return part.replace(b'uniqueCount="', b'uniqueCount="4294967')

    with pytest.raises(RosterError, match="cannot be opened"):
        read_roster_file(with_part(GOOD_BOOK, "xl/sharedStrings.xml", counted))


def test_a_cell_at_the_far_end_of_a_tab_is_named_before_memory_is_set_aside():
    def fill(book):
        sheet = book.add_worksheet("Heads")
        put(book, sheet, [HEADER, GOOD])
        sheet.write(1_048_575, 16_383, "x")

    with pytest.raises(RosterError, match=r'tab "Heads".*XFD1048576'):
        read_roster_file(xlsx(fill))


@pytest.mark.parametrize(
    "row",
    [
        ods_row("Teal", 22.5, more=' table:number-rows-repeated="1000000"'),
        ods_row("Teal", 22.5, more=' table:number-rows-repeated="900"').replace(
            'office:value="22.5"', 'office:value="22.5" table:number-columns-repeated="900"'
        ),
    ],
)
def test_repeated_cells_of_an_open_document_are_counted_before_they_are_read(row):
    with pytest.raises(RosterError, match="larger than a roster"):
        read_roster_file(ods(ods_row("Name", "tape") + row))


def test_empty_cells_to_the_end_of_an_open_document_are_no_cells():
    rest = (
        '<table:table-row table:number-rows-repeated="1048570">'
        '<table:table-cell table:number-columns-repeated="16384"/></table:table-row>'
    )
    assert len(
        read_roster_file(ods(ods_row("Name", "tape") + ods_row("Teal", 22.5) + rest)).players
    )


@settings(max_examples=60, deadline=None)
@given(st.sampled_from([GOOD_BOOK, OPEN]), st.data())
def test_a_workbook_with_any_bytes_spoiled_is_read_or_refused_in_words(whole, data):
    at = data.draw(st.integers(0, len(whole) - 1))
    spoil = data.draw(st.binary(min_size=1, max_size=8))
    try:
        roster = read_roster_file(whole[:at] + spoil + whole[at + len(spoil) :])
    except RosterError:
        return
    assert roster.table is not None
    told = {*(p.row for p in roster.players), *(p.row for p in roster.problems)}
    assert told == {row for row, _ in roster.table.rows}


def test_the_limits_leave_room_for_any_roster():
    assert tabs.MOST_CELLS >= 500 * 40
