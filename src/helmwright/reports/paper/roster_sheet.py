"""The roster sheet: everybody on a letter page, with the words of the terminal's table."""

from typing import Any

from helmwright.reports.cautions import ASSUMED, CAUTIONS
from helmwright.reports.chances import answered_words, model_words, short_hundredths
from helmwright.reports.driving import most_hangs_on
from helmwright.reports.face_section import guards_to_settle
from helmwright.reports.insides import guess_lines, roster_caliper_words
from helmwright.reports.lengths import thickness
from helmwright.reports.paper.typesetting import typeset
from helmwright.reports.reading_quality import LINE_TITLE, size_risk_words
from helmwright.reports.remarks import look_at, put_right
from helmwright.reports.roster_page import KEY, PAD_HEADS, uneven_words, usual_words
from helmwright.reports.roster_words import (
    doubts,
    measures_worth_taking,
    next_words,
    other_shells,
    shell_words,
)
from helmwright.reports.warnings import first_trouble
from helmwright.reports.youth import youth_lines
from helmwright.roster import PlayerAnswer, RosterAnswer

Data = dict[str, Any]


def roster_sheet(answer: RosterAnswer) -> bytes:
    """The roster sheet as PDF, letter size, on its side.

    Raises
    ------
    ValueError
        Where no helmet was asked for.
    """
    if answer.sheet is None:
        raise ValueError("a roster sheet needs a model sheet")
    return typeset("roster_sheet.typ", sheet_data(answer), {})


def sheet_data(answer: RosterAnswer) -> Data:
    """Everything on the sheet, in words."""
    model = model_words(answer.sheet) if answer.sheet else ""
    return {
        "title": "Roster sheet",
        "model": model,
        "answered": answered_words(answer),
        "key": " ".join(filter(None, _key(answer))),
        "pads": [head.lower() for head in PAD_HEADS.values()],
        "rows": _rows(answer),
        "parts": [part for part in _parts(answer) if part["said"]],
        "cautions": (*CAUTIONS, ASSUMED, *youth_lines(each.player for each in answer.answers)),
        "foot": f"{model}. Draws follow from seed {answer.seed}. Nothing here is a safety score.",
    }


def _key(answer: RosterAnswer) -> list[str]:
    """How to read the table, and what its chances lean on most."""
    proposals = [each.proposal for each in answer.answers if each.proposal]
    guesses = guess_lines(answer.sheet) if answer.sheet else ()
    uneven = uneven_words(answer.sheet, [each.ranked[0] for each in proposals])
    return [*guesses, KEY, usual_words(answer.sheet), uneven, most_hangs_on(proposals)]


def _rows(answer: RosterAnswer) -> list[Data]:
    """A row for everybody, those not answered too, in the order of the roster."""
    rows = {each.player.row: _row(each) for each in answer.answers}
    for problem in answer.problems:
        missing = f"not answered: see row {problem.row} below"
        row = {"number": problem.number, "name": problem.who or "?", "missing": missing}
        rows.setdefault(problem.row, row)
    return [rows[at] for at in sorted(rows)]


def _row(each: PlayerAnswer) -> Data:
    player, proposal = each.player, each.proposal
    row: Data = {"number": player.number, "name": player.label, "missing": ""}
    if proposal is None:
        return {**row, "missing": "no helmet asked for"}
    best = proposal.ranked[0]
    found, fits = (short_hundredths(chance.value) for chance in (best.found_right, best.fits))
    return {
        **row,
        "shell": shell_words(proposal),
        "pads": [thickness(z.pad_mm, z.pad_label) for z in best.zones],
        "chances": f"{found} / {fits}",
        "fault": first_trouble(proposal),
        "next": next_words(proposal),
    }


def _parts(answer: RosterAnswer) -> list[Data]:
    """What stands below the table, under the titles of the terminal's page."""
    risks = [
        f"{each.player.label}, {words}."
        for each in answer.answers
        if each.proposal and (words := size_risk_words(each.proposal.size_risk))
    ]
    return [
        {"title": "Not answered: put these right and run it again",
         "said": [str(each) for each in put_right(answer)]},
        {"title": "Answered, but look at these", "said": [str(each) for each in look_at(answer)]},
        {"title": LINE_TITLE, "said": risks},
        {"title": "Perhaps not this model", "said": doubts(answer.answers)},
        {"title": "Another shell than the chart's likeliest", "said": other_shells(answer.answers)},
        {"title": "Face guards to settle", "said": guards_to_settle(answer)},
        {"title": "Worth measuring next", "said": measures_worth_taking(answer.answers)},
        {"title": "Worth measuring in the shells",
         "said": list(roster_caliper_words(answer.answers))},
    ]  # fmt: skip
