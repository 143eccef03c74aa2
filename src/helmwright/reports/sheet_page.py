"""What a model sheet offers, in a few lines that can be compared with the maker's page."""

from helmwright.catalogue import advise
from helmwright.catalogue.sheet import ModelSheet, PadKind, Shell
from helmwright.reports.chances import model_words
from helmwright.reports.insides import GUESSED, guessed_numbers, other_guesses
from helmwright.reports.layout import bullets, columns, heading, wrapped
from helmwright.reports.lengths import fraction, thickness

SHELL_WIDTHS = (6, 18, 18)
PAD_WIDTHS = (10, 34)


def sheet_page(sheet: ModelSheet, width: int, *, is_new: bool = False) -> str:
    """Shells with their chart bands, pads with their thicknesses, and advice.

    Of a sheet just written from answers, whose soft layers nobody named, it tells no windows.
    """
    advice = bullets(advise(sheet, on_assumed_layers=not is_new), width)
    lines = [
        *wrapped(f"{model_words(sheet)}: the sheet can be used.", width),
        *(line for said in sheet_guesses(sheet) for line in wrapped(said, width)),
        "",
        columns(("Shell", "Chart, in", "Chart, mm", "Inside l x b, mm"), SHELL_WIDTHS),
        *(_shell(shell, sheet) for shell in sheet.shells),
        "",
        columns(("Zone", "Pads, in", "As delivered"), PAD_WIDTHS),
        *(_pad(pad) for pad in sheet.pads),
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


def _shell(shell: Shell, sheet: ModelSheet) -> str:
    band = f"{fraction(shell.chart_low_mm)} to {fraction(shell.chart_high_mm)}"
    mm = f"{shell.chart_low_mm:.0f} to {shell.chart_high_mm:.0f}"
    inside = f"{shell.inside_length_mm:.0f} x {shell.inside_breadth_mm:.0f}"
    lacking = sheet.insides.unmeasured(shell.number) if sheet.insides else ()
    if {"inside_length", "inside_breadth"} & set(lacking):
        inside += " (assumed)"
    return columns((str(shell.number), band, mm, inside), SHELL_WIDTHS)


def _pad(pad: PadKind) -> str:
    if not pad.seats:
        return columns((str(pad.zone), "no pad"), PAD_WIDTHS)
    sizes = [thickness(mm, label) for label, mm in zip(pad.labels, pad.thicknesses_mm, strict=True)]
    return columns((str(pad.zone), ", ".join(sizes), sizes[pad.delivered]), PAD_WIDTHS)
