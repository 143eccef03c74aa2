"""The protocol that the package carries, and the protocol of one helmet model."""

from collections import Counter
from dataclasses import replace
from functools import cache
from importlib import resources

from helmwright.catalogue.instruction import Instruction
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import Zone
from helmwright.fit.finding import Grade, Sign
from helmwright.fit.verdict import Bands
from helmwright.units import inches
from helmwright.visit.check import Answer, Check, Length, Part, Stage
from helmwright.visit.check_list import Protocol, Symptom
from helmwright.visit.reading import ProtocolError, parse_protocol

__all__ = [
    "MAKER",
    "MAKER_FIRST",
    "Protocol",
    "ProtocolError",
    "Symptom",
    "UnsuitedProtocolError",
    "has_air",
    "parse_protocol",
    "protocol_for",
    "usual_protocol",
    "usual_protocol_text",
]

_FILE = resources.files("helmwright.visit") / "protocol.toml"

POINTS = "{points}"
"""Stands in a protocol's texts for the number of the chin strap's points."""

MAKER = "the maker's instructions, as the model sheet has them"
"""The source of a criterion that the model sheet gives."""

MAKER_FIRST = "The maker's words, under what is right, come first. Where they leave it open:"
"""What a person reads between the maker's instruction and the usual way to do a check."""

SAME_MM = 0.1
"""Two ends of an interval that differ by less are the same."""

_COUNTS = {4: "four", 6: "six"}


class UnsuitedProtocolError(ValueError):
    """A protocol that does not go with the model: some zone is checked never, or twice."""


@cache
def usual_protocol() -> Protocol:
    """The protocol that the package carries."""
    return parse_protocol(usual_protocol_text(), name="protocol.toml")


def usual_protocol_text() -> str:
    """Its text, to be copied and changed."""
    return _FILE.read_text(encoding="utf-8")


def protocol_for(sheet: ModelSheet, *, base: Protocol | None = None) -> Protocol:
    """The checks of one helmet model.

    Parameters
    ----------
    sheet
        The model.
    base
        The protocol to start from; the usual one where left out.

    Raises
    ------
    UnsuitedProtocolError
        Where a zone that the model pads is not checked exactly once in contact, or the brow is
        not; or where the brow's accepted interval is another than what counts as right.

    Notes
    -----
    A zone without a pad has no check; a model without air cells no check of air. What the maker
    says of a topic stands in the place of the usual criterion and is marked; the usual way to do
    the check follows it, for what the maker leaves open. An accepted interval of the maker's goes
    before the usual one.
    """
    base = base or usual_protocol()
    padded = tuple(pad.zone for pad in sheet.pads if pad.seats)
    _check_covers(base, padded)
    kept = (each for each in base.checks if _concerns(each, sheet, padded))
    checks = tuple(_as_sheet_has_it(each, base, sheet, padded) for each in kept)
    _check_brow(base, checks, Bands.of(sheet))
    told = {each.topic for each in checks}
    more = tuple(each for each in sheet.instructions if each.topic not in told)
    return replace(base, checks=checks, more_by_maker=more)


def has_air(sheet: ModelSheet) -> bool:
    """Whether any zone carries an air cell."""
    return any(pad.cell is not None for pad in sheet.pads)


def _check_covers(base: Protocol, padded: tuple[Zone, ...]) -> None:
    """Refuse a protocol without exactly one contact check of the brow and of each padded zone."""
    contact = base.stage(Stage.CONTACT)
    times = Counter(each.zone for each in contact if each.sign is Sign.ZONE)
    for zone in padded:
        _refuse_unless_once(base, f"zone {zone}", times[zone])
    _refuse_unless_once(base, "brow height", sum(each.sign is Sign.BROW for each in contact))


