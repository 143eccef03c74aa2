"""How a visit ended, on the screen: the parts, what was changed and why, who decides."""

import numpy as np

from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.chart import charted_shell
from helmwright.fit.outlook import Build
from helmwright.reports.chances import model_words, of_hundred
from helmwright.reports.found import found_by_stage
from helmwright.reports.layout import bullets, heading, wrapped
from helmwright.reports.lengths import inches
from helmwright.reports.visit_parts import parts_words, shell_words
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED
from helmwright.visit.check_list import Protocol
from helmwright.visit.event import Accepted, NoBuild, Stopped, SymptomReported, Would
from helmwright.visit.sub_scores import unchecked_words
from helmwright.visit.summary import TryOnSummary, VisitSummary

NEAR = Figure(
    0.05, "1", ASSUMED, note="difference of chances that is no reason to leave the chart's shell"
)
BANDS = "In brackets stands the tape that the chart gives each shell."
NOT_A_SCORE = (
    "Findings are not added up, and none is a safety score; no helmet prevents every head or neck"
    " injury."
)
AGAIN = (
    "Check it again every week, and after a haircut, new headwear, a change of weight, a hard hit"
    " or any new part. Nobody else wears it without a fit check of their own."
)
NOT_ACCEPTED = "This helmet has not been accepted for this player, who does not play in it."
DO_NOT = "Do not make it do with the strap, and do not cut or leave out a pad."
SPINE = (
    "Where neck or back may be hurt, helmet and face guard stay on; trained medical staff decide."
    " After an injury set the helmet aside as it is, neither cleaned nor repaired."
)
NO_CLEARING = (
    "No change of fit is proposed for it. Whether the player goes on is for medical staff to say."
)


def end_lines(
    visit: VisitSummary,
    protocol: Protocol,
    sheet: ModelSheet,
    width: int,
    *,
    tape_mm: float | None = None,
) -> list[str]:
    """How the visit ended.

    Parameters
    ----------
    visit
        The visit in retrospect.
    protocol
        Its checks, and what to do at a symptom.
    sheet
        The model.
    width
        Columns.
    tape_mm
        The tape around the head as it was read; None where it was not [mm].

    Raises
    ------
    ValueError
        Where it has not ended.
    """
    match visit.ended:
        case Accepted(build):
            return accepted_lines(visit, build, protocol, sheet, width)
        case NoBuild(why, would):
            return no_build_lines(visit, why, would, sheet, width, tape_mm=tape_mm)
        case SymptomReported(words):
            return symptom_lines(visit.who, words, protocol.symptom_stop, width)
        case Stopped(reason):
            return stopped_lines(visit.who, reason, width)
        case None:
            raise ValueError("the visit has not ended")


def accepted_lines(
    visit: VisitSummary, build: Build, protocol: Protocol, sheet: ModelSheet, width: int
) -> list[str]:
    """The accepted build, what was found of it, and what was changed on the way."""
    return [
        *heading(f"Accepted: {visit.who}", width),
        *wrapped(f"{model_words(sheet)}, {shell_words(build.shell, sheet)}.", width),
        *wrapped(f"Pads: {parts_words(build, sheet)}.", width, hanging="  "),
        *try_on_lines(visit, sheet, width),
        "",
        *found_lines(visit, protocol, width),
        *wrapped(NOT_A_SCORE, width),
        *wrapped(AGAIN, width),
    ]


def found_lines(visit: VisitSummary, protocol: Protocol, width: int) -> list[str]:
    """What was found, stage by stage, and what no check was about."""
    rows = [
        line
        for each in found_by_stage(visit, protocol)
        for line in wrapped(
            " ".join([f"{each.stage}.", each.told, *each.on_the_way]),
            width,
            indent="  ",
            hanging="    ",
        )
    ]
    missed = unchecked_words(score for score, count in visit.scores.items() if not count.answered)
    return [
        "What was found, in the order of the visit:",
        *rows,
        *(wrapped(missed, width) if missed else []),
    ]


