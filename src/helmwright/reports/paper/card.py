"""Fit cards: what stands on the two sides of one player's card."""

from collections.abc import Iterable
from typing import Any

from helmwright.anatomy import Over, measure_of
from helmwright.anatomy.reading import combined
from helmwright.catalogue.instruction import FitTopic
from helmwright.catalogue.sheet import ModelSheet
from helmwright.drawing import MOST_KPA, NUMBERS, Ink, Section, section_svg
from helmwright.fit.outlook import BuildOutlook, Spread, ZoneOutlook
from helmwright.fit.verdict import Bands
from helmwright.reports.cautions import CAUTIONS
from helmwright.reports.chances import (
    chart_chance,
    hundredths,
    model_words,
    of_hundred,
    short_hundredths,
)
from helmwright.reports.drawings import drawn_sections, illustrative_words
from helmwright.reports.face_section import guard_and_strap
from helmwright.reports.lengths import fraction, inches, thickness
from helmwright.reports.paper.card_back import CHECKS, back_data, capital, fault_lines
from helmwright.reports.paper.room import is_crowded
from helmwright.reports.paper.typesetting import typeset
from helmwright.reports.reading_quality import over_words
from helmwright.reports.remarks import body_words
from helmwright.reports.remedy import most_find
from helmwright.reports.warnings import player_warnings
from helmwright.roster import PlayerAnswer, RosterAnswer

Data = dict[str, Any]

SCALE = 1.0 / 6.0
"""Size on the card of a millimeter of head and helmet [mm]."""

TOUCHES_MM = 0.8
"""Less stroke or gap than this is told as touching [mm]."""

LIKE_THIS = "that read like this one"
UNREAD = "such as this player may have"

SIGNATURES = ("player", "fitter", "guardian, if a minor", "date")
KEY = (
    "Left is the wearer's left. Combs: pressure, longer is harder; dashed: the pad before it is"
    " pressed. Expect, kPa: half of the possible heads more, half less. Loose, tight: of 100 heads;"
    " snug is {low:.1f} to {high:.1f} kPa (assumed)."
)
WORN_KEY = "Fine strokes: what is worn."


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
    cards = [
        {**data, "close": is_crowded(data, SCALE)}
        for at, each in enumerate(answered)
        for data in (card_data(each, answer, sheet, pictures, at),)
    ]
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
    fills = (pair for fill in best.fills for pair in zip(fill.zones, fill.pad_mm, strict=True))
    filled = dict(fills)
    drawn = drawn_sections(each.head, sheet, best)
    key = KEY.format(low=bands.loose_kpa, high=bands.tight_kpa)
    if any(section.of(Ink.WORN) for section in drawn):
        key = f"{key} {WORN_KEY}"
    key = f"{illustrative_words(each.head)} {key}".strip()
    return {
        "number": player.number,
        "name": player.name or ("Player" if player.number else capital(player.label)),
        "about": _about(each),
        "model": model_words(sheet),
        "shell": best.build.shell,
        "chart": f"the chart names it for {of_hundred(chart_chance(proposal))}",
        "kit": guard_and_strap(each, sheet),
        "warnings": " ".join(f"{capital(words)}." for words in player_warnings(each, sheet)),
        "fits": short_hundredths(best.fits.value),
        "chances": (
            f"of 100 heads {LIKE_THIS if proposal.measured else UNREAD} fit it, by this model. On"
            f" {hundredths(best.found_right.value)} of 100 a fitter finds everything right at the"
            " first try-on. No safety score."
        ),
        "sections": [_section(section, at, pictures) for section in drawn],
        "zones": [
            _zone(z, filled.get(z.zone)) for z in sorted(best.zones, key=lambda z: NUMBERS[z.zone])
        ],
        "key": key,
        "checks": _checks(best, sheet, bands),
        "cautions": CAUTIONS,
        "signatures": SIGNATURES,
        **back_data(each, proposal, answer, sheet),
    }


def _about(each: PlayerAnswer) -> str:
    """Position, body, glasses, what is worn underneath, and what the readings were taken over."""
    glasses = {True: "glasses", False: "no glasses", None: ""}[each.player.glasses]
    said = (each.player.position, body_words(each.player), glasses, _covering(each))
    return "; ".join(part for part in said if part)


def _covering(each: PlayerAnswer) -> str:
    """What is worn underneath and was read over: one word where both are the same."""
    worn = _kinds(each.head.worn)
    layered = [g for g in combined(each.player.readings) if measure_of(g.measure).layer > 0]
    read = dict.fromkeys(_kinds(group.kinds) for group in layered)
    if list(read) == [worn]:
        return f"worn underneath and read over: {worn}"
    over = f"; read over: {' or '.join(read)}" if read else ""
    return f"worn underneath: {worn}{over}"


def _kinds(kinds: Iterable[Over]) -> str:
    return over_words(kind for kind in kinds if kind is not Over.BARE) or "nothing"


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
                "size": "word" if label.text[:1].isalpha() else label.size.value,
            }
            for label in section.labels
        ],
    }


def _zone(place: ZoneOutlook, filled: Spread | None) -> Data:
    """One line of the list of zones; an air cell is told by what filling should come to."""
    pressure = max(place.pressure_kpa.median, 0.0)
    return {
        "number": str(NUMBERS[place.zone]),
        "name": str(place.zone),
        "pad": thickness(place.pad_mm, place.pad_label),
        "expect": _filled(filled) if filled else expected(place.stroke_mm.median),
        "pressure": f"{pressure:.1f}" if pressure < MOST_KPA else f"over {MOST_KPA:.0f}",
        "feel": f"{short_hundredths(place.loose)} / {short_hundredths(place.tight)}",
        "band": most_find(place),
    }


def _filled(pad_mm: Spread) -> str:
    """How thick an air cell should be once it is filled: "fill to 11/16 - 1 in"."""
    return f"fill: {fraction(pad_mm.low, denominator=16)} to {inches(pad_mm.high)}"


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
