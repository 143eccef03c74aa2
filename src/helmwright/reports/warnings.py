"""What speaks against a proposal as a whole, told apart from a single pad's fault."""

from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.outlook import Proposal
from helmwright.reports.chances import fault_words, of_hundred, outside_chart, short_hundredths
from helmwright.reports.insides import GUESSED
from helmwright.reports.reading_quality import is_on_the_line, line_words
from helmwright.roster import PlayerAnswer
from helmwright.roster.made_for import made_for_words

LIKELY_OUTSIDE = 0.5
"""Share of the possible heads outside the chart from which on it is said first."""

FORECAST = "forecast, not measured"
OUTSIDE = "outside the size chart"
SUITS_BADLY = "model suits head badly"


def is_outside_chart(proposal: Proposal) -> bool:
    """Whether the head is more likely outside the size chart than in it."""
    return outside_chart(proposal) > LIKELY_OUTSIDE


def is_other_shell(proposal: Proposal) -> bool:
    """Whether the proposed shell is not the one that the size chart names most often."""
    return bool(proposal.shells) and proposal.shells[0].shell != proposal.ranked[0].build.shell


def warnings(proposal: Proposal) -> tuple[str, ...]:
    """Everything that a person should know before choosing; empty where all is well."""
    said = []
    if not proposal.measured:
        said.append("a forecast: the size of the head was not read")
    if not proposal.insides_known:
        said.append(GUESSED)
    if is_outside_chart(proposal):
        said.append(f"{OUTSIDE} ({of_hundred(outside_chart(proposal))} heads)")
    if not proposal.suits:
        said.append("this model suits the head badly")
    if is_other_shell(proposal):
        first = proposal.shells[0]
        share = of_hundred(first.chance)
        said.append(f"another shell than the chart's likeliest ({first.shell}, {share})")
    risk = proposal.size_risk
    if risk is not None and is_on_the_line(risk):
        said.append(
            f"on the line between {line_words(risk)}: wrong size for"
            f" {of_hundred(risk.chance)} such readings, tape again"
        )
    return tuple(said)


def player_warnings(answer: PlayerAnswer, sheet: ModelSheet | None) -> tuple[str, ...]:
    """The same with what speaks against this helmet for this player, whatever the proposal."""
    said = made_for_words(answer.player, sheet) if sheet else ""
    first = (f"{said}: ask the maker",) if said else ()
    return (*first, *(warnings(answer.proposal) if answer.proposal else ()))


def first_trouble(proposal: Proposal) -> str:
    """The likeliest fault with its chance; what makes it beside the point says so instead."""
    words, chance = likeliest_trouble(proposal)
    return words if chance is None else f"{words} {short_hundredths(chance)}"


def likeliest_trouble(proposal: Proposal) -> tuple[str, float | None]:
    """The same in two parts; no chance where what is said is no fault."""
    if not proposal.measured:
        return FORECAST, None
    if is_outside_chart(proposal):
        return OUTSIDE, None
    if not proposal.suits:
        return SUITS_BADLY, None
    faults = proposal.ranked[0].faults
    return (fault_words(faults[0]), faults[0].chance) if faults else ("none seen", None)
