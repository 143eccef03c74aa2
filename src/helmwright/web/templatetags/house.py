"""Marks and lengths, as every page writes them: {% inches 575 %}, {% status "issued" %}."""

from fractions import Fraction

from django import template
from django.utils import timezone
from django.utils.html import format_html
from django.utils.safestring import SafeString

from helmwright.records.ids import new_id
from helmwright.units import MM_PER_INCH
from helmwright.web.desk.once import FIELD
from helmwright.web.opened_mark import opened_mark

register = template.Library()

HALF = 2
DENOMINATORS = {4: "quarter", 8: "eighth", 16: "sixteenth"}

SHAPES = {
    "yes": '<circle cx="12" cy="12" r="9" />',
    "check": '<path d="M12 2 23 21H1Z" />',
    "no": '<path fill-rule="evenodd" d="M2 2h20v20H2ZM6.2 19.2l13-13-1.4-1.4-13 13Z" />',
    "hold": '<path fill-rule="evenodd" d="M2 2h20v20H2ZM5 5v14h14V5Zm3 3h3v8H8Zm5 0h3v8h-3Z" />',
    "kept": '<path fill-rule="evenodd" d="M12 2a10 10 0 1 0 0 20 10 10 0 0 0 0-20Zm0 2.5'
    'a7.5 7.5 0 0 1 7.5 7.5h-15A7.5 7.5 0 0 1 12 4.5Z" />',
    "unknown": '<circle cx="12" cy="12" r="9" class="dashed" />',
    "proposed": '<path class="line" d="M12 2 22 12 12 22 2 12Z" />',
    "visit": '<path class="line" d="M12 2 22 12 12 22 2 12Z" /><path d="M2 12h20L12 22Z" />',
    "fitted": '<path d="M12 2 22 12 12 22 2 12Z" />',
}
"""What is drawn in a box of 24, by the mark's name; color comes from the class."""


@register.simple_tag
def once() -> SafeString:
    """Makes a form that is sent twice one act."""
    return format_html('<input type="hidden" name="{}" value="{}">', FIELD, new_id(timezone.now()))


@register.simple_tag
def opened(**stands: object) -> SafeString:
    """Carries how things stood when the page was opened."""
    return opened_mark({name: str(now) if now else None for name, now in stands.items()})


@register.simple_tag
def status(mark: str, words: str) -> SafeString:
    """A status: shape, color and word."""
    return format_html(
        '<span class="status {0}"><svg class="mark" viewBox="0 0 24 24" aria-hidden="true">{1}'
        "</svg><span>{2}</span></span>",
        mark,
        SafeString(SHAPES[mark]),
        words,
    )


@register.simple_tag
def inches(value_mm: float | None, sixteenths: int = 1) -> SafeString:
    """A length in inches with its fraction built, for eyes and for ears.

    Parameters
    ----------
    value_mm
        The length [mm]; None gives a dash.
    sixteenths
        What it is rounded to [1/16 in].
    """
    if value_mm is None:
        return SafeString("–")
    whole, numerator, denominator = inch_parts(value_mm, sixteenths)
    if not numerator:
        return format_html('<span class="inches"><span class="whole">{}</span></span>', whole)
    return format_html(
        '<span class="inches" role="img" aria-label="{}">{}<span class="fraction">'
        "<span>{}</span><span>{}</span></span></span>",
        inch_words(whole, numerator, denominator),
        format_html('<span class="whole">{}</span>', whole) if whole else "",
        numerator,
        denominator,
    )


def inch_parts(value_mm: float, sixteenths: int = 1) -> tuple[int, int, int]:
    """Whole inches, numerator and denominator of the length rounded to so many sixteenths."""
    steps = round(value_mm / MM_PER_INCH * 16 / sixteenths) * sixteenths
    part = Fraction(steps % 16, 16)
    return steps // 16, part.numerator, part.denominator


def inch_words(whole: int, numerator: int, denominator: int) -> str:
    """The length as it is read aloud: "22 and 5 eighths inches", "a half inch".

    The station has the same words.
    """
    if not numerator:
        return "1 inch" if whole == 1 else f"{whole} inches"
    if denominator == HALF:
        return f"{whole} and a half inches" if whole else "a half inch"
    said = f"{numerator} {DENOMINATORS[denominator]}{'s' if numerator > 1 else ''}"
    return f"{whole} and {said} inches" if whole else f"{said} of an inch"
