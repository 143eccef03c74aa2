"""What a model sheet offers, in a few lines that can be compared with the maker's page."""

from helmwright.catalogue import advise
from helmwright.catalogue.sheet import ModelSheet, PadKind, Shell
from helmwright.reports.chances import model_words
from helmwright.reports.layout import bullets, columns, heading
from helmwright.reports.lengths import fraction, thickness

SHELL_WIDTHS = (6, 18, 18)
PAD_WIDTHS = (10, 34)


def sheet_page(sheet: ModelSheet, width: int) -> str:
    """Shells with their chart bands, pads with their thicknesses, and advice."""
    advice = bullets(advise(sheet), width)
    lines = [
        f"{model_words(sheet)}: the sheet can be used.",
        "",
        columns(("Shell", "Chart, in", "Chart, mm", "Inside l x b, mm"), SHELL_WIDTHS),
        *(_shell(shell) for shell in sheet.shells),
        "",
        columns(("Zone", "Pads, in", "As delivered"), PAD_WIDTHS),
        *(_pad(pad) for pad in sheet.pads),
        *([*heading("Worth knowing", width), *advice] if advice else []),
    ]
    return "\n".join(lines) + "\n"


def _shell(shell: Shell) -> str:
    band = f"{fraction(shell.chart_low_mm)} to {fraction(shell.chart_high_mm)}"
    mm = f"{shell.chart_low_mm:.0f} to {shell.chart_high_mm:.0f}"
    inside = f"{shell.inside_length_mm:.0f} x {shell.inside_breadth_mm:.0f}"
    return columns((str(shell.number), band, mm, inside), SHELL_WIDTHS)


def _pad(pad: PadKind) -> str:
    sizes = [thickness(mm, label) for label, mm in zip(pad.labels, pad.thicknesses_mm, strict=True)]
    return columns((str(pad.zone), ", ".join(sizes), sizes[pad.delivered]), PAD_WIDTHS)
