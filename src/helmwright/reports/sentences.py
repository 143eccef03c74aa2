"""Why this build: reasons in sentences, each from a number of the answer."""

from helmwright.catalogue.advice import is_mirrored
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.outlook import (
    Build,
    BuildOutlook,
    Chance,
    FaultKind,
    MeasureGain,
    Proposal,
    ZoneOutlook,
)
from helmwright.reports.air import fill_words
from helmwright.reports.chances import fault_words, give_or_take, of_hundred, outside_chart
from helmwright.reports.lengths import fraction, inches, measure_words
from helmwright.reports.warnings import is_other_shell, is_outside_chart

LEAST_TOLD = 0.01
LEAST_FELT = 0.05
"""A fault rarer than this is no reason for a pad (assumed)."""
LEAST_GAIN = 0.03
"""A gain under this is not worth the minute that a measure takes (assumed)."""

CHART, CHANCES = "The size chart", "The chance that a fitter"
"""How the reasons begin that tell of the chart's shells, and of the two chances."""

AGAIN = {
    "tape_circumference": "tape",
    "jaw_pad_width": "jaw pad width",
    "bizygomatic_breadth": "cheekbones",
    "bigonial_breadth": "jaw corners",
}
"""Shorter names, where "again" is to stand behind them."""


def reasons(
    proposal: Proposal, current: Build | None = None, sheet: ModelSheet | None = None
) -> tuple[str, ...]:
    """The reasons for the first build, most telling first.

    `current` is the build in the helmet now, where somebody said it; `sheet` names its pads.
    """
    best = proposal.ranked[0]
    changes = _changes(proposal, current, sheet)
    said = [_shell(proposal, best), changes, _brow(best), _fault(best)]
    if best.floats >= 0.05:
        said.append(
            f"In {of_hundred(best.floats)} of the possible heads this helmet touches too little"
            " to be held; expect it to wander on the head."
        )
    if is_uneven(best):
        said.append(_sides(best, sheet))
    return (*said, *fill_words(best), _reach(proposal))


def is_uneven(outlook: BuildOutlook) -> bool:
    """Whether a build has different pads left and right."""
    return bool(_uneven_pairs(outlook))


def _uneven_pairs(outlook: BuildOutlook) -> list[str]:
    """The places whose left and right pads differ, in words."""
    return [
        f"{zone} and {zone.mirrored}"
        for zone in (Zone.LEFT, Zone.JAW_LEFT)
        if _zone(outlook, zone).pad_mm != _zone(outlook, zone.mirrored).pad_mm
    ]


def _sides(best: BuildOutlook, sheet: ModelSheet | None) -> str:
    """Why pads differ left and right, though nothing that was read has a side."""
    pairs = ", ".join(_uneven_pairs(best))
    return (
        f"{pairs.capitalize()} pads differ, though no reading has a side: they make a half step"
        f" together{mirror_words(sheet)}. Feel both sides."
    )


def mirror_words(sheet: ModelSheet | None) -> str:
    """That a build with left and right exchanged does the same, where the sheet makes it so."""
    return ", and the mirror image would do as well" if sheet and is_mirrored(sheet) else ""


def next_measure(proposal: Proposal) -> str:
    """What one more measure would buy, or that none is worth taking."""
    gain = measure_worth(proposal)
    if gain is None:
        none = "no reading, new or repeated, would raise the chance enough to be told from nothing"
        if not proposal.insides_known:
            return f"The shell comes before the head: {none} while its insides are guessed."
        return f"Nothing more is worth measuring: {none}."
    size = (
        f"should raise the chance that the best build truly fits by about {100 * gain.gain:.0f} of"
        f" 100, {give_or_take(gain.error)}, 19 times of 20."
    )
    if gain.repeat:
        return f"Measure again: {measure_words(gain.measure)}. Two readings more {size}"
    if not is_worth_taking(gain):
        return f"Measure first: {measure_words(gain.measure)}. Without it the size is a guess."
    return f"Measure next: {measure_words(gain.measure)}. Knowing it {size}"


def measure_told(gain: MeasureGain) -> str:
    """A measure for a narrow column; one to be read once more says so."""
    words = measure_words(gain.measure)
    return f"{AGAIN.get(gain.measure, words)} again" if gain.repeat else words


def measure_cell(proposal: Proposal) -> str:
    """The measure worth taking, for a narrow column; what comes first where none is."""
    gain = measure_worth(proposal)
    if gain is not None:
        return measure_told(gain)
    return "nothing more" if proposal.insides_known else "shell's insides first"


def is_worth_taking(gain: MeasureGain) -> bool:
    """Whether a measure's gain can be told from nothing."""
    return gain.gain >= max(LEAST_GAIN, 2.0 * gain.error)


def measure_worth(proposal: Proposal | None) -> MeasureGain | None:
    """The first measure of the answer's order that is worth taking, new or repeated.

    Where the size of the head was not read, that is the tape, whatever it adds by itself.
    """
    gains = proposal.next_measures if proposal else ()
    if proposal and not proposal.measured:
        return next((gain for gain in gains if gain.measure == "tape_circumference"), None)
    return next((gain for gain in gains if is_worth_taking(gain)), None)


