"""Fit cards: what stands on the two sides of one player's card."""

from collections.abc import Iterable
from typing import Any

from helmwright.anatomy import MEASURES
from helmwright.anatomy.reading import combined
from helmwright.catalogue.instruction import FitTopic
from helmwright.catalogue.sheet import ModelSheet
from helmwright.drawing import NUMBERS, Section, Size, section_svg
from helmwright.fit.outlook import BuildOutlook, Proposal, ZoneOutlook
from helmwright.fit.verdict import Bands
from helmwright.reports.build_page import instruction_words
from helmwright.reports.cautions import ASSUMED, CAUTIONS
from helmwright.reports.chances import (
    chart_chance,
    fault_words,
    hundredths,
    model_words,
    of_hundred,
)
from helmwright.reports.drawings import ASSUMED_FORM, ILLUSTRATIVE, drawn_sections, is_illustrative
from helmwright.reports.face_section import card_facts
from helmwright.reports.lengths import fraction, inches, measure_words, thickness
from helmwright.reports.paper.typesetting import typeset
from helmwright.reports.remarks import body_words
from helmwright.reports.remedy import remedy
from helmwright.reports.sentences import measure_worth, next_measure, reasons
from helmwright.reports.warnings import warnings
from helmwright.reports.youth import youth_lines
from helmwright.roster import PlayerAnswer, Remark, RosterAnswer
from helmwright.units import millimeters

Data = dict[str, Any]

SCALE = 1.0 / 6.0
"""Size on the card of a millimeter of head and helmet [mm]."""

CHECKS = 3
TOUCHES_MM = 0.8
"""Less stroke or gap than this is told as touching [mm]."""

SIGNATURES = ("player", "fitter", "guardian, if a minor", "date")
KEY = (
    "Left is the wearer's left. Combs: pressure, longer is harder; dashed: the pad before it is"
    " pressed. Expect, kPa: means over the possible heads; snug is {low:.1f} to {high:.1f} kPa"
    " (assumed)."
)


def fit_cards(answer: RosterAnswer) -> bytes:
    """Half-letter fit cards of everybody who was answered, as one PDF.

    Raises
    ------
    ValueError
        Where there is nobody to make a card for.
    """
    sheet = answer.sheet
    answered = [each for each in answer.answers if each.proposal is not None]
    if sheet is None or not answered:
        raise ValueError("a fit card needs a proposal and its model sheet")
    pictures: dict[str, bytes] = {}
    cards = [card_data(each, answer, sheet, pictures, at) for at, each in enumerate(answered)]
    title = f"Fit cards: {model_words(sheet)}"
    if len(answered) == 1:
        title = f"Fit card of {answered[0].player.label}: {model_words(sheet)}"
    return typeset("card.typ", {"title": title, "scale": SCALE, "cards": cards}, pictures)


def card_data(
    each: PlayerAnswer, answer: RosterAnswer, sheet: ModelSheet, pictures: dict[str, bytes], at: int
) -> Data:
    """Everything on one card, in words; its pictures are put beside the others."""
    proposal = each.proposal
    if proposal is None:
        raise ValueError("a fit card needs a proposal")
    best, player, bands = proposal.ranked[0], each.player, Bands.of(sheet)
    drawn = drawn_sections(each.head, sheet, best)
    key = KEY.format(low=bands.loose_kpa, high=bands.tight_kpa)
    if is_illustrative(each.head):
        key = f"{ILLUSTRATIVE} {key}"
    return {
        "number": player.number,
        "name": player.name or ("Player" if player.number else player.label),
        "about": _about(each),
        "model": model_words(sheet),
        "shell": best.build.shell,
        "chart": f"the chart names it for {of_hundred(chart_chance(proposal))}",
        "warnings": " ".join(f"{_capital(words)}." for words in warnings(proposal)),
        "fits": hundredths(best.fits.value),
        "chances": (
            "of 100 heads that read like this one fit it, by this model. On"
            f" {hundredths(best.found_right.value)} of 100 a fitter finds everything right at the"
            " first try-on. No safety score."
        ),
        "sections": [_section(section, at, pictures) for section in drawn],
        "zones": [_zone(z, bands) for z in sorted(best.zones, key=lambda z: NUMBERS[z.zone])],
        "key": key,
        "checks": _checks(best, sheet, bands),
        "cautions": CAUTIONS,
        "signatures": SIGNATURES,
        "readings": _readings(each),
        "parts": [part for part in _parts(each, proposal, answer, sheet) if part["said"]],
        "foot": f"{' '.join((ASSUMED, *youth_lines([player])))} {ASSUMED_FORM} Drawn at 1 to 6."
        f" Counted on {proposal.draws} fresh draws; seed {answer.seed} gives them again.",
    }


