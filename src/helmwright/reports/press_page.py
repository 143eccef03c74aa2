"""What a press test says, with the section to put into the sheet."""

import math

from helmwright.catalogue.advice import advise
from helmwright.catalogue.press import UNLIKELY, is_far
from helmwright.catalogue.sheet import ModelSheet, PadKind, PressFinding
from helmwright.catalogue.window import snug_window
from helmwright.reports.chances import model_words
from helmwright.reports.layout import bullets, heading, wrapped
from helmwright.reports.lengths import inches

LEAST_SHOWN_MM = 25.4 / 16.0
"""A sixteenth of an inch, the least that is told in inches."""

MEANING = (
    (
        "Assumed: errors of the thickness, of the scale under a pressing hand and of the plate's"
        " area, how pieces of one kind differ, and how far the sheet's curve may be off. The curve"
        " keeps its form; the energy layer keeps its own."
    ),
    "A pad's feel in a slow press says nothing of what it does in a blow.",
)
UNCHANGED = "The sheet was not changed. Put this at its end, and check it again:"
DOUBTED = (
    "The sheet was not changed. What the press says is doubtful; only where it comes out the same"
    " once more, put this at the sheet's end, and check it again:"
)


def press_page(before: ModelSheet, after: ModelSheet, block: str, width: int) -> str:
    """A new test: what it says, what it changes, and the section for the sheet."""
    finding = after.presses[-1]
    told = [each for each in advise(after) if each.startswith("press test of the")]
    lines = [
        *wrapped(f"Model: {model_words(after)}", width),
        *heading("What the press says", width),
        *bullets((told[-1] + ".", *_windows(before, after, finding), *MEANING), width),
        *heading("For the sheet", width),
        *wrapped(DOUBTED if is_doubtful(finding) else UNCHANGED, width),
        "",
        block.rstrip("\n"),
    ]
    return "\n".join(lines) + "\n"


def is_doubtful(finding: PressFinding) -> bool:
    """Whether a test should be repeated before a sheet is changed by it."""
    return is_far(finding) or finding.misfit < UNLIKELY


def _windows(before: ModelSheet, after: ModelSheet, finding: PressFinding) -> list[str]:
    """How the pads' snug windows change, and their scatter with them."""
    said = []
    for zone in finding.zones:
        one, two = (_window(sheet.pad(zone)) for sheet in (before, after))
        said.append(f"{zone}: snug over {two} of squeeze in the delivered pad, {one} before.")
    if finding.fit_layer_spread_mm > 0:
        low, high = (
            finding.fit_layer_mm + side * 1.96 * finding.fit_layer_spread_mm for side in (-1, 1)
        )
        said.append(
            f"fit layer: {inches(finding.fit_layer_mm)}, {inches(max(low, 0.0))} to"
            f" {inches(high)} in 19 of 20."
        )
    return said


def _window(pad: PadKind) -> str:
    width = snug_window(pad).window_mm
    shown = inches(width) if width >= 0.5 * LEAST_SHOWN_MM else "less than 1/16 in"
    return f"{shown} ({math.floor(10 * width + 0.5) / 10:.1f} mm)"
