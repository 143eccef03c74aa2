"""The columns that an answer adds beside a roster's own: heading, meaning, cell."""

from collections.abc import Callable
from dataclasses import dataclass

from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES
from helmwright.fit.outlook import Proposal
from helmwright.reports.chances import chart_chance
from helmwright.reports.driving import strongest_short
from helmwright.reports.lengths import thickness
from helmwright.reports.sentences import measure_cell, measure_worth
from helmwright.reports.warnings import FORECAST, likeliest_trouble, player_warnings
from helmwright.roster import PlayerAnswer, face_choice

Cell = str | float

ANSWERED = "answered"
NOT_ANSWERED = "NOT ANSWERED"
OUTCOME = "outcome"
REMARKS = "remarks"


@dataclass(frozen=True, slots=True)
class AnswerColumn:
    """One column: its heading, what it means, its width in letters, and a player's cell.

    `cell` takes the player's answer with the proposal in it, and the whole answer for its sheet.
    """

    heading: str
    meaning: str
    width: float
    cell: Callable[[PlayerAnswer, Proposal, ModelSheet | None], Cell]


def _hundred(share: float) -> float:
    return round(100.0 * share, 1)


def _fault(_answer: PlayerAnswer, proposal: Proposal, _sheet: ModelSheet | None) -> Cell:
    return likeliest_trouble(proposal)[0]


def _fault_chance(_answer: PlayerAnswer, proposal: Proposal, _sheet: ModelSheet | None) -> Cell:
    chance = likeliest_trouble(proposal)[1]
    return "" if chance is None else _hundred(chance)


def _measure(_answer: PlayerAnswer, proposal: Proposal, _sheet: ModelSheet | None) -> Cell:
    return measure_cell(proposal)


def _gain(_answer: PlayerAnswer, proposal: Proposal, _sheet: ModelSheet | None) -> Cell:
    gain = measure_worth(proposal)
    return _hundred(gain.gain) if gain else ""


def _guard(answer: PlayerAnswer, _proposal: Proposal, sheet: ModelSheet | None) -> Cell:
    """The face guard that comes first; why there is none where every one is refused."""
    if sheet is not None and not sheet.face_guards:
        return "the sheet lists none"
    choice = face_choice(answer, sheet)
    if choice is None:
        return ""
    named = choice.allowed[0].guard.guard.name if choice.allowed else "none may be used: see page"
    refused = choice.wish_refused
    return f"{named}; asked for and refused: {refused.guard}" if refused else named


def _strap(answer: PlayerAnswer, _proposal: Proposal, sheet: ModelSheet | None) -> Cell:
    """The chin strap that goes with that guard."""
    choice = face_choice(answer, sheet)
    strap = choice.allowed[0].strap if choice and choice.allowed else None
    return strap.strap.name if strap else ""


def _pad(place: int) -> Callable[[PlayerAnswer, Proposal, ModelSheet | None], Cell]:
    """The pad of one zone as it is written on its bag, in inches."""

    def cell(_answer: PlayerAnswer, proposal: Proposal, _sheet: ModelSheet | None) -> Cell:
        zone = proposal.ranked[0].zones[place]
        return thickness(zone.pad_mm, zone.pad_label)

    return cell


COLUMNS: tuple[AnswerColumn, ...] = (
    AnswerColumn(
        "shell",
        "Number of the proposed shell; 1 is the smallest.",
        7,
        lambda _answer, proposal, _sheet: float(proposal.ranked[0].build.shell),
    ),
    AnswerColumn(
        "chart chance",
        "Of 100 heads with such readings, for how many the maker's size chart names that shell.",
        8,
        lambda _answer, proposal, _sheet: _hundred(chart_chance(proposal)),
    ),
    *(
        AnswerColumn(
            f"{zone} (in)",
            f"Pad for the place {zone}, thickness in inches as on its bag; left and right are the"
            " wearer's.",
            8,
            _pad(place),
        )
        for place, zone in enumerate(ZONES)
    ),
    AnswerColumn(
        "found right",
        "Of 100 such heads, on how many a fitter finds nothing to change at the first try-on. Some"
        " 10 to 40 are usual; some 2 to 13 (assumed) while insides are not measured, when the"
        " answer is good for the shell and for what to check first.",
        8,
        lambda _answer, proposal, _sheet: _hundred(proposal.ranked[0].found_right.value),
    ),
    AnswerColumn(
        "truly fits",
        "Of 100 such heads, on how many nothing needs changing, whoever checks. The limits of loose"
        " and tight are assumed.",
        8,
        lambda _answer, proposal, _sheet: _hundred(proposal.ranked[0].fits.value),
    ),
    AnswerColumn(
        "leans most on",
        "The assumption that moves the chance most, and by how many of 100 from its low to its"
        " high; empty where none can be told.",
        20,
        lambda _answer, proposal, _sheet: strongest_short(proposal.ranked[0]),
    ),
    AnswerColumn(
        "likeliest fault",
        "What is most often wrong, if anything is: feel for it. Or what makes that beside the"
        " point.",
        20,
        _fault,
    ),
    AnswerColumn("fault chance", "Of 100 such heads, on how many it is wrong.", 8, _fault_chance),
    AnswerColumn(
        "measure next",
        "The measure, new or once more, that is worth taking first.",
        20,
        _measure,
    ),
    AnswerColumn("gain", "By how many of 100 it would raise it.", 7, _gain),
    AnswerColumn(
        "face guard",
        "The guard that the sheet allows this player and that leaves most free to see; check it on"
        " the head.",
        20,
        _guard,
    ),
    AnswerColumn("chin strap", "The strap that goes with that guard.", 20, _strap),
    AnswerColumn(
        "warnings",
        "What speaks against the proposal as a whole.",
        24,
        lambda answer, _proposal, sheet: " | ".join(player_warnings(answer, sheet)),
    ),
)
"""What a proposal tells, in the order of the sheet; outcome stands before and remarks behind."""

WORDS: tuple[tuple[str, str], ...] = (
    (
        OUTCOME,
        f"{ANSWERED}; or {FORECAST}; or {NOT_ANSWERED}: such a row is hatched, too.",
    ),
    *((column.heading, column.meaning) for column in COLUMNS),
    (REMARKS, "What is to be said of the row; the sheet of remarks has them one by one."),
)
"""Headings with their meaning."""
