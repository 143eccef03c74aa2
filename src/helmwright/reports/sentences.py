"""Why this build: reasons in sentences, each from a number of the answer."""

from helmwright.catalogue.zone import Zone
from helmwright.fit.outlook import BuildOutlook, MeasureGain, Proposal, ZoneOutlook
from helmwright.reports.chances import fault_words, give_or_take, of_hundred
from helmwright.reports.lengths import inches, measure_words

LEAST_TOLD = 0.01
LEAST_GAIN = 0.03
"""A gain under this is not worth the minute that a measure takes (assumed)."""


def reasons(proposal: Proposal) -> tuple[str, ...]:
    """The reasons for the first build, most telling first."""
    best = proposal.ranked[0]
    said = [_shell(proposal, best), *_changes(proposal, best), _brow(best), _fault(best)]
    if best.floats >= 0.05:
        said.append(
            f"In {of_hundred(best.floats)} of the possible heads this helmet touches too little"
            " to be held; expect it to wander on the head."
        )
    return (*said, _reach(proposal))


def next_measure(gain: MeasureGain | None) -> str:
    """What one more measure would buy."""
    if gain is None:
        return "Every measure that counts has been taken."
    if not is_worth_taking(gain):
        return "No missing measure would raise the chance enough to be told from nothing."
    return (
        f"Measure next: {measure_words(gain.measure)}. Knowing it should raise the chance that the"
        f" best build truly fits by about {100 * gain.gain:.0f} of 100, give or take"
        f" {max(100 * gain.error, 1):.0f}."
    )


def is_worth_taking(gain: MeasureGain) -> bool:
    """Whether a measure's gain can be told from nothing."""
    return gain.gain >= max(LEAST_GAIN, 2.0 * gain.error)


def first_measure(proposal: Proposal) -> MeasureGain | None:
    """The missing measure with the largest gain."""
    return max(proposal.next_measures, key=lambda gain: gain.gain, default=None)


def _reach(proposal: Proposal) -> str:
    """What changing pads on the head can come to."""
    reach = f"this build or one near it fits {of_hundred(proposal.within_reach)} of these heads"
    if proposal.suits:
        return f"By checking on the head and changing pads, a fit is in reach: {reach}."
    return (
        f"Even with pads changed, {reach}: this model does not suit this head. Try another model"
        " before changing more pads."
    )


def outside_chart(proposal: Proposal) -> float:
    """Share of the possible heads that lie outside every band of the size chart."""
    return max(1.0 - sum(each.chance for each in proposal.shells), 0.0)


def _shell(proposal: Proposal, best: BuildOutlook) -> str:
    """Which shell, and what the chart says."""
    told = [(f"shell {each.shell}", each.chance) for each in proposal.shells]
    told.append(("no shell", outside_chart(proposal)))
    named = ", ".join(
        f"{who} for {of_hundred(share)}" for who, share in told if share >= LEAST_TOLD
    )
    sentence = f"The size chart, over the heads that the readings allow, names {named}."
    if outside_chart(proposal) > 0.5:
        return f"{sentence} This head is probably outside what the maker made the model for."
    if proposal.shells[0].shell != best.build.shell:
        sentence += (
            f" Shell {best.build.shell} is proposed all the same, because with the right pads"
            " it truly fits more of those heads."
        )
    return sentence


def _changes(proposal: Proposal, best: BuildOutlook) -> list[str]:
    """Which pads change, and what would be felt at those zones if they did not."""
    if not best.changes:
        return ["No pad changes from the build as delivered."]
    words = [_change(proposal.delivered, best, zone) for zone in best.changes]
    count = "1 pad changes" if len(words) == 1 else f"{len(words)} pads change"
    return [f"{count} from the build as delivered: {'; '.join(words)}."]


def _change(delivered: BuildOutlook, best: BuildOutlook, zone: Zone) -> str:
    """One pad's change, with the finding that it prevents."""
    now, then = _zone(delivered, zone), _zone(best, zone)
    change = f"{zone} {inches(then.pad_mm)}"
    if delivered.build.shell != best.build.shell or now.pad_mm == then.pad_mm:
        return change
    kind, before = ("loose", now.loose) if now.loose >= now.tight else ("tight", now.tight)
    if before < 0.05:
        return f"{change} instead of {inches(now.pad_mm)}, to set the helmet's height and balance"
    return f"{change} instead of {inches(now.pad_mm)}, which is {kind} in {of_hundred(before)}"


def _zone(outlook: BuildOutlook, zone: Zone) -> ZoneOutlook:
    """The outlook of one zone."""
    return next(place for place in outlook.zones if place.zone == zone)


def _brow(best: BuildOutlook) -> str:
    """Where the front edge will sit."""
    brow = best.brow_mm
    return (
        f"Expect the front edge {inches(brow.mean)} above the brow, between {inches(brow.low)}"
        f" and {inches(brow.high)} for 9 of 10 heads."
    )


def _fault(best: BuildOutlook) -> str:
    """What is likeliest to be wrong, and how sure the chance is."""
    chances = (
        f"The chance that a fitter finds everything right is {give_or_take(best.found_right)};"
        f" that it truly fits, {give_or_take(best.fits)}."
    )
    if not best.faults:
        return chances
    fault = best.faults[0]
    return f"{chances} Look first for: {fault_words(fault)} ({of_hundred(fault.chance)})."
