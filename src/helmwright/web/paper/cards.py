"""Cards of helmets that were fitted."""

from collections.abc import Iterator, Sequence
from itertools import groupby
from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.utils import timezone

from helmwright.anatomy import MEASURES
from helmwright.catalogue import Zone
from helmwright.records.head import head
from helmwright.records.models import Consent
from helmwright.records.readers.fitted import Fitted, fitted, fitted_on
from helmwright.records.sheets import sheet_of
from helmwright.records.words import room_day, us_date
from helmwright.reports.found import found_by_stage
from helmwright.reports.lengths import fraction, measure_words
from helmwright.reports.paper import (
    CardPad,
    CardPicture,
    CardReading,
    FittedCard,
    Signature,
    fitted_cards,
)
from helmwright.units import millimeters
from helmwright.visit import VisitSummary, fold, protocol_for, summary
from helmwright.web.allowed import allowed
from helmwright.web.guiding.pool import NoAnswerError, guides
from helmwright.web.paper.response import pdf
from helmwright.web.paper.words import model_words
from helmwright.web.station.visit_now import asked_of

NEXT_CHECKS = ("brow", "jaw left", "jaw right", "cup")
"""Checks that a card names for the next look, where the protocol has them."""

SIGNED = (
    "Signed {day}: the warning was read aloud and explained, text {version}, {language}. Pads,"
    " readings, glasses, face guard, strap and date are those of then."
)
UNSIGNED = "Not signed yet."
DRAWN = (
    "Shell {shell} with its pads on the middle head, from the side and from above; illustrative."
)


@allowed("paper-card")
def card(_request: HttpRequest, visit: UUID) -> HttpResponse:
    """The card of one visit."""
    found = fitted(visit, today=timezone.localdate())
    if found is None:
        raise Http404
    return pdf(fitted_cards([_card(found)]), f"card-{found.helmet.code}")


@allowed("paper-cards")
def cards(_request: HttpRequest) -> HttpResponse:
    """The cards of everybody who was fitted today."""
    today = timezone.localdate()
    found = [each for visit in fitted_on(today) if (each := fitted(visit, today=today)) is not None]
    if not found:
        raise Http404
    return pdf(fitted_cards([_card(each) for each in found]), f"cards-{today:%Y-%m-%d}")


def _card(found: Fitted) -> FittedCard:
    visit, helmet, sheet = found.visit, found.helmet, sheet_of(found.visit.sheet)
    protocol = protocol_for(sheet)
    seen = summary(fold(found.events), protocol, sheet)
    answered = _answered(seen)
    return FittedCard(
        number=visit.player.number,
        name=visit.player.name or "Player",
        about=_about(visit.player.position, found.worn, glasses=found.glasses),
        code=helmet.code,
        model=model_words(visit.sheet.model, is_invented=visit.sheet.is_invented),
        shell=helmet.shell,
        guard=found.guard,
        strap=found.strap,
        fitted=us_date(room_day(visit.ended_at or visit.began_at)),
        fitter=visit.fitter.name if visit.fitter else "nobody on record",
        until=us_date(found.certified_until) if found.certified_until else "",
        pads=tuple(
            CardPad(Zone(zone), label, answered.get(zone, "")) for zone, label in found.pads.items()
        ),
        readings=tuple(_readings(found)),
        next_check=tuple(
            (check.title.lower(), check.accept.rstrip("."))
            for check in protocol.checks
            if check.key in NEXT_CHECKS
        ),
        found=tuple(
            (each.stage, each.told, each.on_the_way) for each in found_by_stage(seen, protocol)
        ),
        picture=_picture(found),
        signatures=_signatures(found),
        warning=_warning(found),
        head=str(head()),
        notes=tuple(_consent(each) for each in found.consents),
    )


def _picture(found: Fitted) -> CardPicture | None:
    """The accepted build on the middle head; none where it is not found in time."""
    try:
        answer = guides().ask(asked_of(found.visit, found.written))
    except (NoAnswerError, ValueError):
        return None
    drawn = answer.drawing.get("paper")
    return CardPicture(drawn, DRAWN.format(shell=found.helmet.shell)) if drawn else None


def _consent(given: Consent) -> str:
    """That somebody agreed, without a name."""
    day = us_date(room_day(given.given_at))
    if given.on_paper:
        return f"Consent to the fitting: on paper, {day}."
    who = "a parent or guardian" if given.guardian_id else "the player"
    return f"Consent to the fitting: {who}, to text {given.text_version}, {day}."


def _about(position: str, then: Sequence[str] | None, *, glasses: bool | None) -> str:
    """Position, glasses, and what was worn underneath at the fitting."""
    eyes = {True: "glasses", False: "no glasses", None: ""}[glasses]
    worn = f"worn underneath: {', '.join(then)}" if then else ""
    return "; ".join(part for part in (position, eyes, worn) if part)


def _answered(seen: VisitSummary) -> dict[str, str]:
    """The last answer of each check of the build that was accepted."""
    last = seen.try_ons[-1].checks if seen.try_ons else ()
    return {one.check.key: one.answers[-1].word for one in last}


def _readings(found: Fitted) -> Iterator[CardReading]:
    order = [measure.key for measure in MEASURES]
    rows = sorted(found.readings, key=lambda row: order.index(row.measure))
    for measure, group in groupby(rows, key=lambda row: row.measure):
        values = [row.value_mm for row in group]
        read = ", ".join(fraction(value, denominator=16) for value in values)
        # As read, each: which of them is left out, and what is likeliest, the estimate says.
        mm = ", ".join(millimeters(value).removesuffix(" mm") for value in values)
        yield CardReading(measure_words(measure), read, f"{mm} mm")


def _signatures(found: Fitted) -> tuple[Signature, ...]:
    """Who signed, and lines for those who did not."""
    signed = found.signed
    if signed is None:
        return tuple(Signature(who) for who in ("player", "fitter", "guardian, if a minor"))
    who = "guardian" if signed.signed_by == "guardian" else "player"
    return (_one(who, signed.player_signature), _one("fitter", signed.fitter_signature))


def _one(who: str, said: object) -> Signature:
    if isinstance(said, str):
        return Signature(who, typed=said)
    return Signature(who, strokes=said if isinstance(said, list) else ())


def _warning(found: Fitted) -> str:
    signed = found.signed
    if signed is None:
        return UNSIGNED
    day = us_date(room_day(found.signed_at)) if found.signed_at else ""
    return SIGNED.format(day=day, version=signed.text_version, language=signed.language)
