"""What a model sheet offers, in a few lines that can be compared with the maker's page."""

from helmwright.catalogue import advise
from helmwright.catalogue.sheet import ModelSheet, PadKind, Shell
from helmwright.reports.chances import model_words
from helmwright.reports.insides import GUESSED, guessed_numbers, other_guesses
from helmwright.reports.layout import bullets, columns, heading, wrapped
from helmwright.reports.lengths import fraction, thickness

SHELL_WIDTHS = (6, 18, 18)
PAD_WIDTHS = (10, 34)
NARROW = 62
"""Columns under which there are no tables, but a paragraph for each row."""


def sheet_page(sheet: ModelSheet, width: int, *, is_new: bool = False) -> str:
    """Shells with their chart bands, pads with their thicknesses, and advice.

    Of a sheet just written from answers, whose soft layers nobody named, it tells no windows.
    """
    advice = bullets(advise(sheet, on_assumed_layers=not is_new), width)
    lines = [
        *wrapped(f"{model_words(sheet)}: the sheet can be used.", width),
        *(line for said in sheet_guesses(sheet) for line in wrapped(said, width)),
        "",
        *(_narrow(sheet, width) if width < NARROW else _tables(sheet)),
        *([*heading("Worth knowing", width), *advice] if advice else []),
    ]
    return "\n".join(lines) + "\n"


def sheet_guesses(sheet: ModelSheet) -> tuple[str, ...]:
    """For whom the model is made, and what the sheet leaves out."""
    ages = sheet.ages and f"Made for players of {sheet.ages[0]:g} to {sheet.ages[1]:g} years."
    numbers = guessed_numbers(sheet)
    insides = numbers and f"{GUESSED.capitalize()}: {numbers}."
    others = other_guesses(sheet)
    rest = others and f"Not on the sheet, usual ones assumed: {others}."
    return tuple(said for said in (ages, insides, rest) if said)


def _tables(sheet: ModelSheet) -> list[str]:
    shells = [_shell(shell, sheet) for shell in sheet.shells]
    return [
        columns(("Shell", "Chart, in", "Chart, mm", "Inside l x b, mm"), SHELL_WIDTHS),
        *(columns(cells, SHELL_WIDTHS) for cells in shells),
        "",
        columns(("Zone", "Pads, in", "As delivered"), PAD_WIDTHS),
        *(columns(_pad(pad), PAD_WIDTHS) for pad in sheet.pads),
    ]


def _narrow(sheet: ModelSheet, width: int) -> list[str]:
    shells = (_shell(shell, sheet) for shell in sheet.shells)
    pads = (_pad(pad) for pad in sheet.pads)
    said = [
        *(
            f"Shell {n}: {band} in ({mm} mm), inside in mm {inside}"
            for n, band, mm, inside in shells
        ),
        "",
        *(": ".join((zone, "; as delivered ".join(sizes))) for zone, *sizes in pads),
    ]
    return [line for each in said for line in wrapped(each, width, hanging="  ")]


def _shell(shell: Shell, sheet: ModelSheet) -> tuple[str, str, str, str]:
    """Its number, its band in inches and in mm, and length by breadth inside."""
    band = f"{fraction(shell.chart_low_mm)} to {fraction(shell.chart_high_mm)}"
    mm = f"{shell.chart_low_mm:.0f} to {shell.chart_high_mm:.0f}"
    inside = f"{shell.inside_length_mm:.0f} x {shell.inside_breadth_mm:.0f}"
    lacking = sheet.insides.unmeasured(shell.number) if sheet.insides else ()
    if {"inside_length", "inside_breadth"} & set(lacking):
        inside += " (assumed)"
    return str(shell.number), band, mm, inside


def _pad(pad: PadKind) -> tuple[str, ...]:
    """Its zone, its thicknesses, and the one that the helmet comes with."""
    if not pad.seats:
        return str(pad.zone), "no pad"
    sizes = [thickness(mm, label) for label, mm in zip(pad.labels, pad.thicknesses_mm, strict=True)]
    return str(pad.zone), ", ".join(sizes), sizes[pad.delivered]