def _check_brow(base: Protocol, checks: tuple[Check, ...], bands: Bands) -> None:
    """Refuse a brow that is accepted where the chances count it wrong, or the other way about."""
    right = (bands.brow_low_mm, bands.brow_high_mm)
    for check in checks:
        if check.stage is not Stage.CONTACT or check.sign is not Sign.BROW or check.length is None:
            continue
        ends = zip(check.length.accept_mm, right, strict=True)
        if any(abs(one - other) > SAME_MM for one, other in ends):
            asked, counted = (_interval(each) for each in (check.length.accept_mm, right))
            raise UnsuitedProtocolError(
                f'protocol "{base.name}": check "{check.key}" accepts {asked}, and what counts as'
                f" a right build has {counted}. Write the same interval here, or give the model"
                ' sheet an [[instruction]] about "brow height" with yours.'
            )


def _interval(ends_mm: tuple[float, float]) -> str:
    low, high = (inches(each, denominator=16) for each in ends_mm)
    return f"{low} to {high} in"


def _refuse_unless_once(base: Protocol, what: str, times: int) -> None:
    if times == 1:
        return
    found = "is not checked" if times == 0 else f"is checked {times} times"
    raise UnsuitedProtocolError(
        f'protocol "{base.name}": {what} {found} in stage contact. '
        "What decides on a build is asked exactly once there: write one check for it."
    )


def _concerns(check: Check, sheet: ModelSheet, padded: tuple[Zone, ...]) -> bool:
    if check.needs is Part.AIR and not has_air(sheet):
        return False
    return check.zone is None or check.zone in padded


def _as_sheet_has_it(
    check: Check, base: Protocol, sheet: ModelSheet, padded: tuple[Zone, ...]
) -> Check:
    said = sheet.instruction(check.topic) if check.topic else None
    return _by_maker(_with_air(_on_pads(_with_points(check, sheet), padded), base, sheet), said)


def _with_points(check: Check, sheet: ModelSheet) -> Check:
    points = sorted({strap.points for strap in sheet.chin_straps}) or [4, 6]
    counted = " or ".join(_COUNTS.get(each, str(each)) for each in points)

    def told(text: str) -> str:
        return text.replace(POINTS, counted)

    answers = tuple(
        replace(each, says=told(each.says), points_to=told(each.points_to))
        for each in check.answers
    )
    how = tuple(map(told, check.how))
    put_right = told(check.put_right)
    return replace(check, how=how, accept=told(check.accept), answers=answers, put_right=put_right)


def _on_pads(check: Check, padded: tuple[Zone, ...]) -> Check:
    """A check that asks for a place, with the places that the model pads."""

    def there(answer: Answer) -> bool:
        return answer.zone is None or answer.zone in padded

    return replace(check, answers=tuple(filter(there, check.answers)))


def _with_air(check: Check, base: Protocol, sheet: ModelSheet) -> Check:
    if check.zone is None or sheet.pad(check.zone).cell is None or not base.air_put_right:
        return check
    return replace(check, put_right=base.air_put_right, changes=(Part.AIR,))


def _by_maker(check: Check, said: Instruction | None) -> Check:
    """The check with the maker's words in the place of the usual criterion."""
    if said is None:
        return check
    told = replace(
        check, how=(MAKER_FIRST, *check.how), accept=said.says, source=MAKER, by_maker=True
    )
    if check.length is None or said.accept_mm is None:
        return told
    return _with_interval(told, replace(check.length, accept_mm=said.accept_mm))


def _with_interval(check: Check, length: Length) -> Check:
    """The check with another accepted interval, in its answers too."""
    low, high = map(inches, length.accept_mm)
    says = {
        Grade.UNDER: f"Under {low} in.",
        Grade.RIGHT: f"From {low} to {high} in.",
        Grade.OVER: f"Over {high} in.",
    }
    answers = tuple(replace(each, says=says[each.grade]) for each in check.answers)
    accept = f"{check.accept.rstrip('. ')}: from {low} to {high} in."
    return replace(check, accept=accept, length=length, answers=answers)
