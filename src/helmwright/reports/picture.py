"""Where the pads sit, drawn in plain characters, and how each zone will feel."""

from collections.abc import Mapping

from helmwright.catalogue.zone import Zone
from helmwright.fit.outlook import BuildOutlook, ZoneOutlook
from helmwright.reports.layout import columns
from helmwright.reports.lengths import thickness

MARKS = 20
FEEL_KEY = (
    "Each mark is 5 of 100 possible heads:  < loose   = snug   > tight."
    " The pressure is the mean over the pad."
)


def shell_picture(outlook: BuildOutlook) -> list[str]:
    """The shell from its right side, face to the right, and from above, face to the top."""
    pad = {z.zone: thickness(z.pad_mm, z.pad_label) for z in outlook.zones}
    return [
        f"{'from the right side':^28}  {'from above':^28}".rstrip(),
        *(f"{left:<28}  {above}".rstrip() for left, above in _pair(pad)),
    ]


def _pair(pad: Mapping[Zone, str]) -> list[tuple[str, str]]:
    """The two drawings, line by line, each 28 wide."""
    jaws = f"jaw {pad[Zone.JAW_LEFT]} left, {pad[Zone.JAW_RIGHT]} right"
    return [
        (f"{'crown ' + pad[Zone.CROWN]:^28}", f"{'front ' + pad[Zone.FRONT]:^28}"),
        ("          ________          ", "          ________          "),
        ("        .'        '.        ", "        .'        '.        "),
        (" rear  /            \\  front", " left  |            |  right"),
        (
            f"{pad[Zone.REAR]:>5}  |            |  {pad[Zone.FRONT]}",
            f"{pad[Zone.LEFT]:>5}  |            |  {pad[Zone.RIGHT]}",
        ),
        ("       |      o    .'       ", "       |            |       "),
        ("nape    \\      .--'  face   ", "        '.________.'        "),
        (
            f"{pad[Zone.NAPE]:>5}    '-----'  ->        ",
            f"{'rear ' + pad[Zone.REAR]:^28}",
        ),
        (f"  {jaws}", ""),
    ]


def feel_rows(outlook: BuildOutlook) -> list[str]:
    """For each zone the pad, how it will feel over the possible heads, and the pressure."""
    widths = (10, 7, MARKS)
    head = columns(("Zone", "Pad, in", "loose - snug - tight", "kPa"), widths)
    rows = [
        columns(
            (
                str(z.zone),
                thickness(z.pad_mm, z.pad_label),
                feel_bar(z),
                f"{max(z.pressure_kpa.mean, 0.0):.1f}",
            ),
            widths,
        )
        for z in outlook.zones
    ]
    return [head, *rows]


def feel_bar(place: ZoneOutlook) -> str:
    """Twenty marks: the share of heads on which the zone is loose, snug and tight.

    A share of half a mark shows as one, so that what can happen is not hidden.
    """
    loose = _marks(place.loose)
    tight = min(_marks(place.tight), MARKS - loose)
    return "<" * loose + "=" * (MARKS - loose - tight) + ">" * tight


def _marks(share: float) -> int:
    """How many marks a share takes."""
    return int(share * MARKS + 0.5)
