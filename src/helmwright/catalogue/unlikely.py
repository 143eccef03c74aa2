"""Measured insides that do not go with the size chart and the pad bags: slips of a caliper."""

from collections.abc import Iterator
from math import hypot

from helmwright.catalogue.insides import INSIDE_NUMBERS, INSIDE_WORDS
from helmwright.catalogue.sheet import ModelSheet, Shell
from helmwright.catalogue.usual import COMMON_SPREAD, OWN_SHARE, usual_head, usual_numbers
from helmwright.catalogue.zone import ZONES
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED
from helmwright.units import inches

FAR = Figure(
    4.0, "1", ASSUMED, note="spreads from the usual past which a measured inside is asked about"
)


def unlikely_insides(sheet: ModelSheet) -> tuple[str, ...]:
    """Questions about measured numbers that lie far from those of a usual shell.

    Notes
    -----
    Usual is the shell in which the delivered build fits the middle head of the band
    (`helmwright.catalogue.usual`); the spreads are those by which such a guess is off.
    """
    pads = dict(zip(ZONES, sheet.pads, strict=True))
    told: list[str] = []
    for shell in sheet.shells:
        middle = usual_head(sheet.ages, 0.5 * (shell.chart_low_mm + shell.chart_high_mm))
        told += _of_shell(sheet, shell, usual_numbers(middle, pads))
    return tuple(told)


def _of_shell(sheet: ModelSheet, shell: Shell, usual: dict[str, float]) -> Iterator[str]:
    guessed = () if sheet.insides is None else sheet.insides.unmeasured(shell.number)
    for number in INSIDE_NUMBERS:
        measured, expected = getattr(shell, f"{number}_mm"), usual[number]
        spread = COMMON_SPREAD[number].value * hypot(1.0, OWN_SHARE.value)
        if number not in guessed and abs(measured - expected) > FAR.value * spread:
            yield (
                f"shell {shell.number}, {INSIDE_WORDS[number]}: {_both(measured)} does not go"
                f" with its band and the pads as delivered, with which some {_both(expected)} would"
                " (assumed). Measure again, or check chart and pads"
            )


def _both(length_mm: float) -> str:
    return f"{inches(length_mm, mark=' in')} ({length_mm:.0f} mm)"
