"""The card of a helmet that was fitted: what is in it, for whom, and who signed."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from helmwright.catalogue.zone import Zone
from helmwright.drawing import NUMBERS
from helmwright.reports.cautions import CAUTIONS
from helmwright.reports.paper.labels import code_picture
from helmwright.reports.paper.typesetting import typeset

Strokes = Sequence[Sequence[Sequence[float]]]
"""A signature as it was drawn: strokes of points, in hundredths of the field's height."""

MOST_ON_THE_WAY = 3
"""Findings of a stage that a card names; the records have all."""

FIELD = (300.0, 100.0)
"""Width and height that a signature was drawn in at most [hundredths of the height]."""


@dataclass(frozen=True, slots=True)
class Signature:
    """Who signs, and how: drawn, or the name typed; neither leaves a line to sign on."""

    who: str
    strokes: Strokes = ()
    typed: str = ""


@dataclass(frozen=True, slots=True)
class CardPad:
    """One zone: what is in it, as on its bag, and how it was found."""

    zone: Zone
    label: str
    found: str = ""


@dataclass(frozen=True, slots=True)
class CardReading:
    """A measure with all of its readings, as a person writes them."""

    measure: str
    read: str
    mm: str


@dataclass(frozen=True, slots=True)
class CardPicture:
    """A drawing as SVG, and the same in words for whoever cannot see it."""

    svg: str
    told: str


@dataclass(frozen=True, slots=True)
class FittedCard:
    """Everything on one card.

    Parameters
    ----------
    number, name, about
        The player; position, glasses and what is worn underneath.
    code, model, shell, guard, strap
        The helmet.
    fitted, fitter, until
        When and by whom it was fitted, until when it is certified, in words.
    pads, readings, next_check
        What is in it, what the head read, what to look at next time.
    found
        What was found, stage by stage: its name, how it came out, what was otherwise on the way.
    picture
        Helmet on head.
    signatures
        Player, fitter, guardian.
    warning
        The text that was read aloud, with its version.
    head
        Head of the ledger's chain when the card was printed.
    """

    number: str
    name: str
    about: str
    code: str
    model: str
    shell: int
    guard: str
    strap: str
    fitted: str
    fitter: str
    until: str
    pads: tuple[CardPad, ...]
    readings: tuple[CardReading, ...]
    next_check: tuple[tuple[str, str], ...]
    found: tuple[tuple[str, str, tuple[str, ...]], ...]
    picture: CardPicture | None
    signatures: tuple[Signature, ...]
    warning: str
    head: str
    notes: tuple[str, ...] = field(default=())


def fitted_cards(cards: Sequence[FittedCard]) -> bytes:
    """Half-letter cards, one page each, as one PDF.

    Raises
    ------
    ValueError
        Without cards.
    """
    if not cards:
        raise ValueError("there is nobody to print a card for")
    pictures: dict[str, bytes] = {}
    said = [_card(card, at, pictures) for at, card in enumerate(cards)]
    title = "Cards of fitted helmets"
    if len(cards) == 1:
        title = f"Card of helmet {cards[0].code}"
    return typeset("fitted_card.typ", {"title": title, "cards": said}, pictures)


def signature_svg(strokes: Strokes) -> bytes:
    """A signature as SVG, whatever was drawn scaled into the field.

    Raises
    ------
    ValueError
        For points that are no pair of finite numbers.
    """
    paths = []
    for stroke in strokes:
        points = [(float(x), float(y)) for x, y in stroke]
        if any(not abs(each) < 1e6 for point in points for each in point):
            raise ValueError("a signature has a point far outside its field")
        if points:
            first, rest = points[0], points[1:] or [(points[0][0] + 0.5, points[0][1])]
            line = " ".join(f"L{x:.1f} {y:.1f}" for x, y in rest)
            paths.append(f"M{first[0]:.1f} {first[1]:.1f}{line}")
    wide = max((float(x) for stroke in strokes for x, _ in stroke), default=0.0)
    width = max(FIELD[0], wide + 4.0)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:.0f} {FIELD[1]:.0f}">'
        f'<path d="{"".join(paths)}" fill="none" stroke="black" stroke-width="2.5"'
        ' stroke-linecap="round" stroke-linejoin="round"/></svg>'
    ).encode()


def _card(card: FittedCard, at: int, pictures: dict[str, bytes]) -> dict[str, Any]:
    """One card in words; its pictures are put beside the others."""
    pictures[f"{at}-code.svg"] = code_picture(card.code)
    if card.picture is not None:
        pictures[f"{at}-drawn.svg"] = card.picture.svg.encode()
    pads = sorted(card.pads, key=lambda pad: NUMBERS[pad.zone])
    return {
        "number": card.number,
        "name": card.name,
        "about": card.about,
        "code": card.code,
        "code_file": f"{at}-code.svg",
        "model": card.model,
        "shell": card.shell,
        "face": "; ".join(part for part in (card.guard, card.strap) if part),
        "fitted": card.fitted,
        "fitter": card.fitter,
        "until": card.until,
        "drawn": f"{at}-drawn.svg" if card.picture else "",
        "told": card.picture.told if card.picture else "",
        "pads": [_pad(pad) for pad in pads],
        "readings": [
            {"measure": each.measure, "read": each.read, "mm": each.mm} for each in card.readings
        ],
        "next_check": [{"check": check, "accept": accept} for check, accept in card.next_check],
        "found": [
            {"stage": stage, "told": told, "on_the_way": _some(way)}
            for stage, told, way in card.found
        ],
        "notes": list(card.notes),
        "cautions": CAUTIONS,
        "warning": card.warning,
        "signatures": [_signed(each, at, place, pictures) for place, each in
                       enumerate(card.signatures)],
        "head": card.head,
    }  # fmt: skip


def _some(way: Sequence[str]) -> list[str]:
    """What was otherwise on the way, as far as a card has room for it."""
    more = len(way) - MOST_ON_THE_WAY
    left = [f"And {more} more, in the records."] if more > 0 else []
    return [*way[:MOST_ON_THE_WAY], *left]


def _pad(pad: CardPad) -> dict[str, str]:
    return {
        "number": str(NUMBERS[pad.zone]),
        "zone": str(pad.zone),
        "pad": pad.label.removesuffix(" in"),
        "found": pad.found,
    }


def _signed(
    signature: Signature, at: int, place: int, pictures: dict[str, bytes]
) -> dict[str, str]:
    file = ""
    if signature.strokes:
        file = f"{at}-signed-{place}.svg"
        pictures[file] = signature_svg(signature.strokes)
    return {"who": signature.who, "file": file, "typed": signature.typed}
