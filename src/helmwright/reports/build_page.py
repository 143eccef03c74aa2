"""One player's builds as a page: the best one drawn, the reasons, the others, what to measure."""

from collections.abc import Sequence

from helmwright.anatomy import measure_of
from helmwright.catalogue.instruction import Instruction
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.outlook import BuildOutlook, Proposal
from helmwright.reports.cautions import ASSUMED, CAUTIONS
from helmwright.reports.chances import (
    fault_words,
    give_or_take,
    hundredths,
    model_words,
    of_hundred,
    short_hundredths,
)
from helmwright.reports.drawings import drawn_sections
from helmwright.reports.driving import driver_lines
from helmwright.reports.face_section import face_section
from helmwright.reports.insides import caliper_words, guess_lines
from helmwright.reports.layout import bullets, columns, title, wrapped
from helmwright.reports.lengths import inches, measure_words, minutes_words, thickness
from helmwright.reports.picture import PICTURE_KEY, feel_rows, shell_picture
from helmwright.reports.reading_quality import is_on_the_line, size_risk_lines
from helmwright.reports.remarks import who_lines
from helmwright.reports.remedy import checks
from helmwright.reports.sentences import (
    CHANCES,
    CHART,
    is_worth_taking,
    measure_worth,
    next_measure,
    reasons,
)
from helmwright.reports.warnings import is_other_shell, is_outside_chart
from helmwright.reports.youth import youth_lines
from helmwright.roster import PlayerAnswer, RosterAnswer

FAULTS_SHOWN = 4
NEARLY_ALIKE = "Nearly alike: the chart's shell first, then the fewest pads to change."
BOTH = {Zone.LEFT: "both sides", Zone.JAW_LEFT: "both jaws"}
WIDE = 60
RANK_WIDTHS = (2, 5, 15)


def build_page(answer: RosterAnswer, width: int) -> str:
    """The page for the one player of the answer."""
    (each,) = answer.answers
    proposal, sheet = each.proposal, answer.sheet
    if proposal is None or sheet is None:
        raise ValueError("a build page needs a proposal and its model sheet")
    best = proposal.ranked[0]
    lines = [
        *(line for who in who_lines(each.player) for line in wrapped(who, width)),
        *_title(best, sheet, width),
        *_listed("Look at these", [str(each) for each in answer.notices], width),
        *size_risk_lines(proposal, width),
        "",
        *shell_picture(drawn_sections(each.head, sheet, best), width),
        *wrapped(PICTURE_KEY, width),
        "",
        *feel_rows(best, width),
        *_listed("Why this build", _why(each, proposal, sheet), width),
        *_faults(best, sheet, width),
        *face_section(each, answer, width),
        *_others(proposal, width),
        *driver_lines(best, width),
        *_measures(proposal, width),
        *_calipers(proposal, width),
        *_listed("Who decides", (*CAUTIONS, ASSUMED, *youth_lines([each.player])), width),
        *wrapped(_counted(proposal, answer.seed), width),
    ]
    return "\n".join(lines) + "\n"


def _counted(proposal: Proposal, seed: int) -> str:
    """On how many draws, and how far the two chances may be off for it."""
    best = proposal.ranked[0]
    error = max(best.fits.error, best.found_right.error)
    return (
        f"Counted on {proposal.draws} fresh draws of seed {seed}: {give_or_take(error)},"
        " 19 times of 20."
    )


def _title(best: BuildOutlook, sheet: ModelSheet, width: int) -> list[str]:
    """Which model, which shell, and the two chances."""
    return [
        *wrapped(f"Model: {model_words(sheet)}", width),
        *(line for said in guess_lines(sheet) for line in wrapped(said, width)),
        *wrapped(
            f"Best build: shell {best.build.shell}. By this model it fits"
            f" {of_hundred(best.fits.value)} heads that these readings allow; on"
            f" {hundredths(best.found_right.value)} a fitter finds everything right at the first"
            " try-on.",
            width,
        ),
    ]


def _why(each: PlayerAnswer, proposal: Proposal, sheet: ModelSheet) -> list[str]:
    """The reasons, but for the chances and the shells of the chart where they are told above."""
    said = reasons(proposal, each.current, sheet)
    usual = not (is_other_shell(proposal) or is_outside_chart(proposal))
    above = (CHANCES, CHART) if usual and is_on_the_line(proposal.size_risk) else (CHANCES,)
    return [reason for reason in said if not reason.startswith(above)]