def _about(each: PlayerAnswer) -> str:
    """Position, body and what is worn underneath."""
    worn = sorted({str(reading.over) for reading in each.player.readings})
    over = f"read over: {', '.join(worn)}" if worn else ""
    said = (each.player.position, body_words(each.player), over)
    return "; ".join(part for part in said if part)


def _section(section: Section, at: int, pictures: dict[str, bytes]) -> Data:
    """One section as a picture file and the labels that are set over it."""
    low, high = section.low, section.high
    name = f"{at}-{section.name}.svg"
    pictures[name] = section_svg(section, labels=False).encode()
    return {
        "file": name,
        "width": float(high[0] - low[0]),
        "height": float(high[1] - low[1]),
        "told": section.told,
        "caption": section.caption,
        "labels": [
            {
                "text": label.text,
                "x": label.at[0] - float(low[0]),
                "y": float(high[1]) - label.at[1],
                "size": "thickness" if label.size is Size.THICKNESS else label.size.value,
            }
            for label in section.labels
        ],
    }


def _zone(place: ZoneOutlook, bands: Bands) -> Data:
    """One line of the list of zones."""
    pressure = max(place.pressure_kpa.mean, 0.0)
    tight = "tight" if pressure > bands.tight_kpa else ""
    return {
        "number": str(NUMBERS[place.zone]),
        "name": str(place.zone),
        "pad": thickness(place.pad_mm, place.pad_label),
        "expect": expected(place.stroke_mm.mean),
        "pressure": f"{pressure:.1f}",
        "band": "loose" if pressure < bands.loose_kpa else tight,
    }


def expected(stroke_mm: float) -> str:
    """A mean stroke or gap in words: "1/8 in pressed", "gap 1/16 in"."""
    if abs(stroke_mm) < TOUCHES_MM:
        return "touches"
    if stroke_mm < 0.0:
        return f"gap {inches(-stroke_mm)}"
    return f"{inches(stroke_mm)} pressed"


def _checks(best: BuildOutlook, sheet: ModelSheet, bands: Bands) -> list[str]:
    """Where the front edge should sit, and the likeliest faults with their remedies."""
    said = sheet.instruction(FitTopic.BROW_HEIGHT)
    whose = "the maker's instructions" if said and said.accept_mm else "assumed"
    brow, right = best.brow_mm, (bands.brow_low_mm, bands.brow_high_mm)
    edge = (
        f"Front edge above the brow: right from {fraction(right[0])} to {inches(right[1])}"
        f" ({whose}); expect {inches(brow.mean)}, {inches(brow.low)} to {inches(brow.high)} for 9"
        " of 10 heads."
    )
    return [edge, *fault_lines(best, sheet)[:CHECKS]]


def fault_lines(best: BuildOutlook, sheet: ModelSheet) -> list[str]:
    """Faults, likeliest first, each with its chance and what to try."""
    return [
        f"{_capital(fault_words(f))} ({of_hundred(f.chance)}): {remedy(f, best, sheet)}."
        for f in best.faults
    ]


def _readings(each: PlayerAnswer) -> list[Data]:
    """What was read, measure by measure, as read and over what."""
    order = [measure.key for measure in MEASURES]
    rows = []
    for group in sorted(combined(each.player.readings), key=lambda g: order.index(g.measure)):
        read = [
            r for r in each.player.readings if (r.measure, r.over) == (group.measure, group.over)
        ]
        rows.append(
            {
                "measure": measure_words(group.measure),
                "read": ", ".join(fraction(r.value_mm, denominator=16) for r in read),
                "mm": millimeters(group.value_mm).removesuffix(" mm"),
                "over": str(group.over),
            }
        )
    return rows


def _parts(
    each: PlayerAnswer, proposal: Proposal, answer: RosterAnswer, sheet: ModelSheet
) -> Iterable[Data]:
    """The back of the card below the readings: titles with what is said under each."""
    best = proposal.ranked[0]
    notices = [str(said) for said in answer.notices if _is_of(said, each)]
    measure = [next_measure(measure_worth(proposal))]
    yield {"title": "Look at these readings", "said": notices}
    yield {"title": "Why this build", "said": list(reasons(proposal, each.current, sheet))}
    yield {"title": "Then look for", "said": fault_lines(best, sheet)[CHECKS:5]}
    yield {"title": "Face guard and chin strap", "said": list(card_facts(each, answer))}
    yield {"title": "What one more measure would buy", "said": measure}
    yield {"title": "The maker says", "said": [instruction_words(i) for i in sheet.instructions]}


def _is_of(said: Remark, each: PlayerAnswer) -> bool:
    """Whether a notice is about this player's row."""
    return said.row == each.player.row


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
