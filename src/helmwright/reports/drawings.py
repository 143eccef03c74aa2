"""A player's best build, drawn: the sections, and what is to be said beside them."""

from helmwright.anatomy import HeadEstimate
from helmwright.catalogue.sheet import ModelSheet
from helmwright.drawing import Section, drawing_svg, sections
from helmwright.fit.middle import middle_rest
from helmwright.fit.outlook import BuildOutlook
from helmwright.reports.chances import model_words
from helmwright.reports.lengths import thickness
from helmwright.roster import PlayerAnswer

TAPES = {"tape_circumference", "head_circumference"}
ILLUSTRATIVE = "Illustrative: no more than a tape was read; the head's shape is a likely one."
UNREAD = "Illustrative: nothing was read of the head; size and shape are likely ones."
KEY = (
    "Strokes from the skin into the head: mean pressure; longer is harder. Dashed: the pad before"
    " it is pressed. White between pad and head: a gap; inside a pad: air. Fine strokes: what is"
    " worn."
)
ASSUMED_FORM = "The head is the middle one of the possible heads. Edges of shell and pads: assumed."


def drawn_sections(
    head: HeadEstimate, sheet: ModelSheet, outlook: BuildOutlook
) -> tuple[Section, Section, Section]:
    """From the side, from above and at the jaw pads, the pads' thickness as on their bags."""
    inches = {place.zone: thickness(place.pad_mm, place.pad_label) for place in outlook.zones}
    return sections(middle_rest(head, sheet, outlook.build), outlook, inches)


def illustrative_words(head: HeadEstimate) -> str:
    """That the drawn shape is a guess, where no more than a tape was read; else nothing."""
    if not head.read:
        return UNREAD
    return ILLUSTRATIVE if set(head.read) <= TAPES else ""


def build_svg(answer: PlayerAnswer, sheet: ModelSheet) -> str:
    """The best build of a player as an SVG document, at half its size.

    Raises
    ------
    ValueError
        Where no build was asked for.
    """
    if answer.proposal is None:
        raise ValueError("a drawing needs a proposal")
    best = answer.proposal.ranked[0]
    who = f"{answer.player.label}: " if answer.player.name else ""
    title = f"{who}{model_words(sheet)}; shell {best.build.shell}"
    said = [words] if (words := illustrative_words(answer.head)) else []
    return drawing_svg(
        drawn_sections(answer.head, sheet, best),
        title=title,
        notes=(title, *said, KEY, ASSUMED_FORM, "Half size."),
        scale=0.5,
    )
