"""Pieces of a drawing whose width the page decides: across in percent, down in pixels.

Text keeps its size at every width, which a drawing that is scaled as a whole does not.
"""

from collections.abc import Iterable

from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

from helmwright.web.templatetags.house import SHAPES


def drawing(height: float, parts: Iterable[SafeString], *, told: str, kind: str = "") -> SafeString:
    """A drawing as wide as its place, and what it shows in words."""
    return format_html(
        '<svg class="drawing {}" width="100%" height="{}" role="img" aria-label="{}">{}</svg>',
        kind,
        _number(height),
        told,
        joined(parts),
    )


def joined(parts: Iterable[SafeString]) -> SafeString:
    """Pieces one after the other."""
    return format_html_join("", "{}", ((part,) for part in parts))


def box(x: float, y: float, width: float, height: float, kind: str) -> SafeString:
    """A rectangle: x and width in percent, y and height in pixels."""
    return format_html(
        '<rect class="{}" x="{}%" y="{}" width="{}%" height="{}" />',
        kind,
        _number(x),
        _number(y),
        _number(max(width, 0.0)),
        _number(max(height, 0.0)),
    )


def line(x1: float, y1: float, x2: float, y2: float, kind: str) -> SafeString:
    """A line: x in percent, y in pixels."""
    return format_html(
        '<line class="{}" x1="{}%" y1="{}" x2="{}%" y2="{}" />',
        kind,
        _number(x1),
        _number(y1),
        _number(x2),
        _number(y2),
    )


def words(x: float, y: float, said: object, kind: str = "", *, by: float = 0.0) -> SafeString:
    """Words at x percent and `by` pixels beside it."""
    return format_html(
        '<text class="{}" x="{}%" y="{}" dx="{}">{}</text>',
        kind,
        _number(x),
        _number(y),
        _number(by),
        said,
    )


def mark(x: float, y: float, name: str, *, size: float = 14.0, by: float = 0.0) -> SafeString:
    """A status shape whose upper left corner is at x percent and `by` pixels beside it."""
    return format_html(
        '<svg class="at" x="{}%" y="{}" overflow="visible"><svg class="mark {}" x="{}"'
        ' width="{}" height="{}" viewBox="0 0 24 24">{}</svg></svg>',
        _number(x),
        _number(y),
        name,
        _number(by),
        _number(size),
        _number(size),
        SafeString(SHAPES[name]),
    )


def arrow(x: float, y: float) -> SafeString:
    """A small triangle that points down at x percent."""
    return format_html(
        '<svg class="at" x="{}%" y="{}" overflow="visible"><path class="arrow" d="M-6 0H6L0 9Z" />'
        "</svg>",
        _number(x),
        _number(y),
    )


def hatch(name: str, *, fine: bool = False) -> SafeString:
    """Strokes at 45 degrees for what is not known yet; `name` is the address of the pattern."""
    step = 5 if fine else 8
    return format_html(
        '<defs><pattern id="{0}" width="{1}" height="{1}" patternUnits="userSpaceOnUse"'
        ' patternTransform="rotate(-45)"><line class="stroke" x1="0" y1="0" x2="0" y2="{1}" />'
        "</pattern></defs>",
        name,
        step,
    )


def filled(x: float, y: float, width: float, height: float, kind: str, pattern: str) -> SafeString:
    """A rectangle filled with a pattern."""
    return format_html(
        '<rect class="{}" x="{}%" y="{}" width="{}%" height="{}" fill="url(#{})" />',
        kind,
        _number(x),
        _number(y),
        _number(max(width, 0.0)),
        _number(max(height, 0.0)),
        pattern,
    )


def _number(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")
