"""One section of a sheet, read key by key, with every fault noted on its line.

A key that is missing or wrong is noted and a stand-in returned, so that reading goes on and the
person hears of all faults at once. What was read from a section with faults is not used.
"""

import difflib
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from helmwright.catalogue.reading.fault import SheetFault
from helmwright.catalogue.reading.length import bare_number, likely_length, sheet_length_mm
from helmwright.catalogue.reading.positions import Path
from helmwright.units import NoUnitError, UnitsError

_LENGTH_EXAMPLE = 'a length with its unit in quotation marks, such as "7/8 in" or "22 mm"'


@dataclass
class Report:
    """The faults found so far, and the lines to pin them on."""

    lines: dict[Path, int]
    faults: list[SheetFault] = field(default_factory=list)

    def line(self, path: Path) -> int:
        """Line of a path, or of the nearest section around it."""
        while path and path not in self.lines:
            path = path[:-1]
        return self.lines.get(path, 1)

    def add(self, path: Path, key: str, wrong: str, right: str) -> None:
        """Note a fault."""
        self.faults.append(SheetFault(self.line(path), key, wrong, right))


class Table:
    """A section: its keys, its place in the file, and its name in words.

    Parameters
    ----------
    data
        Keys and values as the TOML parser gave them.
    path
        Where it stands in the file.
    title
        How to speak of it to a person, "" for the sheet itself.
    report
        Where faults go.
    """

    def __init__(self, data: dict[str, Any], path: Path, title: str, report: Report) -> None:
        self.data = data
        self.path = path
        self.title = title
        self.report = report
        self.asked: set[str] = set()
        self.sound = True

    def fault(self, key: str, wrong: str, right: str, *, item: int | None = None) -> None:
        """Note a fault of one key, or of one item of its list."""
        self.sound = False
        path = (*self.path, key) if key else self.path
        place = ", ".join(part for part in (self.title, key) if part)
        self.report.add(path if item is None else (*path, item), place, wrong, right)

    def may_have(self, key: str) -> bool:
        """Whether the sheet writes this key, which it need not."""
        self.asked.add(key)
        return key in self.data

    def take(self, key: str, right: str, *, optional: bool = False) -> Any:
        """The raw value; None, noted unless optional, where the key is missing."""
        self.asked.add(key)
        if key not in self.data and not optional:
            self.sound = False
            self.report.add(self.path, self.title, f"{key} is missing", f"Add {key}: {right}")
        return self.data.get(key)

    def text(
        self, key: str, right: str, *, default: str | None = None, choices: Iterable[str] = ()
    ) -> str:
        """A text, one of `choices` where they are given."""
        value = self.take(key, right, optional=default is not None)
        if value is None:
            return default or ""
        if not isinstance(value, str) or not value.strip():
            self.fault(key, f"{shown(value)} is no text", f"Write {right}")
            return default or ""
        return self.chosen(key, value.strip(), tuple(choices))

    def chosen(
        self, key: str, value: str, choices: tuple[str, ...], *, item: int | None = None
    ) -> str:
        """The value, noted where it is none of the choices."""
        if choices and value not in choices:
            wrong = f'"{value}" is not one of the words for {key}{near(value, choices)}'
            self.fault(key, wrong, "Write one of: " + ", ".join(choices), item=item)
        return value

    def number(
        self, key: str, low: float, high: float, unit: str, *, default: float | None = None
    ) -> float:
        """A number within its allowed interval."""
        right = f"a number from {low:g} to {high:g}{' ' + unit if unit else ''}"
        value = self.take(key, right, optional=default is not None)
        if value is None:
            return low if default is None else default
        if isinstance(value, bool) or not isinstance(value, int | float):
            self.fault(key, f"{shown(value)} is no number", f"Write {right}, without quotes")
            return low
        if not low <= value <= high:
            self.fault(key, f"{float(str(value)):g} is out of range", f"Write {right}")
            return low
        return float(value)

    def whole(self, key: str, low: int, high: int, *, default: int | None = None) -> int:
        """A whole number within its allowed interval."""
        right = f"a whole number from {low} to {high}"
        value = self.take(key, right, optional=default is not None)
        if value is None:
            return low if default is None else default
        if isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high:
            self.fault(key, f"{shown(value)} is not {right}", f"Write {right}, without quotes")
            return low
        return value

    def flag(self, key: str, right: str, *, default: bool | None = None) -> bool:
        """True or false."""
        value = self.take(key, right, optional=default is not None)
        if value is None:
            return bool(default)
        if not isinstance(value, bool):
            self.fault(key, f"{shown(value)} is neither true nor false", f"Write {right}")
            return False
        return value

    def length(
        self, key: str, low_mm: float, high_mm: float, *, default: float | None = None
    ) -> float:
        """A length with its unit [mm]."""
        value = self.take(key, _LENGTH_EXAMPLE, optional=default is not None)
        if value is None:
            return low_mm if default is None else default
        return self.as_length(key, value, low_mm, high_mm)

    def as_length(
        self, key: str, value: Any, low_mm: float, high_mm: float, *, item: int | None = None
    ) -> float:
        """One value of a key as a length [mm]."""
        if not isinstance(value, str):
            bare = isinstance(value, int | float) and not isinstance(value, bool)
            wrong = (
                bare_number(str(value), low_mm, high_mm) if bare else f"{shown(value)} is no length"
            )
            self.fault(key, wrong, f"Write {_LENGTH_EXAMPLE}", item=item)
            return low_mm
        try:
            length = sheet_length_mm(value)
        except UnitsError as error:
            bare = isinstance(error, NoUnitError)
            wrong = bare_number(value, low_mm, high_mm) if bare else str(error)
            self.fault(key, wrong, f"Write {_LENGTH_EXAMPLE}", item=item)
            return low_mm
        if not low_mm <= length <= high_mm:
            meant = likely_length(value, low_mm, high_mm)
            wrong = f"{shown(value)} is out of range{f'; {meant}?' if meant else ''}"
            self.fault(key, wrong, f"Write a length from {interval(low_mm, high_mm)}", item=item)
        return length

    def listed(
        self, key: str, right: str, *, optional: bool = False, empty: bool = False
    ) -> list[Any]:
        """A list, not empty unless that is allowed; [] where it is missing or no list."""
        value = self.take(key, right, optional=optional)
        if value is None:
            return []
        if not isinstance(value, list) or not (value or empty):
            wrong = "the list is empty" if value == [] else f"{shown(value)} is no list"
            self.fault(key, wrong, f"Write {right}")
            return []
        return value

    def lengths(
        self, key: str, right: str, low_mm: float, high_mm: float, *, optional: bool = False
    ) -> tuple[tuple[str, float], ...]:
        """A list of lengths, each as written and in [mm]."""
        items = enumerate(self.listed(key, right, optional=optional))
        return tuple(
            (str(value).strip(), self.as_length(key, value, low_mm, high_mm, item=place))
            for place, value in items
        )

    def texts(
        self, key: str, right: str, *, choices: Iterable[str] = (), optional: bool = False
    ) -> tuple[str, ...]:
        """A list of texts, each one of `choices` where they are given."""
        found = []
        for place, value in enumerate(self.listed(key, right, optional=optional)):
            if not isinstance(value, str) or not value.strip():
                self.fault(key, f"{shown(value)} is no text", f"Write {right}", item=place)
            else:
                found.append(self.chosen(key, value.strip(), tuple(choices), item=place))
        return tuple(found)

    def numbers(self, key: str, low: float, high: float, right: str) -> tuple[float, ...]:
        """A list of numbers, each within the interval."""
        found = []
        for place, value in enumerate(self.listed(key, right)):
            good = isinstance(value, int | float) and not isinstance(value, bool)
            if not good or not low <= value <= high:
                wrong = f"{shown(value)} is not a number from {low:g} to {high:g}"
                self.fault(key, wrong, f"Write {right}", item=place)
            else:
                found.append(float(value))
        return tuple(found)

    def table(self, key: str, *, optional: bool = False) -> "Table | None":
        """The section of that name."""
        value = self.take(key, f"a section [{key}]", optional=optional)
        if value is None:
            return None
        if not isinstance(value, dict):
            self.fault(key, f"{key} is no section", f"Write [{key}] on a line of its own")
            return None
        return Table(value, (*self.path, key), key.replace("_", " "), self.report)

    def tables(self, key: str, *, optional: bool = False) -> "list[Table]":
        """The sections of that name that may be repeated."""
        value = self.take(key, f"one section [[{key}]] for each", optional=optional)
        if value is None:
            return []
        if not isinstance(value, list) or not all(isinstance(item, dict) for item in value):
            wrong = f"{key} is no row of sections"
            self.fault(key, wrong, f"Write [[{key}]], in double brackets, above each one")
            return []
        word = key.replace("_", " ")
        return [
            Table(item, (*self.path, key, place), f"{word} {place + 1}", self.report)
            for place, item in enumerate(value)
        ]

    def close(self) -> bool:
        """Note the keys that nobody asked for; return whether the section is without fault."""
        for key in self.data:
            if key not in self.asked:
                wrong = f"there is no such key here{near(key, self.asked)}"
                self.fault(key, wrong, "The keys here are: " + ", ".join(sorted(self.asked)))
        return self.sound


def shown(value: Any) -> str:
    """A value as the person wrote it, near enough to be recognized."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list):
        return "[" + ", ".join(map(shown, value)) + "]"
    return f'"{value}"' if isinstance(value, str) else str(value)


def near(word: str, words: Iterable[str]) -> str:
    """A question about the nearest known word, where there is one."""
    found = difflib.get_close_matches(word, list(words), n=1, cutoff=0.7)
    return f' (did you mean "{found[0]}"?)' if found else ""


def interval(low_mm: float, high_mm: float) -> str:
    """An allowed interval of lengths, in both units."""
    return f"{low_mm:g} to {high_mm:g} mm ({low_mm / 25.4:.2f} to {high_mm / 25.4:.2f} in)"
