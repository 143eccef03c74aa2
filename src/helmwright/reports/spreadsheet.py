"""The roster's answer as CSV that a spreadsheet opens safely."""

import csv
import io

from helmwright.catalogue.cell import AIR
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES
from helmwright.fit.outlook import Proposal, ZoneOutlook
from helmwright.reports.cautions import IN_A_TABLE
from helmwright.reports.chances import chart_chance
from helmwright.reports.sentences import measure_told, measure_worth
from helmwright.reports.warnings import FORECAST, likeliest_trouble, player_warnings
from helmwright.reports.workbook.answer_columns import ANSWERED, COLUMNS
from helmwright.roster import PlayerAnswer, Remark, RosterAnswer
from helmwright.roster.formulas import safe
from helmwright.units import MM_PER_INCH

SHARED = tuple(
    column for column in COLUMNS if column.heading in ("leans most on", "face guard", "chin strap")
)
"""What the table says in the words of the workbook."""

HEADINGS = (
    "row", "number", "name", "position", "outcome", "shell", "chart chance of 100",
    *(f"{zone} (in)" for zone in ZONES), "found right of 100", "truly fits of 100",
    "likeliest fault", "fault of 100", "measure next", "gain of 100",
    *(column.heading for column in SHARED), "warnings", "remarks",
)  # fmt: skip


def roster_csv(answer: RosterAnswer) -> str:
    """One line for each row of the roster, answered or not, in the order of the file.

    Pads are decimal inches, since a spreadsheet makes dates of fractions; air cells are "air". A
    last line, whose outcome is "caution", says who decides and points to the page.
    """
    lines = {
        a.player.row: _answered(a, _said(answer.notices, a.player.row), answer.sheet)
        for a in answer.answers
    }
    for row in sorted({problem.row for problem in answer.problems} - set(lines)):
        lines[row] = _unanswered([p for p in answer.problems if p.row == row])
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(HEADINGS)
    writer.writerows([safe(cell) for cell in lines[row]] for row in sorted(lines))
    writer.writerow(_caution())
    return out.getvalue()


def _answered(answer: PlayerAnswer, remarks: str, sheet: ModelSheet | None) -> list[str]:
    """Cells of a player who has an answer."""
    player, proposal = answer.player, answer.proposal
    forecast = proposal is not None and not proposal.measured
    outcome = FORECAST if forecast else ANSWERED
    who = [str(player.row), player.number, player.name, player.position, outcome]
    middle = (
        _proposed(proposal, answer, sheet) if proposal else [""] * (len(HEADINGS) - len(who) - 1)
    )
    return [*who, *middle, remarks]


def _unanswered(problems: list[Remark]) -> list[str]:
    """Cells of a row that has no answer; it has one problem at least."""
    who = [str(problems[0].row), problems[0].number, problems[0].who, "", "not answered"]
    remarks = " | ".join(str(problem) for problem in problems)
    return [*who, *[""] * (len(HEADINGS) - len(who) - 1), remarks]


def _proposed(proposal: Proposal, answer: PlayerAnswer, sheet: ModelSheet | None) -> list[str]:
    """Shell, pads, chances, fault and next measure."""
    best = proposal.ranked[0]
    gain = measure_worth(proposal)
    trouble, chance = likeliest_trouble(proposal)
    return [
        str(best.build.shell),
        _hundred(chart_chance(proposal)),
        *(_pad(place) for place in best.zones),
        _hundred(best.found_right.value),
        _hundred(best.fits.value),
        trouble,
        "" if chance is None else _hundred(chance),
        measure_told(gain) if gain else "",
        _hundred(gain.gain) if gain else "",
        *(str(column.cell(answer, proposal, sheet)) for column in SHARED),
        " | ".join(player_warnings(answer, sheet)),
    ]


def _pad(place: ZoneOutlook) -> str:
    """A pad's thickness in inches as a program reads it; "air" where it is filled."""
    return AIR if place.pad_label == AIR else f"{place.pad_mm / MM_PER_INCH:.4g}"


def _caution() -> list[str]:
    """Cells of the last line: what must be said once, and where the rest of it stands."""
    blank = [""] * (len(HEADINGS) - 6)
    return ["", "", "", "", "caution", *blank, IN_A_TABLE]


def _hundred(share: float) -> str:
    """A share in hundredths, to a tenth."""
    return f"{100 * share:.1f}"


def _said(remarks: tuple[Remark, ...], row: int) -> str:
    """Every remark on one row."""
    return " | ".join(str(remark) for remark in remarks if remark.row == row)
