"""The back of a fit card: what was read, what the chance hangs on, and why."""

from collections.abc import Iterable, Sequence
from typing import Any

from helmwright.anatomy import MEASURES, measure_of
from helmwright.anatomy.covering import Touch
from helmwright.anatomy.reading import Combined, combined
from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.outlook import BuildOutlook, Proposal
from helmwright.reports.build_page import instruction_words
from helmwright.reports.cautions import ASSUMED
from helmwright.reports.chances import fault_words, of_hundred, short_hundredths
from helmwright.reports.drawings import ASSUMED_FORM
from helmwright.reports.driving import driver_bars, strongest_words
from helmwright.reports.face_section import card_facts
from helmwright.reports.insides import caliper_words, guess_lines
from helmwright.reports.lengths import fraction, measure_words, minutes_words
from helmwright.reports.reading_quality import over_words, size_risk_words
from helmwright.reports.remedy import checks
from helmwright.reports.sentences import measure_worth, next_measure, reasons
from helmwright.reports.youth import youth_lines
from helmwright.roster import PlayerAnswer, Remark, RosterAnswer
from helmwright.units import millimeters

Data = dict[str, Any]

CHECKS, MORE_CHECKS = 3, 4
"""So many faults stand on the front, and up to so many are told at all."""

DRIVERS = 5
BROW = "Expect the front edge"
"""How the reason begins that tells of the brow height."""

BARS = (
    "Bars: the chance, 0 to 100, while one assumption goes to its low and its high; the tick: as"
    " stated."
)


def back_data(
    each: PlayerAnswer, proposal: Proposal, answer: RosterAnswer, sheet: ModelSheet
) -> Data:
    """Everything on the back of one card, in words."""
    best = proposal.ranked[0]
    told = (ASSUMED, *youth_lines([each.player]), *guess_lines(sheet), ASSUMED_FORM)
    return {
        "readings": _readings(each),
        "shared": "; ".join(_shared(combined(each.player.readings))),
        "drivers": _drivers(best),
        "parts": [part for part in _parts(each, proposal, answer, sheet) if part["said"]],
        "foot": f"{' '.join(told)} Drawn at 1 to 6. Counted on {proposal.draws} fresh draws; seed"
        f" {answer.seed} gives them again.",
    }


def fault_lines(best: BuildOutlook, sheet: ModelSheet) -> list[str]:
    """Faults, likeliest first, each with its chance and what to try."""
    return [
        f"{capital(fault_words(fault))} ({of_hundred(fault.chance)}): {words}."
        for fault, words in checks(best.faults, best, sheet)
    ]


def capital(words: str) -> str:
    """The words with a capital."""
    return words[:1].upper() + words[1:]


def _readings(each: PlayerAnswer) -> list[Data]:
    """What was read, measure by measure, as read, and how, where that is not said of them all."""
    order = [measure.key for measure in MEASURES]
    groups = combined(each.player.readings)
    shared = _shared(groups)
    rows = []
    for group in sorted(groups, key=lambda g: order.index(g.measure)):
        read = [r for r in each.player.readings if r.alike == group.alike]
        own = [said for said in _how(group) if said and said not in shared]
        rows.append(
            {
                "measure": measure_words(group.measure),
                "read": ", ".join(fraction(r.value_mm, denominator=16) for r in read),
                "mm": millimeters(group.value_mm).removesuffix(" mm"),
                "how": "; ".join(own),
            }
        )
    return rows


def _shared(groups: Sequence[Combined]) -> list[str]:
    """What is to be said once of how everything was read: over what, by whom, how long ago."""
    found: list[str] = []
    for place, each in enumerate(zip(*map(_how, groups), strict=True)):
        # What is taken on the skin has nothing beneath it, whatever the others have.
        said = {words for words in each if words or place > 0}
        found += said if len(said) == 1 else ()
    return [words for words in found if words]


def _how(group: Combined) -> tuple[str, str, str, str]:
    """Over what, how, by whom and how long ago; each may be empty."""
    layered = measure_of(group.measure).layer > 0
    return (
        f"over {over_words(group.kinds)}" if layered else "",
        str(group.touch) if group.touch is not Touch.DRAWN_IN else "",
        f"by {group.by}" if group.by else "",
        f"{group.months_ago:.0f} months ago" if group.months_ago >= 1.0 else "",
    )


def _drivers(best: BuildOutlook) -> Data | None:
    """What drives the chance, as bars; None where nobody counted."""
    bars = driver_bars(best)[:DRIVERS]
    if not bars:
        return None
    return {
        "told": strongest_words(best),
        "key": BARS,
        "bars": [
            {
                "words": bar.words,
                "left": bar.left,
                "right": bar.right,
                "stated": bar.stated,
                "low": short_hundredths(bar.at_low),
                "high": short_hundredths(bar.at_high),
            }
            for bar in bars
        ],
    }


def _parts(
    each: PlayerAnswer, proposal: Proposal, answer: RosterAnswer, sheet: ModelSheet
) -> Iterable[Data]:
    """The back of the card below readings and drivers: titles with what is said under each."""
    best = proposal.ranked[0]
    yield _part("Look at these readings", _notices(each, proposal, answer))
    yield _part("Why this build", _why(each, proposal, sheet))
    yield _part("Guard and strap", card_facts(each, answer))
    yield _part("Then look for", fault_lines(best, sheet)[CHECKS:MORE_CHECKS])
    yield _part("What one more measure would buy", _measures(proposal))
    yield _part("The maker says", [instruction_words(i) for i in sheet.instructions])


def _notices(each: PlayerAnswer, proposal: Proposal, answer: RosterAnswer) -> list[str]:
    """What was found in this player's readings, and the risk of the wrong shell."""
    found = [_notice(said) for said in answer.notices if said.row == each.player.row]
    risk = size_risk_words(proposal.size_risk)
    return [*found, f"{capital(risk)}."] if risk else found


def _notice(said: Remark) -> str:
    """A remark on the player's own card: which column it is about, and not whose row.

    The columns of a player from the command line are options; their dashes say nothing on paper.
    """
    column = said.column.removeprefix("--")
    if not column:
        return said.words
    return capital(f"{column}: {said.wrong[:1]}{said.words[1:]}")


def _why(each: PlayerAnswer, proposal: Proposal, sheet: ModelSheet) -> list[str]:
    """The reasons, but for the front edge's height, which stands on the front."""
    said = reasons(proposal, each.current, sheet)
    return [reason for reason in said if not reason.startswith(BROW)]


def _part(title: str, said: Iterable[str]) -> Data:
    return {"title": title, "said": list(said)}


def _measures(proposal: Proposal) -> list[str]:
    """The measure that is worth most with how it is taken, and the calipers in the shell."""
    gain = measure_worth(proposal)
    said = [next_measure(proposal)]
    if gain is not None:
        key = gain.measure
        said.append(f"How ({minutes_words(key)}): {measure_of(key).how}")
    if proposal.inside_gain is not None:
        said.append(caliper_words(proposal.inside_gain))
    return said
