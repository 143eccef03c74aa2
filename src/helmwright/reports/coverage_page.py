"""Which heads a model can be made to fit, as a page."""

from helmwright.fit.coverage import BorderCoverage, Coverage, Hole, Share, ShellCoverage
from helmwright.fit.outlook import FaultKind
from helmwright.reports.chances import LIMIT_ERRORS, of_hundred, short_hundredths
from helmwright.reports.layout import bullets, columns, heading, wrapped
from helmwright.reports.lengths import fraction, inches

WIDTHS = (6, 9, 13, 15)
HOLES_SHOWN = 2
WORTH_ADDING = 0.05
"""A thickness that closes a smaller share of the holes is not worth naming (assumed)."""

FEW_HEADS = 20
"""Of fewer heads no share is told (assumed)."""

KEY = (
    "Each head is drawn from the surveys with all that no tape tells, bare, and gets the best pads"
    " for it alone. Fits: by the limits of loose, tight and brow height, which are assumed. Some"
    " build fits: what the helmet can do; a first proposal from a tape finds it far less often."
)


def coverage_page(coverage: Coverage, seed: int, width: int) -> str:
    """The table of the shells, what lies between bands, where the holes are, what would help."""
    lines = [
        *heading("Coverage: heads that at least one build fits", width),
        *wrapped(f"{_whose(coverage)} {KEY}", width),
        *([*wrapped(GUESSED, width)] if coverage.guessed else []),
        "",
        columns(("Shell", "Heads of", "As delivered", "Some build fits", "In the way"), WIDTHS),
        columns(("", "100", "fits of 100", "of 100", "of the others"), WIDTHS),
        *(_shell(each) for each in coverage.shells),
        "",
        *bullets(_sentences(coverage), width),
        *wrapped(f"Draws follow from seed {seed}; the same seed, the same table.", width),
    ]
    return "\n".join(lines) + "\n"


GUESSED = (
    "Insides not measured: usual ones assumed, drawn anew for every head. A real shell is one of"
    " them: its coverage may be well above or below, and the holes elsewhere."
)


def _whose(coverage: Coverage) -> str:
    if coverage.ages is None:
        return "Heads of adults, one in twenty a woman's (assumed mix)."
    low, high = coverage.ages
    return (
        f"Heads of players of {low:g} to {high:g} years, all ages alike, one in twenty a girl's"
        " (assumed mix)."
    )


def _shell(each: ShellCoverage) -> str:
    if each.heads < FEW_HEADS:
        number = str(each.shell)
        return columns((number, short_hundredths(each.share), "", "too few heads", ""), WIDTHS)
    holes = ", ".join(hole_words(hole) for hole in each.holes[:HOLES_SHOWN])
    cells = (
        str(each.shell),
        short_hundredths(each.share),
        short_hundredths(each.delivered.value),
        _give_or_take(each.covered),
        holes or "nothing",
    )
    return columns(cells, WIDTHS)


def _give_or_take(share: Share) -> str:
    return f"{short_hundredths(share.value)} +-{max(100 * LIMIT_ERRORS * share.error, 1):.0f}"


def hole_words(hole: Hole) -> str:
    """A fault that stays, and how often: "crown tight 4"."""
    brow = {FaultKind.BROW_LOW: "brow low", FaultKind.BROW_HIGH: "brow high"}
    what = brow.get(hole.kind) or f"{hole.zone} {hole.kind}"
    return f"{what} {short_hundredths(hole.share)}"


def _sentences(coverage: Coverage) -> list[str]:
    """In all; between bands; outside the chart; what would help."""
    said = [f"Of all heads in the chart, some build fits {of_hundred(coverage.covered)}."]
    said += [_border(each) for each in coverage.borders]
    said.append(
        f"Outside the chart: {of_hundred(coverage.below)} heads below it,"
        f" {of_hundred(coverage.above)} above."
    )
    return [*said, _added(coverage)]


def _border(each: BorderCoverage) -> str:
    where = (
        f"Between shells {each.smaller} and {each.larger}, {fraction(each.low_mm)} to"
        f" {inches(each.high_mm)}, lie {of_hundred(each.share)} heads:"
    )
    if each.heads < FEW_HEADS:
        return f"{where} too few to say what fits them."
    return (
        f"{where} some build fits"
        f" {short_hundredths(each.in_smaller.value)} in the smaller shell,"
        f" {short_hundredths(each.in_larger.value)} in the larger,"
        f" {of_hundred(each.in_either.value)} in one or the other."
    )


def _added(coverage: Coverage) -> str:
    """The thickness that would close most holes, where one is worth it."""
    added = coverage.added
    if added is None or added.closes < WORTH_ADDING:
        return "No single further thickness would help enough to be worth having."
    zones = " and ".join(added.zones)
    return (
        f"One thickness more would help most at {zones}: {inches(added.thickness_mm)}"
        f" ({added.thickness_mm:.0f} mm) would fit {of_hundred(added.closes)} of the heads that"
        " nothing fits now. Use it only if the maker offers it for this model."
    )
