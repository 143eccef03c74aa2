"""The roster's answer as a page of text, for 80 columns and up, and for a narrow screen."""

from collections.abc import Iterable, Sequence

from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import Zone
from helmwright.fit.outlook import BuildOutlook, Proposal
from helmwright.reports.air import air_key
from helmwright.reports.cautions import ASSUMED, CAUTIONS
from helmwright.reports.chances import (
    answered_words,
    chart_chance,
    model_words,
    of_hundred,
    short_hundredths,
)
from helmwright.reports.driving import most_hangs_on
from helmwright.reports.face_section import face_troubles
from helmwright.reports.insides import guess_lines, guessed_numbers, roster_caliper_words
from helmwright.reports.layout import bullets, columns, cut, heading, wrapped
from helmwright.reports.lengths import thickness
from helmwright.reports.reading_quality import measurer_table, size_risks
from helmwright.reports.remarks import look_at, put_right, remark_list
from helmwright.reports.roster_words import (
    doubts,
    measures_worth_taking,
    next_words,
    other_shells,
    shell_words,
)
from helmwright.reports.sentences import is_uneven, mirror_words
from helmwright.reports.warnings import first_trouble
from helmwright.reports.youth import youth_lines
from helmwright.roster import PlayerAnswer, RosterAnswer

WIDE = 80
PAD_HEADS = {
    Zone.CROWN: "Crown",
    Zone.FRONT: "Front",
    Zone.REAR: "Rear",
    Zone.LEFT: "Left",
    Zone.RIGHT: "Right",
    Zone.NAPE: "Nape",
    Zone.JAW_LEFT: "Jaw L",
    Zone.JAW_RIGHT: "Jaw R",
}
WHO_WIDTHS = (4, 19, 7)
PAD_WIDTH = 5
WIDEST_NAME = 28
SAID_WIDTHS = (4, 22, 25)
KEY = (
    "Pads in inches; chances of 100 heads with such readings. In brackets: how often the size chart"
    " names that shell. Found right: a fitter finds nothing to change at the first try-on. Fits:"
    " nothing needs changing, whoever checks. Measure next: what it would add to Fits."
)
USUAL = (
    "Found right in some 10 to 40 of 100 is usual, least where little was read. That is what"
    " checking on the head is for."
)
UNEVEN = (
    "Where left and right pads differ: no reading has a side; unequal pads make a half step"
    " together{mirror}. Feel both sides."
)


USUAL_UNMEASURED = (
    "While the insides are not measured, Found right in some 2 to 13 of 100 is usual (assumed: so"
    " it came out on an invented youth sheet). Such an answer is good for the shell, and for what"
    " to check first on the head."
)


def usual_words(sheet: ModelSheet | None) -> str:
    """Which chances are usual, so that nobody takes a low one for a fault."""
    return USUAL_UNMEASURED if sheet is not None and guessed_numbers(sheet) else USUAL


def uneven_words(sheet: ModelSheet | None, builds: Iterable[BuildOutlook]) -> str:
    """What to think of unequal pads, where a build has some; else nothing."""
    return UNEVEN.format(mirror=mirror_words(sheet)) if any(map(is_uneven, builds)) else ""


def roster_page(answer: RosterAnswer, width: int = WIDE) -> str:
    """The whole page: what was used, a build for every player, what to look at, the cautions."""
    lines = [
        *_opening(answer, width),
        *(_table(answer, width) if width >= WIDE else _blocks(answer, width)),
        *_driven(answer.answers, width),
        *remark_list("Not answered: put these right and run it again", put_right(answer), width),
        *remark_list("Answered, but look at these", look_at(answer), width),
        *_doubtful(answer.answers, width),
        *_other_shells(answer.answers, width),
        *size_risks(answer.answers, width),
        *face_troubles(answer, width),
        *_worth_measuring(answer.answers, width),
        *_calipers(answer.answers, width),
        *measurer_table(answer.measurers, width),
        *_closing(answer, width),
    ]
    return "\n".join(lines) + "\n"


def _opening(answer: RosterAnswer, width: int) -> list[str]:
    """Which model, and how to read the page."""
    sheet = answer.sheet
    if sheet is None or not answer.answers:
        return []
    builds = [each.proposal.ranked[0] for each in answer.answers if each.proposal]
    said = filter(None, (KEY, usual_words(sheet), uneven_words(sheet, builds), air_key(sheet)))
    return [
        *wrapped(f"Model: {model_words(sheet)}", width),
        *(line for each in guess_lines(sheet) for line in wrapped(each, width)),
        *(line for each in said for line in wrapped(each, width)),
        "",
    ]


