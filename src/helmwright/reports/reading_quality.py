"""How far a reading can be trusted: its line between two shells, its hair, and who took it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from helmwright.anatomy import HeadEstimate, MeasurerError, Over
from helmwright.fit.outlook import Proposal, SizeRisk
from helmwright.reports.chances import of_hundred
from helmwright.reports.layout import bullets, columns, heading, wrapped
from helmwright.reports.lengths import inches, measure_words
from helmwright.roster import PlayerAnswer

LEAST_RISK = 0.2
"""A chance of the wrong shell under this is not spoken of (assumed)."""

LEAST_UNSAID_MM = 0.3
"""Hair of which nobody spoke is not told where it is believed to be thinner [mm] (assumed)."""

LINE_TITLE = "On the line between two shells"
BY_TITLE = "Who measured, and how closely the repeats agree"
BY_KEY = (
    "TEM: technical error of measurement, in mm; the SD of one reading about that person's mean."
    " Used: what the answer goes by, the person's own repeats beside the usual TEM, which counts as"
    " 12 pairs (assumed)."
)
BY_WIDTHS = (14, 21, 5, 5, 5, 5)
COVERED_TITLE = "Between head and tape"
_SDS_90 = 1.645


def size_risk_words(risk: SizeRisk | None) -> str:
    """The chance of the wrong shell in a sentence; nothing where it is small."""
    if risk is None or not is_on_the_line(risk):
        return ""
    given = f"shell {risk.shell}" if risk.shell else "no shell"
    return (
        f"{line_words(risk)}: the tape over what will be worn, {inches(risk.read_mm)}, gives"
        f" {given} by the chart, the wrong size for {of_hundred(risk.chance)} such readings. Tape"
        " again before choosing"
    )


def is_on_the_line(risk: SizeRisk | None) -> bool:
    """Whether the chance of the wrong shell is worth a word."""
    return risk is not None and risk.chance >= LEAST_RISK


def line_words(risk: SizeRisk) -> str:
    """Between what the head lies: "shells 3 and 4", "shell 6 and no shell"."""
    shells = sorted(each for each in (risk.shell, risk.other) if each)
    if len(shells) < 2:
        return f"shell {shells[0]} and no shell"
    return f"shells {shells[0]} and {shells[1]}"


def size_risk_lines(proposal: Proposal, width: int) -> list[str]:
    """The same as a paragraph of one player's page."""
    words = size_risk_words(proposal.size_risk)
    return ["", *wrapped(f"On the line between {words}.", width)] if words else []


def size_risks(answers: Iterable[PlayerAnswer], width: int) -> list[str]:
    """The same for everybody on a roster whom it concerns."""
    said = [
        f"{each.player.label}, {words}."
        for each in answers
        if each.proposal and (words := size_risk_words(each.proposal.size_risk))
    ]
    return [*heading(LINE_TITLE, width), *bullets(said, width)] if said else []


def measurer_table(measurers: Sequence[MeasurerError], width: int) -> list[str]:
    """For each person who measures: repeats, technical error, and whether it is past the usual."""
    if not measurers:
        return []
    head = columns(("By", "Measure", "Pairs", "TEM", "Usual", "Used", ""), BY_WIDTHS)
    lines = [columns(_measurer(each), BY_WIDTHS) for each in measurers]
    return [*heading(BY_TITLE, width), head, *lines, *wrapped(BY_KEY, width)]


def _measurer(each: MeasurerError) -> tuple[str, ...]:
    return (
        each.by,
        measure_words(each.measure),
        str(each.pairs),
        f"{each.own_mm:.1f}",
        f"{each.usual_mm:.1f}",
        f"{each.used_mm:.1f}",
        "past the usual" if each.is_past_usual else "",
    )


@dataclass(frozen=True, slots=True)
class CoveringRow:
    """What is believed of one covering: its thickness under a drawn-in tape [mm]."""

    kind: Over
    worn: bool
    mean_mm: float
    low_mm: float
    high_mm: float


def covering_rows(head: HeadEstimate) -> tuple[CoveringRow, ...]:
    """Every covering that was taped over or will be worn, with the central 90 percent."""
    found = []
    for kind in Over:
        mean, sd = head.thickness(kind)
        if sd > 0.0:
            low, high = max(mean - _SDS_90 * sd, 0.0), mean + _SDS_90 * sd
            found.append(CoveringRow(kind, kind in head.worn, max(mean, 0.0), low, high))
    return tuple(found)


def covering_lines(head: HeadEstimate, width: int) -> list[str]:
    """The same as a section of the head's page.

    Hair of which nobody spoke is told where it is likely: not where a woman's head hardly is.
    """
    said = [
        f"{_named(row.kind)}, {_both(row.mean_mm)} under a drawn-in tape, {_both(row.low_mm)} to"
        f" {_both(row.high_mm)} in 9 of 10 such heads"
        + ("" if row.worn else "; not worn under the helmet")
        + ". Taken off before the head is told; where it starts from is assumed."
        for row in covering_rows(head)
        if row.kind is not Over.UNSTATED or row.mean_mm >= LEAST_UNSAID_MM
    ]
    return [*heading(COVERED_TITLE, width), *bullets(said, width)] if said else []


def _both(length_mm: float) -> str:
    return f"{inches(length_mm)} ({length_mm:.1f} mm)"


def over_words(kinds: Iterable[Over]) -> str:
    """What lies between head and tape, or head and pads: "hair not stated, skull cap"."""
    return ", ".join("hair not stated" if kind is Over.UNSTATED else str(kind) for kind in kinds)


def _named(kind: Over) -> str:
    if kind is Over.UNSTATED:
        return "Hair, as women of the surveys had it; nothing was said of it"
    return f"{kind[:1].upper()}{kind[1:]}"
