"""What the maker's size chart says, over the possible heads."""

import numpy as np
import numpy.typing as npt

from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.outlook import ShellChance
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED

Floats = npt.NDArray[np.float64]

POSSIBLE = Figure(
    0.15, "1", ASSUMED, note="chance by the chart from which on a shell is worth trying"
)
MOST_SHELLS = 3


def charted_shell(sheet: ModelSheet, tape_mm: Floats) -> npt.NDArray[np.int64]:
    """The shell that the chart gives each tape reading, shape (n,); 0 where it gives none.

    Notes
    -----
    Between two bands, and where two bands overlap or share an end, the sheet's word holds. The
    larger shell is the largest whose band has started, or the next where it has ended already;
    the smaller one is the smallest whose band has not ended, or the one before where it has not
    started. Both ends of the bands grow from shell to shell.
    """
    shells = sorted(sheet.shells, key=lambda shell: shell.chart_low_mm)
    lows = np.array([shell.chart_low_mm for shell in shells])
    highs = np.array([shell.chart_high_mm for shell in shells])
    numbers = np.array([0, *[shell.number for shell in shells], 0])
    started = np.searchsorted(lows, tape_mm, side="right")
    not_ended = np.searchsorted(highs, tape_mm, side="left") + 1
    choose = np.minimum if sheet.between_bands == "smaller" else np.maximum
    place = np.where(tape_mm < lows[0], 0, choose(started, not_ended))
    place = np.where(tape_mm > highs[-1], len(shells) + 1, place)
    return np.asarray(numbers[place], dtype=np.int64)


def shell_chances(sheet: ModelSheet, tape_mm: Floats) -> tuple[ShellChance, ...]:
    """How likely the chart gives each shell, likeliest first; those it never gives left out."""
    given = charted_shell(sheet, tape_mm)
    shares = [(shell.number, float((given == shell.number).mean())) for shell in sheet.shells]
    found = [ShellChance(number, share) for number, share in shares if share > 0]
    return tuple(sorted(found, key=lambda one: (-one.chance, one.shell)))


def shells_to_try(sheet: ModelSheet, tape_mm: Floats) -> tuple[int, ...]:
    """The shells that the chart makes possible, likeliest first; the nearest where none is."""
    chances = shell_chances(sheet, tape_mm)
    found = tuple(one.shell for one in chances if one.chance >= POSSIBLE.value)
    return found[:MOST_SHELLS] or (_nearest(sheet, float(np.median(tape_mm))),)


def _nearest(sheet: ModelSheet, tape_mm: float) -> int:
    return min(
        sheet.shells,
        key=lambda shell: abs(tape_mm - 0.5 * (shell.chart_low_mm + shell.chart_high_mm)),
    ).number