def _faults(best: BuildOutlook, sheet: ModelSheet, width: int) -> list[str]:
    """What to look for first, what to try where it is found, and what the maker says, who wins."""
    said = [
        f"{fault_words(fault)} ({of_hundred(fault.chance)}): {words}"
        for fault, words in checks(best.faults[:FAULTS_SHOWN], best, sheet)
    ]
    said += [f"The maker says: {instruction_words(each)}" for each in sheet.instructions]
    return _listed("Check these first on the head, twice before a pad is changed", said, width)


def _listed(words: str, said: Sequence[str], width: int) -> list[str]:
    """A list under its title; nothing where there is nothing."""
    return [*title(words, width), *bullets(said, width)] if said else []


def instruction_words(instruction: Instruction) -> str:
    """One instruction: what it is about, the sheet's words, and the accepted interval."""
    words = f"{instruction.topic}: {instruction.says.rstrip('.')}"
    if instruction.accept_mm is None:
        return f"{words}."
    low, high = (inches(each) for each in instruction.accept_mm)
    return f"{words}. Accepted: {low} to {high}."


def _others(proposal: Proposal, width: int) -> list[str]:
    """The builds after the first, by what differs from it, and the delivered one."""
    best = proposal.ranked[0]
    what = "Pads, where they differ" if width >= WIDE else "Pads"
    lines = [columns(("", "Shell", "Found / fits", what), RANK_WIDTHS)]
    for place, outlook in enumerate(proposal.ranked[1:], start=2):
        lines += _ranked(str(place), outlook, _differences(outlook, best), width)
    lines += _ranked("D", proposal.delivered, "as delivered", width)
    lines += wrapped(NEARLY_ALIKE, width)
    return [
        *title("Builds, best first, after this one (chances of 100; D: as delivered)", width),
        *lines,
    ]


def _ranked(place: str, outlook: BuildOutlook, differs: str, width: int) -> list[str]:
    """One build of the list; the last column wraps below itself."""
    chances = (
        f"{short_hundredths(outlook.found_right.value)} / {short_hundredths(outlook.fits.value)}"
    )
    lead = columns((place, str(outlook.build.shell), chances), RANK_WIDTHS)
    margin = sum(RANK_WIDTHS) + len(RANK_WIDTHS)
    return wrapped(differs, width, indent=f"{lead:<{margin}}", hanging=" " * margin)


def _differences(outlook: BuildOutlook, best: BuildOutlook) -> str:
    """Pads of one build that the best one has otherwise."""
    places = dict(zip(ZONES, outlook.zones, strict=True))
    changed = outlook.build.changes_from(best.build)
    pads = {z: thickness(places[z].pad_mm, places[z].pad_label) for z in changed}
    said = []
    for zone, pad in pads.items():
        if pads.get(zone.mirrored) != pad or zone.mirrored is zone:
            said.append(f"{zone} {pad}")
        elif zone in (Zone.LEFT, Zone.JAW_LEFT):
            said.append(f"{BOTH[zone]} {pad}")
    return ", ".join(said) or "the same pads"


def _measures(proposal: Proposal, width: int) -> list[str]:
    """What one more measure would buy, best first, and how to take the first of them."""
    worth = [gain for gain in proposal.next_measures if is_worth_taking(gain)]
    first = measure_worth(proposal)
    lines = wrapped(next_measure(proposal), width)
    if first is not None:
        key = first.measure
        lines += wrapped(f"How ({minutes_words(key)}): {measure_of(key).how}", width)
    others = [gain for gain in worth if gain != first]
    if others:
        said = ", ".join(
            f"{measure_words(g.measure)}{' again' if g.repeat else ''} +{100 * g.gain:.0f}"
            for g in others
        )
        lines += wrapped(f"The others, of 100: {said}.", width)
    return ["", *lines]


def _calipers(proposal: Proposal, width: int) -> list[str]:
    """What inside calipers would buy, where the shell was not measured."""
    if proposal.inside_gain is None:
        return []
    return wrapped(caliper_words(proposal.inside_gain), width)