def try_on_lines(visit: VisitSummary, sheet: ModelSheet, width: int) -> list[str]:
    """Every try-on with what was changed for it, why, and what was found wrong."""
    return [
        line
        for tried in visit.try_ons
        for line in wrapped(_try_on(tried, sheet), width, hanging="  ")
    ]


def _try_on(tried: TryOnSummary, sheet: ModelSheet) -> str:
    changed = [f"shell {tried.build.shell}"] if tried.other_shell else []
    pads = [zone for zone in tried.changed if sheet.pad(zone).seats]
    changed += [parts_words(tried.build, sheet, pads)] if pads else []
    taken = f"changed: {', '.join(changed)}" if changed else "nothing changed"
    reason = tried.reason or (tried.proposed.why if tried.proposed else "")
    because = f" ({reason.rstrip('.')})" if reason else ""
    wrong = ", ".join(each.check.key for each in tried.wrong)
    found = f"Wrong: {wrong}" if wrong else "All that was checked was right"
    return f"Try-on {tried.number}: {taken}{because}. {found}."


def no_build_lines(
    visit: VisitSummary,
    why: str,
    would: tuple[Would, ...],
    sheet: ModelSheet,
    width: int,
    *,
    tape_mm: float | None = None,
) -> list[str]:
    """That nothing here fits, and what would."""
    # Without a part that would do it may be no matter of parts at all: a label, say, is missing.
    said = f"No build here fits {visit.who}" if would else f"Not accepted: {visit.who}"
    lines = [*heading(said, width), *wrapped(why, width)]
    lines += try_on_lines(visit, sheet, width)
    if would:
        lines += ["", "What would, as far as is known (the limits are assumed):"]
        charted = _charted(sheet, tape_mm)
        lines += wrapped(_chart_words(sheet, charted, tape_mm), width)
        lines += bullets([_would(each, sheet) for each in in_order(would, charted)], width)
    return [*lines, *wrapped(f"{NOT_ACCEPTED} {DO_NOT}", width)]


def in_order(would: tuple[Would, ...], charted: int) -> list[Would]:
    """The chart's shell first where its chance is near the best; else as they are.

    Notes
    -----
    A maker's chart says which shell to begin with; so small a difference of chances is no reason
    to leave it. How small is `NEAR`, assumed.
    """
    best = max(each.fits for each in would)
    return sorted(
        would,
        key=lambda each: each.build.shell != charted or each.fits < best - NEAR.value,
    )


def _charted(sheet: ModelSheet, tape_mm: float | None) -> int:
    """The shell that the maker's chart gives; 0 where it gives none."""
    return 0 if tape_mm is None else int(charted_shell(sheet, np.array([tape_mm]))[0])


def _chart_words(sheet: ModelSheet, charted: int, tape_mm: float | None) -> str:
    """What the chart says of the tape, without which a shell's band says little."""
    if tape_mm is None:
        return f"The tape around the head was not read, so the chart names no shell. {BANDS}"
    tape = inches(tape_mm)
    if not charted:
        return f"The chart has no shell for a tape of {tape}. {BANDS}"
    return f"By the chart a tape of {tape} takes {shell_words(charted, sheet)}. {BANDS}"


def _would(would: Would, sheet: ModelSheet) -> str:
    whole = f"{shell_words(would.build.shell, sheet)}, {parts_words(would.build, sheet)}"
    chance = f"fits {of_hundred(would.fits)} heads that readings and answers allow"
    if not would.lacking:
        return f"{whole.capitalize()}: it {chance}."
    return f"With {', '.join(would.lacking)} (not here) it {chance}. Whole: {whole}."


def symptom_lines(who: str, words: str, to_do: str, width: int) -> list[str]:
    """A symptom: whom to tell, and nothing about pads."""
    return [
        *heading(f'Stopped for a symptom: {who}, "{words}"', width),
        *wrapped(to_do, width),
        *wrapped(NO_CLEARING, width),
        *wrapped(SPINE, width),
    ]


def stopped_lines(who: str, reason: str, width: int) -> list[str]:
    """Stopped by the fitter."""
    said = f"Reason: {reason}." if reason else "No reason was given."
    return [*heading(f"Stopped: {who}", width), *wrapped(f"{said} {NOT_ACCEPTED}", width)]
