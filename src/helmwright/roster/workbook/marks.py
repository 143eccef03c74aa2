"""What the reading library does not tell of a tab: faults, formats, hidden rows, how far it goes.

It gives a cell whose formula failed, or was never computed, as an empty one. A reading would be
missing and nobody would know.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from posixpath import basename, dirname, join, normpath

from helmwright.roster.spreadsheet import NOT_COMPUTED
from helmwright.roster.workbook.markup import Attributes, parse
from helmwright.roster.workbook.number_format import BUILT_IN, shown

Place = tuple[int, int]
"""Row and column, from 1."""

_REFERENCE = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")


@dataclass(slots=True)
class Marks:
    """What is marked in one tab.

    Parameters
    ----------
    texts
        Cells that are to be read as this text.
    hidden
        Rows that the spreadsheet does not show.
    last_row, last_column
        How far cells with something in them go.

    """

    texts: dict[Place, str] = field(default_factory=dict)
    hidden: list[int] = field(default_factory=list)
    last_row: int = 0
    last_column: int = 0


def workbook_marks(parts: Mapping[str, bytes]) -> Mapping[str, Marks]:
    """The marks of every tab of an XLSX workbook by the tab's name."""
    whole = _whole(parts)
    if whole is None:
        return {}
    folder = dirname(whole)
    _refuse_many_texts(parts)
    codes = _format_codes(parts.get(join(folder, "styles.xml"), b""))
    paths = _tab_paths(parts, folder, basename(whole))
    return {name: _Tab(codes).read(parts[path]) for name, path in paths.items() if path in parts}


MOST_TEXTS = 1_000_000
"""Texts that a workbook's tabs may share; there is one for each cell of the largest at most."""


def _refuse_many_texts(parts: Mapping[str, bytes]) -> None:
    """Refuses a stated count of shared texts that no tab fills.

    The reading library sets memory aside by the count before it looks at the texts.
    """

    def counted(name: str, attributes: Attributes) -> None:
        if name == "sst" and int(attributes.get("uniqueCount", 0)) > MOST_TEXTS:
            raise ValueError("more texts than cells")

    for path, part in parts.items():
        if basename(path).lower() == "sharedstrings.xml":
            parse(part, start=counted)


def _whole(parts: Mapping[str, bytes]) -> str | None:
    """Where the part lies that lists the tabs; most programs put it at the same place."""
    named = [name for name in parts if basename(name) == "workbook.xml"]
    return min(named, key=len, default=None)


def _tab_paths(parts: Mapping[str, bytes], folder: str, whole: str) -> Mapping[str, str]:
    """Where each tab lies in the archive."""
    targets: dict[str, str] = {}
    tabs: dict[str, str] = {}

    def related(name: str, attributes: Attributes) -> None:
        if name == "Relationship":
            target = attributes.get("Target", "")
            path = target[1:] if target.startswith("/") else normpath(join(folder, target))
            targets[attributes.get("Id", "")] = path

    def listed(name: str, attributes: Attributes) -> None:
        if name == "sheet":
            tabs[attributes.get("name", "")] = targets.get(attributes.get("id", ""), "")

    parse(parts.get(join(folder, "_rels", f"{whole}.rels"), b"<none/>"), start=related)
    parse(parts[join(folder, whole)], start=listed)
    return tabs


def _format_codes(styles: bytes) -> list[str]:
    """The format code of each cell style; nothing for one that changes no meaning."""
    own: dict[int, str] = dict(BUILT_IN)
    codes: list[str] = []
    inside: list[str] = []

    def start(name: str, attributes: Attributes) -> None:
        inside.append(name)
        if name == "numFmt":
            own[int(attributes.get("numFmtId", "0"))] = attributes.get("formatCode", "")
        if name == "xf" and "cellXfs" in inside:
            codes.append(own.get(int(attributes.get("numFmtId", "0")), ""))

    def end(_name: str) -> None:
        inside.pop()

    if styles:
        parse(styles, start=start, end=end)
    return codes


class _Tab:
    """Reads the cells of one tab as they stand in its XML."""

    def __init__(self, codes: list[str]) -> None:
        self.codes = codes
        self.marks = Marks()
        self.row = self.column = 0
        self.cell: Attributes = {}
        self.value: list[str] = []
        self.formula = self.in_value = self.filled = False

    def read(self, part: bytes) -> Marks:
        parse(part, start=self._start, end=self._end, text=self._text)
        return self.marks

    def _start(self, name: str, attributes: Attributes) -> None:
        if name == "row":
            self.row, self.column = int(attributes.get("r", self.row + 1)), 0
            if attributes.get("hidden") in ("1", "true"):
                self.marks.hidden.append(self.row)
        elif name == "c":
            self.row, self.column = self._place(attributes.get("r", ""))
            self.cell, self.value = attributes, []
            self.formula = self.filled = False
        elif name == "f":
            self.formula = True
        elif name in ("v", "is"):
            self.in_value = name == "v"
            self.filled = True

    def _place(self, reference: str) -> Place:
        """Where a cell stands: where it says so, else right of the one before.

        Whatever row holds the cell, the reading library believes the cell.
        """
        if not reference:
            return self.row, self.column + 1
        match = _REFERENCE.fullmatch(reference)
        if match is None:
            raise ValueError(f"{reference} is no cell of a tab")
        return int(match[2]), _column(match[1])

    def _text(self, text: str) -> None:
        if self.in_value:
            self.value.append(text)

    def _end(self, name: str) -> None:
        if name == "v":
            self.in_value = False
        elif name == "c":
            self._close("".join(self.value).strip())

    def _close(self, value: str) -> None:
        """The mark of one cell, once it has been read whole."""
        if not (self.filled or self.formula):
            return
        self.marks.last_row = max(self.marks.last_row, self.row)
        self.marks.last_column = max(self.marks.last_column, self.column)
        text = self._marked(value)
        if text is not None:
            self.marks.texts[self.row, self.column] = text

    def _marked(self, value: str) -> str | None:
        kind = self.cell.get("t", "n")
        if kind == "e":
            return value or "#ERROR"
        if kind != "n":
            return None
        if not value:
            return NOT_COMPUTED if self.formula else None
        code = self.codes[style] if (style := int(self.cell.get("s", 0))) < len(self.codes) else ""
        return shown(float(value), code) if code and not _is_date(code) else None


def _is_date(code: str) -> bool:
    """Whether a format code shows days or times; the reading library turns those into dates."""
    bare = re.sub(r'"[^"]*"|\\.|\[(?!h|m|s)[^\]]*\]', "", code.lower())
    return re.search("[dmyhs]", bare.replace("general", "")) is not None


def _column(letters: str) -> int:
    """The number of the column of those letters, from 1."""
    number = 0
    for letter in letters:
        number = 26 * number + ord(letter) - ord("A") + 1
    return number