def _reach(proposal: Proposal) -> str:
    """What changing pads on the head can come to."""
    if not proposal.measured:
        return "This is a forecast: the size of the head was not read. Measure before choosing."
    share = of_hundred(proposal.within_reach)
    reach = f"this build, or one that changing pads or shell leads to, fits {share} heads"
    if proposal.suits:
        return f"As it is or with parts changed, a fit is in reach for {share} heads."
    return (
        f"Even with parts changed, {reach}: this model does not suit this head. Try another model"
        " before changing more pads."
    )


def _shell(proposal: Proposal, best: BuildOutlook) -> str:
    """Which shell, and what the chart says."""
    told = [(f"shell {each.shell}", each.chance) for each in proposal.shells]
    told.append(("no shell", outside_chart(proposal)))
    named = ", ".join(
        f"{who} for {of_hundred(share)}" for who, share in told if share >= LEAST_TOLD
    )
    sentence = f"{CHART}, over the heads that the readings allow, names {named}."
    if is_outside_chart(proposal):
        return f"{sentence} This head is probably outside what the maker made the model for."
    if is_other_shell(proposal):
        sentence += (
            f" Shell {best.build.shell} is proposed all the same, because with the right pads"
            " it truly fits more of those heads."
        )
    return sentence


def _changes(proposal: Proposal, current: Build | None, sheet: ModelSheet | None) -> str:
    """Which pads change, and what would be felt at those zones if they did not."""
    best = proposal.ranked[0]
    kept = current if current and current.shell == best.build.shell else None
    start = "the build in the helmet now" if kept else "the build as delivered"
    if not best.changes:
        return f"No pad changes from {start}."
    before = _outlook_of(kept, proposal) if kept else proposal.delivered
    if before is None or before.build.shell != best.build.shell:
        words = [_plain_change(best, zone, kept, sheet) for zone in best.changes]
    else:
        words = [_change(before, best, zone) for zone in best.changes]
    count = "One pad changes" if len(words) == 1 else f"{len(words)} pads change"
    return f"{count} from {start}: {'; '.join(words)}."


def _outlook_of(build: Build, proposal: Proposal) -> BuildOutlook | None:
    """What is expected of a build, where the answer holds it."""
    known = (*proposal.ranked, proposal.delivered)
    return next((outlook for outlook in known if outlook.build == build), None)


def _plain_change(
    best: BuildOutlook, zone: Zone, kept: Build | None, sheet: ModelSheet | None
) -> str:
    """One pad's change, where nothing is known of how the build before would feel."""
    change = f"{zone} {inches(_zone(best, zone).pad_mm)}"
    if kept is None or sheet is None:
        return change
    was = sheet.pad(zone).thicknesses_mm[kept.pads[ZONES.index(zone)]]
    return f"{change} instead of {inches(was)}"


def _change(before: BuildOutlook, best: BuildOutlook, zone: Zone) -> str:
    """One pad's change, with the fault of the build before that it answers to, if any."""
    now, then = _zone(before, zone), _zone(best, zone)
    change = f"{zone} {inches(then.pad_mm)} instead of {inches(now.pad_mm)}"
    wrong, chance = _felt(before, zone)
    if chance < LEAST_FELT:
        return f"{change}, chosen for the build as a whole"
    return f"{change}, with which {wrong} in {of_hundred(chance)}"


def _felt(outlook: BuildOutlook, zone: Zone) -> tuple[str, float]:
    """The likelier thing that is wrong with a zone's pad; the crown's sets the brow alone."""
    if zone is Zone.CROWN:
        brow = {f.kind: f.chance for f in outlook.faults if f.zone is None}
        kinds = (FaultKind.BROW_LOW, FaultKind.BROW_HIGH)
        kind = max(kinds, key=lambda each: brow.get(each, 0.0))
        return f"the front edge is {kind}", brow.get(kind, 0.0)
    place = _zone(outlook, zone)
    if place.loose >= place.tight:
        return "it is loose", place.loose
    return "it is tight", place.tight


def _zone(outlook: BuildOutlook, zone: Zone) -> ZoneOutlook:
    """The outlook of one zone."""
    return next(place for place in outlook.zones if place.zone == zone)


def _brow(best: BuildOutlook) -> str:
    """Where the front edge will sit."""
    brow = best.brow_mm
    low, high = fraction(brow.low, denominator=16), inches(brow.high)
    return f"Expect the front edge {inches(brow.mean)} above the brow ({low} to {high}, 9 of 10)."


def _limits(chance: Chance) -> str:
    """A chance and how far its count may be off."""
    return f"{of_hundred(chance.value)}, {give_or_take(chance.error)}"


def _fault(best: BuildOutlook) -> str:
    """What is likeliest to be wrong, and how sure the chance is."""
    chances = (
        f"{CHANCES} finds everything right is {_limits(best.found_right)}; that it"
        f" truly fits, {_limits(best.fits)}. The count stays within that 19 times of 20."
    )
    if not best.faults:
        return chances
    fault = best.faults[0]
    return f"{chances} Look first for: {fault_words(fault)} ({of_hundred(fault.chance)})."
