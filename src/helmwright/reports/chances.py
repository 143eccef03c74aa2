"""Chances, lengths and faults in the words of the page."""

from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.outlook import Fault, Proposal
from helmwright.roster import RosterAnswer

LIMIT_ERRORS = 1.96
"""Standard errors within which a count stays 19 times of 20."""


def of_hundred(share: float) -> str:
    """A share as "61 of 100"; what rounds to nothing or to all says so."""
    return f"{hundredths(share)} of 100"


def hundredths(share: float) -> str:
    """The number in "61 of 100"."""
    if 0.0 < share < 0.005:
        return "under 1"
    if 0.995 < share < 1.0:
        return "over 99"
    return f"{100 * share:.0f}"


def short_hundredths(share: float) -> str:
    """The same for a narrow column: "<1" and ">99"."""
    return hundredths(share).replace("under ", "<").replace("over ", ">")


def give_or_take(error: float) -> str:
    """The limit within which a count stays, from its standard error: "give or take 3"."""
    return f"give or take {max(100 * LIMIT_ERRORS * error, 1):.0f}"


def chart_chance(proposal: Proposal) -> float:
    """How likely the size chart names the shell that is proposed."""
    proposed = proposal.ranked[0].build.shell
    return sum(each.chance for each in proposal.shells if each.shell == proposed)


def outside_chart(proposal: Proposal) -> float:
    """Share of the possible heads that lie outside every band of the size chart."""
    return max(1.0 - sum(each.chance for each in proposal.shells), 0.0)


def fault_words(fault: Fault) -> str:
    """A fault by place and kind: "jaw left tight", "too low on the brow"."""
    return str(fault.kind) if fault.zone is None else f"{fault.zone} {fault.kind}"


def answered_words(answer: RosterAnswer) -> str:
    """How many rows were answered: "23 of 24 rows answered"."""
    rows = "row" if answer.asked == 1 else "rows"
    return f"{len(answer.answers)} of {answer.asked} {rows} answered"


def model_words(sheet: ModelSheet) -> str:
    """The model's name; one that is not on sale says so."""
    told = sheet.model if "invented" in sheet.model.lower() else f"{sheet.model}, invented"
    return f"{told}, not on sale" if sheet.invented else sheet.model
