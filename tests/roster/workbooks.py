"""Workbooks made for the tests: XLSX cell by cell, and bare XLS and ODS files by hand."""

import io
import struct
import zipfile
from collections.abc import Callable, Sequence
from typing import Any

import xlsxwriter

SECTOR = 512
END, FREE, FAT = 0xFFFFFFFE, 0xFFFFFFFF, 0xFFFFFFFD


def xlsx(fill: Callable[[Any], None]) -> bytes:
    """The workbook that `fill` writes."""
    made = io.BytesIO()
    with xlsxwriter.Workbook(made, {"in_memory": True, "strings_to_formulas": False}) as book:
        fill(book)
    return made.getvalue()


def sheet_of(rows: Sequence[Sequence[Any]], name: str = "Heads", top: int = 0) -> bytes:
    """One sheet with these rows; a pair is a value with the format of its cell."""

    def fill(book: Any) -> None:
        sheet = book.add_worksheet(name)
        put(book, sheet, rows, top)

    return xlsx(fill)


def put(book: Any, sheet: Any, rows: Sequence[Sequence[Any]], top: int = 0) -> None:
    for row, cells in enumerate(rows, start=top):
        for column, cell in enumerate(cells):
            value, code = cell if isinstance(cell, tuple) else (cell, None)
            style = book.add_format({"num_format": code}) if code else None
            if value is not None:
                sheet.write(row, column, value, style)


def with_part(data: bytes, name: str, change: Callable[[bytes], bytes]) -> bytes:
    """The workbook with one of its parts changed, or added."""
    made = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(made, "w") as new:
        parts = {each: old.read(each) for each in old.namelist()}
        parts[name] = change(parts.get(name, b""))
        for each, content in parts.items():
            new.writestr(each, content, zipfile.ZIP_DEFLATED)
    return made.getvalue()


def part(data: bytes, name: str) -> str:
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return archive.read(name).decode("utf-8")


def ods(body: str) -> bytes:
    """An ODS file of one table with these rows."""
    office = "urn:oasis:names:tc:opendocument:xmlns:office:1.0"
    table = "urn:oasis:names:tc:opendocument:xmlns:table:1.0"
    text = "urn:oasis:names:tc:opendocument:xmlns:text:1.0"
    content = (
        f'<office:document-content xmlns:office="{office}" xmlns:table="{table}"'
        f' xmlns:text="{text}"><office:body><office:spreadsheet>'
        f'<table:table table:name="Heads">{body}</table:table>'
        "</office:spreadsheet></office:body></office:document-content>"
    )
    made = io.BytesIO()
    kind = "application/vnd.oasis.opendocument.spreadsheet"
    manifest = '<manifest xmlns="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0"/>'
    with zipfile.ZipFile(made, "w") as archive:
        archive.writestr("mimetype", kind)
        archive.writestr("META-INF/manifest.xml", manifest)
        archive.writestr("content.xml", content)
    return made.getvalue()


def ods_row(*cells: str | float, more: str = "") -> str:
    def one(cell: str | float) -> str:
        if isinstance(cell, str):
            return f'<table:table-cell office:value-type="string"><text:p>{cell}</text:p></table:table-cell>'  # noqa: E501
        return f'<table:table-cell office:value-type="float" office:value="{cell}"/>'

    return f"<table:table-row{more}>{''.join(map(one, cells))}</table:table-row>"


def compound(streams: dict[str, bytes]) -> bytes:
    """A compound file with these streams, each in sectors of its own."""
    chains, body, start = [], b"", 2
    places: dict[str, tuple[int, int]] = {}
    for name, stream in streams.items():
        padded = stream.ljust(max(4096, -(-len(stream) // SECTOR) * SECTOR), b"\0")
        count = len(padded) // SECTOR
        chains += [*range(start + 1, start + count), END]
        places[name] = (start, len(padded))
        body, start = body + padded, start + count
    fat = struct.pack("<128I", *[FAT, END, *chains, *[FREE] * (126 - len(chains))])
    entries = [_entry("Root Entry", 5, 1, END, 0)]
    entries += [_entry(name, 2, FREE, first, size) for name, (first, size) in places.items()]
    directory = b"".join(entries).ljust(SECTOR, b"\0")
    header = struct.pack(
        "<8s16sHHHHH6xIIIIIIIIII",
        b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", b"", 0x3E, 3, 0xFFFE, 9, 6,
        0, 1, 1, 0, 4096, END, 0, END, 0, 0,
    )  # fmt: skip
    return header.ljust(SECTOR, b"\xff") + fat + directory + body


def _entry(name: str, kind: int, child: int, first: int, size: int) -> bytes:
    letters = (name + "\0").encode("utf-16-le")
    return struct.pack(
        "<64sHBBIII16sI8s8sIQ",
        letters, len(letters), kind, 1, FREE, FREE, child, b"", 0, b"", b"", first, size,
    )  # fmt: skip
