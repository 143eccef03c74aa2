"""A stock-take: what was counted, against what the list says."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from django.utils.safestring import SafeString

from helmwright.catalogue.pools import POOL_OF
from helmwright.records.models import Sheet
from helmwright.records.part_place import sizes_by_place
from helmwright.records.readers.need import thickness_mm
from helmwright.records.readers.stock import PartRow
from helmwright.records.sheets import sheet_of
from helmwright.web.desk.part_words import place_words, size_words

MOST = 100_000


@dataclass(frozen=True, slots=True)
class Line:
    """One part that may be counted.

    Parameters
    ----------
    name
        Of the field.
    typed
        What somebody wrote; empty where it was not counted.
    count
        The number that was meant; None where nothing, or no number, was written.
    expected
        What the list said when the person began to count.
    wrong
        What is wrong with what was written; empty where nothing is.
    """

    name: str
    sheet: str
    model: str
    place: str
    words: str
    key_size: str
    size: SafeString
    typed: str
    count: int | None
    expected: int
    wrong: str

    @property
    def heading(self) -> str:
        """What its place is called, and in which model."""
        return f"{self.words.capitalize()}, {self.model}"

    @property
    def difference(self) -> int:
        """Counted and not on the list; below zero for missing ones."""
        return 0 if self.count is None else self.count - self.expected

    @property
    def told(self) -> str:
        """The difference in words."""
        if not self.difference:
            return "as listed"
        return f"{abs(self.difference)} {'more' if self.difference > 0 else 'fewer'} than listed"


@dataclass(frozen=True, slots=True)
class StockTake:
    """Every line of a store's count."""

    lines: tuple[Line, ...]

    @classmethod
    def of(
        cls, rows: Sequence[PartRow], sheets: Iterable[Sheet], typed: Mapping[str, str]
    ) -> "StockTake":
        """Every part that the sheets list, with what was written so far."""
        listed = {(row.sheet, row.place, row.size): row.on_hand for row in rows}
        lines = [
            line
            for sheet in sorted(sheets, key=lambda row: row.model)
            for line in _lines(sheet, listed, typed)
        ]
        return cls(tuple(lines))

    @property
    def counted(self) -> list[Line]:
        """The lines with a number."""
        return [line for line in self.lines if line.count is not None]

    @property
    def differing(self) -> list[Line]:
        """Those whose number is another than the list's."""
        return [line for line in self.counted if line.difference]

    @property
    def wrong(self) -> list[Line]:
        """Those that cannot be read."""
        return [line for line in self.lines if line.wrong]

    @property
    def is_whole(self) -> bool:
        """Whether everything that was written can be read."""
        return not self.wrong


def _lines(
    row: Sheet, listed: Mapping[tuple[str, str, str], int], typed: Mapping[str, str]
) -> list[Line]:
    sheet = sheet_of(row)
    lines = []
    here = {place for digest, place, _ in listed if digest == row.digest}
    for place, sizes in sizes_by_place(sheet).items():
        if not is_counted_here(place, here):
            continue
        for number, size in enumerate(sizes):
            name = f"{row.digest[:12]}-{place.replace(' ', '-')}-{number}"
            written = typed.get(name, "").strip()
            count, wrong = read_count(written)
            on_list = listed.get((row.digest, place, size), 0)
            lines.append(
                Line(
                    name=name,
                    sheet=row.digest,
                    model=row.model,
                    place=place,
                    words=place_words(place),
                    key_size=size,
                    size=size_words(size, thickness_mm(sheet, place, size)),
                    typed=written,
                    count=count,
                    expected=_expected(typed.get(f"{name}-listed", ""), on_list),
                    wrong=wrong,
                )
            )
    return lines


def is_counted_here(place: str, listed: Collection[str]) -> bool:
    """Whether a store counts a place: pads for two sides in one row, or each side in its own.

    Sides apart where nothing is listed yet; what is listed is always counted.
    """
    if place in listed:
        return True
    return place not in POOL_OF.values() and POOL_OF.get(place) not in listed


def read_count(written: str) -> tuple[int | None, str]:
    """The number that somebody wrote, and what is wrong with it."""
    if not written:
        return None, ""
    if not (written.isascii() and written.isdecimal()):
        return None, f"“{written}” is no count; write a whole number, or leave it empty."
    if int(written) > MOST:
        return None, f"{written} is more than a store holds; write at most {MOST}."
    return int(written), ""


def _expected(sent: str, on_list: int) -> int:
    """What the list said when the page was opened: the count is held against that."""
    digits = sent.removeprefix("-")
    return int(sent) if digits.isascii() and digits.isdecimal() and len(digits) < 8 else on_list
