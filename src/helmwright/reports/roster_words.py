"""What is said of a whole roster, for the page on a screen and the sheet on paper."""

from collections.abc import Iterable

from helmwright.anatomy import measure_of
from helmwright.fit.outlook import Proposal
from helmwright.reports.chances import chart_chance, of_hundred, short_hundredths
from helmwright.reports.lengths import measure_words, minutes_words
from helmwright.reports.sentences import is_worth_taking, measure_cell, measure_worth
from helmwright.reports.warnings import OUTSIDE, SUITS_BADLY, first_trouble, is_other_shell
from helmwright.roster import PlayerAnswer

NAMES_SHOWN = 8
LEAST_BAD = "The pads printed are only the least bad."
DOUBTS = {
    OUTSIDE: (
        "by these readings the maker's size bands leave the head out. Measure again; then try"
        f" another model or ask the maker. {LEAST_BAD}"
    ),
    SUITS_BADLY: (
        "even with pads and shell changed, a fit is unlikely. Try another model or ask the maker."
        f" {LEAST_BAD}"
    ),
}


def shell_words(proposal: Proposal) -> str:
    """The proposed shell, and in brackets how often the size chart names it: "3 (>99)"."""
    return f"{proposal.ranked[0].build.shell} ({short_hundredths(chart_chance(proposal))})"


def next_words(proposal: Proposal) -> str:
    """The measure that would raise the chance most, and by how much."""
    gain, words = measure_worth(proposal), measure_cell(proposal)
    return f"{words} +{100 * gain.gain:.0f}" if gain and is_worth_taking(gain) else words


def measures_worth_taking(answers: Iterable[PlayerAnswer]) -> list[str]:
    """For each measure worth taking next: of whom, and how it is taken."""
    whom: dict[tuple[str, str], list[str]] = {}
    for each in answers:
        gain = measure_worth(each.proposal)
        if gain is not None:
            words = f"{measure_words(gain.measure)}{', once more' if gain.repeat else ''}"
            whom.setdefault((gain.measure, words), []).append(each.player.label)
    return [
        f"{words}: {_some(names)}; {minutes_words(measure, len(names))}."
        f" How: {measure_of(measure).how}"
        for (measure, words), names in sorted(whom.items(), key=lambda item: -len(item[1]))
    ]


def doubts(answers: Iterable[PlayerAnswer]) -> list[str]:
    """Whom this model does not suit, and what is to be done."""
    whom: dict[str, list[str]] = {}
    for each in answers:
        if each.proposal is not None:
            whom.setdefault(first_trouble(each.proposal), []).append(each.player.label)
    return [
        f"{_some(whom[trouble])} ({trouble}): {words}"
        for trouble, words in DOUBTS.items()
        if trouble in whom
    ]


def other_shells(answers: Iterable[PlayerAnswer]) -> list[str]:
    """Whose proposed shell is not the one that the size chart names most often."""
    return [
        f"{each.player.label}: the chart names shell {each.proposal.shells[0].shell} for"
        f" {of_hundred(each.proposal.shells[0].chance)}; shell"
        f" {each.proposal.ranked[0].build.shell} fits more of these heads. Measure again, and try"
        " both; the maker's chart wins."
        for each in answers
        if each.proposal and is_other_shell(each.proposal)
    ]


def _some(names: list[str]) -> str:
    """All of a few names, or the first of many."""
    more = len(names) - NAMES_SHOWN
    return ", ".join(names) if more <= 1 else f"{', '.join(names[:NAMES_SHOWN])} and {more} more"
