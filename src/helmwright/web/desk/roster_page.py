"""What the roster's page shows, from its rows: who is chosen, in which order, on which scale."""

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from django.utils.safestring import SafeString

from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.chart import charted_shell
from helmwright.records.readers.roster import PlayerRow, by_number
from helmwright.records.readers.standing import STANDINGS
from helmwright.reports.chances import of_hundred
from helmwright.units import MM_PER_INCH
from helmwright.web.desk.inch_tape import (
    STACK,
    InchScale,
    bands,
    forecast,
    heads,
    tape,
    whisker,
)

USUAL_MM = (20.5 * MM_PER_INCH, 25.0 * MM_PER_INCH)
"""The stretch of tape that is shown where there is neither a chart nor a head."""

SURELY_LAST = 1e6

ORDERS: Mapping[str, tuple[str, Callable[[PlayerRow], Any]]] = {
    "number": ("number", lambda row: by_number(row.player)),
    "name": ("name", lambda row: (row.player.name.lower(), by_number(row.player))),
    "standing": (
        "where each stands",
        lambda row: (STANDINGS.index(row.standing), by_number(row.player)),
    ),
    "head": ("head", lambda row: row.size.middle_mm if row.size else SURELY_LAST),
}
"""What rows may be ordered by: a word for people, and the key."""


LEFT = "left"
"""The choice of those who are not on the roster any more."""


@dataclass(frozen=True, slots=True)
class Filter:
    """One choice of where players stand."""

    word: str
    mark: str
    count: int
    address: str
    is_chosen: bool


@dataclass(frozen=True, slots=True)
class ShellBand:
    """A shell of the chart, with who falls to it and what there is."""

    number: int
    name: str
    left: float
    right: float
    middle: float
    head_count: int
    good: int | None

    @property
    def width(self) -> float:
        """How much of the scale it takes [%]."""
        return self.right - self.left

    @property
    def mark_at(self) -> int:
        """How far left of its middle a mark clears the count of helmets [px]."""
        return 4 * len(f"{self.good} good") + 12

    @property
    def is_short(self) -> bool:
        """Whether more heads fall to it than helmets are good to issue."""
        return self.good is not None and self.head_count > self.good


@dataclass(frozen=True, slots=True)
class Listed:
    """A row, and its head on the scale."""

    row: PlayerRow
    drawn: SafeString
    says: str
    found_by: str


@dataclass(frozen=True, slots=True)
class RosterPicture:
    """The distribution, the tape and the bands, on one scale."""

    scale: InchScale
    tape: SafeString
    bands: SafeString
    heads: SafeString
    shells: tuple[ShellBand, ...]
    height: int = STACK


def matches(row: PlayerRow, find: str) -> bool:
    """Whether the row is found by a number or a part of the name."""
    wanted = find.strip().lower().removeprefix("#")
    return wanted in row.player.name.lower() or wanted == row.player.number.lower()


def chosen_rows(
    rows: Sequence[PlayerRow], *, standing: str, find: str, order: str
) -> list[PlayerRow]:
    """Those that were asked for, in the order that was asked for."""
    found = [
        row
        for row in rows
        if (not standing or row.standing.word == standing) and (not find or matches(row, find))
    ]
    return sorted(found, key=ORDERS.get(order, ORDERS["number"])[1])


def filters(
    rows: Sequence[PlayerRow], gone: int, chosen: str, address: Callable[[str], str]
) -> list[Filter]:
    """Everyone, each standing that somebody has, and those who left."""
    counts = Counter(row.standing for row in rows)
    found = [Filter("everyone", "", len(rows), address(""), not chosen)]
    found += [
        Filter(each.word, each.mark, counts[each], address(each.word), chosen == each.word)
        for each in STANDINGS
        if counts[each] or chosen == each.word
    ]
    if gone or chosen == LEFT:
        found.append(Filter(LEFT, "", gone, address(LEFT), chosen == LEFT))
    return found


def picture(
    rows: Sequence[PlayerRow],
    sheet: ModelSheet | None,
    good: Mapping[int, int] | None,
    *,
    is_one: bool = False,
) -> RosterPicture:
    """Everybody's heads over the chart's bands.

    Parameters
    ----------
    rows
        The whole roster: the scale does not jump when somebody is looked for.
    sheet
        Whose chart; None where the room has no sheet.
    good
        Helmets good to issue, by shell; None where that is not known.
    is_one
        Whether the tape is pulled out for one head, from its beginning on.
    """
    measured = [row.size.middle_mm for row in rows if row.size and row.is_measured]
    shells = sorted(sheet.shells, key=lambda one: one.chart_low_mm) if sheet else []
    ends = [edge for one in shells for edge in (one.chart_low_mm, one.chart_high_mm)]
    ends += [each for row in rows if row.size for each in (row.size.low_mm, row.size.high_mm)]
    scale = InchScale.around(ends or USUAL_MM)
    edges = sorted({edge for one in shells for edge in (one.chart_low_mm, one.chart_high_mm)})
    return RosterPicture(
        scale=scale,
        tape=tape(scale, (scale.low_mm if is_one else min(measured), max(measured)))
        if measured
        else tape(scale, None),
        bands=bands(scale, edges),
        heads=SafeString(heads(scale, measured)),
        shells=tuple(_bands(scale, sheet, measured, good)) if sheet else (),
    )


def _bands(
    scale: InchScale,
    sheet: ModelSheet,
    measured: Sequence[float],
    good: Mapping[int, int] | None,
) -> list[ShellBand]:
    given = Counter(charted_shell(sheet, np.array(measured, dtype=float)).tolist())
    return [
        ShellBand(
            one.number,
            one.name,
            scale.at(one.chart_low_mm),
            scale.at(one.chart_high_mm),
            scale.at(0.5 * (one.chart_low_mm + one.chart_high_mm)),
            given[one.number],
            None if good is None else good.get(one.number, 0),
        )
        for one in sheet.shells
    ]


def listed(rows: Sequence[PlayerRow], scale: InchScale) -> list[Listed]:
    """Each row with its head drawn."""
    return [Listed(row, head_drawn(row, scale), says(row), _found_by(row)) for row in rows]


def _found_by(row: PlayerRow) -> str:
    return f"{row.player.number} {row.player.name}".lower()


def says(row: PlayerRow) -> str:
    """What stands under helmet and build: what is waited for, proposed or forecast."""
    if row.why:
        return row.why
    if row.shell is not None and row.found_right is not None and not row.held:
        return f"shell {row.shell}; the chance of a fit is {of_hundred(row.found_right)}"
    if row.size is not None and row.size.origin == "forecast":
        body = row.player.stature_mm is not None or row.player.weight_kg is not None
        return "forecast from height and weight" if body else "forecast; height and weight help"
    return ""


def head_drawn(row: PlayerRow, scale: InchScale) -> SafeString:
    """A head as it hangs from the tape; nothing where nothing can be said."""
    size = row.size
    if size is None:
        return SafeString("")
    if size.origin == "forecast":
        return forecast(scale, size.low_mm, size.high_mm)
    return whisker(scale, size.middle_mm, size.low_mm, size.high_mm)