def _table(answer: RosterAnswer, width: int) -> list[str]:
    """Two lines for each player, columns that the eye can run down."""
    widths = (WHO_WIDTHS[0], min(WHO_WIDTHS[1] + width - WIDE, WIDEST_NAME), WHO_WIDTHS[2])
    pads = [f"{head:<{PAD_WIDTH}}" for head in PAD_HEADS.values()]
    top = columns(("No.", "Player", "Shell", " ".join(pads)), widths)
    below = columns(("", "Found right / fits", "Likeliest fault", "Measure next"), SAID_WIDTHS)
    body = {each.player.row: _two_lines(each, widths) for each in answer.answers}
    if not body:
        return []
    for problem in answer.problems:
        missing = (problem.number, problem.who or "?", f"not answered: see row {problem.row} below")
        body.setdefault(problem.row, (columns(missing, widths[:2]),))
    lines = [line for row in sorted(body) for line in (*body[row], "")]
    return [top, below, "-" * (sum(widths) + 3 + 8 * PAD_WIDTH + 7), *lines[:-1]]


def _two_lines(answer: PlayerAnswer, widths: tuple[int, int, int]) -> tuple[str, ...]:
    """Who, shell and pads; then the chances, the fault and the next measure."""
    player, proposal = answer.player, answer.proposal
    if proposal is None:
        return (columns((player.number, player.label), widths),)
    best = proposal.ranked[0]
    pads = " ".join(f"{thickness(z.pad_mm, z.pad_label):<{PAD_WIDTH}}" for z in best.zones)
    shell = shell_words(proposal)
    said = columns(
        ("", _two_chances(best), first_trouble(proposal), next_words(proposal)), SAID_WIDTHS
    )
    return columns((player.number, player.label, shell, pads), widths), said


def _blocks(answer: RosterAnswer, width: int) -> list[str]:
    """A paragraph for each player, where the screen is too narrow for columns."""
    body = {each.player.row: _paragraph(each, width) for each in answer.answers}
    for problem in answer.problems if body else ():
        missing = wrapped(f"not answered: see row {problem.row} below", width, indent="  ")
        body.setdefault(problem.row, [_named(problem.number, problem.who or "?", width), *missing])
    lines = [line for row in sorted(body) for line in (*body[row], "")]
    return lines[:-1]


def _paragraph(answer: PlayerAnswer, width: int) -> list[str]:
    """One player's paragraph."""
    lines = [_named(answer.player.number, answer.player.label, width)]
    for sentence in _block(answer.proposal) if answer.proposal else ():
        lines += wrapped(sentence, width, indent="  ", hanging="    ")
    return lines


def _named(number: str, who: str, width: int) -> str:
    """Number and name on one line."""
    return cut(f"{number}  {who}" if number else who, width)


def _block(proposal: Proposal) -> tuple[str, ...]:
    """The same facts as the two lines of the table, in words."""
    best = proposal.ranked[0]
    pads = ", ".join(f"{z.zone} {thickness(z.pad_mm, z.pad_label)}" for z in best.zones)
    fits = of_hundred(best.fits.value)
    return (
        f"Shell {best.build.shell} (chart: {of_hundred(chart_chance(proposal))})",
        f"Pads: {pads} in",
        f"Found right {of_hundred(best.found_right.value)}, truly fits {fits}",
        f"Likeliest fault: {first_trouble(proposal)}",
        f"Measure next: {next_words(proposal)}",
    )


def _two_chances(best: BuildOutlook) -> str:
    """Found right and truly fits, in that order."""
    return (
        f"{short_hundredths(best.found_right.value)} / {short_hundredths(best.fits.value)} of 100"
    )


def _driven(answers: Sequence[PlayerAnswer], width: int) -> list[str]:
    """The assumption that moves most of the roster's chances, in a sentence."""
    said = most_hangs_on([each.proposal for each in answers if each.proposal is not None])
    return ["", *wrapped(said, width)] if said else []


def _worth_measuring(answers: Sequence[PlayerAnswer], width: int) -> list[str]:
    """For each measure worth taking next: of whom, and how it is taken."""
    return _listed("Worth measuring next", measures_worth_taking(answers), width)


def _doubtful(answers: Sequence[PlayerAnswer], width: int) -> list[str]:
    """Whom this model does not suit, and what is to be done."""
    return _listed("Perhaps not this model", doubts(answers), width)


def _other_shells(answers: Sequence[PlayerAnswer], width: int) -> list[str]:
    """Whose proposed shell is not the one that the size chart names most often."""
    return _listed("Another shell than the chart's likeliest", other_shells(answers), width)


def _listed(title: str, said: Sequence[str], width: int) -> list[str]:
    """A list under its title; nothing where there is nothing."""
    return [*heading(title, width), *bullets(said, width)] if said else []


def _calipers(answers: Sequence[PlayerAnswer], width: int) -> list[str]:
    """What inside calipers would buy, shell by shell, where they were not measured."""
    said = roster_caliper_words(answers)
    return [*heading("Worth measuring in the shells", width), *bullets(said, width)] if said else []


def _closing(answer: RosterAnswer, width: int) -> list[str]:
    """How many were answered, and the cautions."""
    return [
        *heading(f"{answered_words(answer)}.", width),
        *bullets(CAUTIONS, width),
        *bullets([ASSUMED, *youth_lines(each.player for each in answer.answers)], width),
        *wrapped(f"Draws follow from seed {answer.seed}; the same seed, the same page.", width),
    ]
