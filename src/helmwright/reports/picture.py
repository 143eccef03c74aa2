"""Where the pads sit, drawn in plain characters, and how each zone will feel."""

from collections.abc import Sequence
from itertools import zip_longest

from helmwright.drawing import NUMBERS, Section, characters
from helmwright.fit.outlook import BuildOutlook, ZoneOutlook
from helmwright.reports.layout import columns, wrapped
from helmwright.reports.lengths import thickness

MARKS, FEW_MARKS = 20, 10
NARROW = 44
"""Width under which a bar has few marks."""

FEEL_KEY = (
    "Each mark: {share:.0f} of 100 heads, < loose = snug > tight. kPa: half the heads more, half"
    " less."
)
PICTURE_KEY = "# shell  : pad  . head, the middle one of the possible heads; pads in inches."
PICTURE_WIDTH = 29
MM_PER_COLUMN = 9.6
VIEWS = {
    "side": "from the right side",
    "level": "from above, left at the left",
    "jaw": "at the jaw, from behind",
}


def shell_picture(drawn: Sequence[Section], width: int) -> list[str]:
    """As many of the sections as the width has room for, side by side.

    The jaw pads stand in the list of zones, where their section has no room.
    """
    room = max((width + 1) // (PICTURE_WIDTH + 1), 1)
    shown = drawn[:room]
    titles = [f"{VIEWS[section.name]:^{PICTURE_WIDTH}}" for section in shown]
    pictures = [
        characters(section, width=PICTURE_WIDTH, mm_per_column=MM_PER_COLUMN) for section in shown
    ]
    return [
        " ".join(f"{part:<{PICTURE_WIDTH}}" for part in parts).rstrip()
        for parts in [titles, *zip_longest(*pictures, fillvalue="")]
    ]


def feel_rows(outlook: BuildOutlook, width: int) -> list[str]:
    """For each zone the pad, how it will feel over the possible heads, and the pressure; a key."""
    marks = FEW_MARKS if width < NARROW else MARKS
    widths = (10, 7, marks)
    felt = "loose - snug - tight" if marks == MARKS else "how felt"
    head = columns(("Zone", "Pad, in", felt, "kPa"), widths)
    rows = [
        columns(
            (
                str(z.zone),
                thickness(z.pad_mm, z.pad_label),
                feel_bar(z, marks),
                f"{max(z.pressure_kpa.median, 0.0):.1f}",
            ),
            widths,
        )
        for z in sorted(outlook.zones, key=lambda z: NUMBERS[z.zone])
    ]
    return [head, *rows, *wrapped(FEEL_KEY.format(share=100 / marks), width)]


def feel_bar(place: ZoneOutlook, marks: int = MARKS) -> str:
    """So many marks: the share of heads on which the zone is loose, snug and tight.

    A share of half a mark shows as one, so that what can happen is not hidden.
    """
    loose = _marks(place.loose, marks)
    tight = min(_marks(place.tight, marks), marks - loose)
    return "<" * loose + "=" * (marks - loose - tight) + ">" * tight


def _marks(share: float, marks: int) -> int:
    """How many marks a share takes."""
    return int(share * marks + 0.5)
